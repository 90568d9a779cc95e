// @ts-check
/** Lines, dimensions and words of the pictures of sums, on a sheet of 480 by 240. */
import { svg } from "../lib/dom.js";
import { plain } from "../lib/words.js";

/** @param {string} words @param {...(SVGElement|null)} inside */
export const sheet = (words, ...inside) =>
  svg("svg", { viewBox: "0 0 480 240", class: "sum-picture", role: "img", "aria-label": words }, ...inside);
/** @param {number[][]} at @param {Record<string, any>} [more] */
export const line = (at, more = {}) =>
  svg("path", {
    d: `M${at.map((one) => `${one[0].toFixed(1)} ${one[1].toFixed(1)}`).join("L")}`,
    fill: "none",
    stroke: "currentColor",
    "stroke-width": 2,
    ...more,
  });
/** @param {number[][]} at @param {Record<string, any>} [more] */
export const shape = (at, more = {}) =>
  svg("path", {
    d: `M${at.map((one) => `${one[0].toFixed(1)} ${one[1].toFixed(1)}`).join("L")}Z`,
    fill: "var(--slab)",
    stroke: "currentColor",
    "stroke-width": 2,
    ...more,
  });
/** @param {number} x @param {number} y @param {string} words @param {Record<string, any>} [more] */
export const word = (x, y, words, more = {}) =>
  svg("text", {
    x: x.toFixed(1),
    y: y.toFixed(1),
    "text-anchor": "middle",
    "font-size": 15,
    fill: "currentColor",
    text: words,
    ...more,
  });
/** Digits after the point that a size needs. @param {number} value */
function placesOf(value) {
  if (Number.isInteger(value) || Math.abs(value) >= 100) return 0;
  return Math.abs(value) < 1 ? 3 : 1;
}

/** A value as its dimension; the sign of none where it is not known yet. @param {any} value @param {string} [unit] */
export const size = (value, unit = "mm") =>
  typeof value === "number" && Number.isFinite(value) ? `${plain(value, placesOf(value))} ${unit}`.trim() : "?";

/**
 * A dimension line with its words beside it.
 * @param {number[]} from
 * @param {number[]} to
 * @param {string} words
 * @param {number} [off] to the left of the way from one end to the other
 */
export function dim(from, to, words, off = 16) {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1,
    nx = (to[1] - from[1]) / long,
    ny = -(to[0] - from[0]) / long;
  const a = [from[0] + nx * off, from[1] + ny * off],
    b = [to[0] + nx * off, to[1] + ny * off];
  const tick = (/** @type {number[]} */ at) =>
    line(
      [
        [at[0] - 4, at[1] + 4],
        [at[0] + 4, at[1] - 4],
      ],
      { stroke: "var(--act)" },
    );
  const upright = Math.abs(to[0] - from[0]) < Math.abs(to[1] - from[1]),
    far = off < 0 ? -1 : 1;
  const x = (a[0] + b[0]) / 2 + nx * far * (upright ? 8 : 6),
    y = (a[1] + b[1]) / 2 + ny * far * (upright ? 0 : 12) + 5;
  return svg(
    "g",
    {},
    line([a, b], { stroke: "var(--act)", "stroke-width": 1.3 }),
    tick(a),
    tick(b),
    word(x, y, words, { "text-anchor": upright ? (nx * far > 0 ? "start" : "end") : "middle", "font-weight": 650 }),
  );
}

/** Are all of these numbers above nothing? @param {...any} values */
export const known = (...values) => values.every((value) => typeof value === "number" && value > 0);
/** Keep a proportion within what can be seen. @param {number} value @param {number} low @param {number} high */
export const held = (value, low, high) => Math.min(high, Math.max(low, value));
