// @ts-check
/**
 * The two panes of the working screen: the plan and what belongs to the stage. The bar between them is moved by the
 * pointer or by arrow keys; on a small screen one of them can have it all. Sizes are kept on the device.
 */
import { el, find } from "../lib/dom.js";

const KEPT = "pavewright.panes";
const MIN = 20,
  MAX = 80,
  STEP = 4;
/** What is shown, with its sign. @type {[string, string, string][]} */
const VIEWS = [
  ["plan", "Plan", "The plan alone"],
  ["both", "Both", "Plan and stage"],
  ["panel", "Stage", "The stage alone"],
];

/** Whether the panes stand one over the other. */
const stacked = matchMedia("(max-width: 720px) and (orientation: portrait), (max-width: 599px)");

/** @returns {{beside: number, over: number, view: string}} */
function kept() {
  const start = { beside: 55, over: 50, view: "both" };
  try {
    const had = JSON.parse(localStorage.getItem(KEPT) ?? "{}");
    for (const way of /** @type {const} */ (["beside", "over"]))
      if (typeof had[way] === "number") start[way] = within(had[way]);
    if (VIEWS.some(([view]) => view === had.view)) start.view = had.view;
  } catch {
    /* as at the start */
  }
  return start;
}

/** @param {number} share */
const within = (share) => Math.round(Math.min(MAX, Math.max(MIN, share)));

export class Panes {
  constructor() {
    this.sizes = kept();
    this.split = /** @type {HTMLElement} */ (find("#split"));
    this.buttons = VIEWS.map(([view, words, title]) =>
      el("button", { type: "button", text: words, title, on: { click: () => this.show(view) } }),
    );
    find("#views").replaceChildren(...this.buttons);
    this.split.addEventListener("pointerdown", (event) => this.#grab(event));
    this.split.addEventListener("keydown", (event) => this.#key(event));
    this.split.addEventListener("dblclick", () => this.#share(50));
    stacked.addEventListener("change", () => this.#put());
    this.show(this.sizes.view);
  }

  get way() {
    return stacked.matches ? /** @type {const} */ ("over") : /** @type {const} */ ("beside");
  }

  /** Show the plan, the stage or both. @param {string} view */
  show(view) {
    this.sizes.view = view;
    document.body.dataset.view = view;
    this.buttons.forEach((button, index) => button.setAttribute("aria-pressed", String(VIEWS[index][0] === view)));
    this.#put();
  }

  /** Something has come into a pane: it is shown. @param {"plan"|"panel"} pane */
  reveal(pane) {
    if (this.sizes.view !== "both" && this.sizes.view !== pane) this.show("both");
  }

  /** @param {number} share of the plan, in percent */
  #share(share) {
    this.sizes[this.way] = within(share);
    if (this.sizes.view !== "both") this.show("both");
    else this.#put();
  }

  #put() {
    const share = this.sizes[this.way];
    document.body.style.setProperty("--plan-share", `${share}fr`);
    document.body.style.setProperty("--panel-share", `${100 - share}fr`);
    this.split.setAttribute("aria-valuenow", String(share));
    this.split.setAttribute("aria-valuetext", `plan ${share} %, stage ${100 - share} %`);
    this.split.setAttribute("aria-orientation", this.way === "over" ? "horizontal" : "vertical");
    try {
      localStorage.setItem(KEPT, JSON.stringify(this.sizes));
    } catch {
      /* it holds for this page only */
    }
  }

  /** @param {PointerEvent} event */
  #grab(event) {
    if (event.button !== 0) return;
    event.preventDefault();
    this.split.setPointerCapture(event.pointerId);
    const plan = find(".plan-room").getBoundingClientRect(),
      panel = find(".panel-room").getBoundingClientRect(),
      over = this.way === "over";
    const from = over ? plan.top || panel.top : plan.left || panel.left,
      room = over ? plan.height + panel.height : plan.width + panel.width,
      half = over ? this.split.offsetHeight / 2 : this.split.offsetWidth / 2;
    const move = (/** @type {PointerEvent} */ to) =>
      this.#share((((over ? to.clientY : to.clientX) - half - from) / room) * 100);
    const end = () => {
      this.split.removeEventListener("pointermove", move);
      this.split.removeEventListener("pointerup", end);
      this.split.removeEventListener("pointercancel", end);
    };
    this.split.addEventListener("pointermove", move);
    this.split.addEventListener("pointerup", end);
    this.split.addEventListener("pointercancel", end);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const now = this.sizes[this.way];
    const to = {
      ArrowLeft: now - STEP,
      ArrowUp: now - STEP,
      ArrowRight: now + STEP,
      ArrowDown: now + STEP,
      Home: MIN,
      End: MAX,
      Enter: 50,
    }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    this.#share(to);
  }
}
