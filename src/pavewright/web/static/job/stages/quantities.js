// @ts-check
import { form, group } from "../form/form.js";
import { sums, table } from "../../lib/results.js";
import { plain, spoken } from "../../lib/words.js";
import { orderChancePart } from "./order-chance.js";

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
            item.order_unit
              ? `${amount(item.ordered)} ${item.order_unit === item.unit ? "" : "× "}${item.order_unit}`
              : "",
            item.workings.length ? { under: sums(item.workings, state.sources), of: item.description } : "",
          ]),
          name,
        ),
      ],
      { open: true },
    ),
  );
  return state.plan.cost?.lines.length ? [...lists, orderChancePart(state)] : lists;
}
/** @param {Planned} state */
export const inputs = (state) => [
  group("Materials as they are bought", [form(state, ["rates"], { only: ["materials"] })]),
];
