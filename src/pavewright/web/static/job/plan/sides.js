// @ts-check
/** Changes of the sides of an outline: lengths, angles and arcs. */

import { cornersOf, straighten, moveCorner } from "./document.js";

/**
 * Corners of a stretch of outline, from one to another in the order of the outline.
 * @param {doc.OutlineCorner[]} corners
 * @param {number} from
 * @param {number} to
 */
export const stretchOf = (corners, from, to) =>
  Array.from(
    { length: ((to - from + corners.length) % corners.length) + 1 },
    (_, step) => corners[(from + step) % corners.length],
  );

/**
 * Let a stretch of outline run in arcs: corners between their ends go, each arc is told by its rise.
 * @param {JobDocument} doc
 * @param {number} area
 * @param {number} ring
 * @param {number} from
 * @param {number} to
 * @param {{ends: number[], rises_mm: number[]}} arcs ends counted from 1
 * @param {number} way 1 where the outline runs against the clock, else -1
 */
export function runInArcs(doc, area, ring, from, to, { ends, rises_mm }, way) {
  const corners = cornersOf(doc, area, ring),
    stretch = stretchOf(corners, from, to),
    kept = new Set([0, ...ends.map((end) => end - 1)]);
  const gone = new Set(stretch.filter((_, index) => !kept.has(index)).map((corner) => corner.point));
  [0, ...ends.slice(0, -1).map((end) => end - 1)].forEach((index, number) => {
    straighten(stretch[index]);
    stretch[index].rise_mm = Math.round(rises_mm[number] * way * 10) / 10;
  });
  const left = corners.filter((corner) => !gone.has(corner.point));
  corners.splice(0, corners.length, ...left);
  if (ring < 0) doc.areas[area].edges = (doc.areas[area].edges ?? []).filter((edge) => !gone.has(edge.corner));
  return gone.size;
}

/**
 * Give a side a length: its end moves along it.
 * @param {JobDocument} doc
 * @param {number} area
 * @param {number} ring
 * @param {number} side
 * @param {number} length_mm
 * @param {Map<string, number[]>} places
 */
export function setSideLength(doc, area, ring, side, length_mm, places) {
  const corners = cornersOf(doc, area, ring),
    last = (side + 1) % corners.length;
  const from = places.get(corners[side].point),
    to = places.get(corners[last].point);
  if (!from || !to) return;
  const now = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  moveCorner(doc, area, ring, last, [
    from[0] + ((to[0] - from[0]) / now) * length_mm,
    from[1] + ((to[1] - from[1]) / now) * length_mm,
  ]);
}

/**
 * Give the corner at the start of a side an angle, in degrees inside: the far end of the side turns about it.
 * @param {JobDocument} doc
 * @param {number} area
 * @param {number} ring
 * @param {number} side
 * @param {number} angle_deg
 * @param {Map<string, number[]>} places
 */
export function setCornerAngle(doc, area, ring, side, angle_deg, places) {
  const corners = cornersOf(doc, area, ring),
    count = corners.length;
  const before = places.get(corners[(side - 1 + count) % count].point),
    here = places.get(corners[side].point),
    after = places.get(corners[(side + 1) % count].point);
  if (!before || !here || !after) return;
  const way = orientation(corners.map((corner) => places.get(corner.point) ?? [0, 0])) > 0 ? -1 : 1;
  const back = Math.atan2(before[1] - here[1], before[0] - here[0]),
    length = Math.hypot(after[0] - here[0], after[1] - here[1]);
  const turn = back + (way * angle_deg * Math.PI) / 180;
  moveCorner(doc, area, ring, (side + 1) % count, [
    here[0] + length * Math.cos(turn),
    here[1] + length * Math.sin(turn),
  ]);
}

/** Twice the signed area of a ring. @param {number[][]} ring */
export function orientation(ring) {
  return ring.reduce((sum, [x1, y1], index) => {
    const [x2, y2] = ring[(index + 1) % ring.length];
    return sum + x1 * y2 - x2 * y1;
  }, 0);
}

/** Inside angle at a corner, degrees. @param {number[][]} ring @param {number} index */
export function angleAt(ring, index) {
  const count = ring.length,
    before = ring[(index - 1 + count) % count],
    here = ring[index],
    after = ring[(index + 1) % count];
  const one = Math.atan2(before[1] - here[1], before[0] - here[0]),
    two = Math.atan2(after[1] - here[1], after[0] - here[0]);
  let turn = ((one - two) * 180) / Math.PI;
  if (orientation(ring) < 0) turn = -turn;
  return ((turn % 360) + 360) % 360;
}
