// The kernel of the pages against what the program answers (vectors.json, made by tools/make_vectors.py).
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import * as kernel from "../../src/pavewright/web/static/lib/kernel.js";
import { atWall, verdictOn } from "../../src/pavewright/web/static/site/laid.js";
import { areaAt, plannedAt } from "../../src/pavewright/web/static/site/reading.js";

const told = JSON.parse(readFileSync(new URL("vectors.json", import.meta.url), "utf8"));

/** @param {number|null} found @param {number|null} wanted @param {string} words */
function near(found, wanted, words, within = 1e-6) {
  if (found === null || wanted === null) assert.equal(found, wanted, words);
  else assert.ok(Math.abs(found - wanted) <= within, `${words}: ${found} against ${wanted}`);
}

/** @param {number[][]} line */
const span = ([[x1, y1], [x2, y2]]) => Math.hypot(x2 - x1, y2 - y1);

test("a place lies within rings as the program has it, and as far outside", () => {
  const { outer, hole, places } = told.rings;
  for (const { at, inside, outside_mm } of places) {
    assert.equal(kernel.inside(at, [outer, hole]), inside, String(at));
    near(kernel.outsideBy(outer, at), outside_mm, `outside at ${at}`);
  }
  assert.equal(new Set(places.map((/** @type {any} */ one) => one.inside)).size, 2);
});

test("levels of a folded surface and of triangles, past their edges too", () => {
  const { folded, on_folded, sheet, on_sheet } = told.surfaces;
  for (const { at, level_mm } of on_folded) near(kernel.surfaceLevel(folded, at), level_mm, `folded at ${at}`);
  for (const { at, level_mm } of on_sheet) near(kernel.triangleLevel(sheet, at), level_mm, `sheet at ${at}`);
  assert.ok(on_sheet.some((/** @type {any} */ one) => one.level_mm === null));
});

test("contours of a plane have the levels and lengths of the program's, and lie at their level", () => {
  const { plane, rings, of_plane, step_mm } = told.contours;
  const found = kernel.planeContours(plane, rings, step_mm);
  assert.deepEqual(
    found.map((one) => one.level_mm),
    of_plane.map((/** @type {any} */ one) => one.level_mm),
  );
  found.forEach((one, index) => {
    near(
      one.lines.reduce((sum, line) => sum + span(line), 0),
      of_plane[index].length_mm,
      `length at ${one.level_mm}`,
      1e-3,
    );
    for (const at of one.lines.flat()) near(kernel.planeLevel(plane, at), one.level_mm, "level of a contour");
  });
});

test("contours of triangles have the levels and lengths of the program's", () => {
  const { of_sheet, sheet_step_mm } = told.contours,
    pieces = kernel.triangleContours(told.surfaces.sheet, sheet_step_mm);
  const lengths = new Map();
  for (const one of pieces) lengths.set(one.level_mm, (lengths.get(one.level_mm) ?? 0) + span([one.from, one.to]));
  assert.deepEqual(
    [...lengths.keys()].sort((a, b) => a - b),
    of_sheet.map((/** @type {any} */ one) => one.level_mm),
  );
  for (const { level_mm, length_mm } of of_sheet) near(lengths.get(level_mm), length_mm, `at ${level_mm}`, 1e-3);
});

test("a level book is reduced as the program reduces what the phone delivers", () => {
  for (const { sights, datum_mm, levels, setups, misclosure_mm, limit_mm } of told.books) {
    const book = kernel.reduced(sights, new Map([["P0", datum_mm]]));
    // a change point is one row in the book of the program: read to, and read back to
    const rows = book.rows.filter((row) => row.sight !== "moved").map((row) => [row.point, row.level_mm]);
    assert.deepEqual(rows, levels);
    assert.equal(book.setups, setups);
    near(book.closing?.off_mm ?? null, misclosure_mm, "misclosure");
    near(kernel.misclosureLimit(3, book.setups), limit_mm, "limit");
  }
});

test("a book that begins on a point of unknown level has rises and no levels, and closes on nothing", () => {
  const book = kernel.reduced(told.books[0].sights, new Map());
  assert.ok(book.rows.every((row) => row.level_mm === null));
  assert.ok(book.rows.some((row) => row.rise_mm !== null));
  assert.equal(book.closing, null);
});

test("verdicts on limits and on promises are the program's", () => {
  const { limit_mm, sd_mm, trusted_sd, on_limit, promise, on_promise } = told.verdicts,
    doubt = sd_mm * trusted_sd;
  for (const { off_mm, verdict } of on_limit)
    assert.equal(kernel.verdict(off_mm, limit_mm, doubt), verdict, `${off_mm}`);
  for (const { found_mm, verdict } of on_promise)
    assert.equal(kernel.clearanceVerdict(found_mm, promise, doubt), verdict, `${found_mm}`);
  assert.equal(new Set(on_limit.map((/** @type {any} */ one) => one.verdict)).size, 3);
  assert.equal(new Set(on_promise.map((/** @type {any} */ one) => one.verdict)).size, 3);
});

test("a reading beside a wall is held to plan and promise as the report holds it", () => {
  const { view, limit_mm, readings } = told.as_laid;
  let walls = 0;
  for (const { entry, off_mm, planned_mm, verdict, walls: wanted } of readings) {
    const at = [entry.x_mm, entry.y_mm];
    near(plannedAt(view, entry.area, at), planned_mm, "planned");
    near(entry.level_mm - planned_mm, off_mm, "off");
    assert.equal(areaAt(view, at).off_mm <= 300, true);
    assert.equal(verdictOn(view, entry, off_mm, limit_mm).alone, verdict);
    const found = atWall(view, entry.area, at, off_mm);
    assert.equal(found === null, wanted.length === 0, JSON.stringify(entry));
    if (!found) continue;
    walls += 1;
    const [wall, min_mm, held] = wanted.find((/** @type {any} */ one) => one[0] === found.wall);
    assert.equal(found.wall, wall);
    near(found.found_mm, min_mm, `clearance at ${wall}`, 1e-3);
    assert.equal(found.verdict, held);
  }
  assert.ok(walls > 3);
  assert.equal(
    new Set(readings.flatMap((/** @type {any} */ one) => one.walls.map((/** @type {any} */ wall) => wall[2]))).size,
    3,
  );
});

test("the worst of verdicts", () => {
  assert.equal(kernel.worst("pass", "unsure", "fail"), "fail");
  assert.equal(kernel.worst("pass", "unsure"), "unsure");
  assert.equal(kernel.worst("pass", "pass"), "pass");
});
