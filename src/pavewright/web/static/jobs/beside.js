// @ts-check
/** Sums and words of the trade that fit what is looked for, below the jobs. */
import { el } from "../lib/dom.js";

/** Show them. @param {HTMLElement} place @param {any} beside what the server found */
export function drawBeside(place, beside) {
  place.replaceChildren(
    ...(beside.sums.length
      ? [
          el("h2", { text: "Sums" }),
          el(
            "ul",
            { class: "found-sums" },
            ...beside.sums
              .slice(0, 6)
              .map((/** @type {any} */ one) =>
                el("li", {}, el("a", { href: `/sums?sum=${one.name}`, text: one.title.replace(/^Find /, "") })),
              ),
          ),
        ]
      : []),
    ...(beside.words.length
      ? [
          el("h2", { text: "Words" }),
          el(
            "dl",
            { class: "found-words" },
            ...beside.words
              .slice(0, 8)
              .flatMap((/** @type {any} */ one) => [el("dt", { text: one.word }), el("dd", { text: one.meaning })]),
          ),
        ]
      : []),
  );
}
