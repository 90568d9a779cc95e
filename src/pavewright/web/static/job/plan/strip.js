// @ts-check
/** The strip under the plan: counts and price of every area, as far as they are known; of many areas their sum. */
import { el } from "../../lib/dom.js";
import { money, plain, roundMoney } from "../../lib/words.js";

/** So many areas are told one by one. */
const EACH_MAX = 4;

/**
 * @param {import("../job-state.js").JobState} state
 * @param {boolean} held whether a hand holds a corner
 * @returns {Node[]}
 */
export function stripOf(state, held) {
  const { plan, quick } = state,
    dragged = held || quick;
  const areas = dragged && quick?.areas ? quick.areas : null;
  const words = [];
  if (areas) {
    for (const area of areas.length > EACH_MAX ? changed(areas, plan) : areas)
      words.push(
        `${area.area} ${plain(area.area_m2, 2)} m²${
          area.whole !== undefined && area.whole !== null
            ? `, ${area.whole} whole, ${area.cut} ` +
              `cut${area.too_narrow ? `, ${area.too_narrow} too narrow to be cut` : ""}`
            : ""
        }${area.falls ? `, ${area.falls}` : ""}`,
      );
    if (areas.length > EACH_MAX)
      words.push(
        `${areas.length} areas ${plain(
          sum(areas, (/** @type {Quick} */ area) => area.area_m2),
          2,
        )} m²`,
      );
    if (plan) {
      const before = plan.survey.site.areas.reduce((/** @type {number} */ sum, each) => sum + shapeArea(each.shape), 0),
        now = areas.reduce((/** @type {number} */ sum, /** @type {{area_m2: number}} */ each) => sum + each.area_m2, 0);
      if (before > 0 && plan.cost)
        words.push(`about ${roundMoney(plan.cost.total_minor * (now / before), plan.job.identity.currency)}`);
    }
  } else if (plan) {
    if (!plan.laying)
      for (const area of plan.survey.site.areas) words.push(`${area.area.name} ${plain(shapeArea(area.shape), 2)} m²`);
    const laid = plan.laying?.areas ?? [];
    if (laid.length > EACH_MAX)
      words.push(
        `${laid.length} areas ${plain(
          sum(laid, (area) => area.paved_m2 + area.joint_m2),
          2,
        )} m², ` +
          `${sum(laid, (area) => area.whole)} whole, ${sum(laid, (area) => area.cut)} cut, ` +
          `${sum(laid, (area) => area.units_with_offcuts)} needed`,
      );
    else
      for (const area of laid)
        words.push(
          `${area.area} ${plain(area.paved_m2 + area.joint_m2, 2)} m², ${area.whole} whole, ${area.cut} cut, ` +
            `${area.units_with_offcuts} needed`,
        );
    if (plan.cost) words.push(priceWords(plan.cost, plan.job));
  }
  const stops = state.faults.length || (plan?.findings ?? []).filter((one) => one.severity === "stop").length;
  return [
    ...(state.waits && plan ? [el("span", { class: "waits", text: "working it out …" })] : []),
    ...words.map((each) => el("span", { text: each })),
    el("span", { class: "fill" }),
    el("span", {
      text: state.faults.length ? `■ ${state.faults.length} to fix` : stops ? `■ ${stops} stop` : "",
    }),
  ];
}

/** The price, and what is not in it. @param {plan.Cost} cost @param {import("../../types/job.js").Job} job */
function priceWords(cost, { identity, rates }) {
  if (!cost.lines.length) return "price not known";
  const gaps = cost.gaps.length,
    charged = cost.tax.filter(({ taxed }) => taxed.regime === "standard" || taxed.regime === "reduced"),
    isKnown = charged.every(({ taxed }) => taxed.percent !== null),
    tax = isKnown ? `${charged.length ? "with" : "without"} ${rates.tax_name}` : `${rates.tax_name} not known`;
  return `${money(cost.total_minor, identity.currency)} ${tax}${gaps ? `, ${gaps} not priced` : ""}`;
}

/** @param {{outer: number[][], holes: number[][][]}} shape */
function shapeArea(shape) {
  const ring = (/** @type {number[][]} */ points) =>
    Math.abs(
      points.reduce((sum, [x1, y1], index) => {
        const [x2, y2] = points[(index + 1) % points.length];
        return sum + x1 * y2 - x2 * y1;
      }, 0),
    ) / 2e6;
  return ring(shape.outer) - shape.holes.reduce((sum, hole) => sum + ring(hole), 0);
}

/** @typedef {{area: string, area_m2: number}} Quick what the server says of an area under the hand */

/** The areas that a hand has changed, the first few. @param {Quick[]} areas @param {PlanSoFar|null} plan */
function changed(areas, plan) {
  const before = new Map(plan?.survey.site.areas.map((each) => [each.area.name, shapeArea(each.shape)]));
  return areas.filter((each) => Math.abs((before.get(each.area) ?? 0) - each.area_m2) > 1e-6).slice(0, EACH_MAX);
}

/** @template Thing @param {Thing[]} things @param {(thing: Thing) => number} value */
const sum = (things, value) => things.reduce((total, each) => total + value(each), 0);
