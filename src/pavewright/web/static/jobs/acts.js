// @ts-check
/** What is done with a job in the list: copied, exported, put away, deleted, brought back. */
import { ask, el, hush, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { begin } from "./begin.js";
import { keepTemplate } from "./templates.js";
import { promiseVisit } from "./visit.js";

/**
 * What can be done with a job where it stands.
 * @param {any} job
 * @param {string} shelf
 * @param {() => any} load
 * @param {() => any} alike asks for a new job like it
 * @returns {import("./card.js").Act[]}
 */
export function actsOf(job, shelf, load, alike) {
  if (shelf === "deleted")
    return [
      { label: "Bring back", act: () => setDeleted(job, false, load) },
      { label: "Remove for good", act: () => remove(job, load) },
    ];
  const archived = shelf === "archived";
  return [
    { label: "Walk", act: () => location.assign(`/jobs/${job.id}/walk`) },
    { label: "Promise a visit", act: () => promiseVisit(job, load) },
    { label: "Like this", act: alike },
    { label: "Copy", act: () => copy(job, load) },
    { label: "Template", act: () => keepTemplate(job) },
    { label: "Export", act: () => exported(job) },
    { label: archived ? "Back to jobs" : "Archive", act: () => putAway(job, !archived, load) },
    { label: "Delete", act: () => setDeleted(job, true, load) },
  ];
}

/** @param {any} job @param {() => any} load */
async function copy(job, load) {
  const id = await begin({ copy_of: job.id });
  if (id) tell("Copied.", { label: "Open the copy", act: () => location.assign(`/jobs/${id}`) });
  load();
}

/** @param {any} job */
function exported(job) {
  el("a", { href: `/api/jobs/${job.id}/document.json`, download: `job-${job.id}.json` }).click();
}

/**
 * Change where a job stands, and offer to undo it.
 * @param {string} words @param {() => Promise<any>} act @param {() => Promise<any>} back @param {() => any} load
 */
async function withUndo(words, act, back, load) {
  hush();
  try {
    await act();
    tell(words, { label: "Undo", act: () => back().then(load, (problem) => tell(messageOf(problem))) });
  } catch (problem) {
    tell(messageOf(problem));
  }
  load();
}

/** @param {any} job @param {boolean} away @param {() => any} load */
function putAway(job, away, load) {
  const set = (/** @type {boolean} */ archived) => call("POST", `/api/jobs/${job.id}/archived`, { archived });
  const words = away ? `${job.title} is in the archive.` : `${job.title} is back in the list.`;
  return withUndo(
    words,
    () => set(away),
    () => set(!away),
    load,
  );
}

/** @param {any} job @param {boolean} gone @param {() => any} load */
function setDeleted(job, gone, load) {
  const set = (/** @type {boolean} */ deleted) => call("POST", `/api/jobs/${job.id}/deleted`, { deleted });
  const words = gone ? `${job.title} is deleted. It stays under Show: Deleted.` : `${job.title} is back.`;
  return withUndo(
    words,
    () => set(gone),
    () => set(!gone),
    load,
  );
}

/** @param {any} job @param {() => any} load */
async function remove(job, load) {
  const way = await ask(
    `Remove ${job.title} for good?`,
    [el("p", { text: "Its readings, revisions and photos are gone then. Only a backup brings them back." })],
    [
      { label: "Keep it", value: "", main: true },
      { label: "Remove for good", value: "remove" },
    ],
  );
  if (way !== "remove") return;
  await call("DELETE", `/api/jobs/${job.id}`).catch((problem) => tell(messageOf(problem)));
  load();
}
