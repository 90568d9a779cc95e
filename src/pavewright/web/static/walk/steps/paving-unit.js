// @ts-check
/** A slab, block or sett that is typed: its size, its weight, and how it is sold. */
import { el } from "../../lib/dom.js";
import { chips, figurePad, lengthPart } from "../figures.js";
import { button } from "../parts.js";
import { moneyPlaces, toMinor } from "../../lib/words.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const KINDS = /** @type {[string, string][]} */ ([
  ["flag", "Slab"],
  ["block", "Block"],
  ["sett", "Sett"],
]);
/**
 * Weight of what units are made of, common practice: offered, not entered by itself. [kg/m³]
 * @type {[string, number][]}
 */
const WEIGHTS = [
  ["concrete", 2300],
  ["sandstone or limestone", 2400],
  ["granite or porcelain", 2600],
];
const MM3_PER_M3 = 1e9;

/** What a choice is called. @param {[string, string][]} all @param {string} value */
export const faceOf = (all, value) =>
  all.find(([one]) => one === value)?.[1] ?? String(value ?? "").replaceAll("_", " ");

/** Keep a unit and go on to how it is laid. @param {Walk} here @param {any} unit */
export async function take(here, unit) {
  const kept = await here.change(`${unit.name} added`, (draft) => {
    if (!(draft.units ??= []).some((/** @type {any} */ one) => one.name === unit.name))
      draft.units.push(structuredClone({ ...unit, in_yard: undefined, also_cut_from: undefined }));
  });
  if (kept) here.set({ unit: unit.name, fresh: null, change: false, typed: "" });
}

/** @param {Walk} here @returns {Node[]} */
export function typedPart(here) {
  const { fresh } = here.ui,
    face = faceOf(KINDS, fresh.kind).toLowerCase(),
    set = (/** @type {any} */ more) => here.set({ fresh: { ...fresh, ...more }, typed: "" });
  const back = button("Not this one", () => here.set({ fresh: null, typed: "" }));
  const size = (
    /** @type {string} */ field,
    /** @type {string} */ asked,
    /** @type {number[]} */ usual,
    low = 20,
    high = 3000,
  ) => [
    el("p", { class: "question", text: asked }),
    ...lengthPart(here, { label: asked, usual, low_mm: low, high_mm: high, onKeep: (mm) => set({ [field]: mm }) }),
    back,
  ];
  const flag = fresh.kind === "flag";
  if (!fresh.length_mm) return size("length_mm", `Length of a ${face}`, flag ? [450, 600, 900] : [100, 200]);
  if (!fresh.width_mm) return size("width_mm", `Width of a ${face}`, flag ? [450, 600] : [100]);
  if (!fresh.thickness_mm)
    return size("thickness_mm", `Thickness of a ${face}`, flag ? [22, 35, 40, 50] : [50, 60, 80], 5, 300);
  if (!fresh.kg_each) return weightPart(here, fresh, set, back);
  if (!fresh.per_pack)
    return [
      el("p", { class: "question", text: "How many are in a pack?" }),
      figurePad(here, {
        label: "In a pack",
        keep: "Save",
        unit: "in a pack",
        low: 1,
        high: 10_000,
        whole: true,
        onKeep: (per_pack) => set({ per_pack }),
      }),
      button("Sold one by one", () => set({ per_pack: 1 })),
    ];
  const done = (/** @type {number|null} */ price) => {
    const { kind, length_mm, width_mm, thickness_mm, kg_each, per_pack, material } = fresh;
    return take(here, {
      name: nameOf(here, fresh),
      kind,
      material: material ?? "concrete",
      length_mm,
      width_mm,
      thickness_mm,
      kg_each,
      per_pack,
      pack_price_minor: price,
    });
  };
  return [
    el("p", {
      class: "question",
      text: fresh.per_pack === 1 ? "What does one cost, before tax?" : "What does a pack cost, before tax?",
    }),
    figurePad(here, {
      label: "Price",
      keep: "Save price",
      unit: here.doc.identity?.currency ?? "",
      places: moneyPlaces(here.doc.identity?.currency ?? "GBP"),
      onKeep: (value) => done(toMinor(value, here.doc.identity?.currency ?? "GBP")),
    }),
    button("Price not known yet", () => done(null)),
  ];
}

/** @param {Walk} here @param {any} fresh */
function nameOf(here, fresh) {
  const stem = `${faceOf(KINDS, fresh.kind)} ${fresh.length_mm} × ${fresh.width_mm}`,
    taken = new Set((here.doc.units ?? []).map((/** @type {any} */ one) => one.name));
  if (!taken.has(stem)) return stem;
  for (let number = 2; ; number += 1) if (!taken.has(`${stem}, ${number}`)) return `${stem}, ${number}`;
}

/** @param {Walk} here @param {any} fresh @param {(more: any) => void} set @param {Node} back @returns {Node[]} */
function weightPart(here, fresh, set, back) {
  const m3 = (fresh.length_mm * fresh.width_mm * fresh.thickness_mm) / MM3_PER_M3;
  return [
    el("p", { class: "question", text: "What does one weigh?" }),
    chips(
      "As made of, by common weights",
      WEIGHTS.map(([material, kg_per_m3]) => {
        const kg_each = Math.max(0.1, Math.round(m3 * kg_per_m3 * 10) / 10);
        return [`${material}: about ${kg_each} kg`, () => set({ kg_each, material })];
      }),
    ),
    figurePad(here, {
      label: "Weight of one",
      keep: "Save",
      unit: "kg",
      low: 0.1,
      high: 2000,
      onKeep: (kg_each) => set({ kg_each }),
    }),
    back,
  ];
}
