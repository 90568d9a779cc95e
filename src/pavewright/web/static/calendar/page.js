// @ts-check
/** The calendar of the firm: who is where on which day, what breaks, and how good it is. */
import { el, find, say, tell } from "../lib/dom.js";
import { listenForKeys } from "../lib/keys.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { later, mondayOf, said } from "./days.js";
import { dayList, grid, how } from "./grid.js";
import { breakList, openJob } from "./move.js";
import { daySheet } from "./sheet.js";
import { changed, keep, state, undo } from "./state.js";
import { openFirm, openPerson } from "./who.js";

// a sheet of paper is narrow too: what stands on the screen is what is printed
const narrow = matchMedia("screen and (max-width: 800px)"),
  paper = matchMedia("print");
let found = "",
  /** Whether the day of one person stands in the place of the calendar. */ sheetStands = false;

/** @param {string} text @param {() => void} act @param {string} [kind] @param {boolean} [off] */
const button = (text, act, kind = "", off = false) =>
  el("button", { type: "button", class: kind, text, disabled: off, on: { click: act } });

/** @param {number} days */
function go(days) {
  state.from = days ? later(state.from, days) : mondayOf(state.told.today);
  draw();
}

const locked = () => (state.told.document.locked_weeks ?? []).includes(state.from);

/** In a week that is locked everything stays where it is when the rest settles. */
const lock = () =>
  changed((document) => {
    const others = (document.locked_weeks ?? []).filter((/** @type {string} */ each) => each !== state.from);
    document.locked_weeks = locked() ? others : [...others, state.from].sort();
  }, "a week locked or unlocked");

function tools() {
  const may = state.told.may_change;
  const weeks = el(
    "select",
    { "aria-label": "How many weeks", on: { change: () => ((state.weeks = Number(weeks.value)), draw()) } },
    el("option", { value: "1", text: "One week" }),
    el("option", { value: "2", text: "Two weeks" }),
    el("option", { value: "4", text: "Four weeks" }),
  );
  weeks.value = String(state.weeks);
  const seldom = [
    ...(may
      ? [button(locked() ? "Unlock this week" : "Lock this week", lock), button("Machines and closed days", openFirm)]
      : []),
    button("Print", () => print()),
  ];
  find("#tools").replaceChildren(
    button("Earlier", () => go(-7)),
    button("Today", () => go(0)),
    button("Later", () => go(7)),
    weeks,
    ...(may
      ? [button("Let it settle", settle, "main", state.told.waiting > 0), button("Undo", undo, "", !state.undo.length)]
      : []),
    ...(narrow.matches
      ? [el("details", {}, el("summary", { text: "More" }), el("div", { class: "row" }, ...seldom))]
      : seldom),
  );
  // with nobody to send or nothing to do there is nothing to turn over, to settle or to print
  find("#tools").hidden = !state.told.people.length || !canBePlaced();
}

/** Whether a job stands on the calendar or could. */
const canBePlaced = () =>
  state.told.waiting > 0 ||
  Boolean(state.told.document.bookings?.length) ||
  Object.values(state.told.jobs).some((job) => job.on);

/** What comes first on an empty calendar; null where it is done. */
function firstSteps() {
  const { people, waiting, document } = state.told;
  if (!people.length)
    return el("p", {}, "First ", el("a", { href: "/firm", text: "enter the people of the firm" }), ".");
  if (!canBePlaced())
    return el(
      "p",
      {},
      "Now a job: one that is accepted goes on the calendar, one that is quoted can be pencilled in. ",
      el("a", { href: "/", text: "All jobs" }),
      ".",
    );
  if (!document.bookings?.length && !waiting)
    return el("p", { text: "Nothing is placed yet: Let it settle finds days and people for the jobs below." });
  return null;
}

async function settle() {
  const told = find("#told"),
    rev = state.told.rev;
  try {
    const { long_task: name } = await call("POST", "/api/calendar/arrange", {});
    const stop = button("Stop and keep the best so far", () => call("DELETE", `/api/long-tasks/${name}`));
    find("#tools").append(stop);
    for (;;) {
      const far = await call("GET", `/api/calendar/arrange/${name}`);
      if (far.state === "done") break;
      if (!["waiting", "working"].includes(far.state)) {
        if (far.so_far) return void (await settled(far.so_far, rev, `${far.message || "Stopped."} The best so far: `));
        return void (say(told, far.message || "Stopped before anything was found."), draw());
      }
      say(told, far.told.at(-1) ?? "Waiting …");
      await new Promise((next) => setTimeout(next, 300));
    }
    await settled(JSON.parse(await asText(name)), rev, "");
  } catch (problem) {
    tell(messageOf(problem));
    draw();
  }
}

/** Keep what a search found, with how good it is. @param {any} made @param {number} rev @param {string} begin */
async function settled(made, rev, begin) {
  if (state.told.rev !== rev) return void tell("The calendar was changed meanwhile: let it settle again.");
  const days = made.job_days.toFixed(1);
  const [least, gap] = [made.bound_job_days, made.gap_percent];
  found =
    least > 0
      ? `${begin}No calendar of these jobs is below ${least.toFixed(1)} job-days; this one has ${days}: a gap of ` +
        `${gap.toFixed(1)} %.`
      : `${begin}${days} job-days; nothing is known to hold that against.`;
  found += ` ${weighedWords(made.weighed)}`;
  const left = made.not_placed.map((/** @type {any} */ each) => `${state.told.jobs[each.job]?.title}: ${each.words}`);
  if (left.length) found += ` Without a place: ${left.join(" ")}`;
  if (made.skills_nobody_has.length) found += ` Nobody is down as: ${made.skills_nobody_has.join(", ")}.`;
  await keep(JSON.parse(made.document), "settled");
}

