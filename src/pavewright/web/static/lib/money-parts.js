// @ts-check
/** How a job is paid, and what of its price is settled later: the rows that stand on the customer's paper. */
import { el } from "./dom.js";
import { table } from "./results.js";

/**
 * @typedef {{price: string[][], statements: string[], payments: string[][], paying: string[], goods: string[][],
 *   provisional: string[][], settling: string[],
 *   options: string[][], choosing: string[]}} MoneyRows
 */

const right = (/** @type {string} */ head) => ({ head, number: true });
/** @param {string[]} words */
const points = (words) => (words.length ? [el("ul", {}, ...words.map((one) => el("li", { text: one })))] : []);
/** @param {string[]} heads @param {string[][]} rows @param {string} name */
const rowsOf = ([first, ...others], rows, name) =>
  rows.length ? [table([{ head: first ?? "" }, ...others.map(right)], rows, name)] : [];

/** An option with a box to tick. @param {string[]} row */
const option = ([name, amount, days]) =>
  el("label", { class: "tick" }, el("input", { type: "checkbox" }), ` ${name}: ${amount}, ${days}`);

/** Titles with what stands under each. @param {MoneyRows} told @returns {[string, ...HTMLElement[]][]} */
export function moneyParts(told) {
  return [
    [
      "How it is paid",
      ...rowsOf(["Falls due when", "By the programme", "Part", "Held, freed", "To pay"], told.payments, "Payments"),
      ...points(told.paying),
    ],
    [
      "What is settled later",
      ...rowsOf(
        ["Goods to be chosen", "For supplying", "In the price", "Settled at"],
        told.goods,
        "Goods to be chosen",
      ),
      ...rowsOf(["Provisional work", "In the price", "Settled at"], told.provisional, "Provisional work"),
      ...points(told.settling),
    ],
    ["Options", ...told.options.map(option), ...points(told.choosing)],
  ];
}
