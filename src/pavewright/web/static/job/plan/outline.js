// @ts-check
/** Outlines and places of a plan. */
import { inside, toRing } from "../../lib/kernel.js";
import { arcPoints } from "./paths.js";

/** Flattened outline of an area of the document. @param {any[]} corners @param {Map<string, number[]>} points */
export function outlineOf(corners, points) {
  const places = corners.map((corner) => points.get(corner.point)).filter(Boolean);
  if (places.length !== corners.length) return [];
  const at = /** @type {number[][]} */ (places),
    way =
      at.reduce((sum, [x1, y1], index) => {
        const [x2, y2] = at[(index + 1) % at.length];
        return sum + x1 * y2 - x2 * y1;
      }, 0) < 0
        ? -1
        : 1;
  return corners.flatMap((corner, index) => {
    const to = at[(index + 1) % corners.length];
    return arcPoints(at[index], to, riseOf(corner, at[index], to, points, way));
  });
}

/**
 * Rise of a side to the right of the way, where its arc is given by a point or its centre; else as it is given.
 * @param {any} corner
 * @param {number[]} from
 * @param {number[]} to
 * @param {Map<string, number[]>} points
 * @param {number} way 1 where the outline runs against the clock, else -1: a rise bulges out of it
 */
export function riseOf(corner, from, to, points, way) {
  const third = points.get(corner.through ?? corner.centre ?? "");
  if (!third) return way * (corner.rise_mm ?? 0);
  const ax = to[0] - from[0],
    ay = to[1] - from[1],
    chord = Math.hypot(ax, ay),
    off = (/** @type {number[]} */ [x, y]) =>
      ((x - (from[0] + to[0]) / 2) * ay - (y - (from[1] + to[1]) / 2) * ax) / chord;
  if (corner.centre) {
    const radius =
      (Math.hypot(from[0] - third[0], from[1] - third[1]) + Math.hypot(to[0] - third[0], to[1] - third[1])) / 2;
    return -Math.sign(off(third)) * (radius - Math.abs(off(third)));
  }
  const bx = third[0] - from[0],
    by = third[1] - from[1],
    cross = ax * by - ay * bx;
  if (Math.abs(cross) < 1e-6 * chord * chord) return 0;
  const long = ax * ax + ay * ay,
    short = bx * bx + by * by,
    centre = [from[0] + (by * long - ay * short) / (2 * cross), from[1] + (ax * short - bx * long) / (2 * cross)],
    side = cross > 0 ? -1 : 1;
  return side * (side * off(centre) + Math.hypot(centre[0] - from[0], centre[1] - from[1]));
}

/** The middle of a ring, by area. @param {number[][]} ring */
export function middle(ring) {
  let area = 0,
    x = 0,
    y = 0;
  ring.forEach(([x1, y1], index) => {
    const [x2, y2] = ring[(index + 1) % ring.length],
      cross = x1 * y2 - x2 * y1;
    area += cross;
    x += (x1 + x2) * cross;
    y += (y1 + y2) * cross;
  });
  return Math.abs(area) < 1e-6 ? [ring[0][0], ring[0][1]] : [x / (3 * area), y / (3 * area)];
}

/** Names and places of the points of a plan. @param {Pick<Plan, "survey">|SiteView} plan */
export function placesOf(plan) {
  return new Map(plan.survey.points.map((point) => [point.name, [point.x_mm, point.y_mm]]));
}

/** A place inside a ring that is far from its sides, for an arrow or a word. @param {number[][]} ring */
export function roomiest(ring) {
  const xs = ring.map((at) => at[0]),
    ys = ring.map((at) => at[1]),
    x1 = Math.min(...xs),
    x2 = Math.max(...xs),
    y1 = Math.min(...ys),
    y2 = Math.max(...ys);
  let best = middle(ring),
    most = inside(best, [ring]) ? toRing(best, ring) : -1;
  for (let row = 1; row < 16; row += 1)
    for (let column = 1; column < 16; column += 1) {
      const at = [x1 + ((x2 - x1) * column) / 16, y1 + ((y2 - y1) * row) / 16];
      if (!inside(at, [ring])) continue;
      const far = toRing(at, ring);
      if (far > most * 1.05) {
        most = far;
        best = at;
      }
    }
  return best;
}
