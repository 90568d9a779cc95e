// @ts-check
/** How firm a settled network is: variances of its places, and what one tape more would do to them. */
import { at } from "./network.js";

/** @typedef {import("./network.js").Settled} Settled */
/** @typedef {import("./network.js").Row} Row */

const TINY = 1e-9;

/** Cofactors times one row. @param {Settled} settled @param {Row} row */
export function through({ cofactors, unknowns }, row) {
  const n = unknowns.length,
    out = new Float64Array(n);
  for (const [number, change] of row) for (let i = 0; i < n; i += 1) out[i] += cofactors[number * n + i] * change;
  return out;
}

/** @param {Row} row @param {Float64Array} column */
export const dot = (row, column) => row.reduce((sum, [number, change]) => sum + change * column[number], 0);

/**
 * The row of a tape between two points, over its deviation.
 * @param {Settled} settled
 * @param {string} a
 * @param {string} b
 * @param {number} sd
 */
export function tapeRow({ places, unknowns }, a, b, sd) {
  const [[ax, ay], [bx, by]] = [at(places, a), at(places, b)],
    length = Math.hypot(bx - ax, by - ay) || TINY,
    [ux, uy] = [(bx - ax) / length / sd, (by - ay) / length / sd];
  /** @type {Row} */ const row = [];
  unknowns.forEach(({ name, way }, index) => {
    if (name === a) row.push([index, -ux * way[0] - uy * way[1]]);
    else if (name === b) row.push([index, ux * way[0] + uy * way[1]]);
  });
  return row;
}

/**
 * Variances of the places, xx, xy and yy, less what one row more would take off them.
 * @param {Settled} settled
 * @param {Float64Array|null} pulled cofactors times that row
 * @param {number} over one and what the row makes of the cofactors
 * @returns {Map<string, [number, number, number]>}
 */
export function spreads({ unknowns, cofactors }, pulled = null, over = 1) {
  const n = unknowns.length;
  /** @type {Map<string, number[]>} */ const own = new Map();
  unknowns.forEach(({ name }, index) => own.set(name, [...(own.get(name) ?? []), index]));
  return new Map(
    [...own].map(([name, numbers]) => {
      /** @type {[number, number, number]} */ const sum = [0, 0, 0];
      for (const i of numbers)
        for (const j of numbers) {
          const part = cofactors[i * n + j] - (pulled ? (pulled[i] * pulled[j]) / over : 0),
            [one, other] = [unknowns[i].way, unknowns[j].way];
          sum[0] += part * one[0] * other[0];
          sum[1] += part * one[0] * other[1];
          sum[2] += part * one[1] * other[1];
        }
      return [name, sum];
    }),
  );
}

/**
 * Half-axes of an ellipse of error and the bearing of the larger one, clockwise from north.
 * @param {[number, number, number]} spread
 */
export function ellipse([xx, xy, yy]) {
  const middle = (xx + yy) / 2,
    half = Math.hypot((xx - yy) / 2, xy),
    turn = (Math.atan2(2 * xy, xx - yy) / 2) * (180 / Math.PI); // anticlockwise from east
  return {
    major_mm: Math.sqrt(Math.max(0, middle + half)),
    minor_mm: Math.sqrt(Math.max(0, middle - half)),
    bearing_deg: (((90 - turn) % 180) + 180) % 180,
  };
}
