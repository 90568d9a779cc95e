// @ts-check
/** What stands along each side: a wall, a fence, a road, or only lawn. It has its name from that. */
import { el } from "../../lib/dom.js";
import { ASKED } from "../../lib/walk-questions.js";
import { words } from "../../site/parts.js";
import { sidesOf } from "../places.js";
import { button } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */
/** @typedef {{area: number, index: number, from: string, to: string}} Side */

export const key = "walls",
  name = "Sides",
  why = "What stands along each side decides heights, water and who has to be asked.",
  question = ASKED.walls,
  /** @type {("none"|"could_not_see")[]} */ answers = ["could_not_see"];

/** What a side may be, and how the document says so. @type {[string, string][]} */
const KINDS = [
  ["house", "House wall"],
  ["garden", "Garden wall"],
  ["neighbour", "Fence, neighbour"],
  ["highway", "Road or footway"],
  ["own", "Lawn or bed"],
];
const NAMES = /** @type {Record<string, string>} */ ({
  house: "House wall",
  garden: "Garden wall",
  neighbour: "Neighbour",
  highway: "Road",
  own: "Lawn",
});
const WALLS = ["house", "garden"];

/** @param {{start: string, end: string}} one @param {Side} side */
const along = (one, side) =>
  (one.start === side.from && one.end === side.to) || (one.start === side.to && one.end === side.from);

/** What stands along a side now. @param {any} doc @param {Side} side */
function standsAt(doc, side) {
  const wall = (doc.site?.walls ?? []).find((/** @type {any} */ one) => along(one, side));
  if (wall) return { kind: wall.kind ?? "house", one: wall };
  const line = (doc.site?.boundaries ?? []).find((/** @type {any} */ one) => along(one, side));
  return line ? { kind: line.neighbour ?? "neighbour", one: line } : null;
}

/** @param {Walk} here @returns {Side[]} */
const open = (here) => sidesOf(here.doc).filter((side) => !standsAt(here.doc, side));

/** @param {Walk} here */
export const state = (here) => (sidesOf(here.doc).length && !open(here).length ? "done" : "open");

/**
 * The side that is asked: the one touched, or the first without an answer.
 * @param {Walk} here
 * @returns {Side|undefined}
 */
function asked(here) {
  return sidesOf(here.doc).find((side) => side.from === here.ui.side) ?? open(here)[0];
}

/** @param {Walk} here @returns {import("../frame.js").SketchWish} */
export function sketch(here) {
  const side = asked(here);
  return {
    line: side ? [side.from, side.to] : null,
    pick: (_at, near) => near?.kind === "side" && here.set({ side: near.name }),
  };
}

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const side = asked(here);
  if (!sidesOf(here.doc).length)
    return [
      el("p", { class: "ask", text: "There is no shape yet." }),
      button("Draw the shape", () => here.go("shape"), { class: "main tall" }),
    ];
  if (!side)
    return [
      el("p", { class: "question", text: "Every side has its name." }),
      el("p", { class: "quiet", text: "Touch a side on the sketch to change it." }),
    ];
  const now = standsAt(here.doc, side),
    left = open(here);
  return [
    el("p", { class: "question", text: `What stands along ${side.from} to ${side.to}?` }),
    words("What stands there", KINDS, now?.kind ?? "", (kind) => put(here, [side], kind)),
    left.length > 1 && left.length < sidesOf(here.doc).length
      ? button(`The other ${left.length} are lawn or bed`, () => put(here, left, "own"))
      : el("span"),
    now ? nameBox(here, now.one) : el("span"),
  ];
}

/** @param {Walk} here @param {Side[]} sides @param {string} kind */
async function put(here, sides, kind) {
  const kept = await here.change(
    `${NAMES[kind]} along ${sides.map((side) => `${side.from}–${side.to}`).join(", ")}`,
    (draft) => {
      for (const side of sides) putOne(draft, side, kind);
    },
  );
  if (!kept) return;
  here.ui.side = "";
  here.remember();
  if (open(here).length) here.redraw();
  else here.next();
}

/** @param {any} draft @param {Side} side @param {string} kind */
function putOne(draft, side, kind) {
  const site = (draft.site ??= {}),
    had = standsAt(draft, side);
  if (had?.kind === kind) return;
  const others = (/** @type {any[]|undefined} */ list) => (list ?? []).filter((one) => !along(one, side));
  site.walls = others(site.walls);
  site.boundaries = others(site.boundaries);
  const wall = WALLS.includes(kind),
    list = wall ? site.walls : site.boundaries,
    taken = [...site.walls, ...site.boundaries].map((one) => one.name);
  const fresh = { name: free(taken, NAMES[kind]), start: side.from, end: side.to };
  list.push(wall ? { ...fresh, kind } : { ...fresh, neighbour: kind });
  const area = draft.areas[side.area],
    edges = (area.edges ?? []).filter((/** @type {any} */ one) => one.corner !== side.from);
  area.edges = wall ? [...edges, { corner: side.from, restraint: "wall" }] : edges;
}

/** @param {string[]} taken @param {string} stem */
function free(taken, stem) {
  for (let number = 1; ; number += 1) {
    const each = number === 1 ? stem : `${stem} ${number}`;
    if (!taken.includes(each)) return each;
  }
}

/** @param {Walk} here @param {any} one */
function nameBox(here, one) {
  const box = el("input", { type: "text", maxlength: 60, value: one.name, "aria-label": "Its name", class: "tall" });
  box.addEventListener("change", async () => {
    const next = box.value.trim(),
      all = [...(here.doc.site.walls ?? []), ...(here.doc.site.boundaries ?? [])];
    if (!next || all.some((each) => each.name === next)) return here.say("Give it a name that nothing else has.");
    await here.change(`${one.name} is called ${next}`, (draft) => rename(draft, one.name, next));
  });
  return el("label", { class: "field" }, el("span", { class: "name", text: "Its name" }), box);
}

/** @param {any} draft @param {string} from @param {string} to */
function rename(draft, from, to) {
  for (const list of [draft.site.walls, draft.site.boundaries])
    for (const one of list ?? []) if (one.name === from) one.name = to;
  for (const area of draft.areas ?? []) if (area.fall?.away_from === from) area.fall.away_from = to;
}
