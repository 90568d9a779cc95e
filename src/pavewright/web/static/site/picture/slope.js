// @ts-check
/**
 * A slope by a tool that is turned end for end: a second telling of the room of photo survey, held to it by
 * tests/js/vectors.json. Nothing here knows a figure of the trade: limits come with the plan.
 */

/** @typedef {{first_deg: number, turned_deg: number}} Pair */
/**
 * @typedef {{slope_deg: number, error_deg: number, scatter_deg: number|null, band_deg: number, pairs: number}} Turned
 */
/** @typedef {"pass"|"fail"|"unsure"|"too_coarse"} Judged */

const ROUNDS = 200,
  HIGHEST = 1e4;

/** The chance that Student's t stays within a limit either way. @param {number} limit @param {number} freedom */
function withinT(limit, freedom) {
  const angle = Math.atan(limit / Math.sqrt(freedom)),
    square = Math.cos(angle) ** 2,
    odd = freedom % 2 === 1;
  let term = odd ? Math.cos(angle) : 1,
    total = term;
  const last = odd ? Math.floor((freedom - 1) / 2) : freedom / 2;
  for (let number = 1; number < last; number += 1) {
    const step = 2 * number;
    term *= square * (odd ? step / (step + 1) : (step - 1) / step);
    total += term;
  }
  if (!odd) return Math.sin(angle) * total;
  return (2 / Math.PI) * (angle + (freedom > 1 ? Math.sin(angle) * total : 0));
}

/** Within how many deviations of a mean its truth lies. @param {number} percent @param {number} freedom */
export function studentQuantile(percent, freedom) {
  let low = 0,
    high = HIGHEST;
  for (let round = 0; round < ROUNDS; round += 1) {
    const middle = (low + high) / 2;
    if (withinT(middle, freedom) * 100 < percent) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * @param {Pair[]} pairs @param {number} tool_sd_deg @param {number} trusted_sds @param {number} confidence_percent
 * @returns {Turned}
 */
export function turnedSlope(pairs, tool_sd_deg, trusted_sds, confidence_percent) {
  const count = pairs.length,
    slopes = pairs.map((pair) => (pair.first_deg - pair.turned_deg) / 2),
    mean = slopes.reduce((sum, each) => sum + each, 0) / count,
    error = pairs.reduce((sum, pair) => sum + (pair.first_deg + pair.turned_deg) / 2, 0) / count;
  const scatter = count > 1 ? Math.sqrt(slopes.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (count - 1)) : null;
  const of_scatter =
    scatter === null ? 0 : (studentQuantile(confidence_percent, count - 1) * scatter) / Math.sqrt(count);
  return {
    slope_deg: mean,
    error_deg: error,
    scatter_deg: scatter,
    band_deg: Math.hypot(trusted_sds * tool_sd_deg, of_scatter),
    pairs: count,
  };
}

/** @param {number} slope_deg */
export const perMetre = (slope_deg) => 1000 * Math.tan((slope_deg * Math.PI) / 180);

/** @param {number} mm_per_m */
export const degreesOf = (mm_per_m) => (Math.atan(mm_per_m / 1000) * 180) / Math.PI;

/**
 * @param {Turned} slope @param {number} wanted_mm_per_m @param {number} within_mm @param {number} over_mm
 * @param {number} judge_share
 */
export function judged(slope, wanted_mm_per_m, within_mm, over_mm, judge_share) {
  const metres = over_mm / 1000,
    off_mm = (perMetre(slope.slope_deg) - wanted_mm_per_m) * metres,
    band_mm = ((perMetre(slope.slope_deg + slope.band_deg) - perMetre(slope.slope_deg - slope.band_deg)) / 2) * metres;
  /** @type {Judged} */ let verdict = "unsure";
  if (band_mm > judge_share * within_mm) verdict = "too_coarse";
  else if (Math.abs(off_mm) + band_mm <= within_mm) verdict = "pass";
  else if (Math.abs(off_mm) - band_mm > within_mm) verdict = "fail";
  return { verdict, off_mm, band_mm };
}
