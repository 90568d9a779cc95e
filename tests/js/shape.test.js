// The shape that follows the tapes, against what the survey of the program makes of the same sketches (vectors.json).
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { askedOfLevel, askedOfReading } from "../../src/pavewright/web/static/lib/plausible.js";
import { baseFor, shape } from "../../src/pavewright/web/static/lib/shape.js";
import { oneArc } from "../../src/pavewright/web/static/lib/shape/curves.js";

const told = JSON.parse(readFileSync(new URL("vectors.json", import.meta.url), "utf8"));
const MEASURED_MM = 0.02, // what tapes fix is the same to the hundredth
  SKETCHED_MM = 0.5; // what only the sketch gives, to half a millimetre

/** @param {any} job */
const documentOf = ({ measurements, walls, rings }) => ({
  measurements,
  site: { walls: walls.map((/** @type {string[]} */ [start, end]) => ({ start, end })) },
  areas: rings.map((/** @type {string[]} */ ring) => ({ outline: ring.map((point) => ({ point })) })),
});

/** @param {number|null|undefined} found @param {number|null} wanted @param {number} within @param {string} words */
function near(found, wanted, within, words) {
  if (wanted === null || found === null || found === undefined) assert.equal(found ?? null, wanted, words);
  else assert.ok(Math.abs(found - wanted) <= within, `${words}: ${found} against ${wanted}`);
}

const ordered = (/** @type {{start: string, end: string}} */ { start, end }) => [start, end].sort();

test("places, states and sides are those of the survey", () => {
  let [measured, sketched, unplaced] = [0, 0, 0];
  told.shapes.forEach((/** @type {any} */ job, /** @type {number} */ number) => {
    const { answer } = job,
      found = shape(documentOf(job));
    if (answer.faults) {
      assert.ok(found.slips.length > 0, `job ${number} has a fault and no slip`);
      return;
    }
    const by_name = new Map(found.points.map((point) => [point.name, point]));
    for (const wanted of answer.points) {
      const point = by_name.get(wanted.name),
        words = `job ${number}, ${wanted.name}`,
        within = wanted.sketched ? SKETCHED_MM : MEASURED_MM;
      near(point?.x_mm, wanted.x_mm, within, words);
      near(point?.y_mm, wanted.y_mm, within, words);
      assert.equal(point?.missing, wanted.missing, `${words}: missing`);
      if (!job.measurements.points)
        assert.equal(point?.state, wanted.sketched ? "sketched" : "measured", `${words}: state`);
      if (point?.ellipse && wanted.major_mm)
        near(point.ellipse.major_mm, wanted.major_mm, 0.1 + wanted.major_mm / 100, `${words}: ellipse`);
      if (wanted.sketched) sketched += 1;
      else measured += 1;
    }
    const placed = found.points.filter(({ state }) => state !== "unplaced").map(({ name }) => name);
    assert.deepEqual(placed.sort(), answer.points.map((/** @type {any} */ { name }) => name).sort(), `job ${number}`);
    for (const [name, missing] of Object.entries(answer.unplaced)) {
      assert.equal(by_name.get(name)?.state, "unplaced");
      assert.equal(by_name.get(name)?.missing, missing, `job ${number}, ${name}: missing`);
      unplaced += 1;
    }
    for (const [name, side] of Object.entries(answer.sides))
      assert.equal(by_name.get(name)?.side, side, `job ${number}, ${name}: side`);
  });
  assert.ok(measured > 80 && sketched > 40 && unplaced > 1, `${measured} ${sketched} ${unplaced}`);
});

