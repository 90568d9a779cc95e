// @ts-check
/**
 * Where words may stand: beside their place, clear of other words, and off lines where that can be.
 *
 * The solver of the drawings on paper once more, in JavaScript and held to it by tests/js/vectors.json: on a screen
 * words keep their size while the plan is zoomed and layers come and go, so that their places change with every touch
 * and cannot wait for the server. Axes as on the site: x to the right, y up.
 */

/** @typedef {[number, number, number, number]} Box from left and below to right and above */
/** @typedef {{box: Box, line: [number[], number[]]|null, cost: number}} Spot */

const SIDES = [
  [1, 1],
  [1, -1],
  [-1, 1],
  [-1, -1],
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
];
/** How far from its place a label is tried, nearest first; past the first it gets a leader. [mm of paper] */
const RINGS = [0.9, 3.5, 6.5, 10, 14, 19, 25];
const CELL = 12;
const ON_WORDS = 100,
  OUTSIDE = 100,
  ON_LEADER = 100,
  A_RING = 0.35,
  A_SIDE = 0.01;

/** Whether a stretch meets a box. @param {number[]} from @param {number[]} to @param {Box} box */
export function crosses([x1, y1], [x2, y2], [left, low, right, high]) {
  let first = 0,
    last = 1;
  for (const [way, near, far] of [
    [x2 - x1, left - x1, right - x1],
    [y2 - y1, low - y1, high - y1],
  ]) {
    if (way === 0) {
      if (near > 0 || far < 0) return false;
      continue;
    }
    const [enters, leaves] = way > 0 ? [near / way, far / way] : [far / way, near / way];
    first = Math.max(first, enters);
    last = Math.min(last, leaves);
    if (first > last) return false;
  }
  return true;
}

export class Labels {
  /** @param {number} scale units of the plane to a millimetre of paper */
  constructor(scale) {
    this.scale = scale;
    /** @type {Map<string, Box[]>} */ this.cells = new Map();
    /** @type {Map<string, Box[]>} */ this.leaders = new Map();
    /** @type {Box[]} */ this.signs = [];
    /** @type {number[][]} */ this.starts = [];
    /** @type {{from: number[], to: number[], cost: number, of: number}[]} */ this.lines = [];
    this.count = 0;
  }

  /** A line that words should keep off where they can. @param {number[][]} points @param {number} cost */
  line(points, cost) {
    const of = (this.count += 1);
    for (let index = 0; index + 1 < points.length; index += 1)
      this.lines.push({ from: points[index], to: points[index + 1], cost, of });
  }

  /** Keep words and leaders off a box. @param {Box} box */
  take(box) {
    this.#keep(this.cells, box);
  }

  /** Keep words off a sign; a label that belongs to it stands beside it. @param {Box} box */
  takeSign(box) {
    this.signs.push(box);
    this.take(box);
  }

  /** Keep words off a leader. @param {number[]} start @param {number[]} end */
  takeLine(start, end) {
    const half = 0.3 * this.scale;
    this.starts.push(start);
    for (const [x, y] of this.#along(start, end)) this.#keep(this.leaders, [x - half, y - half, x + half, y + half]);
  }

  /** How many boxes a box touches. @param {Box} box */
  touched(box) {
    return this.#count(this.cells, box);
  }

  /**
   * The best place for a box beside a point, and what stands there.
   * @param {number[]} at @param {number[]} size width and height @param {Box} field what is free for words
   * @returns {Spot}
   */
  place(at, size, field) {
    /** @type {Spot|null} */ let best = null;
    const reach = this.#reach(at);
    RINGS.forEach((off, ring) =>
      SIDES.forEach((side, order) => {
        const base = ring * A_RING + order * A_SIDE;
        if (best && base >= best.cost) return;
        const spot = this.#spot(at, size, off * this.scale, side, reach, ring > 0);
        const cost = base + this.#cost(spot, at, reach, field, best ? best.cost - base : Infinity);
        if (!best || cost < best.cost) best = { ...spot, cost };
      }),
    );
    return /** @type {any} */ (best);
  }

  /** Whether a spot touches no words and stays on the sheet. @param {Spot} spot */
  static free = (spot) => spot.cost < ON_WORDS;

  /** What the lines under a box cost. @param {Box} box */
  onLines(box) {
    const seen = new Set();
    let cost = 0;
    for (const each of this.lines)
      if (!seen.has(each.of) && crosses(each.from, each.to, box)) {
        seen.add(each.of);
        cost += each.cost;
      }
    return cost;
  }

  /** @param {number[]} at */
  #reach([x, y]) {
    let across = 0,
      up = 0;
    for (const [x1, y1, x2, y2] of this.signs)
      if (x1 <= x && x <= x2 && y1 <= y && y <= y2) {
        across = Math.max(across, x - x1, x2 - x);
        up = Math.max(up, y - y1, y2 - y);
      }
    return [across, up];
  }

