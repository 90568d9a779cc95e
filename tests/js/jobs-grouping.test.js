/** The list of jobs by place, its pages as one, and a visit that is promised. */
import assert from "node:assert/strict";
import { test } from "node:test";
import { byPlace, joined, minutesOf, starts, withVisit } from "../../src/pavewright/web/static/jobs/grouping.js";

test("places stand by name with what is due there, jobs without a place last", () => {
  const places = [
    { place: "", jobs: 2, due: 1 },
    { place: "ZZ9", jobs: 1, due: 0 },
    { place: "Ashford Green", jobs: 3, due: 2 },
  ];
  const dues = [
    { key: "a", place: "Ashford Green" },
    { key: "b", place: "" },
    { key: "c", place: "Ashford Green" },
  ];
  const found = byPlace(places, dues);
  assert.deepEqual(
    found.map((one) => [one.name, one.jobs, one.dues.map((each) => each.key).join("")]),
    [
      ["Ashford Green", 3, "ac"],
      ["ZZ9", 1, ""],
      ["No place in the address", 2, "b"],
    ],
  );
});

test("pages are one list in which each job stands once", () => {
  assert.deepEqual(starts(3), [0, 100, 200]);
  assert.deepEqual(
    joined([
      [{ id: "a" }, { id: "b" }],
      [{ id: "b" }, { id: "c" }],
    ]).map((one) => one.id),
    ["a", "b", "c"],
  );
});

test("a time is minutes after midnight, and what is none is none", () => {
  assert.deepEqual(["00:00", "14:30", "9:05", "24:00", "12:60", ""].map(minutesOf), [0, 870, 545, null, null, null]);
});

test("a visit gets a name of its own, and what was given stays", () => {
  const before = { standing: { visits: [{ name: "visit 2", kind: "look", on: "2027-05-10" }] } };
  const given = { kind: "measure", on: "2027-05-12", time: "14:30", by: " Sam ", note: "" };
  const after = withVisit(before, given);
  assert.equal(before.standing.visits.length, 1);
  assert.deepEqual(after.standing.visits[1], {
    name: "visit 3",
    kind: "measure",
    on: "2027-05-12",
    at_min: 870,
    by: "Sam",
  });
  assert.deepEqual(withVisit({}, { ...given, time: "" }).standing.visits[0].at_min, undefined);
});
