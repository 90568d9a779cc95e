// @ts-check
/**
 * Every point at its place: where the tapes put it, and by the sketch in whatever way no tape fixes.
 *
 * What was measured rules: the sketch is trusted so much less that it moves nothing which a tape holds.
 */
import { ellipse, spreads } from "./cofactors.js";
import { apart, at, settle } from "./network.js";
import { laidOver, leftOf, mirrored, near, neighbours, onSite, PLACE_MM, scaleOf, shown } from "./sketch.js";

/** @typedef {import("./network.js").At} At */
/** @typedef {import("./network.js").Places} Places */
/** @typedef {import("./network.js").Seen} Seen */
/** @typedef {import("./network.js").Settled} Settled */
/** @typedef {import("./sketch.js").Laid} Laid */
/** @typedef {import("./figures.js").Figures} Figures */
/** @typedef {{point: string, line_from: string, line_to: string, side: string}} Side */
/**
 * What is known of the points, as the document has it.
 * @typedef {object} Known
 * @property {Places} sketch
 * @property {Places} held places that stand fast
 * @property {Map<string, {place: At, sd: number}>} by_eye places by a tap, and how far they are trusted
 * @property {{from: string, to: string, way: At, start: At}|null} base
 * @property {Seen[]} seen tapes, square corners and points on lines
 * @property {Side[]} sides
 */
/** @typedef {"stated"|"tapes"|"sketch"} SideBy */
/**
 * @typedef {object} Fixing how far the place of a point is fixed
 * @property {boolean} measured
 * @property {number} missing how many conditions are missing, 0 to 2
 * @property {number|null} free_deg the way it may still move, clockwise from north; null where it may move either
 * way or none
 * @property {{major_mm: number, minor_mm: number, bearing_deg: number}|null} ellipse
 */
/**
 * @typedef {{places: Places, tied: Set<string>, first: Places, freedom: Map<string, At[]>, weak: Settled|null,
 * laid: Laid, pairs: [string, string][], sketch: Places, fixing: Map<string, Fixing>, unplaced: Map<string,
 * number>}} Placed
 */

const EITHER = /** @type {At[]} */ ([
    [1, 0],
    [0, 1],
  ]),
  WEAK = 300, // how many times less the sketch is trusted in the end: it moves nothing that a tape holds
  ROUNDS = 3, // in which the sketch is laid over what the tapes made of it
  LOOSE_MM = 1000; // what holds a point worse than this does not hold it

/** @param {Known} known @param {Figures} figures @returns {Placed} */
export function place(known, figures) {
  const sketch = onStatedSides(known),
    { held, freedom } = frame(known, sketch),
    pairs = neighbours(sketch),
    lengths = known.seen
      .filter((each) => each.kind === "tape")
      .map(({ points, measured }) => ({ points, length: measured })),
    fixed = [...known.held].map(([name]) => name),
    scale = scaleOf(sketch, [...lengths, ...between(fixed, known.held)]);
  /** @type {Places} */ let places = new Map(held);
  let laid = laidOver(sketch, held, scale);
  for (const [name, drawn] of sketch) {
    // moved by a hair, so that points stand neither on one spot nor on one line; the program does just the same
    const number = places.size;
    if (places.has(name)) continue;
    const [x, y] = onSite(laid, drawn);
    places.set(name, [x + (((7 * number) % 5) - 2) / 2, y + (((11 * number) % 7) - 3) / 2]);
  }
  const tied = new Set([...held.keys(), ...known.seen.flatMap(({ points }) => points)]);
  const eyed = new Map([...known.by_eye].filter(([name]) => tied.has(name) && !places.has(name)));
  for (const [name, { place: where }] of eyed) places.set(name, where);
  /** @type {Settled|null} */ let weak = null;
  const run = (/** @type {number} */ factor, /** @type {Places} */ extra) => {
    const all = [
      ...known.seen.filter(({ points }) => points.every((name) => places.has(name))),
      ...shown(sketch, pairs, laid, figures, factor),
      ...[...eyed].flatMap(([name, { place: where, sd }]) =>
        near(name, where, factor * Math.max(sd, figures.sketch_finger_mm)),
      ),
      ...[...extra].flatMap(([name, where]) => near(name, where, factor * PLACE_MM)),
    ];
    const free = new Map([...places.keys()].map((name) => [name, freedom.get(name) ?? EITHER]));
    weak = settle(places, free, all, factor !== WEAK);
    if (weak) ({ places } = weak);
  };
  /** @type {Places} */ const extra = new Map();
  for (let round = 0; round < ROUNDS; round += 1) {
    run(1, extra);
    const used = new Map([...places].filter(([name]) => tied.has(name) && sketch.has(name)));
    if (used.size > 1 && round < ROUNDS - 1) laid = laidOver(sketch, used, scale);
  }
  run(WEAK, extra);
  for (let again = true; again;) {
    again = false;
    for (const name of tied) {
      if (places.has(name)) continue;
      const cut = cutOf(name, known, places, figures);
      if (!cut) continue;
      places.set(name, cut);
      extra.set(name, cut);
      again = true;
    }
    if (again) run(WEAK, extra);
  }
  const unplaced = new Map(
    [...tied].filter((name) => !places.has(name)).map((name) => [name, short(name, known, places)]),
  );
  return {
    places,
    tied,
    first: new Map(places),
    freedom,
    weak,
    laid,
    pairs,
    sketch,
    fixing: heldUp(fixings(places, freedom, weak), known, freedom),
    unplaced,
  };
}

