// @ts-check
/**
 * A corner under the hand. What hangs on the corner is moved on the sheet once a frame: the outlines that run through
 * it, the lengths beside it, its sign. Nothing else is drawn, and nothing waits for the server.
 */
import { say } from "../../lib/dom.js";
import { metres, tape } from "../../lib/words.js";
import { told } from "../../lib/writing.js";
import { cornersOf, moveCorner, placesIn } from "./document.js";
import { outlineOf, placesOf } from "./outline.js";
import { pathOf } from "./paths.js";

/** How far words along a side are turned, degrees. @param {number[]} from @param {number[]} to */
export function sideTurn(from, to) {
  const turn = (-Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
  return turn > 90 ? turn - 180 : turn < -90 ? turn + 180 : turn;
}

/** @typedef {{corners: any[], key: string}} Hanging an outline that runs through the corner, and its name */

export class Drag {
  /** @param {import("./edit.js").PlanEditor} editor @param {number} area @param {number} ring @param {number} index */
  constructor(editor, area, ring, index) {
    this.editor = editor;
    this.at = /** @type {const} */ ([area, ring, index]);
    this.draft = structuredClone(editor.state.doc);
    this.places = placesIn(this.draft, editor.state.plan ? placesOf(editor.state.plan) : new Map());
    /** @type {Hanging[]} */ this.hanging = [];
    /** @type {Map<string, any>} */ this.nodes = new Map();
    this.name = "";
  }

  /** Move the corner. @param {[number, number]} to */
  move(to) {
    const name = moveCorner(this.draft, ...this.at, to),
      point = this.draft.measurements.points?.find((/** @type {{name: string}} */ each) => each.name === name);
    if (point) this.places.set(name, [point.x_mm, point.y_mm]);
    if (name !== this.name) {
      this.name = name;
      this.hanging = this.#hanging();
    }
  }

  /** Outlines that the corner shapes: the same point may be a corner of several, or lie on an arc. */
  #hanging() {
    /** @type {Hanging[]} */ const found = [];
    this.draft.areas.forEach((area, number) => {
      for (let ring = -1; ring < (area.holes?.length ?? 0); ring += 1) {
        const corners = cornersOf(this.draft, number, ring);
        if (corners.some((each) => [each.point, each.through, each.centre].includes(this.name)))
          found.push({ corners, key: `${number}.${ring}` });
      }
    });
    return found;
  }

  /** Draw what has moved. */
  draw() {
    for (const { corners, key } of this.hanging) {
      this.#node(`[data-ring="${key}"]`)?.setAttribute("d", pathOf(outlineOf(corners, this.places)));
      corners.forEach((corner, index) => {
        const next = corners[(index + 1) % corners.length].point;
        if (corner.point === this.name)
          this.#put(this.#node(`[data-handle="c${key}.${index}"]`), this.#place(this.name));
        if (corner.point === this.name || next === this.name) this.#side(`${key}.${index}`, corner.point, next);
      });
    }
  }

  /** @param {string} key @param {string} start @param {string} end */
  #side(key, start, end) {
    const label = this.#node(`[data-handle="s${key}"]`),
      from = this.#place(start),
      to = this.#place(end);
    if (!label || !from || !to) return;
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    this.#put(label, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]);
    label.firstElementChild.setAttribute("transform", `rotate(${sideTurn(from, to).toFixed(1)})`);
    say(label.querySelector("text"), tape(length));
    label.setAttribute("aria-label", told(`Side ${start} to ${end}, ${metres(length)}. Enter changes it.`));
  }

  /** @param {string} name */
  #place(name) {
    return /** @type {number[]} */ (this.places.get(name));
  }

  /** @param {any} sign @param {number[]|undefined} at */
  #put(sign, at) {
    if (!sign || !at) return;
    sign.dataset.x = at[0];
    sign.dataset.y = at[1];
    this.editor.view.placeSign(sign);
  }

  /** A node of the sheet, looked for once. @param {string} selector */
  #node(selector) {
    if (!this.nodes.has(selector)) this.nodes.set(selector, this.editor.view.node.querySelector(selector));
    return this.nodes.get(selector);
  }
}

/**
 * Take a corner along until the pointer lets it go; what the pointer does between two frames is one move.
 * @param {import("./edit.js").PlanEditor} editor
 * @param {PointerEvent} event
 * @param {number} area @param {number} ring @param {number} index
 */
export function dragCorner(editor, event, area, ring, index) {
  const { view, state } = editor,
    node = view.node;
  node.setPointerCapture(event.pointerId);
  view.back.classList.add("waiting");
  /** @type {Drag|null} */ let drag = null;
  /** @type {PointerEvent|null} */ let last = null;
  let frame = 0;
  const follow = () => {
    frame = 0;
    if (!last || !drag) return;
    drag.move(editor.snap(view.toSite(last), area, ring, index, last.altKey));
    last = null;
    drag.draw();
    state.previewOf(drag.draft);
  };
  const move = (/** @type {PointerEvent} */ to) => {
    drag ??= new Drag(editor, area, ring, index);
    editor.draft = drag.draft;
    last = to;
    frame ||= requestAnimationFrame(follow);
  };
  const end = (/** @type {PointerEvent} */ up) => {
    node.removeEventListener("pointermove", move);
    node.removeEventListener("pointerup", end);
    node.removeEventListener("pointercancel", end);
    cancelAnimationFrame(frame);
    if (up.type === "pointerup") follow();
    view.back.classList.remove("waiting");
    editor.draft = null;
    if (drag && up.type === "pointerup")
      state.put(`corner ${cornersOf(state.doc, area, ring)[index].point} moved`, drag.draft);
    else {
      editor.drawHand();
      if (!drag) editor.pickSide(area, ring, index);
    }
  };
  node.addEventListener("pointermove", move);
  node.addEventListener("pointerup", end);
  node.addEventListener("pointercancel", end);
}
