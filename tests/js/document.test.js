import assert from "node:assert/strict";
import { test } from "node:test";
import * as change from "../../src/pavewright/web/static/job/plan/document.js";

/** @returns {any} a job of one square area, as much of it as a hand on the plan touches */
const square = () => ({
  measurements: {
    points: [
      { name: "A", x_mm: 0, y_mm: 0 },
      { name: "B", x_mm: 4000, y_mm: 0 },
      { name: "C", x_mm: 4000, y_mm: 3000 },
      { name: "D", x_mm: 0, y_mm: 3000 },
    ],
  },
  areas: [
    {
      name: "Terrace",
      outline: [{ point: "A" }, { point: "B", rise_mm: 200 }, { point: "C" }, { point: "D" }],
      edges: [{ corner: "C", restraint: "haunch" }],
      laying: {},
    },
  ],
});

test("a corner known by coordinates is moved, a measured one gets a point beside it", () => {
  const doc = square();
  assert.equal(change.moveCorner(doc, 0, -1, 2, [4100.04, 2900]), "C");
  assert.deepEqual(doc.measurements.points[2], { name: "C", x_mm: 4100, y_mm: 2900 });
  doc.measurements.points = doc.measurements.points.filter((/** @type {any} */ one) => one.name !== "C");
  const name = change.moveCorner(doc, 0, -1, 2, [4200, 2900]);
  assert.notEqual(name, "C");
  assert.equal(doc.areas[0].outline[2].point, name);
  assert.equal(doc.areas[0].edges[0].corner, name);
});

test("a corner put into a curved side makes it straight; three corners stay", () => {
  const doc = square();
  change.addCorner(doc, 0, -1, 1, [4000, 1500]);
  assert.equal(doc.areas[0].outline.length, 5);
  assert.equal("rise_mm" in doc.areas[0].outline[1], false);
  assert.ok(change.removeCorner(doc, 0, -1, 2));
  assert.ok(change.removeCorner(doc, 0, -1, 0));
  assert.equal(change.removeCorner(doc, 0, -1, 0), false);
});

test("a hole that is not there has no corners, and a door is put only into a wall that is there", () => {
  const doc = square();
  assert.deepEqual(change.cornersOf(doc, 0, 0), []);
  change.addDoor(doc, 0, 1000);
  assert.equal(doc.site, undefined);
  change.addThing(doc, "wall", [
    [0, 0],
    [4000, 0],
  ]);
  change.addDoor(doc, 0, 1000);
  assert.equal(doc.site.walls[0].openings[0].along_mm, 550);
});
