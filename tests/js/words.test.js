import assert from "node:assert/strict";
import { test } from "node:test";
import { muchOf, messageOf, wasStopped } from "../../src/pavewright/web/static/lib/words.js";

test("what a caught problem says", () => {
  assert.equal(messageOf(new Error("no room")), "no room");
  assert.equal(messageOf("cut"), "cut");
  assert.ok(wasStopped(new DOMException("stopped", "AbortError")));
  assert.ok(!wasStopped(new Error("AbortError")));
});

test("one of a unit is called by its own word", () => {
  assert.equal(muchOf(1, "days"), "1 day");
  assert.equal(muchOf(2, "days"), "2 days");
  assert.equal(muchOf(0.5, "days"), "0.50 days");
  assert.equal(muchOf(1, "bag of 25 kg"), "1 bag of 25 kg");
});
