// @ts-check
/**
 * What was seen on the way, drawn on the sketch: doors, air bricks, drains, covers, trees, services, pins of photos.
 */
import { svg } from "../lib/dom.js";
import { pathOf } from "../job/plan/paths.js";
import { pin } from "../site/map.js";
import { cornersOf } from "./places.js";

/** @typedef {import("./frame.js").Walk} Walk @typedef {import("../job/plan/view.js").PlanView} PlanView */

/** A letter for each kind of service, so that no colour is needed. @type {Record<string, string>} */
const LETTERS = { electricity: "E", gas: "G", water: "W", drain: "D", telecom: "T", oil: "O", unknown: "?" };

/** Signs of what stands in one place, drawn so that they stay there. @type {Record<string, string>} */
const SIGNS = {
  gully: "M-8 -8H8V8H-8ZM-8 -3H8M-8 3H8M-3 -8V8M3 -8V8",
  cover: "M-10 -8H10V8H-10ZM-6 -4H6V4H-6Z",
  tree: "M0 -10L8 4H3V9H-3V4H-8Z",
  post: "M-6 -6H6V6H-6ZM-6 -6L6 6M6 -6L-6 6",
};

/** @param {number[]} at @param {...(SVGElement|string)} inside */
const sign = (at, ...inside) => svg("g", { "data-x": at[0], "data-y": at[1] }, ...inside);

/** @param {string} words @param {number} y @param {number} [size] */
const text = (words, y, size = 13) =>
  svg("text", { y, "text-anchor": "middle", "font-size": size, fill: "currentColor", class: "halo" }, words);

/**
 * Points whose names would crowd the sketch: those that only carry a line of something, and, away from the staff,
 * spots of the ground.
 * @param {any} doc
 * @param {boolean} staff
 * @returns {Set<string>}
 */
export function quietPoints(doc, staff) {
  const found = new Set(staff ? [] : (doc.measurements?.ground_points ?? []));
  for (const one of doc.site?.services ?? []) for (const point of one.points) found.add(point);
  for (const one of doc.site?.channels ?? []) found.add(one.start).add(one.end);
  for (const corner of cornersOf(doc)) found.delete(corner);
  return found;
}

/** @param {Walk} here @param {PlanView} view */
export function seenMarks(here, view) {
  const { doc } = here,
    { at } = here.places,
    site = doc.site ?? {};
  for (const wall of site.walls ?? []) inWall(view, wall, at.get(wall.start), at.get(wall.end));
  for (const one of site.channels ?? [])
    along(
      view,
      [one.start, one.end].map((name) => at.get(name)),
      { stroke: "var(--water)", "stroke-width": 7 },
      one.name,
    );
  for (const one of site.services ?? [])
    along(
      view,
      one.points.map((/** @type {string} */ name) => at.get(name)),
      { stroke: "var(--check)", "stroke-width": 3, "stroke-dasharray": "9 6" },
      LETTERS[one.kind] ?? "?",
    );
  standing(view, at, site.gullies, "gully");
  standing(view, at, site.covers, "cover");
  standing(view, at, site.trees, "tree");
  standing(view, at, site.obstacles, "post");
  for (const one of here.queue.list)
    if (one.kind === "photo" && one.place) view.signs.append(sign(one.place, pin("var(--ink)")));
  for (const one of /** @type {any} */ (here).photos ?? [])
    if (one.place) view.signs.append(sign(one.place, pin("var(--ink)")));
}

/** @param {PlanView} view @param {Map<string, number[]>} at @param {any[]|undefined} list @param {string} face */
function standing(view, at, list, face) {
  for (const one of list ?? []) {
    const place = at.get(one.point);
    if (!place) continue;
    const stands = one.runs === false ? " ✕" : "";
    view.signs.append(
      sign(
        place,
        svg("path", { d: SIGNS[face], fill: "var(--sheet)", stroke: "var(--water)", "stroke-width": 2 }),
        one.name === one.point && !stands ? "" : text(`${one.name}${stands}`, 26),
      ),
    );
  }
}

/**
 * @param {PlanView} view
 * @param {(number[]|undefined)[]} places
 * @param {Record<string, any>} look
 * @param {string} words
 */
function along(view, places, look, words) {
  const known = /** @type {number[][]} */ (places.filter(Boolean));
  if (known.length < 2) return;
  view.ground.append(
    svg("path", { d: pathOf(known, false), fill: "none", "vector-effect": "non-scaling-stroke", ...look }),
  );
  const middle = [0, 1].map((axis) => (known[0][axis] + known[known.length - 1][axis]) / 2);
  view.signs.append(sign(middle, text(words, -6, 12)));
}

/**
 * Doors as a gap in the wall, air bricks as a mark on it.
 * @param {PlanView} view
 * @param {any} wall
 * @param {number[]|undefined} from
 * @param {number[]|undefined} to
 */
function inWall(view, wall, from, to) {
  if (!from || !to) return;
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1,
    on = (/** @type {number} */ mm) => [0, 1].map((axis) => from[axis] + ((to[axis] - from[axis]) * mm) / long);
  for (const door of wall.openings ?? []) {
    const ends = [on(door.along_mm), on(door.along_mm + door.width_mm)];
    view.ground.append(
      svg("path", {
        d: pathOf(ends, false),
        stroke: "var(--sheet)",
        "stroke-width": 5,
        "vector-effect": "non-scaling-stroke",
      }),
    );
    view.signs.append(sign(on(door.along_mm + door.width_mm / 2), text(door.name, -9, 12)));
  }
  for (const brick of wall.air_bricks ?? [])
    view.signs.append(
      sign(
        on(brick.along_mm),
        svg("rect", {
          x: -5,
          y: -5,
          width: 10,
          height: 10,
          fill: "var(--sheet)",
          stroke: "var(--wall)",
          "stroke-width": 2.5,
        }),
      ),
    );
}
