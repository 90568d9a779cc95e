// @ts-check
/**
 * Lengths as they are typed where the job is: where feet are read, a number without a unit is never taken for
 * millimetres, and what stands in a box stands there in feet and inches.
 */
import { lengthTyped, USUAL_MM } from "./lengths.js";
import { feet, isImperial } from "./writing.js";

/** @typedef {import("./lengths.js").LengthKind} LengthKind @typedef {import("./lengths.js").Typed} Typed */

const SMALL = new Set(["size", "thickness", "joint", "accuracy", "offset"]);

/**
 * What a typed length means, in millimetres; twin of `lengthTyped` but for bare numbers where feet are read.
 * @param {string} text
 * @param {LengthKind} [kind]
 * @param {number|null} [near_mm]
 * @returns {Typed}
 */
export function lengthHere(text, kind = "site", near_mm = null) {
  const typed = lengthTyped(text, kind, near_mm);
  if (!isImperial() || !typed.bare || typed.value === 0) return typed;
  const [low, high] = USUAL_MM[kind],
    units = SMALL.has(kind) ? ["in", "ft", "mm"] : ["ft", "in", "mm"],
    choices = units.flatMap((unit) => {
      const said = `${text.trim()} ${unit}`,
        { value } = lengthTyped(said, kind);
      return value !== null && low <= Math.abs(value) && Math.abs(value) <= high ? [{ text: said, value }] : [];
    });
  return { value: null, choices: [...choices, ...typed.choices.filter((one) => !/ mm$/.test(one.text))], bare: true };
}

/** A level in feet and hundredths, as it is read off a staff. @param {number} level_mm */
const feetOfLevel = (level_mm) => `${(level_mm / 304.8).toFixed(2)} ft`.replace("-", "−");

/**
 * A length as it stands in a box of its kind: millimetres, or what is read off the tape there.
 * @param {number} value_mm @param {LengthKind} kind @param {string} figures the millimetres in figures
 */
export const lengthShown = (value_mm, kind, figures) =>
  isImperial() ? (kind === "level" ? feetOfLevel(value_mm) : feet(value_mm)) : figures;

/** What stands beside such a box. */
export const lengthUnit = () => (isImperial() ? "ft in" : "mm");
