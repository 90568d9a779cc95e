// @ts-check
/** The slab as one stands over it: its corners as buttons, where to tap, what to hold, and what lies beside it. */
import { el, svg } from "../../lib/dom.js";
import { small } from "./keys.js";
import { stands } from "./told.js";
import { LETTERS } from "./units.js";

/** @typedef {plan.UnitToLay} Unit */

const WIDE = 176,
  HIGH = 150,
  EDGE = 30;

/** Where the corners of a unit stand in the picture, its first side level below. @param {Unit} unit */
function placed({ corners }) {
  const [x0, y0] = corners[0],
    [x1, y1] = corners[1],
    length = Math.hypot(x1 - x0, y1 - y0),
    [ux, uy] = [(x1 - x0) / length, (y1 - y0) / length];
  const turned = (/** @type {number[]} */ [x, y]) => [(x - x0) * ux + (y - y0) * uy, (y - y0) * ux - (x - x0) * uy],
    all = corners.map(turned),
    low = [0, 1].map((axis) => Math.min(...all.map((at) => at[axis]))),
    high = [0, 1].map((axis) => Math.max(...all.map((at) => at[axis]))),
    scale = Math.min((WIDE - 2 * EDGE) / (high[0] - low[0]), (HIGH - 2 * EDGE) / (high[1] - low[1]));
  return (/** @type {number[]} */ at) => {
    const [x, y] = turned(at);
    return [WIDE / 2 + (x - (low[0] + high[0]) / 2) * scale, HIGH / 2 - (y - (low[1] + high[1]) / 2) * scale];
  };
}

/**
 * @param {Unit} unit
 * @param {{
 *   over: (number|null)[], active: number|null, tap: import("./slab.js").Tap|null, wanted: (corner: number) => string,
 *   beside: [number, number][], pick: (corner: number) => void
 * }} wishes beside are numbers of pieces that lie, each with the side of this unit that it lies at
 */
export function slabPicture(unit, wishes) {
  const at = placed(unit),
    ring = unit.corners.map(at),
    many = ring.length;
  const middle = [0, 1].map((axis) => ring.reduce((sum, each) => sum + each[axis], 0) / many),
    out = (/** @type {number[]} */ place, /** @type {number} */ by) => {
      const [x, y] = [place[0] - middle[0], place[1] - middle[1]],
        far = Math.hypot(x, y) || 1;
      return [place[0] + (x / far) * by, place[1] + (y / far) * by];
    };
  const drawing = svg(
    "svg",
    { viewBox: `0 0 ${WIDE} ${HIGH}`, class: "lay-drawing", role: "img", "aria-label": spoken(unit, wishes) },
    svg("polygon", { points: ring.join(" "), class: "lay-slab" }),
  );
  for (const [piece, side] of wishes.beside) {
    const [x, y] = out(
      [0, 1].map((axis) => (ring[side][axis] + ring[(side + 1) % many][axis]) / 2),
      15,
    );
    drawing.append(svg("text", { x, y: y + 5, class: "lay-beside" }, String(piece)));
  }
  ring.forEach((corner, index) => {
    const [x, y] = out(corner, 15);
    drawing.append(svg("text", { x, y: y + 7, class: "lay-letter" }, LETTERS[index]));
  });
  for (const corner of wishes.tap?.held ?? []) {
    const [x, y] = out(ring[corner], -14);
    drawing.append(svg("rect", { x: x - 8, y: y - 8, width: 16, height: 16, class: "lay-held" }));
  }
  if (wishes.tap) {
    const [x, y] = at(wishes.tap.at);
    drawing.append(
      svg("circle", { cx: x, cy: y, r: 12, class: "lay-tap" }),
      svg("path", { d: `M${x - 7} ${y}h14M${x} ${y - 7}v14`, class: "lay-tap" }),
    );
  }
  const order = many > 3 ? [3, 2, 0, 1] : [2, 0, 1]; // as they stand in the picture, the far ones above
  return el(
    "div",
    { class: "lay-picture" },
    drawing,
    el(
      "div",
      { class: many > 3 ? "lay-corners" : "lay-corners three" },
      ...order.map((corner) => button(corner, wishes)),
    ),
  );
}

/** @param {number} corner @param {Parameters<typeof slabPicture>[1]} wishes */
function button(corner, wishes) {
  const over = wishes.over[corner],
    down = wishes.tap?.down[corner] ?? 0;
  return el(
    "button",
    { type: "button", "aria-pressed": String(corner === wishes.active), on: { click: () => wishes.pick(corner) } },
    el("b", { text: LETTERS[corner] }),
    el("span", { text: over === null ? wishes.wanted(corner) : stands(over, false) }),
    down >= 0.25 ? el("span", { class: "lay-down", text: `↓ ${small(down, false)}` }) : null,
  );
}

/** @param {Unit} unit @param {Parameters<typeof slabPicture>[1]} wishes */
function spoken(unit, { over, tap }) {
  const corners = over.map((each, corner) => `${LETTERS[corner]} ${each === null ? "not read" : stands(each)}`);
  const marks = tap ? ` A cross marks where to tap${tap.held.length ? ", squares the corners to hold" : ""}.` : "";
  return `Piece ${unit.piece}. ${corners.join(", ")}.${marks}`;
}
