// @ts-check
/**
 * One job on the screen: its document, what follows from it, and how it is kept.
 *
 * Events: `document` after every change, `plan` when a whole plan came, `preview` when a quick one came, `saved`, `conflict`.
 * A change is kept on the server soon after it is made; until it is acknowledged it also lies in this browser.
 */
import { ApiProblem, call } from "./api.js";
import { cut } from "./words.js";

const SAVE_AFTER_MS = 350;
const PLAN_AFTER_MS = 150;
const STALE_MS = 5000;
const UNDO_MOST = 200;

export class JobState extends EventTarget {
  /** @param {string} id */
  constructor(id) {
    super();
    this.id = id;
    this.rev = 0;
    /** @type {any} */ this.doc = null;
    /** @type {any} */ this.plan = null;
    /** @type {any} */ this.quick = null;
    /** @type {{path: string, message: string}[]} */ this.faults = [];
    /** @type {any} */ this.sources = {};
    this.planIsOf = null;
    this.saving = "saved";
    /** @type {{label: string, doc: any}[]} */ this.past = [];
    /** @type {{label: string, doc: any}[]} */ this.future = [];
    this.note = "";
    this.kept = `pavewright.unsent.${id}`;
  }

  async open() {
    const told = await call("GET", `/api/jobs/${this.id}`);
    this.rev = told.rev;
    this.doc = told.document;
    this.archived = told.archived;
    const unsent = localStorage.getItem(this.kept);
    if (unsent) this.#takeUnsent(JSON.parse(unsent));
    this.#say("document");
    this.#planSoon(0);
  }

