// @ts-check
/**
 * What a photo of a plane says, and where it says nothing: a second telling of the room of photo survey, held to it by
 * tests/js/vectors.json.
 */
import { inside, toRing } from "../../lib/kernel.js";
import { plus, scaled, times, turned } from "./matrix.js";
import { NoPlaneError, fitted, located, shift } from "./plane-fit.js";

/** @typedef {import("./plane-fit.js").At} At */
/** @typedef {import("./plane-fit.js").Mark} Mark */
/** @typedef {import("./plane-fit.js").Trust} Trust */
/** @typedef {import("./plane-fit.js").Fit} Fit */
/**
 * @typedef {{min_triangle_share: number, min_marks_share: number, disagree_percent: number, max_beyond_share: number,
 *   low_camera_deg: number, grazing_deg: number, max_sd_mm: number, lens_found_share: number}} Limits
 * @typedef {{marks: Mark[], wanted: {name: string, seen_px: At}[], size_px: At|null, front: boolean|null}} Picture
 * @typedef {{name: string, at_mm: At|null, sd_mm: At|null, ellipse: {major_mm: number, minor_mm: number,
 *   bearing_deg: number}|null, shift: number|null, weak: string[]}} Place
 * @typedef {{spare: number, ratio: number|null, chance: number|null, suspect: string, lens: number[],
 *   lens_found: boolean, camera_off_mm: number|null, marks: {name: string, off_mm: At, share: number}[],
 *   places: Place[], weak: string[]}} Answer
 */

const FOUR = 4,
  PARTED = 6,
  K1 = 8;
/** What leaves no answer. */
const NONE = [
  "few_marks",
  "in_line",
  "crosswise",
  "mirrored",
  "lens_folds",
  "past_horizon",
  "far_beyond",
  "grazing",
  "unsure",
];

