// @ts-check
/**
 * How numbers, dates and measures are written where the job is: twin of `pavewright.writing`. A page sets it once it
 * knows the job; what stands on a screen is put in the words of the country, gets feet and inches behind millimetres
 * where those are usual, and the marks of the region in its numbers: `told`, once, when it becomes a node of the page.
 */
import { HOUSE_REGIONS, MARKS, USUAL_MARKS, WORDS } from "./country.js";

/** Region of a locality of the program. */
export const REGIONS = /** @type {Record<string, string>} */ ({
  england: "GB",
  wales: "GB",
  scotland: "GB",
  ireland: "IE",
  usa: "US",
});
/** Region in which a currency is at home. */
export const HOMES = /** @type {Record<string, string>} */ ({
  GBP: "GB",
  USD: "US",
  AUD: "AU",
  CAD: "CA",
  NZD: "NZ",
  CHF: "CH",
  ZAR: "ZA",
  INR: "IN",
  SEK: "SE",
  NOK: "NO",
  DKK: "DK",
  PLN: "PL",
  JPY: "JP",
  SGD: "SG",
  HKD: "HK",
});
const MM_PER_INCH = 25.4,
  FINE_MM = 50;
const now = {
  region: "GB",
  imperial: false,
  currency: "GBP",
  typed: /** @type {any} */ (null),
  kept: /** @type {RegExp|null} */ (null),
};
let looked = true;

/** How the firm writes where a job does not say. @type {{region?: string, measure?: string}} */ let firm = {};
/** Take how the firm writes where a job does not say. @param {{region?: string, measure?: string}|undefined} usual */
export function setFirmWriting(usual) {
  firm = usual ?? {};
}

/**
 * Take the manner of a job: as it says, else by its place, else by its currency.
 * @param {{locality?: string, currency?: string, region?: string|null, measure?: string|null}|null|undefined} identity
 * @param {any} [typed] what was typed, a whole document or names: it stays as it is
 */
export function setWriting(identity, typed = null) {
  const { locality = "", currency = "GBP" } = identity ?? {},
    region = identity?.region || firm.region,
    measure = identity?.measure || firm.measure;
  now.region = region || REGIONS[locality] || HOMES[currency] || "GB";
  now.imperial = measure ? measure === "imperial" : now.region === "US";
  now.currency = currency;
  now.typed = typed;
  looked = false;
}
/** Language and region by which dates are written: English as there, else as most of the world writes it. */
export function tag() {
  const wanted = `en-${now.region}`;
  if (now.region === "US") return wanted;
  return new Intl.DateTimeFormat(wanted).resolvedOptions().locale === wanted ? wanted : "en-001";
}
export const isImperial = () => now.imperial;
/** The money of the job. */
export const currencyNow = () => now.currency;

/** Marks between thousands and before decimals. @returns {[string, string]} */
export const marks = () => MARKS.find(([regions]) => regions.split(" ").includes(now.region))?.[1] ?? USUAL_MARKS;

/** @param {number} top @param {number} bottom @returns {number} */
const shared = (top, bottom) => (bottom ? shared(bottom, top % bottom) : top);

/** A length in feet, inches and the fraction of a tape. @param {number} length_mm @returns {string} */
export function feet(length_mm) {
  const parts = Math.abs(length_mm) < FINE_MM ? 16 : 8,
    count = Math.round((Math.abs(length_mm) / MM_PER_INCH) * parts);
  if (count === 0 && length_mm !== 0) return `${(length_mm / MM_PER_INCH).toFixed(2)} in`.replace("-", "−");
  const whole = Math.floor(count / parts),
    rest = count % parts,
    inches = whole % 12,
    found = whole >= 12 ? [`${Math.floor(whole / 12)} ft`] : [];
  if (rest) found.push(`${inches ? `${inches} ` : ""}${rest / shared(rest, parts)}/${parts / shared(rest, parts)} in`);
  else if (inches || !found.length) found.push(`${inches} in`);
  return `${length_mm < 0 && count ? "−" : ""}${found.join(" ")}`;
}

/** @param {number} factor @param {string} unit */
const times = (factor, unit) => (/** @type {number} */ value) => {
  const found = value * factor,
    places = Math.abs(found) >= 100 ? 0 : Math.abs(found) >= 10 ? 1 : 2;
  return `${found.toFixed(places).replace(/\B(?=(\d{3})+(?!\d))(?<!\.\d*)/g, ",")} ${unit}`;
};
const UNITS = /** @type {Record<string, (value: number) => string>} */ ({
  mm: feet,
  cm: (value) => feet(value * 10),
  m: (value) => feet(value * 1000),
  "m²": times(10.7639104, "sq ft"),
  m2: times(10.7639104, "sq ft"),
  "m³": times(1.3079506, "cu yd"),
  m3: times(1.3079506, "cu yd"),
  kg: times(2.2046226, "lb"),
  t: times(1.1023113, "short tons"),
  tonnes: times(1.1023113, "short tons"),
  litres: times(0.26417205, "gal"),
  "l/s": times(15.850323, "gal/min"),
  "mm/h": times(1 / MM_PER_INCH, "in/h"),
  "°C": (value) => `${Math.round(value * 1.8 + 32)} °F`,
});
const NUMBER = String.raw`[+\-−]?\d{1,3}(?:[\u202f,]\d{3})+(?:\.\d+)?|[+\-−]?\d+(?:\.\d+)?`,
  MEASURE = new RegExp(
    String.raw`(?<![\w./])((?:${NUMBER})(?:(?: ?[×x–] ?| to | and | or |, )(?:${NUMBER})){0,5})[ \u00a0\u202f]` +
      String.raw`(mm\/h|mm|cm|m²|m³|m2|m3|m|kg|tonnes|t|litres|l\/s|°C)(?![\w²³/(])` +
      String.raw`(?! \([^)]*(?:in|ft|lb|yd|°F|tons|gal|\/h)\))`,
    "g",
  ),
  ONE = new RegExp(`(${NUMBER})`);

