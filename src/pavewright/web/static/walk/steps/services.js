// @ts-check
/** Cables and pipes that are known of: where they run by touch, what they are, and how that is known. */
import { el } from "../../lib/dom.js";
import { ASKED } from "../../lib/walk-questions.js";
import { words } from "../../site/parts.js";
import { lengthPart } from "../figures.js";
import { pointsTaken } from "../places.js";
import { inSite, stateOf, thingPanel, thingSketch } from "../things.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "services",
  name = "Services",
  why = "What is not listed may still be there: scan, and dig by hand near it.",
  question = ASKED.services;

const KINDS = /** @type {[string, string][]} */ ([
  ["electricity", "Electricity"],
  ["gas", "Gas"],
  ["water", "Water"],
  ["drain", "Drain"],
  ["telecom", "Telephone"],
  ["oil", "Oil"],
  ["unknown", "Not known"],
]);
const KNOWN = ["seen in a hole", "scan on the visit", "record plan", "meter box or cover", "the owner says so"];

/** @type {import("../things.js").Kind} */
const SERVICE = {
  word: "cable or pipe",
  stem: "Service",
  place: "line",
  touch: "Touch where it runs, one place after another.",
  ...inSite("services"),
  add: (draft, { touches, kind }, named) => {
    const points = placedPoints(draft, touches, "Service point");
    ((draft.site ??= {}).services ??= []).push({ name: named, kind, points });
  },
  required: [
    {
      key: "kind",
      skip: null,
      ask: () => "What runs in it?",
      draw: (_here, _one, answer) => [words("Kind", KINDS, "", (kind) => answer((held) => (held.kind = kind)))],
    },
  ],
  questions: [
    {
      key: "known",
      skip: "Not known",
      ask: (one) => `How is ${one.name} known?`,
      when: (one) => !one.known_from,
      draw: (_here, _one, answer) => [
        words(
          "How known",
          KNOWN.map((each) => [each, each]),
          "",
          (value) => answer((mine) => (mine.known_from = value)),
        ),
      ],
    },
    {
      key: "depth",
      skip: "Depth not known",
      ask: (one) => `How deep is ${one.name}?`,
      when: (one) => one.depth_mm === undefined || one.depth_mm === null,
      draw: (here, _one, answer) => [
        ...lengthPart(here, {
          label: "Depth below the ground",
          usual: [450, 600, 750],
          onKeep: (mm) => answer((mine) => (mine.depth_mm = mm)),
        }),
        el("p", { class: "quiet", text: "A depth from records is a guess: hand-dig until it is seen." }),
      ],
    },
  ],
  told: (one) =>
    `${KINDS.find(([kind]) => kind === one.kind)?.[1] ?? one.kind}, ${one.known_from || "not known how"}, ${
      one.depth_mm === undefined || one.depth_mm === null ? "depth not known" : `${one.depth_mm} mm deep`
    }`,
};

/**
 * Points for touches: those that were meant, and new ones on the sketch.
 * @param {any} draft @param {{at: number[], point: string, sketch: number[]}[]} touches @param {string} stem
 */
export function placedPoints(draft, touches, stem) {
  return touches.map(({ at, point, sketch: by }) => {
    if (point) return point;
    const taken = pointsTaken(draft);
    let number = 1;
    while (taken.has(`${stem} ${number}`)) number += 1;
    const [x_mm, y_mm] = by ?? at;
    ((draft.measurements ??= {}).sketch ??= []).push({ name: `${stem} ${number}`, x_mm, y_mm });
    return `${stem} ${number}`;
  });
}

export const state = stateOf(SERVICE);
/** @param {Walk} here */
export const sketch = (here) => thingSketch(SERVICE, here);
/** @param {Walk} here */
export const draw = (here) => thingPanel(SERVICE, here);
