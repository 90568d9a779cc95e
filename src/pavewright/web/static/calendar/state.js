// @ts-check
/** The calendar as this page holds it, and changes of it, each of which can be undone. */
import { call, freshId } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { tell } from "../lib/dom.js";

/**
 * @type {{told: any, undo: any[], from: string, weeks: number, held: boolean, draw: () => void,
 *   load: () => Promise<void>}} `held`: a part is in the hand, nothing is drawn anew under it
 */
export const state = { told: null, undo: [], from: "", weeks: 1, held: false, draw: () => {}, load: async () => {} };

/** Keep a document; what was there before can be brought back. @param {any} document @param {string} note */
export async function keep(document, note) {
  const before = state.told.document;
  if (await sent(document, note)) state.undo.push(before);
}

/** @param {any} document @param {string} note */
async function sent(document, note) {
  try {
    await call("PUT", "/api/calendar", { rev: state.told.rev, document, note, key: freshId() });
    return true;
  } catch (problem) {
    tell(messageOf(problem));
    return false;
  } finally {
    await state.load();
  }
}

export async function undo() {
  const before = state.undo.pop();
  if (before && !(await sent(before, "undone"))) state.undo.push(before);
  state.draw();
}

/** Change a copy of the document and keep it. @param {(document: any) => void} change @param {string} note */
export async function changed(change, note) {
  const document = structuredClone(state.told.document);
  change(document);
  await keep(document, note);
}

/** The entry of a list with this value under a name, made where there is none. @param {any} document */
export function entry(document, /** @type {string} */ list, /** @type {string} */ name, /** @type {string} */ value) {
  document[list] ??= [];
  let found = document[list].find((/** @type {any} */ each) => each[name] === value);
  if (!found) document[list].push((found = { [name]: value }));
  return found;
}

/** @param {string} id */
export const personName = (id) =>
  state.told.people.find((/** @type {any} */ each) => each.id === id)?.name ?? "Not in the book";

/** @param {string} id */
export const jobOf = (id) =>
  state.told.jobs[id] ?? {
    title: state.told.waiting ? "Still being worked out" : "A job that is not here",
    stretches: [],
    links: [],
  };
