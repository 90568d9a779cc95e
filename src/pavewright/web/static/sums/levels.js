// @ts-check
/** Falls, steps and what is dug. */
import { dim, held, known, line, shape, sheet, size, word } from "./sketch.js";

/**
 * A run that falls; the fall is drawn steeper than it is, or nothing would be seen.
 * @param {any} run
 * @param {any} drop
 * @param {string} ratio
 */
const slope = (run, drop, ratio) =>
  sheet(
    `A run of ${size(run)} that drops ${size(drop)}`,
    shape([
      [50, 80],
      [400, 140],
      [400, 175],
      [50, 175],
    ]),
    line(
      [
        [50, 80],
        [400, 80],
      ],
      { "stroke-dasharray": "6 5", "stroke-width": 1.2 },
    ),
    dim([50, 80], [400, 80], size(run)),
    dim([385, 80], [385, 137], size(drop), 12),
    word(215, 150, ratio, { "font-weight": 700 }),
    word(225, 215, "not to scale: the fall is drawn steeper", { "font-size": 13 }),
  );

/** @type {Record<string, (values: any) => SVGElement|null>} */
export const LEVELS = {
  fall: (v) => slope(v.run_mm, v.drop_mm, `1 in ${size(v.one_in, "")}`),
  "fall-between-levels": (v) => slope(v.run_mm, v.drop_mm, `1 in ${size(v.one_in, "")}`),
  "two-way-fall": (v) =>
    sheet(
      `Falls of 1 in ${size(v.one_in, "")} along and 1 in ${size(v.cross_one_in, "")} across`,
      shape([
        [90, 45],
        [360, 45],
        [360, 195],
        [90, 195],
      ]),
      line(
        [
          [120, 65],
          [220, 65],
        ],
        { stroke: "var(--water)", "stroke-width": 3 },
      ),
      word(275, 70, `1 in ${size(v.one_in, "")} →`),
      line(
        [
          [110, 75],
          [110, 150],
        ],
        { stroke: "var(--water)", "stroke-width": 3 },
      ),
      word(110, 175, `↓ 1 in ${size(v.cross_one_in, "")}`, { "text-anchor": "start", x: 100 }),
      line(
        [
          [140, 90],
          [345, 185],
        ],
        { stroke: "var(--act)", "stroke-width": 3 },
      ),
      word(285, 125, `steepest 1 in ${size(v.steepest_one_in, "")}`, { "font-weight": 700 }),
      known(v.run_mm) ? dim([90, 45], [360, 45], size(v.run_mm)) : null,
      known(v.cross_run_mm) ? dim([360, 45], [360, 195], size(v.cross_run_mm), 14) : null,
      known(v.far_corner_drop_mm) ? word(350, 218, `far corner ${size(v.far_corner_drop_mm)} lower`) : null,
    ),
  "level-below-dpc": (v) =>
    sheet(
      `Paving ${size(v.below_mm)} below the damp-proof course`,
      shape(
        [
          [60, 20],
          [120, 20],
          [120, 220],
          [60, 220],
        ],
        { fill: "var(--slab-cut)" },
      ),
      line(
        [
          [55, 70],
          [125, 70],
        ],
        { "stroke-width": 5 },
      ),
      word(135, 62, `damp-proof course ${size(v.dpc_mm)}`, { "text-anchor": "start" }),
      shape([
        [120, 160],
        [420, 166],
        [420, 190],
        [120, 190],
      ]),
      dim([200, 70], [200, 160], size(v.below_mm), 8),
      word(300, 210, `paving no higher than ${size(v.finished_mm)}`, { "font-weight": 700 }),
    ),
  risers(v) {
    if (!known(v.risers)) return null;
    const many = held(Math.round(v.risers), 1, 12),
      wide = 300 / many,
      high = 150 / many,
      at = [[60, 205]];
    for (let step = 0; step < many; step += 1)
      at.push([60 + step * wide, 205 - (step + 1) * high], [60 + (step + 1) * wide, 205 - (step + 1) * high]);
    at.push([60 + many * wide, 205]);
    return sheet(
      `${many} risers of ${size(v.riser_mm)}`,
      shape(at),
      dim([360, 55], [360, 205], size(v.rise_mm), 14),
      word(160, 60, `${Math.round(v.risers)} × ${size(v.riser_mm)}`, { "font-weight": 700 }),
      dim([60, 205], [360, 205], `going ${size(v.going_mm)} each`, -14),
    );
  },
  "dig-depth"(v) {
    const layers = Array.isArray(v.thicknesses_mm)
      ? v.thicknesses_mm.filter((/** @type {any} */ one) => one > 0).slice(0, 6)
      : [];
    if (!layers.length) return null;
    const whole = layers.reduce((/** @type {number} */ sum, /** @type {number} */ one) => sum + one, 0),
      fit = 130 / whole,
      drawn = [];
    let down = 85;
    for (const one of layers) {
      const deep = one * fit;
      drawn.push(
        shape(
          [
            [120, down],
            [330, down],
            [330, down + deep],
            [120, down + deep],
          ],
          { fill: drawn.length % 2 ? "var(--slab-cut)" : "var(--slab)" },
        ),
        deep >= 13 ? word(225, down + deep / 2 + 5, size(one)) : null,
      );
      down += deep;
    }
    return sheet(
      `Layers of ${size(whole)} below the finished level`,
      shape(
        [
          [60, 15],
          [110, 15],
          [110, 225],
          [60, 225],
        ],
        { fill: "var(--slab-cut)" },
      ),
      line(
        [
          [55, 35],
          [340, 35],
        ],
        { "stroke-dasharray": "6 5" },
      ),
      word(225, 28, `damp-proof course ${size(v.dpc_mm)}`),
      ...drawn.flat(),
      dim([330, 35], [330, 85], size(v.below_dpc_mm), 12),
      dim([330, 85], [330, 215], size(v.build_up_mm), 12),
      word(225, 234, `formation ${size(v.formation_mm)}`, { "font-weight": 700 }),
    );
  },
};
