// @ts-check
/** Figures as people of the trade write them; rounding happens here and on paper only. */
import { feet, isImperial, tag } from "./writing.js";

/**
 * A number with its thousands apart by a thin space, as on paper; it gets the marks of the region where it is shown.
 * @param {number} value @param {number} [places]
 */
export function plain(value, places = 0) {
  const text = bare(value, places);
  const [whole, part] = text.split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, "\u202f");
  return (part ? `${grouped}.${part}` : grouped).replace("-", "−");
}
/** A number as it stands in a box to be typed over: nothing apart. @param {number} value @param {number} [places] */
export const bare = (value, places = 0) =>
  Math.abs(value) < 0.5 * 10 ** -places ? (0).toFixed(places) : value.toFixed(places);
/** @param {number} value_mm */
export const mm = (value_mm) => `${plain(value_mm)} mm`;
/** A length in metres to the millimetre. @param {number} value_mm */
export const metres = (value_mm) => `${plain(value_mm / 1000, 3)} m`;
/** A length as it is read off a tape, without a unit where that is metres. @param {number} value_mm */
export const tape = (value_mm) => (isImperial() ? feet(Math.round(value_mm)) : plain(value_mm / 1000, 3));
/**
 * A level as it is read off a staff: metres without their unit, or feet and hundredths, made of the millimetre as it is
 * printed elsewhere.
 * @param {number} level_mm
 */
export const level = (level_mm) =>
  isImperial() ? `${plain(Math.round(level_mm) / 304.8, 2)} ft` : plain(level_mm / 1000, 3);
/** @param {number} value */
export const squareMetres = (value) => `${plain(value, 1)} m²`;
/** Money as on paper: its sign, thousands apart; currencies without a smaller coin have no places. */
const SIGNS = /** @type {Record<string, string>} */ ({ GBP: "£", EUR: "€", USD: "$" });
/** Decimals of currencies that have not two: twin of `units.money_places`. */
export const PLACES = /** @type {Record<string, number>} */ ({
  ...of("BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF", 0),
  ...of("BHD IQD JOD KWD LYD OMR TND", 3),
  ...of("CLF UYW", 4),
});
/** Currencies written with commas between thousands where they are at home. */
export const WITH_COMMAS = new Set(["USD", "CAD", "AUD", "NZD", "SGD", "HKD", "MXN", "PHP"]);
/** @param {string} names @param {number} places */
function of(names, places) {
  return Object.fromEntries(names.split(" ").map((name) => [name, places]));
}
/** How many decimals an amount of a currency has. @param {string} currency */
export const moneyPlaces = (currency) => PLACES[currency] ?? 2;
/** How many of the smallest unit make one of a currency. @param {string} currency */
export const minorPerMajor = (currency) => 10 ** moneyPlaces(currency);
/** An amount with the marks of its currency. @param {number} value @param {number} places @param {string} currency */
function coins(value, places, currency) {
  const [whole, part] = bare(value, places).split("."),
    grouped = whole.replace(/\B(?=(\d{3})+$)/g, WITH_COMMAS.has(currency) ? "," : "\u202f");
  return part ? `${grouped}.${part}` : grouped;
}
/** Before an amount of a currency: its sign, or its name and a space. @param {string} currency */
export const currencySign = (currency) => SIGNS[currency] ?? (currency ? `${currency} ` : "");
/** @param {number} minor @param {string} currency */
export function money(minor, currency) {
  const amount = coins(Math.abs(minor) / minorPerMajor(currency), moneyPlaces(currency), currency);
  return `${minor < 0 ? "−" : ""}${currencySign(currency)}${amount}`;
}
/** An amount as it stands in a box to be typed over. @param {number} minor @param {string} currency */
export const moneyBare = (minor, currency) => bare(minor / minorPerMajor(currency), moneyPlaces(currency));
/** The smallest units of what was typed, or no number. @param {string|number} typed @param {string} currency */
export const toMinor = (typed, currency) => Math.round(Number(typed) * minorPerMajor(currency));
/** Money where the smaller coin says nothing. @param {number} minor @param {string} currency */
export function roundMoney(minor, currency) {
  const amount = coins(Math.abs(minor) / minorPerMajor(currency), 0, currency);
  return `${minor < 0 ? "−" : ""}${currencySign(currency)}${amount}`;
}
/**
 * So many of a thing: the word as one or as several. @param {number} number @param {string} one @param {string} [more]
 */
