// @ts-check
/** Where work stops until somebody has looked: how each hold point stands, and what is off in m³, money and days. */
import { el } from "../../lib/dom.js";
import { table } from "../../lib/results.js";
import { plain, roundMoney, spoken } from "../../lib/words.js";
import { group } from "../form/form.js";

const STANDS = /** @type {Record<string, string>} */ ({ pass: "✓ pass", fail: "✕ fail", unsure: "? inconclusive" });
const KINDS = /** @type {Record<string, string>} */ ({
  formation: "Formation",
  drain: "Drain",
  first_row: "First row",
  bed: "Bed",
});

/** @param {Planned} state */
export function holdsPart(state) {
  const found = state.plan.hold_points?.holds ?? [],
    currency = state.plan.job.identity.currency ?? "GBP";
  if (!found.length) return group("Hold points", [el("p", { text: "There are none yet." })]);
  const read = found.filter((one) => one.checks.length);
  return group(
    `Hold points: ${read.length} of ${found.length} looked at`,
    [
      el(
        "p",
        {},
        "They are read on the page ",
        el("a", { href: `/jobs/${state.id}/site#holds`, text: "On site" }),
        ".",
      ),
      table(
        [
          { head: "Hold point" },
          { head: "Where" },
          { head: "State" },
          { head: "Places", number: true },
          { head: "What is off" },
        ],
        found.map((one) => [
          one.key.layer ? `Top of ${spoken(one.key.layer)}` : KINDS[one.key.kind],
          one.drain || one.area,
          one.checks.length ? (STANDS[one.verdict ?? ""] ?? "not decided") : "○ not looked at",
          `${one.read.length} of ${one.places.length}`,
          [told("low", one.low, currency), told("high", one.high, currency)].filter(Boolean).join("; "),
        ]),
        "hold points",
      ),
      el("p", {
        class: "quiet",
        text:
          "Sums are the firm's own cost by the rates of this plan, before margin. " +
          "Who pays is not known to the program.",
      }),
    ],
    { open: read.length > 0 },
  );
}

/** @param {string} way @param {plan.Consequence|null} off @param {string} currency */
function told(way, off, currency) {
  if (!off) return "";
  const parts = [`${plain(off.volume_m3.likely, 2)} m³ ${way}`];
  if (off.minor !== null) parts.push(`about ${roundMoney(off.minor, currency)}`);
  if (off.days !== null) parts.push(`${plain(off.days, 1)} days`);
  return parts.join(", ");
}
