// @ts-check
/**
 * The few sums that a page works out by itself: on site without signal, and while a sheet is zoomed or a solid turned.
 *
 * Each is a second telling of a function of the program and is held to it by tests/js/vectors.json, which the program
 * makes: node runs this file against it, pytest the program. Nothing here touches the page or knows a figure of the
 * trade: limits come with the plan.
 */

/** @typedef {[number, number]|number[]} At */

// ---- places

/** Whether a place lies within rings, by even and odd. @param {At} at @param {At[][]} rings */
export function inside([x, y], rings) {
  let within = false;
  for (const ring of rings)
    ring.forEach(([x1, y1], index) => {
      const [x2, y2] = ring[(index + 1) % ring.length];
      if (y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) within = !within;
    });
  return within;
}

/**
 * How far a place lies from a stretch, and how far along it the nearest point is.
 * @param {At} at
 * @param {At} from
 * @param {At} to
 */
export function toStretch([x, y], [x1, y1], [x2, y2]) {
  const span2 = (x2 - x1) ** 2 + (y2 - y1) ** 2;
  const along = span2 ? Math.min(1, Math.max(0, ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / span2)) : 0;
  return { away_mm: Math.hypot(x1 + along * (x2 - x1) - x, y1 + along * (y2 - y1) - y), along };
}

/** How far a place lies from the sides of a ring. @param {At} at @param {At[]} ring */
export const toRing = (at, ring) =>
  Math.min(...ring.map((from, index) => toStretch(at, from, ring[(index + 1) % ring.length]).away_mm));

/** How far a place lies outside a ring; zero inside. @param {At[]} ring @param {At} at */
export const outsideBy = (ring, at) => (inside(at, [ring]) ? 0 : toRing(at, ring));

// ---- surfaces

/** Level of a plane at a place. @param {plan.Plane} plane @param {At} at */
export const planeLevel = ({ level_mm, origin_mm, slope_x, slope_y }, [x, y]) =>
  level_mm + slope_x * (x - origin_mm[0]) + slope_y * (y - origin_mm[1]);

/**
 * Level of a folded surface at a place: of the facet under it, or of the nearest.
 * @param {plan.FoldedSurface} surface
 * @param {At} at
 */
export function surfaceLevel({ facets }, at) {
  let [best] = facets,
    nearest = Infinity;
  for (const facet of facets.length > 1 ? facets : []) {
    const away = outsideBy(facet.outline, at);
    if (away < nearest) [best, nearest] = [facet, away];
  }
  return planeLevel(best.plane, at);
}

const EDGE = 1e-9;

/** Level of triangles at a place; null where none covers it. @param {plan.TriangulatedSurface} sheet @param {At} at */
export function triangleLevel({ points, triangles }, [x, y]) {
  for (const triangle of triangles) {
    const [a, b, c] = triangle.map((index) => points[index]);
    const size = (b[1] - c[1]) * (a[0] - c[0]) + (c[0] - b[0]) * (a[1] - c[1]);
    if (!size) continue;
    const u = ((b[1] - c[1]) * (x - c[0]) + (c[0] - b[0]) * (y - c[1])) / size,
      v = ((c[1] - a[1]) * (x - c[0]) + (a[0] - c[0]) * (y - c[1])) / size;
    if (u >= -EDGE && v >= -EDGE && u + v <= 1 + EDGE) return u * a[2] + v * b[2] + (1 - u - v) * c[2];
  }
  return null;
}

// ---- lines of equal level

/**
 * Where a line a·x + b·y = c lies inside rings: stretches, each from and to.
 * @param {number} a
 * @param {number} b
 * @param {number} c
 * @param {At[][]} rings
 * @returns {number[][][]}
 */
export function clipped(a, b, c, rings) {
  const size = a * a + b * b;
  if (size < 1e-18) return [];
  const x0 = (a * c) / size,
    y0 = (b * c) / size,
    length = Math.sqrt(size),
    ux = -b / length,
    uy = a / length;
  /** @type {number[]} */ const met = [];
  for (const ring of rings)
    ring.forEach(([x1, y1], index) => {
      const [x2, y2] = ring[(index + 1) % ring.length],
        one = a * x1 + b * y1 - c,
        two = a * x2 + b * y2 - c;
      if (one < 0 === two < 0) return;
      const share = one / (one - two);
      met.push((x1 + share * (x2 - x1) - x0) * ux + (y1 + share * (y2 - y1) - y0) * uy);
    });
  met.sort((one, two) => one - two);
  const found = [];
  for (let index = 0; index + 1 < met.length; index += 2)
    if (met[index + 1] - met[index] > 1)
      found.push([met[index], met[index + 1]].map((at) => [x0 + at * ux, y0 + at * uy]));
  return found;
}

/**
 * Contours of one plane within rings, the first of which bounds it.
 * @param {plan.Plane} plane
 * @param {At[][]} rings
 * @param {number} step_mm
 * @returns {{level_mm: number, lines: number[][][]}[]}
 */
