// @ts-check
/** What differs between two versions of a job, in the trade's words, and what it does to area, cuts and price. */
import { placed } from "../lib/cards.js";
import { el } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { cut, labelled, money, plain, spoken, squareMetres } from "../lib/words.js";
import { currencyNow } from "../lib/writing.js";

/** @typedef {{outcome: any, faults: {path: string, message: string}[]}} Told what a version comes to */
/** @typedef {{path: string, label: string, first: string, second: string}} Difference */

/** What tells one item of a list from another. @param {any} item @returns {string|null} */
export function nameOf(item) {
  if (!item || typeof item !== "object" || Array.isArray(item)) return null;
  if (typeof item.name === "string") return item.name;
  if (item.start && item.end && typeof item.start === "string") return `${item.start}–${item.end}`;
  for (const field of ["point", "corner", "area", "question", "key"])
    if (typeof item[field] === "string") return item[field];
  return null;
}

/**
 * A list by the names of its items; null where names are missing or come twice.
 * @param {any} list
 * @returns {Map<string, any>|null}
 */
function named(list) {
  if (!Array.isArray(list)) return null;
  const found = new Map();
  for (const item of list) {
    const name = nameOf(item);
    if (name === null || found.has(name)) return null;
    found.set(name, item);
  }
  return found;
}

/**
 * Everything that differs, item by item; items of lists are found by their names, whatever their place.
 * @param {any} first @param {any} second @param {string[]} [path] @param {string[]} [label] @returns {Difference[]}
 */
export function differences(first, second, path = [], label = []) {
  if (JSON.stringify(first) === JSON.stringify(second)) return [];
  const one = { path: path.join("."), label: label.join(" › ") || "The whole job" };
  if (!(
    first &&
    second &&
    typeof first === "object" &&
    typeof second === "object" &&
    Array.isArray(first) === Array.isArray(second)
  ))
    return [{ ...one, first: said(first, path), second: said(second, path) }];
  const here = named(first),
    there = named(second);
  if (here && there) {
    const names = [...new Set([...here.keys(), ...there.keys()])];
    const found = names.flatMap((name) =>
      here.has(name) && there.has(name)
        ? differences(here.get(name), there.get(name), [...path, name], [...label, name])
        : [
            {
              path: [...path, name].join("."),
              label: [...label, name].join(" › "),
              first: here.has(name) ? "is there" : "is not there",
              second: there.has(name) ? "is there" : "is not there",
            },
          ],
    );
    return found.length
      ? found
      : [{ ...one, first: [...here.keys()].join(", "), second: [...there.keys()].join(", ") }];
  }
  if (Array.isArray(first) && first.length !== second.length && first.every((item) => typeof item !== "object"))
    return [{ ...one, first: said(first, path), second: said(second, path) }];
  return [...new Set([...Object.keys(first), ...Object.keys(second)])].flatMap((key) =>
    differences(
      first[key],
      second[key],
      [...path, key],
      [...label, Array.isArray(first) ? `no. ${Number(key) + 1}` : labelled(key).name],
    ),
  );
}

/** @param {any} value @param {string[]} path @returns {string} */
export function said(value, path) {
  const unit = labelled(String(path.at(-1) ?? "")).unit;
  if (value === undefined || value === null || value === "") return "–";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number")
    return unit === "price" || unit === "an hour"
      ? `${money(value, currencyNow())}${unit === "price" ? "" : ` ${unit}`}`
      : `${plain(value, Number.isInteger(value) ? 0 : 3)} ${unit}`.trim();
  if (typeof value === "string") return /^[a-z_]+$/.test(value) ? spoken(value) : cut(value, 80);
  if (Array.isArray(value)) return value.length ? cut(value.map((each) => said(each, [])).join(", "), 80) : "none";
  return (
    nameOf(value) ??
    (Object.keys(value)
      .map((key) => labelled(key).name)
      .join(", ")
      .slice(0, 80) ||
      "given")
  );
}

/** Differences as a table. @param {Difference[]} found @param {[string, string]} heads */
export function differenceTable(found, heads) {
  const shown = found.slice(0, 60);
  return placed(
    "Differences",
    el(
      "table",
      {},
      el("thead", {}, el("tr", {}, ...["Where", ...heads].map((words) => el("th", { scope: "col", text: words })))),
      el(
        "tbody",
        {},
        ...shown.map((one) =>
          el("tr", {}, el("td", { text: one.label }), el("td", { text: one.first }), el("td", { text: one.second })),
        ),
      ),
    ),
    found.length > shown.length ? el("p", { class: "quiet", text: `and ${found.length - shown.length} more` }) : null,
  );
}

/** What a version comes to. @param {JobDocument} doc @returns {Promise<{outcome: any, faults: any[]}>} */
export const outcomeOf = (doc) => call("POST", "/api/outcome", JSON.stringify(doc));

/** In words, or null where it is not known. @param {number|null} number @param {(number: number) => string} write */
const known = (number, write) => (number === null ? null : write(number));

/** Both ends of a range are lower ends where something has no price. @param {{gaps: number|null}} one */
const least = ({ gaps }) => (gaps ? "at least " : "");

/** What a version comes to; null is what is not known. @type {[string, (one: any) => string|null][]} */
export const LINES = [
  ["Area", (one) => squareMetres(one.area_m2)],
  ["Whole units", (one) => known(one.whole, plain)],
  ["Cut pieces", (one) => known(one.cut, plain)],
  ["Smaller than advised", (one) => known(one.slivers, plain)],
  ["Units needed", (one) => known(one.units, plain)],
  ["Falls", (one) => one.falls.join("; ") || null],
  ["Leaves the site, loose", (one) => known(one.away_m3, (m3) => `${plain(m3, 1)} m³`)],
  ["Days on site", (one) => known(one.site_days, plain)],
  ["Stops", (one) => (one.stops.length ? `■ ${one.stops.length}: ${one.stops[0]}` : "none")],
  ["To check", (one) => plain(one.checks)],
  ["Price, low", (one) => known(one.low_minor, (minor) => least(one) + money(minor, one.currency))],
  ["Price, likely", (one) => known(one.total_minor, (minor) => money(minor, one.currency))],
  ["Price, high", (one) => known(one.high_minor, (minor) => least(one) + money(minor, one.currency))],
  ["Not in the price", (one) => known(one.gaps, plain)],
];

/** Outcomes side by side. @param {{name: string, told: {outcome: any, faults: any[]}, below?: Node|null}[]} columns */
export function sideBySide(columns) {
  const cell = (/** @type {Told} */ told, /** @type {(one: any) => string|null} */ write, /** @type {number} */ row) =>
    told.outcome
      ? (write(told.outcome) ?? "not known yet")
      : row === 0
        ? `■ makes no plan: ${told.faults[0]?.message ?? ""}`
        : "–";
  return placed(
    "Side by side",
    el(
      "table",
      {},
      el("thead", {}, el("tr", {}, el("td", {}), ...columns.map((one) => el("th", { scope: "col", text: one.name })))),
      el(
        "tbody",
        {},
        ...LINES.map(([name, write], row) =>
          el(
            "tr",
            {},
            el("th", { scope: "row", text: name }),
            ...columns.map((one) => el("td", { text: cell(one.told, write, row) })),
          ),
        ),
        columns.some((one) => one.below)
          ? el("tr", {}, el("td", {}), ...columns.map((one) => el("td", {}, one.below ?? "")))
          : null,
      ),
    ),
  );
}
