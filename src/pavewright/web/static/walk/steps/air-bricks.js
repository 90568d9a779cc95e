// @ts-check
/** Air bricks: the paving stays below them, so that the floor can breathe. */
import { lengthPart } from "../figures.js";
import { ASKED } from "../../lib/walk-questions.js";
import { levelPart } from "../level-part.js";
import { nameFor } from "../placing.js";
import { inside } from "../walls-seen.js";
import { inWalls, stateOf, thingPanel, thingSketch } from "../things.js";
import { levelWords } from "./doors.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "air_bricks",
  name = "Air bricks",
  why = "The paving stays below them, so that the floor can breathe.",
  question = ASKED.air_bricks;

/** @type {import("../things.js").Kind} */
const BRICK = {
  word: "air brick",
  stem: "Air brick",
  place: "wall",
  touch: "Touch the wall where the air brick is.",
  ...inWalls("air_bricks"),
  add: (draft, { wall, along_mm }, named) => {
    const mine = draft.site.walls.find((/** @type {any} */ one) => one.name === wall);
    (mine.air_bricks ??= []).push({ name: named, along_mm, underside_level_mm: null });
  },
  required: [
    {
      key: "along",
      skip: null,
      ask: (one, here) => `From ${startOf(here, one.wall)} to the middle of the air brick`,
      draw: (here, one, answer) =>
        lengthPart(here, {
          label: `To the air brick, touched at about ${one.touched_mm} mm`,
          onKeep: (mm) => {
            if (inside(here, one.wall, mm)) return answer((held) => (held.along_mm = mm));
            here.redraw();
          },
        }),
    },
  ],
  questions: [
    {
      key: "underside",
      when: (one) => one.underside_level_mm === null || one.underside_level_mm === undefined,
      draw: (here, one, answer) =>
        levelPart(here, {
          point: nameFor(here.doc, `${one.name} underside`),
          on: "air_brick",
          what: `the underside of ${one.name}`,
          put: (draft, value) => {
            for (const wall of draft.site.walls)
              for (const each of wall.air_bricks ?? []) if (each.name === one.name) each.underside_level_mm = value;
          },
          after: () => answer(null),
        }),
    },
  ],
  told: (one, doc) => `underside ${levelWords(one.underside_level_mm, doc)}`,
};

/** @param {Walk} here @param {string} wall */
const startOf = (here, wall) =>
  (here.doc.site?.walls ?? []).find((/** @type {any} */ one) => one.name === wall)?.start ?? "the corner";

export const state = stateOf(BRICK);
/** @param {Walk} here */
export const sketch = (here) => thingSketch(BRICK, here);
/** @param {Walk} here */
export const draw = (here) => thingPanel(BRICK, here);
