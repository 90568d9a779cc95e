// @ts-check
/** The ground by a trial hole and a handful of it; what nobody looked at stays unknown or is assumed by somebody. */
import { el, svg } from "../../lib/dom.js";
import { ASKED } from "../../lib/walk-questions.js";
import { picker, words } from "../../site/parts.js";
import { lengthPart } from "../figures.js";
import { assumer } from "../level-part.js";
import { button } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "ground",
  name = "Ground",
  why = "How deep the dig goes and what the base needs.",
  question = ASKED.ground;

/** What a wet handful does, with a small picture of it. @type {[string, string, string, string][]} */
const SOILS = [
  ["heavy_clay", "Heavy clay", "rolls to a thin thread, sticks, shines when rubbed", "M4 20C14 14 26 26 44 18"],
  ["silty_clay", "Silty clay", "rolls to a thread, feels silky", "M4 20C14 16 22 24 30 20M34 20l8-2"],
  ["sandy_clay", "Sandy clay", "rolls, feels gritty, the thread breaks", "M4 20l10-3M18 19l9 1M31 20l11-3"],
  [
    "silt",
    "Silt",
    "silky, will not roll, water shows when shaken",
    "M10 22a14 8 0 0 1 28 0zM16 14l1 3M24 11v4M32 14l-1 3",
  ],
  ["sand", "Sand", "gritty, falls apart", "M8 24h32M12 21h.5M18 19h.5M24 22h.5M30 19h.5M36 21h.5M21 16h.5M28 15h.5"],
  ["gravel", "Gravel", "mostly stones", "M8 22a4 4 0 1 1 8 0zM18 22a6 6 0 1 1 12 0zM32 22a4 4 0 1 1 8 0z"],
  ["made_ground", "Made ground", "brick, ash, rubble", "M8 24v-8h10v8zM20 24l6-10 6 10zM34 24v-6h7v6z"],
  ["chalk", "Chalk", "white, marks the hand", "M10 24l4-10 12-2 10 5 2 7z"],
];
const FACES = /** @type {Record<string, string>} */ (Object.fromEntries(SOILS.map(([soil, face]) => [soil, face])));
const WATER = /** @type {Record<string, string>} */ ({ high: "stands in the hole", low: "none in the hole" });
const WHY = ["as next door", "the owner says so", "from a map of soils"];

/** @param {Walk} here */
const ground = (here) => here.doc.site?.ground ?? {};

/** @param {Walk} here */
export const state = (here) => ((ground(here).soil ?? "unknown") !== "unknown" ? "done" : "open");

/** @param {Walk} here @param {string} label @param {(ground: any, draft: any) => void} act */
const change = (here, label, act) => here.change(label, (draft) => act(((draft.site ??= {}).ground ??= {}), draft));

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const now = ground(here),
    { ui } = here;
  if ((now.soil ?? "unknown") === "unknown" || ui.again) return soilPart(here);
  if ((now.topsoil_mm === undefined || now.topsoil_mm === null) && !ui.noTopsoil) return topsoilPart(here);
  if ((now.water_table ?? "unknown") === "unknown" && !ui.noWater) return waterPart(here);
  return [
    el("p", { class: "question", text: "The ground" }),
    button(`Soil: ${FACES[now.soil] ?? now.soil}${now.assumed ? `, assumed (${now.assumed.why})` : ""}`, () =>
      here.set({ again: true }),
    ),
    button(
      `Topsoil: ${now.topsoil_mm === undefined || now.topsoil_mm === null ? "not known" : `${now.topsoil_mm} mm`}`,
      () => change(here, "Topsoil again", (mine) => delete mine.topsoil_mm).then(() => here.set({ noTopsoil: false })),
    ),
    button(`Water: ${WATER[now.water_table] ?? "not known"}`, () =>
      change(here, "Water again", (mine) => delete mine.water_table).then(() => here.set({ noWater: false })),
    ),
  ];
}

/** @param {Walk} here */
function soilPart(here) {
  const assume = Boolean(here.ui.assume),
    reason = here.ui.why ?? WHY[0];
  const take = async (/** @type {string} */ soil) => {
    const kept = await change(here, `Soil: ${FACES[soil]}`, (mine, draft) => {
      mine.soil = soil;
      if (assume) mine.assumed = { by: assumer(draft), why: reason };
      else delete mine.assumed;
    });
    if (kept) here.set({ again: false, typed: "" });
  };
  return [
    el("p", {
      class: "question",
      text: assume ? "What is it assumed to be, and why?" : "Wet a handful. What does it do?",
    }),
    ...(assume ? [picker("Why it is assumed", WHY, reason, (next) => here.set({ why: next }))] : []),
    el(
      "div",
      { class: "soils", role: "group", "aria-label": "Soil" },
      ...SOILS.map(([soil, face, does, path]) =>
        el(
          "button",
          { type: "button", on: { click: () => take(soil) } },
          svg(
            "svg",
            { viewBox: "0 0 48 28", width: "48", height: "28", "aria-hidden": "true" },
            svg("path", {
              d: path,
              fill: "none",
              stroke: "currentColor",
              "stroke-width": 2.5,
              "stroke-linecap": "round",
            }),
          ),
          el("span", {}, el("b", { text: face }), ` ${does}`),
        ),
      ),
    ),
    button(assume ? "I looked after all" : "Nobody dug a hole: assume it", () => here.set({ assume: !assume })),
  ];
}

/** @param {Walk} here */
const topsoilPart = (here) => [
  el("p", { class: "question", text: "How deep is the topsoil, the soil with roots?" }),
  ...lengthPart(here, {
    label: "Depth of topsoil",
    usual: [0, 100, 150, 200, 300],
    high_mm: 2000,
    onKeep: async (mm) => {
      if (await change(here, `Topsoil ${mm} mm`, (mine) => (mine.topsoil_mm = mm))) here.redraw();
    },
  }),
  button("Not known", () => here.set({ noTopsoil: true, typed: "" })),
];

/** @param {Walk} here */
const waterPart = (here) => [
  el("p", { class: "question", text: "Is there water in the hole?" }),
  words(
    "Water in the hole",
    [
      ["high", "Water stands in it"],
      ["low", "None"],
    ],
    "",
    async (value) => {
      if (await change(here, "Water in the hole", (mine) => (mine.water_table = value))) here.next();
    },
  ),
  button("Not known", () => {
    here.set({ noWater: true });
    here.next();
  }),
];
