// @ts-check
/** What is written down of finished paving beside its levels: edges, steps, joints, water, snags, later visits. */
import { el } from "../../lib/dom.js";
import { following } from "../form/following.js";
import { group, items } from "../form/form.js";
import { plain } from "../../lib/words.js";

const today = () => new Date().toISOString().slice(0, 10);
/** @param {any} doc */
const area = (doc) => doc.areas?.[0]?.name ?? "";
/** A name that no other of the list has. @param {string} letter @param {any[]|undefined} list */
function free(letter, list) {
  const had = new Set((list ?? []).map((one) => one.name));
  for (let number = 1; ; number += 1) if (!had.has(`${letter}${number}`)) return `${letter}${number}`;
}
/** @param {any} value */
const tenth = (value) => (typeof value === "number" ? `${plain(value, 1)} mm` : "not read");

/** @param {JobState} state @returns {Node[]} */
export const laidInputs = (state) => [byHand(state), water(state), snags(state)];

/** @param {JobState} state */
const byHand = (state) =>
  group("Edges, steps, joints and later visits", [
    following(
      state,
      (doc) => Boolean(doc.as_laid),
      () =>
        state.doc.as_laid
          ? [
              items(state, ["as_laid", "gaps"], {
                names: { "": "Gaps under a straight edge" },
                add: "gap",
                start: (/** @type {any} */ doc) => ({
                  name: free("G", doc.as_laid?.gaps),
                  area: area(doc),
                  edge_mm: 3000,
                }),
                row: (one) => `${one.name}: ${tenth(one.gap_mm)} under ${plain((one.edge_mm ?? 0) / 1000, 1)} m`,
              }),
              items(state, ["as_laid", "lips"], {
                names: { "": "Steps between units" },
                add: "step",
                start: (/** @type {any} */ doc) => ({ name: free("S", doc.as_laid?.lips), area: area(doc) }),
                row: (one) => `${one.name}: ${tenth(one.lip_mm)}`,
              }),
              items(state, ["as_laid", "joints"], {
                names: { "": "Joints" },
                add: "joint",
                start: (/** @type {any} */ doc) => ({ name: free("J", doc.as_laid?.joints), area: area(doc) }),
                row: (one) => `${one.name}: ${tenth(one.width_mm)}`,
              }),
              items(state, ["as_laid", "marks"], {
                names: { "": "Fixed marks" },
                add: "fixed mark",
                start: (/** @type {any} */ doc) => ({ name: free("M", doc.as_laid?.marks) }),
                row: (one) => one.name ?? "",
              }),
              items(state, ["as_laid", "later_visits"], {
                names: { "": "Later visits" },
                add: "later visit",
                start: (/** @type {any} */ doc) => ({
                  date: today(),
                  marks: (doc.as_laid?.marks ?? []).map((/** @type {any} */ one) => ({ name: one.name })),
                  read_again: (doc.as_laid?.readings ?? [])
                    .filter((/** @type {any} */ one) => one.label)
                    .map((/** @type {any} */ one) => ({ label: one.label })),
                }),
                row: (one) => `${one.date}`,
              }),
            ]
          : [el("p", { class: "quiet", text: "Begin the check first." })],
    ),
  ]);

/** @param {JobState} state */
const water = (state) =>
  group("Hose tests and gratings", [
    items(state, ["hose_tests"], {
      names: { "": "Hose tests" },
      add: "hose test",
      start: (/** @type {any} */ doc) => ({
        name: free("H", doc.hose_tests),
        area: area(doc),
        date: today(),
        after_min: 30,
      }),
      row: (one) => `${one.name}, ${one.area}: ${one.marks?.length ?? 0} places`,
    }),
    items(state, ["drain_marks"], {
      names: { "": "Paving above gratings" },
      add: "mark at a drain",
      start: (/** @type {any} */ doc) => ({
        name: free("D", doc.drain_marks),
        drain: doc.site?.channels?.[0]?.name ?? doc.site?.gullies?.[0]?.name ?? "",
        date: today(),
      }),
      row: (one) => `${one.name}, ${one.drain}: ${tenth(one.above_mm)}`,
    }),
  ]);

/** @param {JobState} state */
const snags = (state) =>
  group("Snags", [
    items(state, ["snags"], {
      names: { "": "Snags" },
      add: "snag",
      start: (/** @type {any} */ doc) => ({
        name: free("S", doc.snags),
        kind: "other",
        area: area(doc),
        found_on: today(),
      }),
      row: (one) => `${one.name}: ${one.what || String(one.kind ?? "").replaceAll("_", " ")}`,
    }),
  ]);
