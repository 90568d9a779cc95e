// @ts-check
/** Main fields of a form come first; buying terms and the details of tax wait in closed groups, and none is lost. */
import assert from "node:assert/strict";
import { test } from "node:test";
import { calledIn, ordered } from "../../src/pavewright/web/static/job/form/order.js";

test("buying terms come last, together", () => {
  const names = ["supplier", "supplier_code", "supplier_kind", "priced_on", "min_packs", "carriage_minor", "lead_days"];
  assert.deepEqual(ordered({ title: "Disposal" }, [...names, "kind", "volume_m3"]), {
    first: ["kind", "volume_m3"],
    folded: [{ title: "Buying", names }],
  });
});

test("a thing that nobody sells has no closed group", () => {
  assert.deepEqual(ordered({ title: "Area" }, ["name", "supplier"]), { first: ["name", "supplier"], folded: [] });
});

test("rates begin with what everybody fills in, and lose no field", () => {
  const asked = ["labour", "plant", "tax_lines", "tax_percent", "margin_percent", "markup_percent", "overhead_percent"];
  const { first, folded } = ordered({ title: "Rates" }, [...asked, "labour_minor_per_hour", "new_one"]);
  assert.deepEqual(first.slice(0, 4), ["labour_minor_per_hour", "overhead_percent", "margin_percent", "tax_percent"]);
  const all = [...first, ...folded.flatMap((part) => part.names)].sort();
  assert.deepEqual(all, [...asked, "labour_minor_per_hour", "new_one"].sort());
});

test("no two things of the rates are called labour", () => {
  assert.equal(calledIn({ title: "Rates" }, "labour"), "Labour by skill");
  assert.equal(calledIn({ title: "Area" }, "labour"), undefined);
});
