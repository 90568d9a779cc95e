// @ts-check
/** Tapes that the others contradict, by standardised residuals; and tapes that only the sketch can doubt. */
import { dot, tapeRow, through } from "./cofactors.js";
import { apart, at, found, settle } from "./network.js";

/** @typedef {import("./network.js").At} At */
/** @typedef {import("./network.js").Places} Places */
/** @typedef {import("./network.js").Seen} Seen */
/** @typedef {import("./network.js").Settled} Settled */
/** @typedef {import("./figures.js").Figures} Figures */
/**
 * A network of what is measured.
 * @typedef {object} Network
 * @property {Settled} settled
 * @property {Seen[]} seen
 * @property {number[]} residuals adjusted less measured. [mm]
 * @property {number[]} redundancy how far the others check each, 0 to 1
 * @property {number} spare
 * @property {number|null} ratio deviation after over before
 */
/**
 * @typedef {{number: number, size: number, standardised: number, alike: number[]}} Slip size: how much too long it
 * was read. [mm]
 */

const NOTHING = 1e-9,
  SURE = 1.5,
  SAME = 1e-4,
  SPARE_FOR_EACH = 3,
  AS_SD = 1.4826; // a median of distances from the middle, as a standard deviation

/** @param {Places} places @param {Map<string, At[]>} freedom @param {Seen[]} seen @returns {Network|null} */
export function adjusted(places, freedom, seen) {
  const settled = settle(places, freedom, seen);
  if (!settled) return null;
  const residuals = seen.map((each) => found(each, settled.places) - each.measured),
    redundancy = settled.rows.map((row) => 1 - dot(row, through(settled, row))),
    spare = seen.length - settled.unknowns.length;
  return { settled, seen, residuals, redundancy, spare, ratio: spare > 0 ? Math.sqrt(settled.squares / spare) : null };
}

/** Residuals over their own deviations; zero where nothing checks. @param {Network} network */
export const standardised = ({ seen, residuals, redundancy }) =>
  seen.map((each, index) =>
    redundancy[index] > NOTHING ? residuals[index] / (each.sd * Math.sqrt(redundancy[index])) : 0,
  );

/**
 * The slips of a network: the worst is taken out and the rest adjusted again while one fails.
 * @param {Network} whole
 * @param {Places} places first places
 * @param {Map<string, At[]>} freedom
 * @param {Figures} figures
 * @returns {Slip[]}
 */
export function slipsOf(whole, places, freedom, figures) {
  let network = whole,
    left = whole.seen.map((_, index) => index);
  /** @type {Slip[]} */ const slips = [];
  while (network.spare > 0) {
    const worst = worstOf(network, left);
    if (Math.abs(worst.standardised) <= figures.greatest_standardised_residual + NOTHING) break;
    slips.push(worst);
    if (worst.alike.length > 1) break;
    const rest = left.filter((number) => number !== worst.number),
      again = adjusted(
        places,
        freedom,
        rest.map((number) => whole.seen[number]),
      );
    if (!again) break;
    [network, left] = [again, rest];
  }
  const { places: sound } = network.settled;
  for (const slip of slips)
    if (!left.includes(slip.number)) {
      const each = whole.seen[slip.number];
      slip.size = each.measured - found(each, sound);
    }
  const { ratio, spare } = whole;
  if (ratio === null || ratio <= greatestRatio(spare, figures.confidence_percent / 100)) return [];
  const likely = slips.length > 0 && slips.length <= Math.max(1, Math.floor(spare / SPARE_FOR_EACH));
  return likely ? slips : leftOut(whole, places, freedom, figures);
}

/**
 * Where a slip is so gross that it bends everything: what may be left out, alone, so that the rest agrees.
 * @param {Network} whole
 * @param {Places} places
 * @param {Map<string, At[]>} freedom
 * @param {Figures} figures
 * @returns {Slip[]} one slip, with all that it may be
 */
