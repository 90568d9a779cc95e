// @ts-check
/** Chamber covers: their place, their size, whether they may move, and how high they lie. */
import { words } from "../../site/parts.js";
import { ASKED } from "../../lib/walk-questions.js";
import { chips, lengthPart } from "../figures.js";
import { levelPart } from "../level-part.js";
import { inSite, stateOf, thingPanel, thingSketch } from "../things.js";
import { levelWords } from "./doors.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "covers",
  name = "Covers",
  why = "A chamber has to stay open, and the paving meets its lid.",
  question = ASKED.covers;

const SIZES = [
  [450, 450],
  [600, 450],
  [600, 600],
  [750, 600],
];

/** @type {import("../things.js").Kind} */
const COVER = {
  word: "cover",
  stem: "Cover",
  place: "point",
  touch: "Touch the middle of the cover.",
  ...inSite("covers"),
  add: (draft, { point, length_mm, width_mm, fixed }, named) => {
    ((draft.site ??= {}).covers ??= []).push({ name: named, point, length_mm, width_mm, fixed, level_mm: null });
  },
  required: [
    {
      key: "length",
      skip: null,
      ask: () => "How large is it, over the frame?",
      draw: (here, _one, answer) => [
        chips(
          "Usual sizes",
          SIZES.map(([length_mm, width_mm]) => [
            `${length_mm} × ${width_mm}`,
            () => answer((held) => Object.assign(held, { length_mm, width_mm })),
          ]),
        ),
        ...lengthPart(here, {
          label: "Long side of the cover",
          low_mm: 100,
          high_mm: 2000,
          onKeep: (mm) => answer((held) => (held.length_mm = mm)),
        }),
      ],
    },
    {
      key: "width",
      skip: null,
      ask: () => "And its short side?",
      when: (one) => one.width_mm === undefined,
      draw: (here, _one, answer) =>
        lengthPart(here, {
          label: "Short side of the cover",
          low_mm: 100,
          high_mm: 2000,
          onKeep: (mm) => answer((held) => (held.width_mm = mm)),
        }),
    },
    {
      key: "fixed",
      skip: null,
      ask: () => "May its frame be raised or lowered?",
      draw: (_here, _one, answer) => [
        words(
          "May it move",
          [
            ["fixed", "It stays as it is"],
            ["moves", "It may be reset"],
          ],
          "",
          (value) => answer((held) => (held.fixed = value === "fixed")),
        ),
      ],
    },
  ],
  questions: [
    {
      key: "level",
      when: (one) => one.level_mm === null || one.level_mm === undefined,
      draw: (here, one, answer) =>
        levelPart(here, {
          point: one.point,
          on: "cover",
          what: one.name,
          put: (draft, value) => {
            draft.site.covers.find((/** @type {any} */ each) => each.name === one.name).level_mm = value;
          },
          after: () => answer(null),
        }),
    },
  ],
  told: (one, doc) =>
    `${one.length_mm} × ${one.width_mm} mm, ${one.fixed ? "stays" : "may be reset"}, ${levelWords(one.level_mm, doc)}`,
};

export const state = stateOf(COVER);
/** @param {Walk} here */
export const sketch = (here) => thingSketch(COVER, here);
/** @param {Walk} here */
export const draw = (here) => thingPanel(COVER, here);
