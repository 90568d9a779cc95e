// @ts-check
/** Photos with a pin on the sketch, sent when there is signal. */
import { photoDraft, photos, pinPhoto } from "../../site/photos.js";
import { ASKED } from "../../lib/walk-questions.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "photos",
  name = "Photos",
  why = "What is covered up later, and what may be argued about.",
  question = ASKED.photos;

/** @param {Walk} here */
const taken = (here) => here.queue.list.filter((one) => one.kind === "photo").length + photosOf(here).length;

/** Those that the server has. @param {any} here @returns {any[]} */
function photosOf(here) {
  if (!here.photos) {
    here.photos = [];
    if (navigator.onLine)
      fetch(`/api/jobs/${here.job}/photos`)
        .then((answer) => (answer.ok ? answer.json() : { photos: [] }))
        .then(({ photos: all }) => {
          here.photos = all ?? [];
          if (here.photos.length) here.redraw();
        })
        .catch(() => {});
  }
  return here.photos;
}

/** @param {Walk} here */
export const state = (here) => (taken(here) ? "done" : "open");

/** @param {Walk} here @returns {import("../frame.js").SketchWish} */
export function sketch(here) {
  const draft = photoDraft();
  if (!draft) return {};
  return {
    hint: "Touch where the photo was taken.",
    marks: draft.place ? [{ at: draft.place, words: "photo" }] : [],
    pick: (at) => {
      pinPhoto(at);
      here.redraw();
    },
  };
}

/** @param {any} here @returns {Node[]} */
export function draw(here) {
  photosOf(here);
  return photos(here, { onSketch: true });
}