function leftOut(whole, places, freedom, figures) {
  const fits = whole.seen.flatMap((each, number) => {
    const rest = adjusted(
      places,
      freedom,
      whole.seen.filter((_, index) => index !== number),
    );
    const agrees =
      rest && (rest.ratio === null || rest.ratio <= greatestRatio(rest.spare, figures.confidence_percent / 100));
    if (!agrees) return [];
    return [{ number, size: each.measured - found(each, rest.settled.places), ratio: rest.ratio ?? 0 }];
  });
  if (!fits.length) return [];
  const [best] = [...fits].sort((one, other) => one.ratio - other.ratio);
  return [{ number: best.number, size: best.size, standardised: Infinity, alike: fits.map(({ number }) => number) }];
}

/**
 * How long one observation should be by all others, and how sure that is; null where nothing else says.
 * @param {Network} network
 * @param {number} number
 * @param {Places} places first places
 * @param {Map<string, At[]>} freedom
 * @returns {{should_mm: number, sd_mm: number, ratio: number|null}|null}
 */
export function byOthers({ seen }, number, places, freedom) {
  const rest = adjusted(
    places,
    freedom,
    seen.filter((_, index) => index !== number),
  );
  if (!rest) return null;
  const one = seen[number],
    row = tapeRow(rest.settled, one.points[0], one.points[1], 1);
  return {
    should_mm: found(one, rest.settled.places),
    sd_mm: Math.sqrt(dot(row, through(rest.settled, row))),
    ratio: rest.ratio,
  };
}

/** @param {Network} network @param {number[]} left @returns {Slip} */
function worstOf(network, left) {
  const { settled, residuals, redundancy } = network,
    signed = standardised(network),
    sizes = signed.map(Math.abs),
    worst = sizes.indexOf(Math.max(...sizes)),
    column = through(settled, settled.rows[worst]);
  const alike = left.filter((_, index) => {
    if (index === worst) return true;
    if (redundancy[index] <= NOTHING) return false;
    const likeness = Math.abs(dot(settled.rows[index], column)) / Math.sqrt(redundancy[index] * redundancy[worst]),
      parted = Math.sqrt(2 * Math.max(1 - likeness, 0));
    return sizes[worst] - sizes[index] <= SURE * parted + SAME * sizes[worst];
  });
  const size = redundancy[worst] > NOTHING ? -residuals[worst] / redundancy[worst] : 0;
  return { number: left[worst], size, standardised: signed[worst], alike };
}

/** Up to which ratio of deviations chance alone explains. @param {number} spare @param {number} confidence */
export function greatestRatio(spare, confidence) {
  const part = 1 - (1 - confidence) / 2;
  let [low, high] = [0, spare];
  while (gammaPart(spare / 2, high / 2) < part) high *= 2;
  for (let halving = 0; halving < 60; halving += 1) {
    const middle = (low + high) / 2;
    if (gammaPart(spare / 2, middle / 2) < part) low = middle;
    else high = middle;
  }
  return Math.sqrt((low + high) / 2 / spare);
}

/**
 * The regularised lower incomplete gamma function of half whole numbers.
 * @param {number} shape
 * @param {number} limit
 */
function gammaPart(shape, limit) {
  if (limit <= 0) return 0;
  // by its recurrence from shape 1/2 or 1: P(a + 1, x) = P(a, x) - x^a e^-x / Γ(a + 1)
  const odd = shape % 1 !== 0;
  let part = odd ? 1 - complement(Math.sqrt(limit)) : 1 - Math.exp(-limit),
    from = odd ? 0.5 : 1,
    term = odd ? 2 * Math.sqrt(limit / Math.PI) * Math.exp(-limit) : limit * Math.exp(-limit);
  for (; from < shape; from += 1) {
    part -= term;
    term *= limit / (from + 1);
  }
  return part;
}

