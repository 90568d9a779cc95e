// @ts-check
/**
 * Lines of equal level and arrows of fall. A plane has straight contours: each is the exact line, clipped to its area.
 */
import { inside, planeContours } from "../../lib/kernel.js";
import { svg } from "../../lib/dom.js";
import { level } from "../../lib/words.js";

/** Steps between contours, and how far apart arrows then stand. [mm] */
const STEPS = [
  [10, 500],
  [20, 1000],
  [50, 2000],
];
const APART_PX = 24;

/**
 * Every plane of the paving with the rings that bound it.
 * @param {Plan} plan
 * @returns {{plane: any, rings: number[][][]}[]}
 */
export function planesOf(plan) {
  return plan.levels.areas.flatMap((area) => {
    const shape = plan.survey.site.areas.find((one) => one.area.name === area.area)?.shape;
    return area.surface.facets.map((facet) => ({
      plane: facet.plane,
      rings: [facet.outline, ...(shape?.holes ?? [])],
    }));
  });
}

/** @param {{ground: SVGElement, signs: SVGElement, plan: Plan, scale: number}} to */
export function drawContours(to) {
  const planes = planesOf(to.plan),
    steepest = Math.max(1e-6, ...planes.map(({ plane }) => Math.hypot(plane.slope_x, plane.slope_y)));
  for (const [step, grid] of STEPS) {
    const lines = svg("g", { "data-contours": step, "data-steepest": steepest, fill: "none", stroke: "currentColor" }),
      signs = svg("g", { "data-contours": step, "data-steepest": steepest });
    for (const { plane, rings } of planes) {
      for (const one of planeContours(plane, rings, step)) {
        const heavy = Math.round(one.level_mm / step) % 5 === 0;
        lines.append(
          svg("path", {
            d: one.lines
              .map(([[x1, y1], [x2, y2]]) => `M${x1.toFixed(1)} ${y1.toFixed(1)}L${x2.toFixed(1)} ${y2.toFixed(1)}`)
              .join(""),
            "stroke-width": heavy ? 2 : 0.9,
            "vector-effect": "non-scaling-stroke",
          }),
        );
        const [from, end] = one.lines.reduce((best, line) => (span(line) > span(best) ? line : best));
        signs.append(
          svg(
            "g",
            { "data-x": from[0] + 0.3 * (end[0] - from[0]), "data-y": from[1] + 0.3 * (end[1] - from[1]) },
            svg("text", {
              y: 4,
              "text-anchor": "middle",
              "font-size": 12,
              "font-weight": heavy ? 750 : 500,
              fill: "currentColor",
              stroke: "var(--sheet)",
              "stroke-width": 4,
              "paint-order": "stroke",
              "stroke-linejoin": "round",
              text: level(one.level_mm),
            }),
          ),
        );
      }
      const arrows = arrowsOf(plane, rings, grid);
      if (arrows)
        lines.append(
          svg("path", {
            d: arrows,
            stroke: "var(--water)",
            "stroke-width": 1.6,
            "vector-effect": "non-scaling-stroke",
          }),
        );
    }
    to.ground.append(lines);
    to.signs.append(signs);
  }
}

/** @param {number[][]} line */
const span = ([[x1, y1], [x2, y2]]) => Math.hypot(x2 - x1, y2 - y1);

/** Arrows down the fall on a grid. @param {plan.Plane} plane @param {number[][][]} rings @param {number} grid_mm */
function arrowsOf(plane, rings, grid_mm) {
  const steep = Math.hypot(plane.slope_x, plane.slope_y);
  if (steep < 1e-6) return "";
  const ux = -plane.slope_x / steep,
    uy = -plane.slope_y / steep,
    half = grid_mm * 0.2,
    head = grid_mm * 0.1;
  const xs = rings[0].map((at) => at[0]),
    ys = rings[0].map((at) => at[1]);
  let d = "";
  for (let y = Math.floor(Math.min(...ys) / grid_mm) * grid_mm + grid_mm / 2; y < Math.max(...ys); y += grid_mm)
    for (let x = Math.floor(Math.min(...xs) / grid_mm) * grid_mm + grid_mm / 2; x < Math.max(...xs); x += grid_mm) {
      if (!inside([x, y], rings)) continue;
      const tip = [x + ux * half, y + uy * half];
      d += `M${(x - ux * half).toFixed(0)} ${(y - uy * half).toFixed(0)}L${tip[0].toFixed(0)} ${tip[1].toFixed(0)}`;
      for (const side of [1, -1])
        d +=
          `M${tip[0].toFixed(0)} ` +
          `${tip[1].toFixed(0)}L${(tip[0] - ux * head + side * uy * head * 0.6).toFixed(0)} ` +
          `${(tip[1] - uy * head - side * ux * head * 0.6).toFixed(0)}`;
    }
  return d;
}

/** Which step the zoom has room for. @param {number} scale px per mm @param {number} steepest */
export const stepFor = (scale, steepest) =>
  (STEPS.find(([step]) => (step / steepest) * scale >= APART_PX) ?? STEPS[STEPS.length - 1])[0];

/** Show the contours that the zoom has room for. @param {import("../plan/view.js").PlanView} view */
export function chooseStep(view) {
  for (const group of view.back.querySelectorAll("[data-contours]")) {
    const wanted = stepFor(view.scale, Number(group.getAttribute("data-steepest")));
    if (Number(group.getAttribute("data-contours")) === wanted) group.removeAttribute("display");
    else group.setAttribute("display", "none");
  }
}
