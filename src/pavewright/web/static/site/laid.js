// @ts-check
/** Levels of the finished paving from what was read. */

/**
 * A bigger staff reading is lower.
 * @param {number} datum_mm
 * @param {number} back_mm read on the datum
 * @param {number} reading_mm read on the paving
 */
export const laidLevel = (datum_mm, back_mm, reading_mm) => datum_mm + back_mm - reading_mm;

/** @param {number} datum_mm @param {string} way @param {number} by_mm */
export const datumLevel = (datum_mm, way, by_mm) => (way === "lower" ? datum_mm - by_mm : datum_mm + by_mm);

/**
 * @typedef {{
 *   wall: string, found_mm: number, promised_mm: number, tolerance_mm: number, verdict: string, byTolerance: boolean
 * }} AtWall
 */

/**
 * The smallest clearance that a reading shows below a damp-proof course, held to what is promised at its wall; null
 * away from every wall. What is promised, and what laying may take off it, comes with the plan.
 * @param {any} view @param {string} area @param {[number, number]} at @param {number} off_mm high is more than zero
 * @returns {AtWall|null}
 */
export function atWall(view, area, at, off_mm) {
  /** @type {Map<string, { away: number, clear: number, one: any }>} */
  const nearest = new Map();
  for (const one of view.walls ?? []) {
    if (one.area !== area) continue;
    const ux = one.end[0] - one.start[0],
      uy = one.end[1] - one.start[1],
      span = ux * ux + uy * uy;
    const t = span ? Math.min(1, Math.max(0, ((at[0] - one.start[0]) * ux + (at[1] - one.start[1]) * uy) / span)) : 0;
    const away = Math.hypot(at[0] - one.start[0] - t * ux, at[1] - one.start[1] - t * uy),
      had = nearest.get(one.wall);
    if (!had || away < had.away)
      nearest.set(one.wall, {
        away,
        clear: one.clear_at_start_mm + t * (one.clear_at_end_mm - one.clear_at_start_mm),
        one,
      });
  }
  let worst = null;
  for (const { away, clear, one } of nearest.values()) {
    if (away > view.near_wall_mm) continue;
    const found_mm = clear - off_mm,
      short = one.promised_mm - found_mm,
      doubt = one.trusted_sd * view.reading_sd_mm;
    const verdict =
      short <= one.tolerance_mm + EXACT_MM ? "pass" : short <= one.tolerance_mm + doubt + EXACT_MM ? "unsure" : "fail";
    const made = {
      wall: one.wall,
      found_mm,
      promised_mm: one.promised_mm,
      tolerance_mm: one.tolerance_mm,
      verdict,
      byTolerance: verdict === "pass" && short > EXACT_MM,
    };
    if (!worst || short - one.tolerance_mm > worst.promised_mm - worst.found_mm - worst.tolerance_mm) worst = made;
  }
  return worst;
}

/** Clearances this near to each other are the same. [mm] */
const EXACT_MM = 1e-6;

/** The worse of two verdicts. @param {string} one @param {string} other */
export const worse = (one, other) =>
  ["fail", "unsure", "pass"].find((each) => each === one || each === other) ?? "unsure";
