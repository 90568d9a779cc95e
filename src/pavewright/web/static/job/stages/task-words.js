// @ts-check
/** What is said of a task: when, who, how much later it may be, and why it does not begin earlier. */
import { day, plain, spoken } from "../../lib/words.js";

/** @param {string} iso */
export const clock = (iso) => `${day(iso)} ${iso.slice(11, 16)}`;

/** @param {plan.Programme} programme @param {plan.Task} task */
export function gangName(programme, task) {
  if (task.gang === null) return "";
  const gang = programme.gangs[task.gang];
  return gang.name || `${gang.people} people`;
}

/** Working time in days and hours. @param {number} minutes @param {number} hoursOfDay */
function timeWords(minutes, hoursOfDay) {
  const hours = Math.round(minutes / 60),
    days = Math.floor(hours / hoursOfDay),
    rest = Math.round(hours - days * hoursOfDay);
  if (minutes < 60) return `${plain(minutes)} min`;
  return [days ? `${days} d` : "", rest ? `${rest} h` : ""].filter(Boolean).join(" ");
}

/** @param {plan.Task} task @param {Planned["plan"]["job"]} job */
export function floatWords(task, job) {
  if (task.done_percent >= 100) return "done";
  if (task.critical) return "none: critical";
  return timeWords(task.total_float_min, task.wait ? 24 : job.crew.hours_per_day);
}

/** Why a task does not begin earlier. @param {plan.Programme} programme @param {plan.Task} task */
export function heldWords(programme, task) {
  const { kind, key, plant } = task.held_by,
    other = programme.tasks.find((one) => one.key === key),
    named = other ? `“${other.description}” (until ${clock(other.finish)})` : "";
  switch (kind) {
    case "start":
      return "It begins with the job.";
    case "task":
      return `It cannot begin earlier: ${named} has to end first.`;
    case "gang":
      return `It cannot begin earlier: its gang is at ${named}.`;
    case "plant":
      return `It cannot begin earlier: the ${spoken(plant ?? "").toLowerCase()} is at ${named}.`;
    case "pin":
      return `It does not begin earlier because it is pinned to ${day(task.pinned_on ?? task.start)}.`;
    case "done":
      return task.done_percent >= 100
        ? "It is done."
        : "It is planned from the day after the last that is shown as done.";
  }
}
