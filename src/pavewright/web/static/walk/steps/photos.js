// @ts-check
/** Photos with a pin on the sketch, sent when there is signal. */
import { photos } from "../../site/photos.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "photos",
  name = "Photos",
  why = "What is covered up later, and what may be argued about.",
  question = "Which photos were taken?";

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

/** @param {any} here @returns {Node[]} */
export function draw(here) {
  photosOf(here);
  return photos(here);
}
