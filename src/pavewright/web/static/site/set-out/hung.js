// @ts-check
/**
 * Strings as they hang, staff readings to show, and what a check tape says. Each is a second telling of a function of
 * the room of setting out and is held to it by tests/js/vectors.json; the figures come with the plan.
 */

/** @typedef {{name: string, at: number[], string_level_mm: number,
 *   heights: {layer: string, level_mm: number}[]}} PegHere */
/** @typedef {{name: string, start: string, end: string, start_at: number[], end_at: number[], span_mm: number,
 *   sag_mm: number, area: string}} StringHere */
/** @typedef {{peg: string, x_mm: number, y_mm: number, level_mm: number}} HeightRead */
/** @typedef {"read"|"one_end"|"planned"} HungBy */

const ON_STRING_MM = 1;

/**
 * Levels of strings as read, by the name of their peg; one that was read where no such peg stands any more is left out.
 * @param {PegHere[]} pegs @param {HeightRead[]} taken @param {number} found_mm
 * @returns {Map<string, number>}
 */
export function heightsRead(pegs, taken, found_mm) {
  const found = new Map(),
    by_name = new Map(pegs.map((peg) => [peg.name, peg]));
  for (const one of taken) {
    const peg = by_name.get(one.peg);
    if (peg && Math.hypot(peg.at[0] - one.x_mm, peg.at[1] - one.y_mm) <= found_mm) found.set(one.peg, one.level_mm);
  }
  return found;
}

/**
 * How far along a string a place lies, 0 at its start and 1 at its end; null where it is not under it.
 * @param {StringHere} string @param {number[]} at
 */
export function partAlong(string, at) {
  if (string.span_mm < ON_STRING_MM) return null;
  const ux = (string.end_at[0] - string.start_at[0]) / string.span_mm,
    uy = (string.end_at[1] - string.start_at[1]) / string.span_mm,
    dx = at[0] - string.start_at[0],
    dy = at[1] - string.start_at[1];
  const along = dx * ux + dy * uy,
    off = dy * ux - dx * uy;
  if (Math.abs(off) > ON_STRING_MM || along < -ON_STRING_MM || along > string.span_mm + ON_STRING_MM) return null;
  return Math.min(1, Math.max(0, along / string.span_mm));
}

/**
 * The strings over a peg, each with its level there, its sag taken off.
 * @param {PegHere & {area: string, role: string}} peg @param {StringHere[]} strings @param {PegHere[]} pegs
 * @param {Map<string, number>} read
 * @returns {{string: string, level_mm: number, sag_mm: number, hung_by: HungBy}[]}
 */
export function overPeg(peg, strings, pegs, read) {
  if (peg.role === "base") return [];
  const planned = new Map(pegs.map((one) => [one.name, one.string_level_mm])),
    found = [];
  for (const string of strings) {
    const part = string.area === peg.area ? partAlong(string, peg.at) : null;
    if (part === null) continue;
    const [start, end] = [string.start, string.end].map((name) => read.get(name) ?? planned.get(name) ?? NaN),
      known = Number(read.has(string.start)) + Number(read.has(string.end)),
      sag_mm = string.sag_mm * 4 * part * (1 - part),
      own = read.get(peg.name);
    /** @type {HungBy[]} */ const bys = ["planned", "one_end", "read"];
    found.push({
      string: string.name,
      level_mm: own ?? start + part * (end - start) - sag_mm,
      sag_mm,
      hung_by: own === undefined ? bys[known] : /** @type {HungBy} */ ("read"),
    });
  }
  return found;
}

/** Height of the sight. @param {number} known_mm level of the point @param {number} backsight_mm */
export const sightHeight = (known_mm, backsight_mm) => known_mm + backsight_mm;

/** What the staff shows at a level. @param {number} sight_mm @param {number} wanted_mm */
export const staffShows = (sight_mm, wanted_mm) => sight_mm - wanted_mm;

/** What a check tape says. @param {{expected_mm: number, limit_mm: number}} check @param {number} found_mm */
export function checkSays(check, found_mm) {
  const off_mm = found_mm - check.expected_mm;
  return { off_mm, good: Math.abs(off_mm) <= check.limit_mm };
}
