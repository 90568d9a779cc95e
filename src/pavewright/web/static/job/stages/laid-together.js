// @ts-check
/** The verdict on each area over everything that was read, with each reason; standing water comes a little later. */
import { call } from "../../lib/api.js";
import { el } from "../../lib/dom.js";
import { messageOf } from "../../lib/words.js";

/** @type {Record<string, string>} */
const VERDICT = { pass: "✓ pass", fail: "✕ fail", unsure: "? inconclusive" };
/** What was worked out last, by the document. @type {{of: string, told: plan.WaterAsked|null}} */
let kept = { of: "", told: null };

/** @param {Planned} state */
export function laidTogether(state) {
  const box = el("div", { role: "status", class: "together" }),
    of = JSON.stringify(state.doc),
    report = /** @type {plan.AsLaidReport} */ (state.plan.as_laid);
  if (kept.of === of && kept.told) {
    box.replaceChildren(...areas(kept.told.judged));
    return box;
  }
  const names = [...new Set([...report.areas.map((one) => one.area), ...report.reasons.map((one) => one.area)])];
  box.replaceChildren(
    ...names.map((name) =>
      el("h3", {
        text: report.reasons.some((one) => one.area === name && one.verdict === "fail")
          ? `${name || "Drains"}: ${VERDICT.fail}`
          : `${name || "Drains"}: … standing water is being worked out`,
      }),
    ),
  );
  load(box, of);
  return box;
}

/** @param {HTMLElement} box @param {string} of */
async function load(box, of) {
  try {
    const found = /** @type {{water: plan.WaterAsked|null}} */ (await call("POST", "/api/site-water", of));
    if (!found.water) return;
    kept = { of, told: found.water };
    box.replaceChildren(...areas(found.water.judged));
  } catch (problem) {
    box.append(el("p", { text: `Standing water is not in the verdict: ${messageOf(problem)}` }));
  }
}

/** @param {plan.AreaJudged[]} judged @returns {Node[]} */
const areas = (judged) =>
  judged.flatMap((one) => [
    el("h3", { text: `${one.area || "Drains"}: ${VERDICT[one.verdict]}` }),
    one.why.length ? el("ul", {}, ...one.why.map((text) => el("li", { text }))) : el("span"),
  ]);
