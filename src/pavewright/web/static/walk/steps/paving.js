// @ts-check
/** What is laid and how: a unit, then the common way of laying it, shown and taken with one touch. */
import { el } from "../../lib/dom.js";
import { money } from "../../lib/words.js";
import { words } from "../../site/parts.js";
import { bookUnits, ofTheBook } from "../../lib/book-units.js";
import { ASKED } from "../../lib/walk-questions.js";
import { lastJob } from "../last-job.js";
import { button } from "../parts.js";
import { faceOf, KINDS, take, typedPart } from "./paving-unit.js";
import { houseWalls } from "../walls-seen.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "paving",
  name = "Paving",
  why = "What is laid, and how.",
  question = ASKED.paving,
  /** @type {("none"|"could_not_see")[]} */ answers = [];

/** How each kind is laid most often: common practice, shown before it is taken. @type {Record<string, any>} */
const COMMON = {
  flag: { pattern: "running", joint_mm: 10, bedding: "mortar_on_concrete" },
  block: { pattern: "herringbone", joint_mm: 3, bedding: "sand_on_sub_base" },
  sett: { pattern: "running", joint_mm: 10, bedding: "mortar_on_concrete" },
};
const PATTERNS = /** @type {[string, string][]} */ ([
  ["stack", "Grid"],
  ["running", "Running bond"],
  ["herringbone", "Herringbone"],
  ["basketweave", "Basket weave"],
]);
const BEDDINGS = /** @type {[string, string][]} */ ([
  ["mortar_on_concrete", "Mortar on concrete"],
  ["mortar_on_sub_base", "Mortar on sub-base"],
  ["sand_on_sub_base", "Sand on sub-base"],
]);
const FROM_BOOK = 12; // units of the firm's book that are offered
/** @param {any} area */
const unitOf = (area) => area.laying?.unit ?? null;

/** @param {Walk} here */
export const state = (here) => ((here.doc.areas ?? []).some(unitOf) ? "done" : "open");

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const { ui } = here,
    units = here.doc.units ?? [];
  if (ui.unit) return howPart(here, ui.unit);
  if (ui.fresh) return typedPart(here);
  const laid = (here.doc.areas ?? []).find(unitOf);
  if (laid && !ui.change)
    return [
      el("p", {
        class: "question",
        text: `${laid.laying.unit}, ${faceOf(PATTERNS, laid.laying.pattern).toLowerCase()}`,
      }),
      el("p", {
        text: `Joint ${laid.laying.joint_mm ?? 10} mm, ${faceOf(BEDDINGS, laid.laying.bedding).toLowerCase()}.`,
      }),
      button("Lay it another way", () => here.set({ unit: laid.laying.unit })),
      button("Another slab, block or sett", () => here.set({ change: true })),
    ];
  const box = el("div", { class: "tall-list" });
  const had = new Set(units.map((/** @type {any} */ one) => one.name));
  bookUnits().then((all) =>
    box.prepend(
      ...all
        .filter((one) => !had.has(one.name))
        .slice(0, FROM_BOOK)
        .map((one) => button(`${one.name}, ${one.thickness_mm} mm, of the firm`, () => take(here, ofTheBook(one)))),
    ),
  );
  lastJob(here).then((last) => {
    box.append(
      ...(last?.units ?? [])
        .filter((one) => !had.has(one.name))
        .slice(0, 4)
        .map((one) => button(`${told(one, here)}, of ${last?.title}`, () => take(here, one))),
    );
  });
  return [
    el("p", { class: "question", text: "What is laid?" }),
    ...units.map((/** @type {any} */ one) =>
      button(told(one, here), () => here.set({ unit: one.name, change: false })),
    ),
    words("Type one", KINDS, "", (kind) => here.set({ fresh: { kind }, change: false, typed: "" })),
    box,
  ];
}

/** @param {any} unit @param {Walk} here */
const told = (unit, here) =>
  `${unit.name}, ${unit.thickness_mm} mm, ${
    unit.pack_price_minor === null || unit.pack_price_minor === undefined
      ? "no price"
      : `${money(unit.pack_price_minor, here.doc.identity?.currency ?? "GBP")} for ${unit.per_pack}`
  }`;

// ---- how it is laid

