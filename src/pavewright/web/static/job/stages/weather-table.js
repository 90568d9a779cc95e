// @ts-check
/** The bad days of each month as one small table: a number each, so that a thumb fills a row without scrolling. */
import { el } from "../../lib/dom.js";
import { monthName } from "../../lib/words.js";
import { plainNumber } from "../../lib/numbers-typed.js";
import { listen } from "../form/inputs.js";

/** @typedef {"wet_days"|"frost_days"|"hot_days"|"mean_c"} Column */
/**
 * What is asked of a month, with its ends.
 * @type {{key: Column, head: string, words: string, low: number, high: number}[]}
 */
const COLUMNS = [
  { key: "wet_days", head: "Wet", words: "wet days", low: 0, high: 31 },
  { key: "frost_days", head: "Frost", words: "days with frost", low: 0, high: 31 },
  { key: "hot_days", head: "Hot", words: "days too hot for mortar", low: 0, high: 31 },
  { key: "mean_c", head: "Mean °C", words: "mean temperature", low: -60, high: 60 },
];

/** @param {JobState} state */
export function weatherTable(state) {
  const told = el("p", { class: "fault", role: "status", hidden: true });
  const boxes = Array.from({ length: 12 }, (_, index) => COLUMNS.map((column) => box(state, index + 1, column, told)));
  const fill = () => {
    for (const row of boxes)
      for (const { input, now } of row) if (document.activeElement !== input) input.value = now();
  };
  const made = el(
    "div",
    {},
    el("p", {
      class: "quiet",
      text:
        "Days of a month in the mean of years. What is left empty is not known: it stops no day. " +
        "Bays harden by the mean temperature.",
    }),
    el(
      "table",
      { class: "month-table" },
      el(
        "thead",
        {},
        el("tr", {}, el("th", { text: "Month" }), ...COLUMNS.map((one) => el("th", { scope: "col", text: one.head }))),
      ),
      el(
        "tbody",
        {},
        ...boxes.map((row, index) =>
          el(
            "tr",
            {},
            el("th", { scope: "row", text: monthName(index + 1).slice(0, 3), title: monthName(index + 1) }),
            ...row.map(({ input }) => el("td", {}, input)),
          ),
        ),
      ),
    ),
    told,
  );
  listen(state, made, "document", fill);
  fill();
  return made;
}

/**
 * A box for one number of a month.
 * @param {JobState} state @param {number} month @param {(typeof COLUMNS)[number]} column @param {HTMLElement} told
 */
function box(state, month, column, told) {
  const entry = (/** @type {any} */ doc) =>
    (doc.calendar?.weather ?? []).find((/** @type {any} */ one) => one.month === month);
  const now = () => String(entry(state.doc)?.[column.key] ?? "");
  const input = /** @type {HTMLInputElement} */ (
    el("input", {
      type: "text",
      // a keypad of digits alone has no minus
      inputmode: column.low < 0 ? "text" : "decimal",
      autocomplete: "off",
      "aria-label": `${monthName(month)}, ${column.words}`,
    })
  );
  input.addEventListener("change", () => {
    const text = input.value.trim(),
      read = text ? plainNumber(text, "") : { value: null },
      value = read.value ?? null,
      wrong = text !== "" && (value === null || value < column.low || value > column.high);
    input.setAttribute("aria-invalid", String(wrong));
    told.hidden = !wrong;
    told.textContent = wrong
      ? `${monthName(month)}, ${column.words}: a number from ${column.low} to ${column.high}, or nothing.`
      : "";
    if (wrong || value === (entry(state.doc)?.[column.key] ?? null)) return;
    state.change(`${monthName(month)}: ${column.words}`, (doc) => put(doc, month, column.key, value));
  });
  return { input, now };
}

/**
 * Put a number into its month; a month of which nothing is left is deleted.
 * @param {any} doc @param {number} month @param {Column} key @param {number|null} value
 */
function put(doc, month, key, value) {
  doc.calendar ??= {};
  const others = (doc.calendar.weather ?? []).filter((/** @type {any} */ one) => one.month !== month),
    had = (doc.calendar.weather ?? []).find((/** @type {any} */ one) => one.month === month) ?? { month },
    entry = { ...had, [key]: value };
  if (value === null) delete entry[key];
  const left = COLUMNS.some((column) => (entry[column.key] ?? null) !== null);
  doc.calendar.weather = [...others, ...(left ? [entry] : [])].sort((one, two) => one.month - two.month);
}
