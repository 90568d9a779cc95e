// @ts-check
/** What a photo says, in few words: each place with how far it is trusted, or why there is none. */
import { el } from "../../lib/dom.js";
import { plain } from "../../lib/words.js";
import { keepChange } from "../changes.js";
import { placedPoints } from "./draft.js";
import { planeFromPhoto } from "./photo-answer.js";
import { weakWords } from "./weak-words.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {import("./photo-answer.js").Answer} Answer */
/** @typedef {import("./photo-answer.js").Place} Place */

const SURE = 2.4477; // half-axes of the ellipse that holds 95 of 100: the root of chi-square for two directions
const NEAR = 2;

const COARSE_MM = 30; // a place that is less sure is told to a centimetre
const metres = (/** @type {number} */ value, figures = 3) => plain(value / 1000, figures);

/**
 * @param {Here} here @param {{kind: "floor"|"wall", name: string, level_from?: string|null}} photo
 * @param {Answer} answer @param {boolean} [offered] whether a place may be taken over
 * @returns {HTMLElement[]}
 */
export function answerLines(here, photo, answer, offered = false) {
  /** @type {HTMLElement[]} */ const out = answer.weak.map((key) =>
    el("p", {
      class: `finding ${key === "no_check" || key === "low_camera" ? "note" : "check"}`,
      text: weakWords(key),
    }),
  );
  if (answer.suspect)
    out.push(el("p", { class: "finding stop", text: `${answer.suspect} does not fit the others: look at it first.` }));
  if (answer.weak.includes("marks_disagree"))
    out.push(el("ul", { class: "plain-list" }, ...answer.marks.map((one) => el("li", { text: offWords(one) }))));
  for (const place of answer.places) out.push(placeLine(here, photo, place, offered));
  if (answer.camera_off_mm && answer.places.some((one) => one.at_mm))
    out.push(el("p", { class: "quiet", text: shiftWords(answer) }));
  return out;
}

/** @param {{name: string, off_mm: number[]}} mark */
const offWords = ({ name, off_mm }) => `${name}: ${plain(Math.hypot(off_mm[0], off_mm[1]), 0)} mm off`;

/** What stands off the plane is shifted. @param {Answer} answer */
function shiftWords({ camera_off_mm, places }) {
  const most = Math.max(...places.map((one) => one.shift ?? 0));
  return (
    `The camera stood about ${metres(camera_off_mm ?? 0, 1)} m off. A thing 10 mm off the plane is shifted up to ` +
    `${plain(10 * most, 0)} mm.`
  );
}

/**
 * @param {Here} here @param {{kind: string, name: string, level_from?: string|null}} photo
 * @param {Place} place @param {boolean} offered
 */
function placeLine(here, photo, place, offered) {
  if (!place.at_mm || !place.ellipse)
    return el(
      "p",
      { class: "finding check" },
      el("b", { text: `${place.name}: no place. ` }),
      place.weak.map(weakWords).join(" "),
    );
  const [x, y] = place.at_mm,
    band = SURE * place.ellipse.major_mm,
    told = (/** @type {number} */ value) => metres(value, band < COARSE_MM ? 3 : 2);
  const where =
    photo.kind === "floor"
      ? `x ${told(x)}, y ${told(y)}`
      : `${told(x)} along, ${told(Math.abs(y))} ${y < 0 ? "below" : "above"} ${photo.level_from || "zero"}`;
  return el(
    "div",
    { class: "peg" },
    el("p", {}, el("b", { text: place.name })),
    el("p", { class: "peg-string", text: where }),
    el("p", { text: `± ${plain(band, 0)} mm, 95 times in 100.` }),
    ...(photo.kind === "floor" ? [el("p", { class: "quiet", text: nearWords(here, place.name, [x, y]) })] : []),
    ...place.weak.map((key) => el("p", { class: "quiet", text: weakWords(key) })),
    offered ? takeOver(here, photo, place) : null,
  );
}

/**
 * How far the nearest known points are: that is taped to look whether it is right.
 * @param {Here} here @param {string} name @param {number[]} at
 */
function nearWords(here, name, at) {
  const near = placedPoints(here)
    .filter((one) => one.name !== name)
    .map((one) => ({ name: one.name, away: Math.hypot(one.x_mm - at[0], one.y_mm - at[1]) }))
    .sort((one, other) => one.away - other.away)
    .slice(0, NEAR);
  return near.map((one) => `${metres(one.away, 2)} m to ${one.name}`).join(", ");
}

