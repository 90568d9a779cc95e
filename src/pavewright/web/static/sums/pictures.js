// @ts-check
/**
 * Small pictures of sums, with what is put in and what comes out as dimensions. Shapes are to proportion where that can
 * be seen.
 */
import { plain } from "../lib/words.js";
import { LEVELS } from "./levels.js";
import { SETTING_OUT } from "./setting-out.js";
import { STONE } from "./stone.js";
import { WATER } from "./water.js";

/** @typedef {Record<string, any>} Values */

/** @type {Record<string, (values: Values) => SVGElement|null>} */
const PICTURES = { ...LEVELS, ...SETTING_OUT, ...STONE, ...WATER };

/** The picture of a sum; null where it has none or a value is missing. @param {string} name @param {Values} values */
export function picture(name, values) {
  return PICTURES[name]?.(values) ?? null;
}

/** A picture in words for somebody who does not see it. @param {[string, any, string][]} told */
export const inWords = (told) =>
  told
    .filter(([, value]) => typeof value === "number")
    .map(([name, value, unit]) => `${name} ${plain(value)} ${unit}`.trim())
    .join(", ");
