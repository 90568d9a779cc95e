// @ts-check
/**
 * What a view lays over the plan for as long as it is looked at: pieces picked out, water, a storm. It never takes the
 * hand from the plan.
 */
import { svg } from "../../lib/dom.js";

export class Overlay {
  /** @param {import("../plan/view.js").PlanView} view */
  constructor(view) {
    this.view = view;
    this.ground = svg("g", { class: "look-ground" });
    this.signs = svg("g", { class: "look-signs" });
    view.over.append(this.ground);
    view.signs.append(this.signs);
    /** @type {string|null} the view whose drawing lies there */ this.owner = null;
  }

  /** Begin a drawing: what another view left is removed. @param {string} owner */
  take(owner) {
    if (this.owner !== owner) this.clear();
    this.owner = owner;
    return this;
  }

  clear() {
    this.owner = null;
    this.ground.replaceChildren();
    this.signs.replaceChildren();
  }

  /** A sign that keeps its size. @param {number[]} at @param {...Node} inside */
  sign(at, ...inside) {
    const node = svg("g", { "data-x": at[0], "data-y": at[1] }, ...inside);
    this.signs.append(node);
    this.view.placeSign(node);
    return node;
  }
}