/** @param {Walk} here @param {string} named @returns {Node[]} */
function howPart(here, named) {
  const { ui } = here,
    unit = (here.doc.units ?? []).find((/** @type {any} */ one) => one.name === named);
  if (!unit) {
    ui.unit = "";
    return draw(here);
  }
  const common = COMMON[unit.kind ?? "flag"],
    laid = (here.doc.areas ?? []).find((/** @type {any} */ area) => unitOf(area) === named)?.laying ?? {},
    how = { ...common, ...(laid.unit ? pick(laid) : {}), ...(ui.how ?? {}) },
    set = (/** @type {any} */ more) => here.set({ how: { ...(ui.how ?? {}), ...more } });
  const joints = [...new Set([3, 5, 10, 15, how.joint_mm])].sort((one, other) => one - other);
  return [
    el("p", { class: "question", text: `${named}: laid the common way?` }),
    el("p", {
      class: "quiet",
      text: `${fallWords(here)} Edges in concrete, where no wall stands. Common practice: change what differs.`,
    }),
    button("Take this", () => lay(here, named, how), { class: "main tall" }),
    words("Pattern", PATTERNS, how.pattern, (pattern) => set({ pattern })),
    words(
      "Joint",
      joints.map((each) => [String(each), `${each} mm joint`]),
      String(how.joint_mm),
      (joint) => set({ joint_mm: Number(joint) }),
    ),
    words("Bed", BEDDINGS, how.bedding, (bedding) => set({ bedding })),
    button("Another slab, block or sett", () => here.set({ unit: "", how: null, change: true })),
  ];
}

/** @param {any} laying */
const pick = ({ pattern, joint_mm, bedding }) =>
  Object.fromEntries(Object.entries({ pattern, joint_mm, bedding }).filter(([, value]) => value !== undefined));

/** Whether somebody said already how an area falls. @param {any} fall */
const saidFall = (fall) =>
  Boolean(
    fall && (fall.away_from || typeof fall.bearing_deg === "number" || (fall.folding && fall.folding !== "one_plane")),
  );

/** The house wall that an area meets. @param {Walk} here @param {any} area */
const wallAt = (here, area) => {
  const corners = new Set(area.outline.map((/** @type {any} */ one) => one.point));
  return (
    houseWalls(here.doc).find((/** @type {any} */ wall) => corners.has(wall.start) && corners.has(wall.end)) ??
    houseWalls(here.doc)[0]
  );
};

/** @param {Walk} here */
function fallWords(here) {
  const [area] = here.doc.areas ?? [];
  if (!area) return "";
  if (area.fall?.gully) return `Folded to ${area.fall.gully}.`;
  if (saidFall(area.fall)) return "It falls as you said.";
  const wall = wallAt(here, area);
  return wall ? `It falls away from ${wall.name}.` : "";
}

/** @param {Walk} here @param {string} unit @param {any} how */
async function lay(here, unit, how) {
  const kept = await here.change(`Laid in ${unit}`, (draft) => {
    for (const area of draft.areas ?? []) {
      const wall = wallAt(here, area),
        first = area.outline.findIndex((/** @type {any} */ one) => one.point === wall?.start),
        from = area.outline[Math.max(first, 0)],
        to = area.outline[(Math.max(first, 0) + 1) % area.outline.length];
      area.laying = { ...(area.laying ?? {}), unit, ...how, along: area.laying?.along ?? [from.point, to.point] };
      if (wall && !area.fall?.away_from && typeof area.fall?.bearing_deg !== "number")
        area.fall = { ...(area.fall ?? {}), away_from: wall.name };
      area.edges = edgesOf(draft, area);
    }
  });
  if (!kept) return;
  here.set({ unit: "", how: null, change: false });
  here.next();
}

/**
 * What is said of a side stays; else a wall where one stands, and concrete against the outer units.
 * @param {any} doc
 * @param {any} area
 */
function edgesOf(doc, area) {
  const walls = new Set(
    (doc.site?.walls ?? []).map((/** @type {any} */ wall) => JSON.stringify([wall.start, wall.end].sort())),
  );
  const said = new Map((area.edges ?? []).map((/** @type {any} */ edge) => [edge.corner, edge]));
  return area.outline.map((/** @type {any} */ corner, /** @type {number} */ index) => {
    const to = area.outline[(index + 1) % area.outline.length].point;
    if (said.has(corner.point)) return said.get(corner.point);
    return {
      corner: corner.point,
      restraint: walls.has(JSON.stringify([corner.point, to].sort())) ? "wall" : "haunch",
    };
  });
}
