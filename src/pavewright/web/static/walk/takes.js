// @ts-check
/** What is to drain to a gully or channel: the choices, and with signal what each of them changes. */
import { el } from "../lib/dom.js";
import { drainWays, withChanges } from "../lib/drain-ways.js";

/** @typedef {import("./frame.js").Walk} Walk */

/** Answers of the server, once for each document. @type {WeakMap<object, Map<string, Promise<any>>>} */
const asked = new WeakMap();

/**
 * @param {Walk} here @param {"gullies"|"channels"} list @param {string} word @param {any} one
 * @param {import("./things.js").Answer} answer @returns {Node[]}
 */
export function takesPart(here, list, word, one, answer) {
  const found = el("div", { class: navigator.onLine ? "tall-list drains-found" : "tall-list", role: "status" }),
    of = asked.get(here.doc) ?? new Map();
  asked.set(here.doc, of);
  const take = (/** @type {any} */ choice) =>
    answer(
      (mine, draft) => {
        withChanges(draft, choice.changes);
        if (!choice.answer) mine.takes_paving = true;
      },
      choice.words.slice(0, 150),
    );
  if (navigator.onLine) {
    if (!of.has(one.name))
      of.set(one.name, drainWays(here.doc, /** @type {any} */ (word), one.name, take, { answers: false }));
    // what each changes comes under the choices, so that none moves away from a finger
    of.get(one.name)?.then((/** @type {any} */ told_) => {
      if (found.isConnected) found.replaceChildren(...told_.parts);
    });
  }
  return [el("div", { class: "tall-list" }, ...plainChoices(here, list, one, answer)), found];
}

/** @param {import("./things.js").Answer} answer */
const falls = (answer) =>
  el("button", {
    type: "button",
    class: "tall",
    text: "The paving, as it falls",
    on: { click: () => answer((mine) => (mine.takes_paving = true)) },
  });

/**
 * The choices without signal: what each changes is shown once the plan is made.
 * @param {Walk} here @param {"gullies"|"channels"} list @param {any} one @param {import("./things.js").Answer} answer
 */
function plainChoices(here, list, one, answer) {
  const area = areaOf(here, one),
    choice = (/** @type {string} */ text, /** @type {(mine: any, draft: any) => void} */ act) =>
      el("button", { type: "button", class: "tall", text, on: { click: () => answer(act) } });
  return [
    area >= 0 && folds(here, here.doc.areas[area])
      ? choice("The paving: fold it to it", (mine, draft) => {
          mine.takes_paving = true;
          const fall = (draft.areas[area].fall ??= {});
          fall.folding = list === "gullies" ? "crossed_valley" : "valley";
          if (list === "gullies") fall.gully = one.name;
        })
      : null,
    falls(answer),
    choice("Not the paving: a downpipe or a sink", (mine) => (mine.takes_paving = false)),
  ].filter((each) => each !== null);
}

/**
 * Whether an area can be folded to a place in it without a look at the plan: no inner corner, no hole.
 * @param {Walk} here
 * @param {any} area
 */
function folds(here, area) {
  const ring = area.outline.map((/** @type {any} */ corner) => here.places.at.get(corner.point));
  if (area.holes?.length || ring.some((/** @type {any} */ at) => !at)) return false;
  const turns = ring.map((/** @type {number[]} */ at, /** @type {number} */ index) => {
    const to = ring[(index + 1) % ring.length],
      next = ring[(index + 2) % ring.length];
    return Math.sign((to[0] - at[0]) * (next[1] - to[1]) - (to[1] - at[1]) * (next[0] - to[0]));
  });
  return !(turns.includes(1) && turns.includes(-1));
}

/**
 * The area in which a drain stands, by its place on the sketch; the first where that is not known.
 * @param {Walk} here
 * @param {any} one
 */
function areaOf(here, one) {
  const at = here.places.at.get(one.point ?? one.start);
  if (!at) return here.doc.areas?.length ? 0 : -1;
  const inside = (/** @type {any} */ area) => {
    const ring = area.outline.map((/** @type {any} */ corner) => here.places.at.get(corner.point)).filter(Boolean);
    let odd = false;
    ring.forEach((/** @type {number[]} */ from, /** @type {number} */ index) => {
      const to = ring[(index + 1) % ring.length];
      if (
        from[1] > at[1] !== to[1] > at[1] &&
        at[0] < ((to[0] - from[0]) * (at[1] - from[1])) / (to[1] - from[1]) + from[0]
      )
        odd = !odd;
    });
    return odd;
  };
  return (here.doc.areas ?? []).findIndex(inside);
}
