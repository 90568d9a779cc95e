// @ts-check
/** Slabs in a run, layers and concrete. */
import { dim, held, known, shape, sheet, size, word } from "./sketch.js";

/** A box seen from one corner. @param {any} long @param {any} wide @param {any} deep @param {string} told */
const box = (long, wide, deep, told) =>
  known(long, wide, deep)
    ? sheet(
        `A body of ${size(long)} by ${size(wide)} by ${size(deep)}`,
        shape([
          [70, 100],
          [330, 100],
          [330, 175],
          [70, 175],
        ]),
        shape([
          [70, 100],
          [140, 50],
          [400, 50],
          [330, 100],
        ]),
        shape(
          [
            [330, 100],
            [400, 50],
            [400, 125],
            [330, 175],
          ],
          { fill: "var(--slab-cut)" },
        ),
        dim([70, 175], [330, 175], size(long), -14),
        dim([330, 175], [400, 125], size(wide), -10),
        dim([70, 100], [70, 175], size(deep), -10),
        word(235, 30, told, { "font-weight": 700 }),
      )
    : null;

/** @type {Record<string, (values: any) => SVGElement|null>} */
export const STONE = {
  "strip-concrete": (v) => box(v.length_mm, v.width_mm, v.depth_mm, `${size(v.volume_m3, "m³")}`),
  "slab-weight": (v) => box(v.length_mm, v.width_mm, v.thickness_mm, `${size(v.kg, "kg")}`),
  "fit-in-run"(v) {
    if (!known(v.run_mm, v.unit_mm, v.whole)) return null;
    const fit = 400 / v.run_mm,
      drawn = [],
      many = Math.round(v.whole),
      pitch = (v.unit_mm + (v.joint_mm ?? 0)) * fit;
    if (many <= 60)
      for (let one = 0; one < many; one += 1)
        drawn.push(
          shape(
            [
              [40 + one * pitch, 95],
              [40 + one * pitch + v.unit_mm * fit, 95],
              [40 + one * pitch + v.unit_mm * fit, 145],
              [40 + one * pitch, 145],
            ],
            { "stroke-width": 1.2 },
          ),
        );
    const cut = v.cut_mm > 0 ? held(v.cut_mm * fit, 1, 400) : 0;
    return sheet(
      `${many} whole units in a run of ${size(v.run_mm)}`,
      ...drawn,
      cut
        ? shape(
            [
              [440 - cut, 95],
              [440, 95],
              [440, 145],
              [440 - cut, 145],
            ],
            { fill: "var(--slab-cut)", "stroke-dasharray": "4 3" },
          )
        : null,
      dim([40, 95], [440, 95], size(v.run_mm)),
      word(240, 180, `${many} whole, joint ${size(v.joint_mm)}`, { "font-weight": 700 }),
      word(240, 205, cut ? `cut ${size(v.cut_mm)}` : `left over ${size(v.rest_mm)}`),
    );
  },
  creep: (v) =>
    known(v.units_in_run)
      ? sheet(
          "A run that grows with its units",
          ...[0, 1, 2, 3, 4].map((one) =>
            shape([
              [50 + 72 * one, 80],
              [114 + 72 * one, 80],
              [114 + 72 * one, 130],
              [50 + 72 * one, 130],
            ]),
          ),
          shape(
            [
              [410, 80],
              [430, 80],
              [430, 130],
              [410, 130],
            ],
            { fill: "var(--slab-cut)", "stroke-dasharray": "4 3" },
          ),
          word(240, 175, `${size(v.units_in_run, "units")}: longer by ${size(v.growth_mm)}`, {
            "font-weight": 700,
          }),
        )
      : null,
};
