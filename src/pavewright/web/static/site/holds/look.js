// @ts-check
/** One hold point: read down from the string or by the staff, told at once. */
import { el } from "../../lib/dom.js";
import { mm, plain } from "../../lib/words.js";
import { limitFrom } from "../sources.js";
import { staffLevel } from "../../lib/kernel.js";
import { keepChange, touches } from "../changes.js";
import { glance, padFor, picker, set, tabs, undoLine, words } from "../parts.js";
import { datums, knownLevels } from "../reading.js";
import { drainPart } from "./drain.js";
import { meanVolumes, read } from "./hold-kernel.js";
import { freshLook, keepReading, lastLook, nameOf, stateOf } from "./looks.js";
import { taken, takenBox, there } from "./told.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {plan.HoldOnSite} One */

/** @param {Here} here @param {plan.HoldsOnSite} part @returns {Node[]} */
export function look(here, part) {
  const states = part.holds.map((one) => stateOf(here, part, one)),
    first = part.holds.find((_, n) => states[n].key !== "pass") ?? part.holds[0];
  if (!first) return [el("p", { class: "ask", text: "This job has no hold points yet." })];
  const one = part.holds.find((each) => each.key === here.ui.holdsKey) ?? first,
    passed = states.filter((each) => each.key === "pass").length,
    keys = part.holds.map((each) => each.key);
  const out = [
    glance(passed, part.holds.length, "hold points passed", ""),
    picker("Hold point", keys, one.key, (holdsKey) => set(here, { holdsKey, holdsPlace: null, typed: "" }), {
      spoken: (key) => {
        const n = keys.indexOf(key);
        return `${states[n].words.split(" ")[0]} ${nameOf(part.holds[n])}`;
      },
    }),
    stateLine(here, part, one),
  ];
  return [...out, ...(one.drain ? drainPart(here, part, one, lastLook(here, one)) : surface(here, part, one))];
}

/**
 * How it stands, and the last place that was read.
 * @param {Here} here @param {plan.HoldsOnSite} part @param {One} one
 */
function stateLine(here, part, one) {
  const { key, words: said } = stateOf(here, part, one),
    last = one.drain ? null : read(part, one, lastLook(here, one)).at(-1);
  const off = last && last.off !== null ? `${plain(Math.abs(last.off))} mm ${last.off < 0 ? "low" : "high"}` : "",
    lately = last ? `${SIGNS[last.verdict ?? ""] ?? "–"} ${last.label} ${off}` : "";
  return el(
    "div",
    { class: `finding verdict ${["pass", "fail", "unsure"].includes(key) ? key : ""}`, role: "status" },
    el("p", {}, el("b", { text: said }), lately ? `; last: ${lately}` : ""),
  );
}

/** What it is held to, and where that comes from. @param {Here} here @param {One} one */
function limitTold(here, one) {
  if (one.above_mm === null || one.below_mm === null)
    return el("p", { class: "quiet", text: "No figure is known for this layer." });
  const limit = `At most ${plain(one.above_mm)} mm high and ${plain(one.below_mm)} mm low`;
  return el("p", { class: "source", text: one.limit ? limitFrom(here, limit, one.limit) : `${limit}.` });
}

const SIGNS = /** @type {Record<string, string>} */ ({ pass: "✓", fail: "✕", unsure: "?" });

/** @param {Here} here @param {plan.HoldsOnSite} part @param {One} one @returns {Node[]} */
function surface(here, part, one) {
  const check = lastLook(here, one),
    found = read(part, one, check),
    line = one.line_mm !== null && here.ui.holdsRow === "line",
    left = one.places.filter(
      (place) =>
        !found.some((/** @type {any} */ each) => each.label === place.label && each[line ? "line" : "off"] !== null),
    ),
    place = one.places.find((each) => each.label === here.ui.holdsPlace) ?? left[0] ?? null;
  const by = one.places.some((each) => each.down_mm !== null) && here.ui.holdsBy !== "staff" ? "string" : "staff";
  return there(
    glance(one.places.length - left.length, one.places.length, "places read", left[0]?.label ?? ""),
    one.line_mm === null
      ? ""
      : tabs(
          "What is read",
          [
            ["level", "Its level"],
            ["line", "Off its string"],
          ],
          line ? "line" : "level",
          (holdsRow) => set(here, { holdsRow, typed: "" }),
        ),
    ...(place ? (line ? offLine(here, part, one, place) : reading(here, part, one, place, by)) : [again(here, one)]),
    undoLine(here, (each) => touches(each, "hold_checks")),
    ...meaning(part, one, found, check?.sd_mm ?? part.reading_sd_mm),
    limitTold(here, one),
    list(one, found),
  );
}

/** How far a piece of the first row lies off its string.
 * @param {Here} here @param {plan.HoldsOnSite} part @param {One} one @param {plan.HoldPlace} place
 */
const offLine = (here, part, one, place) => [
  el("p", { class: "ask", text: `Piece ${place.label}: at most ${plain(one.line_mm ?? 0)} mm off its string` }),
  words(
    "To which side",
    [
      ["left", "◂ Left of it"],
      ["right", "Right of it ▸"],
    ],
    here.ui.holdsSide ?? "left",
    (holdsSide) => set(here, { holdsSide }),
  ),
  padFor(here, `Off the string at piece ${place.label}`, "Save reading", (value) =>
    keepReading(here, part, one, place, {
      off_mm: Math.round(Math.abs(value)) * (here.ui.holdsSide === "right" ? -1 : 1),
    }),
  ),
];

