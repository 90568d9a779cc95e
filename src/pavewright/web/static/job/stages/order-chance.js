// @ts-check
/** How much to order: at a chance, what one more costs, what running short costs, the cheapest in the mean. */
import { el } from "../../lib/dom.js";
import { group } from "../form/form.js";
import { table } from "../../lib/results.js";
import { money, plain } from "../../lib/words.js";
import { whenFound } from "./risk.js";

/** @param {Planned} state */
export function orderChancePart(state) {
  const currency = state.plan.job.identity.currency,
    write = (/** @type {number} */ minor) => money(minor, currency);
  return group("How much to order, by chance", [
    el("p", {
      text:
        "What is needed falls with the dig, the layers, what a mix yields and what breaks. The order that costs " +
        "least in the mean weighs one pack too many against a second delivery and the time the crew loses.",
    }),
    ...whenFound(state, "Work out the orders", (risk) => [...shown(risk, write), ...notDrawn(risk, state)]),
  ]);
}

/** What is bought and was not drawn: it is not enough by that. @param {plan.Risk} risk @param {Planned} state */
function notDrawn(risk, state) {
  const drawn = new Set(risk.orders.map((one) => one.key)),
    bought = state.plan.cost.orders.flatMap((order) => order.lines).filter((line) => !drawn.has(line.item));
  if (!bought.length) return [];
  return [
    el("p", { text: "Not drawn, as it has no price or comes in no packs:" }),
    el("ul", {}, ...bought.map((line) => el("li", { text: line.description }))),
  ];
}

/** @param {plan.Risk} risk @param {(minor: number) => string} write */
function shown(risk, write) {
  const moving = risk.orders.filter((one) => one.steps.some((step) => step.short > 0)),
    sure = risk.orders.filter((one) => !moving.includes(one));
  const at = (/** @type {plan.OrderChance} */ one, /** @type {number} */ chance) =>
    plain(one.steps.find((step) => step.chances.includes(chance))?.ordered ?? one.planned);
  const short = (/** @type {plan.OrderChance} */ one) =>
    plain(100 * (one.steps.find((step) => step.ordered === one.planned)?.short ?? 0));
  /** @type {Node[]} */ const out = [];
  if (moving.length)
    out.push(
      table(
        [
          { head: "What" },
          { head: "Plan", number: true },
          { head: "It runs short in", number: true },
          { head: "P50", number: true },
          { head: "P80", number: true },
          { head: "P90", number: true },
          { head: "One more costs", number: true },
          { head: "Running short costs", number: true },
          { head: "Cheapest in the mean", number: true },
        ],
        moving.map((one) => [
          `${one.description}, ${one.order_units}`,
          plain(one.planned),
          `${short(one)} of 100`,
          at(one, 0.5),
          at(one, 0.8),
          at(one, 0.9),
          write(one.step_minor),
          one.again_minor === null ? "not known" : write(one.again_minor),
          one.cheapest === null ? "not known" : el("strong", { text: `▶ ${plain(one.cheapest)}` }),
        ]),
        "Orders by chance",
      ),
    );
  if (sure.length) {
    const words = sure.map((one) => `${one.description}: ${one.planned_words}`);
    out.push(
      el("p", { text: "Enough in every case that was drawn, as the plan orders it:" }),
      el("ul", {}, ...words.map((text) => el("li", { text }))),
    );
  }
  return out;
}
