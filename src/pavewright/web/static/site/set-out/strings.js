// @ts-check
/** Strings as they hang: the height read at a peg, and what lies how far below the string there. */
import { el } from "../../lib/dom.js";
import { level, mm, plain } from "../../lib/words.js";
import { keepChange } from "../changes.js";
import { glance, padFor, picker, set, tabs } from "../parts.js";
import { heightsRead, overPeg, staffShows } from "./hung.js";
import { sightNow } from "./level.js";

/** @typedef {import("../parts.js").Here} Here */

const RESTS = {
  read: "as read",
  one_end: "one end read, the other as planned",
  planned: "as planned: not read yet",
};

/** @param {Here} here @returns {Node[]} */
export function stringsPanel(here) {
  const out = /** @type {any} */ (here.view?.setting_out),
    taken = /** @type {any[]} */ (/** @type {any} */ (here.doc).strings_set ?? []),
    read = heightsRead(out.pegs, taken, out.work.peg_found_mm);
  const pegs = out.pegs.filter((/** @type {any} */ peg) => overPeg(peg, out.work.hung, out.pegs, read).length),
    ends = new Set(out.work.hung.flatMap((/** @type {any} */ one) => [one.start, one.end]));
  const open = [...ends].filter((name) => !read.has(/** @type {string} */ (name))),
    peg = pegs.find((/** @type {any} */ one) => one.name === here.ui.outPeg) ?? pegs[0];
  if (!peg) return [el("p", { class: "ask", text: "No string is planned yet." })];
  return [
    glance(ends.size - open.length, ends.size, "string ends read", /** @type {string} */ (open[0]) ?? ""),
    picker(
      "Peg",
      pegs.map((/** @type {any} */ one) => one.name),
      peg.name,
      (name) => set(here, { outPeg: name, typed: "" }),
      { spoken: (name) => `${read.has(name) ? "✓ " : ""}${name}${ends.has(name) ? " (string end)" : ""}` },
    ),
    el("p", { class: "quiet", text: peg.from_corner }),
    ...overPeg(peg, out.work.hung, out.pegs, read).map((one) => downTable(peg, one)),
    ...typing(here, peg, read),
    ...sags(out.work.hung.filter((/** @type {any} */ one) => one.prop)),
  ];
}

/** What lies how far below one string. @param {any} peg @param {ReturnType<typeof overPeg>[number]} over */
function downTable(peg, over) {
  const sag = over.sag_mm >= 0.5 ? `, its sag of ${mm(over.sag_mm)} taken off` : "";
  return el(
    "div",
    { class: "peg" },
    el("p", { class: "peg-string" }, `${over.string} at `, el("b", { text: level(over.level_mm) })),
    el("p", { class: over.hung_by === "read" ? "quiet" : "ask", text: `Height ${RESTS[over.hung_by]}${sag}.` }),
    el(
      "table",
      {},
      el("caption", { class: "unseen", text: `Down from ${over.string} at ${peg.name}` }),
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          el("th", { scope: "col", text: "Down from the string to" }),
          el("th", { scope: "col", class: "number", text: "mm" }),
        ),
      ),
      el(
        "tbody",
        {},
        ...peg.heights.map((/** @type {any} */ one) =>
          el(
            "tr",
            {},
            el("th", { scope: "row", text: one.layer }),
            el("td", { class: "number key", text: plain(over.level_mm - one.level_mm) }),
          ),
        ),
      ),
    ),
  );
}

/** Typing back where the string really is. @param {Here} here @param {any} peg @param {Map<string, number>} read */
function typing(here, peg, read) {
  const sight = sightNow(here),
    by = sight ? (here.ui.outBy ?? "staff") : here.ui.outBy === "below" ? "below" : "above";
  const ways = /** @type {[string, string][]} */ ([
    ...(sight ? [["staff", "Staff on it"]] : []),
    ["above", "mm too high"],
    ["below", "mm too low"],
  ]);
  const label = by === "staff" ? `Staff held on the string at ${peg.name}` : `String at ${peg.name}, ${by} its height`;
  return [
    tabs("How the height was read", ways, by, (outBy) => set(here, { outBy, typed: "" })),
    padFor(here, label, "Keep this height", (typed_mm) => {
      const level_mm =
        by === "staff" && sight
          ? staffShows(sight.level_mm, typed_mm)
          : peg.string_level_mm + (by === "below" ? -typed_mm : typed_mm);
      return keepHeight(here, peg, level_mm);
    }),
    read.has(peg.name)
      ? el(
          "div",
          { class: "last" },
          el("span", { class: "fill", text: `Read: ${level(/** @type {number} */ (read.get(peg.name)))}` }),
          el("button", { type: "button", text: "Delete it", on: { click: () => keepHeight(here, peg, null) } }),
        )
      : el("span"),
  ];
}

/** @param {Here} here @param {any} peg @param {number|null} level_mm null deletes it */
async function keepHeight(here, peg, level_mm) {
  const note = level_mm === null ? `Height at ${peg.name} deleted` : `String at ${peg.name}: ${level(level_mm)}`;
  const kept = await keepChange(
    here,
    (/** @type {any} */ draft) => {
      const others = (draft.strings_set ?? []).filter((/** @type {any} */ one) => one.peg !== peg.name);
      const mine = { peg: peg.name, x_mm: peg.at[0], y_mm: peg.at[1], level_mm };
      draft.strings_set = level_mm === null ? others : [...others, mine];
    },
    note,
  );
  if (kept) set(here, { typed: "" });
}

/** Strings that sag so far that they want a peg. @param {any[]} long @returns {Node[]} */
function sags(long) {
  if (!long.length) return [];
  const named = long.map((one) => `${one.name} (sags ${mm(one.sag_mm)})`).join(", ");
  return [el("p", { class: "ask", text: `Put a peg under the middle of ${named}.` })];
}
