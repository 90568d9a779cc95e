// @ts-check
/** Layers of what is built: paving, levels, ground and water. */
import { svg } from "../../lib/dom.js";
import { fall, level, plain } from "../../lib/words.js";
import { drawContours } from "../look/contours.js";
import { drawDepths, groundContours } from "../look/earth.js";
import { pathOf, shapePath } from "./paths.js";
import { roomiest } from "./outline.js";
import { drawCuts, drawNumbers } from "./cut-pieces.js";
import { piecesOf } from "./pieces.js";
import { sign, text, thin } from "./signs.js";
import { drawUnits, pavedPath } from "./tiles.js";

/** @type {Record<string, import("./signs.js").Layer>} */
export const WORKS = {
  slabs: {
    name: "Slabs",
    on: true,
    draw(to) {
      for (const area of to.plan.laying.areas) drawUnits(to, piecesOf(area), pavedPath(area, to.plan));
    },
  },
  cuts: {
    name: "Cut pieces",
    on: true,
    draw(to) {
      for (const area of to.plan.laying.areas) drawCuts(to, piecesOf(area));
    },
  },
  numbers: {
    name: "Piece numbers",
    on: false,
    draw(to) {
      for (const area of to.plan.laying.areas) drawNumbers(to, piecesOf(area));
    },
  },
  falls: {
    name: "Falls",
    on: true,
    draw(to) {
      for (const area of to.plan.levels.areas)
        for (const facet of area.surface.facets) {
          const { slope_x: sx, slope_y: sy } = facet.plane,
            steep = Math.hypot(sx, sy);
          if (steep < 1e-6) continue;
          const [x, y] = roomiest(facet.outline),
            length = 46,
            dx = (-sx / steep) * length,
            dy = (sy / steep) * length;
          const turn = (Math.atan2(dy, dx) * 180) / Math.PI;
          sign(
            to,
            [x, y],
            svg("path", { d: `M${-dx} ${-dy}L${dx} ${dy}`, ...thin, "stroke-width": 2.4, stroke: "var(--water)" }),
            svg("path", {
              d: "M0 0L-13 -6.5L-13 6.5Z",
              fill: "var(--water)",
              transform: `translate(${dx} ${dy}) rotate(${turn})`,
            }),
            text(fall(steep), { y: -12, "font-weight": 700 }),
          );
        }
      for (const area of to.plan.levels.areas)
        if (area.surface.facets.length > 1)
          for (const facet of area.surface.facets)
            to.ground.append(
              svg("path", {
                d: pathOf(facet.outline),
                ...thin,
                "stroke-width": 1.4,
                "stroke-dasharray": "9 4",
                stroke: "var(--water)",
              }),
            );
    },
  },
  contours: { name: "Contours and falls", on: false, draw: drawContours },
  heights: {
    name: "Heights",
    on: true,
    draw(to) {
      const done = new Set();
      for (const area of to.plan.levels.areas)
        for (const spot of [...area.corners, ...area.spots]) {
          const key = `${Math.round(spot.at[0] / 20)},${Math.round(spot.at[1] / 20)}`;
          if (done.has(key)) continue;
          done.add(key);
          sign(
            to,
            spot.at,
            svg("path", { d: "M-5 0H5M0 -5V5", ...thin, "stroke-width": 1.6 }),
            text(level(spot.level_mm), { x: 8, y: -8, "text-anchor": "start", "font-weight": 650, "font-size": 12.5 }),
          );
        }
    },
  },
  ground: {
    name: "Ground",
    on: false,
    draw(to) {
      const ground = to.plan.survey.ground;
      if (!ground) return;
      for (const triangle of ground.triangles)
        to.ground.append(
          svg("path", {
            d: pathOf(triangle.map((index) => ground.points[index])),
            ...thin,
            "stroke-width": 0.8,
            "stroke-dasharray": "3 3",
          }),
        );
      groundContours(to, ground);
      for (const [x, y, z] of ground.points)
        sign(to, [x, y], svg("circle", { r: 2.5, fill: "currentColor" }), text(level(z), { y: 15, "font-size": 11 }));
    },
  },
  dig: {
    name: "Dig",
    on: false,
    draw(to) {
      for (const area of to.plan.build_ups.areas)
        to.ground.append(
          svg("path", { d: shapePath(area.dig_shape), ...thin, "stroke-width": 2, "stroke-dasharray": "12 5 3 5" }),
        );
      for (const peg of to.plan.setting_out.pegs) {
        const lowest = peg.heights[peg.heights.length - 1];
        if (lowest && peg.stands !== "pin")
          sign(to, peg.at, text(`dig ${level(lowest.level_mm)}`, { y: 17, "font-size": 11 }));
      }
    },
  },
  depths: { name: "Depth of dig", on: false, draw: drawDepths },
  water: {
    name: "Water",
    on: false,
    draw(to) {
      to.plan.water.catchments.forEach((part) => {
        for (const shape of part.shapes)
          to.ground.append(
            svg("path", {
              d: shapePath(shape),
              fill: "var(--water)",
              "fill-opacity": 0.1,
              stroke: "var(--water)",
              "stroke-width": 1.4,
              "stroke-dasharray": "2 3",
              "vector-effect": "non-scaling-stroke",
              "fill-rule": "evenodd",
            }),
          );
        const from = part.shapes[0] ? roomiest(part.shapes[0].outer) : part.at;
        to.ground.append(
          svg("path", { d: pathOf([from, part.at], false), ...thin, stroke: "var(--water)", "stroke-width": 1.8 }),
        );
        sign(
          to,
          part.at,
          svg("circle", { r: 6, fill: "var(--sheet)", stroke: "var(--water)", "stroke-width": 2.5 }),
          text(`${part.to} ${plain(part.flow_l_s, 2)} l/s`, { y: -12, "font-size": 12, "font-weight": 650 }),
        );
      });
    },
  },
};
