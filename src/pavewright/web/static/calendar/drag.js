// @ts-check
/** Parts taken by mouse, by finger after a short hold so that a page still scrolls, and by the arrow keys. */
import { aim, carrying, drop, keep, putBack, step, take } from "./carry.js";
import { workdaysBefore } from "./days.js";

const HOLD_ms = 300;
/** A mouse that moves so far drags; a finger that does before the hold is over scrolls. */
const STARTS_px = 6;
/** So near to an edge the page goes on under the hand. */
const EDGE_px = 56;
const STEP_px = 12;

/**
 * Let a part be taken.
 * @param {HTMLElement} chip
 * @param {any} booking
 * @param {number} place which of its days this is: that day comes to stand where it is let go
 * @param {string} person in whose row it is; empty where it stands for everybody
 */
export function canBeTaken(chip, booking, place, person) {
  chip.addEventListener("pointerdown", (event) => {
    if (event.button || !event.isPrimary || carrying()) return;
    new Gesture(chip, booking, place, person, event);
  });
  chip.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && carrying()) {
      event.preventDefault();
      return void keep();
    }
    const step_ = /** @type {Record<string, [number, number]>} */ ({
      ArrowLeft: [-1, 0],
      ArrowRight: [1, 0],
      ArrowUp: [0, -1],
      ArrowDown: [0, 1],
    })[event.key];
    if (!step_ || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    if (!carrying()) take(booking, person);
    step(...step_);
  });
}

class Gesture {
  /**
   * @param {HTMLElement} chip @param {any} booking @param {number} place @param {string} person
   * @param {PointerEvent} event
   */
  constructor(chip, booking, place, person, event) {
    this.chip = chip;
    this.booking = booking;
    this.place = place;
    this.person = person;
    this.pointer = event.pointerId;
    this.touch = event.pointerType !== "mouse";
    this.from = { x: event.clientX, y: event.clientY };
    this.at = { ...this.from };
    this.begun = false;
    /** @type {HTMLElement|null} */ this.ghost = null;
    this.over = new AbortController();
    const { signal } = this.over;
    const on = (/** @type {string} */ name, /** @type {(event: any) => void} */ act, more = {}) =>
      document.addEventListener(name, act, { signal, ...more });
    on("pointermove", (each) => this.moved(each));
    on("pointerup", (each) => this.ended(each, true));
    on("pointercancel", (each) => this.ended(each, false));
    on("keydown", (each) => each.key === "Escape" && this.stop());
    // a page that would scroll or show a menu under a held part takes it out of the hand
    on("touchmove", (each) => this.begun && each.cancelable && each.preventDefault(), { passive: false });
    on("contextmenu", (each) => this.touch && each.preventDefault());
    this.hold = this.touch ? setTimeout(() => this.begin(), HOLD_ms) : 0;
  }

  begin() {
    this.begun = true;
    take(this.booking, this.person);
    const box = this.chip.getBoundingClientRect(),
      ghost = /** @type {HTMLElement} */ (this.chip.cloneNode(true));
    ghost.className += " crew-ghost";
    ghost.setAttribute("aria-hidden", "true");
    ghost.tabIndex = -1;
    ghost.style.width = `${box.width}px`;
    this.grip = { x: this.from.x - box.left, y: this.from.y - box.top };
    this.ghost = ghost;
    document.body.append(ghost);
    document.body.classList.add("crew-dragging");
    this.follow();
    this.rolling = setInterval(() => this.roll(), 30);
  }

  /** @param {PointerEvent} event */
  moved(event) {
    if (event.pointerId !== this.pointer) return;
    this.at = { x: event.clientX, y: event.clientY };
    if (!this.begun) {
      const far = Math.hypot(this.at.x - this.from.x, this.at.y - this.from.y) > STARTS_px;
      if (far && this.touch) return this.stop();
      if (!far) return;
      this.begin();
    }
    this.follow();
  }

  follow() {
    const grip = this.grip ?? { x: 0, y: 0 };
    if (this.ghost) this.ghost.style.translate = `${this.at.x - grip.x}px ${this.at.y - grip.y}px`;
    const cell = document.elementFromPoint(this.at.x, this.at.y)?.closest("[data-day]");
    const { day, person } = /** @type {HTMLElement|null} */ (cell)?.dataset ?? {};
    // the day that was taken hold of comes to stand here: the part begins as many days before
    if (day) aim(workdaysBefore(day, this.place), person ?? this.person);
  }

  /** Let the page and the table go on under the hand near their edges. */
  roll() {
    const { x, y } = this.at,
      across = this.chip.closest(".crew-scroll"),
      held = document.querySelector(".crew-held"),
      low = Math.min(innerHeight, held?.getBoundingClientRect().top ?? innerHeight);
    if (y < EDGE_px) scrollBy(0, -STEP_px);
    else if (y > low - EDGE_px) scrollBy(0, STEP_px);
    const box = across?.getBoundingClientRect();
    if (across && box) {
      if (x > Math.min(box.right, innerWidth) - EDGE_px) across.scrollLeft += STEP_px;
      else if (x < box.left + EDGE_px) across.scrollLeft -= STEP_px;
    }
    this.follow();
  }

  /** @param {PointerEvent} event @param {boolean} let_go */
  ended(event, let_go) {
    if (event.pointerId !== this.pointer) return;
    const begun = this.begun;
    if (begun) addEventListener("click", swallow, { capture: true, once: true });
    setTimeout(() => removeEventListener("click", swallow, { capture: true }), 50);
    this.stop();
    if (begun) (let_go ? drop : putBack)();
  }

  stop() {
    this.over.abort();
    clearTimeout(this.hold);
    clearInterval(this.rolling);
    this.ghost?.remove();
    document.body.classList.remove("crew-dragging");
  }
}

/** The click that ends a drag opens nothing. @param {Event} event */
function swallow(event) {
  event.preventDefault();
  event.stopPropagation();
}
