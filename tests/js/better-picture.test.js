// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";

import { apart, part } from "../../src/pavewright/web/static/job/stages/better-picture.js";

test("a value lies between the ends of all values; in the middle where they are the same", () => {
  assert.equal(part(10, [10, 30]), 0);
  assert.equal(part(25, [10, 30]), 0.75);
  assert.equal(part(7, [7, 7]), 0.5);
});

test("marks at one place are put beside each other, and others stay where they are", () => {
  const put = apart([
    { x: 100, y: 50 },
    { x: 100, y: 50 },
    { x: 101, y: 50 },
    { x: 400, y: 50 },
  ]);
  assert.deepEqual(put[0], { x: 100, y: 50 });
  assert.deepEqual(put[3], { x: 400, y: 50 });
  for (const [place, one] of put.entries())
    for (const other of put.slice(place + 1)) assert.ok(Math.hypot(one.x - other.x, one.y - other.y) >= 26);
});
