// @ts-check
/** Cut pieces picked out, those smaller than advised, and the numbers of pieces as far as they can be read. */
import { svg } from "../../lib/dom.js";
import { sign, text, thin } from "./signs.js";
import { follow, Shown, tilesOf } from "./tiles.js";

const APART_PX = 24,
  FAR_APART_PX = 64,
  READABLE_PX = 7;

/** @param {import("./signs.js").Drawing} to @param {import("./pieces.js").Pieces} pieces */
export function drawCuts(to, pieces) {
  const tiles = tilesOf(pieces),
    node = svg("g", { class: "cuts" }),
    shown = new Shown(node),
    signs = svg("g"),
    small = Array.from(pieces.kind.keys()).filter((at) => pieces.kinds[pieces.kind[at]].sliver);
  to.ground.append(node);
  to.signs.append(signs);
  const tileNode = (/** @type {import("./tiles.js").Tile} */ tile) =>
    svg("path", { d: tiles.path(tile, "cut"), ...thin, "stroke-width": 1.6 });
  follow(to, (box, scale, view) => {
    const cut = tiles.isFine(scale) ? tiles.within(box).filter((tile) => tile.cut.length) : [];
    shown.put(cut, tileNode);
    signs.replaceChildren();
    // where many lie close together one sign stands for them
    const apart = (tiles.isFine(scale) ? APART_PX : FAR_APART_PX) / scale;
    /** @type {number[][]} */ const taken = [];
    for (const at of small) {
      const [x, y] = pieces.middle(at);
      if (box && (x < box[0] || x > box[2] || y < box[1] || y > box[3])) continue;
      if (taken.some(([tx, ty]) => Math.hypot(tx - x, ty - y) < apart)) continue;
      taken.push([x, y]);
      const made = sign(
        { ...to, signs },
        [x, y],
        svg("circle", { r: 9, fill: "var(--sheet)", stroke: "var(--stop)", "stroke-width": 2 }),
        text("!", { y: 5, "data-rank": 0, "font-weight": 800, stroke: "none", fill: "var(--stop)" }),
      );
      view?.placeSign(made);
    }
  });
}

/** @param {import("./signs.js").Drawing} to @param {import("./pieces.js").Pieces} pieces */
export function drawNumbers(to, pieces) {
  const tiles = tilesOf(pieces),
    node = svg("g", { class: "numbers" }),
    shown = new Shown(node);
  to.ground.append(node);
  const sizeOf = (/** @type {number} */ at) => {
    const { along_mm, across_mm } = pieces.kinds[pieces.kind[at]],
      letters = String(pieces.number[at]).length;
    return Math.min(220, (Math.min(along_mm, across_mm) * 0.42) / Math.max(1, letters * 0.42));
  };
  const tileNode = (/** @type {import("./tiles.js").Tile} */ tile) =>
    svg(
      "g",
      {},
      ...[...tile.whole, ...tile.cut].map((at) => {
        const [x, y] = pieces.middle(at);
        return svg("text", {
          transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) scale(1 -1)`,
          "font-size": sizeOf(at).toFixed(0),
          "text-anchor": "middle",
          dy: "0.35em",
          fill: "currentColor",
          text: String(pieces.number[at]),
        });
      }),
    );
  follow(to, (box, scale) => {
    const readable = tiles
      .within(box)
      .filter((tile) => box === null || sizeOf((tile.whole.length ? tile.whole : tile.cut)[0]) * scale >= READABLE_PX);
    shown.put(readable, tileNode);
  });
}
