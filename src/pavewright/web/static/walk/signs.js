// @ts-check
/** Signs of the sketch: words at a place, and what is said of a side. */
import { svg } from "../lib/dom.js";
import { mm } from "../lib/words.js";
import { riseOf } from "../job/plan/outline.js";
import { arcPoints } from "../job/plan/paths.js";
import { doubled } from "./places.js";

/** @param {number[]} at @param {...(SVGElement|string)} inside */
export const sign = (at, ...inside) => svg("g", { "data-x": at[0], "data-y": at[1] }, ...inside);

/** @param {string} words @param {number} y @param {number} [size] */
export const text = (words, y, size = 13) =>
  svg("text", { y, "text-anchor": "middle", "font-size": size, fill: "currentColor", class: "halo" }, words);

/**
 * A side as it runs, straight or bent.
 * @param {any} doc
 * @param {{area: number, index: number}} side
 * @param {number[]} from
 * @param {number[]} to
 * @param {Map<string, number[]>} at
 */
export function sideLine(doc, side, from, to, at) {
  const ring = doc.areas[side.area].outline,
    places = ring.map((/** @type {any} */ one) => at.get(one.point) ?? from),
    way = doubled(places) < 0 ? -1 : 1;
  return arcPoints(from, to, riseOf(ring[side.index], from, to, at, way));
}

/** @param {any} doc @param {{from: string, to: string}} side @param {any} one */
export function sideWords(doc, side, one) {
  const tape = (doc.measurements?.tape_plan?.tapes ?? []).find(
    (/** @type {any} */ each) =>
      (each.start === side.from && each.end === side.to) || (each.start === side.to && each.end === side.from),
  );
  return [one?.name, tape ? mm(tape.length_mm) : ""].filter(Boolean).join(", ");
}

/**
 * Words along a side, outside of it.
 * @param {number[]} from
 * @param {number[]} to
 * @param {string} words
 * @param {number[]} centre
 */
export function sideSign(from, to, words, centre) {
  let angle = (Math.atan2(-(to[1] - from[1]), to[0] - from[0]) * 180) / Math.PI;
  if (angle > 90) angle -= 180;
  if (angle <= -90) angle += 180;
  const at = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
    out = [at[0] - centre[0], -(at[1] - centre[1])],
    turn = (angle * Math.PI) / 180,
    below = -Math.sin(turn) * out[0] + Math.cos(turn) * out[1] > 0;
  const inside = svg(
    "g",
    { transform: `rotate(${angle.toFixed(1)})`, class: "side" },
    text(words, below ? 20 : -10, 13),
  );
  return sign(at, inside);
}
