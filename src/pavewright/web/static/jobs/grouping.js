// @ts-check
/** Jobs and due things as the page groups them: by place, and pages of the list as one. Pure. */

/** Jobs that the server tells at once. */
export const PAGE = 100;

/**
 * Places with what is due in each: those by name in their order, jobs without a place last.
 * @param {{place: string, jobs: number, due: number}[]} places
 * @param {any[]} dues what is due in all jobs, the first first
 * @returns {{place: string, name: string, jobs: number, due: number, dues: any[]}[]}
 */
export function byPlace(places, dues) {
  const found = places.map((one) => ({
    ...one,
    name: one.place || "No place in the address",
    dues: dues.filter((each) => each.place === one.place),
  }));
  return found.sort((one, other) => Number(!one.place) - Number(!other.place) || one.place.localeCompare(other.place));
}

/** Where each page of the list starts, of so many. @param {number} pages @returns {number[]} */
export const starts = (pages) => Array.from({ length: pages }, (_, index) => index * PAGE);

/**
 * Pages of the list as one; a job that moved from one to the next while they were asked for stands once.
 * @param {{id: string}[][]} pages
 */
export function joined(pages) {
  const found = new Map();
  for (const job of pages.flat()) if (!found.has(job.id)) found.set(job.id, job);
  return [...found.values()];
}

/**
 * The minutes after midnight of a time as typed; null where none is.
 * @param {string} time such as 14:30
 * @returns {number|null}
 */
export function minutesOf(time) {
  const found = /^(\d\d?):(\d\d)$/.exec(time.trim());
  if (!found) return null;
  const [hours, minutes] = [Number(found[1]), Number(found[2])];
  return hours < 24 && minutes < 60 ? hours * 60 + minutes : null;
}

/**
 * A document with one more promised visit, under a name that no other visit has; what is given stays as it is.
 * @param {any} doc
 * @param {{kind: string, on: string, time: string, by: string, note: string}} given
 */
export function withVisit(doc, given) {
  const after = structuredClone(doc),
    standing = (after.standing ??= {}),
    visits = (standing.visits ??= []),
    taken = new Set(visits.map((/** @type {any} */ one) => one.name));
  let number = visits.length + 1;
  while (taken.has(`visit ${number}`)) number += 1;
  const at = minutesOf(given.time);
  visits.push({
    name: `visit ${number}`,
    kind: given.kind,
    on: given.on,
    ...(at === null ? {} : { at_min: at }),
    ...(given.by.trim() ? { by: given.by.trim() } : {}),
    ...(given.note.trim() ? { note: given.note.trim() } : {}),
  });
  return after;
}
