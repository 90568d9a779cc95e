// @ts-check
/** Better ways as dots: price to the right, cut pieces up. Signs tell them apart; the table below says the same. */
import { el, svg } from "../../lib/dom.js";
import { money, plain } from "../../lib/words.js";

const WIDE = 640,
  HIGH = 260,
  LEFT = 70,
  RIGHT = 40,
  TOP = 44,
  FOOT = 44,
  NEAR = 26;

/**
 * Places for marks that do not lie upon each other: one that would is put beside the one before.
 * @param {{x: number, y: number}[]} marks
 */
export function apart(marks) {
  /** @type {{x: number, y: number}[]} */ const put = [];
  for (const mark of marks) {
    const at = { ...mark };
    while (put.some((other) => Math.hypot(other.x - at.x, other.y - at.y) < NEAR)) at.x += NEAR;
    put.push(at);
  }
  return put;
}

/** Where a value lies between two ends, from 0 to 1. @param {number} value @param {number[]} all */
export function part(value, all) {
  const low = Math.min(...all),
    high = Math.max(...all);
  return high > low ? (value - low) / (high - low) : 0.5;
}

/** @param {import("./better.js").Found} found */
export function betterPicture(found) {
  const drawn = { sign: "■", price: found.drawn.price_minor, cut: found.drawn.cut };
  const rows = found.front.flatMap((row, index) =>
    row.is_drawn
      ? []
      : [{ sign: found.best === index ? `★${index + 1}` : String(index + 1), price: row.price_minor, cut: row.cut }],
  );
  const known = [drawn, ...rows].flatMap((one) =>
    one.price === null || one.cut === null ? [] : [{ ...one, price: one.price, cut: one.cut }],
  );
  if (known.length < 2) return el("div");
  const prices = known.map((one) => one.price),
    cuts = known.map((one) => one.cut);
  const marks = apart(
    known.map((one) => ({
      x: LEFT + part(one.price, prices) * (WIDE - LEFT - RIGHT - 3 * NEAR),
      y: HIGH - FOOT - part(one.cut, cuts) * (HIGH - FOOT - TOP),
    })),
  );
  const said = known.map((one) => `${one.sign}: ${money(one.price, found.currency)}, ${plain(one.cut)} cut`).join("; ");
  const words = (/** @type {number} */ x, /** @type {number} */ y, /** @type {string} */ text, anchor = "start") =>
    svg("text", { x, y, "font-size": 14, "text-anchor": anchor, fill: "currentColor", text });
  return svg(
    "svg",
    { class: "better-picture", viewBox: `0 0 ${WIDE} ${HIGH}`, role: "img", "aria-label": `Price and cuts. ${said}` },
    svg("path", {
      d: `M${LEFT - 18} ${TOP - 10}V${HIGH - FOOT + 18}H${WIDE - 8}`,
      fill: "none",
      stroke: "currentColor",
    }),
    words(LEFT, HIGH - 6, money(Math.min(...prices), found.currency)),
    words(WIDE - 8, HIGH - 6, money(Math.max(...prices), found.currency), "end"),
    words(LEFT - 24, HIGH - FOOT + 5, plain(Math.min(...cuts)), "end"),
    Math.max(...cuts) > Math.min(...cuts) ? words(LEFT - 24, TOP + 5, plain(Math.max(...cuts)), "end") : null,
    words(4, 16, "cuts"),
    words((WIDE + LEFT) / 2, HIGH - 6, "price", "middle"),
    ...known.map((one, place) =>
      svg("text", {
        x: marks[place].x,
        y: marks[place].y + 6,
        "font-size": 18,
        "font-weight": 750,
        "text-anchor": "middle",
        fill: "currentColor",
        text: one.sign,
      }),
    ),
  );
}
