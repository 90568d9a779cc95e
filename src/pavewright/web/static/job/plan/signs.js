// @ts-check
/** Signs and words on the plan that keep their size. */
import { svg } from "../../lib/dom.js";
import { middle } from "./outline.js";

/**
 * @typedef {{
 *   ground: SVGElement, signs: SVGElement, plan: Plan, doc: JobDocument, scale: number, points: Map<string, number[]>,
 *   live?: ((view: import("./view.js").PlanView) => void)[]
 * }} Drawing `live` takes what is drawn again when the sheet is moved; where it is missing all is drawn at once
 * @typedef {{name: string, on: boolean, draw: (to: Drawing) => void}} Layer
 */

export const thin = { fill: "none", stroke: "currentColor", "vector-effect": "non-scaling-stroke" };

/** A sign that keeps its size. @param {Drawing} to @param {number[]} at @param {...Node} inside */
export function sign(to, at, ...inside) {
  const node = svg("g", { "data-x": at[0], "data-y": at[1] }, ...inside);
  to.signs.append(node);
  return node;
}

/** @param {string} words @param {Record<string, any>} [more] */
export function text(words, more = {}) {
  return svg("text", {
    "font-size": 13,
    "text-anchor": "middle",
    fill: "currentColor",
    stroke: "var(--sheet)",
    "stroke-width": 3.5,
    "paint-order": "stroke",
    "stroke-linejoin": "round",
    ...more,
    text: words,
  });
}

/**
 * Where the words of a wall stand: along it, on the side away from the paving.
 * @param {any} wall
 * @param {Drawing} to
 */
export function behind(wall, to) {
  const [ax, ay] = wall.start,
    [bx, by] = wall.end,
    long = Math.hypot(bx - ax, by - ay) || 1,
    [mx, my] = mid(wall.start, wall.end);
  let nx = (by - ay) / long,
    ny = -(bx - ax) / long;
  const first = to.plan.survey.site.areas[0]?.shape.outer,
    at = first ? middle(first) : [mx, my];
  if ((at[0] - mx) * nx + (at[1] - my) * ny > 0) {
    nx = -nx;
    ny = -ny;
  }
  let turn = (-Math.atan2(by - ay, bx - ax) * 180) / Math.PI;
  if (turn > 90) turn -= 180;
  else if (turn <= -90) turn += 180;
  return `translate(${(nx * 34).toFixed(1)} ${(-ny * 34).toFixed(1)}) rotate(${turn.toFixed(1)})`;
}

/** @param {number[]} a @param {number[]} b */
export const mid = (a, b) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
