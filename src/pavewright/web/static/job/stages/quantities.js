// @ts-check
import { form, group } from "../form/form.js";
import { sums, table } from "../../lib/results.js";
import { plain, spoken } from "../../lib/words.js";
import { dimensionsPart } from "./dimensions.js";
import { orderChancePart } from "./order-chance.js";
import { askedPart, ordersPart } from "./orders.js";

/** @param {number} value */
const amount = (value) => plain(value, Number.isInteger(value) ? 0 : 2);

/** @param {Planned} state */
export function results(state) {
  /** @type {Map<string, plan.Item[]>} */ const groups = new Map();
  for (const item of state.plan.quantities.items) groups.set(item.group, [...(groups.get(item.group) ?? []), item]);
  const lists = [...groups].map(([name, list]) =>
    group(
      spoken(name),
      [
        table(
          [
            { head: "What" },
            { head: "Net", number: true },
            { head: "With allowance", number: true },
            { head: "To order", number: true },
            { head: "" },
          ],
          list.map((item) => [
            item.description,
            `${amount(item.net)} ${item.unit}`,
            `${amount(item.gross)} ${item.unit}`,
            item.ordered_words,
            item.workings.length ? { under: sums(item.workings, state.sources), of: item.description } : "",
          ]),
          name,
        ),
      ],
      { open: true },
    ),
  );
  const chance = state.plan.cost?.lines.length ? orderChancePart(state) : null;
  return [ordersPart(state), askedPart(state), ...lists, dimensionsPart(state), chance].filter((part) => part !== null);
}
/** @param {Planned} state */
export const inputs = (state) => [
  group("What is arranged", [form(state, ["arrangements"])]),
  group("Damp sand and compaction", [form(state, ["mixes"])]),
  group("Materials as they are bought", [form(state, ["rates"], { only: ["materials"] })]),
  group("Anything else that is bought", [form(state, ["rates"], { only: ["catalogue"] })]),
  group("What work takes beside", [form(state, ["rates"], { only: ["assemblies"] })]),
];
