// @ts-check
/** A level that is asked for: by the staff, by so much over a point whose level is known, or assumed by somebody. */
import { el } from "../lib/dom.js";
import { level } from "../lib/words.js";
import { picker, tabs } from "../site/parts.js";
import { lengthPart } from "./figures.js";
import { datumOf, levelsOf as readLevels, staffPad } from "./levelling.js";
import { asked, button } from "./parts.js";

/** @typedef {import("./frame.js").Walk} Walk */
/**
 * @typedef {{
 *   point: string, on: string, what: string, higher?: boolean, number?: boolean,
 *   put: (draft: any, value: any, assumed?: {by: string, why: string}|null) => void, after: () => void
 * }} LevelWish `number`: the field takes a level only, not the name of a point
 */

const WAYS = /** @type {[string, string][]} */ ([
  ["staff", "By staff"],
  ["over", "Over a point"],
  ["assumed", "Assume it"],
]);
const WHY = ["from the brick courses", "the owner says so", "as next door"];

/** Levels of all points, with those measured over another one. @param {any} doc @returns {Map<string, number>} */
export function levelsOf(doc) {
  const known = new Map(readLevels(doc)),
    over = doc.measurements?.heights_over ?? [];
  for (let turn = 0; turn < over.length; turn += 1)
    for (const one of over) {
      const from = known.get(one.over);
      if (from !== undefined && !known.has(one.point)) known.set(one.point, from + one.higher_mm);
    }
  return known;
}

/** @param {Walk} here @param {LevelWish} wish @returns {Node[]} */
export function levelPart(here, wish) {
  const way = here.ui.way || "staff",
    read = readOn(here, wish);
  return [
    tabs("How its level is known", WAYS, way, (next) => here.set({ way: next, typed: "" })),
    ...(way === "staff"
      ? [
          ...read,
          ...staffPad(here, {
            point: wish.point,
            words: `Staff on ${wish.what}`,
            more: staffMore(wish),
            after: wish.after,
          }),
        ]
      : overPart(here, wish, way === "assumed")),
  ];
}

/**
 * What was read already on the same kind of thing is taken with one touch.
 * @param {Walk} here
 * @param {LevelWish} wish
 */
function readOn(here, wish) {
  const known = levelsOf(here.doc),
    used = JSON.stringify(here.doc.site ?? {});
  const names = (here.doc.measurements?.level_books ?? [])
    .flatMap((/** @type {any} */ book) => book.rows)
    .filter((/** @type {any} */ row) => row.on === wish.on || row.point === wish.point)
    .map((/** @type {any} */ row) => row.point);
  return [...new Set(names)]
    .filter((name) => known.has(name) && (name === wish.point || !used.includes(JSON.stringify(name))))
    .map((name) =>
      el("button", {
        type: "button",
        class: "tall",
        text: `As read: ${name}, ${level(known.get(name) ?? 0)}`,
        on: { click: () => keep(here, wish, (draft) => wish.put(draft, wish.number ? known.get(name) : name)) },
      }),
    );
}

/** @param {LevelWish} wish */
const staffMore = (wish) => (/** @type {any} */ draft) => {
  for (const book of draft.measurements.level_books ?? [])
    for (const row of book.rows) if (row.point === wish.point && row.on === undefined) row.on = wish.on;
  wish.put(draft, wish.number ? (levelsOf(draft).get(wish.point) ?? null) : wish.point);
};

/** @param {Walk} here @param {LevelWish} wish @param {(draft: any) => void} act */
async function keep(here, wish, act) {
  if (await here.change(`Level of ${wish.what}`, act)) wish.after();
}

/** @param {Walk} here @param {LevelWish} wish @param {boolean} assumed @returns {Node[]} */
function overPart(here, wish, assumed) {
  const known = levelsOf(here.doc),
    names = [...known.keys()].filter((name) => name !== wish.point),
    over = names.includes(here.ui.over) ? here.ui.over : (names.find((name) => name === datumOf(here.doc)) ?? names[0]);
  if (!over) return [el("p", { class: "ask", text: "No level is known yet: choose the datum first." })];
  const higher = here.ui.higher ?? wish.higher ?? true,
    why = here.ui.why ?? WHY[0];
  const way = higher ? "above" : "below",
    what = wish.what.charAt(0).toUpperCase() + wish.what.slice(1),
    label = `${assumed ? "About how much" : "How much"} ${way} ${over}`;
  return [
    asked(`${what}: ${assumed ? "about how much" : "how much"} ${way} ${over}?`),
    el(
      "div",
      { class: "over-row" },
      picker("Measured from", names, over, (name) => here.set({ over: name }), {
        spoken: (name) => `${name} (${level(known.get(name) ?? 0)})`,
      }),
      button(higher ? "▲ Higher" : "▼ Lower", () => here.set({ higher: !higher }), {
        class: "",
        "aria-label": `It lies ${higher ? "higher" : "lower"}. Touch to change`,
      }),
    ),
    assumed
      ? el(
          "div",
          { class: "over-row" },
          picker("Why it is assumed", WHY, why, (next) => here.set({ why: next })),
        )
      : el("span"),
    ...lengthPart(here, {
      label,
      onKeep: (mm) => {
        const by = higher ? mm : -mm,
          at_mm = (known.get(over) ?? 0) + by;
        return keep(here, wish, (draft) => {
          const taken = { by: assumer(draft), why: `${why}, over ${over}` };
          if (assumed) wish.put(draft, wish.number ? at_mm : { assumed_mm: at_mm, ...taken }, taken);
          else {
            const list = ((draft.measurements ??= {}).heights_over ??= []);
            const old = list.findIndex((/** @type {any} */ one) => one.point === wish.point);
            if (old >= 0) list.splice(old, 1);
            list.push({ point: wish.point, over, higher_mm: by, by: "spirit_level" });
            wish.put(draft, wish.number ? at_mm : wish.point);
          }
        });
      },
    }),
  ];
}

/** Who assumes what is assumed on the walk. @param {any} doc */
export const assumer = (doc) => doc.identity?.contractor || "on the visit";
