// @ts-check
/**
 * The shape of a job as a man walks round it: the sketch of his finger, following every tape; a slip named at once; and
 * the tape that helps most next. A second telling of the survey of the program, for a place without signal; tests hold
 * the two together.
 */
import { ellipse, spreads } from "./shape/cofactors.js";
import { drawnFrom, knownFrom, offLines } from "./shape/document.js";
import { FIGURES } from "./shape/figures.js";
import { apart, at } from "./shape/network.js";
import { isWanted, nextToCheck, nextToFix, pairKey, pairsToTape } from "./shape/next.js";
import { place } from "./shape/placing.js";
import { onSketch } from "./shape/sketch.js";
import { sidesOf, turnedOver } from "./shape/sides.js";
import { adjusted, greatestRatio, slipsOf } from "./shape/slips.js";
import { told } from "./shape/told.js";

/** @typedef {import("./shape/network.js").At} At */
/** @typedef {import("./shape/network.js").Places} Places */
/** @typedef {import("./shape/network.js").Seen} Seen */
/** @typedef {import("./shape/next.js").Next} Next */
/** @typedef {import("./shape/next.js").Drawn} Drawn */
/**
 * A point of the shape.
 * @typedef {object} ShapePoint
 * @property {string} name
 * @property {number|null} x_mm null where nothing gives it a place
 * @property {number|null} y_mm
 * @property {"measured"|"sketched"|"unplaced"} state
 * @property {number} missing how many more conditions (tapes) it would need to be measured, 0 to 2
 * @property {number|null} free_deg the way in which it may still move; null where either or neither
 * @property {import("./shape/sides.js").SideBy|null} side what says on which side it lies; null where no side is asked
 * @property {{major_mm: number, minor_mm: number, bearing_deg: number}|null} ellipse one standard deviation
 */
/**
 * @typedef {{start: string, end: string, measured_mm: number, adjusted_mm: number, residual_mm: number,
 * redundancy: number}} ShapeTape
 */
/**
 * The shape so far. `fixed` and `missing` count the points that have to be measured: corners of areas, ends of
 * walls, and
 * what a tape runs to; a spot that was tapped in the middle stays by eye.
 */
/**
 * @typedef {{points: ShapePoint[], tapes: ShapeTape[], slips: import("./shape/told.js").ShapeSlip[], next:
 * Next|null, fixed: boolean, missing: number, spare: number, toSketch: (at: At) => At}} Shape
 */

/**
 * The shape that a job has so far.
 * @param {any} document a job document, or as much of one: measurements, site.walls, areas
 * @param {import("./shape/figures.js").Figures} figures
 * @returns {Shape}
 */
