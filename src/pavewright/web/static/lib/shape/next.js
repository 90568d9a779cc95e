// @ts-check
/**
 * The one tape more that helps most: while points are not fixed the one that fixes most, then the one that checks
 * most.
 */
import { dot, ellipse, spreads, tapeRow, through } from "./cofactors.js";
import { apart, at } from "./network.js";

/** @typedef {import("./network.js").At} At */
/** @typedef {import("./network.js").Places} Places */
/** @typedef {import("./network.js").Settled} Settled */
/** @typedef {import("./slips.js").Network} Network */
/** @typedef {import("./placing.js").Placed} Placed */
/** @typedef {import("./figures.js").Figures} Figures */
/**
 * @typedef {{start: string, end: string, length_mm: number, gain: "base"|"fix"|"place"|"check"|"point", fixes:
 * string[]}} Next
 */
/** @typedef {{walls: [string, string][], rings: string[][]}} Drawn walls of the house, and outlines of what is paved */

const LOOSE_MM = 1000,
  CHECKED = 1e-9;

/** @param {Figures} figures @param {number} length_mm */
export const tapeSd = (figures, length_mm) =>
  Math.hypot(figures.tape_sd_fixed_mm, (figures.tape_sd_growing_mm_per_m * length_mm) / 1000);

/** @param {string} a @param {string} b */
export const pairKey = (a, b) => JSON.stringify([a, b].sort());

/**
 * Whether a tape can be pulled: it crosses no wall, and does not run behind the walls of one outline.
 * @param {string} a
 * @param {string} b
 * @param {Places} places
 * @param {Drawn} drawn
 */