  /**
   * @param {number[]} at @param {number[]} size @param {number} gap @param {number[]} side @param {number[]} reach
   * @param {boolean} led
   * @returns {Spot}
   */
  #spot(at, [wide, high], gap, [dx, dy], reach, led) {
    const slant = dx && dy ? 0.7 : 1;
    const x = at[0] + dx * (gap * slant + reach[0]) + ((dx - 1) * wide) / 2,
      y = at[1] + dy * (gap * slant + reach[1]) + ((dy - 1) * high) / 2;
    /** @type {Box} */ const box = [x, y, x + wide, y + high];
    if (!led) return { box, line: null, cost: 0 };
    const rim = 0.3 * this.scale;
    const end = dx
      ? [Math.min(Math.max(at[0], x - rim), x + wide + rim), Math.min(Math.max(at[1], y + high / 2), y + high / 2)]
      : [at[0], dy < 0 ? y + high + rim : y - rim];
    return { box, line: [at, end], cost: 0 };
  }

  /** @param {Spot} spot @param {number[]} at @param {number[]} reach @param {Box} field @param {number} limit */
  #cost({ box, line }, at, reach, field, limit) {
    let cost = ON_WORDS * (this.touched(box) + this.#count(this.leaders, box));
    if (cost >= limit) return cost;
    if (box[0] < field[0] || box[1] < field[1] || box[2] > field[2] || box[3] > field[3]) cost += OUTSIDE;
    if (line) {
      const half = 0.1 * this.scale,
        rim = 0.5 * this.scale;
      const past = (/** @type {number} */ right, /** @type {number} */ up) =>
        this.#along(line[0], line[1])
          .filter(([x, y]) => Math.abs(x - at[0]) > right || Math.abs(y - at[1]) > up)
          .map(([x, y]) => /** @type {Box} */ ([x - half, y - half, x + half, y + half]));
      // two leaders may begin at one place, and nowhere else touch
      const near = this.starts.some(([x, y]) => Math.abs(at[0] - x) <= rim && Math.abs(at[1] - y) <= rim),
        off = near ? rim : -rim;
      if (past(reach[0] + rim, reach[1] + rim).some((each) => this.#count(this.cells, each))) cost += ON_WORDS;
      if (past(off, off).some((each) => this.#count(this.leaders, each))) cost += ON_LEADER;
    }
    if (cost >= limit || cost >= ON_WORDS) return cost;
    return cost + this.onLines(box);
  }

  /** Points along a line, half a millimetre of paper apart. @param {number[]} start @param {number[]} end */
  #along(start, end) {
    const count = Math.max(1, Math.ceil(Math.hypot(end[0] - start[0], end[1] - start[1]) / (0.5 * this.scale)));
    return Array.from({ length: count + 1 }, (_, k) => [
      start[0] + ((end[0] - start[0]) * k) / count,
      start[1] + ((end[1] - start[1]) * k) / count,
    ]);
  }

  /** @param {Map<string, Box[]>} cells @param {Box} box */
  #keep(cells, box) {
    for (const key of this.#cellsOf(box)) {
      const list = cells.get(key);
      if (list) list.push(box);
      else cells.set(key, [box]);
    }
  }

  /** @param {Map<string, Box[]>} cells @param {Box} box */
  #count(cells, box) {
    const [x1, y1, x2, y2] = box,
      met = new Set();
    for (const key of this.#cellsOf(box))
      for (const one of cells.get(key) ?? [])
        if (x1 < one[2] && one[0] < x2 && y1 < one[3] && one[1] < y2) met.add(`${one}`);
    return met.size;
  }

  /** @param {Box} box */
  *#cellsOf([x1, y1, x2, y2]) {
    const cell = CELL * this.scale;
    for (let i = Math.floor(x1 / cell); i <= Math.floor(x2 / cell); i += 1)
      for (let j = Math.floor(y1 / cell); j <= Math.floor(y2 / cell); j += 1) yield `${i} ${j}`;
  }
}
