// @ts-check
/** Checking: heights of pegs to set, and the finished paving checked against the plan as it is read. */
import { el, find } from "../lib/dom.js";
import { level, mm, plain } from "../lib/words.js";
import { STATUS } from "../lib/results.js";
import { source } from "./sources.js";
import { datumLevel, staffLevel } from "../lib/kernel.js";
import { doubtOf, verdictOn } from "./laid.js";
import { glance, keep, padFor, picker, set, tabs, undoLine, words } from "./parts.js";
import { siteMap } from "./map.js";
import { areaAt, datums, gridLeft, knownLevels, plannedAt, standing } from "./reading.js";
import { pegs, noPlan } from "./pegs.js";
import { noDatum } from "./staff.js";
import { byHand } from "./check/by-hand.js";
import { snags } from "./check/snags.js";
import { judged } from "./check/judged.js";
import { water } from "./check/water.js";

/** @typedef {import("./parts.js").Here} Here */

/** @type {Record<string, string>} */
const VERDICT = { pass: "✓ Pass", fail: "✕ Fail", unsure: "? Inconclusive" };

/** @param {Here} here @returns {Node[]} */
export function check(here) {
  const panel = { laid: asLaid, hand: byHand, water, snags }[/** @type {string} */ (here.ui.checking)] ?? pegs;
  return [
    tabs(
      "What is checked",
      [
        ["pegs", "Pegs"],
        ["laid", "As laid"],
        ["hand", "Edge, step"],
        ["water", "Water"],
        ["snags", "Snags"],
      ],
      here.ui.checking,
      (checking) => set(here, { checking, typed: "", checkAt: null }),
    ),
    ...panel(here),
  ];
}

// ---- pegs

// ---- as laid

/** @param {Here} here @returns {Node[]} */
export function asLaid(here) {
  const { view, ui, doc } = here;
  if (!view?.levels) return [noPlan(view)];
  const choices = datums(doc, view),
    datum = choices.includes(ui.laidDatum) ? ui.laidDatum : (choices[0] ?? ""),
    known = knownLevels(doc, view);
  if (!datum) return [noDatum()];
  const queued = standing(here.queue.list, "as_laid"),
    taken = [...(doc.as_laid?.readings ?? []), ...queued],
    left = gridLeft(view, taken);
  const place = ui.place ?? left[0] ?? null,
    area = place ? place.area : null,
    planned = place ? plannedAt(view, area, place.at) : null;
  const by = ui.laidBy ?? "staff",
    base = /** @type {number} */ (known.get(datum)),
    ready = by === "staff" ? typeof ui.back_mm === "number" : Boolean(ui.laidWay);
  const map = siteMap(here, {
    at: place?.at ?? null,
    read: taken,
    pick: (at) => {
      const found = areaAt(view, at);
      if (!found.area || found.off_mm > 300) return here.say("That is not on the paving.");
      set(here, { place: { label: freeLabel(taken), area: found.area, at: at.map((each) => Math.round(each)) } });
    },
  });
  const out = [
    glance(view.grid.length - left.length, view.grid.length, "readings", left[0]?.label ?? ""),
    told(here, view, queued.at(-1)),
    judged(here),
  ];
  out.push(
    el(
      "details",
      {
        class: "group map-group",
        open: Boolean(ui.mapOpen),
        on: {
          toggle: (/** @type {{target: HTMLDetailsElement}} */ event) => {
            ui.mapOpen = event.target.open;
            here.remember();
          },
        },
      },
      el("summary", { text: place ? `${place.label} on ${area}: the plan` : "Tap a place on the plan" }),
      map,
    ),
  );
  const how = () => [
    tabs(
      "How it is read",
      [
        ["staff", "By staff"],
        ["datum", "By datum"],
      ],
      by,
      (laidBy) => set(here, { laidBy, typed: "" }),
    ),
    picker("Datum", choices, datum, (name) => set(here, { laidDatum: name, back_mm: undefined })),
  ];
  if (by === "staff") {
    if (!ready)
      return [
        ...out,
        ...how(),
        el("p", {
          class: "ask",
          text: `First read the staff on ${datum}. When the instrument is moved, read ${datum} again.`,
        }),
        padFor(here, `Staff reading on ${datum}`, "Save reading", (value) =>
          set(here, { back_mm: Math.round(value), typed: "" }),
        ),
      ];
    out.push(
      el(
        "div",
        { class: "last" },
        el("span", { class: "fill", text: `${datum} read ${mm(ui.back_mm)}` }),
        el("button", {
          type: "button",
          text: "Read again",
          on: { click: () => set(here, { back_mm: undefined, typed: "" }) },
        }),
      ),
    );
  } else
    out.push(
      ...how(),
      words(
        "Which way",
        [
          ["lower", `▼ Lower than ${datum} by`],
          ["higher", `▲ Higher than ${datum} by`],
        ],
        ui.laidWay ?? "",
        (laidWay) => set(here, { laidWay }),
      ),
    );
  out.push(
    padFor(
      here,
      place ? `Reading at ${place.label}` : "Reading",
      !place ? "Choose a place" : !ready ? "Choose lower or higher" : "Save reading",
      async (value) => {
        const level_mm =
          by === "staff"
            ? staffLevel(base, ui.back_mm, Math.round(value))
            : datumLevel(base, ui.laidWay, Math.round(Math.abs(value)));
        const entry = { x_mm: place.at[0], y_mm: place.at[1], level_mm, area, label: place.label };
        if (!(await keep(here, "as_laid", entry))) return;
        set(here, { place: null, typed: "", laidWay: "", mapOpen: false });
        find("#panel").scrollTop = 0; // the verdict stands there
      },
      Boolean(place && ready),
      undefined,
      by === "staff" ? "reading" : "offset",
    ),
  );
  if (planned !== null)
    out.push(
      el(
        "p",
        { class: "quiet" },
        `Planned ${level(planned)}`,
        by === "staff" && ready ? ": the staff should read " : "",
        by === "staff" && ready ? el("b", { class: "whole", text: mm(base + ui.back_mm - planned) }) : null,
      ),
    );
  out.push(
    undoLine(
      here,
      (one) => one.kind === "as_laid",
      (entry) => `${entry.label}: ${level(entry.level_mm)}`,
    ),
    list(view, taken),
  );
  return out;
}

