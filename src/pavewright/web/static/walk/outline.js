// @ts-check
/**
 * What a finger drew, made into an outline: few corners, and square where it nearly is. Nothing here touches the
 *   page.
 */

/** @typedef {number[]} At */

const NEAR_SQUARE_DEG = 14, // a corner within this of a right angle is meant to be one
  ROUND_MM = 10;

const deg = (/** @type {number} */ angle) => (angle * Math.PI) / 180;
const rounded = (/** @type {At} */ at) => at.map((each) => Math.round(each / ROUND_MM) * ROUND_MM || 0);

/** A rectangle from two opposite corners, begun at the upper left, clockwise. @param {At} one @param {At} other */
export function rectangle(one, other) {
  const [x1, x2] = [one[0], other[0]].sort((a, b) => a - b),
    [y1, y2] = [one[1], other[1]].sort((a, b) => a - b);
  return [
    [x1, y2],
    [x2, y2],
    [x2, y1],
    [x1, y1],
  ].map(rounded);
}

/**
 * Corners of a drawn line: what lies within `off_mm` of a straight stretch goes.
 * @param {At[]} line
 * @param {number} off_mm
 * @returns {At[]}
 */
export function simplified(line, off_mm) {
  if (line.length < 3) return line;
  const [from] = line,
    to = line[line.length - 1],
    long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  let far = 0,
    at = 0;
  line.forEach((one, index) => {
    const off = long
      ? Math.abs((to[0] - from[0]) * (one[1] - from[1]) - (to[1] - from[1]) * (one[0] - from[0])) / long
      : Math.hypot(one[0] - from[0], one[1] - from[1]);
    if (off > far) [far, at] = [off, index];
  });
  if (far <= off_mm) return [from, to];
  return [...simplified(line.slice(0, at + 1), off_mm).slice(0, -1), ...simplified(line.slice(at), off_mm)];
}

/** The corners of an outline that was drawn in one go. @param {At[]} line @returns {At[]} */
export function corners(line) {
  const xs = line.map((at) => at[0]),
    ys = line.map((at) => at[1]),
    size = Math.hypot(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  // begun at the place farthest from the middle: that is a corner, wherever the finger began
  const middle = [xs, ys].map((all) => all.reduce((sum, one) => sum + one, 0) / all.length),
    off = line.map((at) => Math.hypot(at[0] - middle[0], at[1] - middle[1])),
    start = off.indexOf(Math.max(...off)),
    ring = [...line.slice(start), ...line.slice(0, start + 1)];
  const found = simplified(ring, size * 0.07).slice(0, -1),
    apart = (/** @type {At} */ one, /** @type {At} */ other) => Math.hypot(one[0] - other[0], one[1] - other[1]);
  return found.filter((at, index) => apart(at, found[(index + 1) % found.length]) > size * 0.08).map(rounded);
}

/**
 * An outline whose corners are square where they nearly are: sides near the first side, or square to it, are made so.
 * @param {At[]} ring
 * @param {Set<number>} [free] corners that stay as they were drawn
 * @returns {At[]}
 */
export function squared(ring, free = new Set()) {
  if (ring.length < 3) return ring;
  const turn = baseTurn(ring),
    turned = ring.map((at) => turnedBy(at, -turn)),
    groups = [ring.map((_, index) => index), ring.map((_, index) => index)];
  const root = (/** @type {number[]} */ of, /** @type {number} */ index) => {
    while (of[index] !== index) index = of[index];
    return index;
  };
  turned.forEach((at, index) => {
    const other = (index + 1) % ring.length,
      to = turned[other];
    if (free.has(index) || free.has(other)) return;
    const axis = axisOf(at, to);
    if (axis !== null) groups[axis][root(groups[axis], other)] = root(groups[axis], index);
  });
  return turned
    .map((_, index) =>
      [0, 1].map((axis) => {
        const mine = root(groups[axis], index),
          all = turned.filter((_at, each) => root(groups[axis], each) === mine);
        return all.reduce((sum, at) => sum + at[axis], 0) / all.length;
      }),
    )
    .map((at) => rounded(turnedBy(at, turn)));
}

/**
 * One corner put where its sides are square to the rest, where it nearly stands there.
 * @param {At[]} ring @param {number} index @returns {At}
 */
export function snapped(ring, index) {
  const rest = ring.filter((_, each) => each !== index),
    turn = baseTurn(rest.length > 2 ? rest : ring),
    turned = ring.map((at) => turnedBy(at, -turn)),
    at = [...turned[index]];
  for (const step of [ring.length - 1, 1]) {
    const other = turned[(index + step) % ring.length],
      axis = axisOf(turned[index], other);
    if (axis !== null) at[axis] = other[axis];
  }
  return rounded(turnedBy(at, turn));
}

/**
 * Which coordinate two ends of a side share when it runs nearly along the sheet: 1 across it, 0 up it.
 * @param {At} from
 * @param {At} to
 */
function axisOf(from, to) {
  const angle = Math.atan2(to[1] - from[1], to[0] - from[0]),
    near = (/** @type {number} */ wanted) => Math.abs(Math.sin(angle - wanted)) < Math.sin(deg(NEAR_SQUARE_DEG));
  return near(0) ? 1 : near(Math.PI / 2) ? 0 : null;
}

/** The direction of the first side; along the sheet where it nearly is. @param {At[]} ring */
function baseTurn([from, to]) {
  const angle = Math.atan2(to[1] - from[1], to[0] - from[0]),
    quarter = Math.round(angle / (Math.PI / 2)) * (Math.PI / 2);
  return Math.abs(angle - quarter) < deg(NEAR_SQUARE_DEG) ? quarter : angle;
}

/** @param {At} at @param {number} angle @returns {At} */
const turnedBy = ([x, y], angle) => [
  x * Math.cos(angle) - y * Math.sin(angle),
  x * Math.sin(angle) + y * Math.cos(angle),
];

/**
 * How a side bulges when it is made an arc of about a sixth of its length.
 * @param {At} from
 * @param {At} to
 */
export const bulge = (from, to) => rounded([Math.hypot(to[0] - from[0], to[1] - from[1]) / 6])[0];
