// @ts-check
import { el } from "../../lib/dom.js";
import { fact, facts, table } from "../../lib/results.js";
import { level, metres, plain } from "../../lib/words.js";

/** @param {Planned} state */
export function results(state) {
  const out = state.plan.setting_out,
    names = out.pegs[0]?.heights.map((one) => one.layer) ?? [];
  return [
    facts(
      fact("Pegs", String(out.pegs.length)),
      fact("Strings", String(out.strings.length)),
      fact("Strings above paving", `${plain(out.string_height_mm)} mm`),
    ),
    el("p", { class: "quiet", text: out.services_words }),
    table(
      [
        { head: "Peg" },
        { head: "Where" },
        { head: "String", number: true },
        ...names.map((/** @type {string} */ name) => ({ head: `Down to ${name}`, number: true })),
      ],
      out.pegs.map((peg) => [
        peg.name,
        peg.no_pin ? `${peg.no_pin.words} · ${peg.from_corner}` : peg.from_corner,
        peg.role === "base" ? "–" : level(peg.string_level_mm),
        ...peg.heights.map((one) => (peg.role === "base" ? "–" : plain(one.down_from_string_mm))),
      ]),
      "Pegs",
    ),
    table(
      [
        { head: "String" },
        { head: "From" },
        { head: "To" },
        { head: "Length", number: true },
        { head: "Falls", number: true },
      ],
      out.strings.map((line) => [line.name, line.start, line.end, metres(line.length_mm), `${plain(line.fall_mm)} mm`]),
      "Strings",
    ),
    table(
      [{ head: "Tape to check" }, { head: "Should read", number: true }],
      out.checks.map((one) => [one.name, metres(one.expected_mm)]),
      "Tapes to check",
    ),
  ];
}
export const inputs = () => [];
