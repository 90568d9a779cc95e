// @ts-check
/** Bays as they lie on the plan: a hatch of its own for each stage, and the stage in words. */
import { svg } from "../../lib/dom.js";

export const STAGE_WORDS = { dug: "Dug", base: "Base in", bed: "Bed in", laid: "Laid", jointed: "Jointed" };

/**
 * A place well inside a bay: the middle of the widest stretch, among a few lines across it.
 * @param {number[][]} outline
 */
export function bayMiddle(outline) {
  const ys = outline.map((at) => at[1]),
    low = Math.min(...ys),
    high = Math.max(...ys);
  let best = { wide: -1, at: outline[0] };
  for (let part = 1; part < LINES; part += 1) {
    const y = low + ((high - low) * part) / LINES,
      found = /** @type {number[]} */ ([]);
    outline.forEach(([x1, y1], index) => {
      const [x2, y2] = outline[(index + 1) % outline.length];
      if (y1 > y !== y2 > y) found.push(x1 + ((x2 - x1) * (y - y1)) / (y2 - y1));
    });
    found.sort((one, other) => one - other);
    for (let index = 0; index + 1 < found.length; index += 2) {
      const wide = found[index + 1] - found[index];
      if (wide > best.wide + 1) best = { wide, at: [(found[index] + found[index + 1]) / 2, y] };
    }
  }
  return best.at;
}

const LINES = 6; // lines across a bay on which its word may stand

/** The stage of a bay in words, legible on its hatch. @param {doc.WorkStage} stage */
export const bayWord = (stage) => svg("text", { class: "bay-word", "text-anchor": "middle" }, STAGE_WORDS[stage]);

/** A bay as it lies on the plan. @param {{outline: number[][], stage: doc.WorkStage|null}} bay */
export function bayShape(bay) {
  const d = `M${bay.outline.map((at) => at.join(" ")).join("L")}Z`,
    fill = bay.stage ? `url(#bay-${bay.stage})` : "none";
  return svg("path", {
    d,
    fill,
    class: bay.stage ? `bay bay-${bay.stage}` : "bay",
    stroke: "currentColor",
    "stroke-width": 2,
    "vector-effect": "non-scaling-stroke",
  });
}

/** The hatches, in millimetres of the site. */
export function bayHatches() {
  const hatch = (/** @type {string} */ id, /** @type {string} */ d, size = 300) =>
    svg(
      "pattern",
      { id: `bay-${id}`, width: size, height: size, patternUnits: "userSpaceOnUse" },
      svg("rect", { width: size, height: size, class: `bay-ground bay-ground-${id}` }),
      svg("path", { d, fill: "none", stroke: "currentColor", "stroke-width": 24, opacity: 0.75 }),
    );
  return svg(
    "defs",
    {},
    hatch("dug", "M60 150h60M210 30h60M210 270h60"),
    hatch("base", "M0 300 300 0M-150 150 150 -150M150 450 450 150"),
    hatch("bed", "M0 300 300 0M0 0 300 300"),
    hatch("laid", "M0 0H300M0 150H300M0 0V150M150 150V300"),
    hatch("jointed", "M0 0H300V300H0Z", 150),
  );
}
