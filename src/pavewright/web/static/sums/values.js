// @ts-check
/** What is written in a field of a sum, and what a formula looks like with its numbers. */
import { fallTyped } from "../lib/lengths.js";
import { lengthHere } from "../lib/lengths-here.js";
import { plainNumber } from "../lib/numbers-typed.js";
import { labelled, plain, spoken } from "../lib/words.js";

/**
 * Read one field.
 * @param {any} input
 * @param {string} text
 * @returns {any} undefined where nothing is written
 * @throws {Error} with a sentence
 */
export function read(input, text) {
  const clean = text.trim();
  if (input.kind === "word") return clean || undefined;
  if (!clean) return undefined;
  if (input.kind === "words") return clean.split(",").map((one) => one.trim());
  const found = cells(input, clean).map((one) => {
    const { value, choices } = typed(input, one);
    if (choices.length) throw new Error(`${name(input)}: ${choices.map((each) => each.text).join(" or ")}?`);
    if (value === null || !Number.isFinite(value)) throw new Error(`${name(input)}: “${one}” is not a number.`);
    return value;
  });
  return input.kind === "numbers" ? found : found[0];
}

/**
 * The cells of a row: between commas, or between spaces where there are none.
 * @param {any} input
 * @param {string} text
 */
const cells = (input, text) =>
  input.kind === "numbers" ? text.split(/[,;]/.test(text) ? /\s*[,;]\s*/ : /\s+/).filter(Boolean) : [text];

/**
 * What is typed for a number: a length, a fall or a plain number, with its unit or without.
 * @param {any} input
 * @param {string} text
 * @returns {import("../lib/lengths.js").Typed}
 */
export function typed(input, text) {
  if (input.length) return lengthHere(text, input.length);
  if (input.fall) return fallTyped(text, input.fall);
  return plainNumber(text, unit(input));
}

/** @param {any} input */
export const name = (input) =>
  input.name === "mm_per_m"
    ? "In each metre"
    : input.name === "percent"
      ? "As a percentage"
      : labelled(input.name).name;
/** @param {any} quantity */
export const unit = (quantity) =>
  (quantity.unit || labelled(quantity.name).unit)
    .replace("m2", "m²")
    .replace("m3", "m³")
    .replace("deg", "°")
    .replace("price", "");
/** @param {any} value @returns {string} */
export function written(value) {
  if (typeof value === "number")
    return value !== 0 && Math.abs(value) < 0.0005
      ? value.toExponential(2)
      : plain(value, Number.isInteger(value) ? 0 : Math.abs(value) < 1 ? 4 : Math.abs(value) < 100 ? 2 : 1);
  if (Array.isArray(value)) return value.map(written).join(", ") || "–";
  return typeof value === "string" ? spoken(value) : String(value ?? "–");
}

/**
 * The formula with its numbers put in; null where a part of it cannot be told apart safely. A word of the formula is
 * replaced only where it is the name of exactly one input, without its unit.
 * @param {any} sum @param {Record<string, any>} given
 */
export function filled(sum, given) {
  const right = sum.formula.split("=").slice(1).join("=").trim();
  if (!right || sum.formula.includes(";") || /[Σ√]|least|rounded|where|whose|d\/dx/.test(sum.formula)) return null;
  let put = 0;
  const text = right.replace(/[A-Za-z_]+(?: [A-Za-z_]+)*/g, (/** @type {string} */ word) => {
    const fits = sum.inputs.filter(
      (/** @type {any} */ input) =>
        (input.name === "one_in" ? "n" : bare(input.name)) === word.toLowerCase() || input.name === word,
    );
    if (fits.length !== 1 || typeof given[fits[0].name] !== "number" || fits[0].name.endsWith("_percent")) return word;
    put += 1;
    return written(given[fits[0].name]);
  });
  return put > 0 && !/[A-Za-z]/.test(text) ? text : null;
}
/** @param {string} field */
const bare = (field) => field.replace(/_(mm|m2|m3|kg|l_s|percent|deg|min|mm_per_h)$/, "").replaceAll("_", " ");
