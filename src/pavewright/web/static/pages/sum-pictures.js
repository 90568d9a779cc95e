// @ts-check
/** Small pictures of sums, with the numbers put in. Not to scale: they say which measure is which. */
import { svg } from "../lib/dom.js";
import { plain } from "../lib/words.js";

const pen = { fill: "none", stroke: "currentColor", "stroke-width": 2 };
const thin = { fill: "none", stroke: "currentColor", "stroke-width": 1 };
const mm = (/** @type {number} */ value) => plain(value, Number.isInteger(value) ? 0 : 1);

/** @param {string} label @param {...Node} inside */
const picture = (label, ...inside) => svg("svg", { viewBox: "0 0 360 170", role: "img", "aria-label": label, class: "paper" }, ...inside);
/** @param {number} x @param {number} y @param {string} words @param {string} [anchor] */
const say = (x, y, words, anchor = "middle") => svg("text", { x, y, "font-size": 14, "text-anchor": anchor, fill: "currentColor", text: words });
/** A dimension line. @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 @param {string} words */
function dim(x1, y1, x2, y2, words) {
  const flat = Math.abs(y2 - y1) < Math.abs(x2 - x1), mx = (x1 + x2) / 2, my = (y1 + y2) / 2, tick = flat ? [0, 5] : [5, 0];
  return svg("g", {}, svg("path", { d: `M${x1} ${y1}L${x2} ${y2}M${x1 - tick[0]} ${y1 - tick[1]}L${x1 + tick[0]} ${y1 + tick[1]}M${x2 - tick[0]} ${y2 - tick[1]}L${x2 + tick[0]} ${y2 + tick[1]}`, ...thin }), flat ? say(mx, my - 6, words) : say(mx + 8, my + 5, words, "start"));
}
const line = (/** @type {string} */ d, more = {}) => svg("path", { d, ...pen, ...more });

