// @ts-check
/** Paths and arcs through places of the site. */

/** A path through points of the site. @param {number[][]} points @param {boolean} [closed] */
export function pathOf(points, closed = true) {
  return points.length
    ? `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}${closed ? "Z" : ""}`
    : "";
}

/** A shape with holes. @param {{outer: number[][], holes: number[][][]}} shape */
export const shapePath = (shape) => [shape.outer, ...shape.holes].map((ring) => pathOf(ring)).join("");

/**
 * Points of a side whose arc rises so far at mid-chord, positive to the right of the way.
 * @param {number[]} from
 * @param {number[]} to
 * @param {number} rise_mm
 */
export function arcPoints(from, to, rise_mm) {
  const chord = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (!rise_mm || chord < 1) return [from];
  const size = Math.abs(rise_mm),
    radius = (chord * chord) / (8 * size) + size / 2;
  const ux = (to[0] - from[0]) / chord,
    uy = (to[1] - from[1]) / chord,
    side = Math.sign(rise_mm);
  const nx = uy * side,
    ny = -ux * side; // to the right of the way where the rise is positive
  const cx = (from[0] + to[0]) / 2 + nx * (size - radius),
    cy = (from[1] + to[1]) / 2 + ny * (size - radius);
  const start = Math.atan2(from[1] - cy, from[0] - cx);
  let sweep = Math.atan2(to[1] - cy, to[0] - cx) - start;
  if (side > 0) {
    while (sweep <= 0) sweep += 2 * Math.PI;
  } else while (sweep >= 0) sweep -= 2 * Math.PI;
  const steps = Math.max(6, Math.min(64, Math.ceil(Math.abs(sweep) / 0.12)));
  return Array.from({ length: steps }, (_, index) => [
    cx + radius * Math.cos(start + (sweep * index) / steps),
    cy + radius * Math.sin(start + (sweep * index) / steps),
  ]);
}
