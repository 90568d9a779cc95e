// @ts-check
/**
 * Lengths and falls as people type them: what a text means, or what it may mean where that is not clear.
 *
 * A text with its unit is taken as it stands. A bare number is millimetres where that is usual for what is asked and no
 * other reading is; else both readings are given, and a person says which. Twin of `pavewright.typed`.
 */

/**
 * @typedef {"site"|"run"|"place"|"offset"|"size"|"thickness"|"joint"|"accuracy"|"reading"|"level"} LengthKind
 * @typedef {{value: number|null, choices: {text: string, value: number}[], bare: boolean}} Typed
 */

/**
 * Of each kind the smallest and the greatest usual value, and the greatest that is likely to be written in metres, mm.
 * @type {Record<LengthKind, [number, number, number]>}
 */
export const USUAL_MM = {
  site: [30, 100000, 100000],
  run: [300, 100000, 100000],
  place: [30, 10000000, 1000000],
  offset: [1, 10000, 10000],
  size: [20, 10000, 10000],
  thickness: [5, 1000, 1000],
  joint: [0.5, 50, 50],
  accuracy: [0.1, 100, 100],
  reading: [5, 10000, 10000],
  level: [0, 10000000, 10000000],
};
const USUAL_FALL = /** @type {Record<string, [number, number]>} */ ({
  one_in: [5, 2000],
  percent: [0.05, 20],
  mm_per_m: [0.5, 200],
});
const LEVELS_REACH_MM = 3000,
  LONGEST_TEXT = 60,
  MM_PER_INCH = 25.4;
const MM_OF = /** @type {Record<string, number>} */ ({ mm: 1, cm: 10, m: 1000 });

const NUMBER = String.raw`(?:\d+(?:\.\d+)?|\.\d+)`,
  FRACTION = String.raw`(\d{1,4}) ?/ ?(\d{1,4})`,
  INCH_PART = `(?:(${NUMBER})(?:[ -]${FRACTION})?|${FRACTION})`;
const whole = (/** @type {string} */ pattern) => new RegExp(`^(?:${pattern})$`);
const BARE = whole(`(-?)(${NUMBER})`),
  METRIC = whole(`(-?)(${NUMBER}) ?(mm|cm|m)`),
  METRES_AND = whole(`(-?)(${NUMBER}) ?m (${NUMBER}) ?(mm|cm)`),
  FEET = whole(`(-?)(${NUMBER}) ?ft(?: ?-? ?${INCH_PART} ?(?:in)?)?`),
  INCHES = whole(`(-?)${INCH_PART} ?in`),
  THOUSANDS = /^(?:-?\d{1,3}(?:,\d{3}){2,}(?:\.\d+)?|-?\d{1,3},\d{3}\.\d+)/,
  ONE_COMMA = /(-?\d{1,3}),(\d{3})(?!\d)/,
  SPACED = /(^|[^\d.])(\d{1,3})((?: \d{3})+)(?![\d/])/g;
const PARTS = /** @type {Record<string, string>} */ ({
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
});
const WORDS = /** @type {[RegExp, string][]} */ (
  [
    ["millimetres?|millimeters?", "mm"],
    ["centimetres?|centimeters?", "cm"],
    ["metres?|meters?", "m"],
    ["feet|foot", "ft"],
    ["inches|inch", "in"],
  ].map(([words, short]) => [new RegExp(`(^|[^a-z])(?:${words})(?![a-z])`, "g"), `$1${short}`])
);

/** @param {number} value @param {boolean} [bare] @returns {Typed} */
const clear = (value, bare = false) => ({ value, choices: [], bare });
/** @returns {Typed} */
const none = () => ({ value: null, choices: [], bare: false });

/**
 * What a typed length means, in millimetres.
 * @param {string} text as typed: 6000, 6.0 m, 600cm, 19' 8 1/2", 6 1/4 in
 * @param {LengthKind} [kind] what is measured
 * @param {number|null} [near_mm] middle of the other levels of the job, for a level
 * @returns {Typed}
 */
export function lengthTyped(text, kind = "site", near_mm = null) {
  let clean = cleaned(text);
  if (clean.length > LONGEST_TEXT) return none();
  if (ONE_COMMA.test(clean) && !THOUSANDS.test(clean)) return withComma(clean, kind, near_mm);
  clean = THOUSANDS.test(clean) ? clean.replaceAll(",", "") : clean.replaceAll(",", ".");
  const bare = BARE.exec(clean);
  if (bare) return ofBare(bare[1], bare[2], kind, near_mm);
  const value = withUnit(clean);
  return value === null ? none() : clear(value);
}

/**
 * The length in millimetres; null where the text is none, or may be one of several.
 * @param {string} text
 * @param {LengthKind} [kind]
 */
export const lengthFrom = (text, kind = "site") => lengthTyped(text, kind).value;

/** A text with the signs and words of one hand. @param {string} text */
function cleaned(text) {
  let clean = text
    .replace(/[−–]/g, "-")
    .replace(/[’′]/g, "'")
    .replace(/[”″]/g, '"')
    .replace(/⁄/g, "/")
    .toLowerCase()
    .replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => ` ${PARTS[sign]}`)
    .replace(/\s+/g, " ")
    .trim()
    .replaceAll("''", '"')
    .replaceAll("'", "ft")
    .replaceAll('"', "in");
  for (const [words, short] of WORDS) clean = clean.replace(words, short);
  return clean.replace(/^- /, "-").replace(SPACED, (...found) => found[1] + found[2] + found[3].replaceAll(" ", ""));
}

/**
 * One comma before three figures: of thousands, or the point of a decimal.
 * @param {string} clean
 * @param {LengthKind} kind
 * @param {number|null} near_mm
 */
