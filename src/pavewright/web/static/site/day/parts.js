// @ts-check
/** Pieces of the panels of a day. */
import { el } from "../../lib/dom.js";
import { plain } from "../../lib/words.js";
import { keepChange } from "../changes.js";
import { today } from "../this-phone.js";
import { bookName } from "../staff.js";
import { mine } from "./log.js";

/** @typedef {import("../parts.js").Here} Here */

/** Hours, to a tenth where they are not whole. @param {number} value */
export const inHours = (value) => `${plain(value, Math.abs(value - Math.round(value)) < 0.05 ? 0 : 1)} h`;

/** The name of the log that this phone writes today. @param {Here} here */
export function dayName(here) {
  const date = today();
  if (here.ui.dayOn !== date || !here.ui.dayName) {
    here.ui.dayOn = date;
    here.ui.dayName = bookName("Log");
    here.remember();
  }
  return here.ui.dayName;
}

/** The log that this phone wrote today; null where there is none yet. @param {Here} here @returns {doc.SiteDay|null} */
export const dayOf = (here) =>
  here.ui.dayOn === today() ? (here.doc.site_days?.find((one) => one.name === here.ui.dayName) ?? null) : null;

/**
 * Change the log of today.
 * @param {Here} here @param {string} note
 * @param {(day: doc.SiteDay, draft: JobDocument) => void} act
 */
export function write(here, note, act) {
  const name = dayName(here);
  return keepChange(here, (draft) => act(mine(draft, name, today()), draft), note);
}

/**
 * A photo comes into the log of today where this phone writes one.
 * @param {Here} here @param {string} id @param {string} note
 */
export function logPhoto(here, id, note) {
  if (!dayOf(here)) return;
  write(here, `Photo in the log: ${note || "no note"}`, (day) => {
    day.photos = [...(day.photos ?? []), id];
  });
}

/**
 * A line to type in, kept when it is left.
 * @param {string} label @param {string} value @param {(value: string) => void} act
 * @param {{unit?: string, number?: boolean, hint?: string}} [wishes]
 */
export function line(label, value, act, wishes = {}) {
  const input = el("input", {
    type: "text",
    class: "tall",
    maxlength: "200",
    autocomplete: "off",
    inputmode: wishes.number ? "decimal" : "text",
    placeholder: wishes.hint ?? null,
    value,
    "aria-label": wishes.unit ? `${label}, ${wishes.unit}` : label,
  });
  typing(input, act);
  return el(
    "label",
    { class: "field" },
    el("span", { class: "name", text: wishes.unit ? `${label}, ${wishes.unit}` : label }),
    input,
  );
}

/**
 * What is typed and not kept yet stays while the panel is drawn anew; it is kept when the line is left.
 * @param {HTMLInputElement|HTMLTextAreaElement} input @param {(value: string) => void} act
 */
export function typing(input, act) {
  input.addEventListener("input", () => {
    input.dataset.typed = "1";
  });
  input.addEventListener("change", () => {
    delete input.dataset.typed;
    act(input.value.trim());
  });
}

/** A number as people write it; null where it is none. @param {string} typed */
export function numberIn(typed) {
  const text = typed.trim().replace(",", ".").replace("−", "-");
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : null;
}
