// @ts-check
/** One box of a sum: its unit stands in it, what is typed is shown back, what may be another unit is asked. */
import { understood } from "../lib/ask-box.js";
import { el } from "../lib/dom.js";
import { spoken } from "../lib/words.js";
import { name, typed, unit } from "./values.js";

/**
 * @param {any} input
 * @param {string} text what it holds
 * @param {(text: string, soon?: boolean) => void} change
 */
export function sumField(input, text, change) {
  const row = input.kind === "numbers" || input.kind === "words",
    hint = `hint-${input.name}`,
    id = `in-${input.name}`,
    told = el("span", { class: "typed-as", role: "status", hidden: true }),
    sign = unit(input);
  const tell = (/** @type {string} */ now) => {
    if (row || input.kind !== "number" || !now.trim()) return say(told, "", []);
    const found = typed(input, now),
      words = understood(found, input.length ? "mm" : input.fall === "one_in" ? "1 in" : sign);
    say(
      told,
      words,
      found.choices.map((choice) =>
        el("button", { type: "button", class: "small", text: choice.text, on: { click: () => put(choice.text) } }),
      ),
    );
  };
  const control = input.choices.length
    ? el(
        "select",
        { id, "aria-describedby": hint, on: { change: () => change(control.value) } },
        ...input.choices.map((/** @type {string} */ one) =>
          el("option", { value: one, selected: one === text, text: spoken(one) }),
        ),
      )
    : el("input", {
        id,
        type: "text",
        inputmode: input.kind === "number" && !input.fall ? "decimal" : null,
        value: text,
        autocomplete: "off",
        "aria-describedby": hint,
        data: { input: input.name },
        on: {
          input: () => {
            tell(control.value);
            change(control.value);
          },
        },
      });
  const put = (/** @type {string} */ chosen) => {
    control.value = chosen;
    tell(chosen);
    change(chosen, true);
    control.focus();
  };
  tell(text);
  return el(
    "div",
    { class: "field" },
    el("label", { class: "name", for: id, text: name(input) }),
    el(
      "span",
      { class: "with-unit in" },
      control,
      el("span", { class: sign.length > 4 ? "unit wide" : "unit", text: sign }),
    ),
    told,
    el("span", {
      class: "hint",
      id: hint,
      text: `${input.meaning}${row ? "; several, with commas between" : ""}${mayStay(input) ? "; may stay 0" : ""}`,
    }),
  );
}

/** @param {any} input */
const mayStay = (input) => input.default !== null && input.kind === "number" && String(input.default) === "0";

/** @param {HTMLElement} told @param {string} words @param {HTMLElement[]} buttons */
function say(told, words, buttons) {
  told.hidden = !words;
  told.classList.toggle("asks", buttons.length > 0);
  told.replaceChildren(words, ...buttons);
}
