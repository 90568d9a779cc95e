// @ts-check
import { el } from "../../lib/dom.js";
import { form, group, items } from "../form/form.js";
import { following } from "../form/following.js";
import { rows } from "../form/rows.js";
import { pointNames } from "../form/schema.js";
import { fact, facts, table } from "../../lib/results.js";
import { level, metres, mm, plain } from "../../lib/words.js";
import { beginning } from "./begin.js";
import { fromFile } from "./from-file.js";
import { fromSite } from "./from-site.js";

/** @param {Planned} state @param {any} say */
export function results(state, say) {
  const { survey } = state.plan,
    tapes = survey.tapes,
    books = survey.level_books;
  /** @type {Node[]} */ const boxes = [fact("Points", String(survey.points.length))];
  if (tapes)
    boxes.push(
      fact("Spare tapes", String(tapes.spare)),
      fact("Misfit against expected", tapes.ratio === null ? "nothing to compare" : plain(tapes.ratio, 2)),
    );
  for (const book of books)
    boxes.push(
      fact(
        `${book.name}: misclosure`,
        book.misclosure_mm === null
          ? "not closed"
          : `${plain(book.misclosure_mm)} mm, ` +
              `${book.limit_mm === null ? "no limit" : `limit ${plain(book.limit_mm, 1)} mm`}`,
        book.working,
        state.sources,
      ),
    );
  for (const one of tapes?.suspects ?? [])
    boxes.push(
      fact(
        "Tape in doubt",
        one.slip_mm === null
          ? one.alike.map((/** @type {string[]} */ ends) => ends.join("–")).join(" or ")
          : `${one.start}–${one.end}, ${plain(Math.abs(one.slip_mm))} mm too ${one.slip_mm > 0 ? "long" : "short"}`,
      ),
    );
  const together = survey.levels_together;
  if (together)
    boxes.push(
      fact("Spare level readings", String(together.spare)),
      fact(
        "Misfit of levels against expected",
        together.ratio === null ? "nothing to compare" : plain(together.ratio, 2),
      ),
      fact("Readings that nothing checks", String(together.readings.filter((one) => one.standardised === null).length)),
    );
  if (tapes?.next_tape)
    boxes.push(
      fact(
        "Next tape, if one more",
        `${tapes.next_tape.start}–${tapes.next_tape.end}, about ${metres(tapes.next_tape.length_mm)}`,
      ),
    );
  /** @type {Node[]} */ const out = [facts(...boxes)];
  if (tapes?.residuals.length) {
    const worst = [...tapes.residuals].sort((a, b) => Math.abs(b.standardised ?? 0) - Math.abs(a.standardised ?? 0));
    out.push(
      group("Tapes as adjusted", [
        table(
          [
            { head: "Tape" },
            { head: "Read", number: true },
            { head: "Adjusted", number: true },
            { head: "Off by", number: true },
            { head: "Checked by others", number: true },
          ],
          worst.map((tape) => [
            `${tape.start}–${tape.end}`,
            metres(tape.measured_mm),
            metres(tape.adjusted_mm),
            `${plain(tape.residual_mm, 1)} mm`,
            `${plain(100 * tape.redundancy)} %`,
          ]),
          "Tapes as adjusted",
        ),
      ]),
    );
  }
  for (const book of books)
    out.push(
      group(`${book.name} as reduced`, [
        table(
          [
            { head: "Point" },
            { head: "Rise", number: true },
            { head: "Fall", number: true },
            { head: "Level", number: true },
            { head: "Correction", number: true },
          ],
          book.rows.map((row) => [
            row.point,
            row.rise_mm === null ? "" : mm(row.rise_mm),
            row.fall_mm === null ? "" : mm(row.fall_mm),
            level(row.adjusted_mm),
            mm(row.correction_mm),
          ]),
          "Level book",
        ),
      ]),
    );
  if (together)
    out.push(
      group("Levels adjusted together", [
        table(
          [
            { head: "Reading" },
            { head: "Off by", number: true },
            { head: "Checked by others", number: true },
            { head: "" },
          ],
          together.readings
            .filter((one) => one.standardised !== null)
            .sort((a, b) => Math.abs(b.standardised ?? 0) - Math.abs(a.standardised ?? 0))
            .map((one) => [
              one.words,
              `${plain(one.residual_mm, 1)} mm`,
              `${plain(100 * one.redundancy)} %`,
              one.suspect ? "■ in doubt" : "",
            ]),
          "Levels adjusted together",
        ),
      ]),
    );
  if (survey.assumptions?.length)
    out.push(
      group("Taken as given until seen", [el("ul", {}, ...survey.assumptions.map((one) => el("li", { text: one })))]),
    );
  out.push(...fromSite(state, say));
  return out;
}

