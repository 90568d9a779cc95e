// @ts-check
/**
 * Sums at hold points, the same as those of the program (pavewright.hold_points): a phone works them out by itself.
 * Pure.
 */
import { worst } from "../../lib/kernel.js";

/**
 * A level that may lie so much too high and so much too low, with the doubt of its reading.
 * @param {number} off_mm found less planned @param {number} above_mm @param {number} below_mm
 * @param {number} doubt_mm what a reading is trusted to
 * @returns {"pass"|"fail"|"unsure"}
 */
export function offVerdict(off_mm, above_mm, below_mm, doubt_mm) {
  if (off_mm > above_mm + doubt_mm || off_mm < -below_mm - doubt_mm) return "fail";
  return off_mm <= above_mm - doubt_mm && off_mm >= doubt_mm - below_mm ? "pass" : "unsure";
}

/**
 * What a surface lacks and has too much of, each reading speaking for an equal part of it.
 * @param {number} area_m2 @param {number[]} offs_mm @param {number} sd_mm of one reading @param {number} trusted
 */
export function meanVolumes(area_m2, offs_mm, sd_mm, trusted) {
  const count = offs_mm.length,
    part = (/** @type {(off: number) => number} */ of) =>
      (area_m2 * offs_mm.reduce((sum, off) => sum + of(off), 0)) / count / 1000,
    mean_mm = offs_mm.reduce((sum, off) => sum + off, 0) / count;
  let doubt_m3 = null;
  if (count > 1) {
    const spread = Math.sqrt(offs_mm.reduce((sum, off) => sum + (off - mean_mm) ** 2, 0) / (count - 1));
    doubt_m3 = (area_m2 * trusted * Math.max(spread, sd_mm)) / Math.sqrt(count) / 1000;
  }
  return { low_m3: part((off) => Math.max(-off, 0)), high_m3: part((off) => Math.max(off, 0)), mean_mm, doubt_m3 };
}

/**
 * What a volume takes by the rates of the plan.
 * @param {plan.TakeUpRate} rate @param {number} m3 @param {number|null} day_h hours of all the crew in a day
 */
export function takes(rate, m3, day_h) {
  const hours = rate.hours_per_m3 === null ? null : m3 * rate.hours_per_m3;
  return {
    goods: rate.goods.map((one) => ({
      material: one.material,
      unit: one.unit,
      amount: m3 * one.per_m3,
      packs: one.in_pack ? (m3 * one.per_m3) / one.in_pack : null,
      in_pack: one.in_pack,
    })),
    hours,
    minor: rate.minor_per_m3 === null ? null : m3 * rate.minor_per_m3,
    days: hours === null || !day_h ? null : hours / day_h,
    loose_m3: rate.loose_per_m3 === null ? null : m3 * rate.loose_per_m3,
  };
}

/**
 * What is dug and filled for a find, before the plan has worked it out.
 * @param {string} kind @param {{area_m2?: number, depth_mm: number, length_mm?: number}} size @param {number} trench_mm
 */
export function foundVolume(kind, size, trench_mm) {
  const plan_m2 = kind === "drain" ? ((size.length_mm ?? 0) / 1000) * (trench_mm / 1000) : (size.area_m2 ?? 0);
  return (plan_m2 * size.depth_mm) / 1000;
}

/**
 * The fall between two readings of a drain, against the smallest that it should have.
 * @param {number} head_mm @param {number} foot_mm @param {number} run_mm @param {number} sd_mm @param {number} min_fall
 * @param {number} trusted
 */
export function fallRead(head_mm, foot_mm, run_mm, sd_mm, min_fall, trusted) {
  const fall = (head_mm - foot_mm) / run_mm,
    sd = (Math.SQRT2 * sd_mm) / run_mm;
  const verdict = fall >= min_fall + trusted * sd ? "pass" : fall < min_fall - trusted * sd ? "fail" : "unsure";
  return { fall, sd, verdict: /** @type {"pass"|"fail"|"unsure"} */ (verdict) };
}

/**
 * Whether a reading was taken at a place: by where it lies, since a plan that changes gives its labels anew.
 * @param {plan.HoldsOnSite} part @param {plan.HoldPlace} place @param {any} reading
 */
export const isAt = (part, place, reading) =>
  Math.hypot(reading.x_mm - place.at[0], reading.y_mm - place.at[1]) <= part.same_place_mm;

/** What was read against the plan. @param {plan.HoldsOnSite} part @param {plan.HoldOnSite} one @param {any} check */
export function read(part, one, check) {
  const sd = check?.sd_mm ?? part.reading_sd_mm,
    doubt = part.trusted * sd;
  return (check?.readings ?? []).map((/** @type {any} */ each) => {
    const place = one.places.find((other) => isAt(part, other, each)),
      off =
        typeof each.level_mm === "number" && place && place.planned_mm !== null
          ? each.level_mm - place.planned_mm
          : null,
      held = [];
    if (off !== null && one.above_mm !== null && one.below_mm !== null)
      held.push(offVerdict(off, one.above_mm, one.below_mm, doubt));
    if (one.line_mm !== null && typeof each.off_mm === "number")
      held.push(offVerdict(each.off_mm, one.line_mm, one.line_mm, doubt));
    const all = held.length ? worst(...held) : null;
    // a level that was not read is not known, however well the piece lies to its string
    const verdict = off === null && all === "pass" ? null : all;
    return { label: place?.label ?? null, off, line: each.off_mm ?? null, verdict };
  });
}
