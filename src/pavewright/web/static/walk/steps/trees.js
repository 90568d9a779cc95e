// @ts-check
/** Trees: their roots and whether anybody may touch them. */
import { words } from "../../site/parts.js";
import { ASKED } from "../../lib/walk-questions.js";
import { lengthPart } from "../figures.js";
import { inSite, stateOf, thingPanel, thingSketch } from "../things.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "trees",
  name = "Trees",
  why = "Roots are not cut without asking, and some trees are protected.",
  question = ASKED.trees;

/** @type {import("../things.js").Kind} */
const TREE = {
  word: "tree",
  stem: "Tree",
  place: "point",
  touch: "Touch where the tree stands, also over the fence.",
  ...inSite("trees"),
  add: (draft, { point, stem_diameter_mm }, named) => {
    ((draft.site ??= {}).trees ??= []).push({ name: named, point, stem_diameter_mm });
  },
  required: [
    {
      key: "stem",
      skip: null,
      ask: () => "Tape round the stem, at breast height",
      draw: (here, _one, answer) =>
        lengthPart(here, {
          label: "Round the stem",
          usual: [300, 600, 900, 1500],
          low_mm: 30,
          high_mm: 12_000,
          onKeep: (mm) => answer((held) => (held.stem_diameter_mm = Math.round(mm / Math.PI))),
        }),
    },
  ],
  questions: [
    {
      key: "protected",
      skip: "Not known",
      ask: (one) => `Is ${one.name} protected: an order, or a conservation area?`,
      when: (one) => one.protected === undefined || one.protected === null,
      draw: (_here, _one, answer) => [
        words(
          "Protected",
          [
            ["yes", "Yes"],
            ["no", "No, the council was asked"],
          ],
          "",
          (value) => answer((mine) => (mine.protected = value === "yes")),
        ),
      ],
    },
  ],
  told: (one) =>
    `stem ${one.stem_diameter_mm} mm through, ${
      one.protected === true ? "protected" : one.protected === false ? "not protected" : "protection not known"
    }`,
};

export const state = stateOf(TREE);
/** @param {Walk} here */
export const sketch = (here) => thingSketch(TREE, here);
/** @param {Walk} here */
export const draw = (here) => thingPanel(TREE, here);
