// @ts-check
/** On which side of a line a taped point lies: what says so, and whether the other side would fit the tapes better. */
import { apart, at } from "./network.js";
import { leftOf, mirrored } from "./sketch.js";
import { adjusted, greatestRatio, scatterOf } from "./slips.js";

/** @typedef {import("./network.js").At} At */
/** @typedef {import("./network.js").Places} Places */
/** @typedef {import("./network.js").Seen} Seen */
/** @typedef {import("./slips.js").Network} Network */
/** @typedef {import("./placing.js").Placed} Placed */
/** @typedef {import("./placing.js").Known} Known */
/**
 * `stated` by a person; by `tapes` from well apart; by the `sketch`; or `doubtful`: by a sketch on which it lies
 * so near
 * the line that it may be either side.
 * @typedef {"stated"|"tapes"|"sketch"|"doubtful"} SideBy
 */
/** @typedef {{by: SideBy, line: [string, string]|null}} Sided */

const LINE_SHARE = 0.05, // points within this part of their line stand on one line
  // nearer to the line than this part of the shorter tape a finger may have drawn it on the other side
  DOUBT_SHARE = 0.1,
  SURE = 2.3; // half of the natural logarithm of 99: so many times likelier one side has to be than the other

/**
 * What says on which side of its line each measured point lies; no entry for ends of the base line and held points.
 * @param {Known} known
 * @param {(name: string) => boolean} measured
 * @param {Places} places
 * @param {Places} sketch
 * @param {number} min_share how far lines of a sketch scatter about its scale at the least
 * @returns {Map<string, Sided>}
 */
export function sidesOf({ seen, sides, held, base }, measured, places, sketch, min_share) {
  const scatter = scatterOf(seen, sketch, min_share);
  const fast = new Set([...held.keys(), ...(base ? [base.from, base.to] : [])]),
    stated = new Set(sides.map(({ point }) => point)),
    waiting = new Set([...places.keys()].filter((name) => measured(name) && !fast.has(name)));
  /** @type {Map<string, Sided>} */ const by = new Map();
  const ready = (/** @type {string} */ name) => fast.has(name) || by.has(name);
  const joins = (/** @type {string} */ name) =>
    seen.filter(({ points }) => points.includes(name) && points.every((each) => each === name || ready(each)));
  while (waiting.size) {
    const all = [...waiting].map((name) => {
      const from = [...new Set(joins(name).flatMap(({ points }) => points.filter((each) => each !== name)))];
      return { name, count: joins(name).length, line: widest(from, places), off: offLine(from, places) };
    });
    const next =
      all.find(({ count, off }) => count > 2 && off) ??
      all.find(({ name, count }) => count > 1 && stated.has(name)) ??
      all.find(({ count }) => count > 1) ??
      all[0];
    const { name, line } = next;
    const on_line = joins(name).some(({ kind }) => kind === "line");
    if (on_line) by.set(name, { by: "sketch", line: null });
    else if (stated.has(name)) by.set(name, { by: "stated", line });
    else if (next.count > 2 && next.off) by.set(name, { by: "tapes", line: null });
    else by.set(name, { by: line && isPlain(name, line, [sketch, places], scatter) ? "sketch" : "doubtful", line });
    waiting.delete(name);
  }
  return by;
}

/**
 * The two that stand farthest apart.
 * @param {string[]} names
 * @param {Places} places
 * @returns {[string, string]|null}
 */
function widest(names, places) {
  /** @type {[string, string]|null} */ let best = null;
  let far = 0;
  names.forEach((a, index) => {
    for (const b of names.slice(index + 1)) {
      const away = apart(at(places, a), at(places, b));
      if (away > far) [best, far] = [[a, b], away];
    }
  });
  return best;
}

/** Whether some of these stand well off the line of the rest. @param {string[]} names @param {Places} places */
function offLine(names, places) {
  const line = widest(names, places);
  if (!line) return false;
  const [from, to] = line.map((name) => at(places, name));
  return names.some((name) => Math.abs(leftOf(at(places, name), from, to)) > LINE_SHARE * apart(from, to));
}

/**
 * Whether the sketch shows plainly on which side a point lies: where it shows it h off its line, and tapes say that it
 * stands m off it, this side is e^(2 h m / s²) times likelier than the other.
 * @param {string} name
 * @param {[string, string]} line
 * @param {[Places, Places]} drawn_and_placed
 * @param {number} scatter
 */
function isPlain(name, line, drawn_and_placed, scatter) {
  const [drawn, placed] = drawn_and_placed.map((places) => {
    if (![name, ...line].every((each) => places.has(each))) return 0;
    const [place, from, to] = [name, ...line].map((each) => at(places, each)),
      shorter = Math.min(apart(place, from), apart(place, to));
    return shorter > 0 ? Math.abs(leftOf(place, from, to)) / shorter : 0;
  });
  return drawn > DOUBT_SHARE && drawn * placed > SURE * scatter * scatter;
}

/**
 * The network with one point on the other side of its line, where the tapes agree there and do not agree here.
 * @param {Network} network
 * @param {Places} first
 * @param {Map<string, At[]>} freedom
 * @param {Map<string, Sided>} sides
 * @param {import("./figures.js").Figures} figures
 * @returns {{network: Network, name: string, stated: boolean}|null}
 */
export function turnedOver(network, first, freedom, sides, figures) {
  const limit = network.spare > 0 ? greatestRatio(network.spare, figures.confidence_percent / 100) : Infinity;
  if ((network.ratio ?? 0) <= limit) return null;
  for (const [name, { by, line }] of sides) {
    if (by === "tapes" || !line || !first.has(name)) continue;
    const [from, to] = line.map((each) => at(first, each)),
      other = new Map(first).set(name, mirrored(at(first, name), from, to)),
      found = adjusted(other, freedom, network.seen);
    if (found && (found.ratio ?? Infinity) <= limit) return { network: found, name, stated: by === "stated" };
  }
  return null;
}
