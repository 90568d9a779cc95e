// @ts-check
/**
 * One job on the screen: its document, how it is kept, and what follows from it.
 *
 * Events: those of keeping; `plan` when a whole plan came, `preview` when a quick one came; `kept-back` where an undo
 * leaves what others changed.
 */
import { call, freshId, replaced } from "../lib/api.js";
import { applied, between } from "../lib/operations.js";
import { messageOf } from "../lib/words.js";
import { Keeping } from "./keeping.js";
import { EVERY_PART, withPieces } from "./plan/pieces.js";

const PLAN_AFTER_MS = 150,
  WAITS_MS = 500;

export class JobState extends Keeping {
  /** @param {string} id */
  constructor(id) {
    super(id);
    /** @type {PlanSoFar|null} */ this.plan = null;
    /** @type {any} */ this.quick = null;
    /** @type {{path: string, message: string}[]} */ this.faults = [];
    /** @type {Record<string, string>} */ this.sources = {};
    this.planIsOf = null;
    /** Whether the plan of the last change has been awaited for a while. */ this.waits = false;
    this.previewTurn = 0;
    this.planStop = new AbortController();
    /** What plans and previews of this page are about, so that the server leaves an older one for a newer. */
    this.subject = `${id}-${freshId()}`;
  }

  get past() {
    return this.history.past;
  }
  get future() {
    return this.history.future;
  }

  /** @override */
  async open() {
    await super.open();
    if (this.doc) this.#planSoon(0);
  }

  /** @override */
  changed() {
    // what a hand asked before it let go is of an older state: its answer may not stand over the plan that follows
    this.previewNext = null;
    this.previewTurn += 1;
    super.changed();
    this.#planSoon(PLAN_AFTER_MS);
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
    if (this.fault) return this.putWhole(label, next);
    const ops = between(this.doc, next);
    if (!ops.length) return;
    this.history.did({ label, ops: between(next, this.doc) });
    this.go(label, ops, next);
  }

  undo() {
    const step = this.history.back();
    if (step) this.#back(step, "future", `undone: ${step.label}`);
  }

  redo() {
    const step = this.history.forth();
    if (step) this.#back(step, "past", step.label);
  }

  /** @param {import("./history.js").Step} step @param {"past"|"future"} to @param {string} label */
  #back(step, to, label) {
    const { doc: next, clashes } = applied(this.doc, step.ops);
    if (clashes.length) this.dispatchEvent(new CustomEvent("kept-back", { detail: step.label }));
    const ops = between(this.doc, next);
    if (ops.length) this.history.put(to, { label: step.label, ops: between(next, this.doc) });
    if (ops.length) this.go(label, ops, next);
    else this.say("document");
  }

  // ---- what follows

  /** @param {number} after_ms */
  #planSoon(after_ms) {
    clearTimeout(this.planTimer);
    this.planTimer = setTimeout(() => this.replan(), after_ms);
  }

  /** Ask for the plan of the job as it is now; one of an older state is let go, here and on the server. */
  async replan() {
    this.planStop.abort();
    const stop = new AbortController(),
      asked = this.doc;
    this.planStop = stop;
    const late = setTimeout(() => {
      this.waits = true;
      this.say("waits");
    }, WAITS_MS);
    try {
      const told = await call("POST", EVERY_PART, JSON.stringify(asked), stop.signal, this.subject);
      if (stop.signal.aborted) return;
      this.faults = told.faults;
      if (told.plan) {
        this.plan = withPieces(told.plan, told.pieces ?? []);
        this.planIsOf = asked;
        this.sources = told.sources ?? {};
        this.quick = null;
      }
    } catch (problem) {
      if (stop.signal.aborted || replaced(problem)) return;
      this.faults = [{ path: "", message: messageOf(problem) }];
    } finally {
      clearTimeout(late);
    }
    this.waits = false;
    this.say("plan");
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
        this.say("preview");
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
