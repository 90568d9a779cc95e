// @ts-check
/**
 * A box for a number with its unit: what is typed is shown back before it is taken; what may be another unit is asked,
 * with a button for each reading. Enter or leaving takes it; Escape gives the old one back.
 */
import { el } from "./dom.js";
import { lengthHere, lengthUnit } from "./lengths-here.js";

/**
 * @typedef {import("./lengths.js").Typed} Typed
 * @typedef {{
 *   read: (text: string) => Typed, unit: string, wrong: string,
 *   now: () => string, take: (value: number|null) => void,
 *   other?: (text: string) => boolean,
 *   kept?: {get: () => string|null, set: (text: string) => void, drop: () => void}
 * }} Wishes `now` is what the box holds when nothing is typed; `other` takes what is no number, as a name; `kept` holds
 *   what is typed over a reload
 */

/** A number as it is written back into its box. @param {number} value */
export const figures = (value) => String(Math.round(value * 1e4) / 1e4);

/** A length in whole or tenth millimetres, shown back. @param {number} value_mm */
const shownBack = (value_mm) => `= ${figures(Math.round(value_mm * 10) / 10)} mm`.replace("-", "−");

/** What a typed text was understood as, in a few words. @param {Typed} typed @param {string} unit */
export function understood(typed, unit) {
  if (typed.choices.length > 1) return `${typed.choices.map((one) => one.text).join(" or ")}?`;
  if (typed.choices.length) return `${typed.choices[0].text}: is that right?`;
  if (typed.value === null || typed.bare) return "";
  if (unit === "mm") return shownBack(typed.value);
  return unit === "1 in" ? `= 1 in ${figures(typed.value)}` : `= ${figures(typed.value)} ${unit}`;
}

/**
 * Let an input take numbers with their unit.
 * @param {HTMLInputElement} input
 * @param {Wishes} wishes
 * @returns {{told: HTMLElement, show: () => void, settled: () => boolean}} `told` stands under the box
 */
export function askBox(input, wishes) {
  const words = el("span", { role: "status" }),
    told = el("span", { class: "typed-as", hidden: true }, words);
  let dirty = false,
    asked = "";
  const say = (/** @type {string} */ text, wrong = false, /** @type {HTMLElement[]} */ buttons = []) => {
    asked = "";
    if (words.textContent !== text) words.textContent = text;
    told.classList.toggle("asks", buttons.length > 0 || wrong);
    told.hidden = !text && !buttons.length;
    told.replaceChildren(words, ...buttons);
    if (wrong) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
    if (wrong) input.dataset.wrong = "1";
    else delete input.dataset.wrong;
  };
  const settle = () => {
    dirty = false;
    wishes.kept?.drop();
    say("");
  };
  const give = (/** @type {number|null} */ value) => {
    settle();
    wishes.take(value);
    input.value = wishes.now();
  };
  const ask = (/** @type {Typed} */ typed) => {
    const question = `${input.value}?`;
    if (asked === question) return; // its buttons stay: the focus may be on its way to them
    const choices = typed.choices.map(({ text, value }) =>
      el("button", {
        type: "button",
        class: "small",
        text: wishes.unit === "mm" && !/ mm$/.test(text) ? `${text} ${shownBack(value)}` : text,
        on: {
          click: () => {
            give(value);
            input.focus();
          },
        },
      }),
    );
    const no = el("button", { type: "button", class: "small", text: "No", on: { click: () => back() } });
    say(understood(typed, wishes.unit), true, choices.length > 1 ? choices : [...choices, no]);
    asked = question;
  };
  const back = () => {
    settle();
    input.value = wishes.now();
    input.focus();
    input.select();
  };
  const take = () => {
    if (!dirty) return;
    const text = input.value.trim();
    if (text === "") return give(null);
    if (text === wishes.now()) return settle();
    if (wishes.other?.(text)) return settle();
    const typed = wishes.read(text);
    if (typed.value !== null) give(typed.value);
    else if (typed.choices.length) ask(typed);
    else say(wishes.wrong, true);
  };
  const type = () => {
    dirty = true;
    const text = input.value.trim();
    if (text === wishes.now()) wishes.kept?.drop();
    else wishes.kept?.set(input.value);
    say(understood(wishes.read(text), wishes.unit));
  };
  input.addEventListener("input", type);
  input.addEventListener("change", take);
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter" || event.key === "Tab")
      take(); // the buttons of a question come next with Tab
    else if (event.key === "Escape" && dirty) {
      event.stopPropagation();
      back();
    }
  });
  const show = () => {
    if (!dirty && document.activeElement !== input) input.value = wishes.now();
  };
  input.value = wishes.now();
  const text = wishes.kept?.get() ?? null;
  if (text !== null) {
    input.value = text;
    dirty = true;
    const typed = wishes.read(text.trim());
    if (typed.choices.length) ask(typed);
    else say(understood(typed, wishes.unit));
  }
  return { told, show, settled: () => !dirty };
}

/** What a box for a length says of a text that is none. */
export const NO_LENGTH = "Write a length: 6000, 6.0 m or 19' 8 1/2\".";

/**
 * A labelled box for a length that stands by itself.
 * @param {string} name
 * @param {{
 *   kind?: import("./lengths.js").LengthKind, now: () => string, take: (value_mm: number|null) => void, seen?: boolean
 * }} wishes
 */
export function lengthField(name, { kind = "site", now, take, seen = true }) {
  const input = el("input", { type: "text", inputmode: "decimal", autocomplete: "off", "aria-label": name }),
    box = askBox(input, { read: (text) => lengthHere(text, kind), unit: "mm", wrong: NO_LENGTH, now, take });
  const field = el(
    "div",
    { class: "field" },
    el("span", { class: seen ? "name" : "name unseen", text: name }),
    el("span", { class: "with-unit in" }, input, el("span", { class: "unit", text: lengthUnit() })),
    box.told,
  );
  return { field, input, ...box };
}
