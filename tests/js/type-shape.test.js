import assert from "node:assert/strict";
import { test } from "node:test";
import {
  addTypedArea,
  addTypedWalls,
  chainOf,
  closing,
  squaresOf,
  turnOf,
} from "../../src/pavewright/web/static/job/plan/type-shape.js";

/** @param {...[number, number]} rows */
const sides = (...rows) => rows.map(([length_mm, heading_deg]) => ({ length_mm, heading_deg }));
const HOW = { name: "Patio", drawing: false, begin: "", start: /** @type {[number, number]} */ ([0, 0]) };

test("sides one after another stand end to end", () => {
  const chain = chainOf(sides([6000, 0], [4000, 90]));
  assert.deepEqual(
    chain.map((at) => at.map(Math.round)),
    [
      [0, 0],
      [6000, 0],
      [6000, 4000],
    ],
  );
  assert.equal(turnOf(350, 10), 20);
  assert.equal(turnOf(0, 270), -90);
});

test("two sides close to a rectangle, four meet, an L has a side left over", () => {
  assert.equal(closing(sides([6000, 0])), null);
  assert.equal(closing(sides([6000, 0], [4000, 90]))?.ending, "rectangle");
  const four = closing(sides([6000, 0], [4000, 90], [6000, 180], [3990, 270]));
  assert.equal(four?.ending, "meets");
  assert.equal(Math.round(four?.gap_mm ?? 0), 10);
  const ell = closing(sides([6000, 0], [4000, 90], [2000, 180], [1500, 270], [4000, 180]));
  assert.equal(ell?.ending, "open");
  assert.equal(ell?.corners.length, 6);
  assert.equal(Math.round(ell?.gap_mm ?? 0), 2500);
});

test("no more corners are taken square than the tapes leave open", () => {
  assert.deepEqual(squaresOf(sides([6000, 0], [4000, 90]), "rectangle"), [0, 1, 2]);
  assert.deepEqual(squaresOf(sides([6000, 0], [4000, 90], [6000, 180], [4000, 270]), "meets"), [1]);
  assert.deepEqual(squaresOf(sides([6000, 0], [4000, 90], [2000, 180]), "open"), [1, 2]);
  assert.deepEqual(squaresOf(sides([6000, 0], [4000, 60], [2000, 150]), "open"), [2]);
});

test("a typed side is a tape, its place a sketch, never an invented coordinate", () => {
  /** @type {any} */ const doc = { measurements: {}, areas: [] };
  addTypedArea(doc, sides([6000, 0], [4000, 90], [6000, 180], [4000, 270]), HOW);
  const { tape_plan, sketch, points } = doc.measurements;
  assert.equal(points, undefined);
  assert.deepEqual(
    sketch.map((/** @type {any} */ one) => [one.name, one.x_mm, one.y_mm]),
    [
      ["A", 0, 0],
      ["B", 6000, 0],
      ["C", 6000, 4000],
      ["D", 0, 4000],
    ],
  );
  assert.deepEqual([tape_plan.base_from, tape_plan.base_to], ["A", "B"]);
  assert.deepEqual(
    tape_plan.tapes.map((/** @type {any} */ one) => `${one.start}${one.end} ${one.length_mm}`),
    ["AB 6000", "BC 4000", "CD 6000", "DA 4000"],
  );
  assert.deepEqual(tape_plan.square_corners, [{ at: "B", first: "A", second: "C" }]);
  assert.equal(doc.areas[0].name, "Patio");
  assert.equal(doc.areas[0].laying.unit, null);
});

test("what is read off a drawing becomes points by coordinates that say so", () => {
  /** @type {any} */ const doc = { measurements: {} };
  addTypedArea(doc, sides([6000, 0], [4000, 90]), { ...HOW, drawing: true });
  assert.equal(doc.measurements.tape_plan, undefined);
  assert.equal(doc.measurements.points.length, 4);
  assert.ok(doc.measurements.points.every((/** @type {any} */ one) => one.note === "from a drawing"));
});

test("a wall along a side and a run of walls by themselves", () => {
  /** @type {any} */ const doc = { measurements: {} };
  const [first, ...rest] = sides([6000, 0], [4000, 90]);
  addTypedArea(doc, [{ ...first, wall: true, dpc_level_mm: 10150 }, ...rest], HOW);
  assert.deepEqual(doc.site.walls, [{ name: "Wall 1", start: "A", end: "B", kind: "house", dpc_level_mm: 10150 }]);
  addTypedWalls(doc, sides([3000, 90], [2000, 0]), { ...HOW, begin: "B", start: [6000, 0] });
  assert.equal(doc.site.walls.length, 3);
  assert.equal(doc.site.walls[1].start, "B");
  assert.equal(doc.measurements.tape_plan.tapes.at(-1).length_mm, 2000);
});
