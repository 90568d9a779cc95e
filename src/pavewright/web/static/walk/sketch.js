// @ts-check
/** The sketch above the question: the shape as it is known now, with everything that was seen on the way. */
import { el, say, svg } from "../lib/dom.js";
import { level } from "../lib/words.js";
import { toStretch } from "../lib/kernel.js";
import { outlineOf } from "../job/plan/outline.js";
import { pathOf } from "../job/plan/paths.js";
import { PlanView } from "../job/plan/view.js";
import { cornersOf, sidesOf } from "./places.js";
import { sideLine, sideSign, sideWords, sign, text } from "./signs.js";
import { quietPoints, seenMarks } from "./seen-marks.js";

/** @typedef {import("./frame.js").Walk} Walk @typedef {import("./frame.js").SketchWish} SketchWish */

const STILL_PX = 12, // a finger that moved farther was not a tap
  NEAR_PX = 26, // as near as a gloved finger means a point or a side
  WIDE = 0.3, // open ground that is shown round the shape while a place on it may be touched
  RIM_PX = 44, // room for words at the sides,
  OVER_PX = 40, // above,
  UNDER_PX = 84, // and over the keys of the sketch
  EMPTY_MM = 5500; // half of the width that an empty sketch shows

/** @param {Walk} here @param {HTMLElement} holder */
export function sketchOf(here, holder) {
  const view = new PlanView(
      holder,
      "Sketch. Arrow keys with Shift move it, plus and minus zoom, Enter takes the middle.",
    ),
    hint = el("p", { class: "sketch-hint", role: "status" });
  holder.append(
    hint,
    el("div", { class: "zoom" }, zoomKey("+", "Nearer", 1.4), zoomKey("−", "Farther", 0.7), wholeKey()),
  );
  /** @type {SketchWish} */ let wish = {};
  let moved = false,
    seen = "";

  function zoomKey(/** @type {string} */ face, /** @type {string} */ label, /** @type {number} */ factor) {
    return el("button", {
      type: "button",
      text: face,
      "aria-label": label,
      on: { click: () => free(() => view.zoom(factor)) },
    });
  }
  function wholeKey() {
    return el("button", { type: "button", text: "▣", "aria-label": "Show all", on: { click: () => fit(true) } });
  }
  const free = (/** @type {() => void} */ act) => {
    moved = true;
    act();
  };
  /** Show everything, unless somebody has moved the sketch himself. */
  const fit = (force = false) => {
    if (!holder.clientWidth || (moved && !force)) return;
    moved = false;
    const { at } = here.places,
      rings = (here.doc?.areas ?? []).flatMap((/** @type {any} */ area) => outlineOf(area.outline, at)),
      all = [...at.values(), ...rings];
    if (!all.length) all.push([-EMPTY_MM, -EMPTY_MM * 0.7], [EMPTY_MM, EMPTY_MM * 0.7]);
    const [xs, ys] = [0, 1].map((axis) => all.map((at) => at[axis])),
      [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)],
      round = wish.wide ? WIDE * Math.max(right - left, high - low) : 0,
      { width, height } = view.size,
      over = OVER_PX + (hint.hidden ? 0 : hint.offsetHeight - 10);
    view.scale = Math.min(
      (width - 2 * RIM_PX) / (right - left + 2 * round || 1),
      (height - over - UNDER_PX) / (high - low + 2 * round || 1),
    );
    view.x = (left + right) / 2;
    view.y = (low + high) / 2 - (UNDER_PX - over) / 2 / view.scale;
    view.place();
  };
  new ResizeObserver(() => fit()).observe(holder);
  view.addEventListener("fit", () => fit(true));
  view.taker = (event, at) => {
    const taken = Boolean(wish.taker?.(event, at));
    if (taken) hint.hidden = true; // nothing stands over what a finger draws
    return taken;
  };
  tapped(view, (at) => wish.pick?.(at, nearest(here, view, at)));

  /** @param {SketchWish} next */
  const show = (next) => {
    const widened = Boolean(next.wide) !== Boolean(wish.wide) || Boolean(next.hint) !== Boolean(wish.hint);
    wish = next;
    document.body.classList.toggle("wide-sketch", Boolean(next.wide)); // room for a finger
    holder.classList.toggle("picking", Boolean(next.pick || next.taker));
    say(hint, next.hint ?? "");
    hint.hidden = !next.hint;
    for (const group of [view.ground, view.backSigns, view.over, view.hand, view.signs]) group.replaceChildren();
    draw(here, view, next);
    const now = JSON.stringify([...here.places.at]);
    if ((now !== seen || widened) && !next.still) fit();
    seen = now;
    view.place();
  };
  return { show, view, fit };
}

