// Strings as they hang, check tapes and staff readings, as a phone works them out, against what the program answers.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import * as hung from "../../src/pavewright/web/static/site/set-out/hung.js";

const { setting_out: told } = JSON.parse(readFileSync(new URL("vectors.json", import.meta.url), "utf8"));

test("every string hangs over every peg as the program has it, with the heights read", () => {
  const read = hung.heightsRead(told.pegs, told.read, told.found_mm);
  const found = told.pegs.flatMap((/** @type {any} */ peg) =>
    hung.overPeg(peg, told.strings, told.pegs, read).map((one) => ({ peg: peg.name, ...one })),
  );
  assert.equal(found.length, told.crossings.length);
  assert.ok(found.length > 10);
  found.forEach((/** @type {any} */ one, /** @type {number} */ index) => {
    const wanted = told.crossings[index];
    assert.deepEqual([one.peg, one.string, one.hung_by], [wanted.peg, wanted.string, wanted.hung_by]);
    assert.ok(Math.abs(one.level_mm - wanted.level_mm) < 1e-6, `${one.peg} ${one.string}`);
    assert.ok(Math.abs(one.sag_mm - wanted.sag_mm) < 1e-6, `${one.peg} ${one.string}`);
  });
});

test("a height read where no peg of that name stands is left out", () => {
  const read = hung.heightsRead(told.pegs, told.read, told.found_mm);
  assert.ok(told.stray.length > 0);
  for (const name of told.stray) assert.ok(!read.has(name));
  assert.equal(read.size, told.read.length - told.stray.length);
});

test("a check tape is good within its limit alone", () => {
  assert.ok(
    told.checks.some((/** @type {any} */ one) => one.good) && told.checks.some((/** @type {any} */ one) => !one.good),
  );
  for (const one of told.checks) assert.equal(hung.checkSays(one, one.found_mm).good, one.good);
});

test("the staff shows what the program says", () => {
  for (const one of told.staff)
    assert.equal(hung.staffShows(hung.sightHeight(one.known_mm, one.backsight_mm), one.wanted_mm), one.shows_mm);
});
