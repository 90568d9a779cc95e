// @ts-check
/**
 * Changing the plan by hand: corners and sides of areas, and what stands on the site.
 *
 * Corners are dragged, nudged with the arrow keys or typed. While a corner is dragged the outline follows at once and
 * the counts and falls follow from the server; the document changes when the hand lets go.
 */
import { inside } from "../../lib/kernel.js";
import { el, svg, tell } from "../../lib/dom.js";
import { metres, tape } from "../../lib/words.js";
import {
  addArea,
  addDoor,
  addHole,
  addThing,
  cornersOf,
  moveCorner,
  placesIn,
  removeCorner,
  THINGS,
} from "./document.js";
import { dragCorner, sideTurn } from "./drag.js";
import { LAYERS } from "./layers.js";
import { outlineOf, placesOf } from "./outline.js";
import { PlanView } from "./view.js";
import { pathOf } from "./paths.js";
import { bringIntoSight, fillSide } from "./side-panel.js";
import { drawable } from "../so-far.js";
import { stripOf } from "./strip.js";
import { openTyping } from "./type-lengths.js";

const SNAP_PX = 12;

export class PlanEditor extends EventTarget {
  /** @param {import("../job-state.js").JobState} state @param {HTMLElement} holder @param {HTMLElement} strip */
  constructor(state, holder, strip) {
    super();
    this.state = state;
    this.strip = strip;
    this.view = new PlanView(
      holder,
      "Plan of the job. Arrow keys with Shift move the sheet, plus and minus zoom, 0 shows all. Tab goes to the " +
        "corners.",
    );
    this.holder = holder;
    this.layers = svg("g");
    this.view.ground.append(this.layers);
    this.hand = this.view.hand;
    this.layerSigns = svg("g");
    this.view.backSigns.append(this.layerSigns);
    this.handles = svg("g");
    this.view.signs.append(this.handles);
    this.side = el("div", { class: "side-box", hidden: true });
    (document.querySelector("#side-room") ?? holder).append(this.side); // beside the plan, never over it
    /** @type {Set<string>} */ this.shown = new Set(Object.keys(LAYERS).filter((name) => LAYERS[name].on));
    this.tool = "move";
    /** @type {(string|[number, number])[]} */ this.clicked = [];
    /** @type {{area: number, ring: number, index: number}|null} */ this.picked = null;
    this.fitted = false;
    /** @type {((view: PlanView) => void)[]} what layers draw again when the sheet is moved */ this.live = [];
    this.following = 0;
    /** @type {JobDocument|null} the document under a hand that drags */ this.draft = null;
    // a document without readings is shown as a draft beside the plan
    state.addEventListener("document", () => {
      if (state.doc?.measurements) this.drawHand();
    });
    state.addEventListener("plan", () => {
      if (state.doc?.measurements) this.draw();
    });
    for (const name of ["preview", "waits"]) state.addEventListener(name, () => this.tellStrip());
    this.view.addEventListener("place", () => {
      this.following ||= requestAnimationFrame(() => this.#follow());
    });
    this.view.addEventListener("fit", () => this.fit());
    this.view.taker = (event, at) => this.#take(event, at);
    this.view.node.addEventListener("keydown", (event) => this.#key(event));
  }

  get places() {
    return placesIn(this.draft ?? this.state.doc, this.state.plan ? placesOf(this.state.plan) : new Map());
  }

  /** Show these layers. @param {Iterable<string>} names */
  show(names) {
    this.shown = new Set(names);
    this.draw();
  }

  fit() {
    const all = [...this.places.entries()].filter(([name]) => this.#used().has(name)).map(([, at]) => at);
    if (!all.length) return;
    const xs = all.map((at) => at[0]),
      ys = all.map((at) => at[1]);
    this.view.fit([Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)]);
  }

  /** Points of outlines and walls. */
  #used() {
    const names = new Set();
    for (const area of this.state.doc.areas ?? []) for (const corner of area.outline) names.add(corner.point);
    for (const wall of this.state.doc.site?.walls ?? []) {
      names.add(wall.start);
      names.add(wall.end);
    }
    return names;
  }

  draw() {
    this.layers.replaceChildren();
    this.layerSigns.replaceChildren();
    this.live = [];
    if (this.state.plan) {
      const to = {
        ground: this.layers,
        signs: this.layerSigns,
        plan: drawable(this.state.plan),
        doc: this.state.doc,
        scale: this.view.scale,
        points: this.places,
        live: this.live,
      };
      for (const [name, layer] of Object.entries(LAYERS)) if (this.shown.has(name)) layer.draw(to);
    }
    this.drawHand();
    const all = (this.state.doc?.areas ?? []).every((area) =>
      area.outline.every((corner) => this.places.has(corner.point)),
    );
    if (!this.fitted && this.state.doc && all) {
      this.fitted = true;
      this.fit();
    } else this.view.place();
    this.#follow();
  }

  /** Draw what of the layers has come onto the screen, or is drawn otherwise from near by. */
  #follow() {
    cancelAnimationFrame(this.following);
    this.following = 0;
    for (const draw of this.live) draw(this.view);
  }

