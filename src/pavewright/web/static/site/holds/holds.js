// @ts-check
/** Dig and layers: where work stops until somebody has looked, and what the dig found that nobody knew. */
import { tabs, set } from "../parts.js";
import { noPlan } from "../pegs.js";
import { finds } from "./found.js";
import { look } from "./look.js";
import { stateOf } from "./looks.js";

/** @typedef {import("../parts.js").Here} Here */

/** @param {Here} here @returns {Node[]} */
export function holds(here) {
  const part = here.view?.parts?.holds;
  if (!part) return [noPlan(here.view)];
  const which = here.ui.holdsPart === "found" ? "found" : "look";
  return [
    tabs(
      "What is entered",
      [
        ["look", "Hold points"],
        ["found", "The dig differs"],
      ],
      which,
      (holdsPart) => set(here, { holdsPart, typed: "" }),
    ),
    ...(which === "found" ? finds(here, part) : look(here, part)),
  ];
}

/** How many are looked at, for the button at the start. @param {Here} here */
export function holdsSay(here) {
  const part = here.view?.parts?.holds;
  if (!part?.holds.length) return "";
  const done = part.holds.filter((one) => stateOf(here, part, one).key === "pass").length;
  return `${done} of ${part.holds.length} passed`;
}
