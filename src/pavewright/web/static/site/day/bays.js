// @ts-check
/** What was done, on the plan: choose how far, then touch the bays. */
import { el } from "../../lib/dom.js";
import { day as dayWords } from "../../lib/words.js";
import { siteMap } from "../map.js";
import { set, words } from "../parts.js";
import { areaAt } from "../reading.js";
import { today } from "../this-phone.js";
import { STAGE_WORDS } from "./bay-shapes.js";
import { STAGES, bayAt, baysSeen } from "./log.js";
import { write } from "./parts.js";

/** @typedef {import("../parts.js").Here} Here */

const OFF_MM = 300;

/** @param {Here} here @returns {Node[]} */
export function bays(here) {
  const { view, doc } = here;
  if (!view?.levels?.areas.length)
    return [
      el("p", { class: "ask", text: "No heights are known yet: the plan has no bays. Write what was done as a note." }),
    ];
  const seen = baysSeen(doc, view),
    stage = STAGES.includes(here.ui.dayStage) ? here.ui.dayStage : likely(seen);
  const map = siteMap(here, {
    at: null,
    plain: true,
    bays: seen,
    pick: (at) => {
      const found = areaAt(view, at);
      if (!found.area || found.off_mm > OFF_MM) return here.say("That is not on the paving.");
      const area = found.area,
        number = bayAt(view, area, at) + 1,
        now = seen.find((one) => one.area === area && one.number === number);
      if (now?.stage === stage && now?.on === today()) return here.say("That stands in the log already.");
      write(here, `${nameOf(seen, area, number)}: ${STAGE_WORDS[/** @type {"dug"} */ (stage)]}`, (day) => {
        const place = { area, stage, x_mm: Math.round(at[0]), y_mm: Math.round(at[1]) };
        day.bays = [
          ...(day.bays ?? []).filter(
            (one) => one.area !== area || bayAt(view, area, [one.x_mm, one.y_mm]) + 1 !== number,
          ),
          place,
        ];
      });
    },
  });
  return [
    words(
      "How far",
      STAGES.map((each) => [each, STAGE_WORDS[/** @type {"dug"} */ (each)]]),
      stage,
      (dayStage) => set(here, { dayStage }),
    ),
    el("p", { class: "quiet", text: "Touch each bay that came so far today." }),
    map,
    el(
      "ul",
      { class: "plain-list" },
      ...seen.map((one) =>
        el("li", {
          text:
            `${nameOf(seen, one.area, one.number)}: ` +
            (one.stage ? `${STAGE_WORDS[one.stage]} on ${dayWords(one.on ?? "")}` : "nothing logged"),
        }),
      ),
    ),
  ];
}

/** @param {ReturnType<typeof baysSeen>} seen @param {string} area @param {number} number */
const nameOf = (seen, area, number) =>
  seen.filter((one) => one.area === area).length > 1 ? `${area}, bay ${number}` : area;

/** The stage after the one that most bays are at. @param {ReturnType<typeof baysSeen>} seen */
function likely(seen) {
  const first = Math.min(...seen.map((one) => (one.stage ? STAGES.indexOf(one.stage) : -1)));
  return STAGES[Math.min(first + 1, STAGES.length - 1)];
}