/** @param {Here} here @param {{kind: string, name: string, level_from?: string|null}} photo @param {Place} place */
function takeOver(here, photo, place) {
  const measured = here.doc.measurements ?? {},
    floor = photo.kind === "floor",
    there = floor
      ? placedPoints(here).some((one) => one.name === place.name) ||
        (measured.points ?? []).some((one) => one.name === place.name)
      : (measured.heights_over ?? []).some((one) => one.point === place.name && one.over === photo.level_from);
  if (there)
    return el("p", { class: "quiet", text: `✓ ${place.name} stands in the job.${movedWords(here, place, floor)}` });
  if (!floor && !photo.level_from)
    return el("p", { class: "quiet", text: "Say from what heights count to take it over." });
  return el("button", {
    type: "button",
    class: "pad-keep",
    text: floor ? `Take ${place.name} over as a point` : `Take the height of ${place.name} over`,
    on: { click: () => taken(here, photo, place) },
  });
}

/** @param {Here} here @param {{kind: string, name: string, level_from?: string|null}} photo @param {Place} place */
const taken = (here, photo, place) =>
  keepChange(
    here,
    (draft) => {
      const [x, y] = place.at_mm ?? [0, 0],
        measured = /** @type {any} */ (draft.measurements),
        tenth = (/** @type {number} */ value) => Math.round(value * 10) / 10;
      if (photo.kind === "floor")
        (measured.points ??= []).push({
          ...{ name: place.name, x_mm: tenth(x), y_mm: tenth(y) },
          ...{ place_sd_mm: Math.max(0.1, tenth(place.ellipse?.major_mm ?? 0)), by_photo: photo.name },
        });
      else
        (measured.heights_over ??= []).push({
          ...{ point: place.name, over: photo.level_from, higher_mm: tenth(y), by: "photo" },
          ...{ sd_mm: Math.max(0.1, tenth(place.sd_mm?.[1] ?? 0)) },
        });
    },
    `${place.name} by ${photo.name}`,
  );

/**
 * Where the known places were measured again since, a place that was taken over may lie elsewhere now.
 * @param {Here} here @param {Place} place @param {boolean} floor
 */
function movedWords(here, place, floor) {
  const had = floor
    ? (here.doc.measurements?.points ?? []).find((one) => one.name === place.name && one.by_photo)
    : null;
  if (!had || !place.at_mm) return "";
  const off = Math.hypot(had.x_mm - place.at_mm[0], had.y_mm - place.at_mm[1]);
  return off < 1 ? "" : ` By the known places as they are now it lies ${plain(off, 0)} mm from there.`;
}

/**
 * A photo that stands in the job, with what it says by the points as they are now. @param {Here} here
 * @param {any} one
 */
export function keptPhoto(here, one) {
  const part = here.view?.parts?.picture;
  if (!part) return el("span");
  const points = placedPoints(here),
    marks = [];
  for (const mark of one.marks ?? []) {
    const point = points.find((each) => each.name === mark.point),
      given = mark.x_mm !== undefined && mark.x_mm !== null;
    if (!given && !point) continue;
    marks.push({
      name: mark.name,
      seen_px: [mark.seen_x_px, mark.seen_y_px],
      known_mm: given ? [mark.x_mm, mark.y_mm] : [Number(point?.x_mm), Number(point?.y_mm)],
      sd_mm: mark.sd_mm ?? ((given ? 0 : point?.sd_mm) || part.known_sd.value),
    });
  }
  const kind = one.kind ?? "floor";
  const answer = planeFromPhoto(
    {
      marks,
      wanted: (one.things ?? []).map((/** @type {any} */ each) => ({
        name: each.name,
        seen_px: [each.seen_x_px, each.seen_y_px],
      })),
      size_px: [one.width_px, one.height_px],
      front: kind === "floor" ? true : null,
    },
    part[/** @type {"floor"|"wall"} */ (kind)],
    part.limits,
  );
  return el(
    "details",
    { class: "group", open: true },
    el("summary", { text: `${one.name}, ${marks.length} known` }),
    ...answerLines(here, { ...one, kind }, answer, true),
  );
}
