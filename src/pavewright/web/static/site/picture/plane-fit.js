// @ts-check
/**
 * The plane that fits the marks of a photo best: a second telling of the room of photo survey, held to it by
 * tests/js/vectors.json. Nothing here touches the page or knows a figure of the trade: limits come with the plan.
 */
import { FlatTableError, inverse, ones, plus, scaled, solved, times, turned } from "./matrix.js";
import { cameraOf } from "./camera.js";

/** @typedef {[number, number]|number[]} At */
/** @typedef {{name: string, seen_px: At, known_mm: At, sd_mm: number}} Mark */
/**
 * @typedef {{mark_sd_px: number, flat_sd_mm: number, lens_sd: number[], lens_usual: number,
 *   lens_usual_sd: number}} Trust
 * @typedef {{middle: At, scale: number, centre: At, origin: At, size: number, whole: boolean}} Frame
 * @typedef {{foot: At, off: number}} Camera
 * @typedef {{frame: Frame, numbers: number[], spread: number[][], off: At[], squares: number, spare: number,
 *   camera: Camera|null, bent: boolean}} Fit
 */

const EIGHT = 8,
  ALL = 10,
  ROUNDS = 60,
  LENS_ROUNDS = 30,
  SETTLED = 1e-10,
  LENS_SETTLED = 1e-13,
  TINY = 1e-12,
  HALVES = 12;

/** No plane fits these marks, or the lens would bend the picture over itself. */
export class NoPlaneError extends Error {}

/**
 * A mark without the bend of the lens, and how that changes with the mark and the lens.
 * @param {At} bent @param {number[]} lens
 */
function straightened([x, y], [k1, k2]) {
  const seen = Math.hypot(x, y);
  let straight = seen,
    slope = 1;
  for (let round = 0; round < LENS_ROUNDS; round += 1) {
    const square = straight * straight;
    slope = 1 + square * (3 * k1 + 5 * k2 * square);
    if (slope <= 0) throw new NoPlaneError();
    const step = (straight * (1 + square * (k1 + k2 * square)) - seen) / slope;
    straight -= step;
    if (Math.abs(step) < LENS_SETTLED) break;
  }
  const away = seen > LENS_SETTLED,
    safe = away ? seen : 1,
    share = away ? straight / safe : 1,
    growth = away ? (1 / slope - share) / safe ** 2 : 0,
    by_k1 = -(straight ** 3) / slope / safe,
    by_k2 = by_k1 * straight ** 2;
  return {
    at: [share * x, share * y],
    by_mark: [
      [share + growth * x * x, growth * x * y],
      [growth * x * y, share + growth * y * y],
    ],
    by_lens: [
      [x * by_k1, x * by_k2],
      [y * by_k1, y * by_k2],
    ],
  };
}

/**
 * The place on the plane, its divisor, and its change with the mark and the eight numbers.
 * @param {At} at @param {number[]} eight
 */
function projected([x, y], eight) {
  const [a1, b1, c1, a2, b2, c2, a3, b3] = eight,
    under = a3 * x + b3 * y + 1,
    to = [(a1 * x + b1 * y + c1) / under, (a2 * x + b2 * y + c2) / under];
  const by_mark = [
    [(a1 - to[0] * a3) / under, (b1 - to[0] * b3) / under],
    [(a2 - to[1] * a3) / under, (b2 - to[1] * b3) / under],
  ];
  const by_eight = to.map((each, row) => {
    const made = Array(EIGHT).fill(0);
    made[3 * row] = x / under;
    made[3 * row + 1] = y / under;
    made[3 * row + 2] = 1 / under;
    made[6] = (-each * x) / under;
    made[7] = (-each * y) / under;
    return made;
  });
  return { to, under, by_mark, by_eight };
}

/**
 * The place of a mark on the plane, in the measure of the fit, with how it changes.
 * @param {{frame: Frame, numbers: number[]}} fit @param {At} seen_px
 */
