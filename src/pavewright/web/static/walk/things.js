// @ts-check
/**
 * Things that are seen on the way: each is put by touch, then asked about, one question after another. What the
 * document cannot hold without an answer is held on this phone until it is given; the rest is asked of what is kept.
 */
import { el } from "../lib/dom.js";
import { button } from "./parts.js";
import { beginPlacing, placing, placingPanel, placingSketch } from "./placing.js";
import { nearestWall } from "./walls-seen.js";

/** @typedef {import("./frame.js").Walk} Walk */
/** @typedef {(act?: ((one: any, draft: any) => void)|null, label?: string) => Promise<void>} Answer */
/**
 * @typedef {{
 *   key: string, ask?: (one: any, here: Walk) => string, when?: (one: any, here: Walk) => boolean,
 *   can?: (one: any) => boolean,
 *   draw: (here: Walk, one: any, answer: Answer) => Node[], skip?: string|null
 * }} Question
 * @typedef {{
 *   word: string, stem: string, place: "point"|"wall"|"ends"|"line"|"none", touch: string,
 *   all: (doc: any) => any[], add: (draft: any, held: any, name: string) => string|void,
 *   remove: (draft: any, name: string) => void, required: Question[], questions: Question[],
 *   told: (one: any, doc: any) => string, more?: (here: Walk) => Node[], first?: boolean
 * }} Kind
 */

/**
 * A name that no thing of the kind has: that of its own point, or a number.
 * @param {Kind} kind
 * @param {any} doc
 * @param {string} [point]
 */
function freshName(kind, doc, point = "") {
  const taken = new Set(kind.all(doc).map((one) => one.name));
  if (point.startsWith(kind.stem) && !taken.has(point)) return point;
  for (let number = 1; ; number += 1) if (!taken.has(`${kind.stem} ${number}`)) return `${kind.stem} ${number}`;
}

/** @param {Kind} kind @param {any} doc @param {string} name */
const found = (kind, doc, name) => kind.all(doc).find((one) => one.name === name) ?? null;

/**
 * What is asked now: of what is held first, then of what is kept; all of it again where it was touched in the list.
 * @param {Kind} kind
 * @param {Walk} here
 */
function asked(kind, here) {
  const { ui } = here,
    one = ui.held ?? (ui.one ? found(kind, here.doc, ui.one) : null),
    list = ui.held ? kind.required : kind.questions;
  if (!one) return null;
  const open = list
    .slice(ui.q ?? 0)
    .find((each) => (each.can?.(one) ?? true) && (ui.again || (each.when?.(one, here) ?? true)));
  return open ? { one, question: open, at: list.indexOf(open) } : null;
}

/** @param {Kind} kind @param {Walk} here @returns {import("./frame.js").SketchWish} */
export function thingSketch(kind, here) {
  const { ui } = here,
    now = asked(kind, here);
  if (now) return marked(kind, here, now.one);
  if (kind.place === "point") {
    if (!placing(here) && kind.first !== false && !kind.all(here.doc).length) here.ui.placing = { point: "" };
    return placing(here) ? placingSketch(here, placeWish(kind, here)) : {};
  }
  const touches = ui.touches ?? [];
  if (!ui.adding && (kind.first === false || kind.all(here.doc).length)) return {};
  return {
    hint: kind.touch,
    still: true,
    marks: touches.map((/** @type {any} */ each) => ({ at: each.at, words: "" })),
    pick: (at, near) => touched(kind, here, at, near),
  };
}

/** @param {Kind} kind @param {Walk} here @param {any} one @returns {import("./frame.js").SketchWish} */
function marked(kind, here, one) {
  if (one.point) return { point: one.point };
  if (one.start && one.end) return { line: [one.start, one.end] };
  const wall = (here.doc.site?.walls ?? []).find(
    (/** @type {any} */ each) =>
      each.name === one.wall || kind.all({ site: { walls: [each] } }).some((t) => t.name === one.name),
  );
  return kind.place === "wall" && wall ? { line: [wall.start, wall.end] } : {};
}

/** @param {Kind} kind @param {Walk} here */
const placeWish = (kind, here) => ({
  stem: kind.stem,
  words: kind.touch,
  own: true, // a gully 300 mm from a corner does not stand at the corner
  done: (/** @type {string} */ point) => hold(kind, here, { point }),
});

/** @param {Kind} kind @param {Walk} here @param {number[]} at @param {import("./frame.js").Near|null} near */
function touched(kind, here, at, near) {
  if (kind.place === "wall") {
    const hit = nearestWall(here, at);
    if (!hit) return here.say("There is no wall yet: name one in the step Sides.");
    return hold(kind, here, { wall: hit.wall.name, touched_mm: Math.round(hit.along_mm / 10) * 10 });
  }
  const sketch = here.places.toSketch(at).map(Math.round),
    touches = [...(here.ui.touches ?? []), { at, sketch, point: near?.kind === "point" ? near.name : "" }];
  if (kind.place === "ends" && touches.length === 2) return hold(kind, here, { touches });
  return here.set({ touches, adding: true });
}

/** @param {Kind} kind @param {Walk} here @param {any} held */
async function hold(kind, here, held) {
  Object.assign(here.ui, { held, q: 0, one: "", again: false, adding: false, touches: [], placing: null, typed: "" });
  if (!asked(kind, here)) await put(kind, here);
  else {
    here.remember();
    here.redraw();
  }
}

