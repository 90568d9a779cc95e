// @ts-check
import { el } from "../../lib/dom.js";
import { listen } from "./inputs.js";

/**
 * Parts of a form that hang on something of the document: drawn anew when that changes, with what was open left open.
 * @param {JobState} state
 * @param {(doc: JobDocument) => any} of
 * @param {() => Node[]} make
 */
export function following(state, of, make) {
  const box = el("div", { class: "following" });
  let drawn = "";
  const draw = () => {
    const now = JSON.stringify(of(state.doc) ?? null);
    if (now === drawn) return;
    drawn = now;
    const open = new Set([...box.querySelectorAll("details[open] > summary")].map((one) => one.textContent));
    box.replaceChildren(...make());
    for (const one of box.querySelectorAll("details"))
      if (open.has(one.querySelector("summary")?.textContent ?? "")) one.open = true;
  };
  draw();
  listen(state, box, "document", draw);
  return box;
}
