// A slab on its bed and bags against area laid, as a phone works them out, against what the program answers.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { bedSoFar } from "../../src/pavewright/web/static/site/lay/bed.js";
import { standing } from "../../src/pavewright/web/static/site/lay/units.js";
import * as slab from "../../src/pavewright/web/static/site/lay/slab.js";

const { bedding: told } = JSON.parse(readFileSync(new URL("vectors.json", import.meta.url), "utf8"));

/** @param {any} found @param {any} wanted @param {string} words */
function near(found, wanted, words) {
  if (typeof wanted !== "number") assert.deepEqual(found, wanted, words);
  else assert.ok(Math.abs(found - wanted) <= 1e-6, `${words}: ${found} against ${wanted}`);
}

/** @param {any[]} found @param {any[]} wanted @param {string} words */
function allNear(found, wanted, words) {
  assert.equal(found.length, wanted.length, words);
  found.forEach((each, index) => near(each, wanted[index], `${words}, ${index}`));
}

test("a tap sinks each corner as the program has it, and holds the same corners", () => {
  for (const { corners, place, near: for_, at, move, held } of told.taps) {
    const plate = slab.plateOf(corners),
      found = slab.sinks(plate, at);
    allNear(found.move, move, place);
    assert.deepEqual(found.held, held);
    assert.ok(
      slab
        .places(plate)
        .some(
          ([kind, near_, spot]) =>
            kind === place && String(near_) === String(for_) && Math.hypot(spot[0] - at[0], spot[1] - at[1]) < 1e-6,
        ),
      `${place} ${for_}`,
    );
  }
});

test("what to do with a slab is what the program says, by every kind of reading", () => {
  for (const { corners, over, sd, rocks, bed, allowed, advice } of told.advised) {
    const found = slab.advise(corners, over, sd, told.limits, told.trusted_sd, rocks, bed, allowed),
      words = JSON.stringify({ over, sd, rocks, bed });
    assert.equal(found.act, advice.act, words);
    assert.deepEqual(found.why, advice.why, words);
    assert.deepEqual(found.low, advice.low, words);
    near(found.bedChange, advice.bed_change_mm, words);
    if (!found.plane || !advice.plane) assert.equal(found.plane, advice.plane, words);
    else {
      allNear(found.plane.over, advice.plane.over_mm, words);
      allNear(found.plane.sd, advice.plane.sd_mm, words);
      near(found.plane.twist, advice.plane.twist_mm, words);
      near(found.plane.twistSd, advice.plane.twist_sd_mm, words);
    }
    if (!found.tap || !advice.tap) assert.equal(found.tap, advice.tap, words);
    else {
      assert.equal(found.tap.place, advice.tap.place, words);
      assert.deepEqual(found.tap.corners, advice.tap.corners, words);
      assert.deepEqual(found.tap.held, advice.tap.held, words);
      allNear(found.tap.down, advice.tap.down_mm, words);
      allNear(found.tap.at, advice.tap.at, words);
    }
  }
  const acts = new Set(told.advised.map((/** @type {any} */ one) => one.advice.act));
  assert.deepEqual([...acts].sort(), ["leave", "lift", "look", "read", "tap"]);
});

test("steps to what lies beside, and where a corner is aimed at, are those of the program", () => {
  for (const { row, one, other, lip, beside } of told.seams) {
    const found = slab.lipAt(row, one, other, 2, told.trusted_sd);
    if (!found || !lip) assert.equal(found, lip);
    else {
      near(found.lip_mm, lip.lip_mm, "lip");
      near(found.sd_mm, lip.sd_mm, "its doubt");
      assert.equal(found.verdict, lip.verdict);
    }
    beside.forEach((/** @type {number[]} */ wanted, /** @type {number} */ corner) =>
      allNear(slab.beside(7, corner, one.over.length, [[row, other]]), wanted, `beside corner ${corner}`),
    );
  }
  for (const { beside, aim } of told.aims) near(slab.aimedAt(beside, 2, 6), aim, String(beside));
});

test("bags against area laid say of the bed what the program says", () => {
  for (const { bed, opened, left, laid_m2, found } of told.beds) {
    const mine = /** @type {any} */ (bedSoFar(opened, left, laid_m2, bed, told.trusted_sd));
    assert.equal(mine.runs, found.runs);
    if (found.runs !== "unknown")
      for (const name of ["mean_mm", "low_mm", "high_mm", "more_low", "more_high", "shows_from_m2"])
        near(mine[name], found[name], name);
  }
  const runs = new Set(told.beds.map((/** @type {any} */ one) => one.found.runs));
  assert.deepEqual([...runs].sort(), ["as_planned", "thick", "thin", "too_early", "unknown"]);
});

test("a unit marked as laid without a reading is not read, never well laid", () => {
  const laid = { entry: { state: "laid" }, sd: 1 };
  assert.equal(standing({ ...laid, over: [null, null, null, null] }), " – laid, not read");
  assert.equal(standing({ ...laid, over: [0, null, 0, 0] }), " – laid, not all corners read");
  assert.equal(standing({ ...laid, over: [0, 0, 0, 0] }), " ✓ laid");
  assert.equal(standing({ entry: { state: "to_re_bed" }, over: [0, 0, 0, 0], sd: 1 }), " ✕ to bed again");
  assert.equal(standing(undefined), "");
});
