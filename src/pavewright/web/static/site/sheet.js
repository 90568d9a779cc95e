// @ts-check
/**
 * The site sheet: the same panels in one file that needs no server. Readings stay in this browser until they are saved
 * as a file.
 */
import { el, find, say } from "../lib/dom.js";
import { look } from "../lib/theme.js";
import { setFirmWriting, setWriting } from "../lib/writing.js";
import { fileOf, save } from "./bring-in.js";
import { check } from "./check.js";
import { measure } from "./measure.js";
import { screen } from "./screen.js";
import { spokenRecord } from "./sent.js";
import { SheetQueue } from "./sheet-queue.js";

const given = JSON.parse(find("#job").textContent);
look();
setFirmWriting(given.writing);
setWriting(given.document?.identity, given.document);
const queue = new SheetQueue(given.job, given.rev),
  count = find("#unsent");
/** @type {any} */ const here = { job: given.job, doc: given.document, view: given.view, sources: {}, queue };

screen(here, `pavewright.sheet.${given.job}.spot`, [
  { key: "measure", face: () => "Measure", draw: measure },
  { key: "check", face: () => "Check", draw: check },
  { key: "plan", face: () => "Plan", draw: plans },
  { key: "out", face: () => "Save", draw: out },
]);

/** The drawings of the sheet, moved into the panel while they are looked at. @returns {Node[]} */
function plans() {
  return [...document.querySelectorAll("template.drawing")].map((one) =>
    el(
      "figure",
      { class: "sheet-drawing" },
      el("figcaption", { text: /** @type {any} */ (one).dataset.name }),
      /** @type {HTMLTemplateElement} */ (one).content.cloneNode(true),
    ),
  );
}

/** @returns {Node[]} */
function out() {
  const held = queue.list.some((one) => one.state === "held");
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
      on: { click: () => save(`readings-${given.job}.json`, fileOf(given.job, queue.exported())) },
    }),
    el(
      "ul",
      { class: "plain-list" },
      ...queue.list.map((one) => el("li", { text: spokenRecord(one) + (one.undone ? " (taken back)" : "") })),
    ),
  ];
}

const tellCount = () => {
  say(count, queue.list.length ? `${queue.list.length} kept on this sheet` : "nothing read yet");
};
queue.addEventListener("change", () => {
  tellCount();
  here.redraw();
});
count.addEventListener("click", () => {
  here.ui.tab = "out";
  here.remember();
  here.redraw();
});
tellCount();
here.redraw();
