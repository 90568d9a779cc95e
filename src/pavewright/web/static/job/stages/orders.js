// @ts-check
/** What is bought, supplier by supplier: whole packs, what comes over, minimum order, carriage and lead time. */
import { el } from "../../lib/dom.js";
import { group } from "../form/form.js";
import { table } from "../../lib/results.js";
import { counted, money, plain, spoken } from "../../lib/words.js";

/** @param {number} value */
const amount = (value) => plain(value, Number.isInteger(value) ? 0 : 2);

/** @param {Planned} state */
export function ordersPart(state) {
  const orders = state.plan.cost?.orders ?? [];
  if (!orders.length) return null;
  const currency = state.plan.job.identity.currency;
  const named = orders.some((each) => each.supplier);
  return group(
    "Orders by supplier",
    [
      ...(named
        ? []
        : [
            el("p", {
              text: "No supplier is named yet: name him with each material, and the order is split by it.",
            }),
          ]),
      ...orders.flatMap((each) => order(each, (minor) => money(minor, currency))),
    ],
    { open: true },
  );
}

/** What the carriage of all deliveries of an order costs. @param {plan.Order} order */
const carried = (order) => order.deliveries.reduce((sum, each) => sum + (each.carriage_minor ?? 0), 0);

/** For how many deliveries. @param {plan.Order} order */
function times(order) {
  const count = order.deliveries.length;
  if (count > 1) return `${count} deliveries by the dates`;
  return order.deliveries.some((each) => each.on !== null) ? "one delivery" : "one delivery, as no dates say how many";
}

/** @param {plan.Order} order @param {(minor: number) => string} write */
function order(order, write) {
  const name = order.supplier || "Supplier not named";
  const lines = order.lines.map((line) => [
    line.description,
    line.ordered_words,
    line.over > 0.005 ? `${amount(line.over)} ${line.unit}` : "",
    line.amount_minor === null ? "no price" : write(line.amount_minor),
  ]);
  const raised = order.lines.filter((line) => line.raised).map((line) => line.description);
  const without = order.unpriced
      ? `, without ${counted(order.unpriced, "line")} that ${order.unpriced === 1 ? "has" : "have"} no price`
      : "",
    some = ", not known for every line",
    partly = order.carriage_known ? "" : some,
    slower = order.lead_known ? "" : some;
  const goods =
    order.unpriced === order.lines.length
      ? "Goods: nothing has a price"
      : `Goods ${write(order.goods_minor)}${without}`;
  const facts = [
    goods,
    order.carriage_minor === null
      ? "carriage not known"
      : carried(order)
        ? `carriage ${write(carried(order))} for ${times(order)}${partly}`
        : `no carriage${partly}`,
    order.lead_days === null
      ? "lead time not known"
      : `${counted(order.lead_days, "working day")} from order to delivery${slower}`,
    ...(order.kg ? [`${plain(order.kg)} kg as far as known`] : []),
  ];
  return [
    el("h3", { text: order.kind ? `${name}, ${spoken(order.kind).toLowerCase()}` : name }),
    table(
      [
        { head: "What" },
        { head: "Order", number: true },
        { head: "Over", number: true },
        { head: "Amount", number: true },
      ],
      lines,
      `Order: ${name}`,
    ),
    el("p", { class: "hint", text: `${facts.join("; ")}.` }),
    ...(raised.length ? [el("p", { text: `Minimum order, not the need, decides: ${raised.join(", ")}.` })] : []),
  ];
}

/** What work takes beside what is drawn and nobody said or priced. @param {Planned} state */
export function askedPart(state) {
  const asked = (state.plan.cost?.gaps ?? state.plan.quantities.gaps).filter((gap) => gap.ours);
  if (!asked.length) return null;
  return group(
    `Asked or without a price: ${asked.length}`,
    [
      el("p", {
        text: "These are in nobody's price. Answer under What is arranged, or give a price in the catalogue.",
      }),
      el("ul", {}, ...asked.map((gap) => el("li", { text: gap.words }))),
    ],
    { open: true },
  );
}
