import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { USUAL_MM, fallTyped, lengthFrom, lengthTyped } from "../../src/pavewright/web/static/lib/lengths.js";
import { level, metres, mm } from "../../src/pavewright/web/static/lib/words.js";

const { typed } = JSON.parse(readFileSync(new URL("vectors.json", import.meta.url), "utf-8"));

/** @param {import("../../src/pavewright/web/static/lib/lengths.js").Typed} found @param {any} wanted */
function like(found, wanted, words = "") {
  const near = (/** @type {number|null} */ one, /** @type {number|null} */ other) =>
    one === null || other === null ? one === other : Math.abs(one - other) <= 1e-6 * Math.max(1, Math.abs(other));
  assert.ok(near(found.value, wanted.value), `${words}: ${found.value}, not ${wanted.value}`);
  assert.deepEqual(
    found.choices.map((one) => one.text),
    wanted.choices.map((/** @type {any} */ one) => one.text),
    words,
  );
  found.choices.forEach((one, index) => assert.ok(near(one.value, wanted.choices[index].value), words));
  assert.equal(found.bare, wanted.bare, words);
}

test("typed lengths mean what the program takes them for", () => {
  assert.deepEqual(USUAL_MM, typed.usual_mm);
  for (const one of typed.lengths) like(lengthTyped(one.text, one.kind), one, `${one.text} as ${one.kind}`);
  for (const one of typed.levels) like(lengthTyped(one.text, "level", typed.near_mm), one, one.text);
  for (const one of typed.falls) like(fallTyped(one.text, one.unit), one, `${one.text} in ${one.unit}`);
});

test("a length of site with a point, below 30 mm or above 100 m is asked, never taken by itself", () => {
  for (const text of ["6.0", "6", "29", "1.235", "100001", "99.5"]) {
    assert.equal(lengthFrom(text), null, text);
    assert.ok(lengthTyped(text).choices.length > 0, text);
  }
  assert.equal(lengthFrom("6000"), 6000);
  assert.equal(lengthTyped("10.150", "level").value, null);
  assert.equal(lengthFrom("12.5", "joint"), 12.5);
  assert.equal(lengthFrom("1.235", "reading"), 1235);
});

test("what is asked is taken when it is answered", () => {
  for (const one of typed.lengths)
    for (const choice of one.choices)
      assert.ok(Math.abs((lengthFrom(choice.text, one.kind) ?? NaN) - choice.value) < 1e-6, choice.text);
});

test("a length as the pages write it reads back", () => {
  for (let step = 0; step < 4000; step += 1) {
    const value = Math.round((step * 7919) % 9999999) - 2000000;
    assert.equal(lengthFrom(mm(value)), value || 0, mm(value));
    assert.ok(Math.abs((lengthFrom(metres(value)) ?? NaN) - value) < 1e-6, metres(value));
    const read = lengthTyped(level(value), "level");
    assert.ok(
      [read.value, ...read.choices.map((one) => one.value)].some((one) => Math.abs((one ?? NaN) - value) < 1e-6),
      level(value),
    );
  }
});
