// @ts-check
/** A reading of the finished paving checked against the plan, at once and without signal. */
import { byTolerance, clearanceVerdict, toStretch, verdict, worst } from "../lib/kernel.js";

/**
 * @typedef {{
 *   wall: string, found_mm: number, promised_mm: number, tolerance_mm: number, verdict: string, byTolerance: boolean
 * }} AtWall
 */

/** How far readings are trusted. [mm] @param {SiteView} view */
export const doubtOf = (view) => view.trusted_sd * view.reading_sd_mm;

/**
 * The smallest clearance that a reading shows below a damp-proof course, held to what is promised at its wall; null
 * away from every wall. What is promised, and what laying may take off it, comes with the plan.
 * @param {SiteView} view @param {string} area @param {number[]} at @param {number} off_mm high is more than zero
 * @returns {AtWall|null}
 */
export function atWall(view, area, at, off_mm) {
  /** @type {Map<string, { away: number, clear: number, one: any }>} */
  const nearest = new Map();
  for (const one of view.walls ?? []) {
    if (one.area !== area) continue;
    const { away_mm: away, along } = toStretch(at, one.start, one.end),
      had = nearest.get(one.wall);
    if (!had || away < had.away)
      nearest.set(one.wall, {
        away,
        clear: one.clear_at_start_mm + along * (one.clear_at_end_mm - one.clear_at_start_mm),
        one,
      });
  }
  let found = null;
  for (const { away, clear, one } of nearest.values()) {
    if (away > view.near_wall_mm) continue;
    const found_mm = clear - off_mm,
      held = clearanceVerdict(found_mm, one, doubtOf(view)),
      spare = found_mm - one.promised_mm + one.tolerance_mm;
    if (found && spare >= found.found_mm - found.promised_mm + found.tolerance_mm) continue;
    found = {
      wall: one.wall,
      found_mm,
      promised_mm: one.promised_mm,
      tolerance_mm: one.tolerance_mm,
      verdict: held,
      byTolerance: held === "pass" && byTolerance(found_mm, one.promised_mm),
    };
  }
  return found;
}

/**
 * A reading against its limit, and against the wall beside it.
 * @param {SiteView} view
 * @param {any} entry
 * @param {number} off_mm
 * @param {number} limit_mm
 */
export function verdictOn(view, entry, off_mm, limit_mm) {
  const alone = verdict(off_mm, limit_mm, doubtOf(view)),
    wall = atWall(view, entry.area, [entry.x_mm, entry.y_mm], off_mm);
  return { alone, wall, verdict: wall ? worst(alone, wall.verdict) : alone };
}
