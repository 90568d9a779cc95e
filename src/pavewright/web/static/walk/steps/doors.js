// @ts-check
/** Doors and low windows: where in the wall, how wide, and how high their sill lies. */
import { level } from "../../lib/words.js";
import { ASKED } from "../../lib/walk-questions.js";
import { lengthPart } from "../figures.js";
import { levelPart, levelsOf } from "../level-part.js";
import { nameFor } from "../placing.js";
import { inside } from "../walls-seen.js";
import { inWalls, stateOf, thingPanel, thingSketch } from "../things.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "doors",
  name = "Doors",
  why = "The step down from a sill, and rain that must not run in.",
  question = ASKED.doors;

const WIDTHS = [800, 900, 1200, 1800, 2400];

/** @type {import("../things.js").Kind} */
const DOOR = {
  word: "door",
  stem: "Door",
  place: "wall",
  touch: "Touch the wall where the door is.",
  ...inWalls("openings"),
  add: (draft, { wall, along_mm, width_mm }, named) => {
    const mine = draft.site.walls.find((/** @type {any} */ one) => one.name === wall);
    (mine.openings ??= []).push({ name: named, along_mm, width_mm, threshold_level_mm: null });
  },
  required: [
    {
      key: "along",
      skip: null,
      ask: (one, here) => `From ${startOf(here, one.wall)} to the near side of the door`,
      draw: (here, one, answer) =>
        lengthPart(here, {
          label: `From ${startOf(here, one.wall)} to the door, touched at about ${one.touched_mm} mm`,
          onKeep: (mm) => {
            if (inside(here, one.wall, mm)) return answer((held) => (held.along_mm = mm));
            here.redraw();
          },
        }),
    },
    {
      key: "width",
      skip: null,
      ask: () => "How wide is it between the jambs?",
      draw: (here, one, answer) =>
        lengthPart(here, {
          label: "Width of the door",
          usual: WIDTHS,
          low_mm: 300,
          high_mm: 8000,
          onKeep: (mm) => {
            if (inside(here, one.wall, one.along_mm + mm)) return answer((held) => (held.width_mm = mm));
            here.set({ q: 0 }); // where it begins is asked again
          },
        }),
    },
  ],
  questions: [
    {
      key: "sill",
      when: (one) => one.threshold_level_mm === null || one.threshold_level_mm === undefined,
      draw: (here, one, answer) =>
        levelPart(here, {
          point: nameFor(here.doc, `${one.name} sill`),
          on: "threshold",
          what: `the sill of ${one.name}`,
          put: (draft, value) => {
            for (const wall of draft.site.walls)
              for (const each of wall.openings ?? []) if (each.name === one.name) each.threshold_level_mm = value;
          },
          after: () => answer(null),
        }),
    },
  ],
  told: (one, doc) => `${one.width_mm} mm wide, sill ${levelWords(one.threshold_level_mm, doc)}`,
};

/** @param {Walk} here @param {string} wall */
const startOf = (here, wall) =>
  (here.doc.site?.walls ?? []).find((/** @type {any} */ one) => one.name === wall)?.start ?? "the corner";

/** A level of the document in words. @param {any} value @param {any} doc */
export function levelWords(value, doc) {
  if (value === null || value === undefined) return "not read";
  if (typeof value === "object") return `${level(value.assumed_mm)}, assumed`;
  const at = typeof value === "number" ? value : levelsOf(doc).get(value);
  return at === undefined ? String(value) : level(at);
}

export const state = stateOf(DOOR);
/** @param {Walk} here */
export const sketch = (here) => thingSketch(DOOR, here);
/** @param {Walk} here */
export const draw = (here) => thingPanel(DOOR, here);
