// Sums at hold points against what the program answers (vectors.json, made by tools/make_vectors.py).
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import * as kernel from "../../src/pavewright/web/static/site/holds/hold-kernel.js";

const told = JSON.parse(readFileSync(new URL("vectors.json", import.meta.url), "utf8")).holds;

/** @param {number|null} found @param {number|null} wanted */
function near(found, wanted) {
  if (found === null || wanted === null) assert.equal(found, wanted);
  else assert.ok(Math.abs(found - wanted) <= 1e-6 * Math.max(1, Math.abs(wanted)), `${found} against ${wanted}`);
}

test("a level passes, fails or is not decided as the program has it", () => {
  for (const one of told.on_limits)
    assert.equal(
      kernel.offVerdict(one.off_mm, one.above_mm, one.below_mm, told.trusted * one.sd_mm),
      one.verdict,
      JSON.stringify(one),
    );
  assert.equal(new Set(told.on_limits.map((/** @type {any} */ one) => one.verdict)).size, 3);
});

test("readings give the volumes and the doubt of the program; a single one has no doubt that is known", () => {
  for (const one of told.volumes) {
    const found = kernel.meanVolumes(one.area_m2, one.offs_mm, one.sd_mm, told.trusted);
    for (const name of /** @type {const} */ (["low_m3", "high_m3", "mean_mm", "doubt_m3"]))
      near(found[name], one[name]);
  }
});

test("a volume takes goods, hours, money and days by the rates that came along; what has no rate is null", () => {
  for (const one of told.takes) {
    const found = kernel.takes(one.rate, one.m3, one.day_h);
    found.goods.forEach((each, n) => {
      near(each.amount, one.amounts[n]);
      near(each.packs, one.packs[n]);
    });
    for (const name of /** @type {const} */ (["hours", "minor", "days", "loose_m3"])) near(found[name], one[name]);
  }
});

test("a drain falls enough, too little, or it is not decided", () => {
  for (const one of told.falls) {
    const found = kernel.fallRead(one.head_mm, one.foot_mm, one.run_mm, one.sd_mm, one.min_fall, told.trusted);
    near(found.fall, one.fall);
    near(found.sd, one.sd);
    assert.equal(found.verdict, one.verdict);
  }
});

test("a find is so much to dig: by its area, or along a drain by the width that is dug free", () => {
  near(kernel.foundVolume("soft_spot", { area_m2: 4, depth_mm: 300 }, 450), 1.2);
  near(kernel.foundVolume("drain", { length_mm: 5000, depth_mm: 200 }, 450), 0.45);
});

test("a reading belongs to the place it lies at, whatever it was called when it was read", () => {
  const part = /** @type {any} */ ({ same_place_mm: 100, reading_sd_mm: 1, trusted: 2 }),
    places = [
      { label: "L1", at: [0, 0], planned_mm: -150, down_mm: null },
      { label: "L2", at: [2000, 0], planned_mm: -180, down_mm: null },
    ],
    one = /** @type {any} */ ({ places, above_mm: 0, below_mm: 20, line_mm: null }),
    readings = [
      { label: "L2", x_mm: 30, y_mm: 0, level_mm: -160 }, // the plan called this place otherwise when it was read
      { label: "L1", x_mm: 1000, y_mm: 0, level_mm: -160 }, // of no place of this plan
    ];
  assert.deepEqual(kernel.read(part, one, { readings }), [
    { label: "L1", off: -10, line: null, verdict: "pass" },
    { label: null, off: null, line: null, verdict: null },
  ]);
});
