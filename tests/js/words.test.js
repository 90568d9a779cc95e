import assert from "node:assert/strict";
import { test } from "node:test";
import { lengthFrom, messageOf, wasStopped } from "../../src/pavewright/web/static/lib/words.js";

test("lengths as people write them", () => {
  for (const [text, wanted] of /** @type {[string, number|null][]} */ ([
    ["1235", 1235],
    ["1.235", 1235],
    ["1.235 m", 1235],
    ["123.5 cm", 1235],
    ["−12 mm", -12],
    ["4 ft 6 1/2 in", 1384.3],
    ["4' 6 1/2\"", 1384.3],
    ["12.5", 12.5],
    ["four", null],
    ["", null],
  ])) {
    const found = lengthFrom(text);
    if (wanted === null) assert.equal(found, null, text);
    else assert.ok(found !== null && Math.abs(found - wanted) < 1e-9, `${text}: ${found}`);
  }
});

test("what a caught problem says", () => {
  assert.equal(messageOf(new Error("no room")), "no room");
  assert.equal(messageOf("cut"), "cut");
  assert.ok(wasStopped(new DOMException("stopped", "AbortError")));
  assert.ok(!wasStopped(new Error("AbortError")));
});
