// @ts-check
/** The datum: one point that stays, from which every height is counted. */
import { el } from "../../lib/dom.js";
import { metres } from "../../lib/words.js";
import { ASKED } from "../../lib/walk-questions.js";
import { padFor, words } from "../../site/parts.js";
import { datumOf } from "../levelling.js";
import { nameFor } from "../placing.js";
import { button } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "datum",
  name = "Datum",
  why = "One point that stays: every height is counted from it.",
  question = ASKED.datum,
  /** @type {("none"|"could_not_see")[]} */ answers = [];

const TAKEN_MM = 10_000; // so that nothing on a site lies below zero; a convention, no measurement

/** Points that stay, and can be found again. @type {[string, string][]} */
const STAYS = [
  ["dpc", "Damp-proof course"],
  ["sill", "Door sill"],
  ["cover", "Chamber cover"],
  ["peg", "Other point that stays"],
];
const NAMES = /** @type {Record<string, string>} */ ({ dpc: "DPC", sill: "Sill", cover: "Cover", peg: "Datum" });

/** @param {Walk} here */
export const state = (here) => (datumOf(here.doc) ? "done" : "open");

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const mark = here.doc.measurements?.benchmarks?.[0];
  if (!mark)
    return [
      el("p", { class: "question", text: "What stays, and can be found again?" }),
      words("What stays", STAYS, "", (kind) => put(here, kind)),
      el("p", { class: "quiet", text: `Its height is taken as ${metres(TAKEN_MM)} until a known level is given.` }),
    ];
  if (here.ui.giving)
    return [
      el("p", { class: "question", text: `Known level of ${mark.point}` }),
      padFor(/** @type {any} */ (here), `Level of ${mark.point}`, "Save level", async (level_mm) => {
        if (await setLevel(here, level_mm, `${mark.point} has a known level`)) here.set({ giving: false, typed: "" });
      }),
      button("Back", () => here.set({ giving: false, typed: "" })),
    ];
  return [
    el("p", { class: "question" }, `${mark.point} is at ${metres(mark.level_mm)}`, mark.assumed ? ", as taken." : "."),
    button("It has a known level", () => here.set({ giving: true, typed: "" })),
    (here.doc.measurements.level_books ?? []).length ? el("span") : button("Another point instead", () => away(here)),
  ];
}

/** @param {Walk} here @param {string} kind */
async function put(here, kind) {
  const point = nameFor(here.doc, NAMES[kind]),
    walls = (here.doc.site?.walls ?? []).filter((/** @type {any} */ one) => one.kind === "house");
  const kept = await here.change(`${point} is the datum`, (draft) => {
    const m = (draft.measurements ??= {});
    m.benchmarks = [{ point, level_mm: TAKEN_MM, assumed: true }];
    m.datum = `${point} taken as ${metres(TAKEN_MM)}`;
    // a datum on the damp-proof course of the only house wall gives that its level
    if (kind === "dpc" && walls.length === 1)
      for (const wall of draft.site.walls) if (wall.name === walls[0].name) wall.dpc_level_mm ??= point;
  });
  if (kept) here.next();
}

/** @param {Walk} here @param {number} level_mm @param {string} label */
const setLevel = (here, level_mm, label) =>
  here.change(label, (draft) => {
    const [mark] = draft.measurements.benchmarks;
    mark.level_mm = level_mm;
    mark.assumed = false;
    draft.measurements.datum = `${mark.point} at ${metres(level_mm)}, known`;
  });

/** @param {Walk} here */
const away = (here) =>
  here.change("No datum", (draft) => {
    const [mark] = draft.measurements.benchmarks;
    draft.measurements.benchmarks = [];
    for (const wall of draft.site?.walls ?? []) if (wall.dpc_level_mm === mark.point) wall.dpc_level_mm = null;
  });
