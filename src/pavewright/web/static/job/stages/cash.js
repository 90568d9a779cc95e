// @ts-check
/** The cash of a job: when the customer pays, how far the firm is under water in between, and when. */
import { call } from "../../lib/api.js";
import { line } from "../../lib/charts.js";
import { el } from "../../lib/dom.js";
import { moneyParts } from "../../lib/money-parts.js";
import { findings, table } from "../../lib/results.js";
import { counted, day, messageOf, money, spoken } from "../../lib/words.js";
import { group } from "../form/form.js";

/** @typedef {{event: string, on: string|null, paid_on: string|null, gross_minor: number, held_minor: number,
 *   freed_minor: number, due_minor: number}} Payment */
/** @typedef {{on: string, in_minor: number, out_minor: number, balance_minor: number}} CashDay */
/** @typedef {{on: string, kind: string, amount_minor: number}} Flow */
/** @typedef {{payments: Payment[], flows: Flow[], days: CashDay[], lowest_minor: number, lowest_on: string|null,
 *   findings: plan.Finding[]}} Cash */
/** @typedef {{cash: Cash|null, first: string[], counted: string[], gaps: number, money: MoneyRows|null}} Told */
/** @typedef {import("../../lib/money-parts.js").MoneyRows} MoneyRows */

/** What was found last, with the document that it was found for. */
const last = { document: "", /** @type {Told|null} */ found: null };
const DAY_MS = 86_400_000;

/** Found when it is opened: no plan waits for it. @param {Planned} state */
export function cashPart(state) {
  const document = JSON.stringify(state.doc),
    box = el("div", { role: "status" });
  const part = group("Payments and cash", [box]);
  const show = (/** @type {Told} */ found) => box.replaceChildren(...shown(found, state));
  part.addEventListener("toggle", async () => {
    if (!part.open || box.childElementCount) return;
    box.replaceChildren(el("p", { class: "quiet", text: "working it out …" }));
    try {
      if (last.document !== document) {
        const found = await call("POST", "/api/cash", document);
        Object.assign(last, { document, found });
      }
      if (last.found) show(last.found);
    } catch (problem) {
      box.replaceChildren(el("p", { text: messageOf(problem) }));
    }
  });
  return part;
}

/** @param {Told} found @param {Planned} state @returns {Node[]} */
function shown({ cash, first, counted: said, gaps, money: rows }, state) {
  const currency = state.plan.job.identity.currency,
    write = (/** @type {number} */ minor) => money(minor, currency);
  const read = rows ? readByCustomer(rows) : [];
  if (!cash)
    return [
      ...read,
      el("p", { text: "The cash of this job is not known yet. Say first:" }),
      el("ul", {}, ...first.map((text) => el("li", { text }))),
    ];
  const left = gaps
    ? ` ${counted(gaps, "thing has", "things have")} no price and are not counted: the real lowest point may be deeper.`
    : "";
  return [
    ...read,
    el("h3", { text: "Cash" }),
    el("p", { class: "told-price", text: `${lowestWords(cash, write)}${left}` }),
    findings(
      cash.findings.filter((one) => one.code !== "cash.under_water"), // said above, with its amount
      { sources: state.sources },
    ),
    curve(cash, write),
    el("h3", { text: "What goes out" }),
    outTable(cash, write),
    el(
      "ul",
      { class: "quiet" },
      ...said.map((text) => el("li", { text })),
      el("li", { text: "Labour and overhead are paid on the Friday of the week. Tax is set aside when it comes in." }),
    ),
  ];
}

/** What the customer reads of the money, as it stands on his paper. @param {MoneyRows} rows @returns {Node[]} */
const readByCustomer = (rows) => [
  el("ul", {}, ...rows.statements.map((text) => el("li", { text }))),
  ...moneyParts(rows).flatMap(([title, ...inside]) => (inside.length ? [el("h3", { text: title }), ...inside] : [])),
];

/** @param {Cash} cash @param {(minor: number) => string} write */
export function lowestWords(cash, write) {
  if (!cash.lowest_on) return "Never more is paid out than has come in.";
  const lowest = `${write(-cash.lowest_minor)} more is paid out than has come in by ${day(cash.lowest_on)}`;
  return `Lowest point: ${lowest}. Have that much at hand, or move a payment.`;
}

/** @param {Cash} cash @param {(minor: number) => string} write */
function curve(cash, write) {
  const at = (/** @type {string} */ on) => Date.parse(`${on}T00:00:00Z`) / DAY_MS,
    points = cash.days.map((one) => ({ at: at(one.on), value: one.balance_minor })),
    start = points[0] ? [{ at: points[0].at - 1, value: 0 }] : [];
  const where = (/** @type {number} */ place) => day(new Date(place * DAY_MS).toISOString().slice(0, 10));
  return line("Cash of the job, day by day", [...start, ...points], write, where);
}

/** @param {Cash} cash @param {(minor: number) => string} write */
function outTable(cash, write) {
  const out = cash.flows.filter((flow) => flow.amount_minor < 0);
  return table(
    [{ head: "On" }, { head: "For" }, { head: "Amount", number: true }],
    out.map((flow) => [
      day(flow.on),
      flow.kind === "tax" ? "Tax set aside" : flow.kind === "purchase_tax" ? "Tax on purchases" : spoken(flow.kind),
      write(-flow.amount_minor),
    ]),
    "what goes out, day by day",
  );
}
