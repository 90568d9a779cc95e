// @ts-check
/**
 * The pieces of an area as the server sends them: in columns, what is alike once. A piece becomes an object of its own
 * only when somebody asks for it.
 */

import { middle } from "./outline.js";

const STEPS_PER_MM = 10;

/**
 * @typedef {{
 *   area: string, kinds: Record<string, any>[], forms: number[][][], runs: [number, number, number, number][],
 *   kind: number[], form: number[], dx: number[], dy: number[]
 * }} Columns
 */

export class Pieces {
  /** @param {Columns} columns */
  constructor(columns) {
    this.count = columns.kind.length;
    this.kinds = columns.kinds;
    this.kind = columns.kind;
    this.form = columns.form;
    /** First corner of each, mm. */ this.x = new Float64Array(this.count);
    this.y = new Float64Array(this.count);
    let x = 0,
      y = 0;
    for (let at = 0; at < this.count; at += 1) {
      x += columns.dx[at];
      y += columns.dy[at];
      this.x[at] = x / STEPS_PER_MM;
      this.y[at] = y / STEPS_PER_MM;
    }
    /** Rings of each form from the first corner, mm. @type {number[][][]} */
    this.forms = columns.forms.map((rings) => rings.map((ring) => ring.map((step) => step / STEPS_PER_MM)));
    /** Box of each form: x1, y1, x2, y2. @type {number[][]} */
    this.boxes = this.forms.map(([outer]) => {
      const xs = outer.filter((_, at) => at % 2 === 0),
        ys = outer.filter((_, at) => at % 2 === 1);
      return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
    });
    /** @type {number[][]} */ this.centres = [];
    this.course = new Int32Array(this.count);
    this.place = new Int32Array(this.count);
    this.number = new Int32Array(this.count);
    let at = 0;
    for (const [course, place, number, count] of columns.runs)
      for (let step = 0; step < count; step += 1, at += 1) {
        this.course[at] = course;
        this.place[at] = place + step;
        this.number[at] = number + step;
      }
    /** @type {plan.Piece[]|null} */ this.made = null;
  }

  /** Whether a piece is cut. @param {number} at */
  isCut(at) {
    return this.kinds[this.kind[at]].kind === "cut";
  }

  /** The middle of a piece, by area. @param {number} at @returns {[number, number]} */
  middle(at) {
    const form = this.form[at],
      [x, y] = (this.centres[form] ??= middle(pairs(this.forms[form][0])));
    return [this.x[at] + x, this.y[at] + y];
  }

  /** The outline of a piece as a path of the site. @param {number} at */
  path(at) {
    const x = this.x[at],
      y = this.y[at];
    let path = "";
    for (const ring of this.forms[this.form[at]]) {
      path += `M${near(x + ring[0])} ${near(y + ring[1])}`;
      for (let corner = 2; corner < ring.length; corner += 2)
        path += `L${near(x + ring[corner])} ${near(y + ring[corner + 1])}`;
      path += "Z";
    }
    return path;
  }

  /** One piece as an object. @param {number} at @returns {plan.Piece} */
  piece(at) {
    if (this.made) return this.made[at];
    const x = this.x[at],
      y = this.y[at],
      rings = this.forms[this.form[at]].map((ring) => pairs(ring).map(([dx, dy]) => [x + dx, y + dy]));
    return /** @type {any} */ ({
      ...this.kinds[this.kind[at]],
      course: this.course[at],
      place: this.place[at],
      number: this.number[at],
      shape: { outer: rings[0], holes: rings.slice(1) },
    });
  }

  /** All pieces as objects, made the first time that they are asked for. */
  all() {
    this.made ??= Array.from({ length: this.count }, (_, at) => this.piece(at));
    return this.made;
  }

  /** The cut ones, as objects. */
  cut() {
    /** @type {plan.Piece[]} */ const found = [];
    for (let at = 0; at < this.count; at += 1) if (this.isCut(at)) found.push(this.piece(at));
    return found;
  }
}

/** Coordinates two by two. @param {number[]} flat @returns {[number, number][]} */
const pairs = (flat) => Array.from({ length: flat.length / 2 }, (_, at) => [flat[2 * at], flat[2 * at + 1]]);

/** @param {number} value */
const near = (value) => Math.round(value * 10) / 10;

/** Where to ask for every part of a plan, its pieces in columns. */
export const EVERY_PART = "/api/plan?parts=every";

/** @type {WeakMap<object, Pieces>} */
const known = new WeakMap();

/**
 * Give the areas of a plan their pieces: each list is made when it is first looked at.
 * @param {any} plan @param {Columns[]} told
 */
export function withPieces(plan, told) {
  for (const columns of told) {
    const area = plan.laying?.areas.find((/** @type {plan.LaidArea} */ each) => each.area === columns.area),
      pieces = new Pieces(columns);
    known.set(area, pieces);
    Object.defineProperty(area, "pieces", { get: () => pieces.all(), enumerable: true, configurable: true });
  }
  return plan;
}

/** The pieces of a laid area, as they are drawn. @param {plan.LaidArea} area @returns {Pieces} */
export function piecesOf(area) {
  const found = known.get(area) ?? new Pieces(columnsOf(area));
  known.set(area, found);
  return found;
}

/** Columns of pieces that came one by one. @param {plan.LaidArea} area @returns {Columns} */
function columnsOf(area) {
  /** @type {Columns} */ const found = {
    area: area.area,
    kinds: [],
    forms: [],
    runs: [],
    kind: [],
    form: [],
    dx: [],
    dy: [],
  };
  let x = 0,
    y = 0;
  for (const piece of area.pieces) {
    const { shape, course, place, number, ...kind } = piece,
      first = shape.outer[0].map((value) => Math.round(value * STEPS_PER_MM));
    found.kind.push(found.kinds.push(kind) - 1);
    found.form.push(
      found.forms.push(
        [shape.outer, ...shape.holes].map((ring) =>
          ring.flatMap((corner) =>
            corner.map((value, axis) => Math.round((value - shape.outer[0][axis]) * STEPS_PER_MM)),
          ),
        ),
      ) - 1,
    );
    found.dx.push(first[0] - x);
    found.dy.push(first[1] - y);
    [x, y] = first;
    found.runs.push([course, place, number, 1]);
  }
  return found;
}

/** @type {WeakMap<plan.LaidArea, Map<number, plan.Piece>>} */
const cutKnown = new WeakMap();

/** The cut pieces of an area by their numbers. @param {plan.LaidArea} area */
export function cutOf(area) {
  const found =
    cutKnown.get(area) ??
    new Map(
      piecesOf(area)
        .cut()
        .map((piece) => [piece.number, piece]),
    );
  cutKnown.set(area, found);
  return found;
}
