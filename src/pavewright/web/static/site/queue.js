// @ts-check
/**
 * What was read and is not on the server yet, kept in this browser's database, and sent once.
 *
 * Each reading is on the disk before the page says that it is kept. A delivery has its name from the start; the server
 * knows a name that it has seen, so that it may be sent again after any interruption and still counts once. From the
 * touch until it is on the disk a reading is being written: nobody says then that all is sent. Events: `change`,
 * `sent`, `writing`.
 */
import { freshRecord } from "./this-phone.js";
import { unsent, withoutLast, withReading } from "./reading.js";
import { send } from "./send.js";

/** @typedef {import("./reading.js").Waiting} Waiting */

const KEEP_SENT = 400; // what was sent stays known so long, for counts and for taking back

/** @returns {Promise<IDBDatabase>} */
function opened() {
  return new Promise((done, fail) => {
    const asked = indexedDB.open("pavewright-site", 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("queue", { keyPath: "seq", autoIncrement: true });
      asked.result.createObjectStore("kept");
    };
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => fail(asked.error);
  });
}

export class Queue extends EventTarget {
  /** @param {string} job */
  constructor(job) {
    super();
    this.job = job;
    /** @type {Waiting[]} */ this.list = [];
    /** The revision of the job that this page shows; 0 while it shows none. */ this.rev = 0;
    this.state = "idle";
    /** What the server said when it could not keep anything; empty where it did not answer. */ this.words = "";
    /** How many touches are on their way to the disk. */ this.underway = 0;
    this.flushing = false;
    this.again = false;
  }

  async open() {
    this.base = await opened();
    this.base.onversionchange = () => this.base?.close();
    await this.load();
    for (const name of ["online", "pageshow"]) window.addEventListener(name, () => this.flush());
    document.addEventListener("visibilitychange", () => this.flush());
    // another window of this browser writes to the same queue
    this.news = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("pavewright-site");
    this.news?.addEventListener("message", () => this.load());
    setInterval(() => {
      if (this.waiting) this.flush();
    }, 20000);
    this.flush();
  }

  get unsent() {
    return unsent(this.list);
  }
  get waiting() {
    return this.list.some((one) => one.state === "waiting");
  }

  /**
   * One step of the database that is on the disk when it ends.
   * @template T
   * @param {(store: IDBObjectStore, all: Waiting[]) => T} act
   * @returns {Promise<T>}
   */
  step(act) {
    return new Promise((done, fail) => {
      const step = /** @type {IDBDatabase} */ (this.base).transaction("queue", "readwrite", { durability: "strict" }),
        store = step.objectStore("queue");
      /** @type {T} */ let made;
      const all = store.getAll();
      all.onsuccess = () => {
        try {
          made = act(store, all.result);
        } catch (problem) {
          step.abort();
          fail(problem);
        }
      };
      step.oncomplete = () => done(made);
      step.onerror = step.onabort = () => fail(step.error ?? new Error("not kept"));
    });
  }

  async load() {
    const all = await this.step((_, all) => all);
    this.list = all.filter((one) => one.job === this.job);
    this.dispatchEvent(new Event("change"));
  }

