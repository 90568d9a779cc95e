// @ts-check
/**
 * Layers of the plan: what each draws from the job and its plan. Signs, dashes and words carry the meaning; colour only
 * helps.
 */
import { inside, toRing } from "../../lib/kernel.js";
import { svg } from "../../lib/dom.js";
import { fall, level, plain } from "../../lib/words.js";
import { drawContours } from "../look/contours.js";
import { drawDepths, groundContours } from "../look/earth.js";
import { arcPoints, pathOf, shapePath } from "./view.js";

/** What the page gives beside the plan. @type {{photos: {id: string, note: string, place: number[]|null}[]}} */
export const given = { photos: [] };

/**
 * @typedef
 *
 * {{ground: SVGElement, signs: SVGElement, plan: Plan, doc: JobDocument, scale: number, points: Map<string, number[]>}}
 *   Drawing
 */

const thin = { fill: "none", stroke: "currentColor", "vector-effect": "non-scaling-stroke" };

/** A sign that keeps its size. @param {Drawing} to @param {number[]} at @param {...Node} inside */
function sign(to, at, ...inside) {
  const node = svg("g", { "data-x": at[0], "data-y": at[1] }, ...inside);
  to.signs.append(node);
  return node;
}

/** @param {string} words @param {Record<string, any>} [more] */
function text(words, more = {}) {
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
 * Rise of a side to the right of the way, where its arc is told by a point or its centre; else as it is told.
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

/** @type {Record<string, {name: string, on: boolean, draw: (to: Drawing) => void}>} */
export const LAYERS = {
  slabs: {
    name: "Slabs",
    on: true,
    draw(to) {
      for (const area of to.plan.laying.areas) {
        const whole = area.pieces.filter((piece) => piece.kind === "whole"),
          cut = area.pieces.filter((piece) => piece.kind === "cut");
        to.ground.append(
          svg("path", {
            d: whole.map((piece) => shapePath(piece.shape)).join(""),
            fill: "var(--slab)",
            stroke: "var(--line-strong)",
            "stroke-width": 0.7,
            "vector-effect": "non-scaling-stroke",
            "fill-rule": "evenodd",
          }),
        );
        const d = cut.map((piece) => shapePath(piece.shape)).join("");
        to.ground.append(
          svg("path", {
            d,
            fill: "var(--slab-cut)",
            stroke: "var(--line-strong)",
            "stroke-width": 0.7,
            "vector-effect": "non-scaling-stroke",
            "fill-rule": "evenodd",
          }),
        );
      }
    },
  },
  cuts: {
    name: "Cut pieces",
    on: true,
    draw(to) {
      // the hatch is drawn on the screen, not on the site, so that it stays as fine when the plan is brought near
      for (const area of to.plan.laying.areas)
        for (const piece of area.pieces) {
          if (piece.kind !== "cut") continue;
          const [x, y] = middle(piece.shape.outer);
          to.ground.append(svg("path", { d: `${shapePath(piece.shape)}`, ...thin, "stroke-width": 1.6 }));
          if (piece.sliver)
            sign(
              to,
              [x, y],
              svg("circle", { r: 9, fill: "var(--sheet)", stroke: "var(--stop)", "stroke-width": 2 }),
              text("!", { y: 5, "data-rank": 0, "font-weight": 800, stroke: "none", fill: "var(--stop)" }),
            );
        }
    },
  },
  numbers: {
    name: "Piece numbers",
    on: false,
    draw(to) {
      for (const area of to.plan.laying.areas)
        for (const piece of area.pieces) {
          const [x, y] = middle(piece.shape.outer),
            size = (Math.min(piece.along_mm, piece.across_mm) * 0.42) / Math.max(1, String(piece.number).length * 0.42);
          to.ground.append(
            svg("text", {
              transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) scale(1 -1)`,
              "font-size": Math.min(size, 220).toFixed(0),
              "text-anchor": "middle",
              dy: "0.35em",
              fill: "currentColor",
              text: String(piece.number),
            }),
          );
        }
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
  pegs: {
    name: "Pegs and strings",
    on: false,
    draw(to) {
      const pegs = new Map(to.plan.setting_out.pegs.map((peg) => [peg.name, peg]));
      for (const line of to.plan.setting_out.strings) {
        const ends = [pegs.get(line.start), pegs.get(line.end)];
        if (ends[0] && ends[1])
          to.ground.append(
            svg("path", {
              d: pathOf([ends[0].at, ends[1].at], false),
              ...thin,
              "stroke-width": line.carries_fall ? 2.2 : 1.2,
              "stroke-dasharray": line.carries_fall ? null : "6 4",
            }),
          );
      }
      for (const peg of to.plan.setting_out.pegs) {
        if (peg.no_pin)
          sign(
            to,
            peg.at,
            svg("circle", { r: 8, fill: "var(--sheet)", stroke: "currentColor", "stroke-width": 2.2 }),
            svg("path", {
              d: "M-5.6 -5.6L5.6 5.6M-5.6 5.6L5.6 -5.6",
              fill: "none",
              stroke: "currentColor",
              "stroke-width": 2.2,
            }),
            text(`${peg.name.replace("Peg ", "")} NO PIN`, { y: -12, "font-size": 12, "font-weight": 650 }),
          );
        else
          sign(
            to,
            peg.at,
            svg("path", { d: "M-5 -5H5V5H-5Z", fill: "var(--sheet)", stroke: "currentColor", "stroke-width": 1.8 }),
            text(peg.name.replace("Peg ", ""), { y: -10, "font-size": 12 }),
          );
      }
    },
  },
  site: {
    name: "Walls, drains, covers",
    on: true,
    draw(to) {
      const site = to.plan.survey.site;
      for (const wall of site.walls) {
        to.ground.append(
          svg("path", {
            d: pathOf([wall.start, wall.end], false),
            fill: "none",
            stroke: "var(--wall)",
            "stroke-width": 6,
            "vector-effect": "non-scaling-stroke",
          }),
        );
        for (const opening of wall.openings) {
          to.ground.append(
            svg("path", {
              d: pathOf([opening.start, opening.end], false),
              fill: "none",
              stroke: "var(--sheet)",
              "stroke-width": 3.5,
              "vector-effect": "non-scaling-stroke",
            }),
          );
          sign(to, mid(opening.start, opening.end), text(opening.name, { y: 19, "font-size": 12 }));
        }
        for (const brick of wall.air_bricks)
          sign(
            to,
            brick.at,
            svg("path", {
              d: "M-6 -4H6V4H-6ZM-2 -4V4M2 -4V4",
              fill: "var(--sheet)",
              stroke: "currentColor",
              "stroke-width": 1.4,
            }),
          );
        const words = text(
          wall.dpc_level_mm === null
            ? wall.is_house
              ? `${wall.name}, DPC not read`
              : wall.name
            : `${wall.name}, DPC ${level(wall.dpc_level_mm)}`,
          { y: 4, "font-size": 12, "font-weight": 650 },
        );
        sign(to, mid(wall.start, wall.end), svg("g", { transform: behind(wall, to) }, words));
      }
      for (const line of site.channels) {
        to.ground.append(
          svg("path", {
            d: pathOf([line.start, line.end], false),
            ...thin,
            stroke: "var(--water)",
            "stroke-width": 5,
            "stroke-dasharray": "4 3",
          }),
        );
        sign(to, mid(line.start, line.end), text(line.name, { y: -9, "font-size": 12 }));
      }
      for (const one of site.gullies)
        sign(
          to,
          one.at,
          svg("path", {
            d: "M-8 -8H8V8H-8ZM-8 -8L8 8M8 -8L-8 8",
            fill: "var(--sheet)",
            stroke: "var(--water)",
            "stroke-width": 2,
          }),
          text(one.gully.name, { y: 23, "font-size": 12 }),
        );
      for (const one of site.covers) {
        to.ground.append(
          svg("path", {
            d: pathOf(one.outline),
            fill: "var(--sheet)",
            stroke: "currentColor",
            "stroke-width": 2,
            "vector-effect": "non-scaling-stroke",
          }),
        );
        sign(to, one.at, text(one.cover.name, { y: 5, "font-size": 12 }));
      }
      for (const one of site.obstacles)
        to.ground.append(
          svg("path", {
            d: pathOf(one.outline),
            fill: "var(--wall)",
            stroke: "currentColor",
            "stroke-width": 1.5,
            "vector-effect": "non-scaling-stroke",
          }),
        );
      for (const one of site.trees)
        sign(
          to,
          one.at,
          svg("circle", { r: 11, ...thin, "stroke-width": 1.6, "stroke-dasharray": "5 3" }),
          svg("circle", { r: 3, fill: "currentColor" }),
          text(one.tree.name, { y: 26, "font-size": 12 }),
        );
      for (const one of site.boundaries) {
        to.ground.append(
          svg("path", {
            d: pathOf([one.start, one.end], false),
            ...thin,
            "stroke-width": 2,
            "stroke-dasharray": "14 4 2 4",
          }),
        );
        sign(to, mid(one.start, one.end), text(one.name, { y: -8, "font-size": 12 }));
      }
      for (const one of site.tie_ins)
        to.ground.append(svg("path", { d: pathOf([one.start, one.end], false), ...thin, "stroke-width": 3 }));
    },
  },
  tapes: {
    name: "Tapes",
    on: false,
    draw(to) {
      const tapes = to.plan.survey.tapes,
        at = placesOf(to.plan);
      if (!tapes) return;
      const line = (
        /** @type {string} */ from,
        /** @type {string} */ end,
        /** @type {Record<string, string|number>} */ pen,
      ) => {
        const [one, other] = [at.get(from), at.get(end)];
        if (one && other) to.ground.append(svg("path", { d: pathOf([one, other], false), ...thin, ...pen }));
      };
      for (const one of tapes.residuals) line(one.start, one.end, { "stroke-width": 1.2, "stroke-dasharray": "1 4" });
      for (const one of tapes.suspects) {
        for (const [from, end] of one.alike.length ? one.alike : [[one.start, one.end]])
          line(from, end, { "stroke-width": 3.5, stroke: "var(--stop)" });
        if (one.slip_mm !== null)
          sign(
            to,
            mid(at.get(one.start) ?? [], at.get(one.end) ?? []),
            text(`${plain(Math.abs(one.slip_mm))} too ${one.slip_mm > 0 ? "long" : "short"}?`, {
              "data-rank": 0,
              y: -8,
              "font-size": 13,
              "font-weight": 700,
              fill: "var(--stop)",
            }),
          );
      }
      const more = tapes.next_tape;
      if (more) {
        line(more.start, more.end, { "stroke-width": 2.2, "stroke-dasharray": "12 4 2 4", stroke: "var(--act)" });
        sign(
          to,
          mid(at.get(more.start) ?? [], at.get(more.end) ?? []),
          text("tape next", { y: -8, "font-size": 12, fill: "var(--act)" }),
        );
      }
    },
  },
  services: {
    name: "Services",
    on: true,
    draw(to) {
      for (const one of to.plan.survey.site.services) {
        to.ground.append(
          svg("path", {
            d: pathOf(one.points, false),
            ...thin,
            "stroke-width": 2.2,
            "stroke-dasharray": "10 4 2 4 2 4",
            stroke: "var(--stop)",
          }),
        );
        sign(
          to,
          one.points[Math.floor(one.points.length / 2)],
          text(`${one.service.name} (${one.service.kind})`, { y: -9, "font-size": 12, fill: "var(--stop)" }),
        );
      }
    },
  },
  asLaid: {
    name: "As laid",
    on: false,
    draw(to) {
      for (const area of to.plan.as_laid?.areas ?? [])
        for (const one of area.readings) {
          const mark =
            { pass: "M-5 0L-1 4L6 -5", fail: "M-5 -5L5 5M5 -5L-5 5", unsure: "M-5 0H5" }[
              /** @type {"pass"} */ (one.verdict)
            ] ?? "M-5 0H5";
          sign(
            to,
            one.at,
            svg("path", {
              d: mark,
              ...thin,
              "stroke-width": 2.4,
              stroke: one.verdict === "fail" ? "var(--stop)" : "currentColor",
            }),
            text(`${one.deviation_mm > 0 ? "+" : ""}${plain(one.deviation_mm)}`, { y: 17, "font-size": 11.5 }),
          );
        }
    },
  },
  photos: {
    name: "Photos",
    on: false,
    draw(to) {
      for (const one of given.photos)
        if (one.place)
          sign(
            to,
            one.place,
            svg("path", {
              d: "M-11 -8H-5L-3 -12H3L5 -8H11V8H-11ZM0 -4.5A4.5 4.5 0 1 0 0 4.5A4.5 4.5 0 1 0 0 -4.5Z",
              fill: "var(--act)",
              stroke: "var(--sheet)",
              "stroke-width": 1.5,
              "fill-rule": "evenodd",
            }),
            svg("title", { text: one.note || "Photo" }),
          );
    },
  },
  findings: {
    name: "Findings",
    on: true,
    draw(to) {
      for (const one of to.plan.findings)
        if (one.at_mm && one.severity !== "note") {
          const stop = one.severity === "stop";
          sign(
            to,
            one.at_mm,
            svg("path", {
              d: stop ? "M-9 -9H9V9H-9Z" : "M0 -11L10 8H-10Z",
              fill: stop ? "var(--stop)" : "var(--check)",
              stroke: "var(--sheet)",
              "stroke-width": 1.5,
            }),
            svg("text", {
              y: 5,
              "data-rank": 0,
              "text-anchor": "middle",
              "font-size": 13,
              "font-weight": 800,
              fill: "var(--sheet)",
              text: "!",
            }),
            svg("title", { text: one.message }),
          );
        }
    },
  },
};

/**
 * Where the words of a wall stand: along it, on the side away from the paving.
 * @param {any} wall
 * @param {Drawing} to
 */
function behind(wall, to) {
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
const mid = (a, b) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

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
