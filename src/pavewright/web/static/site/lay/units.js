// @ts-check
/** Units of an area with what was read of them: which lie, what lies beside one, and what its readings mean. */
import { advise, aimedAt, beside, byPercent, lipAt } from "./slab.js";

/** @typedef {plan.AreaToLay} Area */
/** @typedef {plan.UnitToLay} Unit */
/** @typedef {plan.LayingOnSite} Laying */
/** @typedef {{entry: any, over: (number|null)[], sd: number}} Read */

export const LETTERS = "ABCD";

/** The mean of the corners of a unit. @param {Unit} unit */
export const middle = ({ corners }) =>
  [0, 1].map((axis) => corners.reduce((sum, at) => sum + at[axis], 0) / corners.length);

/** Length of a side of a unit. @param {Unit} unit @param {number} from @param {number} to */
export const sideOf = ({ corners }, from, to) =>
  Math.hypot(corners[to][0] - corners[from][0], corners[to][1] - corners[from][1]);

/** Standard deviation of a corner read in some way. @param {Laying} laying @param {string} way @param {Unit} unit */
export function sdOf(laying, way, unit) {
  if (way !== "percent") return laying[/** @type {"wedge"} */ (way)].value;
  return Math.hypot(laying.string.value, byPercent(sideOf(unit, 0, 1), laying.percent.value));
}

/**
 * The last reading of each unit of an area, by its number; of a plan that changed, by its place.
 * @param {Laying} laying @param {Area} area @param {any[]} entries of the job, in the order of reading
 * @returns {Map<number, Read>}
 */
export function readOf(laying, area, entries) {
  const numbered = new Map(area.units.map((unit) => [unit.piece, unit])),
    found = new Map();
  for (const entry of entries) {
    if (entry.area !== area.area) continue;
    const at = [entry.x_mm, entry.y_mm],
      own = numbered.get(entry.piece),
      unit = own && stoodAt(own, at) ? own : area.units.find((each) => stoodAt(each, at));
    if (!unit) continue;
    const levels = new Map((entry.corners ?? []).map((/** @type {any} */ each) => [each.corner, each.level_mm])),
      over = unit.wanted_mm.map((wanted, corner) => {
        const level = levels.get(LETTERS[corner]);
        return level === undefined ? null : level - wanted;
      });
    found.delete(unit.piece);
    found.set(unit.piece, { entry, over, sd: entry.sd_mm ?? sdOf(laying, entry.way ?? "staff", unit) });
  }
  return found;
}

const CLOSE_MM = 20; // middles are written in whole millimetres, and a joint may have moved

/** Whether a place is the middle of a unit. @param {Unit} unit @param {number[]} at */
function stoodAt(unit, at) {
  const [x, y] = middle(unit);
  return Math.hypot(x - at[0], y - at[1]) <= CLOSE_MM;
}

/** Whether it lies. @param {Read|undefined} read */
export const lies = (read) => Boolean(read) && (read?.entry.state ?? "laid") === "laid";

/** How a unit stands, in words: one that lies and of which a corner was not read is never said to lie well.
 * @param {Read|undefined} read
 */
export function standing(read) {
  if (!read) return "";
  if (!lies(read)) return " ✕ to bed again";
  const known = read.over.filter((over) => over !== null).length;
  if (!known) return " – laid, not read";
  return known < read.over.length ? " – laid, not all corners read" : " ✓ laid";
}

/**
 * The first units in the order of laying that do not lie.
 * @param {Area} area @param {Map<number, Read>} read
 */
export const left = (area, read) => area.units.filter((unit) => !lies(read.get(unit.piece)));

/**
 * Seams of a unit with what lies on their other side.
 * @param {Area} area @param {Map<number, Read>} read @param {number} piece
 * @returns {[number[], Read, number][]} seam, what was read there, and its number
 */
export function besideIt(area, read, piece) {
  return area.seams.flatMap((seam) => {
    if (seam[0] !== piece && seam[4] !== piece) return [];
    const other = seam[0] === piece ? seam[4] : seam[0],
      there = read.get(other);
    return there && lies(there) ? [/** @type {[number[], Read, number]} */ ([seam, there, other])] : [];
  });
}

/**
 * What corner readings of a unit mean: where each corner is aimed at, what to do, and its steps to what lies there.
 * @param {Laying} laying @param {Area} area @param {Unit} unit @param {Map<number, Read>} read
 * @param {{over: (number|null)[], sd: number, rocks?: string|null, bed_mm?: number|null}} now
 */
export function judged(laying, area, unit, read, now) {
  const around = besideIt(area, read, unit.piece),
    doubt = laying.trusted_sd,
    step = laying.step.value;
  const seams = /** @type {[number[], Read][]} */ (around.map(([seam, there]) => [seam, there])),
    near = unit.corners.map((_, corner) => beside(unit.piece, corner, unit.corners.length, seams)),
    aims = near.map((each) => aimedAt(each, step, laying.level.value)),
    allowed = near.map((each) => (each.length ? step : laying.level.value));
  const off = now.over.map((over, corner) => (over === null ? null : over - aims[corner])),
    advice = advise(unit.corners, off, now.sd, area.limits, doubt, now.rocks ?? null, now.bed_mm ?? null, allowed);
  const lips = around.flatMap(([seam, there, other]) => {
    const first = seam[0] === unit.piece,
      lip = lipAt(seam, first ? now : there, first ? there : now, step, doubt);
    return lip ? [{ ...lip, lip_mm: first ? lip.lip_mm : -lip.lip_mm, other }] : [];
  });
  return { aims, off, advice, lips };
}

/**
 * Each corner over its level by a digital level: falls along lines from the first corner, and its own height.
 * @param {Unit} unit
 * @param {{first: number|null, lines: Record<string, number>}} read falls in percent by line, as "01"
 * @returns {(number|null)[]}
 */
export function overByPercent(unit, { first, lines }) {
  if (first === null) return unit.corners.map(() => null);
  /** @type {(number|null)[]} */ const level = unit.corners.map(() => null);
  level[0] = unit.wanted_mm[0] + first;
  for (const [line, percent] of Object.entries(lines)) {
    const [from, to] = [Number(line[0]), Number(line[1])],
      start = level[from];
    if (start !== null && to < level.length) level[to] = start - byPercent(sideOf(unit, from, to), percent);
  }
  return level.map((each, corner) => (each === null ? null : each - unit.wanted_mm[corner]));
}

/** Lines along which a digital level is laid, those that others lean on first. @param {Unit} unit */
export const linesOf = (unit) => (unit.corners.length > 3 ? ["01", "03", "32"] : ["01", "02"]);

/** The fall that is wanted along a line. [%] @param {Unit} unit @param {string} line */
export function wantedPercent(unit, line) {
  const [from, to] = [Number(line[0]), Number(line[1])];
  return ((unit.wanted_mm[from] - unit.wanted_mm[to]) / sideOf(unit, from, to)) * 100;
}

/** Area laid up to a piece, joints included. @param {Area} area @param {number} piece */
export function laidUpTo(area, piece) {
  if (!area.units.length) return area.stages.findLast(([last]) => last <= piece)?.[1] ?? 0;
  const all = area.units.reduce((sum, unit) => sum + unit.area_m2, 0),
    done = area.units.reduce((sum, unit) => sum + (unit.piece <= piece ? unit.area_m2 : 0), 0);
  return all ? (area.all_m2 * done) / all : 0;
}
