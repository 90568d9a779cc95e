// @ts-check
/** Figures that look like another unit, and slips of a tape or a staff: asked at once, before he leaves the spot. */
import { el } from "../lib/dom.js";
import { plain } from "../lib/words.js";
import { padFor } from "../site/parts.js";
import { button } from "./parts.js";

/** @typedef {import("./frame.js").Walk} Walk */
/**
 * @typedef {{low_mm: number, high_mm: number, expected_mm?: number|null, odd?: (value_mm: number) => number[]}}
 *   Bounds what a figure may be, and what it should be about; `odd` has a mind of its own
 */

const CM = 10,
  M = 1000,
  ALIKE = 2; // a figure within this many times what is expected is believed

/**
 * What a figure may mean when it is no likely length in millimetres; empty where it is.
 * @param {number} value_mm
 * @param {Bounds} bounds
 * @returns {number[]} what it was typed as first, then other readings of it, in millimetres
 */
export function meanings(value_mm, { low_mm, high_mm, expected_mm }) {
  const likely = (/** @type {number} */ each) =>
    each >= low_mm && each <= high_mm && (!expected_mm || (each < expected_mm * ALIKE && each > expected_mm / ALIKE));
  if (likely(value_mm)) return [];
  const others = [value_mm * CM, value_mm * M, value_mm / CM].filter(likely);
  const possible = value_mm >= low_mm && value_mm <= high_mm;
  return others.length || !possible ? [value_mm, ...others] : [];
}

/**
 * A pad that asks when the figure looks like centimetres or metres.
 * @param {Walk} here
 * @param {{
 *   label: string, keep: string, bounds: Bounds, typing?: () => void,
 *   onKeep: (value_mm: number) => void|Promise<void>
 * }} wish
 * @returns {Node[]}
 */
export function askingPad(here, wish) {
  const { doubt } = here.ui;
  const taken = async (/** @type {number} */ value_mm) => {
    Object.assign(here.ui, { doubt: null, typed: "" });
    await wish.onKeep(value_mm);
  };
  if (doubt?.label === wish.label)
    return [
      el("p", { class: "ask", role: "alert", text: `${plain(doubt.all[0])}: which is it?` }),
      ...doubt.all
        .toSorted((/** @type {number} */ a, /** @type {number} */ b) => b - a)
        .map((/** @type {number} */ each) => button(face(each, doubt.all[0]), () => taken(each))),
      button("Read it again", () => here.set({ doubt: null, typed: "" })),
    ];
  return [
    padFor(
      /** @type {any} */ (here),
      wish.label,
      wish.keep,
      (value_mm) => {
        const all = wish.bounds.odd?.(value_mm) ?? meanings(value_mm, wish.bounds);
        if (all.length) return here.set({ doubt: { label: wish.label, all } });
        return taken(value_mm);
      },
      true,
      wish.typing,
    ),
  ];
}

/** @param {number} value_mm @param {number} typed */
function face(value_mm, typed) {
  const whole = `${plain(value_mm, Number.isInteger(value_mm) ? 0 : 1)} mm`;
  if (value_mm === typed) return whole;
  if (value_mm === typed * CM) return `${plain(typed)} cm = ${whole}`;
  if (value_mm === typed * M) return `${plain(typed)} m = ${whole}`;
  return whole;
}
