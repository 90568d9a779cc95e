// @ts-check
/** Staff readings, one by one, reduced as they are taken. */
import { el } from "../lib/dom.js";
import { level, mm, plain } from "../lib/words.js";
import { source } from "./sources.js";
import { misclosureLimit, reduced } from "../lib/kernel.js";
import { glance, keep, padFor, picker, set, undoLine } from "./parts.js";
import { closingLevels, datums, knownLevels, pointNames, spokenPoint, staffPoints, standing } from "./reading.js";
import { tag } from "../lib/writing.js";

/** @typedef {import("./parts.js").Here} Here */

/** @param {Here} here */
export function staffPanel(here) {
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

/** That there is no level to begin from, with the way to one. */
export function noDatum() {
  const [, jobs, job] = location.pathname.split("/"),
    words = "This job has no point of known level yet. Choose one that stays, such as a door step, as the datum";
  return el(
    "p",
    { class: "ask" },
    `${words}: `,
    jobs === "jobs" && job ? el("a", { href: `/jobs/${job}/walk#datum`, text: "the walk asks for it" }) : "on the walk",
    ".",
  );
}

/** A name that no other phone gives. @param {string} stem */
export function bookName(stem) {
  const now = new Date(),
    tail = Array.from(crypto.getRandomValues(new Uint8Array(2)), (byte) => byte.toString(16).padStart(2, "0")).join("");
  return (
    `${stem} ${now.toLocaleDateString(tag(), { day: "numeric", month: "short" })} ` +
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
        source(here, figure),
      )
    : null;
  return el(
    "div",
    { class: `finding ${max_mm !== null && !good ? "stop" : "note"}`, role: "alert" },
    el("p", { text: words }),
    sum,
  );
}