export function located({ frame, numbers }, seen_px) {
  const lens = straightened(
    [(seen_px[0] - frame.middle[0]) / frame.scale, (seen_px[1] - frame.middle[1]) / frame.scale],
    numbers.slice(EIGHT),
  );
  const found = projected([lens.at[0] - frame.centre[0], lens.at[1] - frame.centre[1]], numbers.slice(0, EIGHT));
  const bend = times(found.by_mark, lens.by_lens);
  return {
    at: found.to,
    under: found.under,
    by_seen: times(found.by_mark, lens.by_mark),
    by_all: found.by_eight.map((row, at) => [...row, ...bend[at]]),
  };
}

const mean = (/** @type {At[]} */ all) => [0, 1].map((axis) => all.reduce((sum, at) => sum + at[axis], 0) / all.length);
const spreadOf = (/** @type {At[]} */ all, /** @type {At} */ middle) =>
  Math.sqrt(all.reduce((sum, at) => sum + (at[0] - middle[0]) ** 2 + (at[1] - middle[1]) ** 2, 0) / all.length);

/** @param {Mark[]} marks @param {At|null} size_px @returns {Frame} */
function frameOf(marks, size_px) {
  const seen = marks.map((mark) => mark.seen_px),
    known = marks.map((mark) => mark.known_mm),
    mean_px = mean(seen),
    origin = mean(known);
  const middle = size_px ? [size_px[0] / 2, size_px[1] / 2] : mean_px,
    scale = size_px ? Math.hypot(size_px[0], size_px[1]) / 2 : spreadOf(seen, mean_px);
  return {
    middle,
    scale,
    centre: [(mean_px[0] - middle[0]) / scale, (mean_px[1] - middle[1]) / scale],
    origin,
    size: spreadOf(known, origin),
    whole: Boolean(size_px),
  };
}

/** The eight numbers from the equations multiplied out. @param {At[]} seen @param {At[]} known */
function firstNumbers(seen, known) {
  const rows = seen.flatMap(([x, y], at) => [
    [x, y, 1, 0, 0, 0, -known[at][0] * x, -known[at][0] * y],
    [0, 0, 0, x, y, 1, -known[at][1] * x, -known[at][1] * y],
  ]);
  const right = known.flatMap(([x, y]) => [[x], [y]]),
    across = turned(rows);
  return solved(times(across, rows), times(across, right)).map(([each]) => each);
}

/**
 * How far a place scatters because things stand off the plane. @param {Fit} fit @param {At} at
 * @param {Trust} trust
 */
export function shift(fit, at, trust) {
  if (!fit.camera) return scaled(ones(2), 0);
  const { foot, off } = fit.camera,
    way = [0, 1].map((axis) => ((at[axis] - foot[axis]) / off) * (trust.flat_sd_mm / fit.frame.size));
  return way.map((one) => way.map((other) => one * other));
}

/** @param {Mark[]} marks @param {At|null} size_px @param {Trust} trust @returns {Fit} */
function settle(marks, size_px, trust) {
  const frame = frameOf(marks, size_px);
  if (frame.size < TINY || frame.scale < TINY) throw new NoPlaneError();
  const known = marks.map(({ known_mm }) => [0, 1].map((axis) => (known_mm[axis] - frame.origin[axis]) / frame.size));
  const seen = marks.map(({ seen_px }) =>
    [0, 1].map((axis) => (seen_px[axis] - frame.middle[axis]) / frame.scale - frame.centre[axis]),
  );
  /** @type {Fit} */ let fit = {
    frame,
    numbers: [...firstNumbers(seen, known), 0, 0],
    spread: scaled(ones(ALL), 0),
    off: known,
    squares: Infinity,
    spare: 2 * marks.length - EIGHT,
    camera: null,
    bent: trust.lens_sd[0] > 0,
  };
  fit = better(fit, marks, known, trust);
  if (!size_px) return fit;
  for (let round = 0; round < 2; round += 1)
    fit = better({ ...fit, camera: cameraOf(fit, trust) }, marks, known, trust);
  return { ...fit, camera: cameraOf(fit, trust) };
}