/** @param {Walk} here @param {PlanView} view @param {SketchWish} wish */
function draw(here, view, wish) {
  const { at } = here.places,
    { doc } = here,
    line = (/** @type {number[][]} */ places, /** @type {Record<string, any>} */ more, closed = false) =>
      svg("path", { d: pathOf(places, closed), fill: "none", "vector-effect": "non-scaling-stroke", ...more });
  for (const area of doc.areas ?? []) {
    const ring = outlineOf(area.outline, at);
    if (ring.length)
      view.ground.append(
        line(ring, { fill: "var(--slab)", stroke: "currentColor", "stroke-width": 2.5, "data-line": "" }, true),
      );
  }
  const met = new Map(
    [...(doc.site?.walls ?? []), ...(doc.site?.boundaries ?? []), ...(doc.site?.tie_ins ?? [])].map((one) => [
      [one.start, one.end].sort().join("\n"),
      one,
    ]),
  );
  for (const side of sidesOf(doc)) {
    const from = at.get(side.from),
      to = at.get(side.to),
      one = met.get([side.from, side.to].sort().join("\n"));
    if (!from || !to) continue;
    if (one)
      view.ground.append(
        line([...sideLine(doc, side, from, to, at), to], {
          stroke: one.kind ? "var(--wall)" : "var(--check)",
          "stroke-width": one.kind === "house" ? 9 : 5,
        }),
      );
    const words = sideWords(doc, side, one);
    if (words) view.signs.append(sideSign(from, to, words, middleOf(at)));
  }
  if (wish.line) {
    const [from, to] = wish.line.map((name) => at.get(name));
    if (from && to)
      view.ground.append(line([from, to], { stroke: "var(--act)", "stroke-width": 6, "stroke-dasharray": "12 7" }));
  }
  view.hand.append(...(wish.hand ?? []));
  seenMarks(here, view);
  for (const mark of wish.marks ?? [])
    view.signs.append(sign(mark.at, svg("circle", { r: 8, fill: "var(--act)" }), text(mark.words, 12)));
  corners(here, view, wish);
}

/** @param {Walk} here @param {PlanView} view @param {SketchWish} wish */
function corners(here, view, wish) {
  const { at, firm } = here.places,
    { levels } = here,
    heights = ["staff", "dpc", "gullies", "covers", "ground"].includes(here.step.key),
    rim = new Set(cornersOf(here.doc)),
    chosen = new Set([wish.point, ...(wish.line ?? [])]),
    centre = middleOf(at),
    quiet = quietPoints(here.doc, here.step.key === "staff");
  for (const [name, place] of at) {
    const here_ = chosen.has(name),
      edge = rim.has(name),
      out = [place[0] - centre[0], place[1] - centre[1]],
      long = Math.hypot(out[0], out[1]) || 1;
    view.signs.append(
      sign(
        place,
        here_ ? svg("circle", { r: 15, fill: "none", stroke: "var(--act)", "stroke-width": 4 }) : "",
        svg("circle", {
          r: quiet.has(name) && !here_ ? 3.5 : 6,
          fill: firm(name) ? "currentColor" : "var(--sheet)",
          stroke: here_ ? "var(--act)" : "currentColor",
          "stroke-width": 2.5,
        }),
        svg(
          "g",
          { class: edge ? "corner" : "" },
          svg(
            "text",
            {
              "data-rank": 2,
              x: (18 * out[0]) / long,
              y: (-18 * out[1]) / long + 5,
              "text-anchor": "middle",
              "font-size": edge || here_ ? 15 : 12,
              "font-weight": edge || here_ ? 700 : 500,
              fill: "currentColor",
              class: "halo",
              "data-point": name,
            },
            quiet.has(name) && !here_ ? "" : name,
          ),
        ),
      ),
    );
    // heights give way where there is no room for them
    const height_mm = heights ? levels.get(name) : undefined;
    if (height_mm !== undefined) {
      const words = text(level(height_mm), out[1] < 0 ? -12 : 22, 12);
      words.dataset.rank = "3";
      view.signs.append(sign(place, words));
    }
  }
}

/** @param {Map<string, number[]>} at */
function middleOf(at) {
  const all = [...at.values()];
  return all.length ? [0, 1].map((axis) => all.reduce((sum, one) => sum + one[axis], 0) / all.length) : [0, 0];
}

/**
 * The point or the side that a finger means; null where it means the open ground.
 * @param {Walk} here @param {PlanView} view @param {number[]} at
 * @returns {import("./frame.js").Near|null}
 */
export function nearest(here, view, at) {
  const reach = NEAR_PX / view.scale;
  let best = /** @type {any} */ (null),
    away = reach;
  for (const [name, place] of here.places.at) {
    const off = Math.hypot(place[0] - at[0], place[1] - at[1]);
    if (off < away) [best, away] = [{ kind: "point", name }, off];
  }
  if (best) return best;
  for (const side of sidesOf(here.doc)) {
    const from = here.places.at.get(side.from),
      to = here.places.at.get(side.to);
    if (!from || !to) continue;
    const { away_mm, along } = toStretch(at, from, to);
    if (away_mm < away)
      [best, away] = [
        { kind: "side", name: side.from, along_mm: along * Math.hypot(to[0] - from[0], to[1] - from[1]) },
        away_mm,
      ];
  }
  return best;
}

/** @param {PlanView} view @param {(at: number[]) => void} pick */
function tapped(view, pick) {
  /** @type {{x: number, y: number}|null} */ let down = null;
  let fingers = 0;
  view.node.addEventListener("pointerdown", (event) => {
    fingers += 1;
    down = fingers === 1 ? { x: event.clientX, y: event.clientY } : null;
  });
  const up = (/** @type {PointerEvent} */ event) => {
    fingers = Math.max(0, fingers - 1);
    if (event.type === "pointerup" && down && Math.hypot(event.clientX - down.x, event.clientY - down.y) < STILL_PX)
      pick(view.toSite(event));
    down = null;
  };
  view.node.addEventListener("pointerup", up);
  view.node.addEventListener("pointercancel", up);
  view.node.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    pick([view.x, view.y]);
  });
}
