// @ts-check
/** The verdict on each area over everything that was read on it: levels, edges, steps, hose tests, gratings, water. */
import { el } from "../../lib/dom.js";
import { counted } from "../../lib/words.js";

/** @typedef {import("../parts.js").Here} Here */

/** @type {Record<string, string>} */
const VERDICT = { pass: "✓ Pass", fail: "✕ Fail", unsure: "? Inconclusive" };

/**
 * Nothing is called a pass before standing water is worked out for the readings that there are.
 * @param {Here} here @returns {Node}
 */
export function judged(here) {
  const part = /** @type {(plan.LaidOnSite & {is_old?: boolean})|null} */ (here.view?.parts?.laid ?? null);
  if (!part?.judged?.length) return el("span");
  const counts = Boolean(part.water) && !part.is_old,
    areas = counts && part.water ? part.water.judged : part.judged;
  return el(
    "details",
    { class: "group" },
    el("summary", {
      text: `Together: ${areas.map((one) => `${one.area || "drains"} ${face(one, counts)}`).join("; ")}`,
    }),
    el(
      "div",
      { class: "inside" },
      here.queue.unsent
        ? el("p", {
            role: "status",
            text: `${counted(here.queue.unsent, "change")} not sent yet: they are not counted.`,
          })
        : el("span"),
      ...areas.map((one) =>
        el(
          "p",
          {},
          el("b", { text: `${one.area || "Drains"}: ` }),
          one.why.length ? one.why.join("; ") : counts ? "nothing stands against it" : "nothing read fails",
        ),
      ),
      counts ? el("span") : el("p", { text: "Standing water is not worked out for these readings yet." }),
    ),
  );
}

/** @param {plan.AreaJudged} one @param {boolean} counts */
const face = (one, counts) => (one.verdict === "pass" && !counts ? "… water open" : VERDICT[one.verdict]);
