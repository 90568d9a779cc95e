// @ts-check
/** Panels that only the site sheet has: the drawings that it brought along, and its readings saved as a file. */
import { el } from "../lib/dom.js";
import { fileOf, save } from "./bring-in.js";
import { spokenRecord } from "./sent.js";

/** The drawings of the sheet, moved into the panel while they are looked at. @returns {Node[]} */
export function plans() {
  return [...document.querySelectorAll("template.drawing")].map((one) =>
    el(
      "figure",
      { class: "sheet-drawing" },
      el("figcaption", { text: /** @type {any} */ (one).dataset.name }),
      /** @type {HTMLTemplateElement} */ (one).content.cloneNode(true),
    ),
  );
}

/** @param {import("./parts.js").Here & {queue: import("./sheet-queue.js").SheetQueue}} here @returns {Node[]} */
export function saved(here) {
  const { queue } = here,
    held = queue.list.some((one) => one.state === "held");
  return [
    el("h2", { text: `${queue.list.length} on this sheet` }),
    el("p", {
      text:
        "Save the readings as a file, then bring the file in: on the page On site, or in the stage Measure. A " +
        "reading counts once, however often it is brought in.",
    }),
    held
      ? el("p", {
          text: "The staff reading that begins a set-up goes with the reading that follows it: read one more.",
        })
      : el("span"),
    el("button", {
      type: "button",
      class: "main pad-keep",
      text: "Save the readings as a file",
      disabled: queue.list.length === 0,
      on: { click: () => save(`readings-${here.job}.json`, fileOf(here.job, queue.exported())) },
    }),
    el(
      "ul",
      { class: "plain-list" },
      ...queue.list.map((one) => el("li", { text: spokenRecord(one) + (one.undone ? " (taken back)" : "") })),
    ),
  ];
}