/** The sketch with points that a stated side puts across a line moved there. @param {Known} known @returns {Places} */
function onStatedSides({ sketch, sides }) {
  const put = new Map(sketch);
  for (const { point, line_from, line_to, side } of sides) {
    if (![point, line_from, line_to].every((name) => put.has(name))) continue;
    const [place, from, to] = [point, line_from, line_to].map((name) => at(put, name));
    if (leftOf(place, from, to) >= 0 !== (side === "left")) put.set(point, mirrored(place, from, to));
  }
  return put;
}

/** What stands fast, and which way the end of the base line may move. @param {Known} known @param {Places} sketch */
function frame({ held, base, seen }, sketch) {
  const fast = new Map(held);
  /** @type {Map<string, At[]>} */ const freedom = new Map([...held.keys()].map((name) => [name, []]));
  if (!base) return { held: fast, freedom };
  const taped = seen.filter(
      ({ kind, points }) => kind === "tape" && points.includes(base.from) && points.includes(base.to),
    ),
    drawn = sketch.has(base.from) && sketch.has(base.to) ? apart(at(sketch, base.from), at(sketch, base.to)) : 0,
    length = taped.length ? taped.reduce((sum, each) => sum + each.measured, 0) / taped.length : drawn;
  if (!fast.has(base.from)) {
    fast.set(base.from, base.start);
    freedom.set(base.from, []);
  }
  if (!fast.has(base.to) && length > 0) {
    fast.set(base.to, [base.start[0] + length * base.way[0], base.start[1] + length * base.way[1]]);
    freedom.set(base.to, [base.way]);
  }
  return { held: fast, freedom };
}

/** Distances between points of known place. @param {string[]} names @param {Places} held */
function between(names, held) {
  return names.flatMap((a, index) =>
    names.slice(index + 1).map((b) => ({ points: [a, b], length: apart(at(held, a), at(held, b)) })),
  );
}

/**
 * Where two tapes, or a tape and a line or corner, put a point that nobody sketched; null where that leaves two places.
 * @param {string} name
 * @param {Known} known
 * @param {Places} places
 * @param {Figures} figures
 * @returns {At|null}
 */
