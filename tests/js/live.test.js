import assert from "node:assert/strict";
import { test } from "node:test";
import { Hand } from "../../src/pavewright/web/static/lib/hand.js";
import { Line } from "../../src/pavewright/web/static/lib/live.js";

/** A browser of which the test turns the clock. */
function around() {
  /** @type {any} */ const made = {
    opened: [],
    timers: [],
    answers: [],
    asked: 0,
    open: (/** @type {string} */ address, /** @type {any} */ event, /** @type {any} */ broken) => {
      const stream = { address, event, broken, closed: false, close: () => (stream.closed = true) };
      made.opened.push(stream);
      return stream;
    },
    may: async () => {
      made.asked += 1;
      return made.answers.shift() ?? "yes";
    },
    later: (/** @type {any} */ act, /** @type {number} */ ms) => {
      const timer = { act, ms };
      made.timers.push(timer);
      return timer;
    },
    never: (/** @type {any} */ timer) => (made.timers = made.timers.filter((/** @type {any} */ one) => one !== timer)),
    chance: () => 1,
  };
  /** Let what waits come; say how long it waited. */
  made.ring = async () => {
    const [timer] = made.timers.splice(0, 1);
    await timer.act();
    await new Promise((next) => setImmediate(next));
    return timer.ms;
  };
  return made;
}

/** @param {string} address @param {any} browser */
function lineOn(browser, address = "/api/live?job=j") {
  /** @type {any[]} */ const heard = [];
  return { line: new Line(address, browser, (name, told) => heard.push([name, told])), heard };
}

test("a line hears, and goes on from the last number after it was ended", () => {
  const browser = around(),
    { line, heard } = lineOn(browser);
  line.begin();
  line.begin();
  assert.equal(browser.opened.length, 1);
  assert.equal(line.stands, false);
  browser.opened[0].event("stand", { rev: 1 }, "ab.4");
  browser.opened[0].event("quiet", {}, "ab.4");
  browser.opened[0].event("change", { rev: 2 }, "ab.5");
  browser.opened[0].event("here", {}, "");
  assert.equal(line.stands, true);
  assert.deepEqual(
    heard.map(([name]) => name),
    ["stand", "change", "here"],
  );
  line.end();
  assert.equal(browser.opened[0].closed, true);
  assert.equal(line.stands, false);
  assert.equal(browser.timers.length, 0);
  line.begin();
  assert.equal(browser.opened[1].address, "/api/live?job=j&after=ab.5");
  browser.opened[0].event("change", { rev: 3 }, "ab.9"); // of the stream before
  assert.equal(heard.length, 3);
  assert.equal(line.last, "ab.5");
});

test("a stream that breaks is closed and opened again, later each time, and sooner once it stood", async () => {
  const browser = around(),
    { line } = lineOn(browser, "/api/live");
  line.begin();
  const waited = [];
  browser.answers = ["yes", "later", "later", "later", "later", "later", "later"];
  browser.opened[0].broken();
  assert.equal(browser.opened[0].closed, true);
  waited.push(await browser.ring());
  assert.equal(browser.opened.length, 2);
  browser.opened[1].broken();
  for (let tries = 0; tries < 6; tries += 1) waited.push(await browser.ring());
  assert.deepEqual(waited, [1000, 2000, 4000, 8000, 16_000, 30_000, 30_000]);
  assert.equal(browser.opened.length, 2);
  await browser.ring();
  assert.equal(browser.opened.length, 3);
  browser.opened[2].event("stand", {}, "ab.1");
  browser.opened[2].event("over", {}, "ab.1");
  assert.equal(await browser.ring(), 1000);
  assert.equal(browser.opened[3].address, "/api/live?after=ab.1");
});

test("who may listen no more asks once and not again", async () => {
  const browser = around(),
    { line } = lineOn(browser);
  line.begin();
  browser.answers = ["no"];
  browser.opened[0].event("over", {}, "");
  await browser.ring();
  assert.deepEqual([browser.asked, browser.opened.length, browser.timers.length], [1, 1, 0]);
  line.end();
  line.begin(); // the page is looked at again: perhaps somebody signed in meanwhile
  assert.equal(browser.opened.length, 2);
});

test("what was asked before a line ended does not open it again", async () => {
  const browser = around(),
    { line } = lineOn(browser);
  line.begin();
  browser.opened[0].broken();
  const [timer] = browser.timers,
    asking = timer.act();
  line.end();
  await asking;
  assert.equal(browser.opened.length, 1);
});

test("a line that is dead without a word is opened anew", async () => {
  const browser = around(),
    { line } = lineOn(browser);
  line.begin();
  browser.opened[0].event("stand", {}, "ab.1");
  assert.equal(browser.timers.length, 1);
  assert.ok((await browser.ring()) > 30_000);
  assert.equal(browser.opened[0].closed, true);
  await browser.ring();
  assert.equal(browser.opened.length, 2);
});

test("the hand rests once nothing is held and nothing was typed for a while", () => {
  let now = 0;
  const hand = new Hand(() => now);
  assert.ok(hand.rests);
  hand.press(1);
  hand.press(2);
  hand.lift(1);
  assert.ok(!hand.rests);
  hand.lift(2);
  assert.ok(hand.rests);
  hand.type();
  now = 699;
  assert.ok(!hand.rests);
  now = 700;
  assert.ok(hand.rests);
});
