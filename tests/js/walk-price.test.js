import assert from "node:assert/strict";
import { test } from "node:test";
import { all } from "../../src/pavewright/web/static/walk/steps/price.js";

const items = [
  { key: "dig", unit: "m³" },
  { key: "material.sub_base", unit: "kg" },
  { key: "material.capping", unit: "kg" },
  { key: "material.soakaway_stone", unit: "kg" },
  { key: "material.perforated_pipe", unit: "m" },
];

test("what the plan takes is asked before anything has a price", () => {
  const here = { doc: { areas: [], units: [], rates: {} }, ui: {}, planned: { cost: null, quantities: { items } } },
    asked = all(here);
  const names = asked.map((one) => one.name);
  assert.ok(names.includes("Capping, tonne"), names.join("; "));
  const draft = {};
  for (const kind of ["capping", "soakaway_stone", "perforated_pipe"])
    asked.find((one) => one.key === `material ${kind}`).put(draft, 500);
  assert.deepEqual(
    draft.rates.materials.map(({ key, pack_amount, pack_unit }) => [key, pack_amount, pack_unit]),
    [
      ["capping", 1000, "kg"],
      ["soakaway_stone", 1000, "kg"],
      ["perforated_pipe", 1, "m"],
    ],
  );
});
