// @ts-check
/**
 * One slab on its bed: what its corners say, where to tap it, and its steps to what lies beside it.
 *
 * Each is a second telling of a function of the room of bedding and is held to it by tests/js/vectors.json. Nothing
 * here touches the page or knows a figure of the trade: limits come with the plan.
 */
import { verdict } from "../../lib/kernel.js";

/** @typedef {[number, number]|number[]} At */
/** @typedef {{over: number[], sd: number[], twist: number|null, twistSd: number|null}} PlanePart */
/** @typedef {{place: "middle"|"corner"|"side", corners: number[], at: number[], held: number[], down: number[]}} Tap */
/** @typedef {{act: "read"|"tap"|"leave"|"look"|"lift", why: string[], plane: PlanePart|null, tap: Tap|null,
 *   low: number[], bedChange: number|null}} Advice */

const ENOUGH = 3,
  MOST_HELD = 2,
  EXACT = 1e-9,
  END_PART = 0.15;

/** Solve a few equations. @param {number[][]} rows @param {number[]} right @returns {number[]} */
function solved(rows, right) {
  const left = rows.map((row, index) => [...row, right[index]]),
    many = right.length;
  for (let column = 0; column < many; column += 1) {
    let best = column;
    for (let row = column + 1; row < many; row += 1)
      if (Math.abs(left[row][column]) > Math.abs(left[best][column])) best = row;
    [left[column], left[best]] = [left[best], left[column]];
    for (let row = 0; row < many; row += 1) {
      if (row === column) continue;
      const times = left[row][column] / left[column][column];
      for (let each = column; each <= many; each += 1) left[row][each] -= times * left[column][each];
    }
  }
  return left.map((row, index) => row[many] / row[index]);
}

/**
 * The plane in corner readings and their twist; null where fewer than three were read.
 * @param {At[]} corners @param {(number|null)[]} over_mm @param {number} sd_mm
 * @returns {PlanePart|null}
 */
export function planePart(corners, over_mm, sd_mm) {
  const read = corners.map((_, index) => index).filter((index) => over_mm[index] !== null);
  if (read.length < ENOUGH) return null;
  const mean = [0, 1].map((axis) => read.reduce((sum, index) => sum + corners[index][axis], 0) / read.length),
    size = Math.max(...corners.flatMap((at) => [Math.abs(at[0] - mean[0]), Math.abs(at[1] - mean[1])])),
    rows = corners.map((at) => [1, (at[0] - mean[0]) / size, (at[1] - mean[1]) / size]),
    axes = [0, 1, 2];
  const normal = axes.map((one) => axes.map((two) => read.reduce((sum, at) => sum + rows[at][one] * rows[at][two], 0)));
  const inverse = axes.map((one) =>
    solved(
      normal,
      axes.map((two) => (one === two ? 1 : 0)),
    ),
  );
  const dot = (/** @type {number[]} */ one, /** @type {number[]} */ two) =>
    axes.reduce((sum, axis) => sum + one[axis] * two[axis], 0);
  const right = axes.map((axis) => read.reduce((sum, at) => sum + rows[at][axis] * Number(over_mm[at]), 0)),
    found = inverse.map((row) => dot(row, right));
  const over = rows.map((row) => dot(row, found)),
    spare = rows.map((row) =>
      dot(
        row,
        inverse.map((each) => dot(each, row)),
      ),
    );
  const four = read.length > ENOUGH,
    [first] = read;
  return {
    over,
    sd: spare.map((each) => sd_mm * Math.sqrt(each)),
    twist: four ? Number(over_mm[first]) - over[first] : null,
    twistSd: four ? sd_mm * Math.sqrt(Math.max(1 - spare[first], 0)) : null,
  };
}

/** A slab by its corners, with the moments of its area. @param {At[]} corners */
export function plateOf(corners) {
  const shift = [0, 1].map((axis) => corners.reduce((sum, at) => sum + at[axis], 0) / corners.length),
    ring = corners.map(([x, y]) => [x - shift[0], y - shift[1]]);
  let area = 0,
    [x, y, xx, yy, xy] = [0, 0, 0, 0, 0];
  ring.forEach(([x1, y1], index) => {
    const [x2, y2] = ring[(index + 1) % ring.length],
      cross = x1 * y2 - x2 * y1;
    area += cross / 2;
    x += ((x1 + x2) * cross) / 6;
    y += ((y1 + y2) * cross) / 6;
    xx += ((x1 * x1 + x1 * x2 + x2 * x2) * cross) / 12;
    yy += ((y1 * y1 + y1 * y2 + y2 * y2) * cross) / 12;
    xy += ((x1 * (2 * y1 + y2) + x2 * (2 * y2 + y1)) * cross) / 24;
  });
  const [cx, cy] = [x / area, y / area];
  return {
    corners,
    centre: [cx + shift[0], cy + shift[1]],
    xx: xx / area - cx * cx,
    yy: yy / area - cy * cy,
    xy: xy / area - cx * cy,
  };
}

