// @ts-check
/** What two people did at once that no rule can merge: both side by side, in words, for a person to pick. */
import { el, tell } from "../lib/dom.js";
import { counted, cut, labelled, messageOf } from "../lib/words.js";
import { nameOf, said } from "./differences.js";
import { tag } from "../lib/writing.js";

/** @typedef {import("../lib/items.js").Step} Step */
/**
 * @typedef {{id: string, at: string, rev: number, note: string, kind: string, operation?: any, ours?: any,
 *   theirs?: any, ours_from?: {rev: number, at: string, note: string}, delivery?: any, message?: string}} ClashTold
 */

const WIDE = 700; // px of a screen on which both sides stand open

/** Where something stands, in words. @param {Step[]} at */
export const placeOf = (at) =>
  at
    .map((step) => (typeof step === "string" ? labelled(step).name : (nameOf(step.is ?? step) ?? "one of them")))
    .join(" › ");

/** A value as a person reads it, with its units. @param {any} value @param {string} field @returns {string} */
export function valueWords(value, field) {
  if (value === undefined || value === null) return "not there";
  if (Array.isArray(value)) return cut(value.map((each) => valueWords(each, field)).join(", ") || "none", 200);
  if (typeof value !== "object") return said(value, [field]);
  const parts = Object.entries(value).map(([name, each]) => {
    const words = each && typeof each === "object" ? (nameOf(each) ?? "given") : said(each, [name]);
    return `${labelled(name).name} ${words}`;
  });
  return cut(parts.join("; "), 240);
}

/** @param {string} iso */
const moment = (iso) =>
  new Date(iso).toLocaleString(tag(), { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });

/** What a clash is about, in a sentence. @param {ClashTold} one */
export function sentenceOf(one) {
  if (one.kind === "delivery") return `Readings from site that the job cannot take any more: ${one.message}`;
  const where = placeOf(one.operation.at);
  if (one.kind === "gone") return `${where}: what this belongs to was deleted meanwhile.`;
  if (one.kind === "changed") return `${where}: deleted by one, changed by another.`;
  if (one.kind === "taken") return `${where}: there is room for one, and two were given.`;
  return `${where}: two people gave two values.`;
}

/**
 * Both sides of a clash: what stands in the job, and what was sent.
 * @param {ClashTold} one @returns {[string, string]}
 */
export function sidesOf(one) {
  if (one.kind === "delivery") {
    const { kind, entries } = one.delivery;
    if (kind === "take_back")
      return [
        "as it is",
        `take back ${cut(entries.map((/** @type {any} */ each) => valueWords(each.entry, "")).join(" / "), 200)}`,
      ];
    return [
      "as it is, without them",
      cut(entries.map((/** @type {any} */ each) => valueWords(each, kind)).join(" / "), 240),
    ];
  }
  const field = [...one.operation.at].reverse().find((/** @type {Step} */ step) => typeof step === "string") ?? "";
  const gone = one.kind === "gone" ? "stays deleted" : valueWords(one.ours, field);
  return [gone, one.operation.op === "remove" ? "delete it" : valueWords(one.theirs, field)];
}

/** @param {ClashTold} one @param {JobState} state */
function shown(one, state) {
  const [ours, theirs] = sidesOf(one);
  /** @param {"ours"|"theirs"} pick @param {string} words */
  const key = (pick, words) =>
    el("button", {
      type: "button",
      text: words,
      on: {
        click: async (/** @type {any} */ event) => {
          const keys = event.target.closest("article").querySelectorAll("button");
          for (const each of keys) each.disabled = true;
          try {
            await state.pick(one.id, pick);
          } catch (problem) {
            for (const each of keys) each.disabled = false;
            tell(messageOf(problem));
          }
        },
      },
    });
  const since = one.ours_from ? `${moment(one.ours_from.at)}: ${one.ours_from.note}` : "";
  return el(
    "article",
    {},
    el("p", { text: sentenceOf(one) }),
    el(
      "div",
      { class: "sides" },
      side("In the job", ours, since, key("ours", one.kind === "delivery" ? "Leave them out" : "Keep this")),
      side("Sent", theirs, `${moment(one.at)}: ${one.note}`, key("theirs", "Take this")),
    ),
  );
}

/** @param {string} head @param {string} value @param {string} from @param {Node} key */
const side = (head, value, from, key) =>
  el(
    "div",
    { class: "side" },
    el("p", {}, el("span", { class: "quiet", text: head }), " ", el("b", { text: value })),
    from ? el("p", { class: "quiet", text: from }) : null,
    key,
  );

/** @param {HTMLElement} box @param {JobState} state */
export function tellClashes(box, state) {
  const all = /** @type {ClashTold[]} */ (state.clashes),
    named = JSON.stringify(all);
  box.hidden = !all.length;
  if (box.dataset.shown === named) return;
  box.dataset.shown = named;
  if (!all.length) return box.replaceChildren();
  // one at a time: the plan keeps its room
  box.replaceChildren(
    el(
      "details",
      { open: box.querySelector("details")?.open ?? innerWidth >= WIDE },
      el(
        "summary",
        {},
        el("span", { class: "word", text: "▲ TO PICK" }),
        ` ${counted(all.length, "change")} met another. Both are kept: say which holds.`,
      ),
      shown(all[0], state),
    ),
  );
}