  /** Outlines, corners and lengths, as the document or the hand has them. */
  drawHand() {
    const doc = this.draft ?? this.state.doc,
      places = this.places,
      had = /** @type {any} */ (document.activeElement)?.dataset?.handle;
    this.hand.replaceChildren();
    this.handles.replaceChildren();
    (doc.areas ?? []).forEach((area, number) => {
      [area.outline, ...(area.holes ?? [])].forEach((corners, ringNumber) => {
        const flat = outlineOf(corners, places),
          ring = ringNumber - 1;
        if (!flat.length) return;
        this.hand.append(
          svg("path", {
            "data-ring": `${number}.${ring}`,
            d: pathOf(flat),
            fill: "none",
            stroke: "var(--ink)",
            "stroke-width": ring < 0 ? 2.4 : 1.8,
            "vector-effect": "non-scaling-stroke",
          }),
        );
        this.#sides(corners, places, number, ring);
      });
    });
    this.clicked.forEach((place) => {
      const at = typeof place === "string" ? places.get(place) : place;
      if (at)
        this.handles.append(
          svg("g", { "data-x": at[0], "data-y": at[1] }, svg("circle", { r: 6, fill: "var(--act)" })),
        );
    });
    for (const sign of /** @type {any} */ (this.handles.children)) this.view.placeSign(sign);
    if (!this.draft) this.view.tidy();
    if (had) /** @type {any} */ (this.handles.querySelector(`[data-handle="${had}"]`))?.focus({ preventScroll: true });
    this.tellStrip();
  }