export function planeContours(plane, rings, step_mm) {
  const {
      slope_x: a,
      slope_y: b,
      level_mm,
      origin_mm: [x0, y0],
    } = plane,
    levels = rings[0].map((at) => planeLevel(plane, at)),
    found = [];
  for (let at = Math.ceil(Math.min(...levels) / step_mm) * step_mm; at <= Math.max(...levels); at += step_mm) {
    const lines = clipped(a, b, at - level_mm + a * x0 + b * y0, rings);
    if (lines.length) found.push({ level_mm: at, lines });
  }
  return found;
}

/**
 * Contours of triangles in straight pieces, one for each triangle that a level crosses.
 * @param {plan.TriangulatedSurface} sheet
 * @param {number} step_mm
 * @returns {{level_mm: number, from: number[], to: number[]}[]}
 */
export function triangleContours({ points, triangles }, step_mm) {
  const found = [];
  for (const triangle of triangles) {
    const corners = triangle.map((index) => points[index]),
      levels = corners.map((at) => at[2]);
    for (let at = Math.ceil(Math.min(...levels) / step_mm) * step_mm; at < Math.max(...levels); at += step_mm) {
      const ends = [];
      for (const [one, other] of SIDES) {
        const [z1, z2] = [levels[one], levels[other]];
        if (z1 <= at === z2 <= at) continue;
        const share = (at - z1) / (z2 - z1);
        ends.push([0, 1].map((axis) => corners[one][axis] + share * (corners[other][axis] - corners[one][axis])));
      }
      const [from, to] = ends;
      // a level that only touches a corner is no line
      if (to && (from[0] !== to[0] || from[1] !== to[1])) found.push({ level_mm: at, from, to });
    }
  }
  return found;
}

const SIDES = [
  [0, 1],
  [1, 2],
  [2, 0],
];

// ---- a level book

/** A sight of the staff. @typedef {{point: string, reading_mm: number, sight: "first"|"next"|"moved"}} Sight */

/**
 * A book reduced by rise and fall, as it stands: `first` on the datum, `moved` back to the point that was read last.
 * @template {Sight} T
 * @param {T[]} sights
 * @param {Map<string, number>} known levels of points. [mm]
 */
export function reduced(sights, known) {
  let level = sights.length ? (known.get(sights[0].point) ?? null) : null,
    before = /** @type {number|null} */ (null),
    setups = 0;
  const rows = sights.map((sight) => {
    let rise_mm = null;
    if (sight.sight !== "next") setups += 1;
    else if (before !== null) {
      rise_mm = before - sight.reading_mm; // a bigger staff reading is lower
      if (level !== null) level += rise_mm;
    }
    before = sight.reading_mm;
    return { ...sight, rise_mm, level_mm: level };
  });
  const last = rows.at(-1),
    there = last && rows.length > 1 && last.sight === "next" ? known.get(last.point) : undefined;
  const closing =
    last && last.level_mm !== null && there !== undefined
      ? { point: last.point, level_mm: last.level_mm, known_mm: there, off_mm: last.level_mm - there }
      : null;
  return { rows, setups, closing };
}

/** How far a book may close off over its set-ups. @param {number} per_setup_mm @param {number} setups */
export const misclosureLimit = (per_setup_mm, setups) => per_setup_mm * Math.sqrt(setups);

/**
 * Level on the paving from the staff on a datum and there: a bigger reading is lower.
 * @param {number} datum_mm
 * @param {number} back_mm
 * @param {number} reading_mm
 */
export const staffLevel = (datum_mm, back_mm, reading_mm) => datum_mm + back_mm - reading_mm;

/** @param {number} datum_mm @param {"lower"|"higher"} way @param {number} by_mm */
export const datumLevel = (datum_mm, way, by_mm) => (way === "lower" ? datum_mm - by_mm : datum_mm + by_mm);

// ---- verdicts

/** @typedef {string} Verdict "pass", "fail", or the word of the program for neither */

/**
 * What a reading says of a limit either way, given how far readings are trusted.
 * @param {number} off_mm
 * @param {number} limit_mm
 * @param {number} doubt_mm
 */
export function verdict(off_mm, limit_mm, doubt_mm) {
  if (Math.abs(off_mm) <= limit_mm - doubt_mm) return "pass";
  return Math.abs(off_mm) > limit_mm + doubt_mm ? "fail" : "unsure";
}

/** The worst of verdicts. @param {...string} all */
export const worst = (...all) =>
  all.includes("fail") ? "fail" : all.every((each) => each === "pass") ? "pass" : "unsure";

/** Clearances this near to each other are the same. [mm] */
const EXACT_MM = 1e-6;

/**
 * A clearance below a damp-proof course held to what is promised: it fails only where the doubt of the reading leaves
 * no other way.
 * @param {number} found_mm
 * @param {{promised_mm: number, tolerance_mm: number}} promise
 * @param {number} doubt_mm
 */
export function clearanceVerdict(found_mm, { promised_mm, tolerance_mm }, doubt_mm) {
  const kept = (/** @type {number} */ clear_mm) => clear_mm >= promised_mm - tolerance_mm - EXACT_MM;
  if (kept(found_mm)) return "pass";
  return kept(found_mm + doubt_mm) ? "unsure" : "fail";
}

/** Whether a clearance is kept only by the tolerance of laying. @param {number} found_mm @param {number} promised_mm */
export const byTolerance = (found_mm, promised_mm) => found_mm < promised_mm - EXACT_MM;
