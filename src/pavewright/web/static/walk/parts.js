// @ts-check
/** Pieces that the steps of the walk are made of. */
import { el } from "../lib/dom.js";

/** @param {string} text @param {() => void} click @param {Record<string, any>} [more] */
export const button = (text, click, more = {}) =>
  el("button", { type: "button", class: "tall", text, on: { click }, ...more });

/**
 * The question, with how far one is beside it.
 * @param {string} text
 * @param {string} [count]
 */
export const asked = (text, count = "") =>
  el(
    "div",
    { class: "asked" },
    el("p", { class: "question", text }),
    count ? el("p", { class: "count", role: "status", text: count }) : null,
  );

/**
 * Follow a finger until it is lifted.
 * @param {any} view
 * @param {PointerEvent} event
 * @param {(at: number[]) => void} move
 * @param {(moved: boolean) => void} end
 */
export function dragged(view, event, move, end) {
  const { node } = view,
    from = [event.clientX, event.clientY];
  let moved = false;
  node.setPointerCapture(event.pointerId);
  const onMove = (/** @type {PointerEvent} */ to) => {
    moved ||= Math.hypot(to.clientX - from[0], to.clientY - from[1]) > 12;
    if (moved) move(view.toSite(to));
  };
  const onUp = (/** @type {PointerEvent} */ to) => {
    node.removeEventListener("pointermove", onMove);
    for (const kind of ["pointerup", "pointercancel"]) node.removeEventListener(kind, onUp);
    end(moved && to.type === "pointerup");
  };
  node.addEventListener("pointermove", onMove);
  for (const kind of ["pointerup", "pointercancel"]) node.addEventListener(kind, onUp);
}
