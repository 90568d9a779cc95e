// @ts-check
/** The picture under the finger: marks on it, a loupe beside the finger, and arrows that move a mark by one point. */
import { el, svg } from "../../lib/dom.js";

/** @typedef {import("./draft.js").Draft} Draft */
/** @typedef {import("./draft.js").Spot} Spot */

const LOUPE_PX = 128,
  TIMES = 4,
  CROSS = 14;

/**
 * The picture as it was shown last, so that drawing anew does not load it again.
 * @type {{image: Blob, url: string, node: HTMLImageElement}|null}
 */
let shown = null;

/** @param {Blob} image */
export function pictureOf(image) {
  if (shown?.image !== image) {
    if (shown) URL.revokeObjectURL(shown.url);
    const url = URL.createObjectURL(image);
    shown = { image, url, node: el("img", { src: url, alt: "The photo that is measured", draggable: "false" }) };
  }
  return shown.node;
}

/** @param {Draft} made */
export const activeSpot = (made) => made.spots.find((one) => one.key === made.active) ?? null;

/**
 * @param {Draft} made
 * @param {{moved: () => void, weak: (name: string) => boolean}} wishes moved is called when the active mark stands at
 *   another place
 */
export function stage(made, wishes) {
  const picture = pictureOf(made.image),
    [width, height] = made.size_px;
  const signs = svg("svg", { viewBox: `0 0 ${width} ${height}`, "aria-hidden": "true", preserveAspectRatio: "none" });
  const loupe = el("canvas", { class: "loupe", width: LOUPE_PX, height: LOUPE_PX, "aria-hidden": "true" });
  const box = el("div", {
    class: "shot",
    tabindex: "0",
    role: "application",
    "aria-label": "The photo. Arrow keys move the mark by one point, with Shift by ten.",
  });
  box.style.setProperty("--ratio", String(width / height));
  box.append(picture, signs, loupe);
  const show = () => {
    signs.replaceChildren(...made.spots.flatMap((one) => signOf(one, one.key === made.active, wishes, width / 390)));
    drawLoupe(loupe, picture, made);
  };
  const put = (/** @type {number} */ x, /** @type {number} */ y) => {
    const active = activeSpot(made);
    if (!active) return;
    active.seen_px = [Math.min(Math.max(x, 0), width), Math.min(Math.max(y, 0), height)];
    show();
  };
  /** @param {PointerEvent} event */
  const at = (event) => {
    const frame = box.getBoundingClientRect();
    return [
      ((event.clientX - frame.left) / frame.width) * width,
      ((event.clientY - frame.top) / frame.height) * height,
    ];
  };
  /** Where the finger took hold, so that the mark moves with it and is not under it. @type {number[]|null} */
  let held = null;
  box.addEventListener("pointerdown", (event) => {
    const active = activeSpot(made);
    if (!active) return;
    const [x, y] = at(event);
    const near = Math.hypot(x - active.seen_px[0], y - active.seen_px[1]) < width / 6;
    held = near ? [x - active.seen_px[0], y - active.seen_px[1]] : [0, 0];
    try {
      box.setPointerCapture(event.pointerId);
    } catch {
      /* a pointer that is gone already */
    }
    if (!near) put(x, y);
  });
  box.addEventListener("pointermove", (event) => {
    if (!held) return;
    const [x, y] = at(event);
    put(x - held[0], y - held[1]);
  });
  for (const name of ["pointerup", "pointercancel"])
    box.addEventListener(name, () => {
      // not before: what it says changes its height, and the picture would slip under the finger
      if (held) wishes.moved();
      held = null;
    });
  const nudge = (/** @type {number} */ right, /** @type {number} */ down) => {
    const active = activeSpot(made);
    if (!active) return;
    put(active.seen_px[0] + right, active.seen_px[1] + down);
    wishes.moved();
  };
  box.addEventListener("keydown", (event) => {
    const way = WAYS.find((one) => one.key === event.key);
    if (!way) return;
    event.preventDefault();
    const far = event.shiftKey ? 10 : 1;
    nudge(way.right * far, way.down * far);
  });
  picture.onload = () => show();
  show();
  const arrows = el(
    "div",
    { class: "arrows", role: "group", "aria-label": "Move the mark by one point of the picture" },
    ...WAYS.map((way) =>
      el("button", {
        type: "button",
        "aria-label": way.face,
        text: way.sign,
        disabled: !activeSpot(made),
        on: {
          click: () => nudge(way.right, way.down),
        },
      }),
    ),
  );
  return { box, arrows, show };
}

