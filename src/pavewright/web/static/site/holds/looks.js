// @ts-check
/** Looks at hold points: how each stands, and what is kept of what was read. */
import { level } from "../../lib/words.js";
import { worst } from "../../lib/kernel.js";
import { keepChange } from "../changes.js";
import { set } from "../parts.js";
import { bookName } from "../staff.js";
import { drainState } from "./drain.js";
import { isAt, read } from "./hold-kernel.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {plan.HoldOnSite} One */

const WORDS = /** @type {Record<string, string>} */ ({
  open: "○ not looked at",
  part: "◔ begun",
  pass: "✓ pass",
  fail: "✕ fail",
  unsure: "? inconclusive",
  unknown: "– no limit known",
});
const KINDS = /** @type {Record<string, string>} */ ({
  formation: "Formation",
  first_row: "First row",
  bed: "Bed",
  capping: "Top of capping",
  sub_base: "Top of sub-base",
  base: "Top of base",
});

/** What a hold point is called. @param {One} one */
export const nameOf = (one) => (one.drain ? `Drain ${one.drain}` : `${KINDS[one.layer ?? one.kind]}, ${one.area}`);

/** The last look at a hold point, of the job with what this phone changed. @param {Here} here @param {One} one */
export function lastLook(here, one) {
  const own = (here.doc.hold_checks ?? []).filter(
    (each) =>
      each.kind === one.kind &&
      (one.drain ? each.drain === one.drain : each.area === one.area && (each.layer ?? null) === one.layer),
  );
  return own.reduce((/** @type {any} */ last, each) => (!last || each.date >= last.date ? each : last), null);
}

/** How a hold point stands. @param {Here} here @param {plan.HoldsOnSite} part @param {One} one */
export function stateOf(here, part, one) {
  const check = lastLook(here, one);
  if (one.drain) return told(drainState(part, one, check));
  const found = read(part, one, check);
  if (!found.length) return told("open");
  const verdicts = found.map((/** @type {any} */ each) => each.verdict).filter(Boolean);
  if (!verdicts.length) return told("unknown");
  const all = worst(...verdicts),
    left = one.places.filter(
      (place) => !found.some((/** @type {any} */ each) => each.label === place.label && each.verdict),
    );
  return told(all === "pass" && left.length ? "part" : all);
}

/** @param {string} key */
const told = (key) => ({ key, words: WORDS[key] });

const today = () => new Date().toISOString().slice(0, 10);

/** @param {Here} here @param {One} one @returns {any} */
export const freshLook = (here, one) => ({
  name: bookName(nameOf(one).slice(0, 40)),
  kind: one.kind,
  ...(one.drain ? { drain: one.drain } : { area: one.area }),
  ...(one.layer ? { layer: one.layer } : {}),
  date: today(),
  readings: [],
});

/**
 * Keep what was read at a place: in the look that is open, else in a fresh one.
 * @param {Here} here @param {plan.HoldsOnSite} part @param {One} one @param {plan.HoldPlace} place
 * @param {{level_mm?: number, off_mm?: number}} value
 */
export async function keepReading(here, part, one, place, value) {
  const kept = await keepChange(
    here,
    (draft) => {
      const now = lastLook({ ...here, doc: draft }, one),
        entry = { label: place.label, x_mm: place.at[0], y_mm: place.at[1], ...value };
      if (!now) {
        draft.hold_checks = [...(draft.hold_checks ?? []), { ...freshLook(here, one), readings: [entry] }];
        return;
      }
      const had = (now.readings ?? []).find((/** @type {any} */ each) => isAt(part, place, each));
      now.readings = [
        ...(now.readings ?? []).filter((/** @type {any} */ each) => each !== had),
        { ...(had ?? {}), ...entry },
      ];
    },
    `${nameOf(one)}, ${place.label}: ${value.level_mm === undefined ? "" : level(value.level_mm)}`,
  );
  if (kept) set(here, { typed: "", holdsPlace: null });
}
