// @ts-check
/** Recording that the customer accepted on paper or by message: who, when, and which options he took. */
import { ask, el, say } from "../../lib/dom.js";

/** @typedef {import("./account.js").Here} Here */

/** A field of a dialog. @param {string} name @param {HTMLElement} box */
export const asked = (name, box) => el("label", { class: "field" }, el("span", { class: "name", text: name }), box);

/** @param {string} value @returns {HTMLInputElement} */
export const dayBox = (value) => /** @type {any} */ (el("input", { type: "date", required: true, value }));

/** @param {Record<string, any>} [props] @returns {HTMLInputElement} */
export const textBox = (props = {}) => /** @type {any} */ (el("input", { type: "text", maxlength: 60, ...props }));

/** @param {string[][]} choices @returns {HTMLSelectElement} */
export const choiceBox = (choices) =>
  /** @type {any} */ (el("select", {}, ...choices.map(([value = "", text = ""]) => el("option", { value, text }))));

/**
 * Ask in a dialog; whether it was confirmed.
 * @param {string} title @param {Node[]} body @param {string} go
 */
export const confirmed = async (title, body, go) =>
  (await ask(title, body, [
    { label: go, value: "go", main: true },
    { label: "Not now", value: "" },
  ])) === "go";

/** The day of today as a date field has it. */
export const today = () => {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
};

/** @param {Here} here @returns {Node[]} */
export function acceptWays({ state, told, step }) {
  const go = el("button", { type: "button", class: "main", text: "Record the acceptance" });
  go.addEventListener("click", async () => {
    if (state.saving !== "saved" || state.saveRunning) {
      say(told, "The last change is still being kept: try again in a moment.");
      return;
    }
    const by = textBox({ value: state.doc.identity.client ?? "" }),
      on = dayBox(today()),
      means = choiceBox([
        ["paper", "signed on paper"],
        ["message", "by message"],
      ]),
      options = (state.doc.terms?.options ?? []).map((/** @type {any} */ one) => {
        const box = /** @type {HTMLInputElement} */ (el("input", { type: "checkbox" }));
        return { name: one.name, box, label: el("label", { class: "field tick" }, box, ` ${one.name}`) };
      });
    const body = [asked("Who accepted", by), asked("On", on), asked("How", means)];
    if (options.length)
      body.push(asked("Options taken", el("div", {}, ...options.map((/** @type {any} */ one) => one.label))));
    if (!(await confirmed("The customer accepted", body, "Record it"))) return;
    await step("quotation accepted", {
      step: "accept",
      by: by.value.trim(),
      on: on.value,
      means: means.value,
      options: options.filter((/** @type {any} */ one) => one.box.checked).map((/** @type {any} */ one) => one.name),
      stored_revision: state.rev,
    });
  });
  return [el("p", { class: "row" }, go)];
}
