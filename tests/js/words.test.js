import assert from "node:assert/strict";
import { test } from "node:test";
import { messageOf, wasStopped } from "../../src/pavewright/web/static/lib/words.js";

test("what a caught problem says", () => {
  assert.equal(messageOf(new Error("no room")), "no room");
  assert.equal(messageOf("cut"), "cut");
  assert.ok(wasStopped(new DOMException("stopped", "AbortError")));
  assert.ok(!wasStopped(new Error("AbortError")));
});
