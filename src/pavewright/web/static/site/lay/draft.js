// @ts-check
/** What was read of the unit in hand, kept at every key until it is saved. */
import { el } from "../../lib/dom.js";
import { staffLevel } from "../../lib/kernel.js";
import { padFor, picker, set } from "../parts.js";
import { datums, knownLevels } from "../reading.js";
import { noDatum } from "../staff.js";
import { linesOf } from "./units.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {{way: string, corners: (number|null)[], first: number|null, lines: Record<string, number>, rocks: string,
 *   bed: number|null, at: string|null}} Draft what was read of the unit in hand */

/** @param {Here} here @param {plan.UnitToLay} unit @returns {Draft} */
export function draftOf({ ui }, unit) {
  const had = ui.layDraft;
  if (had?.piece === unit.piece && had.corners.length === unit.corners.length)
    return { ...had, way: ui.layWay ?? had.way };
  return {
    way: ui.layWay ?? "wedge",
    corners: unit.corners.map(() => null),
    first: null,
    lines: {},
    rocks: "",
    bed: null,
    at: null,
  };
}

/** A unit that moved: nothing that was read of it holds. @param {Draft} draft @returns {Draft} */
export const afresh = (draft) => ({
  ...draft,
  ...{ corners: draft.corners.map(() => null), first: null, lines: {}, rocks: "", bed: null, at: null },
});

/** @param {Here} here @param {plan.UnitToLay} unit @param {Draft} draft */
export function put(here, unit, draft) {
  set(here, { layDraft: { ...draft, piece: unit.piece }, layTyped: "", typed: "" });
}

/** What is read next: a corner, or a line of a digital level. @param {Draft} draft @param {plan.UnitToLay} unit */
export function next(draft, unit) {
  if (draft.way === "percent") {
    const line = linesOf(unit).find((each) => draft.lines[each] === undefined) ?? null;
    return draft.first === null ? { corner: 0, line: null } : { corner: null, line };
  }
  const asked = draft.at === null ? null : Number(draft.at),
    open = draft.corners.indexOf(null);
  return { corner: asked ?? (open < 0 ? null : open), line: null };
}

/**
 * The height of the instrument over the datum, or what is asked before it is known.
 * @param {Here} here @returns {{height: number, ask: Node[]|null, datum: string}}
 */
export function staffDatum(here) {
  const known = knownLevels(here.doc, here.view),
    choices = datums(here.doc, here.view),
    datum = choices.includes(here.ui.layDatum) ? here.ui.layDatum : (choices[0] ?? ""),
    back = here.ui.layBack_mm;
  if (!datum) return { height: 0, ask: [noDatum()], datum };
  const height = staffLevel(Number(known.get(datum)), back ?? 0, 0);
  if (typeof back === "number") return { height, ask: null, datum };
  const ask = /** @type {Node[]} */ ([
    picker("Datum", choices, datum, (layDatum) => set(here, { layDatum })),
    el("p", { class: "ask", text: `First read the staff on ${datum}.` }),
    padFor(here, `Staff reading on ${datum}`, "Save reading", (value) =>
      set(here, { layBack_mm: Math.round(value), typed: "" }),
    ),
  ]);
  return { height, ask, datum };
}
