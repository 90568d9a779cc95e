// @ts-check
/**
 * How numbers, dates and measures are written where the job is: twin of `pavewright.writing`. A page sets it once it
 * knows the job; what stands on a screen gets feet and inches behind millimetres where those are usual.
 */

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
const now = { region: "GB", imperial: false };

/**
 * Take the manner of a job: as it says, else by its place, else by its currency.
 * @param {{locality?: string, currency?: string, region?: string|null, measure?: string|null}|null|undefined} identity
 */
export function setWriting(identity) {
  const { locality = "", currency = "GBP", region, measure } = identity ?? {};
  now.region = region || REGIONS[locality] || HOMES[currency] || "GB";
  now.imperial = measure ? measure === "imperial" : now.region === "US";
}
/** Language and region by which dates are written. */
export const tag = () => `en-${now.region}`;
export const isImperial = () => now.imperial;

/** Marks between thousands and before decimals. @returns {[string, string]} */
export function marks() {
  if (now.region === "GB" || now.region === "IE") return ["\u202f", "."];
  const parts = new Intl.NumberFormat(tag(), { minimumFractionDigits: 1, useGrouping: true }).formatToParts(1234567.8),
    of = (/** @type {string} */ kind) => parts.find((part) => part.type === kind)?.value;
  return [of("group") ?? "\u202f", of("decimal") ?? "."];
}

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

/** A text with imperial measures behind metric ones, where they are usual. @param {string} text */
export function beside(text) {
  if (!now.imperial) return text;
  return text.replace(MEASURE, (all, /** @type {string} */ numbers, /** @type {string} */ unit) => {
    const said = numbers
      .split(ONE)
      .map((part, place) => (place % 2 ? UNITS[unit](Number(part.replace(/[\u202f,]/g, "").replace("−", "-"))) : part));
    return `${all} (${said.join("")})`;
  });
}
