// @ts-check
/** A plan that goes as far as what is known: what of it can be drawn, and what is missing next. */
import { el } from "../lib/dom.js";

const NOTHING = {
  levels: { areas: [], steps: [], findings: [], studies: [] },
  laying: { areas: [], findings: [] },
  build_ups: { areas: [], findings: [], retained: [], open_edges: [] },
  earthworks: { areas: [], findings: [] },
  water: { catchments: [], soakaways: [], drains: [], findings: [] },
  setting_out: { pegs: [], strings: [], base_lines: [], checks: [], services: [], findings: [] },
  hold_points: { holds: [], findings: [], day_h: null, finds: [] },
};

/**
 * A plan for its drawing alone: a room that is not made draws nothing.
 * @param {PlanSoFar} plan
 * @returns {Plan}
 */
export function drawable(plan) {
  const made = Object.entries(plan).filter(([, room]) => room !== null);
  return /** @type {any} */ ({ ...plan, ...NOTHING, ...Object.fromEntries(made) });
}

/** @typedef {import("../lib/lists.js").Stage} Stage */
/** @typedef {import("./plan/print.js").Measured} Measured */

/** Whether some rooms of a plan are made. @param {PlanSoFar|Plan} plan @param {string[]} rooms */
export const made = (plan, rooms) => rooms.every((room) => /** @type {any} */ (plan)[room] !== null);

/** Whether there is all that a stage shows. @param {JobState} one @param {Stage} stage @returns {one is Planned} */
export const planned = (one, stage) => one.plan !== null && made(one.plan, stage.needs);

/** Whether there is an area to be printed. @param {JobState} one @returns {one is Measured} */
export const measured = (one) => (one.plan?.survey.site.areas.length ?? 0) > 0;

/** What has to be put right before the job makes a plan, or more of one. @param {JobState} state */
export function faultBox(state) {
  const older = state.plan && state.planIsOf !== state.doc ? "The plan is of the job as it was before. " : "";
  return el(
    "div",
    { class: "finding stop", role: "alert" },
    el(
      "p",
      {},
      el("span", { class: "word", text: "■ TO FIX" }),
      el("span", { text: `${older}Nothing you typed is lost.` }),
    ),
    el("ul", {}, ...state.faults.slice(0, 12).map((fault) => el("li", { text: fault.message }))),
  );
}

/** @param {plan.Missing} one @param {(key: string) => void} open opens a stage */
const line = (one, open) =>
  el("a", {
    href: `#${one.stage}`,
    text: one.words,
    on: {
      click: (/** @type {Event} */ event) => {
        event.preventDefault();
        open(one.stage);
      },
    },
  });

/**
 * What to measure, see or enter next, in one line that opens its stage; nothing where nothing is missing.
 * @param {PlanSoFar} plan
 * @param {(key: string) => void} open
 * @returns {Node[]}
 */
export function nextLine(plan, open) {
  const [first] = plan.missing;
  if (!first || plan.faults.length) return []; // what contradicts itself comes first, in a box of its own
  return [el("p", { class: "missing" }, el("span", { class: "word", text: "Next: " }), line(first, open))];
}

/**
 * Why a stage has nothing to show yet.
 * @param {PlanSoFar} plan
 * @param {Stage} stage
 * @param {(key: string) => void} open
 * @returns {Node[]}
 */
export function notYet(plan, stage, open) {
  const blocking = plan.missing.filter((one) => one.rooms.length),
    mine = blocking.filter((one) => one.rooms.some((room) => stage.leans_on.includes(room))),
    why = mine.length ? mine : blocking;
  const more = why.filter((one) => one !== plan.missing[0] && one.code !== "readings");
  if (!more.length) return [el("p", { class: "quiet", text: "Not known yet: that comes first." })];
  return [
    el("p", { class: "quiet", text: "Not known yet. It also needs:" }),
    el("ul", { class: "plain" }, ...more.map((one) => el("li", {}, line(one, open)))),
  ];
}
