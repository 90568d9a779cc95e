import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { crosses, Labels } from "../../src/pavewright/web/static/lib/labels.js";

const { labels } = JSON.parse(readFileSync(new URL("vectors.json", import.meta.url), "utf-8"));

test("labels find the places that they have on paper", () => {
  for (const sheet of labels) {
    const known = new Labels(sheet.scale);
    for (const line of sheet.lines) known.line(line, 1);
    for (const sign of sheet.signs) known.takeSign(sign);
    for (const row of sheet.rows) {
      const found = known.place(row.at, row.size, sheet.field);
      const near = (/** @type {number[]} */ one, /** @type {number[]} */ other) =>
        one.every((value, index) => Math.abs(value - other[index]) < 1e-5 * sheet.scale);
      assert.ok(Math.abs(found.cost - row.cost) < 1e-6, `${found.cost} ${row.cost}`);
      assert.ok(near(found.box, row.box), `${found.box} ${row.box}`);
      assert.equal(found.line === null, row.line === null);
      if (found.line) assert.ok(near(found.line.flat(), row.line.flat()));
      if (Labels.free(found)) {
        known.take(found.box);
        if (found.line) known.takeLine(found.line[0], found.line[1]);
      }
    }
  }
});

test("a stretch meets a box that it runs through, and not one beside it", () => {
  assert.ok(crosses([0, 0], [10, 10], [4, 4, 6, 6]));
  assert.ok(crosses([0, 5], [10, 5], [4, 4, 6, 6]));
  assert.ok(!crosses([0, 0], [10, 10], [6, 0, 9, 3]));
  assert.ok(!crosses([0, 7], [10, 7], [4, 4, 6, 6]));
});