export const counted = (number, one, more = `${one}s`) => `${plain(number)} ${number === 1 ? one : more}`;
/** A fall as 1 in n, to a tenth where it is steep. @param {number} fall */
export const fall = (fall) => {
  const run = 1 / Math.abs(fall);
  return Math.abs(fall) < 1e-6 ? "level" : `1 in ${plain(run, run < 20 ? 1 : 0).replace(/\.0$/, "")}`;
};
/** A unit as it is written on paper. @param {string} unit */
export const unitSign = (unit) => unit.replace("m2", "m²").replace("m3", "m³");
/** @param {string} word */
export function spoken(word) {
  const text = word.replaceAll("_", " ");
  return text.charAt(0).toUpperCase() + text.slice(1);
}
/**
 * A layer of a build-up with its thickness; a cloth has none.
 * @param {{name: string, thickness_mm: number}} layer
 */
export function layerWords({ name, thickness_mm }) {
  return thickness_mm ? `${name} ${plain(thickness_mm)}` : name;
}
/** The same in short, beside its band on a section. @param {{name: string, thickness_mm: number}} layer */
export function bandWords({ name, thickness_mm }) {
  const short = name.split(/[,(]/)[0];
  return thickness_mm ? `${plain(thickness_mm)} ${short}` : short;
}
/** A day with its year, as it is written where the job is. @param {string} iso */
export const fullDay = (iso) =>
  new Date(`${iso}T00:00:00`).toLocaleDateString(tag(), { day: "numeric", month: "long", year: "numeric" });
/** @param {string} iso */
export function day(iso) {
  const date = new Date(iso.length > 10 ? iso : `${iso}T00:00:00`);
  return date.toLocaleDateString(tag(), { weekday: "short", day: "numeric", month: "short" });
}

const UNITS = [
  ["_mm", "mm"],
  ["_m", "m"],
  ["_m2", "m²"],
  ["_m3", "m³"],
  ["_deg", "°"],
  ["_percent", "%"],
  ["_minor_per_hour", "an hour"],
  ["_minor", "price"],
  ["_kg_per_m3", "kg/m³"],
  ["_one_in", ""],
  ["_min", "min"],
  ["_m_per_s", "m/s"],
  ["_tonnes", "t"],
];

/**
 * A field's name as words and its unit.
 * @param {string} field
 * @returns {{name: string, unit: string, ending: string}}
 */
export function labelled(field) {
  if (field === "one_in") return { name: "Fall, 1 in", unit: "", ending: "" };
  if (field === "x_mm") return { name: "East", unit: "mm", ending: "_mm" };
  if (field === "y_mm") return { name: "North", unit: "mm", ending: "_mm" };
  if (field === "kg_each") return { name: "Weight of one", unit: "kg", ending: "" };
  for (const [ending, unit] of UNITS) {
    if (field.endsWith(ending) && field !== ending.slice(1)) {
      const stem = spoken(field.slice(0, -ending.length))
        .replace(/\bdpc\b/i, "DPC")
        .replace("Cbr", "Bearing ratio " + "(CBR)");
      return { name: ending === "_one_in" ? `${stem} fall, 1 in` : stem, unit, ending };
    }
  }
  return { name: spoken(field).replace(/\bdpc\b/i, "DPC"), unit: "", ending: "" };
}

/** Name of a month, January 1. @param {number} month */
export const monthName = (month) => new Date(2026, month - 1, 15).toLocaleDateString(tag(), { month: "long" });
/** A moment as day and time. @param {string} iso */
export const moment = (iso) =>
  new Date(iso).toLocaleString(tag(), {
    day: "numeric",
    month: "short",
    year: "numeric",
    hour: "2-digit",
    minute: "2-digit",
  });
/**
 * As much of a text as fits into so many letters; a sign made of several (an emoji, a letter with its marks) is kept
 * whole or left out.
 * @param {string} text
 * @param {number} count
 */
export function cut(text, count) {
  if (text.length <= count) return text;
  const signs =
    typeof Intl.Segmenter === "function"
      ? Array.from(new Intl.Segmenter().segment(text), (one) => one.segment)
      : Array.from(text);
  let kept = "";
  for (const sign of signs) {
    if (kept.length + sign.length > count) break;
    kept += sign;
  }
  return kept;
}

/** What a caught problem says. @param {unknown} problem */
export const messageOf = (problem) => (problem instanceof Error ? problem.message : String(problem));

/** Whether what was caught is that somebody stopped the work. @param {unknown} problem */
export const wasStopped = (problem) => problem instanceof DOMException && problem.name === "AbortError";
