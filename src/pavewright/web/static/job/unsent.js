// @ts-check
/**
 * What this browser keeps of a job until the server has it: the operations of each page that have no answer yet. A
 * browser that keeps nothing says so and never stops a save.
 */
import { ApiProblem, call, freshId } from "../lib/api.js";
import { between } from "../lib/operations.js";

/** @typedef {import("../lib/operations.js").Operation} Operation */
/**
 * @typedef {{key: string, rev: number, from: string, operations: Operation[], note: string, tried?: boolean}} Batch
 *   operations that count once under their key; tried once the server may have them
 * @typedef {{seen: number, left: boolean, outbox: Batch[]}} Record what one page has not sent, and when it was
 *   last open
 */

const GONE_MS = 15000; // a page that has not been seen for so long is closed

/** @param {string} job */
const prefix = (job) => `pavewright.unsent.${job}`;
/** @param {string} job @param {string} page */
const nameOf = (job, page) => `${prefix(job)}.${page}`;

/** @param {string} name @returns {any} */
function read(name) {
  try {
    return JSON.parse(localStorage.getItem(name) ?? "null");
  } catch {
    return null;
  }
}

/** @param {string} name */
function forget(name) {
  try {
    localStorage.removeItem(name);
  } catch {
    /* nothing is kept there */
  }
}

/**
 * Keep what a page has not sent; nothing once it has sent everything.
 * @param {string} job @param {string} page @param {Batch[]} outbox @param {boolean} [left] whether the page is left
 * @returns {boolean} whether it is kept
 */
export function keep(job, page, outbox, left = false) {
  if (!outbox.length) {
    forget(nameOf(job, page));
    return true;
  }
  try {
    localStorage.setItem(nameOf(job, page), JSON.stringify({ seen: Date.now(), left, outbox }));
    return true;
  } catch {
    return false;
  }
}

/**
 * Whether what a page has not sent is with it still, and no other page has taken it.
 * @param {string} job @param {string} page
 */
export const isMine = (job, page) => Array.isArray(read(nameOf(job, page))?.outbox);

/**
 * What pages of this browser that are closed did not send. It is with the caller from now on.
 * @param {string} job @param {string} page which asks
 * @returns {Batch[]}
 */
export function leftBehind(job, page) {
  /** @type {Batch[]} */ const found = [];
  for (const name of names(job)) {
    const kept = /** @type {Record|null} */ (read(name));
    if (name === prefix(job) || name === nameOf(job, page) || !Array.isArray(kept?.outbox)) continue;
    if (!kept.left && Date.now() - kept.seen < GONE_MS) continue;
    // perhaps the page lives and sends it too: as it stands it counts once
    found.push(...kept.outbox.map((one) => ({ ...one, tried: true })));
    if (keep(job, page, found)) forget(name);
  }
  return found;
}

/** @param {string} job @returns {string[]} */
function names(job) {
  try {
    const all = Array.from({ length: localStorage.length }, (_, index) => localStorage.key(index) ?? "");
    return all.filter((name) => name.startsWith(`${prefix(job)}.`));
  } catch {
    return [];
  }
}

/**
 * What a page of an older version of the program did not send: a whole document, which becomes operations.
 * @param {string} job @param {string} page which asks
 * @returns {Promise<Batch[]>}
 */
export async function leftByOlder(job, page) {
  const kept = read(prefix(job));
  if (typeof kept?.rev !== "number" || !kept.document || typeof kept.document !== "object") return [];
  const doc = await upToDate(kept.document),
    sent = kept.sent ? { ...kept.sent, document: kept.sent.document ?? kept.document } : null,
    arrived = sent ? await wholeJob(job, sent).catch(unlessRefused) : null;
  const rev = arrived?.rev ?? kept.rev,
    base = arrived ? sent.document : (await call("GET", `/api/jobs/${job}/revisions/${rev}`)).document,
    operations = between(await upToDate(base), doc),
    note = "changes that had not been sent",
    found = operations.length ? [{ key: freshId(), rev, from: page, operations, note }] : [];
  if (keep(job, page, found)) forget(prefix(job));
  return found;
}

/** @param {any} document */
const upToDate = async (document) => (await call("POST", "/api/documents/up-to-date", { document })).document;

/** A job saved as a whole. @param {string} job @param {{rev: number, key: string, document: any, note: string}} save */
export const wholeJob = (job, { rev, key, document, note }) =>
  call("PUT", `/api/jobs/${job}`, { rev, key, document: JSON.stringify(document, null, 1), note });

/** @param {any} problem */
function unlessRefused(problem) {
  if (refused(problem)) return null;
  throw problem;
}

/** Whether the server has said no; anything else leaves open whether it has a save. @param {any} problem */
export const refused = (problem) =>
  problem instanceof ApiProblem &&
  problem.status >= 400 &&
  problem.status < 500 &&
  ![408, 429].includes(problem.status);
