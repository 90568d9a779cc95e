// @ts-check
/** An instrument that is set up: the staff reading to show at each peg, worked out on the phone. */
import { el } from "../../lib/dom.js";
import { level, mm, plain } from "../../lib/words.js";
import { keepChange } from "../changes.js";
import { padFor, picker, set } from "../parts.js";
import { datums, knownLevels } from "../reading.js";
import { noDatum } from "../staff.js";
import { sightHeight, staffShows } from "./hung.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {{name: string, point: string, backsight_mm: number}} SetUp */

/**
 * The set-up that is worked from, with the height of its sight; null where there is none or its point has no level.
 * @param {Here} here @returns {(SetUp & {level_mm: number})|null}
 */
export function sightNow(here) {
  const all = /** @type {SetUp[]} */ (/** @type {any} */ (here.doc)?.set_ups ?? []),
    now = all.find((one) => one.name === here.ui.outSight) ?? all.at(-1),
    known = now && !here.ui.outFresh ? knownLevels(here.doc, here.view).get(now.point) : undefined;
  return now && known !== undefined ? { ...now, level_mm: sightHeight(known, now.backsight_mm) } : null;
}

/** @param {Here} here @returns {Node[]} */
export function levelPanel(here) {
  const sight = sightNow(here),
    out = /** @type {any} */ (here.view?.setting_out);
  if (!sight) return begin(here);
  const pegs = out.pegs.filter((/** @type {any} */ peg) => peg.role !== "base"),
    peg = pegs.find((/** @type {any} */ one) => one.name === here.ui.outPeg) ?? pegs[0];
  const sd = out.work.tools.level_sd_mm * Math.SQRT2;
  return [
    el(
      "p",
      { class: "reduced" },
      el("b", { text: `Height of sight ${level(sight.level_mm)}` }),
      ` from ${plain(sight.backsight_mm)} on ${sight.point}`,
    ),
    picker(
      "Staff at",
      pegs.map((/** @type {any} */ one) => one.name),
      peg.name,
      (name) => set(here, { outPeg: name }),
    ),
    el("p", { class: "quiet", text: peg.from_corner }),
    showTable(peg, sight.level_mm),
    el("p", {
      class: "quiet",
      text: `A height shown so is good to ${mm(Math.ceil(2 * sd))}, nineteen times in twenty.`,
    }),
    el("button", {
      type: "button",
      text: "The instrument was moved",
      on: { click: () => set(here, { outFresh: true, typed: "" }) },
    }),
  ];
}

/** @param {any} peg @param {number} sight_mm */
function showTable(peg, sight_mm) {
  const rows = [{ layer: "string as planned", level_mm: peg.string_level_mm }, ...peg.heights];
  return el(
    "div",
    { class: "peg" },
    el(
      "table",
      {},
      el("caption", { class: "unseen", text: `Staff readings to show at ${peg.name}` }),
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          el("th", { scope: "col", text: "Staff on" }),
          el("th", { scope: "col", class: "number", text: "shows, mm" }),
        ),
      ),
      el(
        "tbody",
        {},
        ...rows.map((one) => {
          const shown = staffShows(sight_mm, one.level_mm);
          return el(
            "tr",
            {},
            el("th", { scope: "row", text: one.layer }),
            el("td", { class: "number key", text: shown < 0 ? "above the sight" : plain(shown) }),
          );
        }),
      ),
    ),
  );
}

/** @param {Here} here @returns {Node[]} */
function begin(here) {
  const choices = datums(here.doc, here.view),
    point = choices.includes(here.ui.outPoint) ? here.ui.outPoint : (choices[0] ?? "");
  if (!point) return [noDatum()];
  return [
    el("p", { class: "ask", text: "Set the instrument up and read the staff on a point of known level." }),
    picker("Staff on", choices, point, (name) => set(here, { outPoint: name })),
    padFor(here, `Staff reading on ${point}`, "Work from this", async (backsight_mm) => {
      const name = freeName(here),
        mine = { name, point, backsight_mm: Math.round(backsight_mm) };
      const kept = await keepChange(
        here,
        (/** @type {any} */ draft) => {
          draft.set_ups = [...(draft.set_ups ?? []), mine];
        },
        `Instrument set up on ${point}: ${mm(backsight_mm)}`,
      );
      if (kept) set(here, { outSight: name, outFresh: false, typed: "" });
    }),
    here.ui.outFresh
      ? el("button", {
          type: "button",
          text: "It was not moved",
          on: { click: () => set(here, { outFresh: false, typed: "" }) },
        })
      : el("span"),
  ];
}

/** A name that no other phone gives. @param {Here} here */
function freeName(here) {
  const tail = Array.from(crypto.getRandomValues(new Uint8Array(2)), (byte) => byte.toString(16).padStart(2, "0"));
  return `Set-up ${/** @type {any} */ (here.doc.set_ups ?? []).length + 1} ${tail.join("")}`;
}
