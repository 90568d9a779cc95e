// @ts-check
/**
 * Changes of the job made on site. They wait in the queue as operations; what is shown is the job as the server gave
 * it, with everything on top that this phone changed and the server does not have yet.
 */
import { applied, between } from "../lib/operations.js";
import { same } from "../lib/items.js";

/** @typedef {import("./parts.js").Here} Here */
/** @typedef {import("./reading.js").Waiting} Waiting */
/** @typedef {import("../lib/operations.js").Operation} Operation */

export const CHANGE = "operations";

/**
 * Changes that a document of some revision does not hold. @param {Waiting[]} list @param {number} rev
 * @returns {Waiting[]}
 */
export const pendingChanges = (list, rev) =>
  list.filter(
    (one) =>
      one.kind === CHANGE && (one.state === "waiting" || (one.state === "sent" && Number(one.rev ?? Infinity) > rev)),
  );

/** Whether a change was sent and its answer never came: the job may hold it already. @param {Waiting[]} list */
export const unanswered = (list) => list.some((one) => one.kind === CHANGE && one.state === "waiting" && one.tried > 0);

/** Lay what this phone changed over the job that was given. @param {Here} here */
export function workOut(here) {
  if (!here.base) return;
  let doc = here.base.document;
  for (const one of pendingChanges(here.queue.list, here.base.rev)) ({ doc } = applied(doc, one.entries));
  if (!here.doc || !same(here.doc, doc)) here.doc = doc;
}

/** Changes are worked out one after the other. @type {Promise<any>} */
let row = Promise.resolve();

/**
 * Change the job. Resolves when the change is on the disk of this phone; false where it could not be kept, and that is
 * said then.
 * @param {Here} here
 * @param {Operation[]|((draft: JobDocument) => void)} change operations, or what is done to a copy of the job
 * @param {string} note what was done, in a few words: it is shown beside the button that takes it back
 * @returns {Promise<boolean>}
 */
export function keepChange(here, change, note) {
  const work = row.then(async () => {
    const operations = Array.isArray(change) ? change : made(here.doc, change);
    if (!operations.length) return;
    await here.queue.add(CHANGE, { operations, note });
    workOut(here);
    navigator.vibrate?.(30);
    here.redraw();
  });
  row = work.catch(() => {});
  return here.queue.writing(work).then(
    () => true,
    () => {
      here.say("This phone could not keep that: its memory is full or closed. Write it on paper.");
      return false;
    },
  );
}

/** @param {JobDocument} doc @param {(draft: JobDocument) => void} act */
function made(doc, act) {
  const draft = structuredClone(doc);
  act(draft);
  return between(doc, draft);
}

/** Whether a change touches a part of the job. @param {Waiting} one @param {string} part a field of the job */
export const touches = (one, part) => one.kind === CHANGE && one.entries.some((each) => each.at[0] === part);
