// @ts-check
/** Bags against area laid: one touch for each bag, and what they say of the bed. */
import { el } from "../../lib/dom.js";
import { counted, plain } from "../../lib/words.js";
import { keepChange } from "../changes.js";
import { picker, words } from "../parts.js";
import { today } from "../this-phone.js";
import { bedSoFar } from "./bed.js";
import { bedTold } from "./told.js";
import { laidUpTo } from "./units.js";

const COUNTED = { bag: "bags", barrow: "barrows" },
  LEFT = /** @type {[string, string][]} */ ([
    ["0", "none"],
    ["0.25", "¼"],
    ["0.5", "½"],
    ["0.75", "¾"],
    ["", "nobody looked"],
  ]);

/**
 * @param {import("../parts.js").Here} here @param {plan.LayingOnSite} laying @param {plan.AreaToLay} area
 * @param {number} last the last piece that lies; zero where pieces are not marked
 */
export function bags(here, laying, area, last) {
  if (!area.bed || !area.pieces) return el("span");
  const { bed } = area,
    name = COUNTED[bed.counted],
    mine = (here.doc.bags_used ?? []).filter((/** @type {any} */ each) => each.area === area.area),
    had = mine.at(-1) ?? null;
  const upTo = last || Number(here.ui.layUpTo ?? 0) || Number(had?.up_to_piece ?? 0),
    laid = laidUpTo(area, upTo);
  const planned = {
    per_m2: bed.per_m2,
    planned_mm: bed.thickness_mm,
    all_m2: area.all_m2,
    spread_percent: laying.batch_spread.value,
    off_mm: laying.bed_off.value,
  };
  const told =
    had && laid > 0
      ? bedTold(bedSoFar(had.opened, had.left_part ?? null, laid, planned, laying.trusted_sd), bed.thickness_mm, name)
      : null;
  const count = (/** @type {number} */ many, /** @type {number|null} */ part) => {
    const item = {
      ...{ area: area.area, opened: many, up_to_piece: Math.max(upTo, 1), date: today() },
      ...(part === null ? {} : { left_part: part }),
    };
    keepChange(here, [{ op: "add", at: ["bags_used"], item }], `${counted(many, bed.counted)} opened`);
  };
  const opened = Number(had?.opened ?? 0),
    left = had?.left_part ?? null;
  const card = told
    ? el(
        "div",
        { class: `finding verdict ${told.mood}`, role: "status" },
        el("p", { class: "big", text: told.head }),
        ...told.lines.map((text) => el("p", { text })),
      )
    : null;
  const alarm = told?.mood === "fail"; // that is not folded away
  return el(
    "div",
    { class: "lay-bags" },
    el(
      "div",
      { class: "last" },
      el("span", { class: "fill" }, el("b", { text: counted(opened, bed.counted) }), ` for ${plain(laid, 1)} m²`),
      el("button", { type: "button", text: `+ 1 ${bed.counted}`, on: { click: () => count(opened + 1, null) } }),
    ),
    alarm ? card : null,
    area.one_by_one ? null : courses(here, area, upTo),
    opened
      ? el(
          "details",
          { class: "group" },
          el("summary", { text: "The bed by what was used" }),
          el(
            "div",
            { class: "inside lay-stack" },
            alarm ? null : card,
            el("p", { class: "ask", text: `How much of the last ${bed.counted} is left, or of what it made?` }),
            words(`Left of the last ${bed.counted}`, LEFT, left === null ? "" : String(left), (part) =>
              count(opened, part === "" ? null : Number(part)),
            ),
            el("button", {
              type: "button",
              text: `One ${bed.counted} fewer`,
              on: { click: () => count(opened - 1, null) },
            }),
          ),
        )
      : null,
  );
}

/** @param {import("../parts.js").Here} here @param {plan.AreaToLay} area @param {number} upTo */
const courses = (here, area, upTo) =>
  picker(
    "Laid up to the end of course",
    area.stages.map((_, index) => String(index + 1)),
    String(area.stages.findIndex(([last]) => last === upTo) + 1 || ""),
    (course) => {
      here.ui.layUpTo = area.stages[Number(course) - 1][0];
      here.remember();
      here.redraw();
    },
  );
