// @ts-check
import assert from "node:assert/strict";
import test from "node:test";
import {
  between,
  later,
  mondayOf,
  waitsOf,
  weekday,
  workdaysBefore,
} from "../../src/pavewright/web/static/calendar/days.js";

test("days are counted over the change of the clocks and the end of a year", () => {
  assert.equal(later("2027-03-27", 2), "2027-03-29");
  assert.equal(later("2027-12-31", 1), "2028-01-01");
  assert.equal(between("2027-10-30", "2027-11-02"), 3);
  assert.equal(weekday("2027-05-10"), 0);
  assert.equal(mondayOf("2027-05-16"), "2027-05-10");
  assert.equal(workdaysBefore("2027-05-11", 2), "2027-05-07");
  assert.equal(workdaysBefore("2027-05-11", 0), "2027-05-11");
});

test("a wait lasts from the day after the work to the day before the next may begin", () => {
  const bookings = [{ job: "a", stretch: 0, days: [{ on: "2027-05-10" }, { on: "2027-05-11" }] }];
  const link = { before: [0, 1], after: [1, 0], days: 3, hold: false };
  assert.deepEqual(waitsOf(bookings, [link]), [{ from: "2027-05-12", until: "2027-05-13", hold: false }]);
  assert.deepEqual(waitsOf([], [link]), []);
});
