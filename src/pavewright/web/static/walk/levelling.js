// @ts-check
/** The staff: a book that begins on the datum, is reduced as it is read, and is kept as the job keeps it. */
import { el } from "../lib/dom.js";
import { level, metres, mm, plain } from "../lib/words.js";
import { misclosureLimit, reduced } from "../lib/kernel.js";
import { askedOfReading } from "../lib/plausible.js";
import { meant } from "../site/pad.js";
import { bookName } from "../site/staff.js";
import { askingPad } from "./asking.js";
import { asked, button } from "./parts.js";

/** @typedef {import("./frame.js").Walk} Walk */
/** @typedef {{point: string, reading_mm: number, sight: "first"|"next"|"moved"}} Sight */

const STAFF = { low_mm: 0, high_mm: 6000 }; // no staff of a paver is longer

/** The rows of a book as sights, in the order in which they were read. @param {any[]} rows @returns {Sight[]} */
export const sightsOf = (rows) =>
  rows.flatMap((row, index) => {
    /** @type {Sight[]} */ const found = [],
      read = row.intermediate_mm ?? row.foresight_mm;
    if (read !== undefined && read !== null) found.push({ point: row.point, reading_mm: read, sight: "next" });
    if (row.backsight_mm !== undefined && row.backsight_mm !== null)
      found.push({ point: row.point, reading_mm: row.backsight_mm, sight: index ? "moved" : "first" });
    return found;
  });

/**
 * Levels of all points that are known now: given, by benchmarks, and reduced from the books.
 * @param {any} doc @returns {Map<string, number>}
 */
export function levelsOf(doc) {
  const m = doc?.measurements ?? {},
    known = new Map();
  for (const point of m.points ?? []) if (typeof point.level_mm === "number") known.set(point.name, point.level_mm);
  for (const mark of m.benchmarks ?? []) known.set(mark.point, mark.level_mm);
  for (const book of m.level_books ?? [])
    for (const row of reduced(sightsOf(book.rows), known).rows)
      if (row.level_mm !== null && !known.has(row.point)) known.set(row.point, row.level_mm);
  return known;
}

/** The point of known level on which books begin. @param {any} doc @returns {string} */
export const datumOf = (doc) => doc.measurements?.benchmarks?.[0]?.point ?? "";

/** The book that this phone reads into. @param {Walk} here */
export const bookOf = (here) =>
  (here.doc.measurements?.level_books ?? []).find((/** @type {any} */ one) => one.name === here.shared.book) ?? null;

/**
 * The sights of the book, with one that is held until another follows it.
 * @param {Walk} here @returns {Sight[]}
 */
export function sights(here) {
  const { held } = here.shared;
  return [...sightsOf(bookOf(here)?.rows ?? []), ...(held ? [held] : [])];
}

/** The book as it stands, reduced. @param {Walk} here */
export function reducedBook(here) {
  const all = sights(here),
    fixed = new Map();
  for (const mark of here.doc.measurements?.benchmarks ?? []) fixed.set(mark.point, mark.level_mm);
  return { all, ...reduced(all, fixed) };
}

/**
 * Keep a reading. A backsight is held on this phone until a reading follows it: a book ends with a foresight.
 * @param {Walk} here
 * @param {string} point
 * @param {number} reading_mm
 * @param {(draft: any) => void} [more] what else the reading changes
 * @param {string} [on] what the staff stands on
 */
export async function keepSight(here, point, reading_mm, more = () => {}, on = "") {
  const book = bookOf(here),
    { held, moving } = here.shared;
  if ((!book && !held) || moving) {
    here.shared.held = { point, reading_mm, sight: moving ? "moved" : "first" };
    here.shared.moving = false;
    if (!book) here.shared.book = bookName("Staff");
    here.remember();
    return true;
  }
  const name = here.shared.book;
  const kept = await here.change(`Staff on ${point}: ${mm(reading_mm)}`, (draft) => {
    const books = ((draft.measurements ??= {}).level_books ??= []);
    let mine = books.find((/** @type {any} */ one) => one.name === name);
    if (!mine) books.push((mine = { name, rows: [] }));
    const last = mine.rows.at(-1);
    if (held?.sight === "first") mine.rows.push({ point: held.point, backsight_mm: held.reading_mm });
    else if (held) last.backsight_mm = held.reading_mm;
    else if (last && last.foresight_mm !== undefined && last.backsight_mm === undefined) {
      last.intermediate_mm = last.foresight_mm;
      delete last.foresight_mm;
    }
    mine.rows.push({ point, foresight_mm: reading_mm, ...(on ? { on } : {}) });
    more(draft);
  });
  if (kept) {
    here.shared.held = null;
    here.remember();
  }
  return kept;
}

/** A backsight that is held goes away. @param {Walk} here */
export function dropHeld(here) {
  here.shared.held = null;
  here.remember();
  here.redraw();
}

