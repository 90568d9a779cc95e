/** The log of a day on the phone against what the program says of the same job (vectors.json). */
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import { applied, between, inverse } from "../../src/pavewright/web/static/lib/operations.js";
import * as log from "../../src/pavewright/web/static/site/day/log.js";

const { log: told } = JSON.parse(readFileSync(new URL("vectors.json", import.meta.url), "utf8")),
  doc = { site_days: told.days },
  view = {
    levels: {
      areas: told.areas.map((one) => ({
        area: one.area,
        surface: { facets: one.facets.map((outline) => ({ outline })) },
      })),
    },
  };
const near = (found, wanted, words) =>
  assert.ok(Math.abs(found - wanted) < 1e-6, `${words}: ${found} against ${wanted}`);

test("hours at the end are those of the program, with their ends", () => {
  for (const { given, found } of told.hours) {
    const own = log.expectedHours(given.logged_h, given.done_percent, given.done_sd_percent);
    near(own.likely_h, found.expected_h, "likely");
    near(own.low_h, found.low_h, "low");
    near(own.high_h, found.high_h, "high");
  }
  assert.equal(log.expectedHours(2, 8, 5).high_h, Infinity);
});

test("hours on each task and how much is done are those of the program", () => {
  for (const { key, logged_h, done_percent } of told.tasks) {
    const said = log.taskSaid(doc, key);
    near(said.logged_h, logged_h, key);
    assert.equal(said.done_percent, done_percent, key);
  }
  assert.ok(told.tasks.some((one) => one.done_percent === null) && told.tasks.some((one) => one.done_percent !== null));
});

test("each bay is as far as the program says", () => {
  assert.deepEqual(
    log.baysSeen(doc, view).map(({ area, number, stage, on }) => ({ area, number, stage, on })),
    told.bays,
  );
});

test("hours are booked on top, what is done goes into the programme, and one step takes it back", () => {
  const before = { site_days: [], done: [{ task: "lay.area1", on: "2027-05-31", done_percent: 20 }] },
    draft = structuredClone(before),
    day = log.mine(draft, "one", "2027-06-01");
  log.book(day, "lay.area1", 4);
  log.book(day, "lay.area1", 1.5);
  log.book(day, "dig.area1", 2);
  log.done(draft, day, "lay.area1", 75);
  log.done(draft, day, "dig.area1", 100);
  assert.deepEqual(draft.site_days[0].worked, [
    { task: "lay.area1", person_h: 5.5, done_percent: 75 },
    { task: "dig.area1", person_h: 2, done_percent: 100 },
  ]);
  assert.deepEqual(draft.done, [
    { task: "lay.area1", on: "2027-06-01", since: "2027-05-31", done_percent: 75 },
    { task: "dig.area1", on: "2027-06-01", since: "2027-06-01", done_percent: 100 },
  ]);
  const operations = between(before, draft);
  assert.deepEqual(applied(before, operations).doc, draft);
  assert.deepEqual(applied(draft, inverse(operations)).doc, before);
});

test("two phones that log one day are merged and lose nothing", () => {
  const base = { site_days: [] },
    made = (/** @type {string} */ name, /** @type {number} */ hours) => {
      const draft = structuredClone(base);
      log.book(log.mine(draft, name, "2027-06-01"), "lay.area1", hours);
      return between(base, draft);
    };
  const both = applied(applied(base, made("one", 4)).doc, made("two", 3));
  assert.deepEqual(both.clashes, []);
  assert.equal(log.taskSaid(both.doc, "lay.area1").logged_h, 7);
});
