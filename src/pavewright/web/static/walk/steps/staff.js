// @ts-check
/** The staff, in the order of a walk: corners and sides, the middle, what is read besides, and the datum again. */
import { el } from "../../lib/dom.js";
import { words } from "../../site/parts.js";
import { closing, datumOf, onGround, reducedBook, sights, staffPad } from "../levelling.js";
import { beginPlacing, placing, placingPanel, placingSketch } from "../placing.js";
import { sidesOf } from "../places.js";
import { button } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */
/** @typedef {{name: string, at: number[]|null, ground: boolean}} Stop where the staff is put next */

export const key = "staff",
  name = "Staff",
  why = "Heights of the ground now. A bigger reading is lower.",
  question = "How high is the ground?",
  /** @type {("none"|"could_not_see")[]} */ answers = ["could_not_see"];

const LONG_SIDE_MM = 3000, // a side longer than this is read in its middle too
  ON = /** @type {[string, string][]} */ ([
    ["ground", "On the ground"],
    ["paving", "On paving that stays"],
    ["other", "On something else"],
  ]);

/** Points in the order in which a man walks round them. @param {Walk} here @returns {Stop[]} */
export function stops(here) {
  const { at } = here.places,
    /** @type {Stop[]} */ found = [],
    walls = here.doc.site?.walls ?? [];
  for (const side of sidesOf(here.doc)) {
    const from = at.get(side.from),
      to = at.get(side.to);
    found.push({ name: side.from, at: from ?? null, ground: true });
    if (!from || !to || Math.hypot(to[0] - from[0], to[1] - from[1]) < LONG_SIDE_MM) continue;
    if (walls.some((/** @type {any} */ wall) => wall.start === side.from && wall.end === side.to)) continue;
    found.push({ name: `${side.from}–${side.to}`, at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], ground: true });
  }
  for (const area of here.doc.areas ?? []) {
    const ring = area.outline.map((/** @type {any} */ one) => at.get(one.point)).filter(Boolean);
    if (ring.length < 3) continue;
    const middle = [0, 1].map(
      (axis) =>
        ring.reduce((/** @type {number} */ sum, /** @type {number[]} */ one) => sum + one[axis], 0) / ring.length,
    );
    found.push({ name: `Middle of ${area.name}`, at: middle, ground: true });
  }
  for (const one of [...(here.doc.site?.gullies ?? []), ...(here.doc.site?.covers ?? [])])
    found.push({ name: one.point, at: at.get(one.point) ?? null, ground: false });
  return found.filter((one, index) => found.findIndex((each) => each.name === one.name) === index);
}

/** @param {Walk} here */
function left(here) {
  const skipped = here.ui.skipped ?? [],
    held = new Set(sights(here).map((one) => one.point));
  return stops(here).filter((one) => !here.levels.has(one.name) && !held.has(one.name) && !skipped.includes(one.name));
}

/** @param {Walk} here */
export function state(here) {
  const read = (here.doc.measurements?.level_books ?? []).length > 0;
  return read && !left(here).length && !here.shared.held ? "done" : "open";
}

const PLACING = /** @type {Omit<import("../placing.js").PlaceWish, "done">} */ ({
  stem: "G",
  words: "Touch where the staff stands.",
});

/** @param {Walk} here @returns {import("../placing.js").PlaceWish} */
const placeWish = (here) => ({ ...PLACING, done: (point) => here.set({ point, typed: "" }) });

/** What is read next: chosen, next of the walk, or the datum again. @param {Walk} here @returns {Stop} */
function asked(here) {
  const chosen = here.ui.point,
    all = stops(here);
  if (chosen) return all.find((one) => one.name === chosen) ?? { name: chosen, at: null, ground: true };
  return left(here)[0] ?? { name: datumOf(here.doc), at: null, ground: false };
}

/** @param {Walk} here @returns {import("../frame.js").SketchWish} */
export function sketch(here) {
  if (placing(here)) return placingSketch(here, placeWish(here));
  const stop = asked(here);
  return {
    point: stop.name,
    marks: stop.at && !here.places.at.has(stop.name) ? [{ at: stop.at, words: stop.name }] : [],
    pick: (_at, near) => near?.kind === "point" && here.set({ point: near.name, typed: "" }),
  };
}

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  if (placing(here)) return placingPanel(here, placeWish(here));
  const datum = datumOf(here.doc),
    stop = asked(here),
    closes = stop.name === datum,
    rest = left(here).length,
    on = here.ui.on ?? (stop.ground ? "ground" : "other");
  const begun = sights(here).length > 0;
  return [
    ...(closes ? closing(here) : []),
    ...staffPad(here, {
      point: stop.name,
      words: closes ? `Staff on ${datum} again: it closes the readings` : `Staff on ${stop.name}`,
      more: (draft) => booked(here, draft, stop, closes ? "other" : on),
      after: () => here.set({ point: "", on: undefined, typed: "" }),
    }),
    ...(begun && !closes ? [words("What the staff stands on", ON, on, (next) => here.set({ on: next }))] : []),
    begun
      ? el("p", { class: "glance", role: "status", text: rest ? `${rest} more on this walk` : "Every point is read." })
      : el("span"),
    ...(begun ? others(here, stop, closes) : []),
  ];
}

/** @param {Walk} here @param {Stop} stop @param {boolean} closes */
function others(here, stop, closes) {
  const book = reducedBook(here),
    last = book.all.at(-1);
  return [
    button("A new point", () => beginPlacing(here)),
    closes
      ? el("span")
      : button(`Skip ${stop.name}`, () =>
          here.set({ skipped: [...(here.ui.skipped ?? []), stop.name], point: "", typed: "" }),
        ),
    last?.sight === "next" || here.shared.moving
      ? button(here.shared.moving ? "It was not moved" : "I moved the instrument", () => {
          here.shared.moving = !here.shared.moving;
          here.set({ typed: "" });
        })
      : el("span"),
    closes
      ? el("span")
      : button(`Close on ${datumOf(here.doc)} now`, () => here.set({ point: datumOf(here.doc), typed: "" })),
  ];
}

/** What a reading adds beside itself: its place, and that it is ground. @param {Walk} here @param {any} draft @param {Stop} stop @param {string} on */
function booked(here, draft, stop, on) {
  const m = draft.measurements;
  if (on === "ground") onGround(draft, stop.name);
  else if (on === "paving")
    m.level_books.find((/** @type {any} */ one) => one.name === here.shared.book).rows.at(-1).note =
      "on paving that stays";
  if (stop.at && !here.places.at.has(stop.name)) {
    const [x_mm, y_mm] = here.places.toSketch(stop.at).map(Math.round);
    (m.sketch ??= []).push({ name: stop.name, x_mm, y_mm });
  }
}
