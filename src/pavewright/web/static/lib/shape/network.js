// @ts-check
/**
 * Least squares of tapes, square corners, points on lines and of what a sketch shows, for the few points of one house.
 *
 * A second telling of the networks of the survey; nothing here touches the page.
 */

/** @typedef {[number, number]|number[]} At */
/** @typedef {Map<string, At>} Places */
/**
 * What joins points: a tape, a square corner, a point on a line, a stretch in one direction, or a place. [mm]
 * @typedef {{kind: "tape"|"square"|"line"|"gap"|"near", points: string[], measured: number, sd: number, way?: At}} Seen
 */
/** @typedef {{name: string, way: At}[]} Unknowns */
/** @typedef {[number, number][]} Row a weighted slope: number of the unknown and change with it */
/** @typedef {{places: Places, unknowns: Unknowns, rows: Row[], cofactors: Float64Array, squares: number}} Settled */

const SETTLED_MM = 1e-7,
  DRAFT_MM = 1e-3,
  MAX_ROUNDS = 60,
  HALVINGS = 30;

/** @param {At} a @param {At} b */
export const apart = (a, b) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** @param {Places} places @param {string} name @returns {At} */
export const at = (places, name) => places.get(name) ?? [0, 0];

const KINDS = { tape: 0, square: 1, line: 2, gap: 3, near: 4 },
  TINY = 1e-9;
/** What one observation is now, and how each of its three points changes it: found, then x and y of each. */
const now = new Float64Array(7);

/**
 * Observations and places as arrays of numbers.
 * @param {Places} first
 * @param {Map<string, At[]>} freedom
 * @param {Seen[]} all
 */
function compiled(first, freedom, all) {
  const names = [...first.keys()],
    number = new Map(names.map((name, index) => [name, index])),
    /** @type {Unknowns} */ unknowns = [],
    own = new Int32Array(2 * names.length).fill(-1);
  for (const [name, ways] of freedom) {
    const point = number.get(name);
    if (point === undefined) continue;
    ways.forEach((way, index) => {
      own[2 * point + index] = unknowns.push({ name, way }) - 1;
    });
  }
  const points = new Int32Array(3 * all.length),
    kinds = Uint8Array.from(all, ({ kind }) => KINDS[kind]),
    measured = Float64Array.from(all, (seen) => seen.measured),
    weights = Float64Array.from(all, ({ sd }) => 1 / sd),
    ways = new Float64Array(2 * all.length),
    xy = new Float64Array(2 * names.length);
  names.forEach((name, index) => xy.set(at(first, name), 2 * index));
  all.forEach((seen, index) => {
    seen.points.forEach((name, slot) => {
      points[3 * index + slot] = number.get(name) ?? 0;
    });
    if (seen.way) ways.set(seen.way, 2 * index);
  });
  const of = Int32Array.from(unknowns, ({ name }) => number.get(name) ?? 0),
    along = Float64Array.from(unknowns.flatMap(({ way }) => [...way]));
  return { names, unknowns, own, points, kinds, measured, weights, ways, xy, of, along };
}

/** @typedef {ReturnType<typeof compiled>} Compiled */

/**
 * Put into `now` what one observation is between places.
 * @param {Compiled} net
 * @param {number} k
 * @param {Float64Array} xy
 */
function look({ points, kinds, ways }, k, xy) {
  const [a, b, c] = [2 * points[3 * k], 2 * points[3 * k + 1], 2 * points[3 * k + 2]],
    kind = kinds[k],
    [wx, wy] = [ways[2 * k], ways[2 * k + 1]];
  if (kind === KINDS.near) put(xy[a] * wx + xy[a + 1] * wy, wx, wy, 0, 0, 0, 0);
  else if (kind === KINDS.gap) put((xy[b] - xy[a]) * wx + (xy[b + 1] - xy[a + 1]) * wy, -wx, -wy, wx, wy, 0, 0);
  else if (kind === KINDS.square) square(xy, a, b, c);
  else if (kind === KINDS.line) offLine(xy, a, b, c);
  else {
    const [dx, dy] = [xy[b] - xy[a], xy[b + 1] - xy[a + 1]],
      length = Math.hypot(dx, dy) || TINY;
    put(length, -dx / length, -dy / length, dx / length, dy / length, 0, 0);
  }
}

