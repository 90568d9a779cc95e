// @ts-check
/** The ground as it lies: lines of equal level over its triangles, and how deep the dig is at every place. */
import { svg } from "../../lib/dom.js";
import { level, plain } from "../../lib/words.js";
import { inside, surfaceLevel, triangleContours, triangleLevel } from "../../lib/kernel.js";

const APART_PX = 46; // between two depths, so that their words stay apart
const STEPS_MM = [25, 50, 100, 200, 500, 1000];

/** A step that gives at most ten lines. @param {plan.TriangulatedSurface} surface */
export function stepOf(surface) {
  const levels = surface.points.map((/** @type {number[]} */ at) => at[2]),
    span = Math.max(...levels) - Math.min(...levels);
  return STEPS_MM.find((each) => span / each <= 10) ?? 2000;
}

/**
 * Lines of equal level of the ground with their levels.
 * @param {{ground: SVGElement, signs: SVGElement}} to
 * @param {plan.TriangulatedSurface} ground
 */
export function groundContours(to, ground) {
  const step = stepOf(ground),
    told = new Set();
  for (const { level_mm, from, to: end } of triangleContours(ground, step)) {
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
 * @param {{ground: SVGElement, signs: SVGElement, plan: Plan, scale: number}} to
 */
export function drawDepths(to) {
  const ground = to.plan.survey.ground;
  if (!ground) return;
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
        const there = inside([x, y], rings) ? triangleLevel(ground, [x, y]) : null;
        if (there === null) continue;
        const deep = there - surfaceLevel(area.formation, [x, y]),
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
