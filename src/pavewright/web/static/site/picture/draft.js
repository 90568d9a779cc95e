// @ts-check
/**
 * The photo that is being measured: kept on this phone at every change, until it is saved in the job or discarded.
 */
import { planeFromPhoto } from "./photo-answer.js";

/** @typedef {import("../parts.js").Here} Here */
/**
 * @typedef {{key: number, kind: "mark"|"thing", name: string, point: string, seen_px: number[],
 *   x_mm: number|null, y_mm: number|null}} Spot
 * @typedef {{name: string, image: Blob, size_px: number[], photo: string, kind: "floor"|"wall", wall: string,
 *   level_from: string, spots: Spot[], active: number}} Draft photo is the key of a photo of the job
 */

/** @type {Draft|null} */ let draft = null;
let opened = false;

const keyOf = (/** @type {Here} */ here) => `picture ${here.job}`;

/** @param {Here} here */
const keeper = (here) => /** @type {any} */ (here.queue);

/** The draft; the first time, the one that this phone kept. @param {Here} here @returns {Draft|null} */
export function draftOf(here) {
  if (!opened) {
    opened = true;
    if (keeper(here).kept)
      keeper(here)
        .kept(keyOf(here))
        .then((/** @type {any} */ kept) => {
          if (!kept?.image || draft) return;
          draft = kept;
          here.redraw();
        })
        .catch(() => {});
  }
  return draft;
}

/** Begin, or end with null. @param {Here} here @param {Draft|null} next */
export function setDraft(here, next) {
  draft = next;
  kept(here);
}

/** Keep the draft on this phone; where it has no room the draft stays as long as the page. @param {Here} here */
export function kept(here) {
  keeper(here)
    .kept?.(keyOf(here), draft ?? { none: true })
    .catch(() => {});
}

/** @param {Draft} made @param {"mark"|"thing"} kind @param {number[]} seen_px */
export function addSpot(made, kind, seen_px) {
  const key = Math.max(0, ...made.spots.map((one) => one.key)) + 1,
    name = freeName(made, kind === "mark" ? "Mark" : "Thing");
  made.spots.push({ key, kind, name, point: "", seen_px, x_mm: null, y_mm: null });
  made.active = key;
}

/** @param {Draft} made @param {string} word */
function freeName(made, word) {
  for (let number = 1; ; number += 1)
    if (!made.spots.some((one) => one.name === `${word} ${number}`)) return `${word} ${number}`;
}

/**
 * Points of the job whose place is known. @param {Here} here
 * @returns {{name: string, x_mm: number, y_mm: number, sd_mm: number|null}[]}
 */
export const placedPoints = (here) => /** @type {any} */ (here.view?.survey?.points ?? []);

/** Where a mark is on the plane; null where nobody said. @param {Here} here @param {Draft} made @param {Spot} spot */
export function knownPlace(here, made, spot) {
  const usual = here.view?.parts?.picture?.known_sd.value ?? 0;
  if (spot.x_mm !== null && spot.y_mm !== null) return { at: [spot.x_mm, spot.y_mm], sd_mm: usual };
  const point = made.kind === "floor" ? placedPoints(here).find((one) => one.name === spot.point) : null;
  return point ? { at: [point.x_mm, point.y_mm], sd_mm: point.sd_mm || usual } : null;
}

/** What the photo says now; null where the limits did not come along. @param {Here} here @param {Draft} made */
export function answerOf(here, made) {
  const part = here.view?.parts?.picture;
  if (!part) return null;
  const marks = [];
  for (const spot of made.spots) {
    const known = spot.kind === "mark" ? knownPlace(here, made, spot) : null;
    if (known) marks.push({ name: spot.name, seen_px: spot.seen_px, known_mm: known.at, sd_mm: known.sd_mm });
  }
  return planeFromPhoto(
    {
      marks,
      wanted: made.spots.filter((one) => one.kind === "thing"),
      size_px: made.size_px,
      front: made.kind === "floor" ? true : null,
    },
    part[made.kind],
    part.limits,
  );
}

/** The draft as it stands in the job. @param {Draft} made @param {string} photo @param {string} day */
export function planeOf(made, photo, day) {
  const seen = (/** @type {Spot} */ one) => ({ seen_x_px: round(one.seen_px[0]), seen_y_px: round(one.seen_px[1]) });
  return {
    name: made.name,
    ...(photo ? { photo } : {}),
    kind: made.kind,
    ...(made.kind === "wall" && made.wall ? { wall: made.wall } : {}),
    ...(made.kind === "wall" && made.level_from ? { level_from: made.level_from } : {}),
    width_px: made.size_px[0],
    height_px: made.size_px[1],
    marks: made.spots
      .filter((one) => one.kind === "mark" && (one.point || one.x_mm !== null))
      .map((one) => ({
        name: one.name,
        ...seen(one),
        ...(one.x_mm === null || one.y_mm === null ? { point: one.point } : { x_mm: one.x_mm, y_mm: one.y_mm }),
      })),
    things: made.spots.filter((one) => one.kind === "thing").map((one) => ({ name: one.name, ...seen(one) })),
    taken_on: day,
  };
}

const round = (/** @type {number} */ value) => Math.round(value * 10) / 10;
