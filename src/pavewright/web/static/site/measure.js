// @ts-check
/** Measuring: tapes, staff readings, heights by the datum, and the walk round the house. */
import { el, say } from "../lib/dom.js";
import { level, mm } from "../lib/words.js";
import { datumLevel } from "../lib/kernel.js";
import { meant } from "./pad.js";
import { glance, keep, padFor, picker, set, tabs, undoLine, words } from "./parts.js";
import {
  datums,
  knownLevels,
  pointNames,
  sideWanted,
  spokenPoint,
  staffPoints,
  standing,
  tapesWanted,
} from "./reading.js";
import { asLaid } from "./check.js";
import { walkPanel } from "./walk.js";
import { staffPanel, noDatum, bookName } from "./staff.js";

/** @typedef {import("./parts.js").Here} Here */

const WHAT = /** @type {[string, string][]} */ ([
  ["tape", "Tape"],
  ["staff", "Staff"],
  ["datum", "Datum"],
  ["walk", "Walk"],
  ["laid", "As laid"],
]);

/** @param {Here} here @returns {Node[]} */
export function measure(here) {
  const panel =
    { tape: tapePanel, staff: staffPanel, datum: datumPanel, walk: walkPanel, laid: asLaid }[
      /** @type {"tape"} */ (here.ui.what)
    ] ?? tapePanel;
  return [tabs("What is read", WHAT, here.ui.what, (what) => set(here, { what, typed: "" })), ...panel(here)];
}

// ---- tapes

/** @param {Here} here */
function tapePanel(here) {
  const taken = standing(here.queue.list, "tapes"),
    wanted = tapesWanted(here.doc, taken),
    ui = here.ui;
  const [from, to] = ui.from || ui.to ? [ui.from ?? "", ui.to ?? ""] : (wanted.left[0] ?? ["", ""]);
  const names = [
    ...new Set([
      ...pointNames(here.doc),
      ...(here.doc.areas ?? []).flatMap((area) => area.outline.map((corner) => corner.point)),
      ...taken.flatMap((tape) => [tape.start, tape.end]),
    ]),
  ];
  const side = sideWanted(here.doc, taken, [from, to]),
    known = from && to && from !== to;
  const ready = known && (!side || ui.side);
  /** @type {HTMLElement[]} */ const out = [
    glance(wanted.done, wanted.count, "tapes", wanted.left[0]?.join(" to ") ?? ""),
    el(
      "div",
      { class: "side-by-side" },
      picker("From", names, from, (name) => set(here, { from: name, to }), { fresh: "new point …" }),
      picker("To", names, to, (name) => set(here, { from, to: name }), { fresh: "new point …" }),
    ),
  ];
  if (known && side)
    out.push(
      el("p", { text: `${side.point} is new. Looking from ${side.line_from} to ${side.line_to}, it lies` }),
      words(
        "Side",
        [
          ["left", "to the left"],
          ["right", "to the right"],
        ],
        ui.side ?? "",
        (way) => set(here, { side: way }),
      ),
    );
  out.push(
    padFor(
      here,
      `Tape ${from} to ${to}`,
      known ? "Save tape" : "Choose two points",
      async (length_mm) => {
        const entry = { start: from, end: to, length_mm, ...(side ? { side: { ...side, side: ui.side } } : {}) };
        if (await keep(here, "tapes", entry)) set(here, { from: "", to: "", side: "", typed: "" });
      },
      Boolean(ready),
      undefined,
      "site",
    ),
    undoLine(
      here,
      (one) => one.kind === "tapes",
      (entry) => `${entry.start} to ${entry.end}: ${mm(entry.length_mm)}`,
    ),
  );
  return out;
}

// ---- staff

// ---- higher or lower than the datum

/** @param {Here} here */
function datumPanel(here) {
  const ui = here.ui,
    choices = datums(here.doc, here.view),
    datum = choices.includes(ui.datum) ? ui.datum : (choices[0] ?? "");
  if (!datum) return [noDatum()];
  const entries = standing(here.queue.list, "level_by_datum").filter(
    (entry) => entry.book === ui.datumBook && entry.datum === datum,
  );
  const read = new Set(entries.map((entry) => entry.point)),
    all = staffPoints(here.doc).filter((name) => name !== datum),
    left = all.filter((name) => !read.has(name));
  const point = ui.point || left[0] || "",
    known = knownLevels(here.doc, here.view).get(datum);
  const lies = el("p", { class: "reduced", role: "status" }),
    tellLies = () => {
      const typed = meant(ui.typed ?? "", "offset");
      say(
        lies,
        typed !== null && ui.way && known !== undefined
          ? `${point} lies at ${level(datumLevel(known, ui.way, Math.round(Math.abs(typed))))}`
          : "",
      );
    };
  tellLies();
  return [
    glance(all.length - left.length, all.length, "readings", left.length ? spokenPoint(here.doc, left[0]) : ""),
    el(
      "div",
      { class: "side-by-side" },
      picker("Datum", choices, datum, (name) => set(here, { datum: name, datumBook: "" })),
      picker(
        "Point",
        [...new Set([...all, ...pointNames(here.doc)])].filter((name) => name !== datum),
        point,
        (name) => set(here, { point: name }),
        { spoken: (name) => spokenPoint(here.doc, name) },
      ),
    ),
    words(
      "Which way",
      [
        ["lower", `▼ Lower than ${datum} by`],
        ["higher", `▲ Higher than ${datum} by`],
      ],
      ui.way ?? "",
      (way) => set(here, { way }),
    ),
    padFor(
      here,
      `${point} ${ui.way ?? ""} than ${datum} by`,
      !ui.way ? "Choose lower or higher" : "Save reading",
      async (by_mm) => {
        const book = ui.datumBook || bookName("By datum");
        if (await keep(here, "level_by_datum", { book, datum, point, way: ui.way, by_mm: Math.round(Math.abs(by_mm)) }))
          set(here, { datumBook: book, datum, point: "", typed: "", way: "" });
      },
      Boolean(ui.way && point),
      tellLies,
      "offset",
    ),
    lies,
    undoLine(
      here,
      (one) => one.kind === "level_by_datum",
      (entry) => `${entry.point}: ${mm(entry.by_mm)} ${entry.way} than ${entry.datum}`,
    ),
  ];
}

// ---- the walk round
