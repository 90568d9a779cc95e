// @ts-check
/** What a job that knows nothing offers first: four ways to its shape. */
import { el } from "../../lib/dom.js";

/** @type {[string, string, string][]} */
const WAYS = [
  ["area", "Type the lengths", "6000 Tab 4000 Enter is a rectangle; any shape side by side"],
  ["draw", "Draw it", "Tap the corners on the plan"],
  ["file", "From a file", "Points of a survey or a drawing: CSV, DXF, LandXML"],
];

/**
 * The ways to a first shape; nothing where there is one.
 * @param {JobState} state
 * @returns {Node[]}
 */
export function beginning(state) {
  if ((state.doc.areas ?? []).length) return [];
  const way = (/** @type {string} */ key, /** @type {string} */ name, /** @type {string} */ words) =>
    el(
      "button",
      {
        type: "button",
        class: key === "area" ? "main" : "",
        on: { click: () => state.dispatchEvent(new CustomEvent("begin", { detail: key })) },
      },
      name,
      el("span", { text: words }),
    );
  return [
    el("h3", { text: "Where does the shape come from?" }),
    el(
      "div",
      { class: "begin" },
      ...WAYS.map(([key, name, words]) => way(key, name, words)),
      el(
        "a",
        { class: "button", href: `/jobs/${state.id}/walk` },
        "Walk round it with the phone",
        el("span", { text: "Sketch with a finger, then tapes and staff" }),
      ),
    ),
  ];
}

/** Open the part of a stage that takes points from a file. */
export function openFile() {
  const input = /** @type {HTMLElement|null} */ (document.querySelector("#points-file"));
  for (let part = input?.closest("details"); part; part = part.parentElement?.closest("details")) part.open = true;
  input?.scrollIntoView({ block: "center" });
  input?.focus();
}
