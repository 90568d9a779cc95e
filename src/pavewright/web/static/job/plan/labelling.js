// @ts-check
/**
 * Words of a plan on the screen put where they read: the solver of the drawings on paper, in pixels. Words keep clear
 * of signs, of corners and of each other, and off lines where that can be; those that stand off their place get a
 * leader, and those without room are left out until the plan is brought nearer.
 */
import { svg } from "../../lib/dom.js";
import { Labels } from "../../lib/labels.js";

/** Pixels to a millimetre of paper: rings and leaders are as far apart as on a sheet. */
const SCALE = 96 / 25.4;
const SIGN_MAX = 14, // a sign that reaches farther is a line, such as an arrow
  AIR = 1.5;

/** @typedef {import("./view.js").PlanView} PlanView */
/** @typedef {import("../../lib/labels.js").Box} Box */
/** @typedef {{sign: SVGElement, texts: SVGTextElement[], rank: number}} Words */

/** Words that must stay come first: names of corners, then lengths, then the rest. @param {Element} word */
const rankOf = (word) =>
  word.closest(".corner") ? 0 : word.closest(".side") ? 1 : Number(/** @type {any} */ (word).dataset.rank ?? 2);

const pen = document.createElement("canvas").getContext("2d");
/** @type {Map<string, number>} */ const widths = new Map();

/** How wide words are, measured once. @param {SVGTextElement} word @param {string} family */
function wide(word, family) {
  const size = Number(word.getAttribute("font-size") ?? 13),
    weight = Number(word.getAttribute("font-weight") ?? 400),
    key = `${size} ${weight} ${word.textContent}`;
  let found = widths.get(key);
  if (found === undefined) {
    if (pen) pen.font = `${weight} ${size}px ${family}`;
    found = pen ? pen.measureText(word.textContent ?? "").width : (word.textContent ?? "").length * size * 0.6;
    if (widths.size > 4000) widths.clear();
    widths.set(key, found);
  }
  return found;
}

/** What a word has at the start: where it was drawn. @param {SVGTextElement} word */
function base(word) {
  const own = /** @type {any} */ (word);
  own.base ??= [Number(word.getAttribute("x") ?? 0), Number(word.getAttribute("y") ?? 0)];
  return /** @type {[number, number]} */ (own.base);
}

/** Box of a word about its sign, y up. @param {SVGTextElement} word @param {string} family @returns {Box} */
function boxOf(word, family) {
  const [x, y] = base(word),
    size = Number(word.getAttribute("font-size") ?? 13),
    long = wide(word, family),
    anchor = word.getAttribute("text-anchor") ?? "start";
  const left = anchor === "start" ? x : anchor === "end" ? x - long : x - long / 2;
  return [left - AIR, -y - size * 0.28, left + long + AIR, -y + size * 0.82];
}

/** Half the size of what a sign draws beside its words. @param {SVGElement} sign */
function halfOf(sign) {
  const own = /** @type {any} */ (sign);
  if (own.half !== undefined) return own.half;
  let half = 0;
  for (const one of sign.querySelectorAll("circle, path")) {
    if (one.getAttribute("fill") === "transparent") continue;
    const reach =
      one.tagName === "circle"
        ? Number(one.getAttribute("r"))
        : Math.max(0, ...(one.getAttribute("d")?.match(/-?\d+(\.\d+)?/g) ?? []).map((each) => Math.abs(Number(each))));
    half = Math.max(half, reach);
  }
  return (own.half = Math.min(half, SIGN_MAX));
}

/** @param {SVGTextElement[]} texts @param {string} family @returns {Box} */
function unionOf(texts, family) {
  const boxes = texts.map((one) => boxOf(one, family)),
    end = (/** @type {number} */ side) => (side < 2 ? Math.min : Math.max)(...boxes.map((box) => box[side]));
  return /** @type {Box} */ ([end(0), end(1), end(2), end(3)]);
}

