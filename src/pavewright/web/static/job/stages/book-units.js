// @ts-check
/** A slab, block or sett taken from the firm's book into the job: its price stays with the book. */
import { el } from "../../lib/dom.js";
import { bookUnits, ofTheBook } from "../../lib/book-units.js";
import { listen } from "../form/inputs.js";

/** @typedef {import("../job-state.js").JobState} JobState */

/** @param {JobState} state */
export function fromTheBook(state) {
  const box = el("div", { class: "row" });
  /** @type {any[]} */ let all = [];
  const draw = () => {
    const had = new Set((state.doc.units ?? []).map((one) => one.name)),
      left = all.filter((one) => !had.has(one.name));
    if (!left.length) return box.replaceChildren();
    const choice = el(
      "select",
      {},
      ...left.map((one) =>
        el("option", {
          value: one.name,
          text: `${one.name}, ${one.length_mm} × ${one.width_mm} × ${one.thickness_mm}`,
        }),
      ),
    );
    const take = el("button", { type: "button", text: "Take it into the job" });
    take.addEventListener("click", () => {
      const unit = left.find((one) => one.name === choice.value);
      if (unit)
        state.change(`${unit.name} added`, (/** @type {any} */ draft) => {
          draft.units = [...(draft.units ?? []), ofTheBook(unit)];
        });
    });
    return box.replaceChildren(
      el("label", { class: "field" }, el("span", { class: "name", text: "Of the firm’s book" }), choice),
      take,
    );
  };
  bookUnits().then((units) => {
    all = units;
    draw();
  });
  listen(state, box, "document", draw);
  return box;
}
