// What somebody types for a price, a number or a length where the job is: nothing that may be two amounts is taken.
import assert from "node:assert/strict";
import { test } from "node:test";
import { lengthHere, lengthShown } from "../../src/pavewright/web/static/lib/lengths-here.js";
import { moneyTyped, plainNumber, withMark } from "../../src/pavewright/web/static/lib/numbers-typed.js";
import { setFirmWriting, setWriting } from "../../src/pavewright/web/static/lib/writing.js";

const where = (region, measure) => setWriting({ region, measure });
const minor = (text, currency) => moneyTyped(text, currency).minor;

test("a price with a mark between thousands is never a thousandth of it", () => {
  for (const region of ["GB", "US", "DE", "FR", "KW", "CH"]) {
    where(region);
    for (const text of ["1,234.50", "1.234,50", "1 234.50", "£1,234.50", "1234,5", "1234.5"])
      assert.equal(minor(text, "GBP"), 123450, `${region}: ${text}`);
    assert.equal(minor("1,234,567", "EUR"), 123456700);
    assert.equal(minor("12,50", "EUR"), 1250);
    assert.equal(minor("0.5", "EUR"), 50);
  }
  where("US");
  assert.equal(minor("1,234", "USD"), 123400);
  assert.equal(minor("1.234", "USD"), null); // it may be 1,234 or 1.23
  where("DE");
  assert.equal(minor("1.234", "EUR"), 123400);
  assert.equal(minor("1,234", "EUR"), null);
  where("GB");
  assert.equal(minor("1,234", "GBP"), 123400);
  assert.equal(minor("1.234", "GBP"), null);
  assert.match(moneyTyped("1.234", "GBP").words, /Is that 1234 or 1\.23/);
});

test("a price has the decimals of its currency and is never rounded away", () => {
  where("JP");
  assert.equal(minor("1,200", "JPY"), 1200);
  assert.equal(minor("1200", "JPY"), 1200);
  assert.equal(minor("12.5", "JPY"), null);
  where("KW");
  assert.equal(minor("1.234", "KWD"), 1234);
  assert.equal(minor("1,234", "KWD"), 1234000);
  where("GB");
  assert.equal(minor("1,234", "KWD"), null); // both are money there
  assert.equal(minor("0.004", "GBP"), null);
  assert.equal(minor("", "GBP"), null);
  assert.equal(minor("-5", "GBP"), null);
  assert.equal(minor("five", "GBP"), null);
});

test("a number that may be two is asked", () => {
  where("GB");
  assert.deepEqual(plainNumber("1.5", "kg").value, 1.5);
  assert.deepEqual(plainNumber("2,5 kg", "kg").value, 2.5);
  assert.deepEqual(plainNumber("-3", "").value, -3);
  assert.deepEqual(plainNumber("1e-6", "").value, 1e-6);
  assert.equal(plainNumber("1.234", "kg").value, 1.234);
  assert.deepEqual(
    plainNumber("1,234", "kg").choices.map((one) => one.value),
    [1234, 1.234],
  );
  where("DE");
  assert.equal(plainNumber("1,234", "kg").value, 1.234);
  assert.equal(plainNumber("1.234", "kg").value, null);
  assert.equal(withMark("12.5"), "12,5");
});

test("where feet are read a number without a unit is no length yet", () => {
  where("US");
  for (const kind of ["site", "run", "size", "thickness", "joint", "offset", "level", "reading", "place"])
    for (const text of ["48", "6", "12.5", "600"]) {
      const typed = lengthHere(text, kind);
      assert.equal(typed.value, null, `${kind} ${text}`);
    }
  assert.deepEqual(
    lengthHere("48", "size").choices.map((one) => [one.text, one.value]),
    [
      ["48 in", 48 * 25.4],
      ["48 mm", 48],
    ],
  );
  assert.ok(lengthHere("20", "run").choices.some((one) => one.text === "20 ft" && one.value === 6096));
  assert.equal(lengthHere("20 ft", "run").value, 6096);
  assert.equal(lengthHere("4ft 6 1/2in", "size").value, 54.5 * 25.4);
  assert.equal(lengthHere("600 mm", "size").value, 600);
  assert.equal(lengthHere("0", "size").value, 0);
  assert.equal(lengthShown(1219.2, "size", "1219.2"), "4 ft");
  assert.equal(lengthShown(10000, "level", "10000"), "32.81 ft");
  assert.equal(lengthHere(lengthShown(158.75, "size", ""), "size").value, 158.75);
  where("GB");
  assert.equal(lengthHere("600", "size").value, 600);
  assert.equal(lengthShown(1219.2, "size", "1219.2"), "1219.2");
});

test("a job that says nothing is written as the firm writes", () => {
  setFirmWriting({ region: "DE", measure: "imperial" });
  setWriting({ locality: "usa", currency: "USD" });
  assert.equal(lengthHere("600", "size").value, null);
  assert.equal(withMark("1.5"), "1,5");
  setWriting({ region: "GB", measure: "metric" });
  assert.equal(withMark("1.5"), "1.5");
  setFirmWriting(undefined);
});
