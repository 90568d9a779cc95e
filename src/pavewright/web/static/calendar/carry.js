// @ts-check
/** A part in the hand: where it would stand, what that breaks and costs by the room's own check, moved or put back. */
import { el, hush, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { later, mondayOf, workingDay } from "./days.js";
import { consequences } from "./move.js";
import { jobOf, personName, state, undo } from "./state.js";

/**
 * @typedef {object} Held
 * @property {any} booking the part
 * @property {string} person in whose row it was taken; empty where it was taken for everybody
 * @property {string} to the first day that it would have
 * @property {string} comes who would go instead of the person
 * @property {boolean} dropped whether it was let go: then it is asked whether to move it
 * @property {string} shown the aim of which the panel speaks
 * @property {any} told what the server found of it
 * @property {boolean} asking
 */

/** @type {Held|null} */
let held = null;
const panel = el("section", { class: "crew-held no-print", "aria-label": "Part in the hand" }),
  words = el("div", { role: "status", class: "crew-words" }),
  move = el("button", { type: "button", class: "main", text: "Move", on: { click: () => keep() } }),
  back = el("button", { type: "button", text: "Put back", on: { click: () => putBack() } }),
  choice = el("div", { class: "row" }, move, back);
panel.append(words, choice);

export const carrying = () => held !== null;

/** @param {Held} one */
const aimOf = (one) => `${one.to} ${one.comes}`;

/** Whether it would stand where it stands. @param {Held} one */
const atHome = (one) => one.to === one.booking.days[0].on && one.comes === one.person;

/** Take a part in the hand. @param {any} booking @param {string} person */
export function take(booking, person) {
  hush();
  held = {
    booking,
    person,
    to: booking.days[0].on,
    comes: person,
    dropped: false,
    shown: "",
    told: null,
    asking: false,
  };
  state.held = true;
  document.body.append(panel);
  show();
}

/** Aim at a first day and at who goes. @param {string} to @param {string} comes */
export function aim(to, comes) {
  if (!held || (held.to === to && held.comes === comes)) return;
  held.to = to;
  held.comes = comes;
  show();
  look(held);
}

/**
 * Move the aim some working days and some people on, as the arrow keys do.
 * @param {number} days @param {number} rows
 */
export function step(days, rows) {
  if (!held) return;
  held.dropped = true;
  const people = state.told.people.map((/** @type {any} */ one) => one.id),
    at = people.indexOf(held.comes),
    next = people[Math.min(people.length - 1, Math.max(0, at + rows))];
  aim(days ? workingDay(held.to, days) : held.to, at < 0 ? held.comes : next);
  show();
}

/** Let it go where it is aimed: it is asked whether to move it. */
export function drop() {
  if (!held) return;
  if (atHome(held)) return putBack();
  held.dropped = true;
  show();
  move.focus();
}

export function putBack() {
  if (!held) return;
  const { job, stretch } = held.booking;
  held = null;
  state.held = false;
  panel.remove();
  marked();
  focusOn(job, stretch);
}

/** What is asked of the server. @param {Held} one */
const asked = (one) => ({
  rev: state.told.rev,
  job: one.booking.job,
  stretch: one.booking.stretch,
  to: one.to,
  ...(one.comes === one.person ? {} : { comes: [one.comes], leaves: [one.person] }),
});

/** Ask what breaks and what it costs: one question on its way at a time, the newest aim next. @param {Held} one */
async function look(one) {
  if (one.asking) return;
  one.asking = true;
  while (held === one && one.shown !== aimOf(one) && !atHome(one)) {
    const aimed = aimOf(one);
    try {
      one.told = await call("POST", "/api/calendar/move", asked(one));
    } catch (problem) {
      one.told = { problem: messageOf(problem) };
    }
    one.shown = aimed;
  }
  one.asking = false;
  if (held === one) show();
}

/** Whether what is shown is what the server found of the aim, and can be kept. @param {Held} one */
const known = (one) => one.shown === aimOf(one) && !one.told.problem;

function show() {
  if (!held) return;
  const one = held,
    job = jobOf(one.booking.job),
    other = one.comes === one.person ? "" : `, ${personName(one.comes)}`;
  panel.classList.toggle("dropped", one.dropped);
  panel.dataset.aim = aimOf(one);
  choice.hidden = !one.dropped;
  marked(one);
  const part = job.stretches.length > 1 ? `, part ${one.booking.stretch + 1}` : "";
  const head = el("p", {}, el("b", { text: `${job.title}${part}${other}` }));
  if (atHome(one)) words.replaceChildren(head, el("p", { text: "It stands here." }));
  else if (one.shown !== aimOf(one)) words.replaceChildren(head, el("p", { text: "Looking …" }));
  else if (one.told.problem) words.replaceChildren(head, el("p", { text: one.told.problem }));
  else words.replaceChildren(head, ...consequences(one.told));
  move.disabled = !known(one) || atHome(one);
  panel.dataset.known = String(known(one) || atHome(one));
}

/** Mark where it would stand. @param {Held} [one] */
function marked(one) {
  for (const cell of document.querySelectorAll(".dropped-on")) cell.classList.remove("dropped-on");
  if (!one) return;
  const row = one.comes ? `[data-person="${one.comes}"]` : "";
  document.querySelector(`.crew-page ${row}[data-day="${one.to}"]`)?.classList.add("dropped-on");
}

/** Keep it where it is aimed, once what that does is known. */
export async function keep() {
  if (!held || !known(held)) return;
  const one = held,
    before = state.told.document,
    { job, stretch } = one.booking;
  move.disabled = true;
  try {
    await call("POST", "/api/calendar/move", { ...asked(one), keep: true });
    state.undo.push(before);
    const last = later(state.from, 7 * state.weeks - 1);
    if (one.to < state.from || one.to > last) state.from = mondayOf(one.to);
    putBack();
    await state.load();
    tell("Moved.", { label: "Undo", act: undo });
  } catch (problem) {
    putBack();
    await state.load();
    tell(messageOf(problem));
  }
  focusOn(job, stretch);
}

/** @param {string} job @param {number} stretch */
function focusOn(job, stretch) {
  const found = document.querySelector(`.crew-stretch[data-job="${job}"][data-stretch="${stretch}"]`);
  /** @type {HTMLElement|null} */ (found)?.focus({ preventScroll: true });
}

addEventListener("keydown", (event) => {
  if (event.key === "Escape" && carrying()) {
    event.preventDefault();
    putBack();
  }
});