/**
 * @param {number} found
 * @param {number} ax @param {number} ay
 * @param {number} bx @param {number} by
 * @param {number} cx @param {number} cy
 */
function put(found, ax, ay, bx, by, cx, cy) {
  now[0] = found;
  now[1] = ax;
  now[2] = ay;
  now[3] = bx;
  now[4] = by;
  now[5] = cx;
  now[6] = cy;
}

/**
 * How far the end of the shorter leg stands from square.
 * @param {Float64Array} xy
 * @param {number} at_corner
 * @param {number} one
 * @param {number} two
 */
function square(xy, at_corner, one, two) {
  const [fx, fy] = [xy[one] - xy[at_corner], xy[one + 1] - xy[at_corner + 1]],
    [sx, sy] = [xy[two] - xy[at_corner], xy[two + 1] - xy[at_corner + 1]],
    [first, second] = [Math.hypot(fx, fy), Math.hypot(sx, sy)],
    over = Math.max(first, second) || TINY,
    off = (fx * sx + fy * sy) / over,
    [drag_f, drag_s] = second > first ? [0, off / over / over] : [off / over / over, 0],
    [ex, ey] = [sx / over - drag_f * fx, sy / over - drag_f * fy],
    [gx, gy] = [fx / over - drag_s * sx, fy / over - drag_s * sy];
  put(off, -ex - gx, -ey - gy, ex, ey, gx, gy);
}

/**
 * How far a point stands off a line.
 * @param {Float64Array} xy
 * @param {number} point
 * @param {number} from
 * @param {number} to
 */
function offLine(xy, point, from, to) {
  const [lx, ly] = [xy[to] - xy[from], xy[to + 1] - xy[from + 1]],
    length = Math.hypot(lx, ly) || TINY,
    [nx, ny] = [-ly / length, lx / length],
    [dx, dy] = [xy[point] - xy[from], xy[point + 1] - xy[from + 1]],
    part = (dx * lx + dy * ly) / length / length;
  put(dx * nx + dy * ny, nx, ny, -nx * (1 - part), -ny * (1 - part), -nx * part, -ny * part);
}

/** What one observation is between places. @param {Seen} seen @param {Places} places */
export function found(seen, places) {
  const net = compiled(new Map(seen.points.map((name) => [name, at(places, name)])), new Map(), [seen]);
  look(net, 0, net.xy);
  return now[0];
}

/** @param {Compiled} net @param {Float64Array} xy */
function squares(net, xy) {
  let sum = 0;
  for (let k = 0; k < net.kinds.length; k += 1) {
    look(net, k, xy);
    sum += ((net.measured[k] - now[0]) * net.weights[k]) ** 2;
  }
  return sum;
}

/**
 * The places that fit everything best; null where something may move without any observation changing.
 * @param {Places} first
 * @param {Map<string, At[]>} freedom for each point that may move, the directions in which it may
 * @param {Seen[]} all
 * @param {boolean} draft whether places to a thousandth of a millimetre do, without cofactors
 * @returns {Settled|null}
 */
export function settle(first, freedom, all, draft = false) {
  const net = compiled(first, freedom, all),
    still = draft ? DRAFT_MM : SETTLED_MM,
    count = net.unknowns.length;
  let { xy } = net,
    misfit = squares(net, xy),
    rest = Infinity;
  for (let round = 0; ; round += 1) {
    const done = rest < still || round === MAX_ROUNDS;
    if (done && draft) return settled(net, xy, misfit, null);
    const { pull, normal } = equations(net, xy),
      lower = cholesky(normal, count);
    if (!lower) return null;
    if (done) return settled(net, xy, misfit, inverse(lower, count));
    const step = solved(lower, pull);
    rest = step.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
    for (let halving = 0, share = 1; halving < HALVINGS; halving += 1, share /= 2) {
      const trial = moved(net, xy, step, share),
        fit = squares(net, trial);
      if (fit <= misfit * (1 + 1e-12) + 1e-18 || rest * share < still || halving === HALVINGS - 1) {
        [xy, misfit, rest] = [trial, fit, rest * share];
        break;
      }
    }
  }
}

