// @ts-check
/** Slips as a page shows them: which tape, how long it should be, and what may have gone wrong. */
import { reasonFor } from "./reasons.js";
import { byOthers, doubted, greatestRatio, notMeeting, standardised } from "./slips.js";

/** @typedef {import("./network.js").At} At */
/** @typedef {import("./network.js").Places} Places */
/** @typedef {import("./network.js").Seen} Seen */
/** @typedef {import("./reasons.js").Reason} Reason */
/**
 * Something that does not agree. `slip`: one tape, with the length it should have; `side`: a point
 * that is said to lie on the wrong side of its line (start to end are then its line); `one_of`: an error is there
 * and these
 * cannot be told apart; `no_meeting`: three tapes that make no triangle; `look_again`: only the sketch doubts it.
 * @typedef {object} ShapeSlip
 * @property {"slip"|"side"|"one_of"|"no_meeting"|"look_again"} kind
 * @property {string|null} [point] the point on the wrong side
 * @property {string} start
 * @property {string} end
 * @property {number} measured_mm zero for a square corner or a point on a line
 * @property {number|null} should_mm
 * @property {number|null} sd_mm
 * @property {Reason|null} reason
 * @property {{start: string, end: string, measured_mm: number, should_mm?: number|null, reason?: Reason|null}[]} among
 * all that it may be, each with the length it would have to have; what a usual slip explains stands first
 */
/**
 * @param {import("./placing.js").Known} known
 * @param {import("./slips.js").Network|null} network
 * @param {import("./slips.js").Slip[]} slips
 * @param {{places: Places, freedom: Map<string, At[]>}} first
 * @param {import("./placing.js").Placed} placed
 * @param {import("./figures.js").Figures} figures
 * @returns {ShapeSlip[]}
 */
export function told({ seen }, network, slips, first, { places, sketch }, figures) {
  const number_of = new Map((network?.seen ?? []).map((each, index) => [each, index])),
    checked = (/** @type {Seen} */ each) =>
      (network?.redundancy[number_of.get(each) ?? -1] ?? 0) >= figures.min_redundancy;
  const doubts = doubted(seen, sketch, (number) => checked(seen[number]), figures);
  const named = network ? slips.map((slip) => one(slip, network, first, places)) : [],
    suspected = new Set(slips.flatMap(({ alike }) => alike.map((each) => network?.seen[each])));
  const open = notMeeting(seen, figures).filter((three) => !three.some((number) => suspected.has(seen[number])));
  const round = open.map((three) => {
    const [worst] = doubted(seen, sketch, (number) => !three.includes(number), figures),
      among = three.map((number) => ends(seen[number]));
    if (!worst) return { ...NOTHING, kind: /** @type {const} */ ("no_meeting"), ...among[0], among };
    const { number, should_mm, sd_mm } = worst,
      reason = reasonFor(seen[number], should_mm, sd_mm, places);
    return { kind: /** @type {const} */ ("no_meeting"), ...ends(seen[number]), should_mm, sd_mm, reason, among };
  });
  const again = doubts.map(({ number, should_mm, sd_mm }) => ({
    ...NOTHING,
    kind: /** @type {const} */ ("look_again"),
    ...ends(seen[number]),
    should_mm,
    sd_mm,
    reason: reasonFor(seen[number], should_mm, sd_mm, places),
  }));
  const silent = network && !named.length && !round.length && network.spare > 0;
  const badly = silent && (network.ratio ?? 0) > greatestRatio(network.spare, figures.confidence_percent / 100);
  return [...named, ...round, ...(badly ? [disagreeing(network)] : []), ...again];
}

/**
 * The tapes agree worse than tapes do, and none stands out: those that are off most, to be measured again.
 * @param {import("./slips.js").Network} network
 * @returns {ShapeSlip}
 */
function disagreeing(network) {
  const off = standardised(network).map((size, number) => ({ size: Math.abs(size), seen: network.seen[number] }));
  const among = off
    .filter(({ seen }) => seen.kind === "tape")
    .sort((one, other) => other.size - one.size)
    .slice(0, MOST)
    .map(({ seen }) => ends(seen));
  return { ...NOTHING, kind: "one_of", ...among[0], among };
}

const MOST = 4;

const NOTHING = { should_mm: null, sd_mm: null, reason: null, among: [] };

/** @param {Seen} seen */
const ends = ({ kind, points: [start, end], measured }) => ({
  start,
  end,
  measured_mm: kind === "tape" ? measured : 0,
});

/**
 * One slip in words of its own: the tape that it is in, or those among which it is, the one that a usual slip explains
 * first.
 * @param {import("./slips.js").Slip} slip
 * @param {import("./slips.js").Network} network
 * @param {{places: Places, freedom: Map<string, At[]>}} first
 * @param {Places} places
 * @returns {ShapeSlip}
 */
function one({ number, size, alike }, network, first, places) {
  const among = alike.map((each) => {
    const seen = network.seen[each],
      others = seen.kind === "tape" ? byOthers(network, each, first.places, first.freedom) : null;
    const reason = others && reasonFor(seen, others.should_mm, Math.hypot(others.sd_mm, seen.sd), places);
    return {
      ...ends(seen),
      should_mm: others?.should_mm ?? null,
      sd_mm: others && Math.hypot(others.sd_mm, seen.sd),
      reason,
    };
  });
  if (alike.length === 1) {
    const [it] = among;
    return { ...it, kind: "slip", should_mm: it.measured_mm ? it.measured_mm - size : null, among: [] };
  }
  among.sort((a, b) => Number(b.reason !== null) - Number(a.reason !== null));
  const [likely, second] = among,
    alone = likely.reason !== null && second.reason === null;
  return { ...(alone ? likely : { ...NOTHING, ...ends(network.seen[number]) }), kind: "one_of", among };
}
