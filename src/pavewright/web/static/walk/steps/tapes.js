// @ts-check
/**
 * Tapes: the tool asks for the one that helps most; the shape follows, and a slip is named before he leaves the
 *   spot.
 */
import { el } from "../../lib/dom.js";
import { words } from "../../site/parts.js";
import { mm, plain } from "../../lib/words.js";
import { ASKED } from "../../lib/walk-questions.js";
import { tapePad } from "../taping.js";
import { fixed, nameFor } from "../placing.js";
import { button } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */
/** @typedef {import("../../lib/shape/told.js").ShapeSlip} Slip */

export const key = "tapes",
  name = "Tapes",
  why = "Tapes give the shape its size. One more than is needed shows a slip.",
  question = ASKED.tapes,
  /** @type {("none"|"could_not_see")[]} */ answers = [];

/** @param {Walk} here @returns {any[]} */
const tapes = (here) => here.doc.measurements?.tape_plan?.tapes ?? [];

/** Slips that nobody has looked at twice. @param {Walk} here @returns {Slip[]} */
const slips = (here) => here.places.shape.slips.filter((slip) => !looked(here).includes(mark(slip)));

/** @param {Walk} here @returns {string[]} */
const looked = (here) => here.ui.looked ?? [];

/** @param {Slip} slip */
const mark = (slip) => `${slip.start} ${slip.end} ${slip.measured_mm}`;

/** @param {Walk} here */
export function state(here) {
  const { shape } = here.places;
  return tapes(here).length && fixed(here) && shape.spare > 0 && !shape.slips.some((slip) => slip.kind !== "look_again")
    ? "done"
    : "open";
}

/** Between which points is taped next. @param {Walk} here @returns {[string, string]|null} */
function asked(here) {
  const { own, again } = here.ui;
  if (own?.length === 2) return own;
  if (again) return again;
  const { next } = here.places.shape;
  return next ? [next.start, next.end] : null;
}

/** @param {Walk} here @returns {import("../frame.js").SketchWish} */
export function sketch(here) {
  const { own } = here.ui,
    [slip] = slips(here);
  if (own && own.length < 2)
    return {
      point: own[0],
      wide: true,
      hint: own.length ? `From ${own[0]}: touch where the tape ends.` : "Touch where the tape begins.",
      pick: async (at, near) => {
        const point = near?.kind === "point" ? near.name : await fresh(here, at);
        if (point && point !== own[0]) here.set({ own: [...own, point], typed: "" });
      },
    };
  return {
    line: slip && !here.ui.again && !here.ui.tells ? [slip.start, slip.end] : asked(here),
    pick: (_at, near) => near?.kind === "point" && here.set({ own: [near.name], typed: "", again: null }),
  };
}

/** A new point of the sketch, where the open ground was touched. @param {Walk} here @param {number[]} at */
async function fresh(here, at) {
  const point = nameFor(here.doc, "P"),
    [x_mm, y_mm] = here.places.toSketch(at).map(Math.round);
  const kept = await here.change(`${point} on the sketch`, (draft) => {
    ((draft.measurements ??= {}).sketch ??= []).push({ name: point, x_mm, y_mm });
  });
  return kept ? point : "";
}

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const [slip] = slips(here),
    { own, again } = here.ui;
  if (!here.places.at.size)
    return [
      el("p", { class: "ask", text: "There is no shape yet." }),
      button("Draw the shape", () => here.go("shape"), { class: "main tall" }),
    ];
  if (slip && !again && !here.ui.tells) return slipPanel(here, slip);
  if (own && own.length < 2)
    return [
      el("p", { class: "question", text: own.length ? `From ${own[0]} to which point?` : "Between which two points?" }),
      el("p", { class: "quiet", text: "Open ground makes a new point." }),
    ];
  const ends = asked(here);
  if (!ends)
    return [
      el("p", { class: "question", text: "The shape is fixed and checked." }),
      el("p", { class: "quiet", text: counted(here) }),
    ];
  return tapePad(here, ends[0], ends[1], {
    words: `Tape ${ends[0]} to ${ends[1]}${again ? ", again" : ""}`,
    count: counted(here),
    after: () => here.set({ own: null, again: null, tells: false, typed: "" }),
  });
}

/** @param {Walk} here */
function counted(here) {
  const { shape } = here.places,
    done = tapes(here).length;
  if (!done) return "the base line";
  if (!fixed(here)) return `${done} taped, ${shape.missing} to go`;
  return shape.spare > 0 ? `${done} taped, ${shape.spare} to spare` : `${done} taped, 1 to check`;
}

/** Tapes that nobody asked for. @param {Walk} here @returns {Node[]} */
export const foot = (here) =>
  here.ui.own
    ? [button("Not this tape", () => here.set({ own: null, tells: false, typed: "" }), { class: "" })]
    : [button("Own tape", () => here.set({ own: [], typed: "" }), { class: "" })];

// ---- a slip

