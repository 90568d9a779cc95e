// @ts-check
/** Where the camera stood, as far as a plane seen in the picture says so; held to the program with the fit. */
import { inverse, scaled, solved } from "./matrix.js";

/** @typedef {import("./plane-fit.js").At} At */
/** @typedef {import("./plane-fit.js").Fit} Fit */
/** @typedef {import("./plane-fit.js").Trust} Trust */
/** @typedef {import("./plane-fit.js").Camera} Camera */

const EIGHT = 8,
  STEP = 1e-6;

/** From the plane back to the picture, counted from its middle. @param {number[]} eight @param {At} centre */
function planeToPicture(eight, centre) {
  const back = inverse([eight.slice(0, 3), eight.slice(3, 6), [eight[6], eight[7], 1]]);
  return [0, 1].map((row) => back[row].map((each, at) => each + centre[row] * back[2][at])).concat([back[2]]);
}

/** @param {number[]} eight @param {At} centre */
function focalSquared(eight, centre) {
  const [[a, b], [c, d], [e, f]] = planeToPicture(eight, centre),
    across = 2 * (a * b + c * d),
    along = a ** 2 + c ** 2 - b ** 2 - d ** 2,
    far_across = 2 * e * f,
    far_along = e ** 2 - f ** 2,
    size = far_across ** 2 + far_along ** 2;
  return size > 0 ? -(across * far_across + along * far_along) / size : -1;
}

/** @param {Fit} fit @param {Trust} trust */
function focalLength({ frame, numbers, spread }, trust) {
  const eight = numbers.slice(0, EIGHT),
    square = focalSquared(eight, frame.centre);
  if (square <= 0) return trust.lens_usual;
  const change = eight.map((_, number) => {
    const moved = (/** @type {number} */ by) => eight.map((each, at) => (at === number ? each + by : each));
    return (focalSquared(moved(STEP), frame.centre) - focalSquared(moved(-STEP), frame.centre)) / (2 * STEP);
  });
  let variance = 0;
  change.forEach((one, row) => change.forEach((other, at) => (variance += one * spread[row][at] * other)));
  const own = 1 / Math.max(variance / (4 * square ** 2), STEP),
    held = 1 / trust.lens_usual_sd ** 2;
  return Math.exp(((own * Math.log(square)) / 2 + held * Math.log(trust.lens_usual)) / (own + held));
}

/** Where the camera stood. @param {Fit} fit @param {Trust} trust @returns {Camera} */
export function cameraOf(fit, trust) {
  const focal = focalLength(fit, trust),
    back = planeToPicture(fit.numbers.slice(0, EIGHT), fit.frame.centre);
  let made = [back[0].map((each) => each / focal), back[1].map((each) => each / focal), back[2]];
  const long = [0, 1].map((at) => Math.hypot(made[0][at], made[1][at], made[2][at]));
  made = scaled(made, (2 / (long[0] + long[1])) * (made[2][2] < 0 ? -1 : 1));
  const [one, two] = [0, 1].map((at) => made.map((row) => row[at]));
  const out = [one[1] * two[2] - one[2] * two[1], one[2] * two[0] - one[0] * two[2], one[0] * two[1] - one[1] * two[0]];
  const size = Math.hypot(...out);
  const stood = solved(
    made.map((row, at) => [row[0], row[1], out[at] / size]),
    made.map((row) => [-row[2]]),
  );
  return { foot: [stood[0][0], stood[1][0]], off: stood[2][0] };
}