/** The complementary error function, by its series or its continued fraction. @param {number} x */
function complement(x) {
  if (x < 2.5) {
    let term = x,
      sum = x;
    for (let n = 1; n < 80; n += 1) {
      term *= (-x * x) / n;
      sum += term / (2 * n + 1);
    }
    return 1 - (2 / Math.sqrt(Math.PI)) * sum;
  }
  let value = 0;
  for (let n = 80; n > 0; n -= 1) value = n / 2 / (x + value);
  return Math.exp(-x * x) / Math.sqrt(Math.PI) / (x + value);
}

/**
 * Three tapes round three points that do not meet: each as the numbers of its tapes.
 * @param {Seen[]} seen
 * @param {Figures} figures
 * @returns {number[][]}
 */
export function notMeeting(seen, figures) {
  const tapes = seen.map((each, number) => ({ ...each, number })).filter(({ kind }) => kind === "tape");
  /** @type {number[][]} */ const bad = [];
  tapes.forEach((one, first) => {
    tapes.slice(first + 1).forEach((other, second) => {
      for (const third of tapes.slice(first + second + 2)) {
        const names = new Set([...one.points, ...other.points, ...third.points]);
        if (
          names.size !== 3 ||
          new Set([one, other, third].map(({ points }) => [...points].sort().join("\n"))).size !== 3
        )
          continue;
        const lengths = [one, other, third].map(({ measured }) => measured),
          longest = Math.max(...lengths),
          over = 2 * longest - lengths[0] - lengths[1] - lengths[2];
        if (over > figures.greatest_standardised_residual * Math.hypot(one.sd, other.sd, third.sd))
          bad.push([one.number, other.number, third.number]);
      }
    });
  });
  return bad;
}

/**
 * How far the lines of a sketch scatter about its scale, as a part of them.
 * @param {Seen[]} seen
 * @param {Places} sketch
 * @param {number} min_share
 */
export function scatterOf(seen, sketch, min_share) {
  const logs = drawnTapes(seen, sketch).map(({ log }) => log);
  if (logs.length < 3) return min_share;
  const middle = median(logs);
  return Math.max(min_share, AS_SD * median(logs.map((log) => Math.abs(log - middle))));
}

/**
 * Tapes between points of the sketch, with the logarithm of taped over drawn.
 * @param {Seen[]} seen
 * @param {Places} sketch
 */
const drawnTapes = (seen, sketch) =>
  seen
    .map((each, number) => ({ ...each, number }))
    .filter(({ kind, points }) => kind === "tape" && points.every((name) => sketch.has(name)))
    .map((each) => ({ ...each, drawn: apart(at(sketch, each.points[0]), at(sketch, each.points[1])) }))
    .filter((each) => each.drawn > 0)
    .map((each) => ({ ...each, log: Math.log(each.measured / each.drawn) }));

/**
 * Tapes far from what the sketch shows, once other tapes tell its scale: how long each should be, and how sure that is.
 * @param {Seen[]} seen
 * @param {Places} sketch
 * @param {(number: number) => boolean} checked whether other tapes check it
 * @param {Figures} figures
 * @returns {{number: number, should_mm: number, sd_mm: number}[]}
 */
export function doubted(seen, sketch, checked, figures) {
  const drawn = drawnTapes(seen, sketch);
  return drawn
    .filter(({ number }) => !checked(number))
    .flatMap((each) => {
      const others = drawn.filter(({ number }) => number !== each.number).map(({ log }) => log);
      if (others.length < 2) return [];
      const middle = median(others),
        spread = Math.max(figures.sketch_scale_share, AS_SD * median(others.map((log) => Math.abs(log - middle))));
      if (Math.abs(each.log - middle) <= figures.look_again_sds * spread) return [];
      const should_mm = each.drawn * Math.exp(middle);
      return [{ number: each.number, should_mm, sd_mm: should_mm * spread }];
    });
}

/** @param {number[]} all */
function median(all) {
  const row = [...all].sort((a, b) => a - b),
    half = Math.floor(row.length / 2);
  return row.length % 2 ? row[half] : (row[half - 1] + row[half]) / 2;
}
