// @ts-check
/** Tapes: kept with the base line and the side on which a new point lies, which the sketch tells. */
import { askingPad } from "./asking.js";
import { asked } from "./parts.js";
import { sidesOf } from "./places.js";

/** @typedef {import("./frame.js").Walk} Walk */

const BOUNDS = { low_mm: 30, high_mm: 100_000 }; // asks below and above

/** The line from which everything is measured: along a house wall where there is one. @param {any} doc @returns {[string, string]|null} */
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

/** Left or right of a line, by the places on the sketch. @param {Walk} here @param {string} point @param {[string, string]} line */
function handOf(here, point, [from, to]) {
  const [at, a, b] = [point, from, to].map((name) => here.places.at.get(name));
  if (!at || !a || !b) return null;
  return (b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0]) >= 0 ? "left" : "right";
}

/**
 * Keep a tape. The first begins the base line where it lies on the sketch.
 * @param {Walk} here @param {string} start @param {string} end @param {number} length_mm
 */
export function keepTape(here, start, end, length_mm) {
  return here.change(`Tape ${start} to ${end}`, (draft) => putTape(here, draft, start, end, length_mm));
}

/** @param {Walk} here @param {any} draft @param {string} start @param {string} end @param {number} length_mm */
export function putTape(here, draft, start, end, length_mm) {
  const m = (draft.measurements ??= {}),
    plan = (m.tape_plan ??= begun(here, start, end));
  (plan.tapes ??= []).push({ start, end, length_mm });
  const base = /** @type {[string, string]} */ ([plan.base_from, plan.base_to]),
    known = new Set([...base, ...(plan.sides ?? []).map((/** @type {any} */ one) => one.point)]);
  for (const point of [start, end]) {
    const side = known.has(point) ? null : handOf(here, point, base);
    if (side) (plan.sides ??= []).push({ point, line_from: base[0], line_to: base[1], side });
  }
}

/** @param {Walk} here @param {string} start @param {string} end */
function begun(here, start, end) {
  const base = baseOf(here.doc),
    mine = base && [start, end].every((name) => base.includes(name)) ? base : [start, end],
    [a, b] = mine.map((name) => here.places.at.get(name));
  const at = a ?? [0, 0],
    to = b ?? [at[0] + 1, at[1]],
    bearing = (Math.atan2(to[0] - at[0], to[1] - at[1]) * 180) / Math.PI;
  return {
    base_from: mine[0],
    base_to: mine[1],
    x_mm: at[0],
    y_mm: at[1],
    bearing_deg: (Math.round(bearing * 10) / 10 + 360) % 360,
    tapes: [],
    sides: [],
  };
}

/** What a tape should read about, once the sketch has its scale. @param {Walk} here @param {string} from @param {string} to */
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
      if (await keepTape(here, from, to, length_mm)) wish.after(length_mm);
    },
  }),
];
