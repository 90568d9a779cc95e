// @ts-check
/** Curved sides: how far the edge stands off a string from corner to corner. */
import { el } from "../../lib/dom.js";
import { mm } from "../../lib/words.js";
import { askingPad } from "../asking.js";
import { oneArc } from "../../lib/shape/curves.js";
import { ASKED } from "../../lib/walk-questions.js";
import { doubled, sidesOf } from "../places.js";
import { nameFor } from "../placing.js";
import { button } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */
/**
 * @typedef {{from: string, to: string, out: number, corner: any}} Curve a side with an arc; `out` is 1 where
 *   left of it is outside
 */

export const key = "curves",
  name = "Curves",
  why = "A string from corner to corner; how far the edge stands off it.",
  question = ASKED.curves,
  /** @type {("none"|"could_not_see")[]} */ answers = ["could_not_see"];

const MIDDLE = 2, // the half first: it alone makes an arc of a circle
  ROUND_MM = 10, // offsets as near as this to one arc are of a circle
  QUARTERS = [MIDDLE, 1, 3];

/** Sides that are bent on the sketch or measured as curves, each once. @param {Walk} here @returns {Curve[]} */
function curves(here) {
  return sidesOf(here.doc).flatMap((side) => {
    const corner = here.doc.areas[side.area].outline[side.index];
    return corner.rise_mm ? [{ from: side.from, to: side.to, out: outside(here, side.area), corner }] : [];
  });
}

/** Whether the left of a side lies outside of its area. @param {Walk} here @param {number} area */
function outside(here, area) {
  const ring = here.doc.areas[area].outline.map((/** @type {any} */ one) => here.places.at.get(one.point) ?? [0, 0]);
  return doubled(ring) < 0 ? 1 : -1;
}

/** Sides whose curve was measured. @param {Walk} here */
const measured = (here) => sidesOf(here.doc).filter((side) => here.doc.areas[side.area].outline[side.index].through);

/** @param {Walk} here */
export function state(here) {
  if (curves(here).length) return "open";
  return measured(here).length ? "done" : "none";
}

/** @param {Walk} here */
const chord = (here, /** @type {{from: string, to: string}} */ { from, to }) => {
  const [a, b] = [here.places.at.get(from), here.places.at.get(to)];
  return a && b ? Math.hypot(b[0] - a[0], b[1] - a[1]) : 0;
};

/** @param {Walk} here @returns {import("../frame.js").SketchWish} */
export function sketch(here) {
  const [curve] = curves(here);
  if (!curve) return {};
  const [a, b] = [here.places.at.get(curve.from), here.places.at.get(curve.to)],
    share = QUARTERS[(here.ui.read ?? []).length] / 4;
  return {
    line: [curve.from, curve.to],
    marks: a && b ? [{ at: [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share], words: "" }] : [],
  };
}

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const [curve] = curves(here);
  if (!curve)
    return [
      el("p", {
        class: "question",
        text: measured(here).length ? "Every curve is measured." : "Every side is straight.",
      }),
      el("p", { class: "quiet", text: "A side is bent in the step Shape: touch it there." }),
    ];
  const long = chord(here, curve),
    read = here.ui.read ?? [],
    along_mm = Math.round((long * QUARTERS[read.length]) / 4);
  const words =
    `String from ${curve.from} to ${curve.to}. At ${mm(along_mm)} from ${curve.from}: ` + "how far is the edge off it?";
  return [
    el("p", { class: "question", text: words }),
    ...askingPad(here, {
      label: words,
      keep: "Save offset",
      bounds: { low_mm: 0, high_mm: 20_000, expected_mm: null },
      onKeep: async (offset_mm) => {
        const all = [...read, { along_mm, offset_mm }];
        if (all.length < QUARTERS.length) return here.set({ read: all });
        return put(here, curve, all);
      },
    }),
    read.length ? button("It is part of a circle: enough", () => put(here, curve, read.slice(0, 1))) : el("span"),
  ];
}

/**
 * Points of the curve, measured from its chord: those of a circle make one arc, others two
 * arcs that meet in the middle.
 * @param {Walk} here @param {Curve} curve @param {{along_mm: number, offset_mm: number}[]} read
 */
async function put(here, curve, read) {
  const arc = oneArc(chord(here, curve), read),
    round = arc.off_mm.every((off) => Math.abs(off) <= ROUND_MM),
    bent = curve.corner.rise_mm > 0 ? 1 : -1,
    names = /** @type {string[]} */ ([]),
    ordered = read.toSorted((one, other) => one.along_mm - other.along_mm);
  const kept = await here.change(`Curve ${curve.from} to ${curve.to}`, (draft) => {
    const m = draft.measurements;
    for (const one of ordered) {
      const point = nameFor(draft, `${curve.from}${curve.to}`);
      names.push(point);
      (m.offsets ??= []).push({
        name: point,
        line_from: curve.from,
        line_to: curve.to,
        along_mm: one.along_mm,
        offset_mm: bent * curve.out * one.offset_mm,
      });
    }
    for (const area of draft.areas) {
      const at = area.outline.findIndex((/** @type {any} */ one) => one.point === curve.from);
      if (at < 0) continue;
      const corner = area.outline[at];
      delete corner.rise_mm;
      corner.through = names[round ? Math.floor(names.length / 2) : 0];
      if (!round) area.outline.splice(at + 1, 0, { point: names[1], through: names[2] });
    }
  });
  if (kept) here.set({ read: [] });
}
