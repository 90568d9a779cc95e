// @ts-check
/** In which order the fields of a form stand: what everybody fills in first, then closed groups of what few do. */

/** @typedef {{first: string[], folded: {title: string, names: string[]}[]}} Order */

const BUYING = ["supplier", "supplier_code", "supplier_kind", "priced_on", "min_packs", "carriage_minor", "lead_days"];
const RATES = ["labour_minor_per_hour", "overhead_percent", "margin_percent", "tax_percent", "tax_name"];
const RATES_FOLDED = [
  { title: "Other ways to price", names: ["overhead_minor_per_hour", "markup_percent", "rounding"] },
  { title: "Tax in detail", names: ["tax_regime", "tax_rounding", "tax_lines"] },
  { title: "Age of prices", names: ["price_age_days"] },
];
const NAMES = /** @type {Record<string, Record<string, string>>} */ ({
  Rates: {
    labour: "Labour by skill",
    labour_minor_per_hour: "Labour",
    overhead_minor_per_hour: "Overhead by the hour",
    markup_percent: "Mark-up, in place of a margin",
    tax_regime: "How the price is taxed",
    tax_rounding: "How tax is rounded",
    tax_lines: "Taxed in its own way",
    rounding: "Rounding of the price",
    price_age_days: "Days until a price is old",
  },
  Terms: {
    stages: "Stage payments",
    retention_percent: "Held back (retention)",
    retention_freed_percent: "Freed on completion",
    days_to_pay: "Days that the customer has to pay",
    supplier_days: "Days until suppliers are paid",
    deposit_days: "Days from deposit to start",
    defects_days: "Days until snag free",
    valid_days: "Days for which the price holds",
    warranty_months: "Warranty in months",
    complaint_to: "Whom a complaint goes to",
    complaint_days: "Days to answer a complaint",
    prime_costs: "Prime cost items",
    provisional: "Provisional sums",
  },
  Agreement: { place: "Where it is agreed", on: "Day on which it is agreed" },
});
const TERMS = ["stages", "days_to_pay", "supplier_days", "retention_percent"];

/**
 * The fields of an object in order; every field that was asked for stands in one place.
 * @param {{title?: string}} node its schema @param {string[]} names
 * @returns {Order}
 */
export function ordered(node, names) {
  if (node.title === "Rates") return placed(names, RATES, RATES_FOLDED);
  if (node.title === "Terms") return placed(names, TERMS, []);
  const buys = names.includes("supplier") && names.includes("priced_on");
  return placed(names, [], buys ? [{ title: "Buying", names: BUYING }] : []);
}

/** What a field is called where its own name says too little. @param {{title?: string}} node @param {string} name */
export const calledIn = (node, name) => NAMES[node.title ?? ""]?.[name];

/**
 * @param {string[]} names @param {string[]} first @param {{title: string, names: string[]}[]} folded
 * @returns {Order}
 */
function placed(names, first, folded) {
  const there = folded
    .map((part) => ({ title: part.title, names: part.names.filter((name) => names.includes(name)) }))
    .filter((part) => part.names.length);
  const away = new Set(there.flatMap((part) => part.names)),
    ahead = first.filter((name) => names.includes(name));
  return { first: [...ahead, ...names.filter((name) => !away.has(name) && !ahead.includes(name))], folded: there };
}
