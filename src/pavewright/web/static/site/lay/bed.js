// @ts-check
/**
 * What bags used against area laid say of a bed: a second telling of the room of bedding, held to it by
 * tests/js/vectors.json.
 */

/** @typedef {{per_m2: number|null, planned_mm: number, all_m2: number, spread_percent: number, off_mm: number}} Bed */
/** @typedef {"thick"|"thin"|"as_planned"|"too_early"|"unknown"} Runs */

const MANY = 1000;

/** How far the mean of so many bags may be off. @param {Bed} bed @param {number} bags @param {number} doubt */
const spreadOf = (bed, bags, doubt) => Math.min((doubt * bed.spread_percent) / 100 / Math.sqrt(bags), 1);

/**
 * @param {number} opened @param {number|null} left_part of the last one; null where nobody looked
 * @param {number} laid_m2 @param {Bed} bed @param {number} doubt so many standard deviations
 */
export function bedSoFar(opened, left_part, laid_m2, bed, doubt) {
  if (!bed.per_m2 || laid_m2 <= 0) return { runs: /** @type {Runs} */ ("unknown") };
  const none = left_part ?? 0,
    all = left_part ?? 1,
    planned = laid_m2 * bed.per_m2,
    spread = spreadOf(bed, Math.max(opened, 1), doubt);
  const low = (Math.max(opened - all, 0) / planned) * (1 - spread),
    high = (Math.max(opened - none, 0) / planned) * (1 + spread),
    mean = Math.max(opened - (none + all) / 2, 0) / planned,
    off = bed.off_mm / bed.planned_mm,
    rest = Math.max(bed.all_m2 - laid_m2, 0) * bed.per_m2;
  /** @type {Runs} */ let runs = low >= 1 - off && high <= 1 + off ? "as_planned" : "too_early";
  if (low > 1 && mean >= 1 + off) runs = "thick";
  else if (high < 1 && mean <= 1 - off) runs = "thin";
  return {
    runs,
    mean_mm: bed.planned_mm * mean,
    low_mm: bed.planned_mm * low,
    high_mm: bed.planned_mm * high,
    more_low: rest * (low - 1),
    more_high: rest * (high - 1),
    shows_from_m2: showsFrom(bed, left_part !== null, doubt),
  };
}

/**
 * Area laid from which a bed shows that is too thick by twice what may pass.
 * @param {Bed} bed @param {boolean} looked @param {number} doubt
 */
export function showsFrom(bed, looked, doubt) {
  if (!bed.per_m2) return null;
  const ratio = 1 + (2 * bed.off_mm) / bed.planned_mm;
  for (let bags = 1; bags < MANY; bags += 1)
    if ((1 - (looked ? 0 : 1) / bags) * (1 - spreadOf(bed, bags, doubt)) * ratio > 1)
      return bags / (ratio * bed.per_m2);
  return null;
}
