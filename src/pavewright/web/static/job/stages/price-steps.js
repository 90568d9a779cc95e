// @ts-check
/** The steps from what is paid for to the price: sums of the plan, nothing worked out anew but the sums of groups. */

/** @typedef {{label: string, value: number, total?: boolean, words?: string}} Step */

const GROUPS = /** @type {[string, string][]} */ ([
  ["labour", "Labour"],
  ["plant", "Plant"],
  ["disposal", "Loads taken away"],
  ["material", "Materials"],
  ["provisional", "Provisional sums"],
]);
const REGIMES = /** @type {Record<string, string>} */ ({
  standard: "",
  reduced: ", reduced rate",
  zero: ", rated at zero",
  none: ": none charged",
  reverse_charge: ": reverse charge, the customer accounts for it",
});
const UNKNOWN = "not known";

/** @param {Pick<Planned["plan"]["job"]["rates"], "margin_percent"|"markup_percent">} rates */
export const isMarginKnown = (rates) => rates.margin_percent !== null || rates.markup_percent !== null;

/**
 * @param {Pick<plan.Cost, "lines"|"prime_minor"|"overhead_minor"|"margin_minor"|"net_minor"|"tax"|"total_minor">} cost
 * @param {Planned["plan"]["job"]["rates"]} rates
 * @returns {Step[]}
 */
export function priceSteps(cost, rates) {
  /** @type {Map<string, number>} */ const sums = new Map();
  for (const line of cost.lines) sums.set(line.group, (sums.get(line.group) ?? 0) + line.amount_minor);
  const named = GROUPS.filter(([group]) => sums.has(group)).map(([group, label]) => step(label, sums.get(group) ?? 0)),
    others = [...sums]
      .filter(([group]) => !GROUPS.some(([one]) => one === group))
      .map(([group, sum]) => step(group, sum)),
    overhead = rates.overhead_percent !== null || rates.overhead_minor_per_hour !== null;
  return [
    ...named,
    ...others,
    { label: "Cost", value: cost.prime_minor, total: true },
    step("Overhead", cost.overhead_minor, overhead),
    step(rates.markup_percent === null ? "Margin" : "Mark-up", cost.margin_minor, isMarginKnown(rates)),
    { label: "Price before tax", value: cost.net_minor, total: true },
    ...cost.tax.map((share) => taxStep(share, rates.tax_name)),
    { label: "Price", value: cost.total_minor, total: true },
  ];
}

/** @param {string} label @param {number} value @param {boolean} [known] @returns {Step} */
const step = (label, value, known = true) => (known ? { label, value } : { label, value, words: UNKNOWN });

/** @param {plan.TaxShare} share @param {string} name @returns {Step} */
function taxStep({ taxed, tax_minor }, name) {
  const charged = taxed.regime === "standard" || taxed.regime === "reduced",
    rate = charged && taxed.percent !== null ? ` ${taxed.percent} %` : "";
  return step(`${name}${rate}${REGIMES[taxed.regime] ?? ""}`, tax_minor, !charged || taxed.percent !== null);
}
