// @ts-check
/** Figures that are no lengths: money, percent, a count; and choices that one touch answers. */
import { el } from "../lib/dom.js";
import { askingPad } from "./asking.js";

/** @typedef {import("./frame.js").Walk} Walk */

const KEYS = ["1", "2", "3", "⌫", "4", "5", "6", ".", "7", "8", "9", "0"];

/** @param {string} typed @param {number} places */
function figure(typed, places) {
  const [whole, part = "", more] = typed.split(".");
  if (more !== undefined || !/^\d{1,9}$/.test(whole) || !/^\d*$/.test(part) || part.length > places) return null;
  return Number(typed);
}

/**
 * A pad for a figure with its unit: no guess at another unit.
 * @param {Walk} here
 * @param {{label: string, keep: string, unit: string, low?: number, high?: number, whole?: boolean,
 *   places?: number,
 *   onKeep: (value: number) => void}} wish
 */
export function figurePad(here, wish) {
  const value = () => {
    const typed = figure(here.ui.typed ?? "", wish.places ?? 2);
    return typed === null ||
      typed < (wish.low ?? 0) ||
      typed > (wish.high ?? Infinity) ||
      (wish.whole && !Number.isInteger(typed))
      ? null
      : typed;
  };
  const shown = el("input", {
      class: "pad-shown",
      type: "text",
      inputmode: "none",
      autocomplete: "off",
      "aria-label": wish.label,
      value: here.ui.typed ?? "",
    }),
    keep = el("button", { type: "button", class: "main pad-keep", text: wish.keep });
  const put = (/** @type {string} */ next) => {
    here.ui.typed = next.slice(0, 10);
    shown.value = here.ui.typed;
    here.remember();
    keep.disabled = value() === null;
  };
  const done = () => {
    const now = value();
    if (now === null) return;
    here.ui.typed = "";
    wish.onKeep(now);
  };
  shown.addEventListener("input", () => put(shown.value));
  shown.addEventListener("keydown", (event) => {
    if (event.key === "Enter") done();
  });
  keep.addEventListener("click", done);
  const keys = KEYS.map((face) =>
    el("button", {
      type: "button",
      text: face,
      "aria-label": face === "⌫" ? "Delete the last figure" : face === "." ? "point" : face,
      on: { click: () => put(face === "⌫" ? (here.ui.typed ?? "").slice(0, -1) : (here.ui.typed ?? "") + face) },
    }),
  );
  keep.disabled = value() === null;
  return el(
    "div",
    { class: "pad" },
    el("div", { class: "pad-line" }, shown, el("span", { class: "pad-told", text: wish.unit })),
    el("div", { class: "pad-keys" }, ...keys),
    keep,
  );
}

/** Answers that one touch gives. @param {string} label @param {[string, () => void][]} all */
export const chips = (label, all) =>
  el(
    "div",
    { class: "chips", role: "group", "aria-label": label },
    ...all.map(([face, act]) => el("button", { type: "button", text: face, on: { click: act } })),
  );

/**
 * A length: the usual ones by touch, any other by the pad.
 * @param {Walk} here
 * @param {{label: string, keep?: string, usual?: number[], low_mm?: number, high_mm?: number,
 *   onKeep: (mm: number) => void|Promise<void>}} wish
 * @returns {Node[]}
 */
export const lengthPart = (here, wish) => [
  ...(wish.usual
    ? [
        chips(
          "Usual",
          wish.usual.map((mm) => [`${mm} mm`, () => wish.onKeep(mm)]),
        ),
      ]
    : []),
  ...askingPad(here, {
    label: wish.label,
    keep: wish.keep ?? "Save",
    bounds: { low_mm: wish.low_mm ?? 0, high_mm: wish.high_mm ?? 100_000, expected_mm: null },
    onKeep: (value) => wish.onKeep(Math.round(value)),
  }),
];
