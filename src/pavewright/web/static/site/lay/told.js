// @ts-check
/** What is said of a slab: the same words on the screen and aloud. */
import { plain } from "../../lib/words.js";
import { small } from "./keys.js";
import { LETTERS } from "./units.js";

/** @typedef {import("./slab.js").Advice} Advice */

/** @param {number[]} corners */
const named = (corners) => corners.map((each) => LETTERS[each]).join(" and ");

/** @type {Record<string, string>} */
const WHY = {
  rocks: "it rocks",
  twist: "its corners are twisted, and no tap takes that out",
  low: "too low",
  high: "too high to be tapped down",
  thin: "the bed would be too thin",
};

/** How a corner stands, in words. @param {number} over_mm @param {boolean} [unit] */
export const stands = (over_mm, unit = true) =>
  Math.abs(over_mm) < 0.25 ? "right" : `${small(over_mm, unit)} ${over_mm > 0 ? "high" : "low"}`;

/**
 * What to do, in one line, and what goes with it.
 * @param {Advice} advice @param {(number|null)[]} over @param {string} [rocks] under which corners it rocks
 * @returns {{head: string, lines: string[], mood: string}}
 */
export function adviceTold(advice, over, rocks = "") {
  if (advice.act === "read") {
    const open = over.flatMap((each, corner) => (each === null ? [corner] : []));
    return { head: `Read ${open.map((each) => LETTERS[each]).join(", ")}`, lines: [], mood: "" };
  }
  if (advice.act === "tap" && advice.tap) return { ...tapTold(advice.tap), mood: "unsure" };
  if (advice.act === "leave") return { head: "Lies well", lines: [], mood: "pass" };
  if (advice.act === "look")
    return {
      head: "As near as these readings can tell",
      lines: ["Lay a straight edge over each joint and feel the step, or read with a wedge."],
      mood: "unsure",
    };
  const reasons = advice.why.map((each) =>
    each === "low" && advice.low.length ? `${named(advice.low)} too low` : WHY[each],
  );
  const change = advice.bedChange,
    bed =
      change === null || Math.abs(change) < 1
        ? []
        : [
            change > 0
              ? `Put in about ${small(change)} of bed, so that it stands proud again.`
              : `Take out about ${small(change)} of bed.`,
          ];
  if (advice.why.includes("rocks"))
    bed.unshift(`The bed is high between ${rocks === "a_c" ? "B and D" : "A and C"}: take it off there.`);
  return { head: `Lift it, bed it again: ${reasons.join("; ")}`, lines: bed, mood: "fail" };
}

/** @param {import("./slab.js").Tap} tap */
function tapTold(tap) {
  const most = Math.max(...tap.down),
    near = tap.down.flatMap((each, corner) => (most - each < 1e-6 ? [corner] : [])),
    others = tap.down.flatMap((each, corner) =>
      each > 1e-6 && !near.includes(corner) ? [`${LETTERS[corner]} ${small(each)}`] : [],
    );
  const where = { middle: "Tap the middle", corner: "Tap halfway to ", side: "Tap halfway to side " }[tap.place],
    letters = tap.corners.map((each) => LETTERS[each]).join("–"),
    all = tap.place === "middle" && !others.length ? "all round" : `at ${named(near)}`;
  return {
    head: `${where}${letters}: ${small(most)} down ${all}`,
    lines: [
      [tap.held.length ? `Hold ${named(tap.held)}.` : "", others.length ? `Down with it: ${others.join(", ")}.` : ""]
        .filter(Boolean)
        .join(" "),
      "Then read it again.",
    ].filter(Boolean),
  };
}

/** @type {Record<string, string>} */
const MARK = { pass: "✓", fail: "✕", unsure: "?" };

/**
 * A step to a unit that lies.
 * @param {{lip_mm: number, sd_mm: number, verdict: string, other: number}} lip @param {number} doubt
 */
export function lipTold({ lip_mm, sd_mm, verdict, other }, doubt) {
  const way = Math.abs(lip_mm) < 0.25 ? "level with" : `${small(lip_mm)} ${lip_mm > 0 ? "over" : "under"}`;
  return `${MARK[verdict]} ${way} piece ${other}, ± ${plain(doubt * sd_mm, 1)} mm${
    verdict === "unsure" ? ": these readings cannot tell" : ""
  }`;
}

/**
 * What bags say of a bed.
 * @param {any} found @param {number} planned_mm @param {string} counted bags or barrows
 * @returns {{head: string, lines: string[], mood: string}}
 */
export function bedTold(found, planned_mm, counted) {
  if (found.runs === "unknown")
    return {
      head: "Unknown: nobody said how much more loose sand the bed takes than it measures",
      lines: [],
      mood: "unsure",
    };
  const range = `${plain(found.low_mm)} to ${plain(found.high_mm)} mm by the ${counted}, ${plain(planned_mm)} planned`,
    more = `At this rate the rest takes ${plain(found.more_low)} to ${plain(found.more_high)} ${counted} more.`;
  if (found.runs === "thick")
    return { head: `Bed runs thick: ${range}`, lines: [more, "Stop and measure the bed."], mood: "fail" };
  if (found.runs === "thin")
    return {
      head: `Bed runs thin: ${range}`,
      lines: ["Lift a unit and look at its back: a full bed, no hollows?"],
      mood: "fail",
    };
  if (found.runs === "as_planned") return { head: `Bed as planned: ${range}`, lines: [], mood: "pass" };
  const from = found.shows_from_m2;
  return {
    head: `Too early to say: ${range}`,
    lines: from ? [`A bed much too thick shows from about ${plain(from, 1)} m² on.`] : [],
    mood: "unsure",
  };
}
