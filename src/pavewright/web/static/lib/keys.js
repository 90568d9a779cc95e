// @ts-check
/** The list of keys: shown by `?` on every page that has some. */
import { ask, el } from "./dom.js";

/** @typedef {[string, string][]} Keys keys and what they do */

/** @type {Keys} */
const EVERYWHERE = [
  ["Tab, Shift + Tab", "to the next field or button, and back"],
  ["Enter", "takes what is typed"],
  ["Esc", "gives the old value back, closes a box"],
  ["?", "this list"],
];

/** @param {EventTarget|null} at */
const typing = (at) => at instanceof HTMLElement && (at.matches("input, textarea, select") || at.isContentEditable);

/** Show the list. @param {[string, Keys][]} parts titles, each with its keys */
export function showKeys(parts) {
  return ask(
    "Keys",
    [...parts, /** @type {[string, Keys]} */ (["Everywhere", EVERYWHERE])].flatMap(([title, keys]) => [
      el("h3", { text: title }),
      el(
        "dl",
        { class: "key-list" },
        ...keys.flatMap(([key, words]) => [
          el("dt", {}, ...key.split(/, | or /).flatMap((one, n) => [n ? " or " : null, el("kbd", { text: one })])),
          el("dd", { text: words }),
        ]),
      ),
    ]),
    [{ label: "Close", value: "", main: true }],
  );
}

/** Let `?` show the list of a page. @param {[string, Keys][]} parts */
export function listenForKeys(parts) {
  document.addEventListener("keydown", (event) => {
    if (event.key !== "?" || event.ctrlKey || event.metaKey || event.altKey || typing(event.target)) return;
    if (document.querySelector("dialog[open]")) return;
    event.preventDefault();
    showKeys(parts);
  });
}

/** Keys of the working screen. @type {[string, Keys][]} */
export const JOB_KEYS = [
  [
    "On the plan",
    [
      ["+, -", "nearer, farther"],
      ["0", "the whole plan"],
      ["Shift + arrows", "move the plan"],
      ["Arrows", "move the corner that is chosen by 10 mm, with Ctrl by 1 mm"],
      ["Enter", "opens the side at the corner; closes the outline that is drawn"],
      ["Delete", "takes the corner out"],
    ],
  ],
  [
    "Typing lengths in a row",
    [
      ["Arrows", "which way the next side runs"],
      ["@", "an angle"],
      ["W", "this side is a house wall"],
      ["Enter", "takes the length; on an empty box closes the shape"],
    ],
  ],
  [
    "The job",
    [
      ["Ctrl + Z", "undo"],
      ["Ctrl + Y, Ctrl + Shift + Z", "redo"],
      ["Alt + ←", "back to the stage before"],
    ],
  ],
];
