// @ts-check
/** What was read on a site sheet: kept beside the file in this browser until it is saved as a file and brought in. */
import { freshId } from "../lib/api.js";
import { unsent, withoutLast, withReading } from "./reading.js";
import { phoneName, today } from "./this-phone.js";

/** @typedef {import("./reading.js").Waiting} Waiting */

export class SheetQueue extends EventTarget {
  /** @param {string} job @param {number} rev the revision of the job that the sheet was made of */
  constructor(job, rev) {
    super();
    this.job = job;
    this.rev = rev;
    this.key = `pavewright.sheet.${job}`;
    this.state = "sheet";
    /** @type {Waiting[]} */ this.list = JSON.parse(localStorage.getItem(this.key) ?? "[]");
  }

  get unsent() {
    return unsent(this.list);
  }

  /** @returns {Waiting} */
  fresh() {
    const { job, rev: base } = this;
    return {
      ...{ id: freshId(), job, kind: "", entries: [], date: today(), tried: 0, base, from: phoneName() },
      state: "waiting",
    };
  }

  /** @param {Waiting[]} list */
  #keep(list) {
    // throws where it is full: then nothing was kept and the page says so
    localStorage.setItem(this.key, JSON.stringify(list));
    this.list = list;
    this.dispatchEvent(new Event("change"));
  }

  /**
   * What a sheet keeps is on the disk at once: nothing is counted as being written.
   * @template T
   * @param {Promise<T>} work
   * @returns {Promise<T>}
   */
  writing(work) {
    return work;
  }

  /** @param {string} kind @param {any} entry */
  async add(kind, entry) {
    const next = withReading(this.list, kind, entry, () => this.fresh());
    this.#keep([...this.list.filter((one) => one.id !== next.id), next]);
  }

  /**
   * What was saved to a file may have been brought in already: then it is taken back there too.
   * @param {(one: Waiting) => boolean} mine
   */
  async undo(mine) {
    const done = withoutLast(this.list, mine, () => this.fresh()),
      gone = new Set([...done.drop, ...done.put].map((one) => one.id));
    const put = new Map(done.put.map((one) => [one.id, one]));
    this.#keep([
      ...this.list.filter((one) => !gone.has(one.id) || put.has(one.id)).map((one) => put.get(one.id) ?? one),
      ...done.put.filter((one) => !this.list.some((each) => each.id === one.id)),
    ]);
    return done.words;
  }

  /** Everything that can be brought in; what is in a file counts as tried. */
  exported() {
    this.#keep(this.list.map((one) => (one.state === "waiting" ? { ...one, tried: one.tried + 1 } : one)));
    return this.list;
  }
}
