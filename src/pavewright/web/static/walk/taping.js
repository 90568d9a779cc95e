// @ts-check
/** Tapes: the first one begins the base line, laid so that the shape stays as it was drawn. */
import { baseFor } from "../lib/shape.js";
import { askingPad } from "./asking.js";
import { asked } from "./parts.js";
import { sidesOf } from "./places.js";

/** @typedef {import("./frame.js").Walk} Walk */

const BOUNDS = { low_mm: 30, high_mm: 100_000 }; // asks below and above

/**
 * The line from which everything is measured: along a house wall where there is one.
 * @param {any} doc
 * @returns {[string, string]|null}
 */
export function baseOf(doc) {
  const plan = doc.measurements?.tape_plan;
  if (plan) return [plan.base_from, plan.base_to];
  const sides = sidesOf(doc),
    walls = (doc.site?.walls ?? []).filter((/** @type {any} */ wall) => wall.kind === "house");
  const side =
    sides.find((one) => walls.some((/** @type {any} */ wall) => wall.start === one.from && wall.end === one.to)) ??
    sides[0];
  return side ? [side.from, side.to] : null;
}

/** @param {any} draft @param {string} start @param {string} end @param {number} length_mm */
export function putTape(draft, start, end, length_mm) {
  const m = (draft.measurements ??= {}),
    base = baseOf(draft) ?? [start, end],
    [from, to] = [start, end].every((name) => base.includes(name)) ? base : [start, end];
  m.tape_plan ??= { ...baseFor(m.sketch ?? [], from, to), tapes: [] };
  (m.tape_plan.tapes ??= []).push({ start, end, length_mm });
}

/**
 * What a tape should read about, once the sketch has its scale.
 * @param {Walk} here
 * @param {string} from
 * @param {string} to
 */
function expected(here, from, to) {
  const [a, b] = [here.places.at.get(from), here.places.at.get(to)],
    tapes = here.doc.measurements?.tape_plan?.tapes ?? [];
  return a && b && tapes.length >= 2 ? Math.hypot(b[0] - a[0], b[1] - a[1]) : null;
}

/**
 * The question of one tape.
 * @param {Walk} here @param {string} from @param {string} to
 * @param {{words?: string, count?: string, after: (length_mm: number) => void}} wish
 * @returns {Node[]}
 */
export const tapePad = (here, from, to, wish) => [
  asked(wish.words ?? `Tape ${from} to ${to}`, wish.count),
  ...askingPad(here, {
    label: `Tape ${from} to ${to}`,
    keep: "Save tape",
    bounds: { ...BOUNDS, expected_mm: expected(here, from, to) },
    onKeep: async (length_mm) => {
      const kept = await here.change(`Tape ${from} to ${to}`, (draft) => putTape(draft, from, to, length_mm));
      if (kept) wish.after(length_mm);
    },
  }),
];
