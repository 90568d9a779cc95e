// @ts-check
/** The day of one person on one sheet, for the screen and for paper; no money stands on it. */
import { el, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { said } from "./days.js";

/** @param {string} title @param {string[]} lines */
const part = (title, lines) =>
  lines.length
    ? el("div", {}, el("h3", { text: title }), el("ul", {}, ...lines.map((text) => el("li", { text }))))
    : null;

/** @param {any} job */
function work(job) {
  return el(
    "section",
    {},
    el("h2", { text: job.title }),
    el("p", {}, el("b", { text: job.address || "No address is entered." })),
    el("p", { text: job.from ? `${job.from} – ${job.until}` : "No hours are known." }),
    el("p", { text: job.with.length ? `With ${job.with.join(", ")}` : "Alone." }),
    part(
      "To do",
      job.known
        ? job.tasks.map((/** @type {any} */ each) => `${each.words}${each.rain ? " (☂ needs a dry day)" : ""}`)
        : ["The work has changed since this day was arranged: ask before you go."],
    ),
    part(
      "Stop and have it looked at",
      job.holds.map((/** @type {any} */ each) => each.words),
    ),
    part("Bring", [...job.machines, ...job.materials]),
    part("Mind", job.cautions),
    job.weather_known ? null : el("p", { class: "quiet", text: "No weather is known for this job." }),
  );
}

/** @param {string} person @param {string} on @returns {Promise<HTMLElement|null>} */
export async function daySheet(person, on) {
  try {
    const told = await call("GET", `/api/calendar/sheet?person=${encodeURIComponent(person)}&on=${on}`);
    const head = el("h2", { text: `${told.name}, ${said(on, { weekday: "long", day: "numeric", month: "long" })}` });
    const none = told.away ? "Away." : "Nothing stands on this day.";
    return el(
      "article",
      { class: "crew-day-sheet" },
      head,
      ...(told.jobs.length ? told.jobs.map(work) : [el("p", { text: none })]),
    );
  } catch (problem) {
    tell(messageOf(problem));
    return null;
  }
}
