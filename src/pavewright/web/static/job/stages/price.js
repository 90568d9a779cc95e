// @ts-check
import { el } from "../../lib/dom.js";
import { form, group } from "../form/form.js";
import { fact, facts, range, sums, table } from "../../lib/results.js";
import { waterfall } from "../../lib/charts.js";
import { rangeWords } from "../../lib/price-range.js";
import { accountPart } from "./account.js";
import { cashPart } from "./cash.js";
import { isMarginKnown, priceSteps } from "./price-steps.js";
import { options } from "./options.js";
import { agedWords, repricingPart } from "./repricing.js";
import { riskPart } from "./risk.js";
import { money, spoken } from "../../lib/words.js";

/** @param {Planned} state */
export function results(state) {
  const { cost } = state.plan,
    currency = state.plan.job.identity.currency,
    write = (/** @type {number} */ minor) => money(minor, currency);
  /** @type {Node[]} */ const out = [
    facts(
      fact(
        state.plan.job.rates.tax_percent === null
          ? `Price, ${state.plan.job.rates.tax_name} not known`
          : `Price with ${state.plan.job.rates.tax_name}`,
        write(cost.total_minor),
        cost.workings,
        state.sources,
      ),
      fact("Before tax", write(cost.net_minor)),
      fact("Cost", write(cost.prime_minor)),
      fact("Margin", isMarginKnown(state.plan.job.rates) ? write(cost.margin_minor) : "not known"),
    ),
    ...(cost.lines.length ? [waterfall("From cost to price", priceSteps(cost, state.plan.job.rates), write)] : []),
    ...rangePart(cost, currency, write),
  ];
  if (state.plan.job.identity.invented) out.push(el("p", { text: "Prices are invented: put your own in." }));
  if (cost.gaps.length)
    out.push(
      el("p", { text: "Not in the price:" }),
      el("ul", {}, ...cost.gaps.map((/** @type {{words: string}} */ gap) => el("li", { text: gap.words }))),
    );
  if (cost.lines.length) out.push(riskPart(state), cashPart(state), repricingPart(state));
  if (cost.reasons.length)
    out.push(
      group("Why it is a range", [
        el(
          "ul",
          {},
          ...cost.reasons.map((/** @type {[string, number]} */ [words, more]) =>
            el("li", { text: `${words}: up to ${write(more)} more` }),
          ),
        ),
      ]),
    );
  if (cost.assumed.length)
    out.push(
      group("Assumed, not measured: what it may do to the price", [
        el("ul", {}, ...cost.assumed.map((share) => el("li", { text: assumedWords(share, write) }))),
      ]),
    );
  /** @type {Map<string, plan.CostLine[]>} */ const kinds = new Map();
  for (const line of cost.lines) kinds.set(line.group, [...(kinds.get(line.group) ?? []), line]);
  for (const [name, lines] of kinds)
    out.push(
      group(
        `${spoken(name)}: ` + `${write(lines.reduce((/** @type {number} */ sum, line) => sum + line.amount_minor, 0))}`,
        [
          table(
            [
              { head: "What" },
              { head: "How much", number: true },
              { head: "Rate", number: true },
              { head: "Amount", number: true },
              { head: "" },
            ],
            lines.map((line) => [
              agedWords(line),
              line.quantity_words,
              write(line.rate_minor),
              write(line.amount_minor),
              line.working ? { under: sums([line.working], state.sources), of: line.description } : "",
            ]),
            name,
          ),
        ],
      ),
    );
  return out;
}
/**
 * The range as a bar only where both its ends hold; else in words alone.
 * @param {plan.Cost} cost @param {string} currency @param {(minor: number) => string} write
 */
function rangePart(cost, currency, write) {
  const whole = cost.range_kind === "whole" && cost.assumed.every((one) => one.low_minor !== null);
  if (whole) return [range({ low: cost.low_minor, likely: cost.total_minor, high: cost.high_minor }, write, "Range")];
  return [el("p", { text: rangeWords(cost, currency) })];
}

/** @param {plan.AssumedShare} share @param {(minor: number) => string} write */
function assumedWords({ fact, low_minor, high_minor }, write) {
  const what = [spoken(fact.what), fact.place].filter(Boolean).join(", ");
  return low_minor === null || high_minor === null
    ? `${what}: not in the range`
    : `${what}: ${low_minor ? `up to ${write(-low_minor)} less, ` : ""}up to ${write(high_minor)} more`;
}

/** Fields of the rates that stand on other stages. */
const ELSEWHERE = ["materials", "catalogue", "assemblies", "changes", "cut_price_minor", "fill_price_minor"];

/** @param {Planned} state */
export const inputs = (state) => [
  accountPart(state),
  options(state),
  el("p", {}, el("a", { class: "button", href: "/firm#prices", text: "Prices of the firm" })),
  group("Rates, margin, tax", [form(state, ["rates"], { hide: ELSEWHERE })], { open: true }),
  group("Terms: stage payments, retention, warranty, prime costs, provisional sums", [form(state, ["terms"])]),
  group("Where the job is agreed: it decides on the right to cancel", [form(state, ["agreement"])]),
];
