// @ts-check
/** Right angles, diagonals and arcs. */
import { dim, held, known, line, shape, sheet, size, word } from "./sketch.js";

/**
 * A rectangle to proportion with one or two diagonals.
 * @param {any} a
 * @param {any} b
 * @param {any} first
 * @param {any} second
 */
function rectangle(a, b, first, second) {
  if (!known(a, b)) return null;
  const fit = Math.min(300 / a, 140 / b),
    w = Math.max(a * fit, 60),
    h = Math.max(b * fit, 40),
    x = 240 - w / 2,
    y = 120 - h / 2;
  return sheet(
    `A rectangle of ${size(a)} by ${size(b)}`,
    shape([
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
    ]),
    line(
      [
        [x, y + h],
        [x + w, y],
      ],
      { stroke: "var(--act)" },
    ),
    second === undefined
      ? null
      : line(
          [
            [x, y],
            [x + w, y + h],
          ],
          { stroke: "var(--act)", "stroke-dasharray": "7 5" },
        ),
    dim([x, y], [x + w, y], size(a)),
    dim([x + w, y], [x + w, y + h], size(b), 14),
    word(
      240,
      y + h + 25,
      second === undefined ? `diagonal ${size(first)}` : `diagonals ${size(first)} and ${size(second)}`,
      { "font-weight": 700 },
    ),
  );
}
/** A right angle with its three sides. @param {any} a @param {any} b @param {any} across */
function corner(a, b, across) {
  if (!known(a, b)) return null;
  const fit = Math.min(250 / a, 150 / b),
    x = 130,
    y = 200,
    w = Math.max(a * fit, 40),
    h = Math.max(b * fit, 40);
  return sheet(
    `A corner with sides of ${size(a)} and ${size(b)}`,
    shape([
      [x, y],
      [x + w, y],
      [x, y - h],
    ]),
    line([
      [x, y - 16],
      [x + 16, y - 16],
      [x + 16, y],
    ]),
    dim([x, y], [x + w, y], size(a), -14),
    dim([x, y - h], [x, y], size(b), -14),
    word(x + w / 2 + 14, y - h / 2 - 8, size(across), { "text-anchor": "start", "font-weight": 700 }),
  );
}

/** @type {Record<string, (values: any) => SVGElement|null>} */
export const SETTING_OUT = {
  "rectangle-diagonal": (v) =>
    rectangle(v.side_a_mm ?? v.length_mm, v.side_b_mm ?? v.width_mm, v.diagonal_mm, undefined),
  "rectangle-diagonal-check": (v) => rectangle(v.side_a_mm, v.side_b_mm, v.diagonal_1_mm, v.diagonal_2_mm),
  "three-four-five": (v) => corner(v.four_mm, v.three_mm, v.five_mm),
  "right-angle-from-tapes": (v) => corner(v.side_a_mm, v.side_b_mm, v.across_mm),
  "arc-by-chord"(v) {
    if (!known(v.chord_mm, v.rise_mm, v.radius_mm)) return null;
    const rise = held((v.rise_mm / v.chord_mm) * 320, 8, 150),
      radius = (160 * 160 + rise * rise) / (2 * rise),
      at = [];
    for (let step = 0; step <= 40; step += 1) {
      const x = -160 + 8 * step,
        up = Math.sqrt(Math.max(radius * radius - x * x, 0)) - (radius - rise);
      at.push([240 + x, 195 - up]);
    }
    return sheet(
      `An arc over a chord of ${size(v.chord_mm)} with a rise of ${size(v.rise_mm)}`,
      shape(at),
      dim([80, 195], [400, 195], `chord ${size(v.chord_mm)}`, -14),
      dim([240, 195 - rise], [240, 195], `rise ${size(v.rise_mm)}`, 6),
      word(240, 22, `radius ${size(v.radius_mm)}, along the arc ${size(v.arc_length_mm)}`, { "font-weight": 700 }),
    );
  },
};