/**
 * The numbers made better until nothing moves. @param {Fit} fit @param {Mark[]} marks
 * @param {At[]} known @param {Trust} trust
 */
function better(fit, marks, known, trust) {
  const held = [0, 1].filter((at) => fit.frame.whole && trust.lens_sd[at] > 0),
    free = [...Array(EIGHT).keys(), ...held.map((at) => EIGHT + at)],
    stiff = free.map((at) => (at < EIGHT ? 0 : 1 / trust.lens_sd[at - EIGHT] ** 2)),
    own = marks.map((mark, at) => plus(shift(fit, known[at], trust), ones(2), (mark.sd_mm / fit.frame.size) ** 2)),
    mark_sd = trust.mark_sd_px / fit.frame.scale;
  let numbers = fit.numbers;
  for (let round = 0; round < ROUNDS; round += 1) {
    const normal = free.map((_, row) => free.map((_, at) => (row === at ? stiff[row] : 0))),
      pull = free.map((at, row) => -stiff[row] * numbers[at]);
    let squares = free.reduce((sum, at, row) => sum + stiff[row] * numbers[at] ** 2, 0);
    const under = [],
      off = [];
    for (const [at, mark] of marks.entries()) {
      const now = located({ frame: fit.frame, numbers }, mark.seen_px),
        weight = inverse(plus(own[at], times(now.by_seen, turned(now.by_seen)), mark_sd ** 2)),
        left = [known[at][0] - now.at[0], known[at][1] - now.at[1]],
        pulled = weight.map((row) => row[0] * left[0] + row[1] * left[1]);
      under.push(now.under);
      off.push(left);
      squares += left[0] * pulled[0] + left[1] * pulled[1];
      const slopes = free.map((each) => [now.by_all[0][each], now.by_all[1][each]]);
      slopes.forEach((one, row) => {
        pull[row] += one[0] * pulled[0] + one[1] * pulled[1];
        const weighed = [0, 1].map((each) => weight[each][0] * one[0] + weight[each][1] * one[1]);
        slopes.forEach((other, each) => (normal[row][each] += weighed[0] * other[0] + weighed[1] * other[1]));
      });
    }
    const found = solved(
      normal,
      pull.map((each) => [each]),
    );
    const step = Array(ALL).fill(0);
    free.forEach((at, row) => (step[at] = found[row][0]));
    const part = within(fit.frame, numbers, step, marks, under);
    numbers = numbers.map((each, at) => each + part * step[at]);
    if (Math.max(...step.map(Math.abs)) < SETTLED * (1 + Math.max(...numbers.map(Math.abs)))) {
      const some = inverse(normal),
        spread = scaled(ones(ALL), 0);
      free.forEach((at, row) => free.forEach((other, each) => (spread[at][other] = some[row][each])));
      return { ...fit, numbers, spread, off, squares };
    }
  }
  throw new NoPlaneError();
}

/**
 * The part of a step that keeps every mark on its side of the horizon. @param {Frame} frame
 * @param {number[]} numbers @param {number[]} step @param {Mark[]} marks @param {number[]} under
 */
function within(frame, numbers, step, marks, under) {
  let part = 1;
  for (let half = 0; half < HALVES; half += 1) {
    const tried = numbers.map((each, at) => each + part * step[at]);
    if (marks.every((mark, at) => located({ frame, numbers: tried }, mark.seen_px).under * under[at] > 0)) break;
    part /= 2;
  }
  return part;
}

/**
 * The plane that fits marks best; where no lens makes them agree, the one of a lens that bends nothing.
 * @param {Mark[]} marks @param {At|null} size_px @param {Trust} trust @returns {Fit|null}
 */
export function fitted(marks, size_px, trust) {
  for (const lens_sd of [trust.lens_sd, [0, 0]])
    try {
      return settle(marks, size_px, { ...trust, lens_sd });
    } catch (problem) {
      if (!(problem instanceof NoPlaneError || problem instanceof FlatTableError)) throw problem;
    }
  return null;
}