export function shape(document, figures = FIGURES) {
  const known = knownFrom(document, figures),
    placed = place(known, figures),
    { fixing, places, freedom } = placed,
    drawn = drawnFrom(document);
  const measured = (/** @type {string} */ name) => fixing.get(name)?.measured ?? false,
    mine = known.seen.filter(({ points }) => points.every(measured)),
    joined = new Set(mine.flatMap(({ points }) => points)),
    first = new Map([...places].filter(([name]) => joined.has(name))),
    free = new Map([...first.keys()].map((name) => [name, freedom.get(name) ?? EITHER])),
    sides = sidesOf(known, measured, places, placed.sketch, figures.sketch_scale_share),
    drawn_over = mine.length ? adjusted(first, free, mine) : null,
    turned = drawn_over && turnedOver(drawn_over, first, free, sides, figures),
    network = turned && !turned.stated ? turned.network : drawn_over;
  if (turned && !turned.stated) sides.set(turned.name, { by: "tapes", line: null });
  const limit = network?.spare ? greatestRatio(network.spare, figures.confidence_percent / 100) : Infinity,
    grown = (network?.ratio ?? 0) > limit ? (network?.ratio ?? 1) : 1; // deviations that the fit shows to be too small
  for (const [name, spread] of network ? spreads(network.settled) : []) {
    const axes = ellipse(spread),
      known_of = fixing.get(name);
    if (known_of?.ellipse)
      known_of.ellipse = { ...axes, major_mm: grown * axes.major_mm, minor_mm: grown * axes.minor_mm };
  }
  for (const [name, where] of network?.settled.places ?? []) places.set(name, where);
  const slips = network ? slipsOf(network, first, free, figures) : [];
  const taped = new Set(known.seen.filter(({ kind }) => kind === "tape").map(({ points: [a, b] }) => pairKey(a, b))),
    pairs = pairsToTape(placed, taped, drawn),
    last = slips.at(-1),
    missing = [...fixing].reduce(
      (sum, [name, each]) => sum + (isWanted(name, drawn, placed.tied) ? each.missing : 0),
      0,
    );
  const next = !known.base
    ? firstTape(placed, pairs, drawn)
    : missing
      ? nextToFix(placed, pairs, drawn, figures)
      : network &&
        nextToCheck(
          network,
          pairs.filter(({ start, end }) => joined.has(start) && joined.has(end)),
          last?.alike ?? [],
          figures,
        );
  const stated = turned?.stated ? [wrongSide(turned.name, sides)] : [];
  return {
    points: [...pointsOf(placed, sides, known), ...offsetsOf(document, withTaps(places, known), measured)],
    tapes: tapesOf(known.seen, places, network),
    slips: stated.length ? stated : told(known, network, slips, { places: first, freedom: free }, placed, figures),
    next,
    fixed: known.base !== null && missing === 0 && placed.unplaced.size === 0,
    missing: missing + [...placed.unplaced.values()].reduce((sum, each) => sum + each, 0),
    spare: network?.spare ?? 0,
    toSketch: (where) => sketchPlace(placed, where),
  };
}

/**
 * @param {string} point
 * @param {Map<string, import("./shape/sides.js").Sided>} sides
 * @returns {import("./shape/told.js").ShapeSlip}
 */
function wrongSide(point, sides) {
  const [start, end] = sides.get(point)?.line ?? [point, point];
  return { kind: "side", point, start, end, measured_mm: 0, should_mm: null, sd_mm: null, reason: null, among: [] };
}

const EITHER = [
  [1, 0],
  [0, 1],
];

/**
 * Before anything is taped: the longest wall, or else the longest side of the sketch, as base line.
 * @param {import("./shape/placing.js").Placed} placed
 * @param {{start: string, end: string, side: boolean}[]} pairs
 * @param {Drawn} drawn
 * @returns {Next|null}
 */
function firstTape({ places }, pairs, { walls }) {
  const standing = new Set(walls.map(([a, b]) => pairKey(a, b))),
    sides = pairs
      .filter(({ side }) => side)
      .map((pair) => ({ ...pair, length_mm: apart(at(places, pair.start), at(places, pair.end)) })),
    along = sides.filter(({ start, end }) => standing.has(pairKey(start, end)));
  const [best] = (along.length ? along : sides).sort((one, other) => other.length_mm - one.length_mm);
  return best ? { start: best.start, end: best.end, length_mm: best.length_mm, gain: "base", fixes: [] } : null;
}

/**
 * @param {import("./shape/placing.js").Placed} placed
 * @param {Map<string, import("./shape/sides.js").Sided>} sides
 * @param {import("./shape/placing.js").Known} known
 * @returns {ShapePoint[]}
 */
function pointsOf({ places, fixing, unplaced }, sides, { by_eye }) {
  const placed = [...places].map(([name, [x_mm, y_mm]]) => {
    const { measured, missing, free_deg, ellipse } = fixing.get(name) ?? NOT_FIXED;
    return {
      name,
      x_mm,
      y_mm,
      state: /** @type {ShapePoint["state"]} */ (measured ? "measured" : "sketched"),
      missing,
      free_deg,
      side: sides.get(name)?.by ?? null,
      ellipse,
    };
  });
  const tapped = [...by_eye].filter(([name]) => !places.has(name));
  return [
    ...placed,
    ...tapped.map(([name, tap]) => ({
      ...NOWHERE,
      name,
      x_mm: tap.place[0],
      y_mm: tap.place[1],
      state: /** @type {const} */ ("sketched"),
      missing: 0,
      ellipse: { major_mm: tap.sd, minor_mm: tap.sd, bearing_deg: 0 },
    })),
    ...[...unplaced].map(([name, missing]) => ({ ...NOWHERE, name, missing })),
  ];
}

