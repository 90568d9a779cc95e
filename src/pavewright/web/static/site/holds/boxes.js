// @ts-check
/** Boxes for a few numbers on site: what is typed stays while the page is drawn anew, and over a reload. */
import { el } from "../../lib/dom.js";

/** @typedef {import("../parts.js").Here} Here */

/**
 * A box with its name.
 * @param {Here} here @param {string} label @param {number|string|undefined} value what is kept already
 * @param {string} key under what it is remembered
 */
export function box(here, label, value, key) {
  const typed = here.ui.holdsBoxes?.[key];
  const input = el("input", {
    type: "number",
    inputmode: "decimal",
    step: "any",
    class: "tall",
    "aria-label": label,
    value: String(typed ?? value ?? ""),
    on: {
      input: () => {
        here.ui.holdsBoxes = { ...here.ui.holdsBoxes, [key]: input.value };
        here.remember();
      },
    },
  });
  return {
    /** @returns {number|undefined} */
    get number() {
      const text = input.value.trim().replace(",", ".");
      return text === "" || !Number.isFinite(Number(text)) ? undefined : Number(text);
    },
    field: el("label", { class: "field" }, el("span", { class: "name", text: label }), input),
  };
}

/** Forget what was typed: it is kept now. @param {Here} here */
export function forget(here) {
  delete here.ui.holdsBoxes;
  here.remember();
}
