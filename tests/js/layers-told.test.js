import assert from "node:assert/strict";
import { test } from "node:test";
import { bandWords, fall, fullDay, layerWords } from "../../src/pavewright/web/static/lib/words.js";

test("a steep fall has a tenth, a flat one does not", () => {
  assert.equal(fall(1 / 9.4), "1 in 9.4");
  assert.equal(fall(1 / 12), "1 in 12");
  assert.equal(fall(-1 / 60.4), "1 in 60");
  assert.equal(fall(0), "level");
});

test("a cloth has no thickness", () => {
  assert.equal(layerWords({ name: "geotextile", thickness_mm: 0 }), "geotextile");
  assert.equal(bandWords({ name: "geotextile", thickness_mm: 0 }), "geotextile");
  assert.equal(bandWords({ name: "sub-base of stone, compacted", thickness_mm: 150 }), "150 sub-base of stone");
  assert.equal(layerWords({ name: "sub-base", thickness_mm: 150 }), "sub-base 150");
});

test("a day is written in words", () => {
  assert.match(fullDay("2027-04-12"), /^12 April 2027$|^April 12, 2027$/);
});
