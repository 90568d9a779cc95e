// @ts-check
/**
 * What others do, told by the server at once: one stream while the page is looked at and there is a network.
 *
 * A stream that breaks is closed and opened again by hand, later each time, and goes on from the last number that was
 * heard. Each is a connection that stays: a browser holds few of them to one server, so that only the first windows of
 * a browser have one, and any other does without.
 */
import { ApiProblem, call } from "./api.js";

/** What a stream says. */
export const EVENTS = ["stand", "change", "here", "anew", "quiet", "over"];
const FIRST_MS = 1000,
  LONGEST_MS = 30_000,
  SILENT_MS = 45_000, // three times as long as the server is ever silent
  LINES = 3; // of one browser: it holds six connections, and a server lets it have four streams

/** @typedef {(name: string, data: any) => void} Heard */
/**
 * What a line needs of the browser: to open a stream, to ask whether it may have one, to wait, and chance.
 * @typedef {{
 *   open: (address: string, event: (name: string, data: any, id: string) => void, broken: () => void) =>
 *     {close: () => void},
 *   may: (address: string) => Promise<"yes"|"no"|"later">,
 *   later: (act: () => void, ms: number) => any, never: (timer: any) => void, chance: () => number
 * }} Around
 */

/** A stream that is opened again and again while it is wanted. */
export class Line {
  /** @param {string} address @param {Around} around @param {Heard} heard */
  constructor(address, around, heard) {
    this.address = address;
    this.around = around;
    this.heard = heard;
    this.wanted = false;
    /** Whether it is open and the server has said where it stands. */ this.stands = false;
    /** The number of the last event. */ this.last = "";
    this.tries = 0;
    this.turn = 0;
    /** @type {{close: () => void}|null} */ this.stream = null;
    /** @type {any} */ this.timer = null;
  }

  begin() {
    if (this.wanted) return;
    this.wanted = true;
    this.tries = 0;
    this.#open();
  }

  end() {
    this.wanted = false;
    this.#shut();
  }

  #open() {
    const turn = (this.turn += 1),
      mine = () => this.turn === turn;
    this.#watch();
    this.stream = this.around.open(
      this.last ? `${this.address}${this.address.includes("?") ? "&" : "?"}after=${this.last}` : this.address,
      (name, data, id) => mine() && this.#event(name, data, id),
      () => mine() && this.#broken(),
    );
  }

  #shut() {
    this.turn += 1;
    this.stands = false;
    this.around.never(this.timer);
    this.stream?.close();
    this.stream = null;
  }

  /** A line that is dead without a word is opened anew. */
  #watch() {
    this.around.never(this.timer);
    this.timer = this.around.later(() => this.#broken(), SILENT_MS);
  }

  /** @param {string} name @param {any} data @param {string} id */
  #event(name, data, id) {
    if (id) this.last = id;
    if (name === "over") return this.#broken();
    this.stands = true;
    this.tries = 0;
    this.#watch();
    if (name !== "quiet") this.heard(name, data);
  }

  #broken() {
    this.#shut();
    const after = Math.min(LONGEST_MS, FIRST_MS * 2 ** this.tries) * (0.5 + this.around.chance() / 2),
      { turn } = this;
    this.tries += 1;
    this.timer = this.around.later(() => this.#again(turn), after);
  }

  /** Ask first: who may listen no more asks no more. @param {number} turn */
  async #again(turn) {
    const may = await this.around.may(this.address);
    if (this.turn !== turn) return;
    if (may === "yes") this.#open();
    if (may === "later") this.#broken();
  }
}

/** @type {Around} */
const BROWSER = {
  open: (address, event, broken) => {
    const source = new EventSource(address);
    for (const name of EVENTS)
      source.addEventListener(name, (told) => event(name, JSON.parse(told.data), told.lastEventId));
    source.addEventListener("error", () => {
      source.close(); // the browser's own way would log a fault each time
      broken();
    });
    return source;
  },
  may: async (address) => {
    try {
      await call("GET", address);
      return "yes";
    } catch (problem) {
      return problem instanceof ApiProblem && [401, 403, 404].includes(problem.status) ? "no" : "later";
    }
  },
  later: (act, ms) => setTimeout(act, ms),
  never: (timer) => clearTimeout(timer),
  chance: Math.random,
};

/**
 * Hold one of the few lines of this browser until the signal ends it; wait for one where there is none.
 * @param {AbortSignal} signal @param {() => void} held
 */
async function inTurn(signal, held) {
  const { locks } = navigator; // a page that came without a secure connection has none
  if (!locks) return held();
  const over = new Promise((done) => signal.addEventListener("abort", done, { once: true }));
  let had = false;
  /** @param {any} lock */
  const hold = (lock) => {
    if (!lock || signal.aborted) return;
    had = true;
    held();
    return over;
  };
  for (let line = 0; line < LINES && !had && !signal.aborted; line += 1)
    await locks.request(`pavewright.live.${line}`, { ifAvailable: true }, hold);
  const any = Math.floor(Math.random() * LINES);
  if (!had) await locks.request(`pavewright.live.${any}`, { signal }, hold).catch(() => {});
}

/**
 * Listen while the page is looked at and there is a network.
 * @param {string} address @param {Heard} heard
 * @returns {Line}
 */
export function listenLive(address, heard) {
  const line = new Line(address, BROWSER, heard);
  /** @type {AbortController|null} */ let turn = null;
  const judge = (away = false) => {
    const wanted = !away && document.visibilityState === "visible" && navigator.onLine;
    if (wanted && !turn) {
      turn = new AbortController();
      inTurn(turn.signal, () => line.begin());
    } else if (!wanted && turn) {
      turn.abort();
      turn = null;
      line.end();
    }
  };
  document.addEventListener("visibilitychange", () => judge());
  for (const name of ["online", "offline", "pageshow"]) window.addEventListener(name, () => judge());
  window.addEventListener("pagehide", () => judge(true));
  judge();
  return line;
}
