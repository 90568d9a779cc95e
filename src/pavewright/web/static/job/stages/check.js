// @ts-check
import { el } from "../../lib/dom.js";
import { form, group } from "../form/form.js";
import { following } from "../form/following.js";
import { rows } from "../form/rows.js";
import { STATUS, fact, facts, table } from "../../lib/results.js";
import { fromFile } from "./from-file.js";
import { handingOver } from "./handing-over.js";
import { laidInputs } from "./laid-inputs.js";
import { laidResults } from "./laid-results.js";
import { laidTogether } from "./laid-together.js";
import { fall, level, mm, plain } from "../../lib/words.js";

/** @type {Record<string, string>} */
const VERDICT = { pass: "✓ pass", fail: "✕ fail", unsure: "? inconclusive" };

/** @param {Planned} state */
export function results(state) {
  const report = state.plan.as_laid,
    /** @type {Node[]} */ out = [];
  if (!report)
    return [
      el("p", {
        text:
          "Nothing was read on the finished paving yet. Read the staff on a grid of about 1.5 m and beside " +
          "every wall.",
      }),
    ];
  out.push(laidTogether(state));
  for (const area of report.areas)
    out.push(
      el("h3", { text: `${area.area}: levels` }),
      facts(
        fact("Readings", String(area.readings.length)),
        fact(
          "Fall found",
          area.fall === null ? "not found: too few readings" : fall(area.fall),
          area.workings,
          state.sources,
        ),
        fact("Fall planned", fall(area.planned_fall)),
        ...area.walls.map((wall) =>
          fact(
            `Below DPC, ${wall.wall}`,
            `${mm(wall.min_mm)} ${VERDICT[wall.verdict]}${
              wall.verdict === "pass" && wall.min_mm < wall.wanted_mm
                ? `, by the tolerance of ${plain(wall.tolerance_mm)} mm (${STATUS[wall.tolerance.status]})`
                : ""
            }`,
          ),
        ),
      ),
      table(
        [
          { head: "Where" },
          { head: "Planned", number: true },
          { head: "Found", number: true },
          { head: "Off by", number: true },
          { head: "" },
        ],
        area.readings.map((one) => [
          one.label || "–",
          level(one.planned_mm),
          level(one.found_mm),
          `${one.deviation_mm > 0 ? "+" : ""}${plain(one.deviation_mm, 1)} mm`,
          VERDICT[one.verdict],
        ]),
        `Readings of ${area.area}`,
      ),
    );
  out.push(...laidResults(state));
  if (report.limits.length)
    out.push(
      group("What this does not say", [
        el("ul", {}, ...report.limits.map((/** @type {string} */ words) => el("li", { text: words }))),
      ]),
    );
  return out;
}

/** @param {JobState} state */
export function inputs(state) {
  return [
    group("Who read it", [
      form(state, ["as_laid"], { only: ["date", "read_by", "instrument", "reading_sd_mm"] }),
      form(state, [], { only: ["tolerance"] }),
    ]),
    following(
      state,
      (doc) => Boolean(doc.as_laid),
      () => [state.doc.as_laid ? readings(state) : beginning(state)],
    ),
    ...laidInputs(state),
    fromFile(state, { laid: true }),
    handingOver(state),
  ];
}

/** @param {JobState} state */
const readings = (state) =>
  group("Levels read", [
    rows(state, ["as_laid", "readings"], ["label", "x_mm", "y_mm", "level_mm", "area"], {
      title: "Readings",
      add: "reading",
      start: (doc) => ({
        label: `L${(doc.as_laid.readings?.length ?? 0) + 1}`,
        level_mm: null,
        area: doc.areas[0]?.name ?? "",
      }),
    }),
  ]);

/** @param {JobState} state */
const beginning = (state) =>
  el("button", {
    type: "button",
    class: "main",
    text: "Begin the check",
    on: {
      click: () =>
        state.change("check begun", (doc) => {
          doc.as_laid = { date: new Date().toISOString().slice(0, 10), readings: [] };
        }),
    },
  });
