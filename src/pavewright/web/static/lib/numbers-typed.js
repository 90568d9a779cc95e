// @ts-check
/**
 * Numbers and money as people type them where the job is. A text that may mean two amounts is never taken for one: a
 * comma or a point before three figures parts thousands here and decimals there.
 */
import { minorPerMajor, moneyPlaces } from "./words.js";
import { marks } from "./writing.js";

/** @typedef {import("./lengths.js").Typed} Typed */

/** The decimal mark as it is written where the job is, in a text with a point. @param {string} text */
export const withMark = (text) => text.replace(".", marks()[1]);

const SPACES = /[\s\u00a0\u202f]/g,
  MANY = /^(\d{1,3})([.,'’])(\d{3})(?:\2\d{3})+$/,
  BOTH = /^(\d{1,3})([.,'’])(\d{3})(?:\2\d{3})*([.,])(\d+)$/,
  ONE = /^([1-9]\d{0,2})([.,])(\d{3})$/,
  PLAIN = /^(?:\d+(?:[.,]\d*)?|[.,]\d+)$/;

/**
 * What an amount without a sign may be, most likely first; none where it is no number.
 * @param {string} text
 * @returns {string[]} as figures with a point
 */
export function readings(text) {
  const clean = text.replace(SPACES, "").replace(/['’](?=\d{3})/g, "");
  if (MANY.test(clean)) return [clean.replace(/[.,]/g, "")];
  const both = BOTH.exec(clean);
  if (both && both[2] !== both[4]) {
    const at = clean.lastIndexOf(both[4]);
    return [`${clean.slice(0, at).replace(/[.,]/g, "")}.${both[5]}`];
  }
  const one = ONE.exec(clean);
  if (one) {
    const [group, point] = marks(),
      decimal = `${one[1]}.${one[3]}`;
    if (one[2] === point) return [decimal];
    return one[2] === group && group === "," ? [one[1] + one[3]] : [one[1] + one[3], decimal];
  }
  return PLAIN.test(clean) ? [clean.replace(",", ".")] : [];
}

/**
 * A number, with or without the unit of its field.
 * @param {string} text
 * @param {string} unit
 * @returns {Typed}
 */
export function plainNumber(text, unit) {
  const clean = text.trim().replace("−", "-"),
    figure = unit && clean.endsWith(unit) ? clean.slice(0, -unit.length).trim() : clean;
  if (/^[-+]?(\d+\.?\d*|\.\d+)e[-+]?\d+$/i.test(figure)) return { value: Number(figure), choices: [], bare: true };
  const minus = figure.startsWith("-"),
    found = readings(figure.replace(/^[-+]/, "")).map((each) => Number(each) * (minus ? -1 : 1));
  if (found.length < 2) return { value: found[0] ?? null, choices: [], bare: true };
  return { value: null, choices: found.map((value) => ({ text: String(value), value })), bare: true };
}

/**
 * What a typed price is in the smallest coin; else why it is not taken.
 * @param {string} text
 * @param {string} currency
 * @returns {{minor: number|null, words: string}}
 */
export function moneyTyped(text, currency) {
  const places = moneyPlaces(currency),
    clean = text
      .trim()
      .replace(/^(?:[£€$]|[A-Z]{3}(?=[\s\d]))|(?:[£€$]|[A-Z]{3})$/g, "")
      .trim(),
    found = readings(clean);
  if (!found.length) return { minor: null, words: "Write a price in figures." };
  const fits = found.filter((each) => (each.split(".")[1] ?? "").replace(/0+$/, "").length <= places);
  if (fits.length > 1)
    return { minor: null, words: `Is that ${fits.join(" or ")}? Write it without a mark for thousands.` };
  if (fits.length) return { minor: Math.round(Number(fits[0]) * minorPerMajor(currency)), words: "" };
  if (ONE.test(clean)) {
    const [whole, part] = found[0].split(".");
    return { minor: null, words: `Is that ${whole}${part} or ${Number(found[0]).toFixed(places)}? Write one of them.` };
  }
  const many = places ? `${places} figures` : "no figures";
  return { minor: null, words: `${currency} has ${many} behind the point.` };
}