const cross = (/** @type {At} */ a, /** @type {At} */ b, /** @type {At} */ c) =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** How far the best four places are from having three in line. @param {At[]} places */
export function triangleShare(places) {
  let longest = 0,
    best = 0;
  for (const one of places)
    for (const other of places) longest = Math.max(longest, (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2);
  if (longest <= 0) return 0;
  const n = places.length;
  for (let a = 0; a < n; a += 1)
    for (let b = a + 1; b < n; b += 1)
      for (let c = b + 1; c < n; c += 1)
        for (let d = c + 1; d < n; d += 1) {
          const four = [places[a], places[b], places[c], places[d]];
          const flattest = Math.min(
            ...four.map((_, left) => {
              const [p, q, r] = four.filter((_, at) => at !== left);
              return Math.abs(cross(p, q, r));
            }),
          );
          best = Math.max(best, flattest);
        }
  return best / longest;
}

/** A string round places. @param {At[]} places @returns {At[]} */
export function hull(places) {
  const sorted = [...places].sort((one, other) => one[0] - other[0] || one[1] - other[1]);
  const half = (/** @type {At[]} */ all) => {
    /** @type {At[]} */ const kept = [];
    for (const at of all) {
      while (kept.length > 1 && cross(kept[kept.length - 2], kept[kept.length - 1], at) <= 0) kept.pop();
      kept.push(at);
    }
    return kept.slice(0, -1);
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}

/** @param {At[]} ring */
const areaOf = (ring) =>
  Math.abs(
    ring.reduce(
      (sum, [x, y], at) => sum + x * ring[(at + 1) % ring.length][1] - y * ring[(at + 1) % ring.length][0],
      0,
    ),
  ) / 2;

/**
 * How likely so large a sum of squares is by chance, for an even number spare. @param {number} squares
 * @param {number} spare
 */
export function chanceBeyond(squares, spare) {
  let term = 1,
    total = 1;
  for (let number = 1; number < Math.floor(spare / 2); number += 1) {
    term *= squares / 2 / number;
    total += term;
  }
  return Math.exp(-squares / 2) * total;
}

/** @param {Fit} fit @param {Limits} limits */
const disagree = (fit, limits) => fit.spare > 0 && chanceBeyond(fit.squares, fit.spare) < limits.disagree_percent / 100;

/** @param {Picture} picture @param {Trust} trust @param {Limits} limits @returns {Fit|string} */
function planeOf(picture, trust, limits) {
  const { marks, size_px, front } = picture;
  if (marks.length < FOUR) return "few_marks";
  const shares = [marks.map((mark) => mark.seen_px), marks.map((mark) => mark.known_mm)].map(triangleShare);
  if (Math.min(...shares) < limits.min_triangle_share) return "in_line";
  const fit = fitted(marks, size_px, trust);
  if (!fit) return "crosswise";
  const under = marks.map((mark) => located(fit, mark.seen_px).under),
    given_up = fit.frame.whole && trust.lens_sd[0] > 0 && fit.spread[K1][K1] === 0;
  if (under.some((each) => each * under[0] <= 0) || (given_up && !disagree(fit, limits))) return "crosswise";
  return fit.camera && front !== null && fit.camera.off > 0 !== front ? "mirrored" : fit;
}

/**
 * Places on a plane of which a photo shows four known places or more.
 * @param {Picture} picture @param {Trust} trust @param {Limits} limits @returns {Answer}
 */
export function planeFromPhoto(picture, trust, limits) {
  let fit = planeOf(picture, trust, limits);
  if (typeof fit === "string") return nothing(picture, fit);
  const { marks, size_px } = picture,
    ring = hull(marks.map((mark) => mark.seen_px)),
    chance = fit.spare ? chanceBeyond(fit.squares, fit.spare) : null,
    ratio = fit.spare ? Math.sqrt(fit.squares / fit.spare) : null;
  const weak = [];
  let shares = marks.map(() => 0),
    suspect = "";
  if (ratio === null) weak.push("no_check");
  else if (disagree(fit, limits)) {
    weak.push("marks_disagree");
    ({ shares, suspect } = whoDisagrees(picture, fit, trust, limits));
    fit = { ...fit, spread: scaled(fit.spread, ratio ** 2) };
  }
  if (!size_px) weak.push("picture_size");
  else if (areaOf(ring) < limits.min_marks_share * size_px[0] * size_px[1]) weak.push("one_corner");
  if (fit.camera && sightDeg(fit, [0, 0]) < limits.low_camera_deg) weak.push("low_camera");
  const whole = fit,
    left = Math.sqrt(Math.max(0, fit.spread[K1][K1]));
  return {
    spare: fit.spare,
    ratio,
    chance,
    suspect,
    lens: fit.numbers.slice(K1),
    lens_found: fit.frame.whole && left > 0 && left < limits.lens_found_share * trust.lens_sd[0],
    camera_off_mm: fit.camera ? Math.abs(fit.camera.off) * fit.frame.size : null,
    marks: marks.map((mark, at) => ({
      name: mark.name,
      off_mm: whole.off[at].map((each) => each * whole.frame.size),
      share: shares[at],
    })),
    places: picture.wanted.map((thing) => placeOf(thing, whole, trust, limits, ring, marks[0])),
    weak,
  };
}

/** @param {Picture} picture @param {string} why @returns {Answer} */
const nothing = (picture, why) => ({
  spare: 0,
  ratio: null,
  chance: null,
  suspect: "",
  lens: [0, 0],
  lens_found: false,
  camera_off_mm: null,
  marks: picture.marks.map(({ name }) => ({ name, off_mm: [0, 0], share: 0 })),
  places: picture.wanted.map(({ name }) => ({
    name,
    at_mm: null,
    sd_mm: null,
    ellipse: null,
    shift: null,
    weak: [why],
  })),
  weak: [why],
});

/** @param {Picture} picture @param {Fit} fit @param {Trust} trust @param {Limits} limits */
function whoDisagrees(picture, fit, trust, limits) {
  const { marks, size_px } = picture;
  if (marks.length < PARTED) return { shares: marks.map(() => 0), suspect: "" };
  const left = marks.map((_, number) => {
    const others = marks.filter((_, at) => at !== number);
    if (triangleShare(others.map((mark) => mark.seen_px)) < limits.min_triangle_share) return fit.squares;
    return fitted(others, size_px, trust)?.squares ?? fit.squares;
  });
  const agree = marks.filter((_, at) => chanceBeyond(left[at], fit.spare - 2) >= limits.disagree_percent / 100);
  return {
    shares: left.map((each) => Math.min(1, Math.max(0, 1 - each / fit.squares))),
    suspect: agree.length === 1 ? agree[0].name : "",
  };
}

/** At what angle a place is seen over the plane. @param {Fit} fit @param {At} at */
function sightDeg(fit, at) {
  if (!fit.camera) return 90;
  const way = Math.hypot(at[0] - fit.camera.foot[0], at[1] - fit.camera.foot[1]);
  return (Math.atan2(Math.abs(fit.camera.off), way) * 180) / Math.PI;
}

/**
 * @param {{name: string, seen_px: At}} thing @param {Fit} fit @param {Trust} trust
 * @param {Limits} limits @param {At[]} ring @param {Mark} first @returns {Place}
 */
function placeOf({ name, seen_px }, fit, trust, limits, ring, first) {
  const beyond = inside(seen_px, [ring]) ? 0 : toRing(seen_px, ring) / Math.sqrt(Math.max(areaOf(ring), 1)),
    weak = beyond > limits.max_beyond_share ? ["far_beyond"] : beyond > 0 ? ["beyond_marks"] : [],
    none = (/** @type {string[]} */ why, /** @type {number|null} */ by = null) => ({
      name,
      at_mm: null,
      sd_mm: null,
      ellipse: null,
      shift: by,
      weak: why,
    });
  let now;
  try {
    now = located(fit, seen_px);
  } catch (problem) {
    if (problem instanceof NoPlaneError) return none([...weak, "lens_folds"]);
    throw problem;
  }
  if (now.under * located(fit, first.seen_px).under <= 0) return none([...weak, "past_horizon"]);
  const size = fit.frame.size,
    of_mark = times(now.by_seen, turned(now.by_seen)),
    of_fit = times(times(now.by_all, fit.spread), turned(now.by_all));
  let spread = plus(plus(of_fit, of_mark, (trust.mark_sd_px / fit.frame.scale) ** 2), shift(fit, now.at, trust));
  spread = scaled(spread, size ** 2);
  const ellipse = ellipseOf(spread),
    angle = sightDeg(fit, now.at);
  if (angle < limits.grazing_deg) weak.push("grazing");
  if (ellipse.major_mm > limits.max_sd_mm) weak.push("unsure");
  const by = fit.camera ? 1 / Math.tan((angle * Math.PI) / 180) : null;
  if (weak.some((each) => NONE.includes(each))) return none(weak, by);
  return {
    name,
    at_mm: now.at.map((each, axis) => each * size + fit.frame.origin[axis]),
    sd_mm: [Math.sqrt(spread[0][0]), Math.sqrt(spread[1][1])],
    ellipse,
    shift: by,
    weak,
  };
}

/** @param {number[][]} spread */
function ellipseOf(spread) {
  const half = (spread[0][0] + spread[1][1]) / 2,
    apart = (spread[0][0] - spread[1][1]) / 2,
    root = Math.hypot(apart, spread[0][1]),
    bearing = ((Math.atan2(spread[0][1], -apart) * 180) / Math.PI / 2 + 180) % 180;
  return { major_mm: Math.sqrt(half + root), minor_mm: Math.sqrt(Math.max(0, half - root)), bearing_deg: bearing };
}