/** @param {SVGTextElement[]} texts @param {number} right @param {number} up */
function move(texts, right, up) {
  for (const one of texts) {
    const [x, y] = base(one);
    one.setAttribute("x", (x + right).toFixed(1));
    one.setAttribute("y", (y - up).toFixed(1));
  }
}

/** Box of a turned box about a place. @param {Box} box @param {number} angle @param {number[]} at @returns {Box} */
function turned([x1, y1, x2, y2], angle, [x, y]) {
  const cos = Math.cos(angle),
    sin = Math.sin(angle);
  const corners = [
    [x1, y1],
    [x2, y1],
    [x2, y2],
    [x1, y2],
  ].map(([cx, cy]) => [x + cx * cos - cy * sin, y + cx * sin + cy * cos]);
  const xs = corners.map((each) => each[0]),
    ys = corners.map((each) => each[1]);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** The turn and shift of the group about turned words. @param {SVGTextElement} word @param {SVGElement} sign */
function turnOf(word, sign) {
  const given = word.parentElement === /** @type {any} */ (sign) ? "" : word.parentElement?.getAttribute("transform");
  if (!given) return null;
  const shift = /translate\(([-\d.]+) ([-\d.]+)\)/.exec(given),
    turn = /rotate\(([-\d.]+)\)/.exec(given);
  if (!shift && !turn) return null;
  const x = Number(shift?.[1] ?? 0),
    y = -Number(shift?.[2] ?? 0),
    angle = (-Number(turn?.[1] ?? 0) * Math.PI) / 180;
  // words of a wall come nearer to it where they would run off the sheet
  return { x, y, angle, up: 14 * Math.sign(Math.sin(angle) * x - Math.cos(angle) * y) };
}

/**
 * Words along a side or a wall: at its middle or along it, on this side of it or on the other.
 * @param {Labels} labels @param {Words} words @param {number[]} at
 * @param {{x: number, y: number, angle: number, up: number}} turn @param {Box} field @param {string} family
 */
function along(labels, { texts: [word] }, at, turn, field, family) {
  const own = boxOf(word, family),
    room = Number(/** @type {any} */ (word.closest("[data-long]"))?.dataset.long ?? 0),
    place = [at[0] + turn.x, at[1] + turn.y],
    slack = Math.max(0, room - (own[2] - own[0])) / 2;
  const flip = -(own[1] + own[3]); // as far from the line on its other side
  /** @type {{right: number, up: number, box: Box, cost: number}|null} */ let best = null;
  for (const share of [0, 0.45, -0.45, 0.9, -0.9])
    for (const up of turn.x || turn.y ? [0, turn.up] : [0, flip]) {
      if (share && !slack) continue;
      const right = share * slack,
        box = turned([own[0] + right, own[1] + up, own[2] + right, own[3] + up], turn.angle, place);
      const out = box[0] < field[0] || box[1] < field[1] || box[2] > field[2] || box[3] > field[3];
      const cost =
        100 * (labels.touched(box) + (out ? 1 : 0)) +
        labels.onLines(shrunk(box)) +
        Math.abs(share) * 0.3 +
        (up ? 0.2 : 0);
      if (!best || cost < best.cost) best = { right, up, box, cost };
    }
  if (!best || best.cost >= 100) return false;
  move([word], best.right, best.up);
  labels.take(best.box);
  return true;
}

/** The line itself runs along the foot of words that stand beside it. @param {Box} box @returns {Box} */
const shrunk = ([x1, y1, x2, y2]) => [x1 + 3, y1 + 3, x2 - 3, y2 - 3];

/** Lines that words keep off: outlines, walls, boundaries. @param {PlanView} view @param {Labels} labels */
function lines(view, labels) {
  const { height } = view.size;
  for (const path of [...view.hand.querySelectorAll("path"), ...view.ground.querySelectorAll("path[data-line]")]) {
    const points = (path.getAttribute("d") ?? "")
      .replace("Z", "")
      .slice(1)
      .split("L")
      .map((pair) => pair.split(" ").map(Number));
    if (points.length > 400 || points.some((at) => !Number.isFinite(at[1]))) continue;
    const shown = points.map((at) => view.toScreen(at)).map(([x, y]) => [x, height - y]);
    if ((path.getAttribute("d") ?? "").endsWith("Z")) shown.push(shown[0]);
    labels.line(shown, 1);
  }
}

/** Words of a plan by their signs, those that must stay first. @param {PlanView} view @returns {Words[]} */
function wordsOf(view) {
  const found = [];
  for (const layer of [view.signs, view.backSigns])
    for (const sign of /** @type {NodeListOf<SVGElement>} */ (layer.querySelectorAll("[data-x]"))) {
      const texts = [...sign.querySelectorAll("text")].filter((one) => one.textContent !== "!");
      if (texts.length) found.push({ sign, texts, rank: Math.min(...texts.map(rankOf)) });
    }
  return found.sort((one, two) => one.rank - two.rank);
}

/** @param {PlanView} view */
export function label(view) {
  const { width, height } = view.size,
    labels = new Labels(SCALE),
    family = getComputedStyle(view.node).fontFamily,
    /** @type {Box} */ field = [0, 0, width, height];
  const at = (/** @type {SVGElement} */ sign) => {
    const [x, y] = view.toScreen([Number(sign.dataset.x), Number(sign.dataset.y)]);
    return [x, height - y];
  };
  lines(view, labels);
  const marks = view.node.parentElement?.querySelector(".marks");
  if (marks) labels.take([0, 0, Number(marks.getAttribute("width")) + 8, Number(marks.getAttribute("height")) + 6]);
  const inSight = (/** @type {number[]} */ [x, y]) => x > -20 && x < width + 20 && y > -20 && y < height + 20;
  for (const layer of [view.signs, view.backSigns])
    for (const sign of /** @type {NodeListOf<SVGElement>} */ (layer.querySelectorAll("[data-x]"))) {
      const half = halfOf(sign),
        [x, y] = at(sign);
      if (half && inSight([x, y])) labels.takeSign([x - half, y - half, x + half, y + half]);
    }
  for (const words of wordsOf(view)) {
    const { sign, texts } = words,
      place = at(sign),
      turn = turnOf(texts[0], sign);
    sign.querySelector(":scope > .leader")?.remove();
    if (!inSight(place)) continue;
    const fits = turn
      ? along(labels, words, place, turn, field, family)
      : beside(labels, words, place, field, family, Boolean(sign.closest("[data-contours]")));
    for (const one of texts) one.setAttribute("visibility", fits ? "inherit" : "hidden");
  }
}

/**
 * Words of a place: beside it, with a leader where they stand off.
 * @param {Labels} labels @param {Words} words @param {number[]} place @param {Box} field @param {string} family
 * @param {boolean} fixed whether they stand there or nowhere, as a level on its contour
 */
function beside(labels, { sign, texts }, place, field, family, fixed) {
  const own = unionOf(texts, family);
  if (fixed) {
    /** @type {Box} */ const box = [own[0] + place[0], own[1] + place[1], own[2] + place[0], own[3] + place[1]];
    const free = !labels.touched(box);
    if (free) labels.take(box);
    return free;
  }
  const spot = labels.place(place, [own[2] - own[0], own[3] - own[1]], field);
  if (!Labels.free(spot)) return false;
  move(texts, spot.box[0] - own[0] - place[0], spot.box[1] - own[1] - place[1]);
  labels.take(spot.box);
  if (spot.line) {
    labels.takeLine(spot.line[0], spot.line[1]);
    const [x, y] = [spot.line[1][0] - place[0], place[1] - spot.line[1][1]];
    sign.append(
      svg("path", {
        class: "leader",
        d: `M0 0L${x.toFixed(1)} ${y.toFixed(1)}`,
        fill: "none",
        stroke: "currentColor",
        "stroke-width": 0.8,
      }),
    );
  }
  return true;
}
