// @ts-check
/** Slips as a page shows them: which tape, how long it should be, and what may have gone wrong. */
import { reasonFor } from "./reasons.js";
import { doubted, notMeeting } from "./slips.js";

/** @typedef {import("./network.js").Seen} Seen */
/** @typedef {import("./reasons.js").Reason} Reason */
/**
 * Something that does not agree. `slip`: one tape, with the length it should have; `one_of`: an error is there and these
 * cannot be told apart; `no_meeting`: three tapes that make no triangle; `look_again`: only the sketch doubts it.
 * @typedef {object} ShapeSlip
 * @property {"slip"|"one_of"|"no_meeting"|"look_again"} kind
 * @property {string} start
 * @property {string} end
 * @property {number} measured_mm zero for a square corner or a point on a line
 * @property {number|null} should_mm
 * @property {number|null} sd_mm
 * @property {Reason|null} reason
 * @property {{start: string, end: string}[]} among all that it may be
 */
/**
 * @param {import("./placing.js").Known} known
 * @param {Seen[]} mine
 * @param {import("./slips.js").Network|null} network
 * @param {import("./slips.js").Slip[]} slips
 * @param {import("./placing.js").Placed} placed
 * @param {import("./figures.js").Figures} figures
 * @returns {ShapeSlip[]}
 */
export function told({ seen }, mine, network, slips, { places, sketch }, figures) {
  const ends = (/** @type {Seen} */ { points: [start, end] }) => ({ start, end }),
    plain = { should_mm: null, sd_mm: null, reason: null, among: [] };
  const round = notMeeting(seen, figures).map((three) => {
    const [worst] = doubted(seen, sketch, (number) => !three.includes(number), figures);
    const one = seen[worst?.number ?? three[0]];
    return {
      ...plain,
      kind: /** @type {const} */ ("no_meeting"),
      ...ends(one),
      measured_mm: one.measured,
      among: three.map((number) => ends(seen[number])),
    };
  });
  const named = slips.map(({ number, size, alike }) => {
    const one = mine[number],
      measured_mm = one.kind === "tape" ? one.measured : 0;
    if (alike.length > 1)
      return {
        ...plain,
        kind: /** @type {const} */ ("one_of"),
        ...ends(one),
        measured_mm,
        among: alike.map((each) => ends(mine[each])),
      };
    const should_mm = measured_mm - size,
      sd_mm = one.sd / Math.sqrt(network?.redundancy[number] ?? 1),
      reason = measured_mm ? reasonFor(one, should_mm, sd_mm, places) : null;
    return {
      ...plain,
      kind: /** @type {const} */ ("slip"),
      ...ends(one),
      measured_mm,
      should_mm: measured_mm ? should_mm : null,
      sd_mm,
      reason,
    };
  });
  const checked = (/** @type {number} */ number) =>
    (network?.redundancy[mine.indexOf(seen[number])] ?? 0) >= figures.min_redundancy;
  const doubts = doubted(seen, sketch, checked, figures).map(({ number, should_mm, sd_mm }) => ({
    ...plain,
    kind: /** @type {const} */ ("look_again"),
    ...ends(seen[number]),
    measured_mm: seen[number].measured,
    should_mm,
    sd_mm,
    reason: reasonFor(seen[number], should_mm, sd_mm, places),
  }));
  return round.length ? [...round, ...doubts] : [...named, ...doubts];
}
