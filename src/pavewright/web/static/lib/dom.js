// @ts-check
import { told } from "./writing.js";

/** @typedef {Node|string|null|undefined|false} Child */

/**
 * @template {keyof HTMLElementTagNameMap} Tag
 * @param {Tag} tag
 * @param {Record<string, any>} [props] attributes; `on` holds listeners, `text` the text, `data` data attributes
 * @param {...(Child|Child[])} children
 * @returns {HTMLElementTagNameMap[Tag]}
 */
export function el(tag, props = {}, ...children) {
  const made = document.createElement(tag);
  filled(made, props, children.flat());
  return made;
}

/** Attributes that people read or hear. */
const SAID = new Set(["aria-label", "title", "placeholder", "alt"]);
const SVG = "http://www.w3.org/2000/svg";

/**
 * @param {string} tag
 * @param {Record<string, any>} [props]
 * @param {...(Node|string|null|undefined|false)} children
 * @returns {SVGElement}
 */
export function svg(tag, props = {}, ...children) {
  return /** @type {SVGElement} */ (filled(document.createElementNS(SVG, tag), props, children));
}

/** @param {Element} node @param {Record<string, any>} props @param {any[]} children */
function filled(node, props, children) {
  for (const [name, value] of Object.entries(props)) {
    if (value === null || value === undefined || value === false) continue;
    if (name === "on")
      for (const [event, act] of Object.entries(value)) node.addEventListener(event, /** @type {any} */ (act));
    else if (name === "text") node.textContent = told(String(value));
    else if (name === "data")
      for (const [key, word] of Object.entries(value)) /** @type {any} */ (node).dataset[key] = String(word);
    else if (name === "value" || name === "checked" || name === "open" || name === "disabled")
      /** @type {any} */ (node)[name] = value;
    else node.setAttribute(name, value === true ? "" : SAID.has(name) ? told(String(value)) : String(value));
  }
  for (const child of children.flat())
    if (child !== null && child !== undefined && child !== false)
      node.append(typeof child === "string" ? told(child) : child);
  return node;
}

/**
 * Put words into a node, as they are shown where the job is.
 * @param {Node} node @param {string|null|undefined} words
 */
export function say(node, words) {
  node.textContent = told(words ?? "");
}

/** @param {string} selector @param {ParentNode} [root] @returns {any} */
export function find(selector, root = document) {
  const found = root.querySelector(selector);
  if (!found) throw new Error(`no ${selector}`);
  return found;
}

/** Take down what was told before: its offer is about something else once another act has begun. */
export const hush = () => document.querySelectorAll(".toast").forEach((old) => old.remove());

/**
 * Say something for a moment, to eyes and to a screen reader.
 * @param {string} words
 * @param {{label: string, act: () => void}} [offer]
 */
export function tell(words, offer) {
  hush();
  const box = el("div", { class: "toast", role: "status" }, el("span", { text: words }));
  if (offer)
    box.append(
      el("button", {
        type: "button",
        text: offer.label,
        on: {
          click: () => {
            offer.act();
            box.remove();
          },
        },
      }),
    );
  document.body.append(box);
  setTimeout(() => box.remove(), offer ? 9000 : 5000);
}

/**
 * Ask in a dialog and wait.
 * @param {string} title
 * @param {Node[]} body
 * @param {{label: string, value: string, main?: boolean}[]} ways
 * @returns {Promise<string>}
 */
export function ask(title, body, ways) {
  return new Promise((done) => {
    const box = el("dialog", { "aria-label": title }, el("h2", { text: title }), ...body);
    const row = el("div", { class: "row" });
    for (const way of ways) {
      row.append(
        el("button", {
          type: "button",
          class: way.main ? "main" : "",
          text: way.label,
          on: { click: () => box.close(way.value) },
        }),
      );
    }
    box.append(row);
    box.addEventListener("close", () => {
      box.remove();
      done(box.returnValue);
    });
    document.body.append(box);
    box.showModal();
  });
}
