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
  MAX_ROUNDS = 60,
  HALVINGS = 30;

/** @param {At} a @param {At} b */
export const apart = (a, b) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** @param {Places} places @param {string} name @returns {At} */
export const at = (places, name) => places.get(name) ?? [0, 0];

/**
 * What one observation is between places, and which way each of its points changes it.
 * @param {Seen} seen
 * @param {Places} places
 * @returns {{found: number, ways: At[]}}
 */
export function found({ kind, points, way }, places) {
  const [a, b, c] = points.map((name) => at(places, name));
  if (kind === "near" && way) return { found: a[0] * way[0] + a[1] * way[1], ways: [way] };
  if (kind === "gap" && way)
    return { found: (b[0] - a[0]) * way[0] + (b[1] - a[1]) * way[1], ways: [[-way[0], -way[1]], way] };
  if (kind === "square") return square(a, b, c);
  if (kind === "line") return offLine(a, b, c);
  const length = apart(a, b) || 1e-9,
    along = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  return { found: length, ways: [[-along[0], -along[1]], along] };
}

/** How far the end of the shorter leg stands from square. @param {At} corner @param {At} first @param {At} second */
function square(corner, first, second) {
  const legs = [first, second].map((end) => [end[0] - corner[0], end[1] - corner[1]]),
    sizes = legs.map(([x, y]) => Math.hypot(x, y)),
    over = Math.max(...sizes) || 1e-9,
    off = (legs[0][0] * legs[1][0] + legs[0][1] * legs[1][1]) / over,
    longer = sizes[1] > sizes[0] ? 1 : 0;
  const ends = legs.map((mine, index) => {
    const drag = index === longer ? off / over / over : 0;
    return mine.map((own, axis) => legs[1 - index][axis] / over - drag * own);
  });
  return { found: off, ways: [[-ends[0][0] - ends[1][0], -ends[0][1] - ends[1][1]], ...ends] };
}

/** How far a point stands off a line. @param {At} point @param {At} from @param {At} to */
function offLine(point, from, to) {
  const length = apart(from, to) || 1e-9,
    normal = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length],
    away = [point[0] - from[0], point[1] - from[1]],
    part = (away[0] * (to[0] - from[0]) + away[1] * (to[1] - from[1])) / length / length;
  return {
    found: away[0] * normal[0] + away[1] * normal[1],
    ways: [normal, normal.map((each) => -each * (1 - part)), normal.map((each) => -each * part)],
  };
}

/** @param {Seen[]} all @param {Places} places */
const squares = (all, places) =>
  all.reduce((sum, seen) => sum + ((seen.measured - found(seen, places).found) / seen.sd) ** 2, 0);

/**
 * The places that fit everything best; null where something may move without any observation changing.
 * @param {Places} first
 * @param {Map<string, At[]>} freedom for each point that may move, the directions in which it may
 * @param {Seen[]} all
 * @param {number} still below this step it is at rest. [mm]
 * @returns {Settled|null}
 */
export function settle(first, freedom, all, still = SETTLED_MM) {
  /** @type {Unknowns} */ const unknowns = [];
  /** @type {Map<string, number[]>} */ const own = new Map();
  for (const [name, ways] of freedom)
    own.set(
      name,
      ways.map((way) => unknowns.push({ name, way }) - 1),
    );
  let places = new Map(first),
    misfit = squares(all, places),
    rest = Infinity;
  for (let round = 0; ; round += 1) {
    const { rows, pull, normal } = equations(all, places, unknowns, own),
      lower = cholesky(normal, unknowns.length);
    if (!lower) return null;
    if (rest < still || round === MAX_ROUNDS)
      return { places, unknowns, rows, cofactors: inverse(lower, unknowns.length), squares: misfit };
    const step = solved(lower, pull);
    rest = step.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
    for (let halving = 0, share = 1; halving < HALVINGS; halving += 1, share /= 2) {
      const trial = moved(places, unknowns, step, share),
        now = squares(all, trial);
      if (now <= misfit * (1 + 1e-12) + 1e-18 || rest * share < SETTLED_MM || halving === HALVINGS - 1) {
        [places, misfit, rest] = [trial, now, rest * share];
        break;
      }
    }
  }
}

