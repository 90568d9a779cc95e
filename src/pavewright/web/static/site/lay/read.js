// @ts-check
/** How corners are read: by which tool, the keys for it, whether the unit rocks, and reading aloud. */
import { el } from "../../lib/dom.js";
import { level, mm, plain } from "../../lib/words.js";
import { lengthUnit } from "../../lib/lengths-here.js";
import { meant } from "../pad.js";
import { padFor, set, tabs, words } from "../parts.js";
import { canSpeak, hushVoice, speak } from "./aloud.js";
import { afresh, put } from "./draft.js";
import { keysPad, stepMm, stepUnit } from "./keys.js";
import { stands } from "./told.js";
import { LETTERS, wantedPercent } from "./units.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {import("./draft.js").Draft} Draft */

const WAYS = /** @type {[string, string][]} */ ([
  ["wedge", "Wedge"],
  ["string", "String"],
  ["staff", "Staff"],
  ["percent", "Level %"],
]);

/** @param {Here} here @param {Draft} draft @param {plan.UnitToLay} unit */
export function ways(here, draft, unit) {
  return tabs("How corners are read", WAYS, draft.way, (layWay) => {
    here.ui.layWay = layWay;
    put(here, unit, { ...afresh(draft), way: layWay });
  });
}

/** @param {Here} here @param {plan.UnitToLay} unit @param {Draft} draft @param {any} active @param {any} datum */
export function pad(here, unit, draft, active, datum) {
  const typed = { typed: here.ui.layTyped ?? "", onType: (/** @type {string} */ text) => typing(here, text) };
  const heard = (/** @type {string} */ text) => here.ui.layAloud && speak(text);
  if (active.line) {
    const [from, to] = [...active.line].map((each) => LETTERS[Number(each)]);
    return keysPad({
      ...typed,
      label: `From ${from} to ${to}`,
      unit: "%",
      point: "point",
      ask: `${from} to ${to}, ${plain(wantedPercent(unit, active.line), 2)} % wanted`,
      ways: [
        { face: "↓ falls", sign: 1 },
        { face: "↑ rises", sign: -1 },
      ],
      onKeep: (percent) => put(here, unit, { ...draft, lines: { ...draft.lines, [active.line]: percent } }),
    });
  }
  if (active.corner === null) return el("span");
  const corner = active.corner,
    letter = LETTERS[corner];
  const kept = (/** @type {number} */ over) => {
    heard(`${letter} ${stands(over)}`);
    if (draft.way === "percent") return put(here, unit, { ...draft, first: over });
    put(here, unit, { ...draft, at: null, corners: draft.corners.map((had, each) => (each === corner ? over : had)) });
  };
  if (datum)
    return el(
      "div",
      {},
      el(
        "p",
        { class: "ask" },
        `Staff on ${letter}: it should read `,
        el("b", { class: "whole", text: mm(datum.height - unit.wanted_mm[corner] - datum.aims[corner]) }),
      ),
      padFor(here, `Staff on ${letter}`, `Save ${letter}`, (value) =>
        kept(datum.height - Math.round(value) - unit.wanted_mm[corner]),
      ),
      el("button", {
        type: "button",
        text: `${datum.datum} read ${mm(here.ui.layBack_mm)}: read again`,
        on: { click: () => set(here, { layBack_mm: undefined, typed: "" }) },
      }),
    );
  return keysPad({
    ...typed,
    label: `Corner ${letter}`,
    unit: stepUnit(),
    point: "half",
    ask: `${letter}${draft.way === "percent" ? " by the string" : ""}, wanted ${level(unit.wanted_mm[corner])}`,
    ways: [
      { face: "▲ high", sign: stepMm() },
      { face: "▼ low", sign: -stepMm() },
    ],
    zero: "● right",
    onKeep: kept,
  });
}

/** @param {Here} here @param {string} text */
function typing(here, text) {
  here.ui.layTyped = text;
  here.remember();
}

/** @param {Here} here @param {Draft} draft @param {plan.UnitToLay} unit */
export function rocking(here, draft, unit) {
  const bed = el("input", {
    type: "text",
    inputmode: "decimal",
    class: "tall",
    autocomplete: "off",
    value: draft.bed === null ? "" : plain(draft.bed, Number.isInteger(draft.bed) ? 0 : 1),
  });
  bed.addEventListener("change", () => {
    const value = bed.value.trim() ? meant(bed.value, "thickness") : null;
    if (bed.value.trim() && (value === null || value < 0)) return here.say("That is no thickness.");
    put(here, unit, { ...draft, bed: value });
  });
  return el(
    "details",
    { class: "group", open: Boolean(draft.rocks) || draft.bed !== null },
    el("summary", { text: "Does it rock? Is its bed thin?" }),
    el(
      "div",
      { class: "inside lay-stack" },
      el("p", { class: "ask", text: "Press opposite corners in turn:" }),
      words(
        "Does it rock",
        [
          ["no", "it lies still"],
          ["a_c", "rocks under A and C"],
          ["b_d", "rocks under B and D"],
        ],
        draft.rocks,
        (rocks) => put(here, unit, { ...draft, rocks }),
      ),
      el(
        "label",
        { class: "field" },
        el("span", { class: "name", text: `Bed measured under it, ${lengthUnit()}` }),
        bed,
      ),
    ),
  );
}

/** @param {Here} here @param {{head: string, lines: string[]}} act */
export function aloudSwitch(here, act) {
  if (!canSpeak()) return el("p", { class: "quiet", text: "This browser cannot read aloud." });
  const on = Boolean(here.ui.layAloud),
    said = [act.head, ...act.lines].join(". ");
  const key = JSON.stringify([here.ui.layDraft?.piece, said]);
  if (on && here.ui.laySaid !== key && here.ui.layDraft) {
    here.ui.laySaid = key;
    speak(said);
  }
  return el(
    "div",
    { class: "lay-aloud" },
    el("button", {
      type: "button",
      "aria-pressed": String(on),
      text: on ? "Reading aloud: on" : "Reading aloud: off",
      on: {
        click: () => {
          hushVoice();
          set(here, { layAloud: !on, laySaid: "" });
          if (!on) speak(said);
        },
      },
    }),
    el("button", { type: "button", text: "Say it again", disabled: !on, on: { click: () => speak(said) } }),
  );
}
