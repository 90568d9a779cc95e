// @ts-check
/** Finished paving beside its levels: bays, edges, steps, joints, movement, and standing water as a drawing. */
import { el } from "../../lib/dom.js";
import { group } from "../form/form.js";
import { table } from "../../lib/results.js";
import { fall, plain } from "../../lib/words.js";
import { drawInto } from "./levels.js";

/** @type {Record<string, string>} */
const VERDICT = { pass: "✓ pass", fail: "✕ fail", unsure: "? inconclusive" };
/** @type {Record<string, string>} */
const BAYS = {
  as_designed: "✓ as designed",
  flat_by_design: "△ flat by design",
  off_design: "✕ built off design",
  moved_since: "✕ moved since",
  unknown: "? not known",
};
/** @type {Record<string, string>} */
const MOVED = { moved: "✕ moved", not_seen: "no movement seen", unknown: "? not known" };

/** @param {string|null} found */
const said = (found) => (found === null ? "no limit" : VERDICT[found]);
/** @param {number|null} value */
const tenth = (value) => (value === null ? "–" : `${plain(value, 1)} mm`);
/** @param {{min_mm: number|null, max_mm: number|null}} limit */
const held = ({ min_mm, max_mm }) =>
  min_mm === null || max_mm === null
    ? "not known"
    : min_mm === max_mm
      ? `${plain(max_mm, 1)} mm`
      : `${plain(min_mm, 1)} to ${plain(max_mm, 1)} mm`;

/** @param {Planned} state @returns {Node[]} */
export function laidResults(state) {
  const report = state.plan.as_laid;
  if (!report) return [];
  const out = [surface(report), standingWater(state)];
  for (const visit of report.visits) out.push(later(visit));
  return out;
}

/** @param {plan.AsLaidReport} report */
function surface(report) {
  const bays = table(
    [
      { head: "Bay" },
      { head: "It is" },
      { head: "Planned", number: true },
      { head: "Found", number: true },
      { head: "Farthest off", number: true },
    ],
    report.areas.flatMap((area) =>
      area.bays.map((bay) => [
        `${bay.area} ${bay.number}`,
        bay.states.map((state) => BAYS[state]).join(", "),
        fall(bay.planned_fall),
        bay.fall === null ? "–" : fall(bay.fall),
        tenth(bay.farthest_mm),
      ]),
    ),
    "Bays",
  );
  const rows = [
    ...report.gaps.map((one) => [
      one.name,
      `gap under ${plain(one.edge_mm / 1000, 1)} m`,
      tenth(one.gap_mm),
      held(one.limit),
      said(one.verdict),
    ]),
    ...report.lips.map((one) => [one.name, "step", tenth(one.lip_mm), held(one.limit), said(one.verdict)]),
    ...report.joints.map((one) => [
      one.name,
      "joint",
      tenth(one.width_mm),
      held({ min_mm: one.min_mm, max_mm: one.max_mm }),
      said(one.verdict),
    ]),
  ];
  return group(
    "Surface",
    [
      el("p", { class: "quiet", text: `Held to: ${report.regime.label}.` }),
      bays,
      rows.length
        ? table(
            [
              { head: "At" },
              { head: "What" },
              { head: "Found", number: true },
              { head: "Limit", number: true },
              { head: "" },
            ],
            rows,
            "Read by hand",
          )
        : el("p", { class: "quiet", text: "No gap, step or joint was read by hand." }),
    ],
    { open: true },
  );
}

/** @param {Planned} state */
function standingWater(state) {
  const box = el("div", { class: "drawing", "aria-label": "Plan of standing water as laid" });
  const part = group("Standing water", [
    el("p", {
      class: "quiet",
      text:
        "The chance that water stands, given how well and where the levels were read. The sheet As laid has it in " +
        "figures.",
    }),
    box,
  ]);
  part.addEventListener("toggle", () => {
    if (part.open && !box.childElementCount) drawInto(state, "standing-water", box);
  });
  return part;
}

/** @param {plan.VisitMoved} visit */
const later = (visit) =>
  group(`Visit of ${visit.date}: ${MOVED[visit.verdict]}`, [
    table(
      [{ head: "At" }, { head: "Moved", number: true }, { head: "±", number: true }, { head: "" }],
      visit.places.map((one) => [
        one.label,
        `${one.moved_mm > 0 ? "+" : ""}${tenth(one.moved_mm)}`,
        tenth(2 * one.sd_mm),
        MOVED[one.verdict],
      ]),
      `Visit of ${visit.date}`,
    ),
  ]);
