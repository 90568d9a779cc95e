// @ts-check
/** What a finger drew, laid over what was taped: its scale, its turn, and the stretches that it shows. */
import { apart, at } from "./network.js";

/** @typedef {import("./network.js").At} At */
/** @typedef {import("./network.js").Places} Places */
/** @typedef {import("./network.js").Seen} Seen */
/**
 * @typedef {{scale: number, turn: At, from: At, to: At}} Laid  how a sketch is laid: scaled and turned about one
 * place, put on another
 */

/** How far the place of one point on a sketch says where it stands; it only keeps what nothing joins. [mm] */
export const PLACE_MM = 3000;

/** @param {Laid} laid @param {At} place @returns {At} */
export function onSite({ scale, turn, from, to }, [x, y]) {
  const [dx, dy] = [scale * (x - from[0]), scale * (y - from[1])];
  return [to[0] + turn[0] * dx - turn[1] * dy, to[1] + turn[1] * dx + turn[0] * dy];
}

/** @param {Laid} laid @param {At} place @returns {At} */
export function onSketch({ scale, turn, from, to }, [x, y]) {
  const [dx, dy] = [(x - to[0]) / scale, (y - to[1]) / scale];
  return [from[0] + turn[0] * dx + turn[1] * dy, from[1] - turn[1] * dx + turn[0] * dy];
}

/**
 * By how much the sketch is too small: the middle of what was taped over what was drawn, long lines counting more.
 * @param {Places} sketch
 * @param {{points: string[], length: number}[]} lines taped, or between points of known place
 */
export function scaleOf(sketch, lines) {
  const seen = lines
    .filter(({ points }) => points.every((name) => sketch.has(name)))
    .map(({ points: [a, b], length }) => ({ length, drawn: apart(at(sketch, a), at(sketch, b)) }))
    .filter(({ drawn, length }) => drawn > 0 && length > 0);
  if (!seen.length) return 1;
  const drawn = seen.reduce((sum, each) => sum + each.drawn, 0);
  if (seen.length < 3) return seen.reduce((sum, each) => sum + each.length, 0) / drawn;
  seen.sort((one, other) => one.length / one.drawn - other.length / other.drawn);
  let so_far = 0;
  const middle = seen.find((each) => (so_far += each.drawn) >= drawn / 2) ?? seen[0];
  return middle.length / middle.drawn;
}

/**
 * How a sketch is laid over places that are known: turned and shifted so that it misses them least.
 * @param {Places} sketch
 * @param {Places} known
 * @param {number} scale
 * @returns {Laid}
 */
export function laidOver(sketch, known, scale) {
  const both = [...known].filter(([name]) => sketch.has(name));
  if (!both.length) return { scale, turn: [1, 0], from: [0, 0], to: [0, 0] };
  const mean = (/** @type {At[]} */ all) =>
    [0, 1].map((axis) => all.reduce((sum, each) => sum + each[axis], 0) / all.length);
  const from = mean(both.map(([name]) => at(sketch, name))),
    to = mean(both.map(([, place]) => place));
  let [along, across] = [0, 0];
  for (const [name, place] of both) {
    const [x, y] = at(sketch, name).map((each, axis) => each - from[axis]),
      [u, v] = place.map((each, axis) => each - to[axis]);
    along += x * u + y * v;
    across += x * v - y * u;
  }
  const size = Math.hypot(along, across);
  return { scale, turn: size > 1e-9 ? [along / size, across / size] : [1, 0], from, to };
}

/**
 * Neighbours on the sketch: pairs with no third point in the circle over the line between them.
 * @param {Places} sketch
 * @returns {[string, string][]}
 */
export function neighbours(sketch) {
  const all = [...sketch];
  /** @type {[string, string][]} */ const pairs = [];
  all.forEach(([a, from], index) => {
    for (const [b, to] of all.slice(index + 1)) {
      const middle = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
        reach = apart(from, to) / 2;
      const between = all.some(
        ([name, place]) =>
          name !== a &&
          name !== b &&
          Math.min(apart(place, from), apart(place, to)) > 1e-6 &&
          apart(middle, place) < reach * (1 + 1e-6),
      );
      if (!between) pairs.push([a, b]);
    }
  });
  return pairs;
}

/**
 * What a sketch shows: the direction of every stretch between neighbours well, its length less well, and places badly.
 * @param {Places} sketch
 * @param {[string, string][]} pairs
 * @param {Laid} laid
 * @param {import("./figures.js").Figures} figures
 * @param {number} weak how many times less it is trusted
 * @returns {Seen[]}
 */
export function shown(sketch, pairs, laid, figures, weak) {
  /** @type {Seen[]} */ const all = [];
  for (const [a, b] of pairs) {
    const [from, to] = [a, b].map((name) => onSite(laid, at(sketch, name))),
      length = apart(from, to);
    if (length < 1e-6) continue;
    const along = [(to[0] - from[0]) / length, (to[1] - from[1]) / length],
      sd = (/** @type {number} */ mm_per_m) => weak * Math.max((mm_per_m * length) / 1000, figures.sketch_finger_mm);
    all.push(
      { kind: "gap", points: [a, b], way: along, measured: length, sd: sd(figures.sketch_length_mm_per_m) },
      {
        kind: "gap",
        points: [a, b],
        way: [-along[1], along[0]],
        measured: 0,
        sd: sd(figures.sketch_direction_mm_per_m),
      },
    );
  }
  for (const [name, place] of sketch) all.push(...near(name, onSite(laid, place), weak * PLACE_MM));
  return all;
}

/** @param {string} name @param {At} place @param {number} sd @returns {Seen[]} */
export const near = (name, place, sd) => [
  { kind: "near", points: [name], way: [1, 0], measured: place[0], sd },
  { kind: "near", points: [name], way: [0, 1], measured: place[1], sd },
];

/** A place on the other side of a line. @param {At} place @param {At} from @param {At} to @returns {At} */
export function mirrored(place, from, to) {
  const length = apart(from, to) || 1e-9,
    normal = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length],
    off = (place[0] - from[0]) * normal[0] + (place[1] - from[1]) * normal[1];
  return [place[0] - 2 * off * normal[0], place[1] - 2 * off * normal[1]];
}

/** How far a place lies left of a line. @param {At} place @param {At} from @param {At} to */
export const leftOf = (place, from, to) =>
  ((to[0] - from[0]) * (place[1] - from[1]) - (to[1] - from[1]) * (place[0] - from[0])) / (apart(from, to) || 1e-9);
