// @ts-check
/**
 * The links at the head of a page: the pages of the firm that whoever looks may open, the one that is open marked.
 *
 * A page gives them a place: an empty `<nav data-bar></nav>` in its bar.
 */
import { call } from "./api.js";
import { el } from "./dom.js";

/** @param {string} path */
const isHere = (path) => path === location.pathname;

/** @param {HTMLElement} place */
async function fill(place) {
  place.setAttribute("aria-label", "Pages");
  place.classList.add("pages");
  try {
    const { pages } = await call("GET", "/api/pages");
    place.replaceChildren(
      ...pages.map((/** @type {{path: string, name: string}} */ one) =>
        el("a", { href: one.path, text: one.name, ...(isHere(one.path) ? { "aria-current": "page" } : {}) }),
      ),
    );
  } catch {
    /* the page works without them, and its mark leads to the jobs */
  }
}

for (const place of document.querySelectorAll("[data-bar]")) fill(/** @type {HTMLElement} */ (place));
