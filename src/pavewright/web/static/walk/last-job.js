// @ts-check
/** The newest other job of the store that has prices: where there is signal its units and rates can be copied. */

/** @typedef {import("./frame.js").Walk} Walk */
/** @typedef {{title: string, rates: any, units: any[], crew: any}} LastJob */

/** @type {Map<string, Promise<LastJob|null>>} */
const found = new Map();

/** @param {Walk} here @returns {Promise<LastJob|null>} */
export function lastJob(here) {
  const had = found.get(here.job);
  if (had) return had;
  const asked = ask(here).catch(() => {
    found.delete(here.job); // no signal now: asked again later
    return null;
  });
  found.set(here.job, asked);
  return asked;
}

const LOOK_AT = 6; // jobs that are opened to find one with prices

/** @param {Walk} here */
async function ask(here) {
  const jobs = (await read("/api/jobs")).jobs.filter((/** @type {any} */ one) => one.id !== here.job && !one.archived);
  for (const one of jobs.slice(0, LOOK_AT)) {
    const { document } = await read(`/api/jobs/${one.id}`);
    // prices of an example are invented: they are no prices of mine
    if (!document || document.identity?.invented || document.identity?.currency !== here.doc.identity?.currency)
      continue;
    const { rates = {}, units = [], crew = {} } = document;
    if (rates.labour_minor_per_hour || rates.materials?.length)
      return { title: document.identity.title, rates, units, crew };
  }
  return null;
}

/** @param {string} where */
async function read(where) {
  const answer = await fetch(where);
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}

/** Rates without what belongs to that job alone. @param {any} rates */
export const ratesOf = (rates) => structuredClone(rates);
