// @ts-check
/** Corners that are moved or deleted, and sides that are bent, once there is a shape. */
import { el, svg } from "../../lib/dom.js";
import { words } from "../../site/parts.js";
import { button, dragged } from "../parts.js";
import { bulge, snapped } from "../outline.js";
import { freeName, pointsTaken } from "../places.js";
import { sign } from "../signs.js";

/** @typedef {import("../frame.js").Walk} Walk */

/** @param {Walk} here @returns {import("../frame.js").SketchWish} */
export function changeWish(here) {
  const { ui } = here;
  return {
    point: ui.corner,
    line: ui.side ? sideNames(here, ui.side) : null,
    hint: ui.corner ? `Touch where ${ui.corner} belongs, or drag it.` : "Touch a corner or a side to change it.",
    pick: (at, near) => {
      if (near?.kind === "point") return here.set({ corner: near.name, side: "" });
      if (ui.corner) return move(here, ui.corner, at);
      return here.set({ corner: "", side: near?.kind === "side" ? near.name : "", at });
    },
    taker: (event, at) => grab(here, event, at),
  };
}

/** A corner follows the finger that takes it. @param {Walk} here @param {PointerEvent} event @param {number[]} at */
function grab(here, event, at) {
  const view = here.sheet,
    reach = 30 / view.scale;
  const found = [...here.places.at].find(
    ([point, place]) => sketched(here, point) && Math.hypot(place[0] - at[0], place[1] - at[1]) < reach,
  );
  if (!found) return false;
  const mark = sign(at, svg("circle", { r: 22, fill: "none", stroke: "var(--act)", "stroke-width": 4 }));
  view.signs.append(mark);
  let last = at;
  dragged(
    view,
    event,
    (to) => {
      last = to;
      mark.setAttribute("data-x", String(to[0]));
      mark.setAttribute("data-y", String(to[1]));
      view.placeSign(mark);
    },
    (moved) => {
      mark.remove();
      if (moved) move(here, found[0], last);
    },
  );
  return true;
}

/** @param {Walk} here @param {string} point */
const sketched = (here, point) =>
  (here.doc.measurements?.sketch ?? []).some((/** @type {any} */ one) => one.name === point);

/** @param {Walk} here @param {string} point @param {number[]} at */
async function move(here, point, at) {
  if (!sketched(here, point)) return here.say(`${point} has its place by measuring: change its readings.`);
  const put = here.places.toSketch(isFree(here, point) ? at : squareAt(here, point, at));
  const kept = await here.change(`${point} moved`, (draft) => {
    const one = draft.measurements.sketch.find((/** @type {any} */ each) => each.name === point);
    [one.x_mm, one.y_mm] = put.map((each) => Math.round(each / 10) * 10);
  });
  if (kept) here.set({ corner: "", side: "" });
}

/** Whether a corner stays where it is put, square or not. @param {Walk} here @param {string} point */
const isFree = (here, point) => (here.ui.free ?? []).includes(point);

/** @param {Walk} here @param {string} point @param {number[]} at */
function squareAt(here, point, at) {
  for (const area of here.doc.areas ?? []) {
    const index = area.outline.findIndex((/** @type {any} */ one) => one.point === point);
    if (index < 0) continue;
    const ring = area.outline.map((/** @type {any} */ one) => here.places.at.get(one.point) ?? [0, 0]);
    ring[index] = at;
    return snapped(ring, index);
  }
  return at;
}

/** @param {Walk} here @param {string} from @returns {[string, string]|null} */
export function sideNames(here, from) {
  for (const area of here.doc.areas ?? []) {
    const index = area.outline.findIndex((/** @type {any} */ one) => one.point === from);
    if (index >= 0) return [from, area.outline[(index + 1) % area.outline.length].point];
  }
  return null;
}

/** @param {Walk} here @param {string} point */
export function cornerPanel(here, point) {
  const area = here.doc.areas.find((/** @type {any} */ one) =>
    one.outline.some((/** @type {any} */ each) => each.point === point),
  );
  return [
    el("p", { class: "question", text: `Corner ${point}` }),
    words(
      "How it is put",
      [
        ["square", "Square when near"],
        ["free", "Left free"],
      ],
      isFree(here, point) ? "free" : "square",
      (way) => {
        const others = (here.ui.free ?? []).filter((/** @type {string} */ one) => one !== point);
        here.set({ free: way === "free" ? [...others, point] : others });
      },
    ),
    area && area.outline.length > 3
      ? button(`Delete corner ${point}`, async () => {
          const kept = await here.change(`${point} deleted`, (draft) => {
            const mine = draft.areas.find((/** @type {any} */ one) => one.name === area.name);
            mine.outline = mine.outline.filter((/** @type {any} */ one) => one.point !== point);
            draft.measurements.sketch = (draft.measurements.sketch ?? []).filter(
              (/** @type {any} */ one) => one.name !== point,
            );
          });
          if (kept) here.set({ corner: "" });
        })
      : el("span"),
    button("Leave it", () => here.set({ corner: "" })),
  ];
}

/** @param {Walk} here @param {[string, string]} ends */
export function sidePanel(here, [from, to]) {
  const [one, other] = [from, to].map((each) => here.places.at.get(each) ?? [0, 0]);
  const corner = here.doc.areas
    .flatMap((/** @type {any} */ area) => area.outline)
    .find((/** @type {any} */ each) => each.point === from);
  const rise = corner?.rise_mm ?? 0;
  const bend = (/** @type {number} */ rise_mm) =>
    here.change(rise_mm ? `${from} to ${to} bent` : `${from} to ${to} straight`, (draft) => {
      for (const area of draft.areas)
        for (const each of area.outline)
          if (each.point === from) {
            if (rise_mm) each.rise_mm = rise_mm;
            else delete each.rise_mm;
          }
    });
  return [
    el("p", { class: "question", text: `Side ${from} to ${to}` }),
    words(
      "How it runs",
      [
        ["straight", "Straight"],
        ["out", "Bulges out"],
        ["in", "Bends in"],
      ],
      rise > 0 ? "out" : rise < 0 ? "in" : "straight",
      (way) => bend(way === "straight" ? 0 : (way === "out" ? 1 : -1) * bulge(one, other)),
    ),
    button("A corner here", () => insert(here, from, here.ui.at)),
    button("Leave it", () => here.set({ side: "" })),
  ];
}

/** @param {Walk} here @param {string} from @param {number[]} at */
async function insert(here, from, at) {
  const point = freeName(pointsTaken(here.doc)),
    put = here.places.toSketch(at);
  const kept = await here.change(`Corner ${point}`, (draft) => {
    (draft.measurements.sketch ??= []).push({
      name: point,
      x_mm: Math.round(put[0]),
      y_mm: Math.round(put[1]),
    });
    for (const area of draft.areas) {
      const index = area.outline.findIndex((/** @type {any} */ one) => one.point === from);
      if (index < 0) continue;
      delete area.outline[index].rise_mm;
      area.outline.splice(index + 1, 0, { point });
    }
  });
  if (kept) here.set({ side: "", corner: point });
}
