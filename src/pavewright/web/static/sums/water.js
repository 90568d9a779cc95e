// @ts-check
/** Pits and channels. */
import { dim, held, known, line, shape, sheet, size, word } from "./sketch.js";

/**
 * A channel in section, water in it to its depth.
 * @param {any} wide
 * @param {any} deep
 * @param {any} water
 * @param {string} told
 */
function channel(wide, deep, water, told) {
  if (!known(wide, water)) return null;
  const whole = known(deep) ? Math.max(deep, water) : water * 1.4,
    fit = Math.min(240 / wide, 130 / whole),
    w = Math.max(wide * fit, 50),
    h = held(whole * fit, 40, 130),
    wet = held((water / whole) * h, 3, h),
    x = 240 - w / 2,
    y = 190;
  return sheet(
    `A channel ${size(wide)} wide with ${size(water)} of water`,
    shape(
      [
        [x, y - wet],
        [x + w, y - wet],
        [x + w, y],
        [x, y],
      ],
      { fill: "var(--act-soft)", stroke: "none" },
    ),
    line(
      [
        [x, y - wet],
        [x + w, y - wet],
      ],
      { stroke: "var(--water)", "stroke-width": 3 },
    ),
    line(
      [
        [x - 14, y - h],
        [x, y - h],
        [x, y],
        [x + w, y],
        [x + w, y - h],
        [x + w + 14, y - h],
      ],
      { "stroke-width": 4 },
    ),
    dim([x, y], [x + w, y], size(wide), -14),
    dim([x + w, y - wet], [x + w, y], size(water), 24),
    word(240, 28, told, { "font-weight": 700 }),
  );
}

/** @type {Record<string, (values: any) => SVGElement|null>} */
export const WATER = {
  "soakaway-pit"(v) {
    if (!known(v.length_mm, v.width_mm, v.depth_mm)) return null;
    const part = known(v.required_m3, v.available_m3) ? held(v.required_m3 / v.available_m3, 0.05, 1) : 0,
      wet = 130 * part;
    return sheet(
      `A pit of ${size(v.length_mm)} by ${size(v.width_mm)}, ${size(v.depth_mm)} deep`,
      shape(
        [
          [110, 60],
          [350, 60],
          [350, 190],
          [110, 190],
        ],
        { fill: "var(--slab-cut)" },
      ),
      part
        ? shape(
            [
              [110, 190 - wet],
              [350, 190 - wet],
              [350, 190],
              [110, 190],
            ],
            { fill: "var(--act-soft)", stroke: "var(--water)" },
          )
        : null,
      dim([110, 190], [350, 190], `${size(v.length_mm)} × ${size(v.width_mm)}`, -14),
      dim([350, 60], [350, 190], size(v.depth_mm), 14),
      word(
        230,
        40,
        known(v.available_m3) ? `needs ${size(v.required_m3, "m³")}, holds ${size(v.available_m3, "m³")}` : "",
        { "font-weight": 700 },
      ),
    );
  },
  "open-channel": (v) => channel(v.width_mm, undefined, v.water_mm, `${size(v.flow_l_s, "l/s")}`),
  "level-channel": (v) => channel(v.width_mm, v.depth_mm, v.depth_mm, `max ${size(v.flow_l_s, "l/s")}`),
  "collector-channel": (v) =>
    channel(v.width_mm, v.depth_mm, v.deepest_mm, `deepest ${size(v.deepest_mm)} of ${size(v.depth_mm)}`),
  "water-behind-lip": (v) =>
    known(v.lip_mm)
      ? sheet(
          "Water behind a lip",
          shape([
            [60, 120],
            [360, 165],
            [360, 130],
            [385, 130],
            [385, 200],
            [60, 200],
          ]),
          shape(
            [
              [127, 130],
              [360, 130],
              [360, 165],
            ],
            { fill: "var(--act-soft)", stroke: "var(--water)" },
          ),
          dim([385, 130], [385, 165], size(v.lip_mm), 12),
          dim([127, 130], [360, 130], size(v.backs_up_mm)),
          word(225, 225, `${size(v.litres_per_m, "litres a metre")}; drawn steeper than it is`, {
            "font-size": 14,
          }),
        )
      : null,
};
