// @ts-check
/** Whether the hand rests: what others do waits while it holds something or types. */

const TYPED_MS = 700,
  AGAIN_MS = 100;

/** What a hand does, by the time of a clock. */
export class Hand {
  /** @param {() => number} clock [ms] */
  constructor(clock) {
    this.clock = clock;
    /** @type {Set<number>} */ this.down = new Set();
    this.typed = -Infinity;
  }

  /** @param {number} pointer */
  press(pointer) {
    this.down.add(pointer);
  }

  /** @param {number} pointer */
  lift(pointer) {
    this.down.delete(pointer);
  }

  type() {
    this.typed = this.clock();
  }

  get rests() {
    return !this.down.size && this.clock() - this.typed >= TYPED_MS;
  }
}

/**
 * The hand on this page.
 * @param {() => boolean} busy whether something else holds it
 * @returns {() => Promise<void>} waits until the hand rests
 */
export function handOn(busy) {
  const hand = new Hand(() => performance.now());
  addEventListener("pointerdown", (event) => hand.press(event.pointerId), true);
  for (const name of ["pointerup", "pointercancel"])
    addEventListener(name, (event) => hand.lift(/** @type {PointerEvent} */ (event).pointerId), true);
  // one that was let go outside the window
  addEventListener("pointermove", (event) => event.buttons || hand.lift(event.pointerId), true);
  for (const name of ["keydown", "input"]) addEventListener(name, () => hand.type(), true);
  /** @type {Promise<void>|null} */ let waiting = null;
  const rest = async () => {
    while (!hand.rests || document.querySelector("dialog[open]") || busy())
      await new Promise((next) => setTimeout(next, AGAIN_MS));
  };
  return () => (waiting ??= rest().finally(() => (waiting = null)));
}