/** What weighs in a calendar, as far as anything does. @param {any} weighed */
function weighedWords(weighed) {
  /** @type {[number, string][]} */ const parts = [
    [weighed.done, "until the jobs are done"],
    [weighed.late, "after promised days"],
    [weighed.rain, "rain"],
    [weighed.moved, "parts moved"],
    [weighed.changing, `changes of place, ${weighed.place_changes} of them`],
  ];
  const words = parts.filter(([days]) => days).map(([days, what]) => `${days.toFixed(1)} ${what}`);
  const hours = Math.round(weighed.travel_min / 60);
  const way = hours ? ` On the way: ${hours} h in all, the same in every calendar of these jobs.` : "";
  return `Of these: ${words.join("; ")}.${way}`;
}

/** @param {string} name */
async function asText(name) {
  const told = await call("GET", `/api/long-tasks/${name}/result`);
  return typeof told === "string" ? told : JSON.stringify(told);
}

function people() {
  return el(
    "section",
    { class: "no-print" },
    el("h2", { text: "People" }),
    el(
      "ul",
      { class: "crew-list" },
      ...state.told.people.map((/** @type {any} */ person) =>
        el(
          "li",
          { class: "row" },
          button(person.name, () => (state.told.may_change ? openPerson(person) : showSheet(person.id))),
          button("Sheet of today", () => showSheet(person.id)),
        ),
      ),
    ),
  );
}

/** @param {string} person @param {string} [on] the day; today where none is said */
async function showSheet(person, on = state.told.today) {
  const sheet = await daySheet(person, on);
  if (!sheet) return;
  sheetStands = true;
  const days = el(
    "p",
    { class: "row no-print" },
    button("Back to the calendar", draw),
    button("Day before", () => showSheet(person, later(on, -1))),
    button("Day after", () => showSheet(person, later(on, 1))),
    button("Print", () => print()),
  );
  find("#tools").hidden = true;
  say(find("#told"), "");
  find("#shown").replaceChildren(days, sheet);
  find("#below").replaceChildren();
}

/** Jobs with their dates; those that stand nowhere say why. */
function jobs() {
  const out = new Map(state.told.not_placed.map((/** @type {any} */ each) => [each.job, each]));
  const rows = Object.entries(state.told.jobs)
    .filter(([, job]) => job.on || ["quoted", "visit", "enquiry"].includes(job.state))
    .sort(([, one], [, other]) => one.title.localeCompare(other.title, undefined, { numeric: true }));
  return el(
    "section",
    { class: "no-print" },
    el("h2", { text: "Jobs" }),
    rows.length
      ? null
      : el("p", {
          class: "quiet",
          text: state.told.waiting ? "Still being worked out." : "No job is priced or accepted yet.",
        }),
    el(
      "ul",
      { class: "crew-list" },
      ...rows.map(([id, job]) => {
        const none = out.get(id);
        const words = !job.known
          ? `its length is not known: ${job.missing?.[0] ?? ""}`
          : none
            ? "has no days yet"
            : job.on
              ? `${job.stretches.length} ${job.stretches.length === 1 ? "part" : "parts"}`
              : "not on the calendar";
        const assumed = job.known && job.start_assumed ? "; length as if it began today" : "";
        return el(
          "li",
          { class: "row" },
          button(job.title, () => (state.told.may_change ? openJob(id) : location.assign(`/jobs/${id}`))),
          el("span", { text: `${job.state_words ? `${job.state_words}: ` : ""}${words}${assumed}` }),
        );
      }),
    ),
  );
}

function draw() {
  const told = state.told;
  sheetStands = false;
  tools();
  const waiting = told.waiting
    ? `${told.waiting} ${told.waiting === 1 ? "job is" : "jobs are"} still being worked out. `
    : "";
  const first = firstSteps();
  say(find("#told"), `${waiting}${found}` || (first ? "" : `From ${said(state.from)}`));
  const shown = first ?? (narrow.matches ? dayList() : grid());
  const parts = told.may_change && told.document.bookings?.length;
  find("#shown").replaceChildren(...(parts ? [how(), shown] : [shown]));
  const breaks = breakList(told.broken, "What breaks");
  find("#below").replaceChildren(...(breaks ? [breaks] : []), jobs(), ...(told.people.length ? [people()] : []));
}

async function load() {
  if (state.held) return void setTimeout(load, 1500);
  try {
    const told = await call("GET", "/api/calendar");
    if (state.held) return void setTimeout(load, 1500);
    state.told = told;
    if (state.told.unnumbered && state.told.may_change) {
      await call("POST", "/api/calendar/people", {});
      state.told = await call("GET", "/api/calendar");
    }
    state.from ||= mondayOf(state.told.today);
    if (!sheetStands) draw();
    if (state.told.waiting) setTimeout(load, 1500);
  } catch (problem) {
    say(find("#told"), messageOf(problem));
    find("#shown").replaceChildren(button("Try again", load));
  }
}

state.draw = draw;
state.load = load;
narrow.addEventListener("change", () => paper.matches || sheetStands || draw());
listenForKeys([]);
await load();
