// @ts-check
/**
 * How the working screen keeps a job. A change becomes operations, which lie in this browser, where that has room,
 * until the server has them; what others did meanwhile is taken in with the answer. Each batch has a key: one whose
 * answer was not heard is sent again as it was, and the server counts it once. What truly clashes is kept on the server
 * with both values, for a person to pick.
 *
 * Events: `document` after every change, also of others; `saved`; `others` with who changed what was taken in.
 */
import { ApiProblem, call, freshId } from "../lib/api.js";
import { followed } from "../lib/following.js";
import { applied, between } from "../lib/operations.js";
import { cut } from "../lib/words.js";
import { History } from "./history.js";
import { isMine, keep, leftBehind, leftByOlder, refused, wholeJob } from "./unsent.js";
import { setFirmWriting, setWriting } from "../lib/writing.js";

/** @typedef {import("./unsent.js").Batch} Batch */
/** @typedef {import("../lib/operations.js").Operation} Operation */
/** @typedef {{name: string, own: boolean}} Other who changed the job; without a name where nobody was signed in */

const SAVE_AFTER_MS = 350,
  AGAIN_MS = 4000,
  ANSWER_MS = 30000,
  NEWS_MS = 8000,
  SELDOM = 8, // looks of which one is asked where the server says by itself what others do
  MANY = 500; // operations of one batch, after which what they come to is sent instead

export class Keeping extends EventTarget {
  /** @param {string} id */
  constructor(id) {
    super();
    this.id = id;
    /** The name of this page among those who send. */ this.page = freshId();
    this.rev = 0;
    this.doc = /** @type {JobDocument} */ (/** @type {unknown} */ (null));
    /** The job as the server has it. @type {any} */ this.there = null;
    /** What the server has not acknowledged, the earliest first. @type {Batch[]} */ this.outbox = [];
    /** What was sent and could not be done: a person picks. @type {any[]} */ this.clashes = [];
    /** @type {"saved"|"waiting"|"unsent"|"refused"} */ this.saving = "saved";
    /** Why the last save was not kept; empty once one was. */ this.problem = "";
    /** Why the job could not be read as it was kept; empty where it could. */ this.fault = "";
    /** Whether this browser holds what the server does not have yet. */ this.inBrowser = true;
    this.archived = false;
    this.history = new History(id);
    /** Whether the server says by itself what others do. */ this.isToldLive = () => false;
    /** What is waited for before the work of others is taken in. */ this.rests = async () => {};
    /** Whether it may be: not over what is typed. */ this.mayTake = (/** @type {any} */ _document) => true;
    /** How the page is drawn when it is. @type {(act: () => void) => void} */ this.gently = (act) => act();
  }

  async open() {
    const older = await leftByOlder(this.id, this.page).catch(() => []); // without an answer it stays where it is
    const told = await call("GET", `/api/jobs/${this.id}`);
    this.rev = told.rev;
    this.there = this.doc = told.document;
    setFirmWriting(told.writing);
    setWriting(this.doc?.identity, this.doc);
    this.fault = told.fault ?? "";
    this.archived = told.archived;
    this.clashes = told.clashes ?? [];
    await this.#takeLeft(older);
    this.say("document");
    this.say("saved");
    this.#watch();
  }