const REASONS = /** @type {Record<string, (point: string|null) => string>} */ ({
  metre: () => "A whole metre may have been misread.",
  hook: () => "The tape may have been held at 100 mm.",
  digits: () => "Two figures may have changed places.",
  upside_down: () => "A 6 may have been read as a 9.",
  wrong_way: () => "It may have been counted back from a metre mark.",
  unit: () => "It looks like another unit.",
  other_point: (point) => `It may have run to ${point}.`,
});

/** @param {Walk} here @param {Slip} slip @returns {Node[]} */
function slipPanel(here, slip) {
  const { next } = here.places.shape,
    tells = slip.kind === "one_of" && (next?.gain === "check" || next?.gain === "place") ? next : null,
    should = slip.should_mm === null ? null : Math.round(slip.should_mm);
  return [
    el(
      "div",
      { class: `finding ${slip.kind === "look_again" ? "check" : "stop"}`, role: "alert" },
      el("p", {}, el("b", { text: slipWords(slip, should, tells) })),
      slip.reason ? el("p", { text: REASONS[slip.reason.kind]?.(slip.reason.point) ?? "" }) : null,
    ),
    tells
      ? button(
          `Tape ${tells.start} to ${tells.end}: it tells`,
          () => here.set({ own: [tells.start, tells.end], tells: true, typed: "" }),
          { class: "main pad-keep" },
        )
      : el("span"),
    ...(slip.kind === "side"
      ? sideChips(here, slip)
      : slip.kind === "one_of" || slip.kind === "no_meeting"
        ? [chips(here, slip)]
        : [button("Read it again", () => again(here, slip), { class: "main pad-keep" })]),
    button("Keep it, I looked twice", () => here.set({ looked: [...looked(here), mark(slip)] })),
  ];
}

/**
 * Those among which the slip is: what a usual slip explains first, else the one that was taped last.
 * @param {Walk} here
 * @param {Slip} slip
 */
function chips(here, slip) {
  const order = (/** @type {{start: string, end: string}} */ one) =>
      tapes(here).findLastIndex((each) => each.start === one.start && each.end === one.end),
    all = slip.among.some((one) => one.reason)
      ? slip.among
      : slip.among.toSorted((one, other) => order(other) - order(one));
  return el(
    "div",
    { class: "words", role: "group", "aria-label": "Read again" },
    ...all.map((one) =>
      button(`${one.start} to ${one.end}${one.should_mm ? `: ${plain(one.should_mm)}?` : ""}`, () => again(here, one), {
        class: "",
        "aria-label": `Read ${one.start} to ${one.end} again`,
      }),
    ),
  );
}

/** On which side a point lies, said by the man who sees it. @param {Walk} here @param {Slip} slip @returns {Node[]} */
const sideChips = (here, slip) => [
  el("p", { text: `Looking from ${slip.start} to ${slip.end}, ${slip.point} lies` }),
  words(
    "Side",
    [
      ["left", "to the left"],
      ["right", "to the right"],
    ],
    "",
    (side) =>
      here.change(`${slip.point} ${side} of ${slip.start}–${slip.end}`, (draft) => {
        const plan = draft.measurements.tape_plan;
        plan.sides = [
          ...(plan.sides ?? []).filter((/** @type {any} */ one) => one.point !== slip.point),
          { point: slip.point, line_from: slip.start, line_to: slip.end, side },
        ];
      }),
  ),
];

/** @param {Slip} slip @param {number|null} should @param {any} tells a tape that tells them apart */
function slipWords(slip, should, tells) {
  if (slip.kind === "no_meeting")
    return `${slip.among.map((one) => `${one.start} to ${one.end}`).join(", ")} cannot meet: one of them is wrong.`;
  if (slip.kind === "side") return `${slip.point} may lie on the other side of ${slip.start} to ${slip.end}.`;
  if (slip.kind === "one_of")
    return (
      "One of these tapes is wrong, and they cannot yet be told apart. " +
      (tells ? "One more tape tells which." : "Read the last one again first.")
    );
  const ends = `${slip.start} to ${slip.end}`,
    read = should === null ? "" : `: ${mm(slip.measured_mm)} was read, `;
  return slip.kind === "slip"
    ? `${ends} does not fit${read ? `${read}the others say ${plain(should ?? 0)}` : ""}.`
    : `${ends} does not look like the sketch${read ? `${read}the sketch says about ${plain(should ?? 0)}` : ""}.`;
}

/** The tape goes and is asked again. @param {Walk} here @param {{start: string, end: string}} one */
async function again(here, { start, end }) {
  const kept = await here.change(`Tape ${start} to ${end} read again`, (draft) => {
    const plan = draft.measurements.tape_plan,
      at = plan.tapes.findLastIndex(
        (/** @type {any} */ each) =>
          (each.start === start && each.end === end) || (each.start === end && each.end === start),
      );
    if (at >= 0) plan.tapes.splice(at, 1);
    if (!plan.tapes.length) draft.measurements.tape_plan = null;
  });
  if (kept) here.set({ again: [start, end], typed: "" });
}