/** @param {JobState} state */
export function inputs(state) {
  return [
    following(
      state,
      (doc) => (doc.areas ?? []).length > 0,
      () => beginning(state),
    ),
    group("Who and where", [form(state, ["identity"])], { open: state.doc.identity?.title === "New job" }),
    group("Points by coordinates", [
      rows(state, ["measurements", "points"], ["name", "x_mm", "y_mm", "level_mm"], {
        title: "Points",
        add: "point",
        start: () => ({ name: "" }),
      }),
      fromFile(state),
    ]),
    group("Tapes", [
      form(state, ["measurements", "tape_plan"], { only: ["base_from", "base_to", "bearing_deg"] }),
      ...tapeRows(state),
    ]),
    group("Offsets from a line", [
      rows(state, ["measurements", "offsets"], ["name", "line_from", "line_to", "along_mm", "offset_mm"], {
        title: "Offsets",
        add: "offset",
        start: (/** @type {JobDocument} */ doc) => ({ name: "", line_from: first(doc), line_to: second(doc) }),
      }),
    ]),
    group("Levels", [
      form(state, ["measurements"], { only: ["datum"] }),
      rows(state, ["measurements", "benchmarks"], ["point", "level_mm"], {
        title: "Known levels",
        add: "known level",
        start: (/** @type {JobDocument} */ doc) => ({ point: first(doc) }),
      }),
      following(
        state,
        (doc) => (doc.measurements.level_books ?? []).map((book) => book.name),
        () => books(state),
      ),
      items(state, ["measurements", "level_books"], {
        add: "level book",
        start: (/** @type {JobDocument} */ doc) => ({
          name: `Visit ${(doc.measurements.level_books?.length ?? 0) + 1}`,
          rows: [{ point: first(doc) }],
        }),
        only: ["name", "length_m"],
        names: { "": "Level books" },
        then: () => firstReading(state.doc.measurements.level_books?.length ?? 0),
      }),
      rows(state, ["measurements", "heights_over"], ["point", "over", "higher_mm", "by"], {
        title: "Lower or higher than another point",
        add: "height",
        start: (/** @type {JobDocument} */ doc) => ({ point: second(doc), over: first(doc) }),
      }),
      form(state, ["measurements"], { only: ["misclosure_rule", "levels_together"] }),
      form(state, ["measurements"], { only: ["ground_points"] }),
      items(state, ["measurements", "break_lines"], { add: "break line", names: { "": "Where the ground breaks" } }),
      items(state, ["measurements", "ground_gaps"], { add: "gap", names: { "": "Where there is no ground" } }),
    ]),
    group("Walls, doors, air bricks", [
      items(state, ["site", "walls"], {
        start: (/** @type {JobDocument} */ doc) => ({
          name: `Wall ${(doc.site?.walls?.length ?? 0) + 1}`,
          start: first(doc),
          end: second(doc),
          kind: "house",
          dpc_level_mm: null,
        }),
      }),
    ]),
    group(
      "Covers, posts, trees",
      ["covers", "obstacles", "trees"].map((name) => items(state, ["site", name])),
    ),
    group(
      "Boundaries, joins, services",
      ["boundaries", "tie_ins", "services"].map((name) => items(state, ["site", name])),
    ),
    group("Walk round the house", [
      items(state, ["site", "walk_round"], { names: { "": "Questions" }, add: "question" }),
    ]),
  ];
}

/** @param {JobDocument} doc */
const first = (doc) => pointNames(doc)[0] ?? "A";
/** @param {JobDocument} doc */
const second = (doc) => pointNames(doc)[1] ?? "B";

/** A line for one more tape, from where the last one ended; the first one is the base. @param {any} doc */
function nextTape(doc) {
  const last = doc.measurements.tape_plan?.tapes?.at(-1);
  if (last) return { start: last.end || last.start, end: "" };
  const base = [first(doc), second(doc)],
    plan = (doc.measurements.tape_plan ??= {});
  plan.base_from ||= base[0];
  plan.base_to ||= base[1];
  return { start: plan.base_from, end: plan.base_to };
}

/** The tables of what fixes points by tapes; the first line begins the base. @param {JobState} state */
const tapeRows = (state) => [
  rows(state, ["measurements", "tape_plan", "tapes"], ["start", "end", "length_mm"], {
    title: "Tapes",
    add: "tape",
    start: nextTape,
  }),
  rows(state, ["measurements", "tape_plan", "sides"], ["point", "line_from", "line_to", "side"], {
    title: "On which side of a line",
    add: "side",
    start: (/** @type {JobDocument} */ doc) => ({
      point: first(doc),
      line_from: first(doc),
      line_to: second(doc),
      side: "left",
    }),
  }),
  rows(state, ["measurements", "tape_plan", "square_corners"], ["at", "first", "second"], {
    title: "Square corners",
    add: "corner",
    start: (/** @type {JobDocument} */ doc) => ({
      at: first(doc),
      first: second(doc),
      second: pointNames(doc)[2] ?? "C",
    }),
  }),
  rows(state, ["measurements", "tape_plan", "points_on_lines"], ["point", "line_from", "line_to"], {
    title: "Points on a line",
    add: "point on a line",
    start: (/** @type {JobDocument} */ doc) => ({
      point: pointNames(doc)[2] ?? "C",
      line_from: first(doc),
      line_to: second(doc),
    }),
  }),
];

/** Go to the first reading of a new book. @param {number} count */
function firstReading(count) {
  const path = `measurements.level_books.${count - 1}.rows.0.point`,
    box = /** @type {HTMLInputElement|null} */ (document.querySelector(`#panel [data-path="${path}"] input`));
  box?.focus();
  box?.select();
}

/** The rows of each level book. @param {JobState} state */
const books = (state) =>
  (state.doc.measurements.level_books ?? []).map((book, index) =>
    rows(
      state,
      ["measurements", "level_books", index, "rows"],
      ["point", "backsight_mm", "intermediate_mm", "foresight_mm"],
      { title: book.name, add: "reading", start: (/** @type {JobDocument} */ doc) => ({ point: first(doc) }) },
    ),
  );