test("the next tape, slips and residuals are those of the survey", () => {
  const gains = new Set();
  let slips = 0;
  told.shapes.forEach((/** @type {any} */ job, /** @type {number} */ number) => {
    const { answer } = job,
      found = shape(documentOf(job));
    if (answer.faults) return;
    if (!answer.next) assert.equal(found.next, null, `job ${number}`);
    else {
      assert.deepEqual(found.next && ordered(found.next), answer.next.pair, `job ${number}: next`);
      assert.equal(found.next?.gain, answer.next.gain, `job ${number}: gain`);
      assert.deepEqual([...(found.next?.fixes ?? [])].sort(), answer.next.fixes, `job ${number}: fixes`);
      gains.add(answer.next.gain);
    }
    const named = found.slips.filter(({ kind }) => kind === "slip" || kind === "one_of");
    assert.equal(named.length, answer.slips.length, `job ${number}: slips`);
    answer.slips.forEach((/** @type {any} */ wanted, /** @type {number} */ index) => {
      const slip = named[index];
      slips += 1;
      if (wanted.slip_mm === null) {
        const among = slip.among.map(ordered).sort();
        assert.deepEqual(among, wanted.alike, `job ${number}: alike`);
      } else {
        assert.deepEqual(ordered(slip), wanted.pair, `job ${number}: pair`);
        near(slip.measured_mm - (slip.should_mm ?? 0), wanted.slip_mm, 0.05, `job ${number}: size`);
      }
    });
    answer.residuals.forEach((/** @type {any[]} */ [start, end, residual, redundancy], /** @type {number} */ index) => {
      const tape = found.tapes[index];
      assert.deepEqual([tape.start, tape.end], [start, end]);
      near(tape.residual_mm, residual, SKETCHED_MM, `job ${number}: residual ${start}–${end}`);
      near(tape.redundancy, redundancy, 1e-4, `job ${number}: redundancy ${start}–${end}`);
    });
  });
  assert.ok(gains.has("base") && gains.has("fix") && gains.has("check") && slips > 1, `${[...gains]} ${slips}`);
});

const whole = { A: [0, 0], B: [6000, 0], C: [6000, 4000], D: [0, 4000], E: [3000, 6500] };

/** A job taped all round and across, one tape changed. @param {(length: number) => number} slip @param {string} which */
function withSlip(slip, which) {
  const names = Object.keys(whole),
    pairs = names.flatMap((a, index) => names.slice(index + 1).map((b) => [a, b]));
  const tapes = pairs.map(([start, end]) => {
    const [[x1, y1], [x2, y2]] = [whole[/** @type {"A"} */ (start)], whole[/** @type {"A"} */ (end)]],
      length = Math.round(Math.hypot(x2 - x1, y2 - y1));
    return { start, end, length_mm: start + end === which ? slip(length) : length };
  });
  const sketch = Object.entries(whole).map(([name, [x, y]]) => ({ name, x_mm: x / 10, y_mm: y / 10 }));
  return { measurements: { sketch, tape_plan: { base_from: "A", base_to: "B", tapes } } };
}

test("a gross slip among spare tapes is named with its length and its reason", () => {
  /** @type {[string, (length: number) => number, string][]} */ const slips = [
    ["BC", (length) => length + 1000, "metre"],
    ["AC", (length) => length - 1000, "metre"],
    ["AD", (length) => length + 100, "hook"],
    ["DE", () => 9305, "digits"], // 3905 with its first two figures changed about
    ["BE", () => 7195, "upside_down"], // 7159 has a 9 that is none the other way up
    ["CD", () => 600, "unit"],
  ];
  for (const [which, slip, reason] of slips) {
    const [found] = shape(withSlip(slip, which)).slips;
    assert.equal(found?.kind, "slip", which);
    assert.equal(found.start + found.end, which);
    if (reason !== "upside_down") assert.equal(found.reason?.kind, reason, which);
    near(
      found.should_mm,
      shape(withSlip((length) => length, "")).tapes.find((one) => one.start + one.end === which)?.measured_mm ?? null,
      8,
      which,
    );
  }
  assert.deepEqual(shape(withSlip((length) => length, "")).slips, []);
});

