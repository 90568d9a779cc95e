// @ts-check
/** Where points lie now: given ones, those that tapes fix, and those of the finger sketch until then. */

import { shape } from "../lib/shape.js";

/**
 * @typedef {import("../lib/shape.js").Shape} Shape
 * @typedef {{
 *   at: Map<string, number[]>, shape: Shape, firm: (name: string) => boolean, toSketch: (at: number[]) => number[]
 * }} Places
 */

/** @param {any} doc @returns {Places} */
export function placesOf(doc) {
  const found = shape(doc ?? {}),
    at = new Map(),
    measured = new Set();
  for (const point of found.points) {
    if (point.x_mm !== null && point.y_mm !== null) at.set(point.name, [point.x_mm, point.y_mm]);
    if (point.state === "measured") measured.add(point.name);
  }
  return { at, shape: found, firm: (name) => measured.has(name), toSketch: (where) => [...found.toSketch(where)] };
}

/** Names of the points of all outlines, in their order. @param {any} doc @returns {string[]} */
export const cornersOf = (doc) => [
  ...new Set(
    (doc.areas ?? []).flatMap((/** @type {any} */ area) => area.outline.map((/** @type {any} */ one) => one.point)),
  ),
];

/**
 * Sides of all outlines.
 * @param {any} doc
 * @returns {{area: number, index: number, from: string, to: string, rise_mm: number}[]}
 */
export const sidesOf = (doc) =>
  (doc.areas ?? []).flatMap((/** @type {any} */ area, /** @type {number} */ number) =>
    area.outline.map((/** @type {any} */ corner, /** @type {number} */ index) => ({
      area: number,
      index,
      from: corner.point,
      to: area.outline[(index + 1) % area.outline.length].point,
      rise_mm: corner.rise_mm ?? 0,
    })),
  );

/** Twice the area of a ring, positive against the clock. @param {number[][]} ring */
export const doubled = (ring) =>
  ring.reduce((sum, [x1, y1], index) => {
    const [x2, y2] = ring[(index + 1) % ring.length];
    return sum + x1 * y2 - x2 * y1;
  }, 0);

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";

/** The next free name of a point: A to Z, then A1 and so on. @param {Iterable<string>} taken @param {string} [stem] */
export function freeName(taken, stem = "") {
  const had = new Set(taken);
  if (!stem) for (const letter of LETTERS) if (!had.has(letter)) return letter;
  for (let number = 1; ; number += 1) {
    const name = `${stem || "P"}${stem ? " " : ""}${number}`;
    if (!had.has(name)) return name;
  }
}

/** Names that are taken by a point of any kind. @param {any} doc */
export function pointsTaken(doc) {
  const m = doc.measurements ?? {},
    names = new Set(cornersOf(doc));
  for (const list of [m.sketch, m.points, m.offsets]) for (const one of list ?? []) names.add(one.name);
  for (const tape of m.tape_plan?.tapes ?? []) names.add(tape.start).add(tape.end);
  for (const book of m.level_books ?? []) for (const line of book.rows) names.add(line.point);
  for (const mark of m.benchmarks ?? []) names.add(mark.point);
  return names;
}
