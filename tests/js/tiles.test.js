import assert from "node:assert/strict";
import { test } from "node:test";
import { Pieces } from "../../src/pavewright/web/static/job/plan/pieces.js";
import { Tiles, straightened } from "../../src/pavewright/web/static/job/plan/tiles.js";

const SIDE = 157,
  COUNT = SIDE * SIDE; // 24 649 setts of 100 mm with joints of 12 mm

/** Square setts in straight courses, the last of each course cut. */
function setts() {
  /** @type {any} */ const columns = { area: "Drive", runs: [], kind: [], form: [], dx: [], dy: [] };
  columns.kinds = ["whole", "cut"].map((kind) => ({
    kind,
    unit: "Sett",
    along_mm: 100,
    across_mm: 100,
    sliver: false,
  }));
  columns.forms = [[[0, 0, 1000, 0, 1000, 1000, 0, 1000]], [[0, 0, 500, 0, 500, 1000, 0, 1000]]];
  for (let course = 0; course < SIDE; course += 1) {
    columns.runs.push([course + 1, 1, course * SIDE + 1, SIDE]);
    for (let place = 0; place < SIDE; place += 1) {
      const last = place === SIDE - 1 ? 1 : 0;
      columns.kind.push(last);
      columns.form.push(last);
      columns.dx.push(place ? 1120 : course ? -1120 * (SIDE - 1) : 0);
      columns.dy.push(place || !course ? 0 : 1120);
    }
  }
  return new Pieces(columns);
}

test("a piece in columns is the piece that it was", () => {
  const pieces = setts();
  assert.equal(pieces.count, COUNT);
  assert.deepEqual(pieces.piece(SIDE), {
    ...pieces.kinds[0],
    course: 2,
    place: 1,
    number: SIDE + 1,
    shape: {
      outer: [
        [0, 112],
        [100, 112],
        [100, 212],
        [0, 212],
      ],
      holes: [],
    },
  });
  assert.equal(pieces.path(SIDE), "M0 112L100 112L100 212L0 212Z");
  assert.deepEqual(pieces.middle(1), [162, 50]);
  assert.equal(pieces.cut().length, SIDE);
  assert.equal(pieces.all()[COUNT - 1].number, COUNT);
});

test("24 649 setts are some dozens of tiles, and only those on the screen are drawn", () => {
  const tiles = new Tiles(setts());
  assert.ok(tiles.tiles.length <= 120, `${tiles.tiles.length} tiles`);
  assert.equal(
    tiles.tiles.reduce((sum, tile) => sum + tile.whole.length + tile.cut.length, 0),
    COUNT,
  );
  assert.equal(tiles.within(null).length, tiles.tiles.length);
  const near = tiles.within([0, 0, 3000, 3000]);
  assert.ok(near.length >= 1 && near.length <= 9, `${near.length} tiles near by`);
  assert.ok(near.every((tile) => tile.box[0] <= 3000 && tile.box[1] <= 3000));
  assert.deepEqual(tiles.within([-9000, -9000, -8000, -8000]), []);
});

test("where setts are specks their courses are drawn, so many as can be told apart", () => {
  const tiles = new Tiles(setts());
  assert.ok(tiles.isFine(0.1));
  assert.ok(!tiles.isFine(0.02));
  const lines = (/** @type {number} */ scale) => tiles.courses(scale).split("M").length - 1;
  assert.equal(lines(0.06), SIDE);
  assert.ok(lines(0.02) <= SIDE / 4 + 1, `${lines(0.02)} lines`);
  // a straight course is two points, however many setts it has
  assert.ok(tiles.courses(0.06).length < SIDE * 30);
});

test("a round course keeps its turn", () => {
  const ring = Array.from(
    { length: 60 },
    (_, at) => /** @type {[number, number]} */ ([1000 * Math.cos(at / 10), 1000 * Math.sin(at / 10)]),
  );
  const kept = straightened(ring, 50);
  assert.ok(kept.length > 6 && kept.length < 40, `${kept.length} points`);
  assert.deepEqual(kept.at(-1), ring.at(-1));
});
