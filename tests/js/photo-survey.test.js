// Photos of a plane and turned levels against what the program answers (vectors.json, made by tools/make_vectors.py).
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { planeFromPhoto } from "../../src/pavewright/web/static/site/picture/photo-answer.js";
import { judged, turnedSlope } from "../../src/pavewright/web/static/site/picture/slope.js";

const told = JSON.parse(readFileSync(new URL("vectors.json", import.meta.url), "utf8")).photos;

/** @param {any} found @param {any} wanted @param {string} words */
function alike(found, wanted, words) {
  if (typeof wanted === "number") {
    assert.ok(typeof found === "number", `${words}: ${found} against ${wanted}`);
    const apart = words.endsWith("bearing_deg")
      ? Math.abs(((found - wanted + 270) % 180) - 90)
      : Math.abs(found - wanted);
    assert.ok(apart <= 1e-4 + 1e-6 * Math.abs(wanted), `${words}: ${found} against ${wanted}`);
  } else if (wanted !== null && typeof wanted === "object") {
    assert.deepEqual(Object.keys(found).sort(), Object.keys(wanted).sort(), words);
    for (const key of Object.keys(wanted)) alike(found[key], wanted[key], `${words}.${key}`);
  } else assert.equal(found, wanted, words);
}

test("a photo of a plane says on the phone what the program says of it, weak ones too", () => {
  const seen = new Set();
  told.pictures.forEach((/** @type {any} */ one, /** @type {number} */ number) => {
    alike(planeFromPhoto(one.picture, one.trust, told.limits), one.answer, `photo ${number}`);
    for (const each of [...one.answer.weak, ...one.answer.places.flatMap((/** @type {any} */ at) => at.weak)])
      seen.add(each);
  });
  for (const each of ["few_marks", "no_check", "marks_disagree", "beyond_marks", "picture_size", "low_camera"])
    assert.ok(seen.has(each), each);
  const answered = told.pictures.filter((/** @type {any} */ one) =>
    one.answer.places.some((/** @type {any} */ at) => at.at_mm),
  );
  assert.ok(answered.length > 20);
});

test("a slope by a turned tool, its band and what it judges", () => {
  const verdicts = new Set();
  for (const { pairs, found, asked, judged: wanted } of told.slopes) {
    const now = turnedSlope(pairs, 0.05, 2, 95);
    alike(now, found, "slope");
    alike(judged(now, asked.wanted_mm_per_m, asked.within_mm, asked.over_mm, asked.share), wanted, "judged");
    verdicts.add(wanted.verdict);
  }
  assert.deepEqual([...verdicts].sort(), ["fail", "pass", "too_coarse", "unsure"]);
});
