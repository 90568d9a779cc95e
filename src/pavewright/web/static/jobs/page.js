// @ts-check
/** The list of jobs: found, sorted, begun, put away, deleted and brought back. */
import { ask, el, find, hush, say, tell } from "../lib/dom.js";
import { listenForKeys } from "../lib/keys.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { begin, bringIn, fresh, welcome } from "./begin.js";
import { card, ORDERS } from "./card.js";
import { restore } from "./keep-safe.js";

const list = find("#list"),
  told = find("#told"),
  words = find("#words"),
  shelf = find("#shelf"),
  sort = find("#sort"),
  found = find("#found"),
  greeting = find("#welcome");
const SOON_MS = 1200,
  TYPING_MS = 150,
  SORTED_BY = "pavewright.sorted-by";
/** @type {any[]} */ let jobs = [];
let asked = 0,
  again = 0,
  waits = 0,
  typing = 0;

async function load() {
  const mine = (asked += 1),
    looked = encodeURIComponent(words.value);
  clearTimeout(again);
  try {
    const [answer, beside] = await Promise.all([
      call("GET", `/api/jobs?words=${looked}${shelf.value ? `&${shelf.value}=1` : ""}`),
      words.value.trim() ? call("GET", `/api/search?words=${looked}`) : { sums: [], words: [] },
    ]);
    if (mine !== asked) return;
    jobs = answer.jobs;
    draw();
    drawBeside(beside);
    // lines of the list are worked out beside everything else and come a little later
    if (jobs.some((job) => !job.fresh) && waits < 100) {
      waits += 1;
      again = setTimeout(load, SOON_MS);
    } else waits = 0;
  } catch (problem) {
    say(told, messageOf(problem));
    again = setTimeout(load, 5000);
  }
}

const EMPTY = /** @type {Record<string, string>} */ ({
  "": "No jobs yet.",
  archived: "Nothing is archived.",
  deleted: "Nothing is deleted.",
});
const WHERE = /** @type {Record<string, string>} */ ({ "": "", archived: " in the archive", deleted: " deleted" });

function draw() {
  const held = /** @type {any} */ (document.activeElement)?.dataset?.key;
  const newcomer = !words.value && !shelf.value && jobs.every((job) => job.summary?.invented);
  greeting.replaceChildren(...(newcomer ? [welcome(start)] : []));
  told.textContent = jobs.length
    ? `${jobs.length} ${jobs.length === 1 ? "job" : "jobs"}${WHERE[shelf.value]}`
    : words.value
      ? "No job has these words."
      : EMPTY[shelf.value];
  const sorted = [...jobs].sort(ORDERS[sort.value] ?? ORDERS.changed);
  list.replaceChildren(el("ul", { class: "jobs" }, ...sorted.map((job) => card(job, actsOf(job)))));
  if (held) list.querySelector(`[data-key="${held}"]`)?.focus();
}

/** Sums and words of the trade that fit what is looked for. @param {any} beside */
function drawBeside(beside) {
  found.replaceChildren(
    ...(beside.sums.length
      ? [
          el("h2", { text: "Sums" }),
          el(
            "ul",
            { class: "found-sums" },
            ...beside.sums
              .slice(0, 6)
              .map((/** @type {any} */ one) =>
                el("li", {}, el("a", { href: `/sums?sum=${one.name}`, text: one.title.replace(/^Find /, "") })),
              ),
          ),
        ]
      : []),
    ...(beside.words.length
      ? [
          el("h2", { text: "Words" }),
          el(
            "dl",
            { class: "found-words" },
            ...beside.words
              .slice(0, 8)
              .flatMap((/** @type {any} */ one) => [el("dt", { text: one.word }), el("dd", { text: one.meaning })]),
          ),
        ]
      : []),
  );
}