const WAYS = [
  { key: "ArrowLeft", sign: "◀", face: "Mark to the left", right: -1, down: 0 },
  { key: "ArrowUp", sign: "▲", face: "Mark up", right: 0, down: -1 },
  { key: "ArrowDown", sign: "▼", face: "Mark down", right: 0, down: 1 },
  { key: "ArrowRight", sign: "▶", face: "Mark to the right", right: 1, down: 0 },
];

/**
 * A mark is a ring with a cross, a thing a square with one: never colour alone.
 * @param {Spot} spot
 * @param {boolean} active
 * @param {{weak: (name: string) => boolean}} wishes
 * @param {number} size points of the picture to a pixel of the screen
 */
function signOf(spot, active, wishes, size) {
  const [x, y] = spot.seen_px,
    r = (active ? CROSS : CROSS * 0.7) * size,
    d = `M${x - r} ${y}H${x - r / 3}M${x + r / 3} ${y}H${x + r}M${x} ${y - r}V${y - r / 3}M${x} ${y + r / 3}V${y + r}`;
  const round =
    spot.kind === "mark"
      ? `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`
      : `M${x - r} ${y - r}h${2 * r}v${2 * r}h${-2 * r}z`;
  const line = (/** @type {string} */ stroke, /** @type {number} */ wide) =>
    svg("path", { d: d + round, fill: "none", stroke, "stroke-width": wide * size });
  const words = svg("text", {
    x: x + r * 1.2,
    y: y - r * 0.6,
    "font-size": 15 * size,
    "font-weight": 700,
    fill: "#fff",
    stroke: "#000",
    "stroke-width": 3.5 * size,
    "paint-order": "stroke",
  });
  words.textContent = spot.name + (wishes.weak(spot.name) ? " ✕" : "");
  return [line("#000", 4), line(active ? "#ffd400" : "#fff", 2), words];
}

/** @param {HTMLCanvasElement} canvas @param {HTMLImageElement} picture @param {Draft} made */
function drawLoupe(canvas, picture, made) {
  const active = activeSpot(made),
    brush = canvas.getContext("2d");
  canvas.hidden = !active || !picture.naturalWidth;
  if (!active || !brush || !picture.naturalWidth) return;
  const [x, y] = active.seen_px,
    part = LOUPE_PX / TIMES,
    middle = LOUPE_PX / 2;
  canvas.classList.toggle("right", x < made.size_px[0] / 2);
  canvas.classList.toggle("low", y < made.size_px[1] / 2);
  brush.imageSmoothingEnabled = false;
  brush.fillStyle = "#000";
  brush.fillRect(0, 0, LOUPE_PX, LOUPE_PX);
  brush.drawImage(picture, x - part / 2, y - part / 2, part, part, 0, 0, LOUPE_PX, LOUPE_PX);
  for (const [colour, wide] of /** @type {[string, number][]} */ ([
    ["#000", 3],
    ["#ffd400", 1],
  ])) {
    brush.strokeStyle = colour;
    brush.lineWidth = wide;
    brush.beginPath();
    for (const [from, to] of [
      [0, middle - 6],
      [middle + 6, LOUPE_PX],
    ]) {
      brush.moveTo(from, middle);
      brush.lineTo(to, middle);
      brush.moveTo(middle, from);
      brush.lineTo(middle, to);
    }
    brush.stroke();
  }
}
