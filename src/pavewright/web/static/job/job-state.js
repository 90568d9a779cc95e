// @ts-check
/**
 * One job on the screen: its document, what follows from it, and how it is kept.
 *
 * Events: `document` after every change, `plan` when a whole plan came, `preview` when a quick one came, `saved`,
 * `conflict`. A change is kept on the server soon after it is made; until it is acknowledged it also lies in this
 * browser, where that has room. Each save has a key: one whose answer was not heard is sent again as it was, and the
 * server keeps it once.
 */
import { ApiProblem, call, freshId, replaced } from "../lib/api.js";
import { forget, keep, kept } from "./unsent.js";
import { cut, messageOf } from "../lib/words.js";

const SAVE_AFTER_MS = 350,
  AGAIN_MS = 4000,
  ANSWER_MS = 30000;
const PLAN_AFTER_MS = 150;
const STALE_MS = 5000;
const UNDO_MAX = 200;

export class JobState extends EventTarget {
  /** @param {string} id */
  constructor(id) {
    super();
    this.id = id;
    this.rev = 0;
    this.doc = /** @type {JobDocument} */ (/** @type {unknown} */ (null));
    /** @type {PlanSoFar|null} */ this.plan = null;
    /** @type {any} */ this.quick = null;
    /** @type {{path: string, message: string}[]} */ this.faults = [];
    /** @type {Record<string, string>} */ this.sources = {};
    this.planIsOf = null;
    this.planBegan = 0;
    this.previewTurn = 0;
    this.planStop = new AbortController();
    /** @type {"saved"|"waiting"|"unsent"|"refused"|"conflict"} */ this.saving = "saved";
    /** Why the last save was not kept; empty once one was. */ this.problem = "";
    /** Why the job could not be read as it was kept; empty where it could. */ this.fault = "";
    /** Whether this browser holds what the server does not have yet. */ this.inBrowser = true;
    /** @type {{key: string, rev: number, note: string, doc: any}|null} a save that has no answer yet */ this.sent =
      null;
    /** @type {{label: string, doc: any}[]} */ this.past = [];
    /** @type {{label: string, doc: any}[]} */ this.future = [];
    this.note = "";
    this.kept = `pavewright.unsent.${id}`;
    /** What plans and previews of this page are about, so that the server leaves an older one for a newer. */
    this.subject = `${id}-${freshId()}`;
  }

  async open() {
    const told = await call("GET", `/api/jobs/${this.id}`);
    this.rev = told.rev;
    this.doc = told.document;
    this.fault = told.fault ?? "";
    this.archived = told.archived;
    const unsent = kept(this.kept);
    if (unsent) await this.#takeUnsent(unsent);
    this.#say("document");
    if (this.doc) this.#planSoon(0);
  }

  /**
   * What this browser had not sent when it was closed comes back as a change.
   * @param {import("./unsent.js").Unsent} unsent
   */
  async #takeUnsent(unsent) {
    const ours = await this.#upToDate(unsent.document);
    let rev = unsent.rev;
    if (unsent.sent) {
      // perhaps it arrived and only the answer was lost: its key tells
      const sent = { ...unsent.sent, doc: unsent.sent.document ?? unsent.document };
      try {
        rev = (await this.#put(sent)).rev;
        if (rev > this.rev) {
          this.rev = rev;
          this.doc = await this.#upToDate(sent.doc);
          this.fault = "";
        }
        if (same(unsent.document, sent.doc)) return forget(this.kept);
      } catch (problem) {
        if (!refused(problem)) {
          this.#goOnWith(ours);
          this.sent = sent;
          return this.#notSaved(problem, sent);
        }
      }
    }
    if (same(ours, this.doc)) return forget(this.kept);
    if (rev !== this.rev) return this.#conflict(this.rev, this.doc, ours);
    this.#goOnWith(ours);
    this.#saveSoon("changes that had not been sent");
  }

