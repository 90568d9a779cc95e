// @ts-check
/** Where one begins on site: a big button for each panel, with one line of what it holds. */
import { el } from "../lib/dom.js";

/** @typedef {import("./parts.js").Here} Here */

export const START = "start";

/** @param {Here} here @returns {Node[]} */
export function start(here) {
  return [
    el(
      "ul",
      { class: "start" },
      ...here.panels.map((one) => {
        const says = one.says?.(here) ?? "";
        return el(
          "li",
          {},
          el(
            "button",
            { type: "button", class: "start-button", on: { click: () => here.open(one.key) } },
            el("span", { class: "start-mark", "aria-hidden": "true", text: one.mark }),
            el("b", { text: one.counted?.(here) ?? one.face }),
            says ? el("span", { class: "start-says", text: says }) : null,
          ),
        );
      }),
    ),
  ];
}
