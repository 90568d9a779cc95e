// @ts-check
/**
 * The firm's book on the screen: changed here, kept on the server a moment later, put onto what others changed.
 *
 * Events: `document` when it changed, `plan` when faults or overhead came, `kept` when the state of keeping changed.
 */
import { ApiProblem, call, freshId } from "../lib/api.js";
import { ask, el } from "../lib/dom.js";
import { applied, between } from "../lib/operations.js";
import { messageOf } from "../lib/words.js";
import { setWriting } from "../lib/writing.js";

const SAVE_AFTER_MS = 500,
  AGAIN_MS = 4000,
  UNSENT = "pavewright.firm-unsent";

export class FirmState extends EventTarget {
  constructor() {
    super();
    /** @type {any} */ this.doc = null;
    /** The book as it is kept. @type {any} */ this.base = null;
    this.rev = 0;
    /** @type {{path: string, message: string}[]} */ this.faults = [];
    /** @type {any} */ this.overhead = null;
    /** After how many days a price is old; null while that is not known. @type {number|null} */ this.ageDays = null;
    /** @type {any[]} */ this.learnt = [];
    /** What a person has to be told about keeping; empty where all is kept. */ this.trouble = "";
    this.saving = false;
    this.timer = 0;
    /** @type {any[]} */ this.past = [];
  }

  async open() {
    const told = await call("GET", "/api/firm");
    this.stand(told);
    this.#bringBack();
    this.say("document");
    await this.check();
  }

  /** @param {{rev: number, document: any}} told */
  stand(told) {
    this.rev = told.rev;
    this.base = told.document;
    this.doc = structuredClone(told.document);
  }

  /** A book that came as a whole, as with a price list in it. @param {{rev: number, document: any}} told */
  replaced(told) {
    this.stand(told);
    this.past = [];
    this.say("document");
    this.check();
  }

  /** @param {string} name */
  say(name) {
    if (name === "document") setWriting(this.doc, this.doc);
    this.dispatchEvent(new Event(name));
  }

  get unsaved() {
    return this.saving || JSON.stringify(this.doc) !== JSON.stringify(this.base);
  }

  /** @param {string} label what is done, in a few words @param {(doc: any) => void} act changes a copy */
  change(label, act) {
    const next = structuredClone(this.doc);
    act(next);
    this.past.push(this.doc);
    this.past.splice(0, Math.max(0, this.past.length - 50));
    this.doc = next;
    this.label = label;
    this.#keepUnsent();
    this.say("document");
    this.#soon(SAVE_AFTER_MS);
  }

  undo() {
    const before = this.past.pop();
    if (!before) return;
    this.doc = before;
    this.label = "undone";
    this.#keepUnsent();
    this.say("document");
    this.#soon(SAVE_AFTER_MS);
  }

  /** @param {number} after_ms */
  #soon(after_ms) {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.save(), after_ms);
    this.say("kept");
  }

  async check() {
    try {
      const told = await call("POST", "/api/firm/check", { document: this.doc });
      this.faults = told.faults;
      this.overhead = told.overhead;
      this.ageDays = told.price_age_days;
      this.learnt = told.learnt ?? this.learnt;
      this.say("plan");
    } catch {
      /* it is asked again with the next change */
    }
  }

  async save() {
    if (this.saving) return this.#soon(SAVE_AFTER_MS);
    const sent = this.doc;
    this.saving = true;
    this.say("kept");
    try {
      const told = await call("PUT", "/api/firm", {
        rev: this.rev,
        document: sent,
        note: (this.label ?? "").slice(0, 200),
        key: freshId(),
      });
      this.rev = told.rev;
      this.base = sent;
      this.faults = [];
      this.overhead = told.overhead;
      this.ageDays = told.price_age_days;
      this.learnt = told.learnt ?? this.learnt;
      this.trouble = "";
    } catch (problem) {
      await this.#refused(problem);
    } finally {
      this.saving = false;
    }
    this.#keepUnsent();
    this.say("plan");
    this.say("kept");
  }

  /** @param {unknown} problem */
  async #refused(problem) {
    const status = problem instanceof ApiProblem ? problem.status : 0,
      told = problem instanceof ApiProblem ? problem.told : null;
    if (status === 409 && told?.document) return this.#merge(told);
    if (status === 422 && told?.faults) {
      this.faults = told.faults;
      this.trouble = `Not kept yet: ${told.message}`;
      return;
    }
    this.trouble = `Not kept yet: ${messageOf(problem)}`;
    if (!status || status >= 500) this.#soon(AGAIN_MS);
  }

  /** Put own changes on top of what somebody else changed. @param {{rev: number, document: any}} theirs */
  async #merge(theirs) {
    const ops = between(this.base, this.doc);
    this.stand(theirs);
    const { doc, clashes } = applied(theirs.document, ops);
    this.doc = doc;
    if (clashes.length) await this.#settle(clashes);
    this.say("document");
    this.#soon(0);
  }

  /** @param {import("../lib/operations.js").Clash[]} clashes */
  async #settle(clashes) {
    const said = (/** @type {any} */ value) => (value === undefined ? "nothing" : JSON.stringify(value).slice(0, 120));
    const way = await ask(
      "Somebody else changed the same",
      [
        el(
          "ul",
          {},
          ...clashes
            .slice(0, 8)
            .map((one) => el("li", { text: `there now: ${said(one.ours)}; yours: ${said(one.theirs)}` })),
        ),
      ],
      [
        { label: "Keep what is there", value: "theirs", main: true },
        { label: "Use mine", value: "mine" },
      ],
    );
    if (way !== "mine") return;
    const mine = clashes.map((one) => ({ ...one.operation, was: one.ours }));
    this.doc = applied(this.doc, mine).doc;
  }

  /** What could not be sent survives the page. */
  #keepUnsent() {
    try {
      if (this.unsaved) localStorage.setItem(UNSENT, JSON.stringify({ base: this.base, doc: this.doc }));
      else localStorage.removeItem(UNSENT);
    } catch {
      /* no room: it stays on the page */
    }
  }

  #bringBack() {
    try {
      const kept = JSON.parse(localStorage.getItem(UNSENT) ?? "null");
      if (!kept) return;
      const { doc, clashes } = applied(this.base, between(kept.base, kept.doc));
      this.doc = doc;
      if (!clashes.length && this.unsaved) this.#soon(0);
    } catch {
      /* what cannot be read is left */
    }
  }
}
