// @ts-check
/** What the parts of the check share: names of new entries, a place on the plan, boxes for words and days. */
import { el } from "../../lib/dom.js";
import { plain } from "../../lib/words.js";
import { set } from "../parts.js";
import { siteMap } from "../map.js";
import { areaAt } from "../reading.js";

/** @typedef {import("../parts.js").Here} Here */

/** @type {Record<string, string>} */
export const VERDICT = { pass: "✓ Pass", fail: "✕ Fail", unsure: "? Inconclusive" };

/** One line for the button at the start. @param {Here} here */
export function checkSays(here) {
  const open = (here.doc.snags ?? []).filter((one) => (one.state ?? "open") === "open").length,
    read = here.doc.as_laid?.readings?.length ?? 0;
  return [read ? `${read} levels read` : "", open ? `${open} snags open` : ""].filter(Boolean).join(", ");
}

/** Today where the phone is. */
export function today() {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

/** A name that no other entry has: the letter and the next number. @param {string} letter @param {any[]} had */
export function freeName(letter, had) {
  const names = new Set(had.map((one) => one.name));
  for (let number = 1; ; number += 1) if (!names.has(`${letter}${number}`)) return `${letter}${number}`;
}

/** The area chosen, the only one, or the first. @param {Here} here */
export function areaChosen(here) {
  const names = (here.doc.areas ?? []).map((one) => one.name);
  return names.includes(here.ui.checkArea) ? here.ui.checkArea : (names[0] ?? "");
}

/** The plan on which a place is tapped; folded until it is wanted. @param {Here} here @param {any[]} [shown] */
export function placeOn(here, shown = []) {
  const view = here.view,
    at = here.ui.checkAt ?? null;
  if (!view?.levels) return el("span");
  return el(
    "details",
    {
      class: "group map-group",
      open: Boolean(here.ui.checkMap),
      on: {
        toggle: (/** @type {{target: HTMLDetailsElement}} */ event) => {
          here.ui.checkMap = event.target.open;
          here.remember();
        },
      },
    },
    el("summary", {
      text: at ? `At ${plain(at[0] / 1000, 1)} m, ${plain(at[1] / 1000, 1)} m: the plan` : "Tap the place on the plan",
    }),
    siteMap(here, {
      at,
      read: shown,
      pick: (point) => {
        const found = areaAt(view, point);
        if (!found.area || found.off_mm > 300) return here.say("That is not on the paving.");
        set(here, { checkAt: point.map((each) => Math.round(each)), checkArea: found.area });
      },
    }),
  );
}

/** The place as it is kept: nothing where none was tapped. @param {Here} here */
export const placed = (here) => (here.ui.checkAt ? { x_mm: here.ui.checkAt[0], y_mm: here.ui.checkAt[1] } : {});

/**
 * A box for a few words or a day; what is typed stays.
 * @param {Here} here @param {string} label @param {string} key of `here.ui` @param {"text"|"date"} [type]
 */
export function wordBox(here, label, key, type = "text") {
  const input = el("input", {
    type,
    class: "tall",
    maxlength: type === "text" ? 200 : null,
    autocomplete: "off",
    value: here.ui[key] ?? "",
    on: {
      input: () => {
        here.ui[key] = input.value;
        here.remember();
      },
    },
  });
  return el("label", { class: "field" }, el("span", { class: "name", text: label }), input);
}

/**
 * A yes or no, ticked.
 * @param {Here} here @param {string} label @param {string} key of `here.ui`
 */
export const tick = (here, label, key) =>
  el(
    "label",
    { class: "field tick" },
    el("input", {
      type: "checkbox",
      checked: Boolean(here.ui[key]),
      on: {
        change: (/** @type {{target: HTMLInputElement}} */ event) => {
          here.ui[key] = event.target.checked;
          here.remember();
        },
      },
    }),
    el("span", { class: "name", text: label }),
  );

/** A verdict, loud. @param {string} found @param {string} what @param {string} why */
export const told = (found, what, why) =>
  el(
    "div",
    { class: `finding verdict ${found}`, role: "status" },
    el("p", { class: "big", text: `${VERDICT[found]}: ${what}` }),
    el("p", { text: why }),
  );

/**
 * The readings as laid of a draft, begun today where there are none.
 * @param {JobDocument} draft
 * @returns {any}
 */
export function laidOf(draft) {
  draft.as_laid ??= /** @type {any} */ ({ date: today(), readings: [] });
  return draft.as_laid;
}