/**
 * The question of one staff reading; the datum, or the change point, is asked first where that is needed.
 * @param {Walk} here
 * @param {{
 *   point: string, words?: string, count?: string, beside?: Node, on?: string,
 *   more?: (draft: any) => void, after: () => void
 * }} wish
 * @returns {Node[]}
 */
export function staffPad(here, wish) {
  const datum = datumOf(here.doc);
  if (!datum)
    return [
      el("p", { class: "ask", text: "Staff readings begin on a point that stays: choose the datum first." }),
      button("Choose the datum", () => here.go("datum"), { class: "main tall" }),
    ];
  const book = reducedBook(here),
    last = book.all.at(-1),
    first = !book.all.length,
    back = Boolean(here.shared.moving),
    point = first ? datum : back ? /** @type {Sight} */ (last).point : wish.point;
  const question = first
    ? `Staff on ${datum}, the datum, first`
    : back
      ? `The instrument was moved: staff on ${point} again`
      : (wish.words ?? `Staff on ${point}`);
  const lies = el("p", { class: "reduced", role: "status" }),
    tellLies = () => {
      const typed = meant(here.ui.typed ?? "");
      lies.replaceChildren(...levelWords(book, point, typed));
    };
  tellLies();
  return [
    asked(question, wish.count),
    el("div", { class: "asked" }, lies, first ? datumKey(here, datum) : back ? null : (wish.beside ?? null)),
    ...askingPad(here, {
      label: question,
      keep: "Save reading",
      bounds: { ...STAFF, odd: (value_mm) => oddReading(value_mm, book.all) },
      typing: tellLies,
      onKeep: async (reading_mm) => {
        const plainly = first || back;
        if (
          !(await keepSight(
            here,
            point,
            Math.round(reading_mm),
            plainly ? undefined : wish.more,
            plainly ? "" : wish.on,
          ))
        )
          return;
        if (plainly) here.redraw();
        else wish.after();
      },
    }),
  ];
}

/** The level of the datum, which leads to where it is changed. @param {Walk} here @param {string} datum */
const datumKey = (here, datum) =>
  button(level(here.levels.get(datum) ?? 0), () => here.go("datum"), {
    class: "",
    "aria-label": `${datum} is at ${metres(here.levels.get(datum) ?? 0)}. Touch to change`,
  });

/** What a reading may be instead; empty where nothing is odd. @param {number} value_mm @param {Sight[]} all */
function oddReading(value_mm, all) {
  const asked = askedOfReading(
    value_mm,
    all.map((one) => one.reading_mm),
  );
  if (!asked) return [];
  return asked.millimetres === null ? [value_mm] : [value_mm, asked.millimetres];
}

/**
 * @param {ReturnType<typeof reducedBook>} book
 * @param {string} point
 * @param {number|null} typed
 * @returns {(Node|string)[]}
 */
function levelWords(book, point, typed) {
  const last = book.rows.at(-1);
  if (!last || last.level_mm === null) return ["A bigger reading is lower."];
  if (typed === null || book.all.at(-1)?.point === point)
    return [el("b", { text: `${last.point} ${level(last.level_mm)}` }), " last"];
  const rise = last.reading_mm - typed;
  return [
    el("b", { text: `${point} ${level(last.level_mm + rise)}` }),
    `, ${plain(Math.abs(rise))} mm ${rise < 0 ? "lower" : "higher"} than ${last.point}`,
  ];
}

/**
 * How a book closes by its last reading on the datum; null where it does not stand there.
 * @param {Walk} here
 * @returns {{good: boolean|null, words: string}|null} neither good nor bad where nobody knows what is allowed
 */
export function closes(here) {
  const book = reducedBook(here);
  if (!book.closing) return null;
  const { off_mm: off, point } = book.closing,
    figure = here.view?.misclosure_per_setup,
    max_mm = figure ? misclosureLimit(figure.value, book.setups) : null,
    way = `${plain(Math.abs(off))} mm ${off < 0 ? "low" : "high"}`;
  if (max_mm === null) return { good: null, words: `Closes ${way} on ${point}. What is allowed comes with the plan.` };
  return Math.abs(off) <= max_mm
    ? {
        good: true,
        words: `✓ Closes within ${plain(Math.abs(off))} mm on ${point}; ${plain(max_mm, 1)} mm is allowed.`,
      }
    : {
        good: false,
        words:
          `✕ Closes ${way} on ${point}; ${plain(max_mm, 1)} mm is allowed. ` +
          `Read ${point} and the change points again.`,
      };
}

/** @param {Walk} here @returns {Node[]} */
export function closing(here) {
  const found = closes(here);
  if (!found) return [];
  const kind = found.good ? "note" : found.good === null ? "check" : "stop";
  return [el("p", { class: `finding ${kind}`, role: "alert", text: found.words })];
}
