// @ts-check
/** A list of the document as a table for quick typing. */
import { cards, placed } from "../../lib/cards.js";
import { el } from "../../lib/dom.js";
import { at, put } from "../job-state.js";
import { labelled } from "../../lib/words.js";
import { field } from "./form.js";
import { listen } from "./inputs.js";
import { blank, resolved, schemaAt } from "./schema.js";

/**
 * A list as a table for quick typing: tapes, staff readings, level as laid.
 * @param {JobState} state @param {(string|number)[]} path @param {string[]} columns
 * @param {{title: string, add: string, start?: (doc: any) => any}} wishes
 */
export function rows(state, path, columns, wishes) {
  const inner = resolved(schemaAt(path).items),
    box = el("div", { class: "field wide" }),
    body = el("tbody");
  let shown = -1;
  const head = el(
    "tr",
    {},
    ...columns.map((name) => {
      const label = labelled(name);
      return el("th", {
        scope: "col",
        text: label.unit && !["price"].includes(label.unit) ? `${label.name}, ${label.unit}` : label.name,
      });
    }),
    el("th", {}, el("span", { class: "unseen", text: "Delete" })),
  );
  const full = el("table", {}, el("thead", {}, head), body),
    place = placed(wishes.title, full);
  const draw = () => {
    const found = at(state.doc, path) ?? [];
    shown = found.length;
    body.replaceChildren(
      ...found.map((/** @type {any} */ _, /** @type {number} */ index) =>
        el(
          "tr",
          {},
          ...columns.map((name) => {
            const cell = field(state, [...path, index, name]);
            cell.querySelector(".hint")?.remove();
            cell.querySelector("label.name, legend")?.classList.add("unseen");
            return el("td", {}, cell);
          }),
          el(
            "td",
            {},
            el("button", {
              type: "button",
              class: "small",
              "aria-label": `Delete row ${index + 1}`,
              text: "✕",
              on: {
                click: () => {
                  state.change("row deleted", (doc) => put(doc, [...path, index], undefined));
                  draw();
                },
              },
            }),
          ),
        ),
      ),
    );
    cards(full, place);
  };
  draw();
  const add = () => {
    state.change(`${wishes.add} added`, (doc) => {
      const there = at(doc, path) ?? [];
      there.push(wishes.start ? wishes.start(doc) : blank(inner));
      put(doc, path, there);
    });
    draw();
    const first = /** @type {HTMLInputElement|null} */ (body.lastElementChild?.querySelector("input, select"));
    first?.focus();
    first?.select?.();
  };
  box.append(
    el("h3", { text: wishes.title }),
    place,
    el("button", { type: "button", class: "small", text: `+ ${wishes.add}`, on: { click: add } }),
  );
  // Enter in the last box of the last row goes on to a new one
  body.addEventListener("keydown", (event) => {
    const last = body.lastElementChild,
      inputs = last?.querySelectorAll("input, select") ?? [];
    if (event.key !== "Enter" || event.target !== inputs[inputs.length - 1]) return;
    if (/** @type {HTMLInputElement} */ (event.target).dataset.wrong) return;
    event.preventDefault();
    /** @type {HTMLElement} */ (event.target).blur();
    add();
  });
  listen(state, box, "document", () => {
    if ((at(state.doc, path) ?? []).length !== shown) draw();
  });
  return box;
}
