// @ts-check
/** The plan of the job as it stands on this phone, where there is signal: asked once for each state of the document. */
import { call, freshId } from "../lib/api.js";

/** @typedef {import("./frame.js").Walk} Walk */

const subject = `walk-${freshId()}`; // so that the server leaves an older question for a newer
/** The question that was asked last. @type {{text: string, answer: Promise<any>}|null} */
let last = null;
let stop = new AbortController(),
  listens = false;

/** @type {WeakMap<object, string>} */
const texts = new WeakMap();

/** What a document says, whichever object holds it: a delivery brings the same document anew. @param {any} doc */
export function textOf(doc) {
  const had = texts.get(doc);
  if (had !== undefined) return had;
  const text = JSON.stringify(doc, (_, value) =>
    value && typeof value === "object" && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([one], [other]) => (one < other ? -1 : 1)))
      : value,
  );
  texts.set(doc, text);
  return text;
}

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
  const text = textOf(here.doc);
  if (last?.text === text) return last.answer;
  stop.abort();
  stop = new AbortController();
  const mine = stop.signal;
  const answer = call("POST", "/api/plan", JSON.stringify(here.doc), mine, subject).then(
    (told) => {
      if (textOf(here.doc) !== text) return told;
      here.told = told;
      here.toldOf = text;
      here.planned = told.plan;
      here.redraw();
      return told;
    },
    () => (mine.aborted ? undefined : null),
  );
  last = { text, answer };
  return answer;
}

/** What the server said of this very state; null before it did. @param {any} here */
export const toldNow = (here) => (here.toldOf === textOf(here.doc) ? here.told : null);

/** @param {any} here */
export function askAgain(here) {
  last = null;
  if (here.doc) here.redraw();
}
