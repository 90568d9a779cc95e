// @ts-check
/** The strip under the plan: counts and price of every area, as far as they are known. */
import { el } from "../../lib/dom.js";
import { money, plain, roundMoney } from "../../lib/words.js";

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
    for (const area of areas)
      words.push(
        `${area.area} ${plain(area.area_m2, 2)} m²${
          area.whole !== undefined && area.whole !== null
            ? `, ${area.whole} whole, ${area.cut} ` +
              `cut${area.too_narrow ? `, ${area.too_narrow} too narrow to be cut` : ""}`
            : ""
        }${area.falls ? `, ${area.falls}` : ""}`,
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
    for (const area of plan.laying?.areas ?? [])
      words.push(
        `${area.area} ${plain(area.paved_m2 + area.joint_m2, 2)} m², ${area.whole} whole, ${area.cut} cut, ` +
          `${area.units_with_offcuts} to buy`,
      );
    if (plan.cost)
      words.push(`${money(plan.cost.total_minor, plan.job.identity.currency)} with ${plan.job.rates.tax_name}`);
  }
  const stops = state.faults.length || (plan?.findings ?? []).filter((one) => one.severity === "stop").length;
  return [
    ...words.map((each) => el("span", { text: each })),
    el("span", { class: "fill" }),
    el("span", {
      text: state.faults.length ? `■ ${state.faults.length} to fix` : stops ? `■ ${stops} stop` : "",
    }),
  ];
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