/** @param {Places} places @param {import("./shape/placing.js").Known} known @returns {Places} */
const withTaps = (places, { by_eye }) =>
  new Map([...[...by_eye].map(([name, { place: where }]) => /** @type {[string, At]} */ ([name, where])), ...places]);

const NOT_FIXED = { measured: false, missing: 2, free_deg: null, ellipse: null },
  NOWHERE = {
    x_mm: null,
    y_mm: null,
    state: /** @type {const} */ ("unplaced"),
    free_deg: null,
    side: null,
    ellipse: null,
  };

/** @param {any} document @param {Places} places @param {(name: string) => boolean} measured @returns {ShapePoint[]} */
function offsetsOf({ measurements }, places, measured) {
  const offsets = measurements?.offsets ?? [],
    found = offLines(offsets, places),
    sure = new Set();
  for (let round = 0; round < offsets.length; round += 1)
    for (const { name, line_from, line_to } of offsets)
      if ([line_from, line_to].every((end) => measured(end) || sure.has(end))) sure.add(name);
  return offsets
    .filter((/** @type {any} */ { name }) => !places.has(name))
    .map((/** @type {any} */ { name }) => {
      const where = found.get(name);
      if (!where) return { ...NOWHERE, name, missing: 0 };
      const state = sure.has(name) ? "measured" : "sketched";
      return { ...NOWHERE, name, x_mm: where[0], y_mm: where[1], state, missing: 0 };
    });
}

/**
 * @param {Seen[]} seen
 * @param {Places} places
 * @param {import("./shape/slips.js").Network|null} network
 * @returns {ShapeTape[]}
 */
function tapesOf(seen, places, network) {
  return seen
    .filter(({ kind, points }) => kind === "tape" && points.every((name) => places.has(name)))
    .map((each) => {
      const [start, end] = each.points,
        adjusted_mm = apart(at(places, start), at(places, end)),
        redundancy = Math.max(0, network?.redundancy[network.seen.indexOf(each)] ?? 0);
      return {
        start,
        end,
        measured_mm: each.measured,
        adjusted_mm,
        residual_mm: adjusted_mm - each.measured,
        redundancy,
      };
    });
}

/**
 * The base line for a first tape, laid so that the shape stays as it was drawn: fields of a new tape plan.
 * @param {{name: string, x_mm: number, y_mm: number}[]} sketch
 * @param {string} start
 * @param {string} end
 */
export function baseFor(sketch, start, end) {
  const [from, to] = [start, end].map((wanted) => sketch.find(({ name }) => name === wanted)),
    [dx, dy] = from && to ? [to.x_mm - from.x_mm, to.y_mm - from.y_mm] : [1, 0];
  const bearing = (Math.atan2(dx, dy) * 180) / Math.PI; // clockwise from up the sketch
  return {
    base_from: start,
    base_to: end,
    x_mm: 0,
    y_mm: 0,
    bearing_deg: (Math.round(((bearing + 360) % 360) * 10) / 10) % 360,
  };
}

/**
 * Where a tap on the shape lies on the sketch, so that a point put there moves with it.
 * @param {import("./shape/placing.js").Placed} placed
 * @param {At} where
 * @returns {At}
 */
function sketchPlace({ laid, sketch, places }, where) {
  let [x, y, weight] = [0, 0, 0];
  for (const [name, drawn] of sketch) {
    const now = at(places, name),
      back = onSketch(laid, now),
      share = 1 / (apart(now, where) ** 4 + 1);
    x += share * (drawn[0] - back[0]);
    y += share * (drawn[1] - back[1]);
    weight += share;
  }
  const [u, v] = onSketch(laid, where);
  return weight ? [u + x / weight, v + y / weight] : [u, v];
}