  /**
   * What closed pages of this browser had not sent is sent now: perhaps it arrived and only the answer was lost.
   * @param {Batch[]} older what pages of an older version had not
   */
  async #takeLeft(older) {
    this.outbox = [...older, ...leftBehind(this.id, this.page)];
    if (!this.outbox.length) return;
    this.#keepHere();
    await this.save();
    this.doc = this.#withWaiting(this.there);
    this.changed();
  }

  /** @param {string} label @param {Operation[]} ops @param {any} next */
  go(label, ops, next) {
    const last = this.outbox.at(-1);
    if (last && !last.tried && last.from === this.page && last.rev === this.rev) {
      last.operations.push(...ops);
      last.note = cut(label, 200);
      if (last.operations.length > MANY)
        last.operations = between(this.#withWaiting(this.there, this.outbox.slice(0, -1)), next);
      if (!last.operations.length) this.outbox.pop();
    } else this.outbox.push({ key: freshId(), rev: this.rev, from: this.page, operations: ops, note: cut(label, 200) });
    this.doc = next;
    setWriting(next?.identity, next);
    this.changed();
    this.saveSoon();
  }

  /** What follows a change. */
  changed() {
    this.say("document");
  }

  /** @param {string} name */
  say(name) {
    this.dispatchEvent(new Event(name));
  }

  /** The job with what waits. @param {any} doc @param {Batch[]} [waiting] */
  #withWaiting(doc, waiting = this.outbox) {
    return waiting.reduce((made, batch) => applied(made, batch.operations).doc, doc);
  }

  // ---- keeping

  saveSoon() {
    this.saving = "waiting";
    this.#keepHere();
    this.say("saved");
    clearTimeout(this.saveTimer);
    this.saveTimer = setTimeout(() => this.save(), SAVE_AFTER_MS);
  }

  #keepHere(left = false) {
    this.inBrowser = keep(this.id, this.page, this.outbox, left);
  }

  /** Send what waits, one batch after the other. */
  async save() {
    if (this.saveRunning) return;
    this.saveRunning = true;
    clearTimeout(this.saveTimer);
    this.#leaveAsItIs();
    try {
      while (this.outbox.length) {
        const batch = this.outbox[0];
        batch.tried = true;
        this.#keepHere(); // from here on the server may have it
        const { tried: _, ...asked } = batch;
        this.#answered(batch, await this.#post("operations", asked));
      }
      this.saving = "saved";
    } catch (problem) {
      this.#notSaved(problem);
    } finally {
      this.saveRunning = false;
      this.say("saved");
    }
  }

  /** What another page took over while this one slept may be sent already: it is not changed any more. */
  #leaveAsItIs() {
    if (this.inBrowser && this.outbox.length && !isMine(this.id, this.page))
      for (const batch of this.outbox) batch.tried = true;
  }

  /** @param {string} what @param {any} asked */
  #post(what, asked) {
    return call("POST", `/api/jobs/${this.id}/${what}`, asked, AbortSignal.timeout(ANSWER_MS));
  }

  /** @param {Batch} batch @param {any} told */
  #answered(batch, told) {
    this.outbox = this.outbox.filter((one) => one !== batch);
    this.problem = "";
    this.#takeIn(applied(this.there, batch.operations).doc, told);
    this.#keepHere();
  }

  /**
   * Take in what others did.
   * @param {any} believed the job as this page holds that the server has it
   * @param {{rev: number, document?: any, fault?: string, clashes?: any[], by?: Other[]}} told
   */
  #takeIn(believed, told) {
    const since = told.document ? between(believed, told.document) : [];
    this.rev = told.rev;
    this.there = told.document ?? believed;
    this.fault = told.fault ?? "";
    this.clashes = told.clashes ?? this.clashes;
    for (const one of this.outbox)
      if (one.from === this.page && !one.tried) {
        one.operations = followed(one.operations, since);
        one.rev = told.rev;
      }
    if (!since.length) return;
    this.gently(() => {
      this.history.follow(since);
      this.doc = this.#withWaiting(this.there);
      this.changed();
    });
    if (told.by?.length) this.dispatchEvent(new CustomEvent("others", { detail: told.by }));
  }

  /** @param {any} problem */
  #notSaved(problem) {
    if (refused(problem)) {
      // the server does not have it: sent again it is another batch
      if (this.outbox[0]) this.outbox[0] = { ...this.outbox[0], key: freshId(), tried: false };
      this.saving = "refused";
      this.problem = problem.message;
      this.#keepHere();
      return;
    }
    this.saving = "unsent";
    this.problem = wordsOf(problem);
    clearTimeout(this.saveTimer);
    this.saveTimer = setTimeout(() => this.save(), AGAIN_MS);
  }

  /**
   * A job that cannot be read as it was kept is saved as a whole.
   * @param {string} note @param {any} next
   */
  async putWhole(note, next) {
    const save = { rev: this.rev, key: freshId(), document: next, note: cut(note, 200) };
    try {
      const { rev } = await wholeJob(this.id, save);
      [this.rev, this.there, this.doc, this.fault] = [rev, next, next, ""];
      [this.saving, this.problem] = ["saved", ""];
      this.changed();
    } catch (problem) {
      [this.saving, this.problem] = ["refused", wordsOf(problem)];
    }
    this.say("saved");
  }

  /**
   * Keep the job as it is once more, under a name.
   * @param {string} note
   * @returns {Promise<boolean>} whether it is kept
   */
  async keepAs(note) {
    await this.save();
    if (this.saving !== "saved") return false;
    const batch = { key: freshId(), rev: this.rev, from: this.page, operations: [], note: cut(note, 200) };
    try {
      this.#takeIn(this.there, await this.#post("operations", batch));
      return true;
    } catch (problem) {
      this.problem = wordsOf(problem);
      return false;
    }
  }

  /**
   * Settle a clash by what was sent, or by what stands in the job.
   * @param {string} clash @param {"theirs"|"ours"} pick
   */
  async pick(clash, pick) {
    await this.save();
    this.#takeIn(this.there, await this.#post(`clashes/${clash}`, { pick }));
    this.say("saved");
  }

  // ---- what others do

  #watch() {
    if (typeof document === "undefined") return;
    let looks = 0;
    const look = () => {
      if (document.visibilityState !== "visible") return;
      this.#leaveAsItIs();
      looks += 1;
      if (!this.isToldLive() || looks % SELDOM === 0) this.news();
    };
    setInterval(look, NEWS_MS);
    document.addEventListener("visibilitychange", look);
    window.addEventListener("online", () => (this.outbox.length ? this.save() : this.news()));
    setInterval(() => this.outbox.length && this.#keepHere(), NEWS_MS); // that this page is open still
    window.addEventListener("pagehide", () => this.#keepHere(true));
    window.addEventListener("pageshow", (event) => {
      if (event.persisted) location.reload(); // another page may have sent what this one had not
    });
  }

  get #isBusy() {
    return this.saveRunning || this.outbox.length > 0 || this.saving !== "saved";
  }

  /** Ask whether somebody changed the job; what they did is taken in once the hand rests. */
  async news() {
    if (this.#isBusy) return;
    await this.#takeLeft([]); // of a page that broke down
    if (this.outbox.length) return;
    try {
      const told = await call("GET", `/api/jobs/${this.id}?known=${this.rev}&clashes=${this.clashes.length}`);
      if (told.same) return;
      await this.rests();
      if (this.#isBusy || told.rev < this.rev || !this.mayTake(told.document)) return;
      this.#takeIn(this.there, told);
      this.say("saved");
    } catch {
      /* it is asked again */
    }
  }
}

/** @param {any} problem */
const wordsOf = (problem) =>
  problem instanceof ApiProblem ? problem.message : "The answer of the server was cut short.";
