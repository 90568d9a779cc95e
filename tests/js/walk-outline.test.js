import assert from "node:assert/strict";
import { test } from "node:test";
import { bulge, corners, rectangle, snapped, squared } from "../../src/pavewright/web/static/walk/outline.js";

/** A line as a finger draws it: many places from corner to corner, each a little off. @param {number[][]} ring */
function drawn(ring) {
  const line = [];
  ring.forEach((from, index) => {
    const to = ring[(index + 1) % ring.length];
    for (let part = 0; part < 20; part += 1) {
      const shake = 40 * Math.sin(7 * part + index);
      line.push([from[0] + ((to[0] - from[0]) * part) / 20 + shake, from[1] + ((to[1] - from[1]) * part) / 20 - shake]);
    }
  });
  return line;
}

test("two opposite corners make a rectangle, whichever two are touched", () => {
  const wanted = [
    [0, 4000],
    [6000, 4000],
    [6000, 0],
    [0, 0],
  ];
  assert.deepEqual(rectangle([0, 4000], [6000, 0]), wanted);
  assert.deepEqual(rectangle([6003, -2], [1, 3998]), wanted);
});

test("a line drawn round an L in one go has its six corners, wherever it was begun", () => {
  const ring = [
    [0, 4000],
    [6000, 4000],
    [6000, 0],
    [3000, 0],
    [3000, 2000],
    [0, 2000],
  ];
  const line = drawn(ring);
  for (const start of [0, 7, 55]) {
    const found = corners([...line.slice(start), ...line.slice(0, start)]);
    assert.equal(found.length, 6);
    for (const at of ring)
      assert.ok(
        found.some((each) => Math.hypot(each[0] - at[0], each[1] - at[1]) < 450),
        `${at} is no corner`,
      );
  }
});

test("corners that are nearly square become so, a slanted side and a free corner stay", () => {
  const near = squared([
    [0, 4000],
    [6000, 4150],
    [5900, 100],
    [100, 0],
  ]);
  near.forEach((at, index) => {
    const [before, after] = [near[(index + 3) % 4], near[(index + 1) % 4]];
    const dot = (before[0] - at[0]) * (after[0] - at[0]) + (before[1] - at[1]) * (after[1] - at[1]);
    assert.ok(Math.abs(dot) < 1e5, `corner ${index}`);
  });
  const slanted = [
    [0, 4000],
    [6000, 4000],
    [6000, 2000],
    [4000, 0],
    [0, 0],
  ];
  assert.deepEqual(squared(slanted), slanted);
  const free = squared(
    [
      [0, 4000],
      [6000, 4000],
      [6300, 100],
      [0, 0],
    ],
    new Set([2]),
  );
  assert.deepEqual(free[2], [6300, 100]);
});

test("a corner that is moved near to square stands square, one that is moved far does not", () => {
  const ring = [
    [0, 4000],
    [6000, 4000],
    [6200, 150],
    [0, 0],
  ];
  assert.deepEqual(snapped(ring, 2), [6000, 0]);
  ring[2] = [4000, 1500];
  assert.deepEqual(snapped(ring, 2), [4000, 1500]);
});

test("a bent side bulges by a sixth of its length until it is measured", () => {
  assert.equal(bulge([0, 0], [3000, 0]), 500);
});
