// @ts-check
/**
 * What was done to a job on this screen, and what was undone: as operations that go back, so that undoing one's own
 * changes leaves those of others, also after the page was opened anew.
 */
import { followed } from "../lib/following.js";

/** @typedef {import("../lib/operations.js").Operation} Operation */
/** @typedef {{label: string, ops: Operation[]}} Step what was done, and the operations that take it back */

const MOST = 200,
  KEPT = 60,
  LONGEST = 400000; // letters that a browser keeps of it

export class History {
  /** @param {string} job */
  constructor(job) {
    this.place = `pavewright.history.${job}`;
    /** @type {Step[]} */ this.past = [];
    /** @type {Step[]} */ this.future = [];
    try {
      const kept = JSON.parse(localStorage.getItem(this.place) ?? "null");
      if (Array.isArray(kept?.past) && Array.isArray(kept?.future)) [this.past, this.future] = [kept.past, kept.future];
    } catch {
      /* then it begins here */
    }
  }

  /** @param {Step} step */
  did(step) {
    this.past = [...this.past, step].slice(-MOST);
    this.future = [];
    this.#keep();
  }

  /** The step to take back, and where it goes then. @returns {Step|undefined} */
  back() {
    return this.past.pop();
  }

  /** @returns {Step|undefined} */
  forth() {
    return this.future.pop();
  }

  /** @param {"past"|"future"} where @param {Step} step */
  put(where, step) {
    this[where] = [...this[where], step].slice(-MOST);
    this.#keep();
  }

  /** Others changed the job. @param {Operation[]} since */
  follow(since) {
    if (!since.length) return;
    for (const step of [...this.past, ...this.future]) step.ops = followed(step.ops, since);
    this.#keep();
  }

  #keep() {
    try {
      const text = JSON.stringify({ past: this.past.slice(-KEPT), future: this.future.slice(-KEPT) });
      if (text.length <= LONGEST) localStorage.setItem(this.place, text);
      else localStorage.removeItem(this.place);
    } catch {
      /* a browser without room forgets it with the page */
    }
  }
}