test("a tape that nothing checks is only asked to be looked at again, and only by a known scale", () => {
  const sketch = [
    { name: "A", x_mm: 0, y_mm: 0 },
    { name: "B", x_mm: 600, y_mm: 0 },
    { name: "C", x_mm: 600, y_mm: 400 },
    { name: "D", x_mm: 0, y_mm: 400 },
  ];
  const tapes = [
    { start: "A", end: "B", length_mm: 6000 },
    { start: "B", end: "C", length_mm: 400 },
  ];
  const job = { measurements: { sketch, tape_plan: { base_from: "A", base_to: "B", tapes } } };
  assert.deepEqual(shape(job).slips, [], "with two tapes either may be wrong");
  tapes.push({ start: "A", end: "D", length_mm: 4050 });
  const [slip, ...more] = shape(job).slips;
  assert.deepEqual(more, []);
  assert.equal(slip.kind, "look_again");
  assert.deepEqual([slip.start, slip.end, slip.reason?.kind], ["B", "C", "unit"]);
});

test("one tape makes a base line and no more", () => {
  const { points, next } = shape({
    measurements: { tape_plan: { base_from: "A", base_to: "B", tapes: [{ start: "A", end: "B", length_mm: 6000 }] } },
  });
  assert.deepEqual(
    points.map(({ name, x_mm, y_mm, state }) => [name, x_mm, Math.round((y_mm ?? NaN) * 1e6), state]),
    [
      ["A", 0, 0, "measured"],
      ["B", 6000, 0, "measured"],
    ],
  );
  assert.equal(next, null);
  assert.deepEqual(shape({}).points, []);
});

test("the base line is laid as it was drawn", () => {
  const sketch = [
    { name: "A", x_mm: 100, y_mm: 100 },
    { name: "B", x_mm: 100, y_mm: 500 },
  ];
  assert.deepEqual(baseFor(sketch, "A", "B"), { base_from: "A", base_to: "B", x_mm: 0, y_mm: 0, bearing_deg: 0 });
  assert.equal(baseFor(sketch, "B", "A").bearing_deg, 180);
});

test("a tap on the shape comes back at the same place as a point of the sketch", () => {
  const job = told.shapes[2],
    document = documentOf(structuredClone(job)),
    at = [2500, 1800],
    [x_mm, y_mm] = shape(document).toSketch(at);
  document.measurements.sketch.push({ name: "tap", x_mm, y_mm });
  const back = shape(document).points.find(({ name }) => name === "tap");
  near(back?.x_mm, at[0], 60, "x");
  near(back?.y_mm, at[1], 60, "y");
});

test("one arc through offsets is the survey's", () => {
  for (const { chord_mm, offsets, rise_mm, off_mm } of told.arcs) {
    const found = oneArc(
      chord_mm,
      offsets.map((/** @type {number[]} */ [along_mm, offset_mm]) => ({ along_mm, offset_mm })),
    );
    near(found.rise_mm, rise_mm, 1e-3, "rise");
    found.off_mm.forEach((off, index) => near(off, off_mm[index], 1e-3, "off"));
  }
});

test("levels and readings in another unit are asked for as the program finds them", () => {
  for (const { level, others, fits } of told.odd_levels) {
    const asked = askedOfLevel(level, others);
    assert.deepEqual(asked && [asked.looks_like, asked.millimetres], fits, String(level));
  }
  for (const { reading, others, fits } of told.odd_readings) {
    const asked = askedOfReading(reading, others);
    if (asked?.looks_like === "no_staff") assert.ok(reading > 5000);
    else
      assert.deepEqual(
        asked && [asked.looks_like, Math.round(asked.millimetres)],
        fits && [fits[0], Math.round(fits[1])],
        String(reading),
      );
  }
});

test("twelve points answer within five milliseconds on a laptop", () => {
  const job = told.shapes
      .filter((/** @type {any} */ one) => !one.answer.faults)
      .sort((/** @type {any} */ a, /** @type {any} */ b) => b.answer.points.length - a.answer.points.length)[0],
    document = documentOf(job);
  for (let turn = 0; turn < 30; turn += 1) shape(document);
  const times = Array.from({ length: 15 }, () => {
    const before = performance.now();
    shape(document);
    return performance.now() - before;
  }).sort((a, b) => a - b);
  assert.ok(times[0] < 25, `${times[0]} ms`); // machines of tests are slow and shared
});
