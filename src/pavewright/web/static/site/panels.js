// @ts-check
/**
 * The panels of the page on site and of the site sheet: one line for each, in the order of the buttons at the start.
 *
 * A panel draws into one column. `draw` is called anew whenever something changed; what it remembers stands in
 * `here.ui` under names that begin with its key. `says` is one short line under its button at the start.
 */
import { check } from "./check.js";
import { checkSays } from "./check/shared.js";
import { holds, holdsSay } from "./holds/holds.js";
import { lay, laySays } from "./lay/lay.js";
import { dayPanel, summary } from "./day/day.js";
import { measure } from "./measure.js";
import { photos } from "./photos.js";
import { levelPanel } from "./picture/level-panel.js";
import { picturePanel } from "./picture/picture-panel.js";
import { sentPanel } from "./sent.js";
import { setOut, setOutSays } from "./set-out/panel.js";
import { plans, saved } from "./sheet-panels.js";

/** @typedef {import("./parts.js").Here} Here */
/**
 * @typedef {{
 *   key: string, face: string, mark: string, draw: (here: any) => Node[], on: "page"|"sheet"|"both",
 *   says?: (here: Here) => string, counted?: (here: Here) => string
 * }} Panel mark is a sign that tells the button beside its word; counted is its word where the word holds a number
 */

/** @param {Here} here */
const unsent = (here) => (here.queue.unsent ? `Unsent ${here.queue.unsent}` : "Sent ✓");

/** @type {Panel[]} */
export const PANELS = [
  { key: "measure", face: "Measure", mark: "↔", draw: measure, on: "both" },
  { key: "setout", face: "Set out", mark: "⊹", draw: setOut, on: "both", says: setOutSays },
  { key: "holds", face: "Dig and layers", mark: "▤", draw: holds, says: holdsSay, on: "both" },
  { key: "lay", face: "Lay", mark: "▦", draw: lay, says: laySays, on: "both" },
  { key: "check", face: "Check", mark: "✓", draw: check, says: checkSays, on: "both" },
  { key: "day", face: "Today", mark: "☰", draw: dayPanel, on: "both", says: summary },
  { key: "photos", face: "Photos", mark: "▣", draw: photos, on: "page" },
  { key: "picture", face: "By photo", mark: "⊞", draw: picturePanel, on: "both" },
  { key: "slope", face: "Slope", mark: "∠", draw: levelPanel, on: "both" },
  { key: "plan", face: "Plan", mark: "▱", draw: plans, on: "sheet" },
  { key: "sent", face: "Unsent", mark: "↑", draw: sentPanel, on: "page", counted: unsent },
  { key: "out", face: "Save", mark: "↓", draw: saved, on: "sheet" },
];
