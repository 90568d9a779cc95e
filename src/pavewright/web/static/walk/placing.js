// @ts-check
/** A point anywhere: touched on the sketch first, then as exact as it is wanted: two tapes, or from a side. */
import { el } from "../lib/dom.js";
import { mm } from "../lib/words.js";
import { words } from "../site/parts.js";
import { askingPad } from "./asking.js";
import { cornersOf, freeName, pointsTaken, sidesOf } from "./places.js";
import { tapePad } from "./taping.js";
import { button } from "./parts.js";

/** @typedef {import("./frame.js").Walk} Walk */
/**
 * @typedef {{stem: string, words: string, done: (point: string) => void, own?: boolean, more?: (draft: any,
 *   point: string) => void}} PlaceWish
 */

const BY_EYE_MM = 150; // a step along the ground and a finger on the sketch; common practice
const HOW = /** @type {[string, string][]} */ ([
  ["tapes", "Two tapes"],
  ["side", "From a side"],
  ["touched", "As touched"],
]);

/** Whether a point is being placed. @param {Walk} here */
export const placing = (here) => Boolean(here.ui.placing);

/** Begin to place a point. @param {Walk} here */
export const beginPlacing = (here) => here.set({ placing: { point: "" }, typed: "" });

/** @param {Walk} here */
const end = (here) => {
  here.ui.placing = null;
  here.remember();
};

/**
 * Put a point where it was touched. While the shape is a sketch it is part of that; once tapes hold the shape it is a
 * place by eye, and trusted no farther.
 * @param {Walk} here @param {any} draft @param {string} name @param {number[]} at
 */
export function putByEye(here, draft, name, at) {
  const m = (draft.measurements ??= {}),
    round = (/** @type {number[]} */ [x, y]) => ({ name, x_mm: Math.round(x), y_mm: Math.round(y) });
  if (fixed(here)) (m.points ??= []).push({ ...round(at), place_sd_mm: BY_EYE_MM });
  else (m.sketch ??= []).push(round(here.places.toSketch(at)));
}

/** Whether tapes hold every corner. @param {Walk} here */
export function fixed(here) {
  const corners = cornersOf(here.doc);
  return corners.length > 0 && corners.every(here.places.firm);
}

/** A name for what is placed: its own word, then with a number. @param {any} doc @param {string} stem */
export function nameFor(doc, stem) {
  const taken = pointsTaken(doc);
  return taken.has(stem) ? freeName([...taken, `${stem} 1`], stem) : stem;
}

/**
 * What the sketch takes while a point is placed.
 * @param {Walk} here
 * @param {PlaceWish} wish
 * @returns {import("./frame.js").SketchWish}
 */
export function placingSketch(here, wish) {
  const now = here.ui.placing;
  if (now?.point) return { point: now.point, line: lineOf(here, now) };
  return {
    hint: wish.words,
    wide: true,
    pick: async (at, near) => {
      if (near?.kind === "point" && !wish.own) {
        end(here);
        return wish.done(near.name);
      }
      const point = nameFor(here.doc, wish.stem),
        [x_mm, y_mm] = here.places.toSketch(at).map(Math.round);
      const kept = await here.change(`${point} placed`, (draft) => {
        ((draft.measurements ??= {}).sketch ??= []).push({ name: point, x_mm, y_mm });
        wish.more?.(draft, point);
      });
      if (kept) here.set({ placing: { point } });
    },
  };
}

/** @param {Walk} here @param {any} now @returns {[string, string]|null} */
function lineOf(here, now) {
  if (now.how === "tapes") return [endsFor(here, now.point)[now.taped ? 1 : 0], now.point];
  if (now.how === "side") return nearestSide(here, now.point);
  return null;
}

/**
 * The two known points whose tapes fix a place best: they meet there nearest to a right angle.
 * @param {Walk} here @param {string} point @returns {string[]}
 */
export function endsFor(here, point) {
  const at = here.places.at.get(point) ?? [0, 0],
    all = [...here.places.at].filter(([name]) => name !== point && here.places.firm(name));
  let best = /** @type {string[]} */ ([]),
    most = -Infinity;
  all.forEach(([one, a], index) => {
    for (const [other, b] of all.slice(index + 1)) {
      const u = [a[0] - at[0], a[1] - at[1]],
        v = [b[0] - at[0], b[1] - at[1]],
        long = Math.hypot(...u) + Math.hypot(...v),
        sine = Math.abs(u[0] * v[1] - u[1] * v[0]) / (Math.hypot(...u) * Math.hypot(...v) || 1);
      const worth = Math.min(sine, 0.8) * 40_000 - long; // square enough, then short
      if (worth > most) [best, most] = [[one, other], worth];
    }
  });
  return best;
}

