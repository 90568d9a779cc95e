// @ts-check
/** The plan of the job as it stands on this phone, where there is signal: asked once for each state of the document. */
import { call } from "../lib/api.js";

/** @typedef {import("./frame.js").Walk} Walk */

/** @type {WeakMap<object, Promise<any>>} */
const asked = new WeakMap();

/**
 * Ask for the plan; the page is drawn anew when it comes.
 * @param {any} here
 * @returns {Promise<any>} what the server answers, or null without signal
 */
export function plannedOnce(here) {
  const { doc } = here,
    had = asked.get(doc);
  if (had) return had;
  const answer = call("POST", "/api/plan", JSON.stringify(doc)).then(
    (told) => {
      if (here.doc === doc) {
        here.told = told;
        here.planned = told.plan;
        here.view ??= null;
        here.redraw();
      }
      return told;
    },
    () => {
      asked.delete(doc);
      window.addEventListener("online", () => here.redraw(), { once: true });
      return null;
    },
  );
  asked.set(doc, answer);
  return answer;
}
