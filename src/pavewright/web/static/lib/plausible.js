// @ts-check
/** Readings that look like another unit or that no staff shows: what a page asks before it takes them. */

import { FIGURES } from "./shape/figures.js";

/**
 * @typedef {{looks_like: "metres"|"centimetres"|"inches"|"feet", millimetres: number}|{looks_like: "no_staff",
 * millimetres: null}} Asked
 */

const METRES = 10, // below this with a fraction it was written in metres: no staff is read to a fraction there
  REACH_MM = 3000, // levels of one job lie within this of their middle
  ENOUGH = 3,
  FAR_BELOW = 0.4,
  ROOM = 0.5;

/** @type {["metres"|"centimetres"|"inches"|"feet", number][]} */
const FACTORS = [
  ["centimetres", 10],
  ["metres", 1000],
  ["inches", 25.4],
  ["feet", 304.8],
];

/**
 * What is odd about a reading of the staff; null where nothing is.
 * @param {number} reading_mm
 * @param {number[]} others other readings of the same set-up. [mm]
 * @returns {Asked|null}
 */
export function askedOfReading(reading_mm, others = []) {
  const size = Math.abs(reading_mm);
  if (size > FIGURES.staff_length_mm) return { looks_like: "no_staff", millimetres: null };
  if (size < METRES && !Number.isInteger(reading_mm)) return { looks_like: "metres", millimetres: reading_mm * 1000 };
  const least = Math.min(...others),
    most = Math.max(...others);
  if (others.length < ENOUGH || least <= 0 || !(reading_mm > 0 && reading_mm < FAR_BELOW * least)) return null;
  for (const [looks_like, factor] of FACTORS) {
    const millimetres = reading_mm * factor;
    if (millimetres >= ROOM * least && millimetres <= (2 - ROOM) * most) return { looks_like, millimetres };
  }
  return null;
}

/**
 * In which unit a level comes among the others of the job; null where it lies among them as it is, or too few are
 * known.
 * @param {number} level
 * @param {number[]} others
 * @returns {Asked|null}
 */
export function askedOfLevel(level, others) {
  if (others.length < ENOUGH - 1) return null;
  const middle = median([...others, level]);
  if (Math.abs(level - middle) <= REACH_MM) return null;
  if (Math.abs(level * 1000 - middle) <= REACH_MM) return { looks_like: "metres", millimetres: level * 1000 };
  if (Math.abs(level * 10 - middle) <= REACH_MM) return { looks_like: "centimetres", millimetres: level * 10 };
  return null;
}

/** @param {number[]} all */
function median(all) {
  const row = [...all].sort((a, b) => a - b),
    half = Math.floor(row.length / 2);
  return row.length % 2 ? row[half] : (row[half - 1] + row[half]) / 2;
}
