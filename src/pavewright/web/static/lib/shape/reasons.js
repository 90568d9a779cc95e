// @ts-check
/** What may have gone wrong where a tape should have another length: which slip of the hand makes one of the other. */
import { apart, at } from "./network.js";

/** @typedef {import("./network.js").Places} Places */
/**
 * @typedef {"metre"|"hook"|"digits"|"upside_down"|"wrong_way"|"unit"|"other_point"} ReasonKind
 * metre: a whole metre more or less; hook: held at 100 mm, or that taken off twice; digits: two figures changed about;
 * upside_down: a 6 read as a 9; wrong_way: counted back from a metre mark instead of on; unit: centimetres, metres or
 * inches typed; other_point: run to another point
 */
/**
 * @typedef {{kind: ReasonKind, length_mm: number, point: string|null}} Reason  with the length that it would have
 * been
 */

/**
 * The likeliest reason why a tape was read as it was; null where none fits.
 * @param {{points: string[], measured: number}} tape
 * @param {number} should_mm
 * @param {number} sd_mm
 * @param {Places} places
 * @returns {Reason|null}
 */
export function reasonFor({ points, measured }, should_mm, sd_mm, places) {
  const near = Math.min(3 * sd_mm + 3, Math.abs(measured - should_mm) / 3),
    fits = [...lengthsFor(measured)].filter(({ length_mm }) => Math.abs(length_mm - should_mm) <= near);
  fits.sort((one, other) => Math.abs(one.length_mm - should_mm) - Math.abs(other.length_mm - should_mm));
  if (sd_mm > VAGUE_MM) {
    const plain = fits.filter(({ kind }) => PLAIN.includes(kind));
    return plain.length === 1 ? plain[0] : null; // where so much is possible only what stands alone is named
  }
  return fits[0] ?? otherPoint(points, measured, sd_mm, should_mm, places);
}

const VAGUE_MM = 100,
  /** @type {ReasonKind[]} */ PLAIN = ["metre", "digits", "unit"];

/** @param {number} read @returns {Generator<Reason>} */
function* lengthsFor(read) {
  const whole = Math.round(read),
    figures = String(whole),
    point = null;
  for (const by of [1000, -1000, 2000, -2000]) yield { kind: "metre", length_mm: read + by, point };
  for (const by of [-100, 100]) yield { kind: "hook", length_mm: read + by, point };
  for (let index = 0; index + 1 < figures.length; index += 1) {
    const swapped = [...figures];
    [swapped[index], swapped[index + 1]] = [swapped[index + 1], swapped[index]];
    yield { kind: "digits", length_mm: Number(swapped.join("")), point };
  }
  for (let index = 0; index < figures.length; index += 1) {
    const turned = { 6: "9", 9: "6" }[figures[index]];
    if (turned)
      yield {
        kind: "upside_down",
        length_mm: Number(figures.slice(0, index) + turned + figures.slice(index + 1)),
        point,
      };
  }
  for (const mark of [Math.floor(read / 1000), Math.ceil(read / 1000)])
    yield { kind: "wrong_way", length_mm: 2000 * mark - read, point };
  for (const by of [10, 100, 1000, 25.4, 304.8, 0.1]) yield { kind: "unit", length_mm: read * by, point };
}

/**
 * Another point to which the tape fits from one of its ends, as it does not fit its own.
 * @param {string[]} points
 * @param {number} measured
 * @param {number} sd_mm
 * @param {number} should_mm
 * @param {Places} places
 * @returns {Reason|null}
 */
function otherPoint(points, measured, sd_mm, should_mm, places) {
  const off = Math.min(3 * sd_mm + 3, Math.abs(measured - should_mm) / 3);
  for (const from of points)
    for (const [name, place] of places)
      if (!points.includes(name) && Math.abs(apart(at(places, from), place) - measured) <= off)
        return { kind: "other_point", length_mm: should_mm, point: name };
  return null;
}
