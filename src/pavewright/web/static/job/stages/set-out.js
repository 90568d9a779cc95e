// @ts-check
import { el } from "../../lib/dom.js";
import { form, group } from "../form/form.js";
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
    ...order(out.work),
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

/**
 * The order of work, each step with its check.
 * @param {Planned["plan"]["setting_out"]["work"]} work
 * @returns {Node[]}
 */
function order(work) {
  const up = (/** @type {number} */ value_mm) => `${plain(Math.ceil(value_mm))} mm`;
  return [
    table(
      [
        { head: "Step" },
        { head: "What" },
        { head: "How" },
        { head: "Comes within", number: true },
        { head: "Check" },
        { head: "Shows", number: true },
      ],
      work.steps.map((step) => [
        String(step.number),
        step.place,
        howWords(step),
        up(step.error.within_mm),
        step.checks
          .map((one) => `${one.start}–${one.end} ${metres(one.expected_mm)}, off by up to ${up(one.limit_mm)}`)
          .join("; ") || "tape it twice",
        step.finds_mm === null ? "–" : up(step.finds_mm),
      ]),
      "Order of work",
    ),
    work.tools.assumed.length
      ? el("p", {
          class: "quiet",
          text: "Tools that nobody entered are assumed as usual: enter yours, and each corner says how near it comes.",
        })
      : el("span"),
  ];
}

/** @param {Planned["plan"]["setting_out"]["work"]["steps"][number]} step */
function howWords(step) {
  const [one, two] = step.stations,
    [first, second] = step.tapes_mm;
  if (step.fixed_by === "base") return `from ${one}: ${metres(first)}, the base line`;
  if (step.fixed_by === "square")
    return `${metres(first)} along from ${one}, ${metres(Math.abs(second))} square ${second > 0 ? "left" : "right"}`;
  return `${metres(first)} from ${one}, ${metres(second)} from ${two}, crossing at ${plain(step.cut_deg ?? 0)}°`;
}

const TOOLS = {
  tape_read_sd_mm: "Reading of the tape, sd",
  square_sd_deg: "Right angle, sd",
  level_sd_mm: "Height, sd",
  string_kg_per_km: "String, grams to a metre",
  string_pull_kg: "Pull on the string, kg",
};

/** @param {JobState} state */
export const inputs = (state) => [
  group("Tools at hand", [form(state, ["tools"], { names: TOOLS })]),
  group("Strings as read, instrument set-ups", [form(state, [], { only: ["strings_set", "set_ups"] })]),
];
