// @ts-check
/** One line of a form: a number with its unit, a name, a date, words. */
import { hintLine } from "./hint.js";
import { el } from "../../lib/dom.js";
import { at } from "../job-state.js";
import { bind, freshName, moneyLine, take } from "./inputs.js";
import { mayBeNew, picker, pointBox } from "./names-box.js";
import { holdTyped, numberBox } from "./numbers.js";
import { lengthUnit } from "../../lib/lengths-here.js";
import { currencySign } from "../../lib/words.js";
import { namesFor, takesLevelOrPoint } from "./schema.js";
import { typedOf } from "./typed.js";

/** Words that are short whatever may be kept. */
const SHORT = new Set(["name", "supplier", "supplier_code", "tax_number", "tax_name", "sheet"]);

/**
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {string} title
 * @param {string} hint
 * @param {any} node
 * @param {any} label
 */
export function line(state, path, title, hint, node, label) {
  const id = freshName(),
    key = String(path[path.length - 1]);
  const isNumber = node.type === "number" || node.type === "integer",
    isList = node.type === "array",
    isLevel = takesLevelOrPoint(node);
  const names = namesFor(state, key, path),
    isDate = node.format === "date";
  const named = names && !isList && mayBeNew(path) ? pointBox(state, path) : null;
  const show = () => {
    const value = at(state.doc, path);
    if (document.activeElement === input || typedOf(state).get(path) !== null) return;
    if (
      input.tagName === "SELECT" &&
      value &&
      ![.../** @type {any} */ (input).options].some((one) => one.value === value)
    )
      input.append(el("option", { value, text: value }));
    input.value = value === undefined || value === null ? "" : isList ? value.join(", ") : String(value);
  };
  /** @type {HTMLInputElement} */ const input = /** @type {any} */ (
    named?.box ??
      (names && !isList
        ? picker(state, path, node.optional || "default" in node, () => at(state.doc, path))
        : el(node.maxLength > 300 && !SHORT.has(key) && !isList && !isNumber ? "textarea" : "input", {
            id,
            type: isDate ? "date" : "text",
            inputmode: isNumber ? "decimal" : null,
            autocomplete: "off",
          }))
  );
  input.id = id;
  if (!isList && node.default !== undefined && node.default !== null && input.tagName === "INPUT")
    input.placeholder = String(node.default);
  if (isLevel || (isNumber && key.endsWith("level_mm"))) input.placeholder = "not read";
  show();
  const currency = currencySign(state.doc.identity?.currency ?? /** @type {any} */ (state.doc).currency ?? "").trim(),
    money = label.unit === "price" || label.unit === "an hour";
  const unit = money
    ? `${currency}${label.unit === "an hour" ? " an hour" : ""}`
    : isLevel || label.unit === "mm"
      ? lengthUnit()
      : label.unit;
  const number = !money && input.tagName === "INPUT" && !isList && (isNumber || isLevel);
  const typed = number ? numberBox(state, path, input, node, label, title) : null;
  const box = el(
    "div",
    { class: "field" },
    el("label", { class: "name", for: id, text: title }),
    el(
      "span",
      { class: "with-unit in" },
      input,
      unit ? el("span", { class: unit.length > 4 ? "unit wide" : "unit", text: unit }) : null,
    ),
    typed?.told,
    hintLine(path, hint),
  );
  if (money) moneyLine(state, path, input, title);
  else if (!typed) {
    input.addEventListener("change", () => {
      take(state, path, input, node, title);
      if (!input.dataset.wrong) typedOf(state).delete(path);
    });
    if (input.tagName !== "SELECT") holdTyped(state, path, input);
  }
  bind(state, path, box, input, money ? undefined : (typed?.show ?? show));
  return box;
}
