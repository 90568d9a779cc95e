// @ts-check
/**
 * The units of an area on the sheet: one path for each tile of some hundred of them, and only of tiles that are on the
 * screen. Where units would be specks, the courses are drawn instead.
 */
import { svg } from "../../lib/dom.js";
import { shapePath } from "./paths.js";

const IN_TILE = 400,
  SPECK_PX = 4,
  ALWAYS = 1500,
  BETWEEN_PX = 6,
  MARGIN = 0.25;

/** @typedef {[number, number, number, number]} Box x1, y1, x2, y2 in mm of the site */
/** @typedef {{box: Box, whole: number[], cut: number[], paths: Map<string, string>}} Tile */

/**
 * What of the site is on the screen, and a quarter more each way.
 * @param {import("./view.js").PlanView} view @returns {Box}
 */
export function onScreen(view) {
  const { width, height } = view.size,
    wide = (width / view.scale) * (0.5 + MARGIN),
    high = (height / view.scale) * (0.5 + MARGIN);
  return [view.x - wide, view.y - high, view.x + wide, view.y + high];
}

/** @param {Box} one @param {Box} other */
export const meet = (one, other) =>
  one[0] <= other[2] && other[0] <= one[2] && one[1] <= other[3] && other[1] <= one[3];

export class Tiles {
  /** @param {import("./pieces.js").Pieces} pieces */
  constructor(pieces) {
    this.pieces = pieces;
    /** @type {Map<string, Tile>} */ const found = new Map();
    const counts = new Map();
    let room = 0;
    for (let at = 0; at < pieces.count; at += 1) {
      const [x1, y1, x2, y2] = pieces.boxes[pieces.form[at]];
      room += (x2 - x1) * (y2 - y1);
      counts.set(pieces.kind[at], (counts.get(pieces.kind[at]) ?? 0) + 1);
    }
    const side = Math.sqrt((room / Math.max(1, pieces.count)) * IN_TILE) || 1,
      most = [...counts].sort((one, other) => other[1] - one[1])[0]?.[0];
    /** The smaller side of what most pieces are, mm. */
    this.small_mm = most === undefined ? 0 : Math.min(pieces.kinds[most].along_mm, pieces.kinds[most].across_mm);
    for (let at = 0; at < pieces.count; at += 1) {
      const [mx, my] = pieces.middle(at),
        key = `${Math.floor(mx / side)},${Math.floor(my / side)}`,
        [x1, y1, x2, y2] = pieces.boxes[pieces.form[at]],
        x = pieces.x[at],
        y = pieces.y[at];
      /** @type {Tile} */ const tile = found.get(key) ?? {
        box: [Infinity, Infinity, -Infinity, -Infinity],
        whole: [],
        cut: [],
        paths: new Map(),
      };
      const { box } = tile;
      box[0] = Math.min(box[0], x + x1);
      box[1] = Math.min(box[1], y + y1);
      box[2] = Math.max(box[2], x + x2);
      box[3] = Math.max(box[3], y + y2);
      tile[pieces.isCut(at) ? "cut" : "whole"].push(at);
      found.set(key, tile);
    }
    this.tiles = [...found.values()];
    /** @type {Map<number, string>} */ this.lines = new Map();
  }

  /** Tiles that a box meets. @param {Box|null} box all of them where there is none */
  within(box) {
    return box ? this.tiles.filter((tile) => meet(tile.box, box)) : this.tiles;
  }

  /** Whether units are drawn one by one. @param {number} scale px to a mm */
  isFine(scale) {
    return this.pieces.count <= ALWAYS || this.small_mm * scale >= SPECK_PX;
  }

  /** The path of the whole or the cut units of a tile. @param {Tile} tile @param {"whole"|"cut"} kind */
  path(tile, kind) {
    let path = tile.paths.get(kind);
    if (path === undefined) {
      path = tile[kind].map((at) => this.pieces.path(at)).join("");
      tile.paths.set(kind, path);
    }
    return path;
  }

  /** Lines through the middles of courses, so many apart that they can be told apart. @param {number} scale */
  courses(scale) {
    const every = 2 ** Math.max(0, Math.ceil(Math.log2(BETWEEN_PX / Math.max(1e-6, this.small_mm * scale))));
    let path = this.lines.get(every);
    if (path === undefined) {
      path = courseLines(this.pieces, every, this.small_mm);
      this.lines.set(every, path);
    }
    return path;
  }
}

/** @param {import("./pieces.js").Pieces} pieces @param {number} every @param {number} small_mm */
function courseLines(pieces, every, small_mm) {
  let path = "",
    from = 0;
  for (let at = 1; at <= pieces.count; at += 1) {
    if (at < pieces.count && pieces.course[at] === pieces.course[from] && pieces.place[at] === pieces.place[at - 1] + 1)
      continue;
    if (pieces.course[from] % every === 0 && at - from > 1) {
      const middles = [];
      for (let one = from; one < at; one += 1) middles.push(pieces.middle(one));
      path += line(straightened(middles, small_mm));
    }
    from = at;
  }
  return path;
}

