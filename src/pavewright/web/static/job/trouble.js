// @ts-check
/** What stands above the job while something is amiss with keeping it: why, and how to take the job out as a file. */
import { el } from "../lib/dom.js";
import { save as handOver } from "../site/bring-in.js";

/** @param {JobState} state */
function unsaved(state) {
  const where = state.inBrowser
    ? "What you typed is kept in this browser meanwhile."
    : "This browser has no room to keep it: save it as a file before you close the page.";
  return `Not saved. ${state.problem} ${state.saving === "refused" ? "" : "The page keeps trying. "}${where}`;
}

const unread = (/** @type {string} */ fault) =>
  `This job could not be read as it was kept. ${fault} What could be read is shown: check it, or go back to a ` +
  `revision (stage Papers).`;

/** @param {HTMLElement} box @param {JobState} state */
export function tellTrouble(box, state) {
  const words = state.problem ? unsaved(state) : state.fault && state.doc ? unread(state.fault) : "";
  box.hidden = !words;
  if (!words || box.dataset.words === words) return;
  box.dataset.words = words;
  box.replaceChildren(
    el("p", { text: words }),
    el(
      "span",
      { class: "row" },
      el("button", {
        type: "button",
        text: "Save the job as a file",
        on: { click: () => handOver(`job-${state.id}.json`, JSON.stringify(state.doc, null, 1)) },
      }),
      state.problem ? el("button", { type: "button", text: "Try now", on: { click: () => state.save() } }) : null,
    ),
  );
}

/**
 * What stands in the place of a job of which nothing can be read.
 * @param {JobState} state
 * @param {string} more
 * @param {Node[]} revisions
 * @returns {Node[]}
 */
export function draft(state, more, revisions) {
  return [
    el("h2", { text: "This job cannot be read" }),
    el(
      "div",
      { class: "finding stop", role: "alert" },
      el("p", {}, el("span", { class: "word", text: "■ TO FIX" }), el("span", { text: state.fault || more })),
      el("p", {
        text:
          "Nothing is lost: every revision is kept. Compare an earlier revision and bring it back, or get the " +
          "document and fix it.",
      }),
    ),
    ...revisions,
  ];
}
