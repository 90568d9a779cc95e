// @ts-check
/**
 * The plan on the screen: a sheet that is moved and zoomed, east to the right and north up, in millimetres of the site.
 *
 * What is drawn in `ground` is in site millimetres. What is drawn in `signs` stays the same size on the screen: each
 * sign has `data-x` and `data-y` in site millimetres and is put in its place when the sheet moves.
 */
import { svg } from "../../lib/dom.js";
import { label } from "./labelling.js";

const NEAREST = 2; // px per mm at most
const FARTHEST = 0.002;

export class PlanView extends EventTarget {
  /** @param {HTMLElement} holder @param {string} label */
  constructor(holder, label) {
    super();
    this.node = /** @type {SVGSVGElement} */ (
      svg("svg", {
        class: "plan",
        tabindex: "0",
        role: "application",
        "aria-label": label,
        "aria-roledescription": "plan",
      })
    );
    // two sheets one over the other: what a hand drags is drawn on the upper one,
    // so that the lower one is not painted anew
    this.back = /** @type {SVGSVGElement} */ (svg("svg", { class: "plan back", "aria-hidden": "true" }));
    this.ground = svg("g");
    this.backSigns = svg("g");
    this.back.append(this.defs(), this.ground, this.backSigns);
    this.over = svg("g"); // what a view lays over the plan and can be pointed at
    this.hand = svg("g");
    this.signs = svg("g");
    this.node.append(this.over, this.hand, this.signs);
    holder.append(this.back, this.node);
    this.scale = 0.08;
    this.x = 0; // site mm in the middle of the screen
    this.y = 0;
    this.node.addEventListener("wheel", (event) => this.#wheel(event), { passive: false });
    this.node.addEventListener("pointerdown", (event) => this.#down(event));
    this.node.addEventListener("keydown", (event) => this.#key(event));
    // reading it lays the page out: once a change of size
    /** @type {{width: number, height: number}|null} */ this.measured = null;
    new ResizeObserver(() => {
      this.measured = null;
      this.place();
    }).observe(holder);
    /** @type {Map<number, {x: number, y: number}>} */ this.fingers = new Map();
    /**
     * Set by a tool that needs the pointer: returns true where it takes it.
     * @type {((event: PointerEvent, at: [number, number]) => boolean)|null}
     */
    this.taker = null;
  }

  defs() {
    const hatch = (/** @type {string} */ id, /** @type {SVGElement} */ inside, size = 8) =>
      svg("pattern", { id, width: size, height: size, patternUnits: "userSpaceOnUse" }, inside);
    return svg(
      "defs",
      {},
      hatch("hatch-cut", svg("path", { d: "M0 8 8 0", stroke: "currentColor", "stroke-width": 1, opacity: 0.55 })),
      hatch(
        "hatch-water",
        svg("path", {
          d: "M0 4 q2 -3 4 0 t4 0",
          fill: "none",
          stroke: "currentColor",
          "stroke-width": 1,
          opacity: 0.5,
        }),
      ),
    );
  }

  /** Size of the sheet on the screen, px. */
  get size() {
    return (this.measured ??= { width: this.node.clientWidth || 300, height: this.node.clientHeight || 200 });
  }

  place() {
    const { width, height } = this.size,
      k = this.scale;
    const matrix = `matrix(${k} 0 0 ${-k} ${width / 2 - this.x * k} ${height / 2 + this.y * k})`;
    this.ground.setAttribute("transform", matrix);
    this.over.setAttribute("transform", matrix);
    this.hand.setAttribute("transform", matrix);
    for (const signs of [this.backSigns, this.signs])
      for (const sign of /** @type {any} */ (signs.querySelectorAll("[data-x]"))) this.placeSign(sign);
    this.dispatchEvent(new Event("place"));
    clearTimeout(this.tidying);
    this.tidying = setTimeout(() => this.tidy(), 60);
  }

  /** Put words where they read; those without room show when the plan is brought nearer. */
  tidy() {
    label(this);
  }

  /** @param {SVGElement} sign */
  placeSign(sign) {
    const [left, top] = this.toScreen([Number(sign.dataset.x), Number(sign.dataset.y)]);
    sign.setAttribute("transform", `translate(${left.toFixed(1)} ${top.toFixed(1)})`);
  }

  /** @param {[number, number]|number[]} at_mm @returns {[number, number]} */
  toScreen([x, y]) {
    const { width, height } = this.size;
    return [width / 2 + (x - this.x) * this.scale, height / 2 - (y - this.y) * this.scale];
  }

  /** @param {{clientX: number, clientY: number}} event @returns {[number, number]} */
  toSite(event) {
    const box = this.node.getBoundingClientRect(),
      { width, height } = this.size;
    return [
      this.x + (event.clientX - box.left - width / 2) / this.scale,
      this.y - (event.clientY - box.top - height / 2) / this.scale,
    ];
  }

  /** Show a box of the site. @param {[number, number, number, number]} box */
  fit([x1, y1, x2, y2]) {
    const { width, height } = this.size,
      margin = Math.min(90, width * 0.14);
    this.scale = clamp(
      Math.min((width - 2 * margin) / Math.max(x2 - x1, 500), (height - 2 * margin) / Math.max(y2 - y1, 500)),
    );
    this.x = (x1 + x2) / 2;
    this.y = (y1 + y2) / 2;
    this.place();
  }

  /** @param {number} factor @param {[number, number]} [about] site place that stays where it is */
  zoom(factor, about = [this.x, this.y]) {
    const scale = clamp(this.scale * factor),
      ratio = this.scale / scale;
    this.x = about[0] + (this.x - about[0]) * ratio;
    this.y = about[1] + (this.y - about[1]) * ratio;
    this.scale = scale;
    this.place();
  }

  /** Bring a place to the middle. @param {number[]} at_mm */
  centre([x, y]) {
    this.x = x;
    this.y = y;
    this.place();
  }

  /** @param {WheelEvent} event */
  #wheel(event) {
    event.preventDefault();
    this.zoom(Math.exp(-event.deltaY * (event.ctrlKey ? 0.01 : 0.0016)), this.toSite(event));
  }

  /** @param {PointerEvent} event */
  #down(event) {
    if (event.button > 1) return;
    this.node.focus({ preventScroll: true });
    if (this.fingers.size === 0 && event.button === 0 && this.taker?.(event, this.toSite(event))) return;
    this.fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    this.node.setPointerCapture(event.pointerId);
    const move = (/** @type {PointerEvent} */ to) => this.#move(to);
    const up = (/** @type {PointerEvent} */ end) => {
      if (end.pointerId !== event.pointerId) return;
      this.fingers.delete(event.pointerId);
      this.node.removeEventListener("pointermove", move);
      this.node.removeEventListener("pointerup", up);
      this.node.removeEventListener("pointercancel", up);
    };
    this.node.addEventListener("pointermove", move);
    this.node.addEventListener("pointerup", up);
    this.node.addEventListener("pointercancel", up);
  }

  /** @param {PointerEvent} event */
  #move(event) {
    const before = this.fingers.get(event.pointerId);
    if (!before) return;
    const other = [...this.fingers.entries()].find(([id]) => id !== event.pointerId)?.[1];
    const now = { x: event.clientX, y: event.clientY };
    if (!other) {
      this.x -= (now.x - before.x) / this.scale;
      this.y += (now.y - before.y) / this.scale;
      this.place();
    } else {
      const spread = (/** @type {{x: number, y: number}} */ one) => Math.hypot(one.x - other.x, one.y - other.y);
      const middle = { clientX: (now.x + other.x) / 2, clientY: (now.y + other.y) / 2 };
      this.zoom(spread(now) / Math.max(spread(before), 1), this.toSite(middle));
    }
    this.fingers.set(event.pointerId, now);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey) return;
    if (event.key === "+" || event.key === "=") this.zoom(1.25);
    else if (event.key === "-") this.zoom(0.8);
    else if (event.key === "0") this.dispatchEvent(new Event("fit"));
    else if (event.shiftKey && event.key.startsWith("Arrow")) {
      const step = 60 / this.scale;
      if (event.key === "ArrowLeft") this.x -= step;
      if (event.key === "ArrowRight") this.x += step;
      if (event.key === "ArrowUp") this.y += step;
      if (event.key === "ArrowDown") this.y -= step;
      this.place();
    } else return;
    event.preventDefault();
  }
}

/** @param {number} scale */
const clamp = (scale) => Math.min(NEAREST, Math.max(FARTHEST, scale));
