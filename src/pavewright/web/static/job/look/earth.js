// @ts-check
/** The ground as it lies: lines of equal level over its triangles, and how deep the dig is at every place. */
import { svg } from "../../lib/dom.js";
import { level, plain } from "../../lib/words.js";
import { inside } from "./contours.js";

const APART_PX = 46; // between two depths, so that their words stay apart
const STEPS_MM = [25, 50, 100, 200, 500, 1000];

/** Corners of the triangles of a surface. @param {any} surface @returns {number[][][]} */
export const trianglesOf = (surface) =>
  surface.triangles.map((/** @type {number[]} */ three) => three.map((index) => surface.points[index]));

/** A step that gives at most ten lines. @param {any} surface */
export function stepOf(surface) {
  const levels = surface.points.map((/** @type {number[]} */ at) => at[2]),
    span = Math.max(...levels) - Math.min(...levels);
  return STEPS_MM.find((each) => span / each <= 10) ?? 2000;
}

/**
 * Straight pieces of the lines of equal level.
 * @param {any} surface
 * @param {number} step_mm
 * @returns {{level_mm: number, from: number[], to: number[]}[]}
 */
export function contourPieces(surface, step_mm) {
  const found = [];
  for (const corners of trianglesOf(surface)) {
    const levels = corners.map((at) => at[2]);
    for (let at = Math.ceil(Math.min(...levels) / step_mm) * step_mm; at < Math.max(...levels); at += step_mm) {
      const ends = [];
      for (const [one, other] of [
        [0, 1],
        [1, 2],
        [2, 0],
      ]) {
        const [z1, z2] = [corners[one][2], corners[other][2]];
        if (z1 <= at === z2 <= at) continue;
        const share = (at - z1) / (z2 - z1);
        ends.push([
          corners[one][0] + share * (corners[other][0] - corners[one][0]),
          corners[one][1] + share * (corners[other][1] - corners[one][1]),
        ]);
      }
      if (ends.length === 2) found.push({ level_mm: at, from: ends[0], to: ends[1] });
    }
  }
  return found;
}

/** Level of a surface of triangles at a place, null past them. @param {number[][][]} triangles @param {number[]} at */
export function levelOn(triangles, [x, y]) {
  for (const [a, b, c] of triangles) {
    const whole = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    if (Math.abs(whole) < 1) continue;
    const first = ((b[0] - x) * (c[1] - y) - (b[1] - y) * (c[0] - x)) / whole,
      second = ((c[0] - x) * (a[1] - y) - (c[1] - y) * (a[0] - x)) / whole,
      third = 1 - first - second;
    if (Math.min(first, second, third) >= -1e-9) return first * a[2] + second * b[2] + third * c[2];
  }
  return null;
}

/**
 * Level of a folded surface at a place: of the facet that holds it, else of the first.
 * @param {any} surface
 * @param {number[]} at
 */
function levelOf(surface, at) {
  const facet = surface.facets.find((/** @type {any} */ one) => inside(at, [one.outline])) ?? surface.facets[0],
    { level_mm, origin_mm, slope_x, slope_y } = facet.plane;
  return level_mm + slope_x * (at[0] - origin_mm[0]) + slope_y * (at[1] - origin_mm[1]);
}

/**
 * Lines of equal level of the ground with their levels.
 * @param {{ground: SVGElement, signs: SVGElement}} to
 * @param {any} ground
 */
export function groundContours(to, ground) {
  const step = stepOf(ground),
    told = new Set();
  for (const { level_mm, from, to: end } of contourPieces(ground, step)) {
    to.ground.append(
      svg("path", {
        d: `M${from[0].toFixed(0)} ${from[1].toFixed(0)}L${end[0].toFixed(0)} ${end[1].toFixed(0)}`,
        fill: "none",
        stroke: "var(--good)",
        "stroke-width": level_mm % (5 * step) === 0 ? 2.2 : 1.2,
        "vector-effect": "non-scaling-stroke",
      }),
    );
    if (told.has(level_mm) || Math.hypot(end[0] - from[0], end[1] - from[1]) < 300) continue;
    told.add(level_mm);
    to.signs.append(
      svg(
        "g",
        { "data-x": (from[0] + end[0]) / 2, "data-y": (from[1] + end[1]) / 2 },
        svg("text", {
          "font-size": 11.5,
          "font-style": "italic",
          "text-anchor": "middle",
          y: 4,
          fill: "var(--good)",
          stroke: "var(--sheet)",
          "stroke-width": 3.5,
          "paint-order": "stroke",
          text: level(level_mm),
        }),
      ),
    );
  }
}

/**
 * How deep the dig is on a grid, in millimetres; what has to be filled stands with a plus in a ring.
 * @param {{ground: SVGElement, signs: SVGElement, plan: any, scale: number}} to
 */
export function drawDepths(to) {
  const ground = to.plan.survey.ground;
  if (!ground) return;
  const triangles = trianglesOf(ground);
  for (const area of to.plan.build_ups.areas) {
    const rings = [area.dig_shape.outer, ...area.dig_shape.holes],
      xs = rings[0].map((/** @type {number[]} */ at) => at[0]),
      ys = rings[0].map((/** @type {number[]} */ at) => at[1]);
    const step = Math.max(
      250,
      APART_PX / to.scale,
      Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)) / 30,
    );
    to.ground.append(
      svg("path", {
        d: rings
          .map(
            (ring) => `M${ring.map((/** @type {number[]} */ [x, y]) => `${x.toFixed(0)} ${y.toFixed(0)}`).join("L")}Z`,
          )
          .join(""),
        fill: "none",
        stroke: "currentColor",
        "stroke-width": 2,
        "stroke-dasharray": "12 5 3 5",
        "vector-effect": "non-scaling-stroke",
      }),
    );
    for (let x = Math.min(...xs) + step / 2; x < Math.max(...xs); x += step)
      for (let y = Math.min(...ys) + step / 2; y < Math.max(...ys); y += step) {
        const there = inside([x, y], rings) ? levelOn(triangles, [x, y]) : null;
        if (there === null) continue;
        const deep = there - levelOf(area.formation, [x, y]),
          fill = deep < 0;
        to.signs.append(
          svg(
            "g",
            { class: "depth", "data-x": x, "data-y": y },
            fill
              ? svg("circle", {
                  r: 15,
                  fill: "var(--sheet)",
                  stroke: "var(--check)",
                  "stroke-width": 2,
                  "stroke-dasharray": "3 2",
                })
              : null,
            svg("text", {
              "data-rank": 1,
              "font-size": 11.5,
              "text-anchor": "middle",
              y: 4,
              fill: fill ? "var(--check)" : "currentColor",
              stroke: "var(--sheet)",
              "stroke-width": 3,
              "paint-order": "stroke",
              text: fill ? `+${plain(-deep)}` : plain(deep),
            }),
          ),
        );
      }
  }
}
