// @ts-check
/** Others on the same job: what they change is taken in once the hand rests, and the page says who they are. */
import { el } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { handOn } from "../lib/hand.js";
import { STAGES } from "../lib/lists.js";
import { listenLive } from "../lib/live.js";
import { ALSO_HERE, changedWords, hereWords } from "./also-here.js";
import { typedOf } from "./form/typed.js";
import { inPlace, placeAfter } from "./in-place.js";
import { at } from "./job-state.js";

/** @typedef {import("./also-here.js").Other} Other */

const SAID_MS = 20_000, // how often the page says that it is there
  GAP_MS = 1000, // between two askings who is there
  CHANGED_MS = 20_000; // how long it is said who changed the job

/** @param {string} key */
const stageName = (key) => STAGES.find((one) => one.key === key)?.name ?? "";

/**
 * Looks for a box whose text is no field of the job and would be gone were the page drawn anew.
 * @param {HTMLElement} panel
 * @returns {() => boolean} whether the hand is in one and has changed it
 */
function ownText(panel) {
  let before = "";
  panel.addEventListener("focusin", (event) => (before = /** @type {any} */ (event.target).value ?? ""));
  return () => {
    const held = /** @type {any} */ (document.activeElement);
    if (!panel.contains(held) || !held.matches("input, textarea") || held.closest("[data-path]")) return false;
    return held.value !== before;
  };
}

/**
 * Whether somebody gave another value to a field that is typed in here and not taken yet: what is typed is sent first,
 * so that both values stand side by side.
 * @param {JobState} state @param {any} document the job as others left it
 */
const meets = (state, document) =>
  typedOf(state).paths.some((path) => {
    const now = placeAfter(state.doc, document, path);
    return now !== null && JSON.stringify(at(document, now)) !== JSON.stringify(at(state.doc, path));
  });

/**
 * Take in what others do to a job that is open, and say who they are.
 * @param {JobState} state @param {HTMLElement} panel @param {HTMLElement} place where it is said
 * @param {() => string} stage which stage is shown
 * @returns {{moved: () => void}} to be told when another stage is shown
 */
export function together(state, panel, place, stage) {
  const present = new Present(state, place, stage);
  let behind = false;
  state.rests = handOn(ownText(panel));
  state.gently = (act) => inPlace(panel, state, act);
  const look = () => {
    if (!behind || state.saving !== "saved" || state.saveRunning) return; // the answer brings it, or it is looked then
    behind = false;
    state.news();
  };
  state.mayTake = (document) => {
    if (!document || !meets(state, document)) return true;
    behind = true;
    return false;
  };
  state.addEventListener("saved", look);
  state.addEventListener("typing", () => typedOf(state).size || look());
  state.addEventListener("others", (event) => present.changed(/** @type {CustomEvent} */ (event).detail));
  const line = listenLive(`/api/live?job=${state.id}`, (name, told) => {
    if (name === "here" || name === "stand" || name === "anew") present.soon();
    if (name === "here" || (name !== "anew" && told.rev <= state.rev && told.kind !== "clashes")) return;
    behind = true;
    look();
  });
  state.isToldLive = () => line.stands;
  return { moved: () => present.soon() };
}

/** That this page is open, and who else is there. */
class Present {
  /** @param {JobState} state @param {HTMLElement} place @param {() => string} stage */
  constructor(state, place, stage) {
    this.state = state;
    this.place = place;
    this.stage = stage;
    /** @type {Other[]} */ this.here = [];
    /** @type {Other[]} */ this.by = [];
    this.asked = -Infinity;
    /** @type {any} */ this.waits = null;
    setInterval(() => this.soon(), SAID_MS);
    document.addEventListener("visibilitychange", () => this.soon());
    window.addEventListener("pagehide", () => this.#leave());
    this.soon();
  }

  get #address() {
    return `/api/jobs/${this.state.id}/here`;
  }

  /** Say that it is open, soon: the more are there, the less often. */
  soon() {
    if (this.waits || document.visibilityState !== "visible") return;
    const gap = GAP_MS * (1 + this.here.length / 10);
    this.waits = setTimeout(() => this.#ask(), Math.max(0, this.asked + gap - performance.now()));
  }

  async #ask() {
    this.waits = null;
    if (document.visibilityState !== "visible" || !navigator.onLine) return;
    this.asked = performance.now();
    try {
      const { here } = await call("POST", this.#address, { page: this.state.page, stage: this.stage() });
      this.here = here;
    } catch {
      this.here = []; // who is there is not known now
    }
    this.#say();
  }

  #leave() {
    const body = new Blob([JSON.stringify({ page: this.state.page, left: true })], { type: "application/json" });
    navigator.sendBeacon(this.#address, body);
  }

  /** @param {Other[]} by */
  changed(by) {
    this.by = [...this.by, ...by];
    this.#say();
    clearTimeout(this.changedTimer);
    this.changedTimer = setTimeout(() => {
      this.by = [];
      this.#say();
    }, CHANGED_MS);
  }

  #say() {
    const changed = changedWords(this.by),
      here = hereWords(this.here, stageName),
      between = changed && here ? " · " : "",
      words = `${changed}${between}${here && ALSO_HERE}${here}`;
    if (this.place.title === words) return;
    this.place.title = words;
    this.place.replaceChildren(
      ...(words ? [`${changed}${between}`, here && el("span", { class: "also", text: ALSO_HERE }), here] : []),
    );
  }
}
