/** The walk keeps changes in a row: what the phone could not write stops nothing that comes after it. */
import assert from "node:assert/strict";
import test from "node:test";
import { freshRecord } from "../../src/pavewright/web/static/site/this-phone.js";
import { WalkJob } from "../../src/pavewright/web/static/walk/job.js";

globalThis.navigator ??= /** @type {any} */ ({});

/** A queue in memory, as the one of the page; it may be full. */
class Memory extends EventTarget {
  list = [];
  full = false;
  underway = 0;
  fresh() {
    return { ...freshRecord("j", 1), id: `d${this.list.length}` };
  }
  async step(act) {
    if (this.full) throw new Error("full");
    const put = (one) => {
      this.list = [...this.list.filter((each) => each.id !== one.id), one];
    };
    act({ put, delete: () => {} }, this.list);
  }
  async load() {
    this.dispatchEvent(new Event("change"));
  }
  async writing(work) {
    this.underway += 1;
    await work.catch(() => {});
    this.underway -= 1;
    return work;
  }
  flush() {}
}

test("an undo that could not be written is told, and the next change is kept", async () => {
  const queue = new Memory(),
    walk = new WalkJob("j", queue);
  walk.base = { document: { identity: { title: "A" } }, rev: 1 };
  queue.load();
  const named = (title) => walk.change(title, (draft) => (draft.identity.title = title));
  assert.equal(await named("B"), true);
  queue.list[0].tried = 1;
  queue.full = true;
  const undone = walk.undo();
  assert.equal(queue.underway, 1); // from the touch on
  assert.equal(await undone, false);
  assert.equal(await named("C"), false);
  queue.full = false;
  assert.equal(await named("D"), true);
  assert.equal(walk.doc.identity.title, "D");
  assert.equal(queue.underway, 0);
});