  /** What this browser had not sent when it was closed comes back as a change. @param {{rev: number, document: any}} unsent */
  #takeUnsent(unsent) {
    if (JSON.stringify(unsent.document) === JSON.stringify(this.doc)) return localStorage.removeItem(this.kept);
    if (unsent.rev !== this.rev) return this.#conflict(this.rev, this.doc, unsent.document);
    this.past.push({ label: "as it was kept", doc: this.doc });
    this.doc = unsent.document;
    this.#saveSoon("changes that had not been sent");
  }

  /**
   * Change the document.
   * @param {string} label what is done, in a few words
   * @param {(doc: any) => void} act changes a copy
   */
  change(label, act) {
    const next = structuredClone(this.doc);
    act(next);
    this.put(label, next);
  }

  /** @param {string} label @param {any} next */
  put(label, next) {
    if (JSON.stringify(next) === JSON.stringify(this.doc)) return;
    this.past.push({ label, doc: this.doc });
    if (this.past.length > UNDO_MOST) this.past.shift();
    this.future = [];
    this.doc = next;
    this.#changed(label);
  }

  undo() {
    const last = this.past.pop();
    if (!last) return;
    this.future.push({ label: last.label, doc: this.doc });
    this.doc = last.doc;
    this.#changed(`undone: ${last.label}`);
  }

  redo() {
    const next = this.future.pop();
    if (!next) return;
    this.past.push({ label: next.label, doc: this.doc });
    this.doc = next.doc;
    this.#changed(next.label);
  }

  /** @param {string} label */
  #changed(label) {
    this.#say("document");
    this.#saveSoon(label);
    this.#planSoon(PLAN_AFTER_MS);
  }

  /** @param {string} name */
  #say(name) { this.dispatchEvent(new Event(name)); }

  // ---- keeping

  /** @param {string} label */
  #saveSoon(label) {
    this.note = label;
    this.saving = "waiting";
    localStorage.setItem(this.kept, JSON.stringify({ rev: this.rev, document: this.doc }));
    this.#say("saved");
    clearTimeout(this.saveTimer);
    this.saveTimer = setTimeout(() => this.save(), SAVE_AFTER_MS);
  }

  async save() {
    if (this.saveRunning) return;
    this.saveRunning = true;
    const sent = this.doc;
    try {
      const told = await call("PUT", `/api/jobs/${this.id}`, { rev: this.rev, document: JSON.stringify(sent, null, 1), note: cut(this.note, 200) });
      this.rev = told.rev;
      if (this.doc === sent) {
        this.saving = "saved";
        localStorage.removeItem(this.kept);
      } else this.#saveSoon(this.note);
    } catch (problem) {
      if (problem instanceof ApiProblem && problem.status === 409) this.#conflict(problem.told.rev, problem.told.document, sent);
      else {
        this.saving = "unsent";
        clearTimeout(this.saveTimer);
        this.saveTimer = setTimeout(() => this.save(), 4000);
      }
    } finally {
      this.saveRunning = false;
      this.#say("saved");
    }
  }

  /** @param {number} rev @param {any} theirs @param {any} ours */
  #conflict(rev, theirs, ours) {
    this.saving = "conflict";
    this.dispatchEvent(new CustomEvent("conflict", { detail: { rev, theirs, ours } }));
  }

  /** End a conflict with the version that holds. @param {number} rev @param {any} doc @param {string} label */
  settle(rev, doc, label) {
    this.rev = rev;
    this.past.push({ label, doc: this.doc });
    this.doc = doc;
    this.#changed(label);
  }

  // ---- what follows

  /** @param {number} after_ms */
  #planSoon(after_ms) {
    clearTimeout(this.planTimer);
    this.planTimer = setTimeout(() => this.replan(), after_ms);
  }

  async replan() {
    if (this.planRunning) {
      this.planAgain = true;
      // a plan of an older state that has waited for long is given up: the server does other work instead
      if (performance.now() - this.planBegan > STALE_MS) this.planStop.abort();
      return;
    }
    this.planRunning = true;
    this.planBegan = performance.now();
    this.planStop = new AbortController();
    const asked = this.doc;
    try {
      const told = await call("POST", "/api/plan", JSON.stringify(asked), this.planStop.signal);
      this.faults = told.faults;
      if (told.plan) { this.plan = told.plan; this.planIsOf = asked; this.sources = told.sources ?? {}; this.quick = null; }
    } catch (problem) {
      if (!this.planStop.signal.aborted) this.faults = [{ path: "", message: /** @type {any} */ (problem).message }];
    } finally {
      this.planRunning = false;
      this.#say("plan");
      if (this.planAgain) { this.planAgain = false; this.replan(); }
    }
  }

  /** What follows a hand that drags: one request under way, the newest place wins. @param {any} doc a document that is not kept yet */
  async previewOf(doc) {
    this.previewNext = doc;
    if (this.previewRunning) return;
    this.previewRunning = true;
    try {
      while (this.previewNext) {
        const asked = this.previewNext;
        this.previewNext = null;
        this.quick = await call("POST", "/api/preview", JSON.stringify(asked));
        this.#say("preview");
      }
    } catch { /* the hand goes on; the whole plan tells what is wrong */ } finally { this.previewRunning = false; }
  }

  /** A drawing of the job as it is, as SVG text. @param {string} name */
  drawing(name) { return call("POST", `/api/drawings/${name}`, JSON.stringify(this.doc)); }
}

/** @param {any} root @param {(string|number)[]} path */
export function at(root, path) {
  let here = root;
  for (const step of path) { if (here === null || here === undefined) return undefined; here = here[step]; }
  return here;
}

/** Set a value in a document, making objects on the way; undefined takes it out. @param {any} root @param {(string|number)[]} path @param {any} value */
export function put(root, path, value) {
  let here = root;
  path.slice(0, -1).forEach((step, index) => {
    if (here[step] === null || here[step] === undefined) here[step] = typeof path[index + 1] === "number" ? [] : {};
    here = here[step];
  });
  const last = path[path.length - 1];
  if (value === undefined) { if (Array.isArray(here)) here.splice(Number(last), 1); else delete here[last]; } else here[last] = value;
}
