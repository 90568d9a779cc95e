// @ts-check
/** The quotation of a job: quote it with the prices of the day, see what those of today would change, quote again. */
import { call } from "../../lib/api.js";
import { el, say } from "../../lib/dom.js";
import { applied } from "../../lib/operations.js";
import { table } from "../../lib/results.js";
import { counted, fullDay, messageOf, money, plain, spoken } from "../../lib/words.js";
import { group } from "../form/form.js";

/** @typedef {{quantity: number, rate_minor: number, amount_minor: number}} Side */
/** @typedef {{key: string, kind: string, description: string, unit: string, old: Side|null, new: Side|null,
 *   extra_minor: number}} Changed */
/** @typedef {{step: string, old_minor: number, new_minor: number}} Stepped */
/** @typedef {{lines: Changed[], steps: Stepped[], gaps_old: number, gaps_new: number}} Repriced */

/** What was found last, with the document that it was found for. */
const last = { document: "", /** @type {Repriced|null} */ found: null };
const STEPS = /** @type {Record<string, string>} */ ({
  prime: "Cost",
  overhead: "Overhead",
  margin: "Margin",
  net: "Before tax",
  tax: "Tax",
  total: "Price with tax",
});

/** @param {Planned} state */
export function repricingPart(state) {
  const { quoted } = state.doc,
    told = el("p", { class: "quiet", role: "status" });
  return group(
    "Quotation",
    quoted
      ? [
          el("p", {
            text:
              `Quoted on ${fullDay(quoted.on)} as revision ${quoted.revision}. The plan keeps the prices of that ` +
              `day, whatever the firm's book says since.`,
          }),
          ...changes(state, told),
          ...(state.doc.accepted ? [el("p", { text: "It was accepted: its prices stay." })] : again(state, told)),
          told,
        ]
      : [
          el("p", {
            text: "Not quoted yet: the price follows the job and the firm's book. A quotation keeps its prices.",
          }),
          ...quoting(state, told, "Quote with the prices of today"),
          told,
        ],
    { open: Boolean(quoted) },
  );
}

/** Another quotation, or none, while nobody accepted it. @param {Planned} state @param {HTMLElement} told */
const again = (state, told) => [
  ...quoting(state, told, "Quote again with the prices of today"),
  el(
    "p",
    {},
    el("button", {
      type: "button",
      text: "Forget the quotation",
      on: { click: () => state.change("quotation forgotten", (doc) => delete doc.quoted) },
    }),
  ),
];

/** A day and a button that quotes. @param {Planned} state @param {HTMLElement} told @param {string} words */
function quoting(state, told, words) {
  const day = /** @type {HTMLInputElement} */ (
      el("input", { type: "date", value: state.doc.identity.date, required: true, name: "quoted_on" })
    ),
    go = el("button", { type: "button", class: "main", text: words });
  go.addEventListener("click", async () => {
    if (!day.value) {
      say(told, "Say on which day it is quoted.");
      return;
    }
    say(told, "Quoting …");
    try {
      const { operations } = await call("POST", `/api/quote?on=${day.value}`, JSON.stringify(state.doc));
      told.textContent = "";
      state.put(`quoted on ${day.value}`, applied(state.doc, operations).doc);
    } catch (problem) {
      say(told, messageOf(problem));
    }
  });
  return [el("p", { class: "row" }, el("label", {}, "Day of the quotation ", day), go)];
}

/** What the prices of today change. @param {Planned} state @param {HTMLElement} told */
function changes(state, told) {
  const document = JSON.stringify(state.doc),
    currency = state.plan.job.identity.currency,
    box = el("div"),
    go = el("button", { type: "button", text: "Show what the prices of today change" });
  go.addEventListener("click", async () => {
    say(told, "Pricing again …");
    try {
      last.found = (await call("POST", "/api/reprice", document)).repriced;
      last.document = document;
      told.textContent = "";
      if (last.found) box.replaceChildren(...shown(last.found, currency));
    } catch (problem) {
      say(told, messageOf(problem));
    }
  });
  if (last.found && last.document === document) box.replaceChildren(...shown(last.found, currency));
  return [el("p", {}, go), box];
}

/** @param {Repriced} found @param {string} currency @returns {Node[]} */
function shown(found, currency) {
  const write = (/** @type {number} */ minor) => money(minor, currency),
    more = (/** @type {number} */ minor) => (minor > 0 ? `+${write(minor)}` : write(minor));
  const side = (/** @type {Side|null} */ one) =>
    one ? `${plain(one.quantity, Number.isInteger(one.quantity) ? 0 : 2)} × ${write(one.rate_minor)}` : "none";
  if (!found.lines.length && found.steps.every((step) => step.old_minor === step.new_minor))
    return [el("p", { text: "The prices of today change nothing." })];
  return [
    table(
      [
        { head: "Line" },
        { head: "As quoted", number: true },
        { head: "Today", number: true },
        { head: "More or less", number: true },
      ],
      found.lines.map((line) => [
        `${line.description} (${line.unit})`,
        side(line.old),
        side(line.new),
        more(line.extra_minor),
      ]),
      "what the prices of today change, line by line",
    ),
    table(
      [
        { head: "" },
        { head: "As quoted", number: true },
        { head: "Today", number: true },
        { head: "More or less", number: true },
      ],
      found.steps.map((step) => [
        STEPS[step.step] ?? spoken(step.step),
        write(step.old_minor),
        write(step.new_minor),
        more(step.new_minor - step.old_minor),
      ]),
      "from cost to price, as quoted and today",
    ),
    el("p", {
      text:
        found.gaps_new === found.gaps_old
          ? `${counted(found.gaps_old, "thing is", "things are")} not in either price.`
          : `Not in the price: ${plain(found.gaps_old)} as quoted, ${plain(found.gaps_new)} today. A price with more ` +
            `left out of it is no cheaper price.`,
    }),
  ];
}

/** What marks a line whose price is too old, or has no day. @param {plan.CostLine} line */
export function agedWords({ description, stale }) {
  if (!stale) return description;
  return stale.age_days === null
    ? `${description} – price without a date`
    : `${description} – price ${plain(stale.age_days)} days old, of ${stale.priced_on}`;
}