/** What can be done with a job where it stands. @param {any} job @returns {import("./card.js").Act[]} */
function actsOf(job) {
  if (shelf.value === "deleted")
    return [
      { label: "Bring back", act: () => setDeleted(job, false) },
      { label: "Remove for good", act: () => remove(job) },
    ];
  const archived = shelf.value === "archived";
  return [
    { label: "Walk", act: () => location.assign(`/jobs/${job.id}/walk`) },
    { label: "Like this", act: () => fresh(likely(), job.id) },
    { label: "Copy", act: () => copy(job) },
    { label: "Export", act: () => exported(job) },
    { label: archived ? "Back to jobs" : "Archive", act: () => putAway(job, !archived) },
    { label: "Delete", act: () => setDeleted(job, true) },
  ];
}

/** Jobs whose prices a new one may take, own ones before invented ones. */
const likely = () => [...jobs].sort((one, other) => Number(invented(one)) - Number(invented(other))).slice(0, 50);
const invented = (/** @type {any} */ job) => job.summary?.invented ?? false;
const start = () => fresh(likely().filter((job) => !invented(job)));

/** @param {any} job */
async function copy(job) {
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
 * @param {string} words @param {() => Promise<any>} act @param {() => Promise<any>} back
 */
async function withUndo(words, act, back) {
  hush();
  try {
    await act();
    tell(words, { label: "Undo", act: () => back().then(load, (problem) => tell(messageOf(problem))) });
  } catch (problem) {
    tell(messageOf(problem));
  }
  load();
}

/** @param {any} job @param {boolean} away */
function putAway(job, away) {
  const set = (/** @type {boolean} */ archived) => call("POST", `/api/jobs/${job.id}/archived`, { archived });
  const words = away ? `${job.title} is in the archive.` : `${job.title} is back in the list.`;
  return withUndo(
    words,
    () => set(away),
    () => set(!away),
  );
}

/** @param {any} job @param {boolean} gone */
function setDeleted(job, gone) {
  const set = (/** @type {boolean} */ deleted) => call("POST", `/api/jobs/${job.id}/deleted`, { deleted });
  const words = gone ? `${job.title} is deleted. It stays under Show: Deleted.` : `${job.title} is back.`;
  return withUndo(
    words,
    () => set(gone),
    () => set(!gone),
  );
}

/** @param {any} job */
async function remove(job) {
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

/**
 * A button that opens a choice of files.
 * @param {string} button
 * @param {string} input
 * @param {(given: File) => any} take
 */
function takes(button, input, take) {
  const file = find(input);
  find(button).addEventListener("click", () => file.click());
  file.addEventListener("change", async () => {
    await take(file.files[0]);
    file.value = "";
  });
}

words.addEventListener("input", () => {
  clearTimeout(typing);
  typing = setTimeout(load, TYPING_MS);
});
shelf.addEventListener("change", load);
try {
  const sorted = localStorage.getItem(SORTED_BY) ?? "";
  if (sorted in ORDERS) sort.value = sorted;
} catch {
  /* nothing is kept: the usual order */
}
sort.addEventListener("change", () => {
  try {
    localStorage.setItem(SORTED_BY, sort.value);
  } catch {
    /* the choice holds for this page */
  }
  draw();
});
find("#new").addEventListener("click", start);
find("#demo").addEventListener("click", () => begin({ start_from: "demo" }));
takes("#bring", "#file", bringIn);
takes("#restore", "#backup-file", (given) => restore(given, load));
document.addEventListener("dragover", (event) => {
  event.preventDefault();
  document.body.classList.add("dropping");
});
document.addEventListener("dragleave", (event) => {
  if (!event.relatedTarget) document.body.classList.remove("dropping");
});
document.addEventListener("drop", (event) => {
  event.preventDefault();
  document.body.classList.remove("dropping");
  bringIn(event.dataTransfer?.files[0]);
});
listenForKeys([]);
for (const name of ["#new", "#demo", "#bring", "#restore"]) find(name).disabled = false;
load();