/** @param {Walk} here @param {string} point @returns {[string, string]|null} */
export function nearestSide(here, point) {
  const at = here.places.at.get(point) ?? [0, 0];
  let best = /** @type {[string, string]|null} */ (null),
    least = Infinity;
  for (const side of sidesOf(here.doc)) {
    const from = here.places.at.get(side.from),
      to = here.places.at.get(side.to);
    if (!from || !to) continue;
    const { along: far, off, long } = along(from, to, at),
      away = Math.hypot(off, far - Math.min(Math.max(far, 0), long)); // sides may stand in one line
    if (away < least) [best, least] = [[side.from, side.to], away];
  }
  return best;
}

/**
 * How far along a line a place lies and how far to its left.
 * @param {number[]} from
 * @param {number[]} to
 * @param {number[]} at
 */
export function along(from, to, at) {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1,
    [ux, uy] = [(to[0] - from[0]) / long, (to[1] - from[1]) / long],
    [dx, dy] = [at[0] - from[0], at[1] - from[1]];
  return { along: dx * ux + dy * uy, off: dy * ux - dx * uy, long };
}

/**
 * The questions while a point is placed.
 * @param {Walk} here @param {PlaceWish} wish
 * @returns {Node[]}
 */
export function placingPanel(here, wish) {
  const now = here.ui.placing;
  if (!now.point)
    return [el("p", { class: "question", text: wish.words }), button("Not now", () => here.set({ placing: null }))];
  const done = () => {
    end(here);
    wish.done(now.point);
  };
  const touched = async () => {
    const at = here.places.at.get(now.point);
    if (at && fixed(here))
      await here.change(`${now.point} as touched`, (draft) => {
        draft.measurements.sketch = draft.measurements.sketch.filter(
          (/** @type {any} */ one) => one.name !== now.point,
        );
        putByEye(here, draft, now.point, at);
      });
    done();
  };
  const how = words("How exactly", HOW, now.how ?? "", (next) =>
    next === "touched" ? touched() : here.set({ placing: { point: now.point, how: next }, typed: "" }),
  );
  if (now.how === "tapes") {
    const ends = endsFor(here, now.point);
    if (ends.length < 2)
      return [el("p", { class: "ask", text: "Tape the shape first: two tapes need two known points." }), how];
    const from = now.taped ? (ends.find((one) => one !== now.taped) ?? ends[1]) : ends[0];
    return tapePad(here, from, now.point, {
      words: `${now.taped ? "Second" : "First"} tape: ${from} to ${now.point}`,
      after: () => (now.taped ? done() : here.set({ placing: { ...now, taped: from }, typed: "" })),
    });
  }
  if (now.how === "side") return fromSide(here, now, done, how);
  return [
    el("p", { class: "question", text: `How exactly is ${now.point} placed?` }),
    how,
    el("p", { class: "quiet", text: `As touched is good to about ${mm(2 * BY_EYE_MM)}.` }),
  ];
}

/** @param {Walk} here @param {any} now @param {() => void} done @param {Node} how @returns {Node[]} */
function fromSide(here, now, done, how) {
  const line = nearestSide(here, now.point);
  if (!line) return [el("p", { class: "ask", text: "Draw the shape first: there is no side yet." }), how];
  const [from, to] = line,
    [a, b] = line.map((name) => here.places.at.get(name) ?? [0, 0]),
    at = along(a, b, here.places.at.get(now.point) ?? [0, 0]);
  const question =
    now.along_mm === undefined
      ? `Along the side: from ${from} towards ${to}`
      : `Then square off the side, out to ${now.point}`;
  return [
    el("p", { class: "question", text: question }),
    ...askingPad(here, {
      label: question,
      keep: "Save length",
      bounds: { low_mm: 0, high_mm: 100_000, expected_mm: null },
      onKeep: async (value_mm) => {
        if (now.along_mm === undefined) return here.set({ placing: { ...now, along_mm: value_mm }, typed: "" });
        const kept = await here.change(`${now.point} from ${from} to ${to}`, (draft) => {
          const m = draft.measurements;
          m.sketch = (m.sketch ?? []).filter((/** @type {any} */ one) => one.name !== now.point);
          (m.offsets ??= []).push({
            name: now.point,
            line_from: from,
            line_to: to,
            along_mm: now.along_mm,
            offset_mm: at.off < 0 ? -value_mm : value_mm,
          });
        });
        if (kept) done();
      },
    }),
  ];
}