/**
 * @param {Compiled} net
 * @param {Float64Array} xy
 * @param {number} sum
 * @param {Float64Array|null} cofactors
 * @returns {Settled}
 */
function settled(net, xy, sum, cofactors) {
  const rows = !cofactors ? [] : Array.from(net.kinds, (_, k) => rowOf(net, k, xy));
  const places = new Map(net.names.map((name, index) => [name, [xy[2 * index], xy[2 * index + 1]]]));
  return { places, unknowns: net.unknowns, rows, cofactors: cofactors ?? new Float64Array(0), squares: sum };
}

/** @param {Compiled} net @param {Float64Array} xy @param {Float64Array} step @param {number} share */
function moved({ of, along }, xy, step, share) {
  const trial = Float64Array.from(xy);
  for (let index = 0; index < of.length; index += 1) {
    trial[2 * of[index]] += share * step[index] * along[2 * index];
    trial[2 * of[index] + 1] += share * step[index] * along[2 * index + 1];
  }
  return trial;
}

/**
 * The weighted slopes of one observation.
 * @param {Compiled} net
 * @param {number} k
 * @param {Float64Array} xy
 * @returns {Row}
 */
function rowOf(net, k, xy) {
  look(net, k, xy);
  /** @type {Row} */ const row = [],
    slots = net.kinds[k] === KINDS.near ? 1 : net.kinds[k] === KINDS.square || net.kinds[k] === KINDS.line ? 3 : 2;
  for (let slot = 0; slot < slots; slot += 1)
    for (let way = 0; way < 2; way += 1) {
      const number = net.own[2 * net.points[3 * k + slot] + way];
      if (number < 0) continue;
      const [x, y] = [net.along[2 * number], net.along[2 * number + 1]];
      row.push([number, (now[1 + 2 * slot] * x + now[2 + 2 * slot] * y) * net.weights[k]]);
    }
  return row;
}

/** @param {Compiled} net @param {Float64Array} xy */
function equations(net, xy) {
  const count = net.unknowns.length,
    normal = new Float64Array(count * count),
    pull = new Float64Array(count);
  for (let k = 0; k < net.kinds.length; k += 1) {
    const row = rowOf(net, k, xy),
      off = (net.measured[k] - now[0]) * net.weights[k];
    for (const [i, one] of row) {
      pull[i] += one * off;
      for (const [j, other] of row) normal[i * count + j] += one * other;
    }
  }
  return { pull, normal };
}

/**
 * The lower triangle of a matrix by Cholesky; null where it has none.
 * @param {Float64Array} matrix
 * @param {number} n
 */
function cholesky(matrix, n) {
  const lower = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1)
    for (let j = 0; j <= i; j += 1) {
      let sum = matrix[i * n + j];
      for (let k = 0; k < j; k += 1) sum -= lower[i * n + k] * lower[j * n + k];
      if (i !== j) lower[i * n + j] = sum / lower[j * n + j];
      else if (sum > 1e-15 * matrix[i * n + i] && sum > 0) lower[i * n + i] = Math.sqrt(sum);
      else return null;
    }
  return lower;
}

/** @param {Float64Array} lower @param {Float64Array} right */
function solved(lower, right) {
  const n = right.length,
    step = Float64Array.from(right);
  for (let i = 0; i < n; i += 1) {
    for (let k = 0; k < i; k += 1) step[i] -= lower[i * n + k] * step[k];
    step[i] /= lower[i * n + i];
  }
  for (let i = n - 1; i >= 0; i -= 1) {
    for (let k = i + 1; k < n; k += 1) step[i] -= lower[k * n + i] * step[k];
    step[i] /= lower[i * n + i];
  }
  return step;
}

/** @param {Float64Array} lower @param {number} n */
function inverse(lower, n) {
  const whole = new Float64Array(n * n);
  for (let column = 0; column < n; column += 1) {
    const unit = new Float64Array(n);
    unit[column] = 1;
    whole.set(solved(lower, unit), column * n); // symmetric, so a column is a row
  }
  return whole;
}
