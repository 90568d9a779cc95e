import assert from "node:assert/strict";
import { test } from "node:test";
import { changedWords, hereWords } from "../../src/pavewright/web/static/job/also-here.js";
import { placeAfter } from "../../src/pavewright/web/static/job/in-place.js";

const stages = (/** @type {string} */ key) => ({ levels: "Levels", price: "Price" })[key] ?? "";

test("who else is here is said once, with what is looked at", () => {
  assert.equal(hereWords([], stages), "");
  const ada = { name: "Ada", stage: "levels", own: false },
    nobody = { name: "", stage: "price", own: false };
  assert.equal(hereWords([ada], stages), "Ada (Levels)");
  assert.equal(hereWords([ada, { ...ada, stage: "price" }], stages), "Ada (Levels, Price)");
  assert.equal(hereWords([{ ...ada, stage: "" }, nobody], stages), "Ada, another screen");
  assert.equal(hereWords([nobody, nobody], stages), "another screen (2)");
  assert.equal(hereWords([{ ...nobody, own: true }], stages), "another screen");
  assert.equal(hereWords([{ ...ada, own: true }], stages), "you on another screen");
});

test("who changed the job is said once", () => {
  assert.equal(changedWords([]), "");
  const ada = { name: "Ada", own: false };
  assert.equal(changedWords([ada, ada]), "Changed by Ada");
  assert.equal(changedWords([ada, { name: "", own: false }]), "Changed by Ada, on another screen");
  assert.equal(changedWords([{ name: "Ada", own: true }]), "Changed by you on another screen");
});

test("a place follows its thing when others add, delete or change", () => {
  const tape = (/** @type {number} */ length_mm) => ({ start: "A", length_mm }),
    before = { tapes: [tape(1), tape(2)], walls: [{ name: "W", doors: [{ name: "D" }] }], title: "x" };
  assert.deepEqual(placeAfter(before, { title: "y" }, ["title"]), ["title"]);
  assert.deepEqual(placeAfter(before, { tapes: [tape(9), tape(1), tape(2)] }, ["tapes", 1, "start"]), [
    "tapes",
    2,
    "start",
  ]);
  assert.deepEqual(placeAfter(before, { tapes: [tape(1), tape(3)] }, ["tapes", 1, "start"]), ["tapes", 1, "start"]);
  assert.equal(placeAfter(before, { tapes: [tape(1)] }, ["tapes", 1, "start"]), null);
  const walls = [
    { name: "New", doors: [] },
    { name: "W", kind: "house", doors: [{ name: "D", width_mm: 900 }] },
  ];
  assert.deepEqual(placeAfter(before, { walls }, ["walls", 0, "doors", 0, "width_mm"]), [
    "walls",
    1,
    "doors",
    0,
    "width_mm",
  ]);
  assert.equal(placeAfter(before, { walls: [{ name: "New" }] }, ["walls", 0, "name"]), null);
});