function cutOf(name, known, places, figures) {
  const tapes = known.seen
    .filter(({ kind, points }) => kind === "tape" && points.includes(name))
    .map((seen) => ({ ...seen, from: seen.points[0] === name ? seen.points[1] : seen.points[0] }))
    .filter(({ from }) => places.has(from));
  const side = known.sides.find(
    ({ point, line_from, line_to }) => point === name && places.has(line_from) && places.has(line_to),
  );
  /** @type {{left: At, right: At, sine: number, used: string[]}|null} */ let best = null;
  tapes.forEach((one, index) => {
    for (const other of tapes.slice(index + 1)) {
      const meeting = crossing(at(places, one.from), at(places, other.from), one.measured, other.measured);
      if (meeting && meeting.sine > (best?.sine ?? 0)) best = { ...meeting, used: [one.from, other.from] };
    }
  });
  const cut = /** @type {{left: At, right: At, sine: number, used: string[]}|null} */ (best);
  if (!cut) return null;
  const { left, right, used } = cut;
  if (side) {
    const [from, to] = [at(places, side.line_from), at(places, side.line_to)],
      fits = [left, right].filter((each) => leftOf(each, from, to) >= 0 === (side.side === "left"));
    if (fits.length === 1) return fits[0];
  }
  const others = tapes.filter(({ from }) => !used.includes(from));
  const miss = (/** @type {At} */ each) =>
    Math.max(...others.map(({ from, measured, sd }) => Math.abs(apart(each, at(places, from)) - measured) / sd));
  if (!others.length) return null;
  const [good, bad] = miss(left) <= miss(right) ? [left, right] : [right, left];
  return miss(bad) > Math.max(figures.greatest_standardised_residual, 3 * miss(good)) ? good : null;
}

/**
 * Where two tapes meet, left and right of the line between their ends.
 * @param {At} a
 * @param {At} b
 * @param {number} from_a
 * @param {number} from_b
 */
export function crossing(a, b, from_a, from_b) {
  const line = apart(a, b);
  if (!line || from_a + from_b < line || Math.abs(from_a - from_b) > line) return null;
  const along = ((from_a - from_b) * (from_a + from_b) + line * line) / (2 * line),
    off = Math.sqrt(Math.max(0, (from_a - along) * (from_a + along))),
    [ux, uy] = [(b[0] - a[0]) / line, (b[1] - a[1]) / line];
  const put = (/** @type {number} */ up) => [a[0] + along * ux - up * uy, a[1] + along * uy + up * ux];
  return { left: put(off), right: put(-off), sine: (off * line) / (from_a * from_b) };
}

/**
 * How many conditions an unplaced point lacks; none where only its side is missing.
 * @param {string} name
 * @param {Known} known
 * @param {Places} places
 */
function short(name, { seen }, places) {
  const held = seen.filter(
    ({ points }) => points.includes(name) && points.every((each) => each === name || places.has(each)),
  );
  return Math.max(0, 2 - held.length);
}

/**
 * @param {Places} places
 * @param {Map<string, At[]>} freedom
 * @param {Settled|null} weak
 * @returns {Map<string, Fixing>}
 */
function fixings(places, freedom, weak) {
  const spread = weak ? spreads(weak) : new Map();
  return new Map(
    [...places.keys()].map((name) => {
      const ways = freedom.get(name) ?? EITHER;
      if (!ways.length) return [name, { measured: true, missing: 0, free_deg: null, ellipse: null }];
      const of = spread.get(name),
        axes = of ? ellipse(of) : null,
        missing = !axes ? ways.length : Number(axes.major_mm > LOOSE_MM) + Number(axes.minor_mm > LOOSE_MM);
      return [
        name,
        {
          measured: missing === 0,
          missing,
          free_deg: missing === 1 && axes ? axes.bearing_deg : null,
          ellipse: axes && byEye(axes, missing),
        },
      ];
    }),
  );
}

/**
 * What a place is worth where the sketch gives it: as far as a finger draws, in the ways that nothing else holds.
 * @param {{major_mm: number, minor_mm: number, bearing_deg: number}} axes
 * @param {number} missing
 */
const byEye = (axes, missing) => ({
  major_mm: axes.major_mm / (missing > 0 ? WEAK : 1),
  minor_mm: axes.minor_mm / (missing > 1 ? WEAK : 1),
  bearing_deg: axes.bearing_deg,
});

/**
 * Points that only seem to be held, by a bar from a point that may move itself: they are sketched too.
 * @param {Map<string, Fixing>} fixing
 * @param {Known} known
 * @param {Map<string, At[]>} freedom
 */
function heldUp(fixing, { seen }, freedom) {
  for (let again = true; again;) {
    again = false;
    const sure = seen.filter(({ points }) => points.every((name) => fixing.get(name)?.measured));
    for (const [name, one] of fixing) {
      const ways = (freedom.get(name) ?? EITHER).length;
      if (!one.measured || sure.filter(({ points }) => points.includes(name)).length >= ways) continue;
      fixing.set(name, { ...one, measured: false, missing: 1 });
      again = true;
    }
  }
  return fixing;
}