/** A label that no reading has. @param {any[]} taken */
function freeLabel(taken) {
  const had = new Set(taken.map((one) => one.label));
  for (let number = 1; ; number += 1) if (!had.has(`P${number}`)) return `P${number}`;
}

/** @param {SiteView} view @param {any} entry */
function off(view, entry) {
  const planned = plannedAt(view, entry.area, [entry.x_mm, entry.y_mm]);
  return planned === null ? null : entry.level_mm - planned;
}

/** The last reading against the plan, at once. @param {Here} here @param {SiteView} view @param {any} entry */
function told(here, view, entry) {
  const limit = view.level_limit,
    away = entry ? off(view, entry) : null;
  if (!entry || away === null) return el("span");
  if (!limit)
    return el("p", {
      role: "status",
      text:
        `${entry.label} is ${plain(Math.abs(away), 1)} mm ${away < 0 ? "low" : "high"}. The limit comes with ` +
        `the plan.`,
    });
  const { alone, wall, verdict: found } = verdictOn(view, entry, away, limit.value),
    doubt = plain(doubtOf(view), 1);
  const why =
    alone === "unsure"
      ? "too near to the limit for this reading to decide: read it again"
      : `${plain(limit.value)} mm either way is allowed`;
  return el(
    "div",
    { class: `finding verdict ${found}`, role: "status" },
    el("p", {
      class: "big",
      text: `${VERDICT[found]}: ${entry.label}, ${plain(Math.abs(away), 1)} mm ${away < 0 ? "low" : "high"}`,
    }),
    el("p", { text: `${why.charAt(0).toUpperCase()}${why.slice(1)}.` }),
    wall ? el("p", { text: wallWords(wall, limit) }) : "",
    el(
      "details",
      {},
      el("summary", { text: "The sum" }),
      el("p", {
        class: "sum-line",
        text:
          `found ${level(entry.level_mm)} less planned ${level(entry.level_mm - away)} = ${plain(away, 1)} mm; ` +
          `pass within ${plain(limit.value)} − ${doubt} mm, fail beyond ${plain(limit.value)} + ${doubt} mm ` +
          `(${plain(view.trusted_sd)} standard deviations of ${plain(view.reading_sd_mm, 1)} mm)`,
      }),
      source(here, limit),
    ),
  );
}

/** @param {any} wall @param {any} limit the figure of laying, from which the tolerance comes */
function wallWords(wall, limit) {
  const at = `${plain(wall.found_mm)} mm below the DPC of ${wall.wall}, at least ${plain(wall.promised_mm)} wanted`,
    allowed = wall.tolerance_mm
      ? `the tolerance of ${plain(wall.tolerance_mm)} mm for laying (${STATUS[limit.status]})`
      : "it; the plan leaves no tolerance to take off";
  if (wall.byTolerance) return `Check: ${at}: only within ${allowed}.`;
  return wall.verdict === "pass"
    ? `${at}: kept.`
    : `${at}: below ${allowed}${wall.verdict === "unsure" ? ", but too near for this reading to decide" : ""}.`;
}

/** @param {SiteView} view @param {any[]} taken */
function list(view, taken) {
  if (!taken.length) return el("span");
  const limit = view.level_limit;
  return el(
    "details",
    { class: "group" },
    el("summary", { text: taken.length === 1 ? "The one reading" : `All ${taken.length} readings` }),
    el(
      "div",
      { class: "inside" },
      el(
        "table",
        {},
        el(
          "thead",
          {},
          el(
            "tr",
            {},
            el("th", { scope: "col", text: "Where" }),
            el("th", { scope: "col", class: "number", text: "Off by, mm" }),
            el("th", { scope: "col", text: "Verdict" }),
          ),
        ),
        el(
          "tbody",
          {},
          ...taken.map((one) => {
            const away = off(view, one);
            return el(
              "tr",
              {},
              el("td", { text: one.label || "–" }),
              el("td", { class: "number", text: away === null ? "–" : `${away > 0 ? "+" : ""}${plain(away, 1)}` }),
              el("td", {
                text: away === null || !limit ? "" : VERDICT[verdictOn(view, one, away, limit.value).verdict],
              }),
            );
          }),
        ),
      ),
    ),
  );
}
