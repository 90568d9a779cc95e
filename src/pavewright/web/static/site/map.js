// @ts-check
/** The plan in the hand: outlines, walls and drains, moved and zoomed with fingers; a tap chooses a place. */
import { el, svg } from "../lib/dom.js";
import { bayHatches, bayMiddle, bayShape, bayWord } from "./day/bay-shapes.js";
import { LAYERS } from "../job/plan/layers.js";
import { placesOf } from "../job/plan/outline.js";
import { drawable } from "../job/so-far.js";
import { PlanView } from "../job/plan/view.js";
import { shapePath } from "../job/plan/paths.js";

/**
 * Where the plan was left, so that it stays when the panel is drawn anew.
 * @type {{scale: number, x: number, y: number}|null}
 */
let left = null;

const STILL_PX = 10; // a finger that moved farther was not a tap

/**
 * @param {import("./parts.js").Here} here
 * @param {{
 *   at: number[]|null, read?: any[], pins?: any[], pick?: (at: number[]) => void,
 *   bays?: {outline: number[][], stage: doc.WorkStage|null}[], plain?: boolean
 * }} wishes plain leaves out where to read
 */
export function siteMap(here, wishes) {
  const holder = el("div", { class: "map" }),
    view = new PlanView(holder, "Plan. Arrow keys with Shift move it, plus and minus zoom, Enter chooses the middle.");
  const plan = here.view;
  if (!plan) return el("p", { class: "quiet", text: "The plan comes with a job that can be worked out." });
  const to = {
    ground: view.ground,
    signs: view.backSigns,
    plan: drawable(/** @type {any} */ (plan)),
    doc: here.doc,
    scale: view.scale,
    points: placesOf(plan),
  };
  for (const area of plan.survey.site.areas)
    view.ground.append(
      svg("path", {
        d: shapePath(area.shape),
        fill: "var(--slab)",
        stroke: "currentColor",
        "stroke-width": 2,
        "vector-effect": "non-scaling-stroke",
        "fill-rule": "evenodd",
      }),
    );
  if (wishes.bays) view.ground.append(bayHatches(), ...wishes.bays.map(bayShape));
  LAYERS.site.draw(/** @type {any} */ (to));
  const put = (/** @type {number[]} */ at, /** @type {SVGElement[]} */ ...inside) =>
    view.signs.append(svg("g", { "data-x": at[0], "data-y": at[1] }, ...inside));
  for (const bay of wishes.bays ?? []) if (bay.stage) put(bayMiddle(bay.outline), bayWord(bay.stage));
  for (const place of wishes.plain ? [] : plan.grid)
    put(place.at, svg("circle", { r: 4, fill: "var(--sheet)", stroke: "currentColor", "stroke-width": 1.5 }));
  for (const one of wishes.read ?? [])
    put(
      [one.x_mm, one.y_mm],
      svg("path", { d: "M-5 0L-1 4L6 -5", fill: "none", stroke: "currentColor", "stroke-width": 2.4 }),
    );
  for (const one of wishes.pins ?? []) if (one.place) put(one.place, pin("var(--ink)"));
  if (wishes.at)
    put(
      wishes.at,
      svg("circle", { r: 13, fill: "none", stroke: "var(--act)", "stroke-width": 4 }),
      svg("circle", { r: 3.5, fill: "var(--act)" }),
    );
  const xs = plan.survey.site.areas.flatMap((area) => area.shape.outer.map((/** @type {number[]} */ at) => at[0])),
    ys = plan.survey.site.areas.flatMap((area) => area.shape.outer.map((/** @type {number[]} */ at) => at[1]));
  const whole = () => {
    if (holder.clientWidth && xs.length) view.fit([Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)]);
  };
  new ResizeObserver(() => {
    if (!holder.dataset.fitted && holder.clientWidth) {
      holder.dataset.fitted = "1";
      if (left) {
        Object.assign(view, left);
        view.place();
      } else whole();
    }
  }).observe(holder);
  view.addEventListener("place", () => {
    if (holder.dataset.fitted) left = { scale: view.scale, x: view.x, y: view.y };
  });
  view.addEventListener("fit", whole);
  if (wishes.pick) tapped(view, wishes.pick);
  return holder;
}

/** @param {string} colour */
export const pin = (colour) =>
  svg("path", {
    d: "M0 0C-3 -9 -9 -12 -9 -18A9 9 0 1 1 9 -18C9 -12 3 -9 0 0ZM0 -14.5A3.5 3.5 0 1 0 0 -21.5A3.5 3.5 0 1 0 0 -14.5Z",
    fill: colour,
    stroke: "var(--sheet)",
    "stroke-width": 1.5,
    "fill-rule": "evenodd",
  });

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
    if (event.key === "Enter") {
      event.preventDefault();
      pick([view.x, view.y]);
    }
  });
}