/** @type {Record<string, (given: any, found: any) => SVGElement>} */
export const PICTURES = {
  "fall": (given, found) => picture("A run that falls", line("M30 60L320 110"), line("M30 60H320", { "stroke-dasharray": "5 4", "stroke-width": 1 }), dim(30, 40, 320, 40, `${mm(given.run_mm)} mm`), dim(332, 60, 332, 110, ""), say(322, 132, `drop ${mm(found.drop_mm)} mm`, "end"), say(150, 105, `1 in ${mm(given.one_in)}`)),
  "two-way-fall": (given) => picture("A bay that falls two ways", line("M50 30H310V140H50Z"), line("M70 50L290 120", { "stroke-width": 3 }), line("M290 120l-12 1M290 120l-6 -10"), dim(50, 18, 310, 18, `${mm(given.run_mm)}, 1 in ${mm(given.one_in)}`), dim(322, 30, 322, 140, ""), say(320, 160, `across ${mm(given.cross_run_mm)}, 1 in ${mm(given.cross_one_in)}`, "end")),
  "three-four-five": (_given, found) => { const values = Object.values(found).filter((each) => typeof each === "number"); return picture("A right angle from three tapes", line("M60 140H280L60 30Z"), line("M60 125H75V140"), say(170, 160, mm(Number(values[1] ?? 4))), say(50, 90, mm(Number(values[0] ?? 3)), "end"), say(185, 78, mm(Number(values[2] ?? 5)), "start")); },
  "rectangle-diagonal-check": (given) => picture("Two diagonals", line("M60 40L300 30L310 140L50 140Z"), line("M60 40L310 140M300 30L50 140", { "stroke-dasharray": "6 4" }), say(180, 24, mm(given.side_a_mm)), say(322, 90, mm(given.side_b_mm), "start"), say(115, 78, mm(given.diagonal_1_mm), "end"), say(250, 78, mm(given.diagonal_2_mm), "start")),
  "arc-by-chord": (given) => picture("A curve by chord and rise", line("M40 130Q180 10 320 130"), line("M40 130H320", { "stroke-dasharray": "5 4" }), dim(40, 152, 320, 152, ""), say(180, 168, `chord ${mm(given.chord_mm)}`), dim(180, 70, 180, 130, `rise ${mm(given.rise_mm)}`)),
  "strip-concrete": (given) => picture("A strip of concrete", line("M40 70L260 70L320 40L100 40ZM40 70V120H260V70M260 120L320 90V40"), say(150, 142, `long ${mm(given.length_mm)}`), say(302, 122, `wide ${mm(given.width_mm)}`, "start"), say(34, 100, mm(given.depth_mm), "end")),
  "risers": (given, found) => picture("Equal risers", line("M40 140H110V110H180V80H250V50H320"), dim(332, 50, 332, 140, ""), say(322, 36, `rise ${mm(given.rise_mm)}`, "end"), say(112, 130, `${mm(Object.values(found).find((each) => typeof each === "number" && each > 50) ?? 0)} each`, "start"), dim(110, 100, 180, 100, mm(given.going_mm))),
  "soakaway-pit": (given) => picture("A pit full of stone", line("M20 40H340", { "stroke-width": 1 }), line("M90 40V140H270V40"), svg("path", { d: "M95 70H265M95 90H265M95 110H265M95 130H265", ...thin, "stroke-dasharray": "3 7" }), dim(90, 158, 270, 158, ""), say(180, 30, `${mm(given.length_mm)} × ${mm(given.width_mm)}`), dim(284, 40, 284, 140, mm(given.depth_mm)), say(180, 108, `${mm(given.void_percent)} % voids`)),
  "dig-depth": (given) => { const layers = given.thicknesses_mm, height = 78 / Math.max(layers.length, 1); return picture("From the damp-proof course down to formation", line("M40 20V160M70 20V160M40 20H70"), line("M20 40H90", { "stroke-dasharray": "6 4" }), say(96, 40, `DPC ${mm(given.dpc_mm)}`, "start"), dim(110, 50, 110, 74, ""), say(120, 67, `${mm(given.below_dpc_mm)} below`, "start"), ...layers.map((/** @type {number} */ thick, /** @type {number} */ index) => svg("g", {}, line(`M70 ${74 + index * height}H330V${74 + (index + 1) * height}H70`), say(340 - 140, 74 + (index + 0.62) * height, mm(thick))))); },
  "level-below-dpc": (given, found) => picture("Paving below the damp-proof course", line("M50 15V150M90 15V150"), line("M30 45H110", { "stroke-dasharray": "6 4" }), say(118, 45, `DPC ${mm(given.dpc_mm)}`, "start"), line("M90 110H330V128H90"), dim(150, 45, 150, 110, `${mm(given.below_mm)}`), say(330, 102, `finished ${mm(found.finished_mm ?? Object.values(found)[0])}`, "end")),
  "fit-in-run": (given, found) => { const n = Math.min(6, Math.max(2, Math.round(Number(Object.values(found).find((each) => typeof each === "number") ?? 4)))); const wide = 300 / n; return picture("Units and joints in a run", ...Array.from({ length: n }, (_, index) => svg("rect", { x: 30 + index * wide, y: 60, width: wide - 8, height: 50, ...pen })), dim(30, 44, 330, 44, `${mm(given.run_mm)} mm`), say(30 + wide / 2 - 4, 90, mm(given.unit_mm)), say(180, 132, `joints of ${mm(given.joint_mm)}`)); },
  "dished-channel": (given) => picture("A dished channel", line("M30 50H110Q180 150 250 50H330"), line("M128 70H232", { "stroke-width": 1 }), dim(110, 36, 250, 36, `${mm(given.width_mm)} mm`), dim(180, 50, 180, 100, `dish ${mm(given.dish_mm)}`), say(262, 78, `water ${mm(given.water_mm)}`, "start")),
  "slab-weight": (given) => picture("A slab", line("M50 90L210 120L310 70L150 45ZM50 90V105L210 136L310 86V70M210 120V136"), say(110, 130, mm(given.length_mm)), say(284, 118, mm(given.width_mm)), say(40, 102, mm(given.thickness_mm), "end")),
};
