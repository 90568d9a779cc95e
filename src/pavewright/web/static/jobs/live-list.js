// @ts-check
/** What others do to the jobs of a list: rows are brought up to date where they stand; nothing moves under a hand. */
import { handOn } from "../lib/hand.js";
import { listenLive } from "../lib/live.js";

const SPREAD_MS = 300, // many pages do not ask all at once
  GAP_MS = 3000; // between two askings

/**
 * What differs between two lists: jobs that stand in both and changed, and whether the list itself is another one.
 * @param {any[]} before @param {any[]} after @param {(job: any) => string} columnOf the column in which a job stands
 * @returns {{changed: any[], moved: boolean}}
 */
export function difference(before, after, columnOf) {
  const stood = new Map(before.map((one) => [one.id, one]));
  const changed = after.filter((one) => stood.has(one.id) && JSON.stringify(stood.get(one.id)) !== JSON.stringify(one));
  const moved =
    before.length !== after.length ||
    after.some((one, index) => one.id !== before[index].id || columnOf(one) !== columnOf(before[index]));
  return { changed, moved };
}

/** Whether somebody is in the midst of the list: nothing may move there then. @param {HTMLElement} list */
export const inTheMidst = (list) =>
  list.matches(":hover") || list.contains(document.activeElement) || list.getBoundingClientRect().top < 0;

/** @param {string} id */
const rowOf = (id) => document.querySelector(`.job-card [data-key="${id}"]`)?.closest(".job-card");

/**
 * Put a row in the place of that which stood for the same job; what had the focus has it again.
 * @param {any} job @param {HTMLElement} made
 */
export function putRow(job, made) {
  const held = /** @type {any} */ (document.activeElement),
    row = rowOf(job.id),
    key = row?.contains(held) ? held.dataset.key : null;
  row?.replaceWith(made);
  if (key) /** @type {any} */ (made.querySelector(`[data-key="${key}"]`))?.focus({ preventScroll: true });
}

/**
 * Have the list loaded anew, once the hand rests, when others changed something.
 * @param {() => void} load
 * @returns {() => Promise<void>} waits until the hand rests
 */
export function followJobs(load) {
  const rests = handOn(() => false);
  let last = -Infinity,
    waits = false;
  const soon = async () => {
    if (waits) return;
    waits = true;
    const gap = Math.max(0, last + GAP_MS - performance.now());
    await new Promise((next) => setTimeout(next, gap + Math.random() * SPREAD_MS));
    waits = false;
    last = performance.now();
    load();
  };
  listenLive("/api/live", soon);
  return rests;
}
