// @ts-check
/** A part that opens and closes, and is made the first time that it is opened: lists of hundreds of pieces. */
import { el } from "../../lib/dom.js";
import { group } from "../form/form.js";

const MANY = 6;

/**
 * A part of a form: where there are many like it, each is made when it is opened.
 * @param {number} count how many like it there are
 * @param {string} title
 * @param {() => (Node|null)[]} make
 * @param {{open?: boolean}} [wishes]
 */
export function formPart(count, title, make, wishes = {}) {
  return count > MANY && !wishes.open ? later(title, make) : group(title, make(), wishes);
}

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
