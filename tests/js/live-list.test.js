import assert from "node:assert/strict";
import { test } from "node:test";
import { difference } from "../../src/pavewright/web/static/jobs/live-list.js";

test("rows that changed are told apart from a list that is another one", () => {
  const job = (/** @type {string} */ id, /** @type {string} */ title, state = "new") => ({ id, title, state }),
    stateOf = (/** @type {any} */ one) => one.state,
    before = [job("a", "A"), job("b", "B")];
  assert.deepEqual(difference(before, structuredClone(before), stateOf), { changed: [], moved: false });
  const titled = difference(before, [job("a", "A"), job("b", "B2")], stateOf);
  assert.deepEqual([titled.changed.map((one) => one.title), titled.moved], [["B2"], false]);
  assert.equal(difference(before, [job("b", "B2"), job("a", "A")], stateOf).moved, true);
  assert.equal(difference(before, [job("a", "A")], stateOf).moved, true);
  const more = difference(before, [job("c", "C"), ...before], stateOf);
  assert.deepEqual([more.changed, more.moved], [[], true]);
  assert.equal(difference(before, [job("a", "A", "won"), job("b", "B")], stateOf).moved, true);
  assert.equal(difference(before, [job("a", "A", "won"), job("b", "B")], () => "").moved, false);
});