/**
 * @param {Here} here @param {plan.HoldsOnSite} part @param {One} one @param {plan.HoldPlace} place @param {string} by
 */
function reading(here, part, one, place, by) {
  const { doc, view, ui } = here,
    choices = datums(doc, /** @type {SiteView} */ (view)),
    datum = choices.includes(ui.holdsDatum) ? ui.holdsDatum : (choices[0] ?? ""),
    base = knownLevels(doc, /** @type {SiteView} */ (view)).get(datum);
  const how =
    one.places.some((each) => each.down_mm !== null) &&
    tabs(
      "How it is read",
      [
        ["string", "Down from the string"],
        ["staff", "By staff"],
      ],
      by,
      (holdsBy) => set(here, { holdsBy, typed: "" }),
    );
  const keep = (/** @type {number} */ level_mm) => keepReading(here, part, one, place, { level_mm });
  if (by === "string" && place.down_mm !== null && place.planned_mm !== null) {
    const planned = place.planned_mm,
      hung = (doc.strings_set ?? []).filter((each) => each.peg === place.label).at(-1),
      down = hung ? hung.level_mm - planned : place.down_mm;
    return there(
      how || "",
      hung || !doc.strings_set?.length
        ? ""
        : el("p", {
            class: "ask",
            role: "alert",
            text: `How high the string hangs at ${place.label} was not read: type it under Set out, or read by staff.`,
          }),
      el("p", { class: "ask" }, `${place.label}: planned `, el("b", { class: "whole", text: mm(down) }), " down"),
      padFor(here, `Down from the string at ${place.label}`, "Save reading", (value) =>
        keep(planned + down - Math.round(value)),
      ),
    );
  }
  if (base === undefined) return there(how || "", el("p", { class: "ask", text: "No level is known to read from." }));
  if (typeof ui.holdsBack_mm !== "number" || ui.holdsDatumOf !== datum)
    return there(
      how || "",
      picker("Datum", choices, datum, (holdsDatum) => set(here, { holdsDatum, holdsBack_mm: undefined })),
      el("p", { class: "ask", text: `First read the staff on ${datum}.` }),
      padFor(here, `Staff reading on ${datum}`, "Save reading", (value) =>
        set(here, { holdsBack_mm: Math.round(value), holdsDatumOf: datum, typed: "" }),
      ),
    );
  const should = place.planned_mm === null ? null : base + ui.holdsBack_mm - place.planned_mm;
  return there(
    how || "",
    el(
      "p",
      { class: "ask" },
      `${place.label}: the staff should read `,
      should === null ? "–" : el("b", { class: "whole", text: mm(should) }),
    ),
    padFor(
      here,
      `Staff reading at ${place.label}`,
      "Save reading",
      (value) => keep(staffLevel(base, ui.holdsBack_mm, Math.round(value))),
      true,
      undefined,
      "reading",
    ),
    el("button", {
      type: "button",
      text: `Read ${datum} again`,
      on: { click: () => set(here, { holdsBack_mm: undefined, typed: "" }) },
    }),
  );
}

/** A fresh look, once every place is read. @param {Here} here @param {One} one */
const again = (here, one) =>
  el("button", {
    type: "button",
    class: "main pad-keep",
    text: "Look at it again",
    on: {
      click: () =>
        keepChange(
          here,
          (draft) => {
            draft.hold_checks = [...(draft.hold_checks ?? []), freshLook(here, one)];
          },
          `Looked at again: ${nameOf(one)}`,
        ),
    },
  });

/**
 * What the readings mean, as soon as there are any.
 * @param {plan.HoldsOnSite} part @param {One} one @param {any[]} found @param {number} sd_mm of one reading
 */
function meaning(part, one, found, sd_mm) {
  const offs = found.map((each) => each.off).filter((off) => typeof off === "number");
  if (!offs.length || !one.area_m2) return [];
  const volumes = meanVolumes(one.area_m2, offs, sd_mm, part.trusted),
    out = [];
  const doubt = volumes.doubt_m3 === null ? "; one reading says little" : ` ± ${plain(volumes.doubt_m3, 2)}`;
  if (volumes.low_m3 > 0 && one.low)
    out.push(takenBox(`Low: ${plain(volumes.low_m3, 2)} m³ more${doubt}`, taken(one.low, volumes.low_m3, part)));
  if (volumes.high_m3 > 0 && one.high)
    out.push(
      takenBox(`High: ${plain(volumes.high_m3, 2)} m³ to take off${doubt}`, taken(one.high, volumes.high_m3, part)),
    );
  return out;
}

/** @param {One} one @param {any[]} found */
function list(one, found) {
  return el(
    "details",
    { class: "group" },
    el("summary", { text: "All places" }),
    el(
      "div",
      { class: "inside" },
      el(
        "ul",
        { class: "plain-list" },
        ...one.places.map((place) => {
          const mine = found.find((each) => each.label === place.label);
          if (!mine) return el("li", { text: `○ ${place.label}` });
          const off = mine.off === null ? "" : `${plain(Math.abs(mine.off))} ${mine.off < 0 ? "low" : "high"}`;
          return el("li", { text: `${SIGNS[mine.verdict] ?? "–"} ${place.label} ${off}` });
        }),
      ),
    ),
  );
}
