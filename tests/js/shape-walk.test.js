// Walks round gardens by chance: the sketch badly drawn, every tape taken that is asked for, one of them misread.
import assert from "node:assert/strict";
import { test } from "node:test";
import { shape } from "../../src/pavewright/web/static/lib/shape.js";

const GARDENS = 60;

/** Numbers by chance, the same every time. @param {number} seed */
function chance(seed) {
  let at = seed;
  const even = () => {
    at = (at * 16807) % 2147483647;
    return at / 2147483647;
  };
  return { even, bell: () => Math.sqrt(-2 * Math.log(even())) * Math.cos(2 * Math.PI * even()) };
}

/** @typedef {ReturnType<typeof chance>} Chance */
/** @param {number[]} a @param {number[]} b @param {number[]} c */
const turn = (a, b, c) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
/** @param {number[]} a @param {number[]} b */
const apart = (a, b) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Corners of a garden, none nearly straight. @param {Chance} by */
function garden({ even }) {
  for (;;) {
    const count = 4 + Math.floor(even() * 5);
    const places = Array.from({ length: count }, (_, number) => {
      const way = (2 * Math.PI * (number + 0.35 * (even() - 0.5))) / count,
        reach = 2500 + 4500 * even();
      return [reach * Math.cos(way), reach * Math.sin(way)];
    });
    const high = places.map((at, n) => {
      const [before, after] = [places[(n + count - 1) % count], places[(n + 1) % count]];
      return Math.abs(turn(before, at, after)) / apart(before, after);
    });
    if (Math.min(...high) > 400) return places;
  }
}

/** A sketch of it, every corner off by up to so much of a mean side, turned and scaled. @param {Chance} by @param {number[][]} places @param {number} distorted */
function drawn({ even }, places, distorted) {
  const mean = places.reduce((sum, at, n) => sum + apart(at, places[(n + 1) % places.length]), 0) / places.length,
    way = 2 * Math.PI * even(),
    scale = 0.02 + 0.5 * even();
  return places.map(([x, y], n) => {
    const [off, aside] = [distorted * mean * Math.sqrt(even()), 2 * Math.PI * even()],
      [u, v] = [x + off * Math.cos(aside), y + off * Math.sin(aside)];
    return {
      name: `P${n}`,
      x_mm: scale * (u * Math.cos(way) - v * Math.sin(way)),
      y_mm: scale * (u * Math.sin(way) + v * Math.cos(way)),
    };
  });
}

/**
 * Tapes taken as they are asked for.
 * @param {Chance} by
 * @param {number[][]} places
 * @param {any[]} sketch
 * @param {(length: number, count: number, pair: string) => number} read what is read of a length
 * @param {(found: import("../../src/pavewright/web/static/lib/shape.js").Shape) => boolean} enough
 */
function walked({ bell }, places, sketch, read, enough) {
  const outline = sketch.map(({ name }) => ({ point: name })),
    /** @type {any} */ document = { measurements: { sketch }, site: { walls: [] }, areas: [{ outline }] };
  let found = shape(document);
  for (let count = 0; found.next && count < 4 * places.length; count += 1) {
    const { start, end } = found.next,
      true_mm = apart(places[Number(start.slice(1))], places[Number(end.slice(1))]),
      taken = Math.round(true_mm + bell() * Math.hypot(2, 0.0002 * true_mm));
    document.measurements.tape_plan ??= { base_from: start, base_to: end, tapes: [] };
    document.measurements.tape_plan.tapes.push({
      start,
      end,
      length_mm: read(taken, count, [start, end].sort().join()),
    });
    found = shape(document);
    if (enough(found)) break;
  }
  return found;
}

for (const distorted of [0.15, 0.3])
  test(`gardens drawn ${100 * distorted} % wrong come out as they are taped, left and right too`, (t) => {
    const by = chance(77);
    let [right, corners, tapes, asked] = [0, 0, 0, 0];
    for (let number = 0; number < GARDENS; number += 1) {
      const places = garden(by),
        found = walked(
          by,
          places,
          drawn(by, places, distorted),
          (length) => length,
          ({ fixed }) => fixed,
        );
      assert.ok(found.fixed);
      tapes += found.tapes.length;
      asked += found.points.filter(({ side }) => side === "doubtful").length;
      const at = (/** @type {number} */ n) => {
        const point = found.points.find(({ name }) => name === `P${(n + places.length) % places.length}`);
        return [point?.x_mm ?? NaN, point?.y_mm ?? NaN];
      };
      const signs = places.map((place, n) => {
        const truth = turn(places[(n + places.length - 1) % places.length], place, places[(n + 1) % places.length]);
        return truth * turn(at(n - 1), at(n), at(n + 1)) > 0;
      });
      corners += signs.length;
      right += signs.filter(Boolean).length;
      if (signs.every(Boolean))
        places.forEach((place, n) => {
          const off = apart(at(n), at(n + 1)) - apart(place, places[(n + 1) % places.length]);
          assert.ok(Math.abs(off) < 60, `garden ${number}: a side is off by ${off}`);
        });
    }
    t.diagnostic(
      `${right} of ${corners} corners right, ${(tapes / GARDENS).toFixed(1)} tapes each, ${asked} sides asked for`,
    );
    assert.ok(right >= (distorted > 0.2 ? 0.97 : 0.995) * corners, `${right} of ${corners}`);
  });

/** @type {Record<string, (length: number) => number>} */
const MISREAD = {
  metre: (length) => length + 1000,
  hook: (length) => length + 100,
  digits: (length) => Number(String(length).replace(/^(.)(.)/, "$2$1")),
  unit: (length) => Math.round(length / 10),
  wrong_way: (length) => 2000 * Math.round(length / 1000) - length,
};

test("no misread tape stays unseen, and what is named holds it", (t) => {
  const by = chance(5),
    counts = { misread: 0, alone: 0, among: 0, reason: 0 };
  const kinds = Object.keys(MISREAD);
  for (let number = 0; number < GARDENS; number += 1) {
    const places = garden(by),
      kind = kinds[number % kinds.length],
      which = 2 + Math.floor(by.even() * (2 * places.length - 5));
    let [bad, more] = ["", 0];
    const read = (/** @type {number} */ length, /** @type {number} */ count, /** @type {string} */ pair) => {
      const other = MISREAD[kind](length);
      if (count !== which || other <= 0 || Math.abs(other - length) < 60) return length;
      bad = pair;
      return other;
    };
    const found = walked(by, places, drawn(by, places, 0.12), read, ({ slips }) => {
      const named = slips.filter((slip) => slip.kind !== "look_again");
      if (named.length) more += 1;
      return named.some((slip) => slip.kind === "slip") || more > 3;
    });
    if (!bad) continue;
    counts.misread += 1;
    const [named] = found.slips.filter((slip) => slip.kind !== "look_again");
    assert.ok(named, `garden ${number}: ${kind} in ${bad} is not seen`);
    const pairs = [named, ...named.among].map(({ start, end }) => [start, end].sort().join());
    if (pairs.includes(bad)) counts.among += 1;
    if (pairs[0] === bad) counts.alone += 1;
    if (pairs[0] === bad && named.reason?.kind === kind) counts.reason += 1;
  }
  t.diagnostic(JSON.stringify(counts));
  assert.ok(counts.misread > 45);
  assert.ok(counts.among >= 0.97 * counts.misread, JSON.stringify(counts));
  assert.ok(counts.alone >= 0.7 * counts.misread, JSON.stringify(counts));
  assert.ok(counts.reason >= 0.6 * counts.misread, JSON.stringify(counts));
});