/** @typedef {ReturnType<typeof plateOf>} Plate */

/** How far a place sinks for a tap, of what all sinks. @param {Plate} slab @param {At} tap @param {At} at */
export function sink(slab, tap, at) {
  const [tx, ty] = [tap[0] - slab.centre[0], tap[1] - slab.centre[1]],
    [px, py] = [at[0] - slab.centre[0], at[1] - slab.centre[1]];
  return (
    1 +
    (slab.yy * tx * px - slab.xy * (tx * py + ty * px) + slab.xx * ty * py) / (slab.xx * slab.yy - slab.xy * slab.xy)
  );
}

/**
 * How far each corner sinks for a tap, the largest by one, and which corners are held so that none rises.
 * @param {Plate} slab @param {At} tap
 */
export function sinks(slab, tap) {
  /** @type {number[]} */ const held = [];
  const free = slab.corners.map((corner) => sink(slab, tap, corner));
  let moved = free;
  while (held.length < MOST_HELD && Math.min(...moved) < -EXACT) {
    held.push(moved.indexOf(Math.min(...moved)));
    const on = held.map((corner) => slab.corners[corner]),
      force = solved(
        on.map((one) => on.map((other) => sink(slab, one, other))),
        held.map((corner) => -free[corner]),
      );
    moved = slab.corners.map((corner, index) =>
      held.includes(index)
        ? 0
        : free[index] + on.reduce((sum, one, each) => sum + force[each] * sink(slab, one, corner), 0),
    );
  }
  const most = Math.max(...moved);
  return {
    move: moved.map((each) => (Math.abs(each) < EXACT * most ? 0 : each / most)),
    held: held.sort((one, other) => one - other),
  };
}

/** Where a slab may be tapped. @param {Plate} slab @returns {[Tap["place"], number[], number[]][]} */
export function places(slab) {
  const half = (/** @type {At} */ at) => [(slab.centre[0] + at[0]) / 2, (slab.centre[1] + at[1]) / 2];
  const next = (/** @type {number} */ index) => (index + 1) % slab.corners.length;
  return [
    ["middle", [], slab.centre],
    .../** @type {any} */ (slab.corners.map((corner, index) => ["corner", [index], half(corner)])),
    ...slab.corners.map(([x, y], index) => {
      const [x2, y2] = slab.corners[next(index)];
      return /** @type {any} */ (["side", [index, next(index)], half([(x + x2) / 2, (y + y2) / 2])]);
    }),
  ];
}

/**
 * The tap that takes off most and digs no corner below; null where none is safe.
 * @param {Plate} slab @param {number[]} over @param {number[]} sd @param {plan.Limits} limits @param {number} doubt
 * @param {number[]} floor how far below no corner may come
 * @returns {Tap|null}
 */
export function bestTap(slab, over, sd, limits, doubt, floor) {
  /** @type {Tap|null} */ let best = null;
  let gained = 0;
  const gives = limits.gives_percent / 100;
  for (const [place, corners, at] of places(slab)) {
    const { move, held } = sinks(slab, at),
      moving = move.map((_, index) => index).filter((index) => move[index] > 0);
    const meant = (Math.min(...moving.map((index) => over[index] / move[index])) * limits.share_percent) / 100,
      safe = Math.min(
        ...moving.map((index) => (over[index] - doubt * sd[index] + floor[index]) / (move[index] + gives)),
      ),
      down = Math.min(meant, safe, limits.at_once_mm);
    if (down <= 0) continue;
    const gain = over.reduce((sum, each, index) => sum + each * each - (each - down * move[index]) ** 2, 0);
    if (gain > gained + EXACT) {
      gained = gain;
      best = { place, corners, at, held, down: move.map((each) => down * each) };
    }
  }
  return best;
}

/**
 * What to do with a slab whose corners were read.
 * @param {At[]} corners @param {(number|null)[]} over_mm each corner over what is aimed at @param {number} sd_mm
 * @param {plan.Limits} limits @param {number} doubt so many standard deviations
 * @param {string|null} [rocks] @param {number|null} [bed_mm]
 * @param {number[]} [allowed] how far each corner may be off before that is wrong; the step where nothing is given
 * @returns {Advice}
 */
