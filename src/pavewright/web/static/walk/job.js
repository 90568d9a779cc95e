// @ts-check
/**
 * The job as the walk sees it: the document that the server last gave, with everything changed since on this phone.
 *
 * A change is worked out as operations and is on the disk before it counts as kept; the queue sends it when it can.
 */
import { same } from "../lib/items.js";
import { applied, between, inverse } from "../lib/operations.js";

/** @typedef {import("../site/reading.js").Waiting} Waiting */

const KIND = "operations",
  LATE_MS = 15000,
  PATIENT_MS = 90000; // where nothing is kept yet the first answer is waited for

export class WalkJob extends EventTarget {
  /** @param {string} job @param {import("../site/queue.js").Queue} queue */
  constructor(job, queue) {
    super();
    this.job = job;
    this.queue = queue;
    /** @type {{document: any, rev: number, writing?: any}|null} */ this.base = null;
    /** @type {any} */ this.doc = null;
    this.fresh = false;
    this.missing = false;
    /** What two people changed at once and nobody chose yet. */ this.clashes = 0;
    /** Changes are worked out one after the other. @type {Promise<any>} */ this.row = Promise.resolve();
    queue.addEventListener("change", () => this.#worked());
    queue.addEventListener("sent", () => this.refresh());
  }

  async open() {
    this.base = await this.queue.kept(`walk ${this.job}`);
    this.#worked();
    const first = this.refresh();
    if (!this.base) await first;
  }

  /** Ask the server for the document; what waits here is laid over it. */
  async refresh() {
    try {
      const answer = await fetch(`/api/jobs/${this.job}`, {
        signal: AbortSignal.timeout(this.base ? LATE_MS : PATIENT_MS),
        cache: "no-store",
      });
      this.missing = answer.status === 404;
      if (!answer.ok) return;
      const { document, rev, clashes = [], writing } = await answer.json();
      this.clashes = clashes.length;
      // a change whose answer never came may be in it already: it counts once that is known
      if (this.base && this.queue.list.some((one) => one.state === "waiting" && one.tried > 0)) return;
      if (!document || (this.base && rev < this.base.rev)) return;
      this.fresh = true;
      this.base = { document, rev, writing };
      await this.queue.kept(`walk ${this.job}`, this.base);
    } catch {
      this.fresh = false; // then what is kept here holds
    }
    this.#worked();
  }

  /** Changes that the document of the server does not hold yet. @returns {Waiting[]} */
  get pending() {
    const rev = this.base?.rev ?? 0;
    return this.queue.list.filter(
      (one) =>
        one.kind === KIND &&
        (one.state === "waiting" ||
          one.state === "refused" ||
          (one.state === "sent" && Number(one.rev ?? Infinity) > rev)),
    );
  }

  #worked() {
    if (!this.base) return;
    this.queue.rev = this.base.rev;
    let doc = this.base.document;
    for (const one of this.pending) ({ doc } = applied(doc, one.entries));
    // what was only sent is no change: what was worked out for it stays good
    if (!this.doc || !same(this.doc, doc)) this.doc = doc;
    this.dispatchEvent(new Event("change"));
  }

  /**
   * Change the document. Resolves when the change is on the disk of this phone; false where it could not be kept.
   * @param {string} label what was done, in a few words
   * @param {(draft: any) => void} act changes a copy of the document
   * @returns {Promise<boolean>}
   */
  change(label, act) {
    return this.#inARow(async () => {
      const draft = structuredClone(this.doc);
      act(draft);
      const entries = between(this.doc, draft);
      if (entries.length) await this.#keep({ ...this.queue.fresh(), kind: KIND, entries, note: label });
    });
  }

  /**
   * Do something after what is being done. False where the phone could not keep it: what comes next is done all the
   * same.
   * @param {() => Promise<void>} act
   * @returns {Promise<boolean>}
   */
  #inARow(act) {
    const work = this.row.then(act);
    this.row = work.catch(() => {});
    return this.queue.writing(work).then(
      () => true,
      () => false,
    );
  }

  /** @param {Waiting} record */
  async #keep(record) {
    await this.queue.step((store) => store.put(record));
    await this.queue.load();
    navigator.vibrate?.(30);
    this.queue.flush();
  }

  /** The change that undo takes back next. @returns {Waiting|undefined} */
  get last() {
    return this.queue.list
      .filter((one) => one.kind === KIND && !one.undone && !one.of && one.state !== "refused")
      .at(-1);
  }

  /**
   * Take the last change back: it never leaves this phone, or its inverse follows it. False where it could not be kept.
   * @returns {Promise<boolean>}
   */
  undo() {
    return this.#inARow(async () => {
      const { last } = this;
      if (!last) return;
      const back = { ...this.queue.fresh(), kind: KIND, entries: inverse(last.entries), of: last.id };
      await this.queue.step((store, all) => {
        const now = all.find((one) => one.id === last.id);
        if (now?.state === "waiting" && now.tried === 0) store.delete(/** @type {number} */ (now.seq));
        else {
          if (now) store.put({ ...now, undone: true });
          store.put({ ...back, note: `Undo: ${last.note ?? ""}` });
        }
      });
      await this.queue.load();
      this.queue.flush();
    });
  }
}
