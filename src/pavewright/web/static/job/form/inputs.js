// @ts-check
/** One input for each kind of field: words, lengths, money, ticks and choices. */
import { el, say } from "../../lib/dom.js";
import { at, put } from "../job-state.js";
import { lengthHere } from "../../lib/lengths-here.js";
import { moneyTyped, plainNumber, withMark } from "../../lib/numbers-typed.js";
import { moneyBare, spoken } from "../../lib/words.js";
import { holdTyped } from "./numbers.js";
import { lengthKind, resolved, schemaAt } from "./schema.js";
import { typedOf } from "./typed.js";

let counter = 0;

export const freshName = () => `f${(counter += 1)}`;

/**
 * Keep an element in step with the faults and the value of its place.
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {HTMLElement} box
 * @param {HTMLElement} input
 * @param {() => void} [refresh]
 */
export function bind(state, path, box, input, refresh) {
  const key = path.join("."),
    fault = el("span", { class: "fault", id: freshName() });
  box.append(fault);
  box.dataset.path = key;
  const tellFaults = () => {
    const mine = state.faults.filter((each) => each.path === key).map((each) => each.message);
    say(fault, mine.join(" "));
    fault.hidden = mine.length === 0;
    if (mine.length) {
      input.setAttribute("aria-invalid", "true");
      input.setAttribute("aria-describedby", fault.id);
    } else if (!input.dataset.wrong) {
      input.removeAttribute("aria-invalid");
    }
  };
  tellFaults();
  listen(state, box, "plan", tellFaults);
  if (refresh) listen(state, box, "document", refresh);
}

/**
 * Listen while an element is on the page.
 * @param {EventTarget} target
 * @param {HTMLElement} box
 * @param {string} name
 * @param {() => void} act
 */
export function listen(target, box, name, act) {
  const heard = () => {
    if (box.isConnected) act();
    else if (box.dataset.shown) target.removeEventListener(name, heard);
  };
  target.addEventListener(name, heard);
  requestAnimationFrame(() => {
    box.dataset.shown = "1";
  });
}

/**
 * Prices are kept in the smallest coin and shown in the currency.
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {HTMLInputElement} input
 * @param {string} title
 */
export function moneyLine(state, path, input, title) {
  const currency = () =>
    /** @type {any} */ (state.doc).identity?.currency ?? /** @type {any} */ (state.doc).currency ?? "GBP";
  const show = () => {
    const value = at(state.doc, path);
    if (document.activeElement !== input)
      input.value = value === undefined || value === null ? "" : withMark(moneyBare(value, currency()));
  };
  input.inputMode = "decimal";
  show();
  listen(state, input, "document", show);
  input.addEventListener("change", () => {
    const text = input.value.trim();
    wrong(input, "");
    if (text === "") state.change(title, (doc) => put(doc, path, undefined));
    else {
      const { minor, words } = moneyTyped(text, currency());
      wrong(input, words);
      if (minor !== null) state.change(title, (doc) => put(doc, path, minor));
    }
    if (!input.dataset.wrong) typedOf(state).delete(path);
  });
  holdTyped(state, path, input);
}

/** @param {HTMLInputElement} input @param {string} words */
function wrong(input, words) {
  input.setCustomValidity(words);
  if (words) {
    input.dataset.wrong = "1";
    input.setAttribute("aria-invalid", "true");
    input.reportValidity();
  } else {
    delete input.dataset.wrong;
    input.removeAttribute("aria-invalid");
  }
}

/**
 * Take words, or a list of words or numbers.
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {HTMLInputElement} input
 * @param {any} node
 * @param {string} title
 */
export function take(state, path, input, node, title) {
  const text = input.value.trim();
  wrong(input, "");
  if (text === "") return state.change(`${title} left open`, (doc) => put(doc, path, undefined));
  if (node.type === "array") {
    const words = text
        .split(/[,;]/)
        .map((word) => word.trim())
        .filter(Boolean),
      inner = resolved(node.items ?? node.prefixItems?.[0] ?? {});
    const numbers = inner.type === "number" || inner.type === "integer",
      kind = lengthKind(inner);
    const values = numbers ? words.map((word) => (kind ? lengthHere(word, kind) : plainNumber(word, "")).value) : words;
    if (numbers && values.some((value) => value === null))
      return wrong(input, kind ? "Write lengths in mm, separated by commas." : "Write numbers, separated by commas.");
    return state.change(title, (doc) => put(doc, path, values));
  }
  return state.change(title, (doc) => put(doc, path, text));
}

/** @param {JobState} state @param {(string|number)[]} path @param {string} title @param {string} hint */
export function tick(state, path, title, hint) {
  const id = freshName(),
    input = el("input", { id, type: "checkbox" });
  const show = () => {
    input.checked = at(state.doc, path) ?? schemaAt(path).default ?? false;
  };
  show();
  input.addEventListener("change", () => state.change(title, (doc) => put(doc, path, input.checked)));
  const box = el(
    "div",
    { class: "field tick", title: hint },
    input,
    el("label", { class: "name", for: id, text: title }),
  );
  bind(state, path, box, input, show);
  return box;
}

const FEW = 4;

/**
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {string} title
 * @param {string} hint
 * @param {any} node
 */
export function choice(state, path, title, hint, node) {
  const values = node.enum ?? node.pattern.slice(2, -2).split("|"),
    now = () => at(state.doc, path) ?? node.default ?? "",
    named = (/** @type {string} */ value) => node["x-words"]?.[value] ?? spoken(value);
  const set = (/** @type {string} */ value) =>
    state.change(`${title}: ${named(value)}`, (doc) => put(doc, path, value === "" ? undefined : value));
  if (values.length <= FEW) {
    const group = freshName(),
      box = el("fieldset", { class: "field choices" }, el("legend", { text: title }));
    for (const value of values) {
      const input = el("input", {
        type: "radio",
        name: group,
        value,
        checked: now() === value,
        on: { change: () => set(value) },
      });
      box.append(el("label", {}, input, el("span", { text: named(value) })));
    }
    if (hint) box.append(el("span", { class: "hint", text: hint }));
    bind(state, path, box, box, () =>
      box.querySelectorAll("input").forEach((input) => {
        input.checked = input.value === now();
      }),
    );
    return box;
  }
  const id = freshName(),
    input = el("select", { id });
  if (node.optional || node.default === undefined)
    input.append(el("option", { value: "", text: node.optional ? "not known" : "choose" }));
  for (const value of values) input.append(el("option", { value, text: named(value) }));
  const show = () => {
    input.value = now() ?? "";
  };
  show();
  input.addEventListener("change", () => set(input.value));
  const box = el(
    "div",
    { class: "field" },
    el("label", { class: "name", for: id, text: title }),
    input,
    hint ? el("span", { class: "hint", text: hint }) : null,
  );
  bind(state, path, box, input, show);
  return box;
}
