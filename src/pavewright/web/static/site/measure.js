// @ts-check
/** Measuring: tapes, staff readings, heights by the datum, and the walk round the house. */
import { el } from "../lib/dom.js";
import { level, mm, plain } from "../lib/words.js";
import { source } from "../lib/results.js";
import { datumLevel, misclosureLimit, reduced } from "../lib/kernel.js";
import { meant } from "./pad.js";
import { glance, keep, padFor, picker, set, tabs, undoLine, words } from "./parts.js";
import { QUESTIONS } from "./questions.js";
import {
  closingLevels,
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

/** @param {Here} here */
function staffPanel(here) {
  const ui = here.ui,
    entries = standing(here.queue.list, "staff").filter((entry) => entry.book === ui.book),
    started = entries[0]?.point ?? "";
  if (!ui.book || !entries.length) return beginBook(here);
  const known = closingLevels(here.doc, new Map([[started, ui.start_mm]]), started),
    book = reduced(entries, known),
    read = new Set(entries.map((entry) => entry.point)),
    all = staffPoints(here.doc),
    left = all.filter((name) => !read.has(name));
  const moving = ui.moving,
    last = entries.at(-1),
    datum = entries[0].point;
  const point = moving ? last.point : ui.point || left[0] || datum,
    { closing } = book;
  const out = [
    glance(
      all.length - left.length,
      all.length,
      "readings",
      left.length ? spokenPoint(here.doc, left[0]) : closing ? "" : `close on ${datum}`,
    ),
    levelLine(book),
  ];
  if (closing) out.push(closingLine(here, closing, book.setups));
  if (moving)
    out.push(
      el("p", {
        class: "ask",
        text: `The instrument was moved. Read back to ${point}, the point that was read last.`,
      }),
    );
  else
    out.push(
      picker("Staff on", [...new Set([...all, ...pointNames(here.doc)])], point, (name) => set(here, { point: name }), {
        spoken: (name) => spokenPoint(here.doc, name),
      }),
    );
  out.push(
    padFor(here, `Staff reading on ${point}`, "Save reading", async (reading_mm) => {
      const entry = {
        book: ui.book,
        point,
        reading_mm: Math.round(reading_mm),
        sight: moving ? "moved" : "next",
        setup: book.setups + (moving ? 1 : 0),
      };
      if (await keep(here, "staff", entry)) set(here, { point: "", typed: "", moving: false });
    }),
  );
  out.push(
    undoLine(
      here,
      (one) => one.kind === "staff" && one.entries[0].book === ui.book,
      (entry) => `${entry.point}: ${mm(entry.reading_mm)}`,
    ),
    el(
      "div",
      { class: "row" },
      moving || last.sight === "next"
        ? el("button", {
            type: "button",
            "aria-pressed": String(Boolean(moving)),
            text: moving ? "It was not moved" : "I moved the instrument",
            on: { click: () => set(here, { moving: !moving, typed: "" }) },
          })
        : null,
      point !== datum && !moving
        ? el("button", { type: "button", text: `Close on ${datum}`, on: { click: () => set(here, { point: datum }) } })
        : null,
      el("button", {
        type: "button",
        text: "New book",
        on: { click: () => set(here, { book: "", point: "", typed: "", moving: false }) },
      }),
    ),
  );
  return out;
}

/** @param {Here} here */
function beginBook(here) {
  const choices = datums(here.doc, here.view),
    datum = here.ui.datum && choices.includes(here.ui.datum) ? here.ui.datum : (choices[0] ?? "");
  if (!datum) return [noDatum()];
  return [
    el("p", {
      class: "ask",
      text:
        "Set the instrument up. Read the staff on a point of known level first; end on it too, so that the " +
        "readings are checked.",
    }),
    picker("Staff on", choices, datum, (name) => set(here, { datum: name })),
    padFor(here, `Staff reading on ${datum}`, "Save reading", async (reading_mm) => {
      const book = bookName("Staff");
      if (
        await keep(here, "staff", { book, point: datum, reading_mm: Math.round(reading_mm), sight: "first", setup: 1 })
      )
        set(here, {
          book,
          datum,
          start_mm: knownLevels(here.doc, here.view).get(datum),
          typed: "",
          point: "",
          moving: false,
        });
    }),
  ];
}

const noDatum = () =>
  el("p", {
    class: "ask",
    text:
      "This job has no point of known level. Give one a level on the working screen (Measure, Known levels), " +
      "then open this page again.",
  });

/** A name that no other phone gives. @param {string} stem */
function bookName(stem) {
  const now = new Date(),
    tail = Array.from(crypto.getRandomValues(new Uint8Array(2)), (byte) => byte.toString(16).padStart(2, "0")).join("");
  return (
    `${stem} ${now.toLocaleDateString("en-GB", { day: "numeric", month: "short" })} ` +
    `${now.toTimeString().slice(0, 5)} ${tail}`
  );
}

/** @param {ReturnType<typeof reduced>} book */
function levelLine(book) {
  const row = book.rows.at(-1);
  if (!row) return el("span");
  const step =
    row.rise_mm === null
      ? row.sight === "first"
        ? "the book begins here"
        : "back to the change point"
      : `${row.rise_mm < 0 ? "falls" : "rises"} ${plain(Math.abs(row.rise_mm))} mm`;
  return el(
    "p",
    { class: "reduced" },
    el("b", { text: `${row.point}: ${row.level_mm === null ? "level not known" : level(row.level_mm)}` }),
    ` ${step}, set-up ${book.setups}`,
  );
}

/** @param {Here} here @param {NonNullable<ReturnType<typeof reduced>["closing"]>} closing @param {number} setups */
function closingLine(here, closing, setups) {
  const figure = here.view?.misclosure_per_setup,
    { point, off_mm: off } = closing,
    max_mm = figure ? misclosureLimit(figure.value, setups) : null,
    good = max_mm !== null && Math.abs(off) <= max_mm;
  const words =
    max_mm === null
      ? `Closes ${plain(Math.abs(off))} mm ${off < 0 ? "low" : "high"} on ${point}. The limit comes with the plan.`
      : good
        ? `✓ Closes within ${plain(Math.abs(off))} mm on ${point}; ${plain(max_mm, 1)} mm is allowed.`
        : `✕ Closes ${plain(Math.abs(off))} mm ${off < 0 ? "low" : "high"} on ${point}; ${plain(max_mm, 1)} mm ` +
          `is allowed. Read the change points and ${point} again.`;
  const sum = figure
    ? el(
        "details",
        {},
        el("summary", { text: "The sum" }),
        el("p", {
          class: "sum-line",
          text:
            `level found ${level(closing.level_mm)} less ${level(closing.known_mm)} known = ${plain(off)} mm; ` +
            `limit ${plain(figure.value)} × √${setups} = ${plain(max_mm ?? 0, 1)} mm`,
        }),
        source(figure, here.sources ?? {}),
      )
    : null;
  return el(
    "div",
    { class: `finding ${max_mm !== null && !good ? "stop" : "note"}`, role: "alert" },
    el("p", { text: words }),
    sum,
  );
}

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
      const typed = meant(ui.typed ?? "");
      lies.textContent =
        typed !== null && ui.way && known !== undefined
          ? `${point} lies at ${level(datumLevel(known, ui.way, Math.round(Math.abs(typed))))}`
          : "";
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

const ANSWERS = /** @type {[string, string][]} */ ([
  ["value", "I saw it"],
  ["none", "None"],
  ["could_not_see", "Could not see"],
]);

/** @param {Here} here */
function walkPanel(here) {
  const given = new Map();
  for (const one of here.doc.site?.walk_round ?? []) given.set(one.question, one);
  for (const one of standing(here.queue.list, "walk_round")) given.set(one.question, one);
  const all = [...new Set([...given.keys(), ...QUESTIONS])],
    left = all.filter((question) => !given.has(question));
  const question = here.ui.question && all.includes(here.ui.question) ? here.ui.question : (left[0] ?? all[0]),
    now = given.get(question);
  const index = all.indexOf(question),
    answer = here.ui.answer || now?.answer || "";
  const seen = el("textarea", {
    maxlength: "500",
    "aria-label": "What was seen",
    placeholder: "What was seen, in a few words",
  });
  seen.value = here.ui.seen ?? now?.value ?? "";
  seen.addEventListener("input", () => {
    here.ui.seen = seen.value;
    here.remember();
  });
  const go = (/** @type {string} */ to) => set(here, { question: to, answer: "", seen: undefined });
  return [
    glance(all.length - left.length, all.length, "answers", ""),
    el("p", { class: "question", text: question }),
    now
      ? el("p", {
          class: "quiet",
          text: `Answered: ${
            { value: now.value, none: "none", could_not_see: "could not see; it is taken as given until seen" }[
              /** @type {"none"} */ (now.answer)
            ]
          }`,
        })
      : el("span"),
    words("Answer", ANSWERS, answer, (value) => set(here, { answer: value })),
    answer === "value" ? seen : el("span"),
    el("button", {
      type: "button",
      class: "main pad-keep",
      text: "Save answer",
      disabled: !answer,
      on: {
        click: async () => {
          if (answer === "value" && !seen.value.trim())
            return here.say("Write what was seen, or choose none or could not see.");
          const entry = { question, answer, ...(answer === "value" ? { value: seen.value.trim() } : {}) };
          if (await keep(here, "walk_round", entry))
            go(left.find((one) => one !== question) ?? all[(index + 1) % all.length]);
        },
      },
    }),
    el(
      "div",
      { class: "row" },
      el("button", {
        type: "button",
        text: "◂ Before",
        on: { click: () => go(all[(index + all.length - 1) % all.length]) },
      }),
      el("button", { type: "button", text: "Next ▸", on: { click: () => go(all[(index + 1) % all.length]) } }),
    ),
  ];
}
