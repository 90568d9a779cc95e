// @ts-check
/** The plan of the job as it stands on this phone, where there is signal: asked once for each state of the document. */
import { call, freshId } from "../lib/api.js";

/** @typedef {import("./frame.js").Walk} Walk */

/** @type {WeakMap<object, Promise<any>>} */
const asked = new WeakMap(),
  subject = `walk-${freshId()}`; // so that the server leaves an older question for a newer
let stop = new AbortController(),
  listens = false;

/**
 * Ask for the plan; the page is drawn anew when it comes. What failed is asked again with signal, or by hand.
 * @param {any} here
 * @returns {Promise<any>} what the server answers, null where it did not, undefined where a newer state was asked
 */
export function plannedOnce(here) {
  if (!listens) {
    listens = true;
    window.addEventListener("online", () => askAgain(here));
  }
  const { doc } = here,
    had = asked.get(doc);
  if (had) return had;
  stop.abort();
  stop = new AbortController();
  const mine = stop.signal;
  const answer = call("POST", "/api/plan", JSON.stringify(doc), mine, subject).then(
    (told) => {
      if (here.doc !== doc) return told;
      here.told = told;
      here.toldOf = doc;
      here.planned = told.plan;
      here.redraw();
      return told;
    },
    () => (mine.aborted ? undefined : null),
  );
  asked.set(doc, answer);
  return answer;
}

/** @param {any} here */
export function askAgain(here) {
  if (here.doc) asked.delete(here.doc);
  here.redraw();
}