/** @param {string} part a number as it is written */
const valueOf = (part) => Number(part.replace(/[\u202f,]/g, "").replace("−", "-"));

/**
 * An imperial measure no finer than the metric one: a tenth of a metre is no eighth of an inch.
 * @param {string} part @param {string} unit
 */
const saidOf = (part, unit) =>
  unit === "m" && /\.\d$/.test(part)
    ? `${(valueOf(part) * (1000 / (MM_PER_INCH * 12))).toFixed(1)} ft`.replace("-", "−")
    : UNITS[unit](valueOf(part));

/** A text with imperial measures behind metric ones, where they are usual. @param {string} text */
export function beside(text) {
  if (!now.imperial) return text;
  return text.replace(MEASURE, (all, /** @type {string} */ numbers, /** @type {string} */ unit) => {
    const said = numbers.split(ONE).map((part, place) => (place % 2 ? saidOf(part, unit) : part));
    return `${all} (${said.join("")})`;
  });
}

/** @param {string} text */
const literal = (text) => text.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
const otherWords = /** @type {Map<string, {find: RegExp, begin: Set<string>}>} */ (new Map());

/** What finds words that are called otherwise in the region. */
function wordsThere() {
  let found = otherWords.get(now.region);
  const words = WORDS[now.region];
  if (!found && words) {
    const each = Object.keys(words)
        .sort((one, other) => other.length - one.length)
        .map((word) => (word.startsWith("slab") ? `(?<!concrete )${word}` : literal(word))),
      begin = new Set(Object.values(words).map((word) => word.split(" ")[0]));
    found = { find: new RegExp(`(?<![\\w-])(?:${each.join("|")})(?![\\w-])`, "gi"), begin };
    otherWords.set(now.region, found);
  }
  return found;
}

/** A text in the words of the country. @param {string} text */
function inWords(text) {
  const there = wordsThere();
  if (!there) return text;
  const words = WORDS[now.region];
  return text
    .replace(there.find, (word) => {
      const other = words[word.toLowerCase()];
      return /^[A-Z]/.test(word) ? other[0].toUpperCase() + other.slice(1) : other;
    })
    .replace(/\b([Aa])n? (\w+)/g, (all, /** @type {string} */ article, /** @type {string} */ word) =>
      there.begin.has(word.toLowerCase()) ? `${article}${/^[aeiou]/i.test(word) ? "n" : ""} ${word}` : all,
    );
}

const QUOTED =
    String.raw`(?:\b(?:table|clause|section|figure|equation|part|annex|chapter|edition|version|page|p\.)s? ` +
    String.raw`[\w.]*\d[\w.]*)` +
    String.raw`|(?:\b(?:BS|EN|ISO|AS|NZS|AS/NZS|ASTM|DIN|SR|IS) (?:EN )?[A-Z]?\d[\w.:/-]*)`,
  NUMBERS = new RegExp(
    `(?:${QUOTED})|` +
      String.raw`(?<![A-Za-z0-9_.,])(\d{1,3}(?:[\u202f,]\d{3})+|\d+)(?:\.(\d+))?(e[+-]?\d+)?(?![A-Za-z0-9_]|[.,]\d)`,
    "gi",
  );

/** A text whose numbers have the marks of the region; once only. @param {string} text */
function marked(text) {
  if (HOUSE_REGIONS.includes(now.region)) return text;
  const [group, point] = marks();
  return text.replace(NUMBERS, (all, /** @type {string|undefined} */ whole, part, power) =>
    whole === undefined ? all : whole.replace(/[\u202f,]/g, group) + (part ? point + part : "") + (power ?? ""),
  );
}

/** Names that stay: those with a letter that a change would touch. @param {any} typed @returns {RegExp|null} */
function keptIn(typed) {
  const names = new Set(),
    look = (/** @type {any} */ value, /** @type {boolean} */ named) => {
      if (typeof value === "string") {
        if (!/\p{L}/u.test(value) || (!named && /^[a-z][a-z0-9_]*$/.test(value))) return;
        if (/\d/.test(value) || inWords(value) !== value) names.add(value);
      } else if (value && typeof value === "object")
        for (const [key, each] of Object.entries(value)) look(each, key === "name");
    };
  look(typed, false);
  if (!names.size) return null;
  const either = [...names].sort((one, other) => other.length - one.length).map(literal);
  return new RegExp(`(?<![\\p{L}\\p{N}_])(${either.join("|")})(?![\\p{L}\\p{N}_])`, "u");
}

/** A text as it is shown where the job is: its words, its measures, its marks; once only. @param {string} text */
export function told(text) {
  if (!now.imperial && HOUSE_REGIONS.includes(now.region) && !WORDS[now.region]) return text;
  if (!looked) {
    now.kept = keptIn(now.typed);
    looked = true;
  }
  const change = (/** @type {string} */ part) => marked(beside(inWords(part)));
  if (!now.kept) return change(text);
  return text
    .split(now.kept)
    .map((part, place) => (place % 2 ? part : change(part)))
    .join("");
}