function withComma(clean, kind, near_mm) {
  const thousands = clean.replace(ONE_COMMA, "$1$2"),
    decimal = clean.replace(ONE_COMMA, "$1.$2"),
    bare = BARE.exec(thousands);
  if (bare) return ofBare(bare[1], bare[2], kind, near_mm); // 6,000 mm and 6.000 m are one length
  const one = withUnit(thousands),
    other = withUnit(decimal);
  if (one === null || other === null) return none();
  return {
    value: null,
    choices: [
      { text: thousands, value: one },
      { text: decimal, value: other },
    ],
    bare: false,
  };
}

/**
 * A number without a unit.
 * @param {string} sign
 * @param {string} figures
 * @param {LengthKind} kind
 * @param {number|null} near_mm
 * @returns {Typed}
 */
function ofBare(sign, figures, kind, near_mm) {
  const size = Number(figures),
    value = sign && size ? -size : size,
    [low, high, longest] = USUAL_MM[kind];
  if (size === 0) return clear(0, true);
  const inMetres = low <= size * 1000 && size * 1000 <= longest;
  // a staff is read in metres to the millimetre
  if (kind === "reading" && inMetres && /^\d\.\d{3}$/.test(figures)) return clear(value * 1000, true);
  let usual = low <= size && size <= high && !(figures.includes(".") && inMetres);
  if (kind === "level" && near_mm !== null) usual &&= !otherUnit(value, near_mm);
  if (usual) return clear(value, true);
  const units = ["mm"];
  if (inMetres) units.push("m");
  else if (low <= size * 10 && size * 10 <= high && size < low) units.push("cm");
  return {
    value: null,
    choices: units.map((unit) => ({ text: `${sign}${figures} ${unit}`, value: value * MM_OF[unit] })),
    bare: true,
  };
}

/**
 * Whether a level lies far from the others and comes among them in metres or centimetres.
 * @param {number} value
 * @param {number} near_mm
 */
function otherUnit(value, near_mm) {
  if (Math.abs(value - near_mm) <= LEVELS_REACH_MM) return false;
  return [1000, 10].some((times) => Math.abs(value * times - near_mm) <= LEVELS_REACH_MM);
}

/** The millimetres of a length with its unit. @param {string} clean @returns {number|null} */
function withUnit(clean) {
  const both = METRES_AND.exec(clean);
  if (both) return signed(both[1], Number(both[2]) * 1000 + Number(both[3]) * MM_OF[both[4]]);
  const metric = METRIC.exec(clean);
  if (metric) return signed(metric[1], Number(metric[2]) * MM_OF[metric[3]]);
  const feet = FEET.exec(clean),
    found = feet ?? INCHES.exec(clean);
  if (!found) return null;
  const [full, top, bottom, onlyTop, onlyBottom] = found.slice(feet ? 3 : 2),
    over = top ?? onlyTop,
    under = bottom ?? onlyBottom;
  if (over !== undefined && Number(under) === 0) return null;
  const inches = Number(full ?? 0) + (over === undefined ? 0 : Number(over) / Number(under));
  return signed(found[1], ((feet ? Number(feet[2]) * 12 : 0) + inches) * MM_PER_INCH);
}

/** @param {string} sign @param {number} value */
const signed = (sign, value) => (sign ? -value : value);

const RATIO = whole(`(${NUMBER}) ?(?::|/|in|on) ?(${NUMBER})`),
  PERCENT = whole(`(${NUMBER}) ?(?:%|percent|per cent)`),
  PER_METRE = whole(`(${NUMBER}) ?mm ?(?:/|per|in a|a) ?(?:m|metre)`);

/**
 * What a typed fall means, in the unit of its field.
 * @param {string} text as typed: 1:60, 1 in 60, 1/80, 2 %, 12 mm/m, 60
 * @param {"one_in"|"percent"|"mm_per_m"} unit
 * @returns {Typed}
 */
export function fallTyped(text, unit) {
  const clean = text.trim().toLowerCase().replace(/\s+/g, " ").replaceAll(",", ".");
  if (clean.length > LONGEST_TEXT) return none();
  const fall = riseOverRun(clean);
  if (fall !== null) {
    const value = inUnit(fall, unit);
    return value === null ? none() : clear(value);
  }
  if (!whole(NUMBER).test(clean)) return none();
  const value = Number(clean),
    [low, high] = USUAL_FALL[unit];
  if (value === 0 || (low <= value && value <= high)) return clear(value, true);
  const words = { one_in: `1 in ${clean}`, percent: `${clean} %`, mm_per_m: `${clean} mm/m` },
    other = unit === "one_in" ? "percent" : "one_in",
    found = inUnit(other === "percent" ? value / 100 : 1 / value, unit),
    choices = [{ text: words[unit], value }];
  if (found !== null && low <= found && found <= high) choices.push({ text: words[other], value: found });
  return { value: null, choices, bare: true };
}

/** The fall of a text that says in what it is written. @param {string} clean */
function riseOverRun(clean) {
  const ratio = RATIO.exec(clean);
  if (ratio && Number(ratio[1]) > 0 && Number(ratio[2]) > 0) return Number(ratio[1]) / Number(ratio[2]);
  const percent = PERCENT.exec(clean);
  if (percent) return Number(percent[1]) / 100;
  const perMetre = PER_METRE.exec(clean);
  return perMetre ? Number(perMetre[1]) / 1000 : null;
}

/** @param {number} fall @param {"one_in"|"percent"|"mm_per_m"} unit */
function inUnit(fall, unit) {
  if (unit === "one_in") return fall ? 1 / fall : null;
  return fall * (unit === "percent" ? 100 : 1000);
}
