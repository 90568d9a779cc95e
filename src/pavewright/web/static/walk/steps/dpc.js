// @ts-check
/** The damp-proof course of every house wall: its level, and where it steps. */
import { el } from "../../lib/dom.js";
import { level } from "../../lib/words.js";
import { ASKED } from "../../lib/walk-questions.js";
import { lengthPart } from "../figures.js";
import { levelPart, levelsOf } from "../level-part.js";
import { button } from "../parts.js";
import { nameFor } from "../placing.js";
import { houseWalls, nearestWall } from "../walls-seen.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "dpc",
  name = "DPC",
  why = "The paving stays below the damp-proof course of the house.",
  question = ASKED.dpc;

/** @param {any} wall */
const known = (wall) => wall.dpc_level_mm !== null && wall.dpc_level_mm !== undefined;

/** @param {Walk} here */
export function state(here) {
  const walls = houseWalls(here.doc);
  return walls.length && walls.every(known) ? "done" : "open";
}

/** @param {Walk} here */
function current(here) {
  const walls = houseWalls(here.doc),
    skipped = new Set(here.ui.skipped ?? []);
  return (
    walls.find((/** @type {any} */ one) => one.name === here.ui.wall) ??
    walls.find((/** @type {any} */ one) => !known(one) && !skipped.has(one.name)) ??
    null
  );
}

/** @param {Walk} here @returns {import("../frame.js").SketchWish} */
export function sketch(here) {
  const wall = current(here);
  return {
    line: wall ? [wall.start, wall.end] : null,
    hint: here.ui.steps ? "Touch where the DPC steps." : undefined,
    pick: (at) => {
      const hit = nearestWall(here, at);
      if (!hit) return;
      if (here.ui.steps) here.set({ steps: { wall: hit.wall.name, at_mm: Math.round(hit.along_mm) }, typed: "" });
      else here.set({ wall: hit.wall.name, typed: "" });
    },
  };
}

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const walls = houseWalls(here.doc),
    wall = current(here);
  if (!walls.length)
    return [
      el("p", { class: "question", text: "No house wall is named yet." }),
      button("Name the walls", () => here.go("walls"), { class: "main tall" }),
    ];
  if (here.ui.steps) return stepPart(here);
  if (!wall)
    return [
      el("p", { class: "question", text: "Is that every wall?" }),
      ...walls.map((/** @type {any} */ one) =>
        button(`${one.name}: ${told(here, one)}`, () => here.set({ wall: one.name })),
      ),
    ];
  const after = () => {
    here.set({ wall: "", typed: "", way: "" });
    if (state(here) === "done") here.next();
  };
  const same = walls.find((/** @type {any} */ one) => one !== wall && known(one));
  return [
    ...levelPart(here, {
      point: nameFor(here.doc, `DPC ${wall.name}`),
      on: "dpc",
      what: `the DPC of ${wall.name}, ${wall.start} to ${wall.end}`,
      put: (draft, value) => {
        draft.site.walls.find((/** @type {any} */ one) => one.name === wall.name).dpc_level_mm = value;
      },
      after,
    }),
    el(
      "div",
      { class: "row" },
      same ? button(`As ${same.name}`, () => put(here, wall, same.dpc_level_mm, after)) : null,
      button("It steps", () => here.set({ steps: { wall: "" } })),
      walls.length > 1
        ? button("Could not see this one", () =>
            here.set({ skipped: [...(here.ui.skipped ?? []), wall.name], wall: "", typed: "" }),
          )
        : null,
    ),
  ];
}

/** @param {Walk} here @param {any} wall @param {any} value @param {() => void} after */
async function put(here, wall, value, after) {
  const kept = await here.change(`DPC of ${wall.name}`, (draft) => {
    draft.site.walls.find((/** @type {any} */ one) => one.name === wall.name).dpc_level_mm = value;
  });
  if (kept) after();
}

/** @param {Walk} here @param {any} wall */
function told(here, wall) {
  const value = wall.dpc_level_mm;
  if (!known(wall)) return "not seen";
  if (typeof value === "object") return `${level(value.assumed_mm)}, assumed`;
  const at = typeof value === "number" ? value : levelsOf(here.doc).get(value);
  return at === undefined ? String(value) : level(at);
}

/** Where the damp-proof course steps the wall is two walls. @param {Walk} here @returns {Node[]} */
function stepPart(here) {
  const { steps } = here.ui,
    wall = houseWalls(here.doc).find((/** @type {any} */ one) => one.name === steps.wall);
  if (!wall)
    return [
      el("p", { class: "question", text: "Touch the wall where its DPC steps." }),
      button("It does not step", () => here.set({ steps: null })),
    ];
  return [
    el("p", { class: "question", text: `How far from ${wall.start} is the step?` }),
    el("p", { class: "quiet", text: `Touched at about ${Math.round(steps.at_mm / 50) * 50} mm.` }),
    ...lengthPart(here, { label: `From ${wall.start} to the step`, low_mm: 1, onKeep: (mm) => split(here, wall, mm) }),
    button("It does not step", () => here.set({ steps: null })),
  ];
}

/** @param {Walk} here @param {any} wall @param {number} mm */
async function split(here, wall, mm) {
  const point = nameFor(here.doc, "Step of DPC"),
    names = new Set((here.doc.site.walls ?? []).map((/** @type {any} */ one) => one.name));
  let second = `${wall.name} 2`;
  for (let number = 3; names.has(second); number += 1) second = `${wall.name} ${number}`;
  const kept = await here.change(`The DPC of ${wall.name} steps`, (draft) => {
    (draft.measurements.offsets ??= []).push({
      name: point,
      line_from: wall.start,
      line_to: wall.end,
      along_mm: mm,
      offset_mm: 0,
    });
    const first = draft.site.walls.find((/** @type {any} */ one) => one.name === wall.name),
      beyond = (/** @type {any} */ one) => one.along_mm >= mm,
      moved = (/** @type {any} */ one) => ({ ...one, along_mm: one.along_mm - mm });
    const rest = { ...first, name: second, start: point, dpc_level_mm: null };
    for (const list of /** @type {const} */ (["openings", "air_bricks"])) {
      const all = first[list] ?? [];
      rest[list] = all.filter(beyond).map(moved);
      first[list] = all.filter((/** @type {any} */ one) => !beyond(one));
    }
    first.end = point;
    draft.site.walls.splice(draft.site.walls.indexOf(first) + 1, 0, rest);
  });
  if (kept) here.set({ steps: null, wall: "", typed: "" });
}