/** @param {Places} places @param {Unknowns} unknowns @param {Float64Array} step @param {number} share */
function moved(places, unknowns, step, share) {
  const trial = new Map(places);
  unknowns.forEach(({ name, way }, index) => {
    const [x, y] = at(trial, name);
    trial.set(name, [x + share * step[index] * way[0], y + share * step[index] * way[1]]);
  });
  return trial;
}

/** @param {Seen[]} all @param {Places} places @param {Unknowns} unknowns @param {Map<string, number[]>} own */
function equations(all, places, unknowns, own) {
  const count = unknowns.length,
    normal = new Float64Array(count * count),
    pull = new Float64Array(count);
  const rows = all.map((seen) => {
    const { found: now, ways } = found(seen, places),
      off = (seen.measured - now) / seen.sd;
    /** @type {Row} */ const row = [];
    seen.points.forEach((name, index) => {
      for (const number of own.get(name) ?? []) {
        const { way } = unknowns[number];
        row.push([number, (ways[index][0] * way[0] + ways[index][1] * way[1]) / seen.sd]);
      }
    });
    for (const [i, one] of row) {
      pull[i] += one * off;
      for (const [j, other] of row) normal[i * count + j] += one * other;
    }
    return row;
  });
  return { rows, pull, normal };
}

/** The lower triangle of a matrix by Cholesky; null where it has none. @param {Float64Array} matrix @param {number} n */
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

/** Cofactors times one row. @param {Settled} settled @param {Row} row */
export function through({ cofactors, unknowns }, row) {
  const n = unknowns.length,
    out = new Float64Array(n);
  for (const [number, change] of row) for (let i = 0; i < n; i += 1) out[i] += cofactors[number * n + i] * change;
  return out;
}

/** @param {Row} row @param {Float64Array} column */
export const dot = (row, column) => row.reduce((sum, [number, change]) => sum + change * column[number], 0);

/** The row of a tape between two points, over its deviation. @param {Settled} settled @param {string} a @param {string} b @param {number} sd */
export function tapeRow({ places, unknowns }, a, b, sd) {
  const { ways } = found({ kind: "tape", points: [a, b], measured: 0, sd: 1 }, places);
  /** @type {Row} */ const row = [];
  unknowns.forEach(({ name, way }, index) => {
    const end = name === a ? 0 : name === b ? 1 : -1;
    if (end >= 0) row.push([index, (ways[end][0] * way[0] + ways[end][1] * way[1]) / sd]);
  });
  return row;
}

/**
 * Variances of the places, xx, xy and yy, less what one row more would take off them.
 * @param {Settled} settled
 * @param {Float64Array|null} pulled cofactors times that row
 * @param {number} over one and what the row makes of the cofactors
 * @returns {Map<string, [number, number, number]>}
 */
export function spreads({ unknowns, cofactors }, pulled = null, over = 1) {
  const n = unknowns.length;
  /** @type {Map<string, number[]>} */ const own = new Map();
  unknowns.forEach(({ name }, index) => own.set(name, [...(own.get(name) ?? []), index]));
  return new Map(
    [...own].map(([name, numbers]) => {
      /** @type {[number, number, number]} */ const sum = [0, 0, 0];
      for (const i of numbers)
        for (const j of numbers) {
          const part = cofactors[i * n + j] - (pulled ? (pulled[i] * pulled[j]) / over : 0),
            [one, other] = [unknowns[i].way, unknowns[j].way];
          sum[0] += part * one[0] * other[0];
          sum[1] += part * one[0] * other[1];
          sum[2] += part * one[1] * other[1];
        }
      return [name, sum];
    }),
  );
}

/**
 * Half-axes of an ellipse of error and the bearing of the larger one, clockwise from north.
 * @param {[number, number, number]} spread
 */
export function ellipse([xx, xy, yy]) {
  const middle = (xx + yy) / 2,
    half = Math.hypot((xx - yy) / 2, xy),
    turn = (Math.atan2(2 * xy, xx - yy) / 2) * (180 / Math.PI); // anticlockwise from east
  return {
    major_mm: Math.sqrt(Math.max(0, middle + half)),
    minor_mm: Math.sqrt(Math.max(0, middle - half)),
    bearing_deg: (((90 - turn) % 180) + 180) % 180,
  };
}
