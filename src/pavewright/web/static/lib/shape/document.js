// @ts-check
/**
 * What a job document holds of its shape: sketch, tapes, sides, corners, and the lines that are drawn between
 * points.
 */
import { apart, at } from "./network.js";
import { pairKey, tapeSd } from "./next.js";
import { scaleOf } from "./sketch.js";

/** @typedef {import("./network.js").At} At */
/** @typedef {import("./network.js").Places} Places */
/** @typedef {import("./network.js").Seen} Seen */
/** @typedef {import("./next.js").Drawn} Drawn */

/** @param {any} document @param {import("./figures.js").Figures} figures */
export function knownFrom(document, figures) {
  const { points = [], offsets = [], sketch = [], tape_plan: plan = null } = document.measurements ?? {},
    /** @type {Places} */ held = new Map();
  /** @type {Map<string, {place: At, sd: number}>} */ const by_eye = new Map();
  for (const { name, x_mm, y_mm, place_sd_mm } of points)
    if (place_sd_mm == null) held.set(name, [x_mm, y_mm]);
    else by_eye.set(name, { place: [x_mm, y_mm], sd: place_sd_mm });
  for (const [name, where] of offLines(offsets, held)) held.set(name, where);
  /** @type {Places} */ const drawn = new Map(
    sketch.map((/** @type {any} */ each) => [each.name, [each.x_mm, each.y_mm]]),
  );
  /** @type {Seen[]} */ const tapes = (plan?.tapes ?? [])
    .filter((/** @type {any} */ { start, end }) => start !== end)
    .map((/** @type {any} */ { start, end, length_mm, sd_mm }) => ({
      kind: "tape",
      points: [start, end],
      measured: length_mm,
      sd: sd_mm ?? tapeSd(figures, length_mm),
    }));
  const scale = scaleOf(
    drawn,
    tapes.map(({ points, measured }) => ({ points, length: measured })),
  );
  const leg = (/** @type {string} */ a, /** @type {string} */ b) =>
    drawn.has(a) && drawn.has(b) ? scale * apart(at(drawn, a), at(drawn, b)) : 0;
  const legs = (/** @type {any} */ { at: corner, first, second }) =>
    Math.min(...[first, second].map((end) => lengthOf(plan, corner, end) ?? leg(corner, end)));
  /** @type {Seen[]} */ const seen = [
    ...tapes,
    ...(plan?.square_corners ?? []).map((/** @type {any} */ each) => ({
      kind: "square",
      points: [each.at, each.first, each.second],
      measured: 0,
      sd: each.sd_mm ?? Math.max((figures.square_corner_sd_mm_per_m * legs(each)) / 1000, 1),
    })),
    ...(plan?.points_on_lines ?? []).map((/** @type {any} */ each) => ({
      kind: "line",
      points: [each.point, each.line_from, each.line_to],
      measured: 0,
      sd: each.sd_mm ?? figures.on_line_sd_mm,
    })),
  ];
  const bearing = ((plan?.bearing_deg ?? 90) * Math.PI) / 180;
  const base = plan && {
    from: plan.base_from,
    to: plan.base_to,
    way: [Math.sin(bearing), Math.cos(bearing)],
    start: [plan.x_mm ?? 0, plan.y_mm ?? 0],
  };
  return { sketch: drawn, held, by_eye, base, seen, sides: plan?.sides ?? [] };
}

/** @param {any} plan @param {string} a @param {string} b @returns {number|null} */
const lengthOf = (plan, a, b) =>
  (plan?.tapes ?? []).find((/** @type {any} */ { start, end }) => pairKey(start, end) === pairKey(a, b))?.length_mm ??
  null;

/** @param {any} document @returns {Drawn} */
export function drawnFrom({ site, areas }) {
  return {
    walls: (site?.walls ?? []).map((/** @type {any} */ { start, end }) => [start, end]),
    rings: (areas ?? []).map((/** @type {any} */ { outline }) => outline.map((/** @type {any} */ { point }) => point)),
  };
}

/** Points measured off lines whose ends are placed. @param {any[]} offsets @param {Places} places @returns {Places} */
export function offLines(offsets, places) {
  /** @type {Places} */ const found = new Map();
  for (let more = true; more;) {
    more = false;
    for (const { name, line_from, line_to, along_mm, offset_mm } of offsets) {
      const [from, to] = [line_from, line_to].map((end) => places.get(end) ?? found.get(end));
      if (found.has(name) || !from || !to || !apart(from, to)) continue;
      const [ux, uy] = [(to[0] - from[0]) / apart(from, to), (to[1] - from[1]) / apart(from, to)];
      found.set(name, [from[0] + along_mm * ux - offset_mm * uy, from[1] + along_mm * uy + offset_mm * ux]);
      more = true;
    }
  }
  return found;
}
