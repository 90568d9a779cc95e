// @ts-check
/** What a surface that is off takes, in words: from rates that the phone brought along. */
import { el } from "../../lib/dom.js";
import { plain, roundMoney } from "../../lib/words.js";
import { takes } from "./hold-kernel.js";

/** @typedef {ReturnType<typeof takes>} Taken */

/** A material as it is spoken. @param {string} material */
const spoken = (material) => (material === "sub_base" ? "sub-base" : material.replaceAll("_", " "));

/** @param {Taken["goods"][number]} one */
function goods(one) {
  if (one.packs !== null && one.in_pack !== null && one.in_pack <= 50)
    return `${plain(one.packs, 1)} bags of ${spoken(one.material)}`;
  return one.unit === "kg"
    ? `${plain(one.amount / 1000, 2)} t ${spoken(one.material)}`
    : `${plain(one.amount, 1)} ${one.unit} ${spoken(one.material)}`;
}

/** @param {number} days */
const daysTold = (days) => (days < 0.05 ? "less than 0.1 day" : `${plain(days, 1)} days of the crew`);

/**
 * @param {plan.TakeUpRate} rate
 * @param {number} m3
 * @param {plan.HoldsOnSite} part
 * @returns {string[]}
 */
export function taken(rate, m3, part) {
  const found = takes(rate, m3, part.day_h),
    told = found.goods.map(goods);
  if (found.loose_m3 !== null) told.push(`${plain(found.loose_m3, 1)} m³ loose to cart away`);
  if (found.days !== null) told.push(daysTold(found.days));
  else if (found.hours !== null) told.push(`${plain(found.hours, 1)} hours`);
  told.push(
    found.minor === null
      ? "cost not known: a price is missing"
      : `about ${roundMoney(found.minor, part.currency)} of own cost`,
  );
  return told;
}

/** @param {string} title @param {string[]} lines */
export const takenBox = (title, lines) =>
  el(
    "div",
    { class: "peg" },
    el("b", { text: title }),
    el("ul", { class: "plain-list" }, ...lines.map((text) => el("li", { text }))),
  );

/** Those of some nodes that are there. @param {(Node|""|null)[]} all @returns {Node[]} */
export const there = (...all) => /** @type {Node[]} */ (all.filter((one) => one instanceof Node));