export function canBeTaped(a, b, places, { walls, rings }) {
  const [from, to] = [at(places, a), at(places, b)];
  const crossed = walls.some(([c, d]) => {
    if ([c, d].some((name) => name === a || name === b || !places.has(name))) return false;
    const [one, other] = [at(places, c), at(places, d)];
    return turn(from, to, one) * turn(from, to, other) < 0 && turn(one, other, from) * turn(one, other, to) < 0;
  });
  if (crossed) return false;
  const standing = new Set(walls.map(([c, d]) => pairKey(c, d)));
  return rings.every((ring) => {
    const [first, last] = [ring.indexOf(a), ring.indexOf(b)];
    if (first < 0 || last < 0 || !ring.every((name) => places.has(name))) return true;
    const behind = [way(ring, first, last), way(ring, last, first)].some((run) =>
      run.every((name, index) => index === 0 || standing.has(pairKey(run[index - 1], name))),
    );
    if (!behind || standing.has(pairKey(a, b))) return true;
    return within(
      [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
      ring.map((name) => at(places, name)),
    );
  });
}

/** @param {string[]} ring @param {number} first @param {number} last */
const way = (ring, first, last) => {
  const run = [ring[first]];
  for (let index = first; index !== last;) run.push(ring[(index = (index + 1) % ring.length)]);
  return run;
};

/** @param {At} a @param {At} b @param {At} c */
const turn = (a, b, c) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** @param {At} place @param {At[]} ring */
function within([x, y], ring) {
  let inside = false;
  ring.forEach(([x1, y1], index) => {
    const [x2, y2] = ring[(index + 1) % ring.length];
    if (y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) inside = !inside;
  });
  return inside;
}

/**
 * Whether a point has to be measured: it is a corner of something, or a tape runs to it; a spot that was tapped
 * need not.
 * @param {string} name
 * @param {Drawn} drawn
 * @param {Set<string>} tied points that something measured joins
 */
export const isWanted = (name, { walls, rings }, tied) =>
  tied.has(name) || (!walls.length && !rings.length) || [...walls, ...rings].some((line) => line.includes(name));

/**
 * The pairs that may be taped next, each with whether it is a side.
 * @param {Placed} placed
 * @param {Set<string>} taped
 * @param {Drawn} drawn
 */
export function pairsToTape({ places, pairs, freedom, tied }, taped, drawn) {
  const names = [...places.keys()].filter((name) => isWanted(name, drawn, tied)),
    sides = new Set(
      [
        ...pairs,
        ...drawn.walls,
        ...drawn.rings.flatMap((ring) => ring.map((name, index) => [name, ring[(index + 1) % ring.length]])),
      ].map(([a, b]) => pairKey(a, b)),
    );
  const held = (/** @type {string} */ name) => freedom.get(name)?.length === 0;
  return names.flatMap((a, index) =>
    names
      .slice(index + 1)
      .filter((b) => !taped.has(pairKey(a, b)) && !(held(a) && held(b)) && apart(at(places, a), at(places, b)) > 0)
      .filter((b) => canBeTaped(a, b, places, drawn))
      .map((b) => ({ start: a, end: b, side: sides.has(pairKey(a, b)) })),
  );
}

/**
 * While points are missing conditions: the tape that fixes most of them, well, sides before diagonals.
 * @param {Placed} placed
 * @param {{start: string, end: string, side: boolean}[]} pairs
 * @param {Drawn} drawn
 * @param {Figures} figures
 * @returns {Next|null}
 */
export function nextToFix({ weak, fixing, places, tied }, pairs, drawn, figures) {
  if (!weak) return null;
  const good = 3 * figures.weak_point_mm,
    tried = pairs.flatMap(({ start, end, side }) => {
      const length_mm = apart(at(places, start), at(places, end)),
        row = tapeRow(weak, start, end, tapeSd(figures, length_mm)),
        pulled = through(weak, row),
        over = 1 + dot(row, pulled);
      if (over * tapeSd(figures, length_mm) ** 2 < LOOSE_MM ** 2) return [];
      let [missing, worst] = [0, 0];
      /** @type {string[]} */ const fixes = [],
        /** @type {string[]} */ poor = [];
      for (const [name, spread] of spreads(weak, pulled, over)) {
        const before = fixing.get(name)?.missing ?? 0;
        if (!before || !isWanted(name, drawn, tied)) continue;
        const { major_mm, minor_mm } = ellipse(spread),
          after = Number(major_mm > LOOSE_MM) + Number(minor_mm > LOOSE_MM);
        missing += before - after;
        if (after) continue;
        if (major_mm <= good) fixes.push(name);
        else poor.push(name);
        worst = Math.max(worst, major_mm);
      }
      const known = [start, end].filter((name) => fixing.get(name)?.measured).length;
      const rank = [
        -fixes.length,
        -missing,
        -known,
        side ? 0 : 1,
        poor.length,
        Math.round(worst),
        Math.round(length_mm),
      ];
      return [{ start, end, length_mm, gain: /** @type {const} */ ("fix"), fixes: [...fixes, ...poor], rank }];
    });
  return plain(smallest(tried));
}

/** @param {Next|null} best @returns {Next|null} */
const plain = (best) =>
  best && { start: best.start, end: best.end, length_mm: best.length_mm, gain: best.gain, fixes: best.fixes };

/** @template {{rank: number[], start: string, end: string}} T @param {T[]} tried @returns {T|null} */
function smallest(tried) {
  const less = (/** @type {T} */ one, /** @type {T} */ other) => {
    const at_which = one.rank.findIndex((each, index) => each !== other.rank[index]);
    if (at_which >= 0) return one.rank[at_which] < other.rank[at_which];
    return one.start === other.start ? one.end < other.end : one.start < other.start;
  };
  return tried.reduce((/** @type {T|null} */ best, each) => (best && !less(each, best) ? best : each), null);
}

/**
 * Once everything is fixed: what settles a slip that is not placed, then what checks most, then what makes the weakest
 * point firmer.
 * @param {Network} network
 * @param {{start: string, end: string, side: boolean}[]} pairs
 * @param {number[]} alike
 * @param {Figures} figures
 * @returns {Next|null}
 */
export function nextToCheck(network, pairs, alike, figures) {
  const { settled } = network,
    { places, rows } = settled,
    seen_by = rows.map((row) => through(settled, row));
  const nothing = new Float64Array(settled.unknowns.length);
  const measure = (/** @type {Float64Array} */ pulled, /** @type {number} */ over, /** @type {string} */ gain) => {
    if (gain === "point")
      return Math.max(0, ...[...spreads(settled, pulled, over).values()].map((each) => ellipse(each).major_mm));
    const bound = rows.map((row) => dot(row, pulled)),
      parts = network.redundancy.map((part, index) => part + bound[index] ** 2 / over);
    if (gain === "check") return parts.reduce((sum, part) => sum + Math.max(figures.min_redundancy - part, 0), 0);
    let [sum, count] = [0, 0];
    alike.forEach((i, index) => {
      for (const j of alike.slice(index + 1)) {
        const mixed = -dot(rows[i], seen_by[j]) + (bound[i] * bound[j]) / over;
        sum += Math.abs(mixed) / Math.sqrt(parts[i] * parts[j]);
        count += 1;
      }
    });
    return sum / count;
  };
  const gain = alike.length > 1 ? "place" : measure(nothing, 1, "check") > CHECKED ? "check" : "point",
    before = measure(nothing, 1, gain);
  if (gain === "point" && before <= figures.weak_point_mm) return null;
  const tried = pairs.map(({ start, end, side }) => {
    const length_mm = apart(at(places, start), at(places, end)),
      row = tapeRow(settled, start, end, tapeSd(figures, length_mm)),
      pulled = through(settled, row);
    return {
      start,
      end,
      length_mm,
      gain: /** @type {Next["gain"]} */ (gain),
      fixes: [],
      after: measure(pulled, 1 + dot(row, pulled), gain),
      side,
    };
  });
  const ranked = tried
    .filter(({ after }) => after < before - CHECKED)
    .map((each) => ({ ...each, rank: [Math.round(each.after * 1e9) / 1e9, each.side ? 0 : 1] }));
  return plain(smallest(ranked));
}
