// @ts-check
/** What others did is drawn without moving the hand: what is open, the focus, the marked text and the scroll stay. */
import { tell } from "../lib/dom.js";
import { cut } from "../lib/words.js";
import { typedOf } from "./form/typed.js";
import { at } from "./job-state.js";

/** @typedef {(string|number)[]} Path */

/**
 * Where a thing of a list is after a change; null where it is gone.
 * @param {any} thing @param {any} now @param {number} from
 */
function placeIn(thing, now, from) {
  if (!Array.isArray(now) || thing === undefined) return null;
  const written = JSON.stringify(thing),
    same = now.findIndex((one) => JSON.stringify(one) === written);
  if (same >= 0) return JSON.stringify(now[from]) === written ? from : same;
  const named = thing?.name === undefined ? -1 : now.findIndex((one) => one?.name === thing.name);
  if (named >= 0) return named;
  return from < now.length && !("name" in Object(thing)) ? from : null;
}

/**
 * Where a place of the document is after a change of others; null where it is gone.
 * @param {any} before @param {any} after @param {Path} path
 * @returns {Path|null}
 */
export function placeAfter(before, after, path) {
  /** @type {Path} */ const found = [];
  for (const [index, step] of path.entries()) {
    if (typeof step === "string") {
      found.push(step);
      continue;
    }
    const now = placeIn(at(before, path.slice(0, index + 1)), at(after, found), step);
    if (now === null) return null;
    found.push(now);
  }
  return found;
}

/** @param {string} written @returns {Path} */
const pathOf = (written) => written.split(".").map((step) => (/^\d+$/.test(step) ? Number(step) : step));

/** @param {Element|null} node @returns {node is HTMLInputElement} */
const marksText = (node) =>
  (node instanceof HTMLInputElement && node.type === "text") || node instanceof HTMLTextAreaElement;

/** The boxes of a field, in their order. @param {Element|null|undefined} field @returns {HTMLElement[]} */
const boxesOf = (field) => [.../** @type {any} */ (field?.querySelectorAll("input, select, textarea, button") ?? [])];

/**
 * What the hand is in: its field, the box of it, the marked text and whether that is typed and not taken yet.
 * @param {JobState} state
 */
function inHand(state) {
  const held = /** @type {HTMLElement|null} */ (document.activeElement),
    field = /** @type {HTMLElement|null|undefined} */ (held?.closest("[data-path]"));
  if (!held || !field?.dataset.path) return null;
  const path = pathOf(field.dataset.path),
    box = boxesOf(field).indexOf(held);
  if (!marksText(held)) return { held, path, box, text: null, marked: null };
  /** @type {[number|null, number|null]} */ const marked = [held.selectionStart, held.selectionEnd];
  return { held, path, box, text: typedOf(state).get(path), marked };
}

/**
 * Give the hand back what it was in.
 * @param {HTMLElement} panel @param {NonNullable<ReturnType<typeof inHand>>} hand @param {Path|null} now
 */
function handBack(panel, hand, now) {
  const name = now?.join("."),
    again = boxesOf(name ? panel.querySelector(`[data-path="${CSS.escape(name)}"]`) : null)[hand.box];
  if (!again) {
    if (hand.text) tell(`Somebody else deleted this. You had typed: ${cut(hand.text, 120)}`);
    return;
  }
  again.focus({ preventScroll: true });
  if (!marksText(again) || !hand.marked) return;
  if (hand.text !== null && again.value !== hand.text) {
    again.value = hand.text;
    again.dispatchEvent(new Event("input", { bubbles: true }));
  }
  again.setSelectionRange(...hand.marked);
}

/** @param {Event} event */
const unheard = (event) => event.stopImmediatePropagation();

/**
 * A box that goes from the page while the hand is in it would still have its text taken, for the thing that now stands
 * in its place: it says nothing any more.
 * @param {HTMLElement} held @param {boolean} silent
 */
function hush(held, silent) {
  for (const name of ["change", "blur", "focusout"])
    if (silent) held.addEventListener(name, unheard, true);
    else held.removeEventListener(name, unheard, true);
}

/**
 * Do what draws parts of the page anew.
 * @param {HTMLElement} panel @param {JobState} state @param {() => void} act
 */
export function inPlace(panel, state, act) {
  const before = /** @type {any} */ (state.doc),
    hand = inHand(state),
    scrolled = panel.scrollTop;
  const open = [...panel.querySelectorAll("[data-row]")].filter((one) => /** @type {any} */ (one).open);
  const opened = open.map((one) => pathOf(/** @type {HTMLElement} */ (one).dataset.row ?? ""));
  if (hand) hush(hand.held, true);
  act();
  if (hand?.held.isConnected) hush(hand.held, false);
  const after = /** @type {any} */ (state.doc);
  for (const path of opened) {
    const now = placeAfter(before, after, path)?.join(".");
    const row = /** @type {any} */ (now && panel.querySelector(`[data-row="${CSS.escape(now)}"]`));
    if (!row || row.open) continue;
    row.open = true;
    row.dispatchEvent(new Event("toggle")); // filled now: the browser's own comes later
  }
  if (hand && !hand.held.isConnected) handBack(panel, hand, placeAfter(before, after, hand.path));
  panel.scrollTop = scrolled;
}
