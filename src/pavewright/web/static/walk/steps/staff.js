// @ts-check
/** The staff, in the order of a walk: corners and sides, the middle, what is read besides, and the datum again. */
import { el } from "../../lib/dom.js";
import { spoken } from "../../lib/words.js";
import { ASKED } from "../../lib/walk-questions.js";
import { closing, datumOf, reducedBook, sights, staffPad } from "../levelling.js";
import { beginPlacing, placing, placingPanel, placingSketch, putByEye } from "../placing.js";
import { sidesOf } from "../places.js";
import { button } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */
/** @typedef {{name: string, at: number[]|null, on: string}} Stop where the staff is put next */

export const key = "staff",
  name = "Staff",
  why = "Heights of the ground now. A bigger reading is lower.",
  question = ASKED.staff,
  /** @type {("none"|"could_not_see")[]} */ answers = [];

const LONG_SIDE_MM = 3000, // a side longer than this is read in its middle too
  ON = /** @type {[string, string][]} */ ([
    ["ground", "Ground"],
    ["paving", "Paving"],
    ["edge", "An edge"],
    ["wall_top", "Wall top"],
    ["mark", "A mark"],
  ]);

/** Points in the order in which a man walks round them. @param {Walk} here @returns {Stop[]} */
export function stops(here) {
  const { at } = here.places,
    /** @type {Stop[]} */ found = [],
    walls = here.doc.site?.walls ?? [];
  for (const side of sidesOf(here.doc)) {
    const from = at.get(side.from),
      to = at.get(side.to);
    found.push({ name: side.from, at: from ?? null, on: "ground" });
    if (!from || !to || Math.hypot(to[0] - from[0], to[1] - from[1]) < LONG_SIDE_MM) continue;
    if (walls.some((/** @type {any} */ wall) => wall.start === side.from && wall.end === side.to)) continue;
    found.push({ name: `${side.from}–${side.to}`, at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], on: "ground" });
  }
  for (const area of here.doc.areas ?? []) {
    const ring = area.outline.map((/** @type {any} */ one) => at.get(one.point)).filter(Boolean);
    if (ring.length < 3) continue;
    const middle = [0, 1].map(
      (axis) =>
        ring.reduce((/** @type {number} */ sum, /** @type {number[]} */ one) => sum + one[axis], 0) / ring.length,
    );
    found.push({ name: here.doc.areas.length > 1 ? `Middle of ${area.name}` : "Middle", at: middle, on: "ground" });
  }
  for (const one of here.doc.site?.gullies ?? [])
    found.push({ name: one.point, at: at.get(one.point) ?? null, on: "gully" });
  for (const one of here.doc.site?.covers ?? [])
    found.push({ name: one.point, at: at.get(one.point) ?? null, on: "cover" });
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
  if (chosen) return all.find((one) => one.name === chosen) ?? { name: chosen, at: null, on: "ground" };
  return left(here)[0] ?? { name: datumOf(here.doc), at: null, on: "mark" };
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
    on = here.ui.on ?? stop.on,
    begun = sights(here).length > 0;
  if (isClosed(here)) return closed(here);
  return [
    ...(here.ui.point ? [] : closing(here)),
    ...staffPad(here, {
      point: stop.name,
      count: begun && rest ? `${rest} to go` : "",
      words: closes ? `Staff on ${datum} again, to close` : `Staff on ${stop.name}`,
      beside: closes ? undefined : onKey(here, on),
      on: closes ? "mark" : on,
      more: (draft) => {
        if (stop.at && !here.places.at.has(stop.name)) putByEye(here, draft, stop.name, stop.at);
      },
      after: () => here.set({ point: "", on: undefined, typed: "" }),
    }),
  ];
}

/** Whether nothing is left to read, and the last reading stood on the datum. @param {Walk} here */
const isClosed = (here) =>
  !here.ui.point &&
  !left(here).length &&
  !here.shared.moving &&
  sights(here).length > 1 &&
  Boolean(reducedBook(here).closing);

/** Every point is read, and how the readings close. @param {Walk} here @returns {Node[]} */
const closed = (here) => [
  el("p", { class: "question", text: "Every point is read." }),
  ...closing(here),
  button("Read another point", () => beginPlacing(here)),
];

/** What the staff stands on, changed by touching it. @param {Walk} here @param {string} on */
function onKey(here, on) {
  const at = ON.findIndex(([each]) => each === on),
    [next] = ON[(at + 1) % ON.length],
    word = at < 0 ? spoken(on) : ON[at][1];
  return button(`On: ${word}`, () => here.set({ on: next }), {
    class: "",
    "aria-label": `The staff stands on: ${word}. Touch to change`,
  });
}

/** What else may happen on the way. @param {Walk} here @returns {Node[]} */
export function foot(here) {
  if (!sights(here).length || placing(here) || isClosed(here)) return [];
  const last = reducedBook(here).all.at(-1),
    stop = asked(here),
    closes = stop.name === datumOf(here.doc) || state(here) === "done",
    { moving } = here.shared;
  const key = (/** @type {string} */ text, /** @type {() => void} */ click, label = text) =>
    button(text, click, { class: "", "aria-label": label });
  const skip = () => here.set({ skipped: [...(here.ui.skipped ?? []), stop.name], point: "", typed: "" });
  const move = () => {
    here.shared.moving = !moving;
    here.set({ typed: "" });
  };
  return [
    key("New point", () => beginPlacing(here)),
    ...(closes ? [] : [key("Leave out", skip, `Leave out ${stop.name}`)]),
    ...(moving || last?.sight === "next"
      ? [key(moving ? "Not moved" : "Moved", move, moving ? "The instrument was not moved" : "I moved the instrument")]
      : []),
    ...(closes
      ? []
      : [key("Close", () => here.set({ point: datumOf(here.doc), typed: "" }), "Read the datum again now")]),
  ];
}
