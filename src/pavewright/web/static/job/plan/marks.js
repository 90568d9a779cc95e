// @ts-check
/** What stands on every plan: where north is, and a bar as long as it says. */
import { svg } from "../../lib/dom.js";
import { plain } from "../../lib/words.js";
import { feet, isImperial } from "../../lib/writing.js";

const NARROW_PX = 480;
const LENGTHS_MM = [10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000];

/** The longest round length that fits. @param {number} scale px to a mm of the site @param {number} room_px */
export const barLength = (scale, room_px) =>
  LENGTHS_MM.filter((each) => each * scale <= room_px).at(-1) ?? LENGTHS_MM[0];

/** A length in words: metres from one metre on. @param {number} length_mm */
const said = (length_mm) =>
  isImperial() ? feet(length_mm) : length_mm >= 1000 ? `${plain(length_mm / 1000)} m` : `${plain(length_mm)} mm`;

/**
 * A bar of the scale, in four fields, black and white in turn, its left end at zero.
 * @param {number} scale px to a mm
 * @param {number} room_px
 */
export function scaleBar(scale, room_px) {
  const length_mm = barLength(scale, room_px),
    long = length_mm * scale,
    field = long / 4;
  const halo = {
    stroke: "var(--sheet)",
    "stroke-width": 3.5,
    "paint-order": "stroke",
    fill: "currentColor",
    "font-size": 12.5,
  };
  return svg(
    "g",
    { class: "scale-bar", role: "img", "aria-label": `Bar of ${said(length_mm)}`, "data-mm": length_mm },
    svg("rect", { x: 0, y: 0, width: long.toFixed(2), height: 6, fill: "var(--sheet)", stroke: "currentColor" }),
    ...[0, 2].map((each) =>
      svg("rect", { x: (each * field).toFixed(2), y: 0, width: field.toFixed(2), height: 6, fill: "currentColor" }),
    ),
    svg("text", { x: 0, y: -5, ...halo, text: "0" }),
    svg("text", {
      x: isImperial() ? 12 : long.toFixed(2),
      y: -5,
      "text-anchor": isImperial() ? "start" : "middle",
      ...halo,
      text: said(length_mm),
    }),
  );
}

/** An arrow to the north about its middle. @param {number | null} bearing_deg from up the sheet, clockwise */
export function northArrow(bearing_deg) {
  if (bearing_deg === null)
    return svg(
      "g",
      { class: "north", role: "img", "aria-label": "North was not taken" },
      svg("text", { y: 4, "text-anchor": "middle", "font-size": 12.5, fill: "currentColor", text: "N ?" }),
    );
  return svg(
    "g",
    {
      class: "north",
      role: "img",
      "aria-label": bearing_deg ? `North is ${plain(bearing_deg)} degrees clockwise from up the sheet` : "North is up",
    },
    svg(
      "g",
      { transform: `rotate(${bearing_deg.toFixed(1)})` },
      svg("path", { d: "M0 -18L7 12L0 7Z", fill: "currentColor", stroke: "currentColor" }),
      svg("path", { d: "M0 -18L-7 12L0 7Z", fill: "var(--sheet)", stroke: "currentColor" }),
    ),
    svg("text", {
      x: 20 * Math.sin((bearing_deg * Math.PI) / 180),
      y: -20 * Math.cos((bearing_deg * Math.PI) / 180) - 1,
      dy: bearing_deg > 100 && bearing_deg < 260 ? 10 : 0,
      "text-anchor": "middle",
      "font-size": 12.5,
      "font-weight": 700,
      fill: "currentColor",
      stroke: "var(--sheet)",
      "stroke-width": 3.5,
      "paint-order": "stroke",
      text: "N",
    }),
  );
}

/** North and bar in the corner of a plan on the screen. */
export class Marks {
  /** @param {import("./view.js").PlanView} view @param {HTMLElement} holder */
  constructor(view, holder) {
    this.view = view;
    /** Clockwise from up the sheet; null where nobody took it. @type {number | null} */
    this.bearing_deg = null;
    /** The scale that is drawn; 0 before the first time. */
    this.drawn = 0;
    this.node = svg("svg", { class: "marks", width: 190, height: 64 });
    holder.append(this.node);
    view.addEventListener("place", () => this.draw());
  }

  /** @param {number | null} bearing_deg */
  turn(bearing_deg) {
    this.bearing_deg = bearing_deg;
    this.drawn = 0;
    this.draw();
  }

  draw() {
    if (this.drawn === this.view.scale) return; // a sheet that is only moved keeps both
    this.drawn = this.view.scale;
    const small = this.view.size.width < NARROW_PX; // beside the plan there, not under it
    const north = northArrow(this.bearing_deg),
      bar = scaleBar(this.view.scale, small ? 34 : 110);
    north.setAttribute("transform", small ? "translate(22 34)" : "translate(26 36)");
    bar.setAttribute("transform", small ? "translate(8 88)" : "translate(60 44)");
    this.node.setAttribute("width", isImperial() ? (small ? "112" : "230") : small ? "60" : "190");
    this.node.setAttribute("height", small ? "100" : "64");
    this.node.replaceChildren(north, bar);
  }
}
