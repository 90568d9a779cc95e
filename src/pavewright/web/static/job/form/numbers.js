// @ts-check
/** Boxes for numbers of the document, and what is typed into any box until it is taken. */
import { at, put } from "../job-state.js";
import { fallTyped } from "../../lib/lengths.js";
import { lengthHere, lengthShown } from "../../lib/lengths-here.js";
import { plainNumber, withMark } from "../../lib/numbers-typed.js";
import { askBox, figures, NO_LENGTH } from "../../lib/ask-box.js";
import { lengthKind, levelsMiddle, takesLevelOrPoint } from "./schema.js";
import { typedOf } from "./typed.js";

/**
 * Keep what is typed into a box over a reload, until the box takes it; Escape gives the old text back.
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {HTMLInputElement} input
 */
export function holdTyped(state, path, input) {
  const texts = typedOf(state);
  let before = input.value;
  const held = texts.get(path);
  if (held !== null) input.value = held;
  input.addEventListener("focus", () => {
    if (texts.get(path) === null) before = input.value;
  });
  input.addEventListener("input", () => (input.value === before ? texts.delete(path) : texts.set(path, input.value)));
  input.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || texts.get(path) === null) return;
    event.stopPropagation();
    input.value = before;
    texts.delete(path);
  });
  // a text that came back with the page is taken when its box is left, as any other
  input.addEventListener("blur", () => {
    if (texts.get(path) !== null && !input.dataset.wrong) input.dispatchEvent(new Event("change"));
  });
}

/**
 * Let an input take a number: a length of its kind, a fall, or a plain number.
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {HTMLInputElement} input
 * @param {any} node
 * @param {any} label
 * @param {string} title
 */
export function numberBox(state, path, input, node, label, title) {
  const kind = label.ending === "_mm" || takesLevelOrPoint(node) ? (lengthKind(node) ?? "accuracy") : null,
    isFall = /(^|_)one_in$/.test(String(path[path.length - 1])),
    texts = typedOf(state);
  const now = () => {
    const value = at(state.doc, path);
    if (value === undefined || value === null) return "";
    if (typeof value !== "number") return String(value);
    return kind ? lengthShown(value, kind, figures(value)) : isFall ? figures(value) : withMark(figures(value));
  };
  const put_ = (/** @type {any} */ value, /** @type {string} */ words) =>
    state.change(words, (doc) => put(doc, path, value));
  return askBox(input, {
    read: (text) =>
      kind
        ? lengthHere(text, kind, kind === "level" ? levelsMiddle(state.doc) : null)
        : isFall
          ? fallTyped(text, "one_in")
          : plainNumber(text, label.unit),
    unit: kind ? "mm" : isFall ? "1 in" : label.unit,
    wrong: kind ? NO_LENGTH : isFall ? "Write a fall: 60, 1:60 or 2 %." : "Write a number in figures.",
    now,
    take: (value) =>
      value === null
        ? put_(undefined, `${title} left open`)
        : put_(node.type === "integer" ? Math.round(value) : Number(figures(value)), title),
    other: (text) => {
      if (!takesLevelOrPoint(node)) return false;
      const typed = lengthHere(text, "level");
      if (!levelled(state).includes(text) && (typed.value !== null || typed.choices.length)) return false;
      put_(text, title);
      return true;
    },
    kept: {
      get: () => texts.get(path),
      set: (text) => texts.set(path, text),
      drop: () => texts.delete(path),
    },
  });
}

/**
 * Names of points that have a level: from a benchmark, a level book or a height.
 * @param {JobState} state
 * @returns {string[]}
 */
function levelled(state) {
  const m = state.doc.measurements ?? {};
  return [
    ...(m.benchmarks ?? []),
    ...(m.level_books ?? []).flatMap((book) => book.rows ?? []),
    ...(m.heights_over ?? []),
  ]
    .map((each) => each.point)
    .concat((m.points ?? []).map((point) => point.name));
}
