// @ts-check
import { el } from "../lib/dom.js";
import { form, group } from "../form/form.js";
import { sums, table } from "../form/results.js";
import { plain, spoken } from "../lib/words.js";

/** @param {any} state */
export function results(state) {
  const groups = new Map();
  for (const item of state.plan.quantities.items) groups.set(item.group, [...(groups.get(item.group) ?? []), item]);
  return [...groups].map(([name, list]) => group(spoken(name), [table([{ head: "What" }, { head: "Net", number: true }, { head: "With allowance", number: true }, { head: "To order", number: true }, { head: "Sum" }],
    list.map((/** @type {any} */ item) => [item.description, `${plain(item.net, 2)} ${item.unit}`, `${plain(item.gross, 2)} ${item.unit}`, item.order_unit ? `${plain(item.ordered, Number.isInteger(item.ordered) ? 0 : 2)} ${item.order_unit}` : "",
      item.workings.length ? el("details", {}, el("summary", { text: "show" }), sums(item.workings, state.sources)) : ""]), name)], { open: true }));
}
/** @param {any} state */
export const inputs = (state) => [group("Materials as they are bought", [form(state, ["rates"], { only: ["materials"] })])];
