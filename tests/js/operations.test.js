// Operations on a job document against what the program makes of them (vectors.json, made by tools/make_vectors.py).
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { followed } from "../../src/pavewright/web/static/lib/following.js";
import * as items from "../../src/pavewright/web/static/lib/items.js";
import { applied, between, inverse } from "../../src/pavewright/web/static/lib/operations.js";

const told = JSON.parse(readFileSync(new URL("vectors.json", import.meta.url), "utf8")).operations;
const cases = told.cases.map((/** @type {string} */ text) => JSON.parse(text));
/** @param {any} value */
const sent = (value) => JSON.parse(JSON.stringify(value));

test("lists and fields are those of the program", () => {
  const { keys, kinds, references, sets, unique } = told.tables;
  assert.deepEqual(items.KEYS, keys);
  assert.deepEqual(items.KINDS, kinds);
  assert.deepEqual(items.REFERENCES, references);
  assert.deepEqual([...items.SETS].sort(), sets);
  assert.deepEqual([...items.UNIQUE].sort(), unique);
});

test("the same operations are made, and they go back", () => {
  for (const { before, mine, operations, inverse: back } of cases) {
    const made = sent(between(before, mine));
    assert.deepEqual(made, operations);
    assert.deepEqual(sent(inverse(made)), back);
    const there = applied(before, operations);
    assert.deepEqual(there.doc, mine);
    assert.deepEqual(there.clashes, []);
    const again = applied(mine, back);
    assert.deepEqual(again.doc, before);
    assert.deepEqual(again.clashes, []);
  }
});

test("what two people did merges by the same rules", () => {
  let clashes = 0;
  for (const one of cases) {
    const merged = applied(one.theirs, one.operations);
    assert.deepEqual(merged.doc, one.merged);
    assert.deepEqual(sent(merged.clashes), one.clashes);
    clashes += one.clashes.length;
  }
  assert.ok(clashes > 30, `${clashes} clashes`);
});

test("what others renamed is followed as the program follows it", () => {
  let changed = 0;
  for (const { before, theirs, operations, followed: wanted } of cases) {
    const found = sent(followed(operations, between(before, theirs)));
    assert.deepEqual(found, wanted);
    if (JSON.stringify(found) !== JSON.stringify(operations)) changed += 1;
  }
  assert.ok(changed > 5, `${changed} changed`);
});

test("a thousand operations on a job with five thousand readings are soon applied", () => {
  const readings = [...Array(5000).keys()].map((place) => ({ x_mm: place, y_mm: 0, level_mm: 1, area: "Patio" })),
    doc = { as_laid: { date: "2027-05-01", readings } };
  const ops = [...Array(1000).keys()].map((place) => ({
    op: /** @type {const} */ ("set"),
    at: ["as_laid", "readings", { is: readings[place * 5] }, "level_mm"],
    was: 1,
    to: 2,
  }));
  const began = process.cpuUsage(),
    done = applied(doc, ops);
  assert.equal(done.clashes.length, 0);
  assert.equal(done.doc.as_laid.readings.filter((/** @type {any} */ one) => one.level_mm === 2).length, 1000);
  // work of this process alone: what else the machine does is no matter
  const took = process.cpuUsage(began);
  assert.ok(took.user < 5_000_000, `${took.user} µs of work`);
});
