/** Changes of the job made on site: how they wait, lie on top of the job, and are taken back. Tabs: where each stands. */
import assert from "node:assert/strict";
import test from "node:test";
import { pendingChanges, touches, unanswered, workOut } from "../../src/pavewright/web/static/site/changes.js";
import { delivery, withReading, withoutLast } from "../../src/pavewright/web/static/site/reading.js";
import { tabsInUse } from "../../src/pavewright/web/static/site/tabs-in-use.js";

let number = 0;
const fresh = () => ({
  id: `d${(number += 1)}`,
  job: "j",
  kind: "",
  entries: [],
  date: "2027-06-01",
  tried: 0,
  base: 3,
  from: "p",
  state: "waiting",
});
const set = (was, to) => ({ op: "set", at: ["identity", "client"], was, to });
const change = (was, to, more = {}) => ({
  ...withReading([], "operations", { operations: [set(was, to)], note: `client ${to}` }, fresh),
  ...more,
});
const here = (list, rev = 3) => ({
  base: { document: { identity: { client: "A" } }, rev },
  doc: null,
  queue: { list },
});

test("a change waits as operations with its note, and goes with the revision and the name of the phone", () => {
  const one = change("A", "B");
  assert.deepEqual(delivery(one), {
    id: one.id,
    kind: "operations",
    entries: [set("A", "B")],
    date: "2027-06-01",
    rev: 3,
    from: "p",
    note: "client B",
  });
});

test("what waits, and what was sent and is newer than the job, lies on top of it; what was refused does not", () => {
  const list = [
    change("A", "B", { state: "sent", rev: 4 }),
    change("B", "C"),
    change("C", "D", { state: "refused" }),
    change("A", "Z", { state: "sent", rev: 3 }),
  ];
  const one = here(list);
  workOut(one);
  assert.equal(one.doc.identity.client, "C");
  assert.equal(one.base.document.identity.client, "A");
  const newer = { ...here(list, 4), base: { document: { identity: { client: "B" } }, rev: 4 } };
  workOut(newer);
  assert.equal(newer.doc.identity.client, "C");
  assert.equal(pendingChanges(list, 4).length, 1);
});

test("a change that was never tried is taken back without a trace; one that was tried by its inverse", () => {
  const list = [change("A", "B")];
  assert.deepEqual(withoutLast(list, (one) => touches(one, "identity"), fresh).drop, list);
  const tried = [{ ...list[0], tried: 1 }];
  assert.ok(unanswered(tried));
  const { put } = withoutLast(tried, (one) => touches(one, "identity"), fresh);
  assert.deepEqual(put[0], { ...tried[0], undone: true });
  assert.deepEqual(
    [put[1].kind, put[1].of, put[1].entries, put[1].note],
    ["operations", tried[0].id, [set("B", "A")], "Taken back: client B"],
  );
  const one = here(put);
  workOut(one);
  assert.equal(one.doc.identity.client, "A");
  assert.deepEqual(
    withoutLast(put, () => true, fresh),
    { put: [], drop: [], words: "" },
  );
});

test("a panel that is opened takes the tab that was used longest ago; no other moves", () => {
  const tabs = ["measure", "check", "photos"];
  assert.deepEqual(tabsInUse(tabs, [], "check"), tabs);
  assert.deepEqual(tabsInUse(tabs, ["photos", "measure"], "day"), ["measure", "day", "photos"]);
  assert.deepEqual(tabsInUse(tabs, ["check", "photos", "measure"], "day"), ["day", "check", "photos"]);
});
