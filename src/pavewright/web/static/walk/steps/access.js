// @ts-check
/** The way in: how narrow, how far to carry, steps, and where a lorry can set down. */
import { el } from "../../lib/dom.js";
import { ASKED } from "../../lib/walk-questions.js";
import { words } from "../../site/parts.js";
import { lengthPart } from "../figures.js";
import { button } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "access",
  name = "Access",
  why = "How material gets in and spoil gets out.",
  question = ASKED.access;

const STEPS = ASKED.steps_in,
  DROP = ASKED.set_down;

/** @param {Walk} here @param {string} asked */
const said = (here, asked) =>
  (here.doc.site?.walk_round ?? []).find((/** @type {any} */ one) => one.question === asked && !one.topic);

/** @param {Walk} here */
const parts = (here) => [
  { key: "width", known: here.doc.site?.access_width_mm, draw: widthPart },
  { key: "carry", known: here.doc.site?.carry_mm, draw: carryPart },
  { key: "steps", known: said(here, STEPS), draw: stepsPart },
  { key: "drop", known: said(here, DROP), draw: dropPart },
];

/** @param {Walk} here */
export const state = (here) =>
  [here.doc.site?.access_width_mm, here.doc.site?.carry_mm].some((each) => each !== undefined && each !== null)
    ? "done"
    : "open";

/** What is asked next. @param {Walk} here */
function asked(here) {
  const skipped = new Set(here.ui.skipped ?? []);
  return parts(here).find((one) => (one.known === undefined || one.known === null) && !skipped.has(one.key));
}

/** The next question, or the next step where this was the last. @param {Walk} here */
const onward = (here) => (asked(here) ? here.redraw() : here.next());

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const now = asked(here);
  if (!now)
    return [
      el("p", { class: "question", text: "The way in" }),
      el("p", {
        text:
          `${mm(here.doc.site?.access_width_mm)} wide, ${mm(here.doc.site?.carry_mm)} to carry; ` +
          `steps: ${toldOf(said(here, STEPS))}; drop place: ${toldOf(said(here, DROP))}.`,
      }),
      button("Ask again", () =>
        here
          .change("Access asked again", (draft) => {
            delete draft.site.access_width_mm;
            delete draft.site.carry_mm;
            draft.site.walk_round = (draft.site.walk_round ?? []).filter(
              (/** @type {any} */ one) => one.topic || ![STEPS, DROP].includes(one.question),
            );
          })
          .then(() => here.set({ skipped: [] })),
      ),
    ];
  const skip = () => {
    here.set({ skipped: [...(here.ui.skipped ?? []), now.key], typed: "" });
    if (!asked(here)) here.next();
  };
  return [...now.draw(here), button("Not known", skip)];
}

/** @param {number|null|undefined} value */
const mm = (value) => (value === undefined || value === null ? "not known how" : `${value} mm`);
/** @param {any} one */
const toldOf = (one) => (one ? one.value || one.answer.replaceAll("_", " ") : "not known");

/** @param {Walk} here @param {string} field @param {number} value */
async function keep(here, field, value) {
  if (await here.change(`Access: ${value} mm`, (draft) => ((draft.site ??= {})[field] = value))) onward(here);
}

/** @param {Walk} here */
const widthPart = (here) => [
  el("p", { class: "question", text: "How wide is the narrowest place on the way in?" }),
  ...lengthPart(here, {
    label: "Narrowest place",
    usual: [700, 900, 1200, 2500],
    low_mm: 200,
    high_mm: 20_000,
    onKeep: (value) => keep(here, "access_width_mm", value),
  }),
];

/** @param {Walk} here */
const carryPart = (here) => [
  el("p", { class: "question", text: "How far is it from the lorry to the work?" }),
  ...lengthPart(here, {
    label: "Barrow run, one way",
    usual: [5000, 10_000, 20_000, 40_000],
    high_mm: 300_000,
    onKeep: (value) => keep(here, "carry_mm", value),
  }),
];

/** @param {Walk} here @param {string} asked @param {any} answer */
async function note(here, asked, answer) {
  const kept = await here.change(asked, (draft) => {
    ((draft.site ??= {}).walk_round ??= []).push({ question: asked, ...answer });
  });
  if (kept) onward(here);
}

/** @param {Walk} here */
const stepsPart = (here) => [
  el("p", { class: "question", text: STEPS }),
  words(
    "Steps",
    [
      ["", "None"],
      ["one to three steps", "One to three"],
      ["more than three steps", "More"],
    ],
    "-",
    (value) => note(here, STEPS, value ? { answer: "value", value } : { answer: "none" }),
  ),
];

/** @param {Walk} here */
const dropPart = (here) => [
  el("p", { class: "question", text: DROP }),
  words(
    "Drop place",
    [
      ["on the drive", "On the drive"],
      ["on the road, at the kerb: a permit may be needed", "On the road"],
      ["", "Nowhere near"],
    ],
    "-",
    (value) => note(here, DROP, value ? { answer: "value", value } : { answer: "none" }),
  ),
];