  /**
   * A document that this browser wrote before an update of the program, in the version of the server.
   * @param {JobDocument} doc
   * @returns {Promise<JobDocument>}
   */
  async #upToDate(doc) {
    if (this.doc && doc.version === this.doc.version) return doc;
    return (await call("POST", "/api/documents/up-to-date", { document: doc })).document;
  }

  /** @param {JobDocument} doc */
  #goOnWith(doc) {
    if (this.doc) this.past.push({ label: "as it was kept", doc: this.doc });
    this.doc = doc;
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
    if (same(next, this.doc)) return;
    if (this.doc) this.past.push({ label, doc: this.doc });
    if (this.past.length > UNDO_MAX) this.past.shift();
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
    // what a hand asked before it let go is of an older state: its answer may not stand over the plan that follows
    this.previewNext = null;
    this.previewTurn += 1;
    this.#say("document");
    this.#saveSoon(label);
    this.#planSoon(PLAN_AFTER_MS);
  }

  /** @param {string} name */
  #say(name) {
    this.dispatchEvent(new Event(name));
  }

  // ---- keeping

  /** @param {string} label */
  #saveSoon(label) {
    this.note = label;
    this.saving = "waiting";
    this.#keepHere();
    this.#say("saved");
    clearTimeout(this.saveTimer);
    this.saveTimer = setTimeout(() => this.save(), SAVE_AFTER_MS);
  }

  #keepHere() {
    const { sent, doc } = this;
    this.inBrowser = keep(this.kept, {
      rev: this.rev,
      document: doc,
      sent: sent && {
        key: sent.key,
        rev: sent.rev,
        note: sent.note,
        document: sent.doc === doc ? undefined : sent.doc,
      },
    });
  }

  /** @param {{key: string, rev: number, note: string, doc: any}} sent */
  #put(sent) {
    return call(
      "PUT",
      `/api/jobs/${this.id}`,
      { rev: sent.rev, key: sent.key, document: JSON.stringify(sent.doc, null, 1), note: sent.note },
      AbortSignal.timeout(ANSWER_MS),
    );
  }

  async save() {
    if (this.saveRunning || this.saving === "conflict") return;
    this.saveRunning = true;
    clearTimeout(this.saveTimer);
    const sent = (this.sent ??= { key: freshId(), rev: this.rev, note: cut(this.note, 200), doc: this.doc });
    this.#keepHere(); // with the key: from here on the server may have it
    try {
      this.rev = (await this.#put(sent)).rev;
      this.sent = null;
      this.problem = this.fault = "";
      if (this.doc === sent.doc) {
        this.saving = "saved";
        forget(this.kept);
      } else this.#saveSoon(this.note);
    } catch (problem) {
      this.#notSaved(problem, sent);
    } finally {
      this.saveRunning = false;
      this.#say("saved");
    }
  }

  /** @param {any} problem @param {{doc: any}} sent */
  #notSaved(problem, sent) {
    if (refused(problem)) {
      this.sent = null; // the server does not have it: a later save is another one
      if (problem.status === 409) return this.#conflict(problem.told.rev, problem.told.document, this.doc ?? sent.doc);
      this.saving = "refused";
      this.problem = problem.message;
      this.#keepHere();
      return;
    }
    this.saving = "unsent";
    this.problem = problem instanceof ApiProblem ? problem.message : "The answer of the server was cut short.";
    clearTimeout(this.saveTimer);
    this.saveTimer = setTimeout(() => this.save(), AGAIN_MS);
  }

  /**
   * Keep the job as it is once more, under a name.
   * @param {string} note
   * @returns {Promise<boolean>} whether it is kept
   */
  async keepAs(note) {
    this.note = note;
    await this.save();
    return this.saving === "saved";
  }

  /** @param {number} rev @param {any} theirs @param {any} ours */
  #conflict(rev, theirs, ours) {
    this.saving = "conflict";
    this.dispatchEvent(new CustomEvent("conflict", { detail: { rev, theirs, ours } }));
  }

  /** End a conflict with the version that holds. @param {number} rev @param {JobDocument} doc @param {string} label */
  settle(rev, doc, label) {
    this.rev = rev;
    if (this.doc) this.past.push({ label, doc: this.doc });
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
      const told = await call("POST", "/api/plan", JSON.stringify(asked), this.planStop.signal, this.subject);
      this.faults = told.faults;
      if (told.plan) {
        this.plan = told.plan;
        this.planIsOf = asked;
        this.sources = told.sources ?? {};
        this.quick = null;
      }
    } catch (problem) {
      if (!this.planStop.signal.aborted && !replaced(problem))
        this.faults = [{ path: "", message: messageOf(problem) }];
    } finally {
      this.planRunning = false;
      this.#say("plan");
      if (this.planAgain) {
        this.planAgain = false;
        this.replan();
      }
    }
  }

  /**
   * What follows a hand that drags: one request under way, the newest place wins.
   * @param {JobDocument} doc a document that is not kept yet
   */
  async previewOf(doc) {
    this.previewNext = doc;
    if (this.previewRunning) return;
    this.previewRunning = true;
    try {
      while (this.previewNext) {
        const asked = this.previewNext;
        this.previewNext = null;
        const turn = this.previewTurn,
          told = await call("POST", "/api/preview", JSON.stringify(asked), undefined, this.subject);
        if (turn !== this.previewTurn) continue;
        this.quick = told;
        this.#say("preview");
      }
    } catch {
      /* the hand goes on; the whole plan tells what is wrong */
    } finally {
      this.previewRunning = false;
    }
  }

  /** A drawing of the job as it is, as SVG text. @param {string} name */
  drawing(name) {
    return call("POST", `/api/drawings/${name}`, JSON.stringify(this.doc));
  }
}

/** @param {any} one @param {any} other */
const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

/** Whether the server has said no; anything else leaves open whether it has the save. @param {any} problem */
const refused = (problem) =>
  problem instanceof ApiProblem &&
  problem.status >= 400 &&
  problem.status < 500 &&
  ![408, 429].includes(problem.status);

/** @param {any} root @param {(string|number)[]} path */
export function at(root, path) {
  let here = root;
  for (const step of path) {
    if (here === null || here === undefined) return undefined;
    here = here[step];
  }
  return here;
}

/**
 * Set a value in a document, making objects on the way; undefined takes it out.
 * @param {any} root
 * @param {(string|number)[]} path
 * @param {any} value
 */
export function put(root, path, value) {
  let here = root;
  path.slice(0, -1).forEach((step, index) => {
    if (here[step] === null || here[step] === undefined) here[step] = typeof path[index + 1] === "number" ? [] : {};
    here = here[step];
  });
  const last = path[path.length - 1];
  if (value === undefined) {
    if (Array.isArray(here)) here.splice(Number(last), 1);
    else delete here[last];
  } else here[last] = value;
}
