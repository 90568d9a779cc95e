import assert from "node:assert/strict";
import { test } from "node:test";
import * as offering from "../../src/pavewright/web/static/job/stages/offering.js";

const job = () => ({
  areas: [{ name: "Terrace", laying: { unit: "Flag 600", joint_mm: 10, cut: null } }],
  units: [{ name: "Flag 600", length_mm: 600 }],
});

test("an option is told field by field, with what it adds", () => {
  const other = /** @type {any} */ (job());
  other.areas[0].laying.joint_mm = 8;
  other.areas[0].laying.unit = "Flag 450";
  other.areas[0].laying.mirrored = true;
  other.units.push({ name: "Flag 450", length_mm: 450 });
  assert.deepEqual(offering.offerOf(job(), other), [
    { path: "areas.0.laying.unit", text: "Flag 450" },
    { path: "areas.0.laying.joint_mm", number: 8 },
    { path: "areas.0.laying.mirrored", answer: true },
    { path: "units.1.name", text: "Flag 450" },
    { path: "units.1.length_mm", number: 450 },
  ]);
});

test("what takes something out, changes nothing or changes too much is no option", () => {
  const less = /** @type {any} */ (job());
  delete less.areas[0].laying.joint_mm;
  assert.equal(offering.offerOf(job(), less), null);
  assert.equal(offering.offerOf(job(), { ...job(), units: [] }), null);
  assert.equal(offering.offerOf(job(), job()), null);
  const many = { ...job(), steps: Array.from({ length: 21 }, (_, number) => ({ name: `S${number}` })) };
  assert.equal(offering.offerOf(job(), many), null);
});

test("an option stands once by its name, and goes", () => {
  const doc = /** @type {any} */ (job()),
    changes = [{ path: "areas.0.laying.joint_mm", number: 8 }];
  offering.putOffer(doc, "narrow", []);
  offering.putOffer(doc, "narrow", changes);
  assert.deepEqual(doc.terms.options, [{ name: "narrow", changes }]);
  assert.equal(offering.isOffered(doc, "narrow"), true);
  offering.takeOffer(doc, "narrow");
  assert.equal(offering.isOffered(doc, "narrow"), false);
});