/** Keep what was held. @param {Kind} kind @param {Walk} here */
async function put(kind, here) {
  const { held } = here.ui,
    name = freshName(kind, here.doc, held.point);
  let named = name;
  const kept = await here.change(`${name} added`, (draft) => {
    named = kind.add(draft, held, name) ?? name;
  });
  if (kept) here.set({ held: null, one: named, q: 0, typed: "" });
}

/** @param {Kind} kind @param {Walk} here @returns {Node[]} */
export function thingPanel(kind, here) {
  const now = asked(kind, here);
  if (now) return questionPanel(kind, here, now);
  if (here.ui.one || here.ui.held) Object.assign(here.ui, { one: "", held: null, again: false });
  if (kind.place === "point" && placing(here))
    return [...placingPanel(here, placeWish(kind, here)), ...listed(kind, here)];
  return listPanel(kind, here);
}

/** @param {Kind} kind @param {Walk} here @param {{one: any, question: Question, at: number}} now */
function questionPanel(kind, here, { one, question, at }) {
  const { ui } = here,
    go = () => here.set({ q: at + 1, typed: "", way: "" });
  /** @type {Answer} */ const answer = async (act, label = "") => {
    if (ui.held) {
      act?.(ui.held, null);
      ui.q = at + 1;
      if (asked(kind, here)) return go();
      return put(kind, here);
    }
    const name = one.name;
    if (!act) return go();
    const kept = await here.change(label || `${name}: ${question.key}`, (draft) => {
      const mine = found(kind, draft, name);
      if (mine) act(mine, draft);
    });
    if (kept) go();
  };
  return [
    question.ask ? el("p", { class: "question", text: question.ask(one, here) }) : el("span"),
    ...question.draw(here, one, answer),
    el(
      "div",
      { class: "row" },
      ui.again
        ? button("Keep as it is", () => answer(null))
        : question.skip === null
          ? null
          : button(question.skip ?? "Could not see", () => answer(null)),
      button(ui.held ? "Not this one" : "Delete it", () => away(kind, here, one)),
    ),
  ];
}

/** @param {Kind} kind @param {Walk} here @param {any} one */
async function away(kind, here, one) {
  if (here.ui.held) return here.set({ held: null, q: 0 });
  if (await here.change(`${one.name} deleted`, (draft) => kind.remove(draft, one.name))) here.set({ one: "", q: 0 });
}

/** @param {Kind} kind @param {Walk} here */
function listPanel(kind, here) {
  const things = kind.all(here.doc),
    { ui } = here;
  const adding = ui.adding || (!things.length && kind.first !== false);
  return [
    el("p", {
      class: "question",
      text: adding ? kind.touch : `${things.length ? "Any more?" : `Is there a ${kind.word}?`}`,
    }),
    adding || !things.length ? el("p", { class: "quiet", text: here.step.why }) : el("span"),
    ...(kind.place === "line" && (ui.touches ?? []).length > 1
      ? [button("The line ends here", () => hold(kind, here, { touches: ui.touches }), { class: "main tall" })]
      : []),
    ...(adding && things.length ? [button("No more", () => here.set({ adding: false, touches: [] }))] : []),
    ...(adding ? [] : [button(`+ ${things.length ? "Another" : "A"} ${kind.word}`, () => begin(kind, here))]),
    ...listed(kind, here),
    ...(kind.more?.(here) ?? []),
  ];
}

/** @param {Kind} kind @param {Walk} here */
export const begin = (kind, here) =>
  kind.place === "none"
    ? hold(kind, here, {})
    : kind.place === "point"
      ? beginPlacing(here)
      : here.set({ adding: true, touches: [], one: "", held: null });

/** @param {Kind} kind @param {Walk} here */
const listed = (kind, here) =>
  kind
    .all(here.doc)
    .map((one) =>
      button(`${one.name}: ${kind.told(one, here.doc)}`, () =>
        here.set({ one: one.name, q: 0, again: true, held: null, typed: "", placing: null, adding: false }),
      ),
    );

/**
 * A list of the document's site as all, remove of a kind.
 * @param {string} list
 */
export const inSite = (list) => ({
  all: (/** @type {any} */ doc) => doc.site?.[list] ?? [],
  remove: (/** @type {any} */ draft, /** @type {string} */ name) => {
    draft.site[list] = draft.site[list].filter((/** @type {any} */ one) => one.name !== name);
  },
});

/**
 * Things that stand in walls.
 * @param {"openings"|"air_bricks"} list
 */
export const inWalls = (list) => ({
  all: (/** @type {any} */ doc) => (doc.site?.walls ?? []).flatMap((/** @type {any} */ wall) => wall[list] ?? []),
  remove: (/** @type {any} */ draft, /** @type {string} */ name) => {
    for (const wall of draft.site.walls)
      wall[list] = (wall[list] ?? []).filter((/** @type {any} */ one) => one.name !== name);
  },
});

/** @param {Kind[]} kinds @returns {(here: Walk) => import("./frame.js").State} */
export const stateOf =
  (...kinds) =>
  (here) =>
    kinds.some((kind) => kind.all(here.doc).length) ? "done" : "open";
