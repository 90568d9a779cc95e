// @ts-check
/** The dig differs: what it found that nobody knew, with what that takes at once. */
import { el } from "../../lib/dom.js";
import { plain, roundMoney } from "../../lib/words.js";
import { keepChange, touches } from "../changes.js";
import { padFor, picker, set, undoLine, words } from "../parts.js";
import { box, forget } from "./boxes.js";
import { foundVolume, takes } from "./hold-kernel.js";
import { taken, takenBox, there } from "./told.js";

/** @typedef {import("../parts.js").Here} Here */

const KINDS = /** @type {[string, string][]} */ ([
  ["deeper", "All of it deeper"],
  ["soft_spot", "Soft spot"],
  ["concrete", "Buried concrete"],
  ["drain", "A drain"],
]);
const NAMES = /** @type {Record<string, string>} */ (Object.fromEntries(KINDS));
const DEPTHS = /** @type {Record<string, string>} */ ({
  deeper: "How much deeper",
  soft_spot: "How deep below formation",
  concrete: "How thick",
  drain: "How deep below formation it is dug free",
});

/** What is asked next: the size in plan, then the depth. @param {Here} here */
function asked(here) {
  const kind = here.ui.holdsFind ?? "soft_spot";
  if (kind === "deeper" || here.ui.holdsSize) return "depth";
  return kind === "drain" ? "length" : "area";
}

/** @param {Here} here @param {plan.HoldsOnSite} part @returns {Node[]} */
export function finds(here, part) {
  const { ui, doc } = here,
    kind = ui.holdsFind ?? "soft_spot",
    areas = part.finds.map((one) => one.area),
    area = areas.includes(ui.holdsArea) ? ui.holdsArea : areas[0],
    step = asked(here),
    sized = ui.holdsSize;
  const sizes = sized ? (kind === "drain" ? `${plain(sized / 1000, 2)} m long` : `${plain(sized, 2)} m²`) : "";
  const accepted = Boolean(doc.accepted);
  return there(
    words("What was found", KINDS, kind, (holdsFind) => set(here, { holdsFind, holdsSize: undefined, typed: "" })),
    areas.length > 1
      ? picker("In which area", areas, area, (holdsArea) => set(here, { holdsArea }))
      : el("p", { class: "quiet", text: `In ${area}` }),
    sized
      ? el(
          "div",
          { class: "last" },
          el("span", { class: "fill", text: sizes }),
          el("button", {
            type: "button",
            text: "Change",
            on: { click: () => set(here, { holdsSize: undefined, typed: "" }) },
          }),
        )
      : "",
    step === "area" ? areaAsked(here) : "",
    step === "length"
      ? padFor(here, "How long it is in the dig", "Next", (value) =>
          set(here, { holdsSize: Math.round(value), typed: "" }),
        )
      : "",
    step === "depth"
      ? padFor(here, DEPTHS[kind], "Save it", (value) => keepFind(here, kind, area, Math.round(Math.abs(value))))
      : "",
    undoLine(here, (one) => touches(one, "dig_found")),
    el("p", {
      class: "quiet",
      text: accepted
        ? "Stop here and photograph it. Price, days and the slip to sign come from the working screen; who pays " +
          "stands in the contract."
        : "Photograph it. The plan and the price go by it as soon as it is sent.",
    }),
    ...list(here, part),
  );
}

/** Length times width, or square metres. @param {Here} here */
function areaAsked(here) {
  const long = box(here, "Length, m", undefined, "found long"),
    wide = box(here, "Width, m", undefined, "found wide");
  return el(
    "div",
    { class: "pad" },
    el("div", { class: "side-by-side" }, long.field, wide.field),
    el("button", {
      type: "button",
      class: "main pad-keep",
      text: "Next",
      on: {
        click: () => {
          const m2 = (long.number ?? 0) * (wide.number ?? 0);
          if (!(m2 > 0)) return here.say("Give its length and its width, more than zero.");
          forget(here);
          set(here, { holdsSize: m2, typed: "" });
        },
      },
    }),
  );
}

/** @param {Here} here @param {string} kind @param {string} area @param {number} depth_mm */
async function keepFind(here, kind, area, depth_mm) {
  if (!(depth_mm > 0)) return here.say("How deep is it? More than zero.");
  const size = here.ui.holdsSize,
    sized = kind === "drain" ? { length_mm: size } : kind === "deeper" ? {} : { area_m2: size };
  const kept = await keepChange(
    here,
    (draft) => {
      const had = new Set((draft.dig_found ?? []).map((one) => one.name));
      let name = NAMES[kind],
        n = 2;
      while (had.has(name)) name = `${NAMES[kind]} ${n++}`;
      const entry = { name, kind, area, found_on: new Date().toISOString().slice(0, 10), depth_mm, ...sized };
      draft.dig_found = [...(draft.dig_found ?? []), /** @type {any} */ (entry)];
    },
    `${NAMES[kind]}, ${area}`,
  );
  if (kept) set(here, { holdsSize: undefined, typed: "" });
}

/**
 * What was found so far, and about what it takes.
 * @param {Here} here @param {plan.HoldsOnSite} part @returns {Node[]}
 */
function list(here, part) {
  return (here.doc.dig_found ?? [])
    .slice()
    .reverse()
    .map((one) => {
      const rates = part.finds.find((each) => each.area === one.area),
        whole = part.holds.find((each) => each.kind === "formation" && each.area === one.area)?.area_m2 ?? 0,
        size = one.kind === "deeper" ? { ...one, area_m2: whole } : one,
        m3 = foundVolume(one.kind, /** @type {any} */ (size), part.trench_mm.value);
      return takenBox(`${one.name}, ${one.area}: ${plain(m3, 2)} m³`, lines(one.kind, m3, rates, part));
    });
}

/** @param {string} kind @param {number} m3 @param {plan.FindRate|undefined} rates @param {plan.HoldsOnSite} part */
function lines(kind, m3, rates, part) {
  if (kind === "concrete") return ["Broken out and carted away: the working screen has the price."];
  if (!rates?.dig || !rates.fill) return ["What it takes is not known yet: the dig has no rates."];
  const [dig, fill] = [rates.dig, rates.fill].map((rate) => takes(rate, m3, part.day_h));
  const told = [
    ...taken(rates.dig, m3, part).slice(0, 1),
    ...taken(rates.fill, m3, part).slice(0, rates.fill.goods.length),
  ];
  if (dig.days !== null && fill.days !== null) told.push(`${plain(dig.days + fill.days, 1)} days of the crew`);
  if (dig.minor === null || fill.minor === null) told.push("cost not known: a price is missing");
  else told.push(`about ${roundMoney(dig.minor + fill.minor, part.currency)} of own cost, before margin`);
  return told;
}
