// @ts-check
/**
 * Shapes from lengths that are typed one after another. Pure: sides in, places and a changed document out.
 *
 * A side that was taped is a tape of the document and a corner taken square is a square corner; the places stand on the
 * sketch, which the tapes draw straight. Only what is read off a drawing becomes points by coordinates.
 */
import { areaThrough, freeName } from "./document.js";

/**
 * @typedef {[number, number]} Place
 * @typedef {{length_mm: number, heading_deg: number, wall?: boolean, dpc_level_mm?: number|null}} Side heading counted
 *   from east against the clock
 * @typedef {"rectangle"|"meets"|"open"} Ending how a shape closes: two sides make a rectangle, the last side comes back
 *   to the start, or a straight one that is not measured is left over
 */

const MEETS_MM = 300,
  SQUARE_DEG = 0.05;

/** Corners of a chain of sides, from the start to the end of the last. @param {Side[]} sides @param {Place} [start] */
export function chainOf(sides, start = [0, 0]) {
  /** @type {Place[]} */ const places = [start];
  for (const { length_mm, heading_deg } of sides) {
    const [x, y] = places[places.length - 1],
      turn = (heading_deg * Math.PI) / 180;
    places.push([x + length_mm * Math.cos(turn), y + length_mm * Math.sin(turn)]);
  }
  return places;
}

/** How far a heading turns to the left of another, from -180 to 180. @param {number} from @param {number} to */
export const turnOf = (from, to) => ((((to - from) % 360) + 540) % 360) - 180;

/** Whether two sides stand square. @param {Side} one @param {Side} other */
const square = (one, other) => Math.abs(Math.abs(turnOf(one.heading_deg, other.heading_deg)) - 90) < SQUARE_DEG;

/**
 * How the sides typed so far close to a shape; null where they make none.
 * @param {Side[]} sides @param {Place} [start]
 * @returns {{ending: Ending, corners: Place[], gap_mm: number}|null}
 */
export function closing(sides, start = [0, 0]) {
  if (sides.length < 2) return null;
  const places = chainOf(sides, start),
    last = places[places.length - 1];
  if (sides.length === 2) {
    const [a, b, c] = places;
    return { ending: "rectangle", corners: [a, b, c, [a[0] + c[0] - b[0], a[1] + c[1] - b[1]]], gap_mm: 0 };
  }
  const gap_mm = Math.hypot(last[0] - start[0], last[1] - start[1]);
  if (sides.length > 3 || gap_mm < 1)
    if (gap_mm <= MEETS_MM) return { ending: "meets", corners: places.slice(0, -1), gap_mm };
  return { ending: "open", corners: places, gap_mm };
}

/**
 * At which corners a right angle is taken, so that nothing is left open: where every side is taped, no more than that.
 * @param {Side[]} sides @param {Ending|"run"} ending
 * @returns {number[]} numbers of corners, from 0
 */
export function squaresOf(sides, ending) {
  const found = [];
  for (let index = 1; index < sides.length; index += 1) if (square(sides[index - 1], sides[index])) found.push(index);
  if (ending === "rectangle") return found.length ? [0, 1, 2] : [];
  return ending === "meets" ? found.slice(0, Math.max(0, sides.length - 3)) : found;
}

/**
 * Put corners on the sketch, or by coordinates where they are read off a drawing.
 * @param {any} doc @param {Place[]} corners @param {{drawing: boolean, begin: string}} how
 * @returns {string[]} their names
 */
function pointsFor(doc, corners, { drawing, begin }) {
  const m = doc.measurements;
  return corners.map(([x, y], index) => {
    if (index === 0 && begin) return begin;
    const name = freeName(doc, "A"),
      point = { name, x_mm: Math.round(x * 10) / 10, y_mm: Math.round(y * 10) / 10 };
    if (drawing) (m.points ??= []).push({ ...point, note: "from a drawing" });
    else (m.sketch ??= []).push(point);
    return name;
  });
}

/**
 * The tapes and square corners of sides.
 * @param {any} doc @param {string[]} names @param {Side[]} sides @param {number[]} squares
 */
function measure(doc, names, sides, squares) {
  const count = names.length,
    plan = (doc.measurements.tape_plan ??= { base_from: names[0], base_to: names[1], tapes: [] });
  plan.tapes ??= [];
  plan.base_from ||= names[0];
  plan.base_to ||= names[1];
  sides.forEach(({ length_mm }, index) =>
    plan.tapes.push({ start: names[index], end: names[(index + 1) % count], length_mm: round(length_mm) }),
  );
  for (const index of squares)
    (plan.square_corners ??= []).push({
      at: names[index],
      first: names[(index - 1 + count) % count],
      second: names[(index + 1) % count],
    });
}

/** @param {number} value_mm */
const round = (value_mm) => Math.round(value_mm * 10) / 10;

/** @param {any} doc @param {string[]} names @param {Side[]} sides */
function wallsAlong(doc, names, sides) {
  const site = (doc.site ??= {}),
    walls = (site.walls ??= []);
  sides.forEach((side, index) => {
    if (!side.wall) return;
    const taken = new Set(walls.map((/** @type {any} */ one) => one.name));
    let number = walls.length + 1;
    while (taken.has(`Wall ${number}`)) number += 1;
    walls.push({
      name: `Wall ${number}`,
      start: names[index],
      end: names[(index + 1) % names.length],
      kind: "house",
      dpc_level_mm: side.dpc_level_mm ?? null,
    });
  });
}

/**
 * A new area by its typed sides.
 * @param {any} doc @param {Side[]} sides
 * @param {{name: string, drawing: boolean, begin: string, start: Place}} how `begin` is a point that is there already
 */
export function addTypedArea(doc, sides, how) {
  const end = closing(sides, how.start);
  if (!end) return;
  const names = pointsFor(doc, end.corners, how);
  if (!how.drawing) measure(doc, names, sides, squaresOf(sides, end.ending));
  areaThrough(doc, names, how.name);
  wallsAlong(doc, names, sides);
}

/**
 * A run of walls by their typed lengths.
 * @param {any} doc @param {Side[]} sides @param {{drawing: boolean, begin: string, start: Place}} how
 */
export function addTypedWalls(doc, sides, how) {
  const names = pointsFor(doc, chainOf(sides, how.start), how);
  if (!how.drawing) measure(doc, names, sides, squaresOf(sides, "run"));
  wallsAlong(
    doc,
    names,
    sides.map((side) => ({ ...side, wall: true })),
  );
}