/** @param {[number, number][]} points */
const line = (points) => `M${points.map(([x, y]) => `${x.toFixed(0)} ${y.toFixed(0)}`).join("L")}`;

/** A line without the points from which it hardly turns. @param {[number, number][]} points @param {number} off_mm */
export function straightened(points, off_mm) {
  const kept = [points[0]];
  let from = 0;
  for (let to = 2; to < points.length; to += 1) {
    const [ax, ay] = points[from],
      [bx, by] = points[to],
      long = Math.hypot(bx - ax, by - ay) || 1,
      between = points[(from + to) >> 1],
      off = Math.abs((between[0] - ax) * (by - ay) - (between[1] - ay) * (bx - ax)) / long;
    if (off > off_mm) {
      kept.push(points[to - 1]);
      from = to - 1;
    }
  }
  kept.push(points[points.length - 1]);
  return kept;
}

/** @type {WeakMap<import("./pieces.js").Pieces, Tiles>} */
const known = new WeakMap();

/** The tiles of pieces, made once. @param {import("./pieces.js").Pieces} pieces */
export function tilesOf(pieces) {
  const found = known.get(pieces) ?? new Tiles(pieces);
  known.set(pieces, found);
  return found;
}

const PEN = { stroke: "var(--line-strong)", "stroke-width": 0.7, "vector-effect": "non-scaling-stroke" };

/** Nodes of what stands on the screen: those that leave it are removed, those that come are made once. */
export class Shown {
  /** @param {SVGElement} node */
  constructor(node) {
    this.node = node;
    /** @type {Map<any, SVGElement>} */ this.there = new Map();
    /** @type {WeakMap<any, SVGElement>} */ this.made = new WeakMap();
  }

  /**
   * @template Thing
   * @param {Thing[]} things
   * @param {(thing: Thing) => SVGElement} make
   */
  put(things, make) {
    const wanted = new Set(things);
    for (const [thing, node] of this.there)
      if (!wanted.has(thing)) {
        node.remove();
        this.there.delete(thing);
      }
    for (const thing of things)
      if (!this.there.has(thing)) {
        const key = /** @type {any} */ (thing),
          node = this.made.get(key) ?? make(thing);
        this.made.set(key, node);
        this.there.set(thing, node);
        this.node.append(node);
      }
  }
}

/**
 * The units of an area, drawn as far as the screen shows them.
 * @param {import("./signs.js").Drawing} to
 * @param {import("./pieces.js").Pieces} pieces
 * @param {string} outline path of what is paved
 */
export function drawUnits(to, pieces, outline) {
  const tiles = tilesOf(pieces),
    fine = svg("g", { class: "units" }),
    coarse = svg("g", { class: "courses" }),
    shown = new Shown(fine);
  to.ground.append(coarse, fine);
  const tileNode = (/** @type {Tile} */ tile) =>
    svg(
      "g",
      {},
      .../** @type {const} */ (["whole", "cut"])
        .filter((kind) => tile[kind].length)
        .map((kind) =>
          svg("path", {
            class: kind,
            d: tiles.path(tile, kind),
            fill: kind === "whole" ? "var(--slab)" : "var(--slab-cut)",
            "fill-rule": "evenodd",
            ...PEN,
          }),
        ),
    );
  let lines = "";
  follow(to, (box, scale) => {
    if (tiles.isFine(scale)) {
      coarse.replaceChildren();
      lines = "";
      shown.put(tiles.within(box), tileNode);
      return;
    }
    shown.put([], tileNode);
    const now = tiles.courses(scale);
    if (lines === now) return;
    lines = now;
    const cut = tiles.tiles.map((tile) => tiles.path(tile, "cut")).join("");
    coarse.replaceChildren(
      svg("path", { d: outline, fill: "var(--slab)", "fill-rule": "evenodd" }),
      svg("path", { class: "cut", d: cut, fill: "var(--slab-cut)", "fill-rule": "evenodd" }),
      svg("path", { d: now, fill: "none", ...PEN, "stroke-opacity": 0.45 }),
    );
  });
}

/**
 * Draw now, and again when the sheet is moved where it can be.
 * @param {import("./signs.js").Drawing} to
 * @param {(box: Box|null, scale: number, view: import("./view.js").PlanView|null) => void} draw
 */
export function follow(to, draw) {
  if (to.live) to.live.push((view) => draw(onScreen(view), view.scale, view));
  else draw(null, to.scale, null);
}

/** What is paved of an area: its shape without what lies under steps. @param {plan.LaidArea} area @param {Plan} plan */
export function pavedPath(area, plan) {
  const shape = plan.survey.site.areas.find((each) => each.area.name === area.area)?.shape;
  if (!shape) return "";
  return [shape, ...(area.under_steps ?? []).map((each) => each.shape)].map((each) => shapePath(each)).join("");
}
