// @ts-check
/** A part that opens and closes, and is made the first time that it is opened: lists of hundreds of pieces. */
import { el } from "../../lib/dom.js";

/** @param {string} title @param {() => (Node|null)[]} make */
export function later(title, make) {
  const inside = el("div", { class: "inside" }),
    box = el("details", { class: "group" }, el("summary", { text: title }), inside);
  let made = false;
  box.addEventListener("toggle", () => {
    if (!box.open || made) return;
    made = true;
    inside.append(.../** @type {Node[]} */ (make().filter(Boolean)));
  });
  return box;
}
