// @ts-check
/** The shape, drawn with a finger: its size does not matter yet, tapes give it. */
import { el, svg } from "../../lib/dom.js";
import { words } from "../../site/parts.js";
import { pathOf } from "../../job/plan/paths.js";
import { corners, rectangle, squared } from "../outline.js";
import { freeName, pointsTaken } from "../places.js";
import { changeWish, cornerPanel, sideNames, sidePanel } from "./shape-change.js";
import { button, dragged } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "shape",
  name = "Shape",
  why = "The shape of what is to be paved. Its size comes from the tapes.",
  /** @type {("none"|"could_not_see")[]} */ answers = [];

const HOW = /** @type {[string, string][]} */ ([
  ["rectangle", "Rectangle"],
  ["corners", "Corners"],
  ["draw", "Draw"],
]);
const HINTS = /** @type {Record<string, string[]>} */ ({
  rectangle: ["Touch one corner, or stretch it.", "Touch the corner across."],
  corners: ["Touch one corner after another."],
  draw: ["Draw all round with one finger."],
});

/** @param {Walk} here */
export const state = (here) => ((here.doc.areas ?? []).length ? "done" : "open");

/** @param {Walk} here */
const drawing = (here) => state(here) === "open" || Boolean(here.ui.more);

/** @param {Walk} here @returns {import("../frame.js").SketchWish} */
export function sketch(here) {
  return drawing(here) ? drawWish(here) : changeWish(here);
}

// ---- drawing

/** @param {Walk} here @returns {import("../frame.js").SketchWish} */
function drawWish(here) {
  const { ui } = here,
    how = ui.how ?? "rectangle",
    line = ui.line ?? [];
  const hint = HINTS[how][Math.min(line.length, HINTS[how].length - 1)];
  if (how === "draw") return { hint, still: true, taker: (event, at) => follow(here, event, at) };
  return {
    hint,
    still: true,
    hand: line.length > 1 ? [svg("path", { d: pathOf(line, false), ...CHALK })] : [],
    marks: line.map((/** @type {number[]} */ at) => ({ at, words: "" })),
    taker: (event, at) => how === "rectangle" && !line.length && stretched(here, event, at),
    pick: (at) => {
      if (how === "rectangle" && line.length === 1) return made(here, rectangle(line[0], at));
      const first = line[0];
      if (line.length > 2 && Math.hypot(first[0] - at[0], first[1] - at[1]) < 24 / here.sheet.scale) return close(here);
      return here.set({ line: [...line, at] });
    },
  };
}

const CHALK = {
  fill: "none",
  stroke: "var(--act)",
  "stroke-width": 4,
  "vector-effect": "non-scaling-stroke",
  "stroke-linejoin": "round",
};

/**
 * A rectangle is stretched from one corner to the other in one go.
 * @param {Walk} here
 * @param {PointerEvent} event
 * @param {number[]} at
 */
function stretched(here, event, at) {
  const view = here.sheet,
    path = svg("path", CHALK);
  let last = at;
  view.hand.append(path);
  dragged(
    view,
    event,
    (to) => {
      last = to;
      path.setAttribute("d", pathOf(rectangle(at, to)));
    },
    (moved) => {
      path.remove();
      if (moved) made(here, rectangle(at, last));
    },
  );
  return true;
}

/**
 * The outline follows the finger and is closed where it is lifted.
 * @param {Walk} here
 * @param {PointerEvent} event
 * @param {number[]} at
 */
function follow(here, event, at) {
  const view = here.sheet,
    line = [at],
    path = svg("path", CHALK);
  view.hand.append(path);
  dragged(
    view,
    event,
    (/** @type {number[]} */ to) => {
      line.push(to);
      path.setAttribute("d", pathOf(line, false));
    },
    () => {
      path.remove();
      const ring = corners(line);
      if (ring.length >= 3) made(here, square(here) ? squared(ring) : ring);
      else here.say("That was too short: draw all the way round.");
    },
  );
  return true;
}

/** @param {Walk} here */
const square = (here) => here.ui.square !== false;

/** @param {Walk} here */
const close = (here) => made(here, square(here) ? squared(here.ui.line) : here.ui.line);

/**
 * Keep an outline: its points on the sketch, and an area that goes round them.
 * @param {Walk} here
 * @param {number[][]} ring
 */
async function made(here, ring) {
  const taken = pointsTaken(here.doc),
    names = ring.map(() => {
      const fresh = freeName(taken);
      taken.add(fresh);
      return fresh;
    });
  const kept = await here.change("Shape drawn", (draft) => {
    const m = (draft.measurements ??= {}),
      areas = (draft.areas ??= []);
    m.sketch = [...(m.sketch ?? []), ...ring.map(([x_mm, y_mm], index) => ({ name: names[index], x_mm, y_mm }))];
    areas.push({
      name: freeAreaName(areas),
      outline: names.map((point) => ({ point })),
      laying: { unit: null },
    });
  });
  if (kept) here.set({ line: [], more: false, corner: "", side: "" });
}

/** @param {any[]} areas */
const freeAreaName = (areas) =>
  areas.length
    ? freeName(
        areas.map((one) => one.name),
        "Area",
      )
    : "Patio";

// ---- the question

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const { ui } = here;
  if (drawing(here)) return drawPanel(here);
  if (ui.corner) return cornerPanel(here, ui.corner);
  const ends = ui.side ? sideNames(here, ui.side) : null;
  if (ends) return sidePanel(here, ends);
  return [
    el("p", { class: "question", text: "Is this the shape?" }),
    el("p", { class: "quiet", text: why }),
    button("Another area beside it", () => here.set({ more: true, line: [] })),
    button("Draw it again", () => again(here)),
  ];
}

/** @param {Walk} here */
function drawPanel(here) {
  const { ui } = here,
    how = ui.how ?? "rectangle",
    count = (ui.line ?? []).length;
  return [
    el("p", { class: "question", text: "What shape is it?" }),
    words("How it is drawn", HOW, how, (next) => here.set({ how: next, line: [] })),
    how === "rectangle"
      ? el("span")
      : words(
          "Which corners",
          [
            ["yes", "Square corners"],
            ["no", "As drawn"],
          ],
          square(here) ? "yes" : "no",
          (next) => here.set({ square: next === "yes" }),
        ),
    count > 2 ? button("Close the shape", () => close(here), { class: "main pad-keep" }) : el("span"),
    count ? button("↶ Last corner away", () => here.set({ line: ui.line.slice(0, -1) })) : el("span"),
    ui.more ? button("No other area", () => here.set({ more: false, line: [] })) : el("span"),
  ];
}

/** @param {Walk} here */
function again(here) {
  return here.change("Shape drawn again", (draft) => {
    const names = new Set(
      draft.areas.flatMap((/** @type {any} */ area) => area.outline.map((/** @type {any} */ one) => one.point)),
    );
    draft.areas = [];
    draft.measurements.sketch = (draft.measurements.sketch ?? []).filter(
      (/** @type {any} */ one) => !names.has(one.name),
    );
  });
}
