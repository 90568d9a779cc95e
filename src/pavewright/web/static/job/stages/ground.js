// @ts-check
import { digDiffersPart } from "./dig-differs.js";
import { hidesMoney } from "../../lib/hidden.js";
import { el } from "../../lib/dom.js";
import { form, group } from "../form/form.js";
import { fact, facts, range, table } from "../../lib/results.js";
import { mm, plain, spoken } from "../../lib/words.js";
import { holdsPart } from "./hold-points.js";
import { alternatives } from "./alternatives.js";
import { drawInto } from "./levels.js";

/** @param {Planned} state */
export function results(state) {
  const { earthworks: works, build_ups: built } = state.plan,
    /** @type {Node[]} */ out = [];
  if (works.areas.length) {
    out.push(
      facts(
        fact("Dig", `${plain(works.cut_m3, 2)} m³`, works.workings, state.sources),
        fact("Fill", `${plain(works.fill_m3, 2)} m³`),
        fact("To leave", `${plain(works.away_m3, 2)} m³`),
      ),
    );
    for (const [name, value, write] of /** @type {[string, any, (v: number) => string][]} */ ([
      ["Loose", works.loose_m3, (v) => `${plain(v, 1)} m³`],
      ["Weight", works.tonnes, (v) => `${plain(v, 1)} t`],
      [`Loads (${works.load_kind})`, works.loads, (v) => plain(v)],
      ["Barrows", works.barrows, (v) => plain(v)],
    ]))
      if (value) out.push(range(value, write, name));
    if (works.soils.length > 1)
      out.push(
        table(
          [{ head: "Soil" }, { head: "Dug", number: true }],
          works.soils.map((one) => [spoken(one.soil), `${plain(one.cut_m3, 2)} m³`]),
          "Soils",
        ),
      );
    const zones = works.areas.flatMap((area) =>
      area.zones.map((one) => [
        one.zone ? `${area.area}, ${one.zone}` : `${area.area}, rest`,
        `${plain(one.dig_m2, 2)} m²`,
        `${plain(one.cut_m3, 2)} m³`,
        `${plain(one.fill_m3, 2)} m³`,
      ]),
    );
    if (zones.length)
      out.push(
        table(
          [
            { head: "Zone" },
            { head: "Area", number: true },
            { head: "Dig", number: true },
            { head: "Fill", number: true },
          ],
          zones,
          "Zones",
        ),
      );
  } else
    out.push(
      el("p", {
        text: "The dig is not known: the ground has no levels yet. Read the staff at the corners and in the middle.",
      }),
    );
  for (const area of built.areas)
    out.push(
      el("h3", { text: `${area.area}: ${plain(area.total_mm)} mm in all` }),
      table(
        [{ head: "Layer" }, { head: "Thick", number: true }, { head: "Why" }],
        area.layers.map((layer) => [layer.name, layer.thickness_mm ? mm(layer.thickness_mm) : "", layer.why]),
        "Layers",
      ),
      ...courses(state, area.area),
      facts(fact("Build-up", mm(area.total_mm), area.workings, state.sources)),
    );
  if (!hidesMoney()) out.push(alternatives(state));
  if (built.areas.some((area) => area.edges.length)) out.push(edges(state));
  out.push(holdsPart(state));
  return out;
}

const PLATES = {
  plate_heavy: "a heavy plate",
  plate_light: "a lighter plate",
  below_table: "a plate lighter than any with known passes: choose a heavier one",
  unknown: "which plate? Enter its mass and its sole",
};

/** In which layers stone goes in, with the passes of the plate. @param {Planned} state @param {string} area */
function courses(state, area) {
  const own = state.plan.earthworks.compaction.filter((one) => one.area === area);
  if (!own.length) return [];
  return [
    table(
      [
        { head: "Compacted" },
        { head: "Layers", number: true },
        { head: "Each", number: true },
        { head: "Passes over each", number: true },
        { head: "Plate" },
      ],
      own.map(({ layer, layers }) => [
        layer === "sub_base" ? "sub-base" : spoken(layer),
        plain(layers.layers),
        mm(layers.layer_mm),
        layers.passes === null ? "not known" : plain(layers.passes),
        PLATES[layers.plate],
      ]),
      `Compaction of ${area}`,
    ),
  ];
}

/** What holds the sides, as on paper: all sheets, drawn when it is opened. @param {Planned} state */
function edges(state) {
  const drawing = el("div", { class: "drawing", "aria-label": "Sections at the edges" }),
    part = group("Sections at the edges: bed and haunch", [drawing]);
  part.addEventListener("toggle", async () => {
    if (part.open && !drawing.childElementCount) await drawInto(state, "edges", drawing);
  });
  return part;
}
/** @param {Planned} state */
export const inputs = (state) => [
  ...(hidesMoney() ? [] : [digDiffersPart(state)]), // both compare prices
  group("What lies underneath", [form(state, ["site", "ground"])], { open: true }),
  group("The way in", [form(state, ["site"], { only: ["access_width_mm", "carry_mm"] })]),
  group("How spoil leaves", [form(state, ["rates"], { only: ["disposal"] })]),
];
