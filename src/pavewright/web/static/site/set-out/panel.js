// @ts-check
/** Setting out: the order of work, strings as they hang, and an instrument that is set up. */
import { el } from "../../lib/dom.js";
import { mm, plain, tape } from "../../lib/words.js";
import { set, tabs } from "../parts.js";
import { noPlan } from "../pegs.js";
import { levelPanel } from "./level.js";
import { orderPanel } from "./order.js";
import { stringsPanel } from "./strings.js";

/** @typedef {import("../parts.js").Here} Here */

const PARTS = { order: orderPanel, strings: stringsPanel, level: levelPanel, lost: lostPanel };

/** @param {Here} here @returns {Node[]} */
export function setOut(here) {
  const out = here.view?.setting_out;
  if (!out?.pegs.length) return [noPlan(here.view)];
  const part = /** @type {keyof typeof PARTS} */ (here.ui.outPart in PARTS ? here.ui.outPart : "order");
  return [
    tabs(
      "Part of setting out",
      [
        ["order", "Order"],
        ["strings", "Strings"],
        ["level", "Level"],
        ["lost", "Lost peg"],
      ],
      part,
      (outPart) => set(here, { outPart, typed: "" }),
    ),
    ...PARTS[part](here),
  ];
}

/** How far the order of work is. @param {Here} here */
export function setOutSays(here) {
  const steps = /** @type {any} */ (here.view?.setting_out)?.work.steps ?? [];
  return steps.length ? `${Object.keys(here.ui.outDone ?? {}).length} of ${steps.length} steps done` : "";
}

/** Pins that were knocked out. @param {Here} here @returns {Node[]} */
function lostPanel(here) {
  const { lost, not_back } = /** @type {any} */ (here.view).setting_out.work;
  return [
    el("p", {
      class: "ask",
      text: "Two tapes from things that stay bring a pin back. Walls and doors, not other pegs.",
    }),
    ...lost.map((/** @type {any} */ one) =>
      el(
        "div",
        { class: "peg" },
        el("h2", { text: one.peg }),
        ...[one.first, one.second].map((place, index) =>
          el(
            "p",
            { class: "peg-string" },
            el("b", { text: tape(one.tapes_mm[index]) }),
            ` m from ${FIXED[place.kind]} ${place.name}${place.number ? `, corner ${place.number}` : ""}`,
          ),
        ),
        el("p", {
          class: one.is_steep ? "quiet" : "ask",
          text:
            `They cross at ${plain(one.cut_deg)}°${one.is_steep ? "" : ", flat: pull both tight"}. ` +
            `It comes back within ${mm(Math.ceil(2 * one.radial_mm))} or so.`,
        }),
      ),
    ),
    not_back.length
      ? el("p", {
          class: "ask",
          text: `No two fixed things are seen from ${not_back.join(", ")}: set again from the order.`,
        })
      : el("span"),
  ];
}

const FIXED = /** @type {Record<string, string>} */ ({
  wall_start: "the start of wall",
  wall_end: "the end of wall",
  jamb_left: "the first jamb of",
  jamb_right: "the second jamb of",
  obstacle: "a corner of",
});