  /** @param {any[]} corners @param {Map<string, number[]>} places @param {number} area @param {number} ring */
  #sides(corners, places, area, ring) {
    const count = corners.length,
      editable = this.tool === "move";
    corners.forEach((corner, index) => {
      const from = places.get(corner.point),
        to = places.get(corners[(index + 1) % count].point);
      if (!from || !to) return;
      const length = Math.hypot(to[0] - from[0], to[1] - from[1]),
        middle = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
      const isPicked = this.picked?.area === area && this.picked.ring === ring && this.picked.index === index;
      const key = `${area}.${ring}.${index}`;
      if (length * this.view.scale > 46 || isPicked) {
        const label = svg(
          "g",
          {
            "data-x": middle[0],
            "data-y": middle[1],
            "data-long": length * this.view.scale,
            class: "side",
            tabindex: editable ? "0" : null,
            role: "button",
            "data-handle": `s${key}`,
            "aria-label":
              `Side ${corner.point} to ${corners[(index + 1) % count].point}, ${metres(length)}. Enter ` +
              `changes it.`,
          },
          svg(
            "g",
            { transform: `rotate(${sideTurn(from, to).toFixed(1)})` },
            svg("rect", { x: -32, y: -24, width: 64, height: 48, fill: "transparent" }),
            svg("text", {
              y: ring < 0 ? 20 : -8,
              "font-size": 13,
              "text-anchor": "middle",
              fill: isPicked ? "var(--act)" : "currentColor",
              "font-weight": isPicked ? 800 : 500,
              stroke: "var(--sheet)",
              "stroke-width": 3.5,
              "paint-order": "stroke",
              text: tape(length),
            }),
          ),
        );
        if (editable) {
          // the sheet would take the pointer, and the click with it
          label.addEventListener("pointerdown", (event) => event.stopPropagation());
          label.addEventListener("click", () => this.pickSide(area, ring, index));
          label.addEventListener("keydown", (event) => {
            if (event.key === "Enter" || event.key === " ") {
              event.preventDefault();
              this.pickSide(area, ring, index);
            }
          });
        }
        this.handles.append(label);
      }
      if (!editable) return;
      const handle = svg(
        "g",
        {
          "data-x": from[0],
          "data-y": from[1],
          class: "corner",
          tabindex: "0",
          role: "button",
          "data-handle": `c${key}`,
          "data-corner": corner.point,
          "aria-label":
            `Corner ${corner.point}, ${metres(from[0])} east, ${metres(from[1])} north. Arrow keys move ` +
            `it 10 mm, with Control 1 mm. Delete removes it.`,
        },
        svg("circle", { r: 24, fill: "transparent" }),
        svg("circle", { r: 7.5, fill: "var(--sheet)", stroke: "var(--act)", "stroke-width": 3 }),
        svg("text", {
          x: -13,
          y: 18,
          "font-size": 12.5,
          "font-weight": 700,
          "text-anchor": "end",
          fill: "var(--act)",
          stroke: "var(--sheet)",
          "stroke-width": 3.5,
          "paint-order": "stroke",
          text: corner.point,
        }),
      );
      handle.addEventListener("pointerdown", (event) =>
        this.#grab(/** @type {PointerEvent} */ (event), area, ring, index),
      );
      handle.addEventListener("keydown", (event) =>
        this.#nudge(/** @type {KeyboardEvent} */ (event), area, ring, index),
      );
      this.handles.append(handle);
    });
  }

  // ---- dragging

  /** @param {PointerEvent} event @param {number} area @param {number} ring @param {number} index */
  #grab(event, area, ring, index) {
    if (event.button !== 0 || this.tool !== "move") return;
    event.stopPropagation();
    event.preventDefault();
    dragCorner(this, event, area, ring, index);
  }

  /**
   * Bring a place to a point, to the line of another corner, or to whole 5 mm.
   * @param {[number, number]} at @param {number} area @param {number} ring @param {number} index @param {boolean} free
   * @returns {[number, number]}
   */
  snap(at, area, ring, index, free) {
    if (free) return [Math.round(at[0]), Math.round(at[1])];
    const reach = SNAP_PX / this.view.scale,
      own = area >= 0 ? cornersOf(this.state.doc, area, ring)[index]?.point : "";
    let best = reach,
      found = /** @type {number[]|null} */ (null),
      x = Math.round(at[0] / 5) * 5,
      y = Math.round(at[1] / 5) * 5,
      nearX = reach,
      nearY = reach;
    const used = this.#used();
    for (const [name, place] of this.places) {
      if (name === own) continue;
      const far = Math.hypot(place[0] - at[0], place[1] - at[1]);
      if (far < best) {
        best = far;
        found = place;
      }
      if (!used.has(name)) continue;
      if (Math.abs(place[0] - at[0]) < nearX) {
        nearX = Math.abs(place[0] - at[0]);
        x = place[0];
      }
      if (Math.abs(place[1] - at[1]) < nearY) {
        nearY = Math.abs(place[1] - at[1]);
        y = place[1];
      }
    }
    return found ? [found[0], found[1]] : [x, y];
  }

  /** @param {KeyboardEvent} event @param {number} area @param {number} ring @param {number} index */
  #nudge(event, area, ring, index) {
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    const point = cornersOf(this.state.doc, area, ring)[index].point;
    if (event.key === "Enter") {
      event.preventDefault();
      this.pickSide(area, ring, index);
      return;
    }
    if (event.key === "Delete" || event.key === "Backspace") {
      event.preventDefault();
      this.removeCorner(area, ring, index);
      return;
    }
    if (!way || event.shiftKey) return;
    event.preventDefault();
    event.stopPropagation();
    const step = event.ctrlKey ? 1 : 10,
      from = this.places.get(point);
    if (from)
      this.state.change(`corner ${point} nudged`, (doc) => {
        moveCorner(doc, area, ring, index, [from[0] + way[0] * step, from[1] + way[1] * step]);
      });
  }

  /** @param {number} area @param {number} ring @param {number} index */
  removeCorner(area, ring, index) {
    let done = false;
    this.state.change("corner taken out", (doc) => {
      done = removeCorner(doc, area, ring, index);
    });
    if (!done) tell("Three corners have to stay.");
    this.closeSide();
  }

  // ---- a side, typed

  /** @param {number} area @param {number} ring @param {number} index */
  pickSide(area, ring, index) {
    this.picked = { area, ring, index };
    if (!fillSide(this, area, ring, index)) return;
    this.side.hidden = false;
    this.dispatchEvent(new Event("side"));
    bringIntoSight(this, area, ring, index);
    this.drawHand();
    this.side.querySelector("input")?.focus();
  }

  closeSide() {
    this.picked = null;
    this.side.hidden = true;
    this.drawHand();
  }

  // ---- tools that put something on the plan

  /** @param {string} tool */
  choose(tool) {
    this.tool = tool;
    this.clicked = [];
    this.closeSide();
    this.dispatchEvent(new Event("tool"));
    const thing = THINGS[tool];
    if (tool === "area" || tool === "wall") openTyping(this, tool);
    else if (tool === "hole") tell("Tap the corners in turn; tap the first one again to close.");
    else if (tool === "door") tell("Tap the wall where the door is.");
    else if (thing)
      tell(
        thing.places === 2
          ? `Tap where the ${thing.words.toLowerCase()} begins, then where it ends.`
          : `Tap where the ${thing.words.toLowerCase()} is.`,
      );
  }

  /** @param {PointerEvent} event @param {[number, number]} at */
  #take(event, at) {
    if (this.tool === "move") return false;
    this.put(this.#nameOr(this.snap(at, -1, -1, -1, event.altKey)));
    return true;
  }

  /**
   * The name of a point that lies there, or the place.
   * @param {[number, number]} at
   * @returns {string|[number, number]}
   */
  #nameOr(at) {
    for (const [name, place] of this.places) if (Math.hypot(place[0] - at[0], place[1] - at[1]) < 0.5) return name;
    return at;
  }

  /** @param {string|[number, number]} place */
  put(place) {
    if (this.tool === "door") {
      this.#door(place);
      return;
    }
    const first = this.clicked[0],
      at = (/** @type {string|[number, number]} */ one) =>
        typeof one === "string" ? /** @type {any} */ (this.places.get(one)) : one;
    if (this.tool === "area" || this.tool === "hole") {
      const closes =
        first !== undefined &&
        this.clicked.length >= 3 &&
        Math.hypot(at(first)[0] - at(place)[0], at(first)[1] - at(place)[1]) < 24 / this.view.scale;
      if (!closes) {
        this.clicked.push(at(place));
        this.drawHand();
        return;
      }
      const corners = /** @type {[number, number][]} */ (this.clicked.map(at));
      const tool = this.tool;
      this.choose("move");
      this.state.change(tool === "area" ? "area drawn" : "hole drawn", (doc) => {
        if (tool === "area") addArea(doc, corners);
        else addHole(doc, this.#areaAt(corners[0]), corners);
      });
      return;
    }
    const thing = THINGS[this.tool];
    this.clicked.push(place);
    if (this.clicked.length < thing.places) {
      this.drawHand();
      return;
    }
    const { clicked, tool } = this;
    this.choose("move");
    this.state.change(`${thing.words.toLowerCase()} added`, (doc) => addThing(doc, tool, clicked));
  }

  /** @param {[number, number]} at */
  #areaAt(at) {
    return Math.max(
      0,
      this.state.doc.areas.findIndex((area) => inside(at, [outlineOf(area.outline, this.places)])),
    );
  }

  /** @param {string|[number, number]} place */
  #door(place) {
    const at = typeof place === "string" ? this.places.get(place) : place;
    if (!at) return;
    let best = Infinity,
      wall = -1,
      along = 0;
    (this.state.doc.site?.walls ?? []).forEach((each, index) => {
      const a = this.places.get(each.start),
        b = this.places.get(each.end);
      if (!a || !b) return;
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1,
        t = Math.max(0, Math.min(1, ((at[0] - a[0]) * (b[0] - a[0]) + (at[1] - a[1]) * (b[1] - a[1])) / length ** 2));
      const far = Math.hypot(a[0] + t * (b[0] - a[0]) - at[0], a[1] + t * (b[1] - a[1]) - at[1]);
      if (far < best) {
        best = far;
        wall = index;
        along = t * length;
      }
    });
    this.choose("move");
    if (wall < 0 || best > 60 / this.view.scale) tell("There is no wall near there: draw the wall first.");
    else this.state.change("door added", (doc) => addDoor(doc, wall, along));
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.key === "Escape") {
      this.choose("move");
      return;
    }
    if (this.tool !== "move" && event.key === "Enter") {
      event.preventDefault();
      this.put(this.#nameOr(this.snap([this.view.x, this.view.y], -1, -1, -1, false)));
    }
  }

  // ---- the strip under the plan

  tellStrip() {
    this.strip.replaceChildren(...stripOf(this.state, Boolean(this.draft)));
  }
}
