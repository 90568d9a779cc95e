// @ts-check
/** Walls by touch: the nearest one, and how far along it. */
import { along } from "./placing.js";

/** @typedef {import("./frame.js").Walk} Walk */

/** @param {any} doc */
export const houseWalls = (doc) =>
  (doc.site?.walls ?? []).filter((/** @type {any} */ wall) => (wall.kind ?? "house") === "house");

/**
 * The house wall that a finger means, and how far along it from its start.
 * @param {Walk} here @param {number[]} at
 */
export function nearestWall(here, at) {
  let best = /** @type {{wall: any, along_mm: number}|null} */ (null),
    least = Infinity;
  for (const wall of houseWalls(here.doc)) {
    const from = here.places.at.get(wall.start),
      to = here.places.at.get(wall.end);
    if (!from || !to) continue;
    const { along: far, off, long } = along(from, to, at),
      inside = Math.min(Math.max(far, 0), long),
      away = Math.hypot(off, far - inside);
    if (away < least) [best, least] = [{ wall, along_mm: inside }, away];
  }
  return best;
}

const ENDS_MM = 20; // a jamb this far past a corner is at it

/**
 * Whether something still stands in its wall; where it reaches past the end of it, that is said at once. Only a wall
 * whose ends are measured can tell.
 * @param {Walk} here @param {string} named the wall @param {number} to_mm how far along it the thing reaches
 */
export function inside(here, named, to_mm) {
  const wall = (here.doc.site?.walls ?? []).find((/** @type {any} */ one) => one.name === named),
    from = here.places.at.get(wall?.start),
    to = here.places.at.get(wall?.end);
  if (!from || !to || !here.places.firm(wall.start) || !here.places.firm(wall.end)) return true;
  const long = Math.round(Math.hypot(to[0] - from[0], to[1] - from[1]));
  if (to_mm <= long + ENDS_MM) return true;
  here.say(`${named} is ${long} mm long and this reaches ${Math.round(to_mm)} mm along it: measure again.`);
  return false;
}

/** The wall in which a thing stands. @param {any} doc @param {"openings"|"air_bricks"} list @param {string} name */
export const wallOf = (doc, list, name) =>
  (doc.site?.walls ?? []).find((/** @type {any} */ wall) =>
    (wall[list] ?? []).some((/** @type {any} */ one) => one.name === name),
  );