  async #changed() {
    await this.load();
    this.news?.postMessage("changed");
  }

  /**
   * Count a touch as being written from now on until its work is done.
   * @template T
   * @param {Promise<T>} work
   * @returns {Promise<T>}
   */
  async writing(work) {
    this.#count(1);
    try {
      return await work;
    } finally {
      this.#count(-1);
    }
  }

  /** @param {number} more */
  #count(more) {
    this.underway += more;
    this.dispatchEvent(new Event("writing"));
  }

  /** @returns {Waiting} */
  fresh() {
    return freshRecord(this.job, this.rev);
  }

  /**
   * One step of the database by a touch, then the news of it, then a try to send.
   * @template T
   * @param {(store: IDBObjectStore, all: Waiting[]) => T} act
   * @returns {Promise<T>}
   */
  async #touched(act) {
    const made = await this.writing(this.step(act).then((told) => this.#changed().then(() => told)));
    this.flush();
    return made;
  }

  /** Keep a reading. Resolves when it is on the disk. @param {string} kind @param {any} entry */
  async add(kind, entry) {
    await this.#touched((store, all) =>
      store.put(
        withReading(
          all.filter((one) => one.job === this.job),
          kind,
          entry,
          () => this.fresh(),
        ),
      ),
    );
  }

  /** Keep a photo; gives its key. @param {Blob} image @param {string} note @param {number[]|null} place */
  async addPhoto(image, note, place) {
    const one = this.fresh();
    await this.#touched((store) => store.put({ ...one, kind: "photo", image, note, place }));
    return one.id;
  }

  /** @param {(one: Waiting) => boolean} mine */
  undo(mine) {
    return this.#touched((store, all) => {
      const done = withoutLast(
        all.filter((one) => one.job === this.job),
        mine,
        () => this.fresh(),
      );
      for (const one of done.drop) store.delete(/** @type {number} */ (one.seq));
      for (const one of done.put) store.put(one);
      return done.words;
    });
  }

  /**
   * Change one that waits or was refused; null drops it.
   * @param {string} id
   * @param {(one: Waiting) => Waiting|null} act
   */
  async mend(id, act) {
    await this.#touched((store, all) => {
      const one = all.find((each) => each.id === id);
      const next = one ? act(one) : null;
      if (one && next) store.put(next);
      else if (one) store.delete(/** @type {number} */ (one.seq));
    });
  }

  /** Send what waits, in order, one after the other. */
  async flush() {
    if (this.flushing) {
      this.again = true;
      return;
    }
    this.flushing = true;
    let any = false;
    try {
      for (;;) {
        const next = this.list.find((one) => one.state === "waiting");
        if (!next) {
          this.state = "idle";
          break;
        }
        this.#say("sending");
        // that it was tried is written down first: from here on the server may have it
        const mine = await this.step((store, all) => {
          const now = all.find((one) => one.id === next.id);
          if (!now || now.state !== "waiting") return null;
          store.put({ ...now, tried: now.tried + 1 });
          return now;
        });
        if (!mine) {
          await this.load();
          continue;
        }
        const told = await send(this.job, mine);
        this.words = told.words ?? "";
        if (told.stop) {
          this.#say(told.stop);
          break;
        }
        any = true;
        await this.#settle(mine, told);
        await this.#changed();
      }
    } catch (problem) {
      this.state = "no answer";
      console.warn(problem);
    } finally {
      this.flushing = false;
      await this.load();
      if (any) this.dispatchEvent(new Event("sent"));
      if (this.again) {
        this.again = false;
        if (this.state === "idle") this.flush();
      }
    }
  }

  /** @param {Waiting} mine @param {{rev?: number, refused?: string}} told */
  #settle(mine, told) {
    return this.step((store, all) => {
      const now = all.find((one) => one.id === mine.id);
      if (!now) return;
      if (!told.refused) {
        if (now.image)
          store.delete(/** @type {number} */ (now.seq)); // the server has it; it is seen from there
        else store.put({ ...now, state: "sent", rev: told.rev });
        const old = all.filter((one) => one.state === "sent").slice(0, -KEEP_SENT);
        for (const one of old) store.delete(/** @type {number} */ (one.seq));
      } else if (now.undone) {
        // it never came in and is not wanted: nothing is left to take back
        store.delete(/** @type {number} */ (now.seq));
        for (const one of all) if (one.of === now.id) store.delete(/** @type {number} */ (one.seq));
      } else store.put({ ...now, state: "refused", message: told.refused });
    });
  }

  /** @param {string} state */
  #say(state) {
    this.state = state;
    this.dispatchEvent(new Event("change"));
  }

  /**
   * The last answer to a question, kept for a place without signal.
   * @param {string} path
   * @param {any} [told]
   * @returns {Promise<any>}
   */
  kept(path, told) {
    return new Promise((done, fail) => {
      const step = /** @type {IDBDatabase} */ (this.base).transaction(
          "kept",
          told === undefined ? "readonly" : "readwrite",
        ),
        store = step.objectStore("kept");
      const asked = told === undefined ? store.get(path) : store.put(told, path);
      step.oncomplete = () => done(told ?? asked.result ?? null);
      // an answer that this phone has no room to keep is an answer all the same
      step.onerror = step.onabort = () => (told === undefined ? fail(step.error) : done(told));
    });
  }
}