export function advise(corners, over_mm, sd_mm, limits, doubt, rocks = null, bed_mm = null, allowed = []) {
  const off = allowed.length ? allowed : corners.map(() => limits.step_mm),
    plane = planePart(corners, over_mm, sd_mm),
    rocking = rocks === "a_c" || rocks === "b_d",
    none = { why: [], plane, tap: null, low: [], bedChange: null };
  if (!plane) return rocking ? { ...none, act: "lift", why: ["rocks"] } : { ...none, act: "read" };
  const low = plane.over.flatMap((over, index) => (over + doubt * plane.sd[index] < -off[index] ? [index] : []));
  const mean = average(plane.over),
    meanSd = average(plane.sd),
    twisted = plane.twist !== null && Math.abs(plane.twist) - doubt * Number(plane.twistSd) > limits.step_mm;
  const why = Object.entries({
    rocks: rocking,
    twist: twisted,
    low: low.length > 0,
    high: mean - doubt * meanSd > limits.most_mm,
    thin: bed_mm !== null && bed_mm - Math.max(mean, 0) < limits.thinnest_mm,
  })
    .filter(([, holds]) => holds)
    .map(([each]) => each);
  if (why.length) return { ...none, act: "lift", why, low, bedChange: limits.proud_mm - mean };
  const passes = (/** @type {(corner: number) => number} */ limit) =>
    over_mm.every((each, corner) => each === null || verdict(each, limit(corner), doubt * sd_mm) === "pass");
  if (passes(() => limits.step_mm)) return { ...none, act: "leave" };
  const tap = bestTap(plateOf(corners), plane.over, plane.sd, limits, doubt, off);
  if (tap && Math.max(...tap.down) >= limits.tap_from_mm) return { ...none, act: "tap", tap };
  return { ...none, act: passes((corner) => off[corner]) ? "leave" : "look" };
}

const average = (/** @type {number[]} */ all) => all.reduce((sum, each) => sum + each, 0) / all.length;

/**
 * How far over its level a corner is to lie: not at all, or nearer to what lies beside it already.
 * @param {number[]} beside_mm how far units beside it stand over their level
 * @param {number} step_mm @param {number} level_mm
 */
export function aimedAt(beside_mm, step_mm, level_mm) {
  if (!beside_mm.length) return 0;
  const highest = Math.max(...beside_mm) - step_mm / 2,
    lowest = Math.min(...beside_mm) + step_mm / 2,
    aim = highest > lowest ? (highest + lowest) / 2 : Math.min(Math.max(0, highest), lowest);
  return Math.min(Math.max(aim, -level_mm), level_mm);
}

// ---- beside it

/** @typedef {{over: (number|null)[], sd: number}} Corners as a unit was read */

/** How far a place on a side stands over its level; null where that side was not read. */
function along(/** @type {Corners} */ unit, /** @type {number} */ side, /** @type {number} */ part) {
  const here = unit.over[side],
    there = unit.over[(side + 1) % unit.over.length];
  if (here === null || there === null) return null;
  return { over: here * (1 - part) + there * part, sd: unit.sd * Math.hypot(1 - part, part) };
}

/**
 * The step at a seam, where it is larger of both ends; null where a side was not read.
 * @param {number[]} seam @param {Corners} one @param {Corners} other @param {number} limit_mm @param {number} doubt
 */
export function lipAt([, side, start, end, , farSide, farStart, farEnd], one, other, limit_mm, doubt) {
  const rank = /** @type {Record<string, number>} */ ({ pass: 0, unsure: 1, fail: 2 });
  let worst = null;
  for (const [part, far] of [
    [start, farStart],
    [end, farEnd],
  ]) {
    const here = along(one, side, part),
      there = along(other, farSide, far);
    if (!here || !there) return null;
    const lip_mm = here.over - there.over,
      sd_mm = Math.hypot(here.sd, there.sd),
      said = verdict(lip_mm, limit_mm, doubt * sd_mm);
    const more = worst ? rank[said] - rank[worst.verdict] || Math.abs(lip_mm) - Math.abs(worst.lip_mm) : 1;
    if (more > 0) worst = { lip_mm, sd_mm, verdict: said };
  }
  return worst;
}

/**
 * How far units that lie already stand over their level beside a corner.
 * @param {number} piece @param {number} corner @param {number} many corners of the piece
 * @param {[number[], Corners][]} seams each with the unit on its other side
 */
export function beside(piece, corner, many, seams) {
  const found = [];
  for (const [seam, there] of seams) {
    const mine = seam[0] === piece ? 0 : 4,
      other = 4 - mine,
      side = seam[mine + 1];
    for (const end of [2, 3]) {
      const part = seam[mine + end],
        at = part <= END_PART ? side : part >= 1 - END_PART ? (side + 1) % many : null;
      const over = at === corner ? along(there, seam[other + 1], seam[other + end]) : null;
      if (over) found.push(over.over);
    }
  }
  return found;
}

/** How far the far end of a line lies below its near end. @param {number} length_mm @param {number} percent */
export const byPercent = (length_mm, percent) => (length_mm * percent) / 100;
