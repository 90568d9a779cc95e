// @ts-check
/** The list of jobs: found, sorted, begun, put away, deleted and brought back. */
import { el, find, say, tell } from "../lib/dom.js";
import { hidden, hidesMoney } from "../lib/hidden.js";
import { listenForKeys } from "../lib/keys.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { begin, bringIn, fresh, welcome } from "./begin.js";
import { actsOf } from "./acts.js";
import { drawBeside } from "./beside.js";
import { card } from "./card.js";
import { showDue } from "./due.js";
import { askFilters, filtered, keepView, query, stateButtons } from "./filters.js";
import { PAGE, joined, starts } from "./grouping.js";
import { difference, followJobs, inTheMidst, putRow } from "./live-list.js";
import { restore } from "./keep-safe.js";
import { showPlaces } from "./places.js";
import { setState } from "./standing.js";
import { showTemplates } from "./templates.js";

const list = find("#list"),
  told = find("#told"),
  words = find("#words"),
  shelf = find("#shelf"),
  sort = find("#sort"),
  found = find("#found"),
  greeting = find("#welcome"),
  states = find("#states"),
  view = find("#view"),
  changes = find("#show-changes"),
  turn = find("#turn");
const SOON_MS = 1200,
  TYPING_MS = 150,
  SORTED_BY = "pavewright.sorted-by";
const WIDE = matchMedia("(min-width: 1000px)");
/** @type {any[]} */ let jobs = [];
/** @type {any} */ let page = { states: {}, order: { states: {}, not_taken: {} }, total: 0, start: 0, money: true };
/** @type {Record<string, string>} */ let filters = {};
/** @type {any[]} */ let views = [];
let pages = 1;
let asked = 0,
  again = 0,
  waits = 0,
  typing = 0,
  owing = false;

/** What stands in place of the list. */
const BESIDE = ["templates", "places"];
const shelfAsked = () => /** @type {Record<string, string>} */ (shelf.value ? { [shelf.value]: "1" } : {});

/** Begin at the first page, as something else is asked for. */
function afresh() {
  pages = 1;
  return load();
}

/** @param {boolean} [quietly] whether somebody else changed something: then nothing moves under a hand */
async function load(quietly = false) {
  if (quietly && BESIDE.includes(shelf.value)) return;
  if (shelf.value === "templates") return beside((list) => showTemplates(list, begin));
  if (shelf.value === "places") return beside((list) => showPlaces(list, listOf));
  // what somebody asked for here and does not see yet is not overtaken by what others did
  quietly &&= !owing;
  owing ||= !quietly;
  const mine = (asked += 1),
    looked = encodeURIComponent(words.value);
  clearTimeout(again);
  try {
    const wishes = { ...shelfAsked(), words: words.value, sort: sort.value };
    const [answers, fits] = await Promise.all([
      Promise.all(
        starts(pages).map((start) => call("GET", `/api/jobs?${query(filters, { ...wishes, start: `${start}` })}`)),
      ),
      words.value.trim() ? call("GET", `/api/search?words=${looked}`) : { sums: [], words: [] },
    ]);
    if (quietly) await rests();
    if (mine !== asked) return;
    const now = joined(answers.map((one) => one.jobs));
    if (quietly) bringUp(now, answers[0]);
    else takeIn(now, answers[0]);
    if (!quietly) drawBeside(found, fits);
    // lines of the list are worked out beside everything else and come a little later
    if ((jobs.some((job) => !job.fresh) || page.behind) && waits < 100) {
      waits += 1;
      again = setTimeout(() => load(quietly), SOON_MS);
    } else {
      if (waits) showDue(find("#due"));
      waits = 0;
    }
  } catch (problem) {
    say(told, messageOf(problem));
    again = setTimeout(() => load(quietly), 5000);
  }
}

/** @param {any[]} now @param {any} told */
function takeIn(now, told) {
  [jobs, page] = [now, told];
  owing = false;
  changes.hidden = true;
  draw();
}

/** Rows stay where they are while somebody is in the midst of them. @param {any[]} now @param {any} told */
function bringUp(now, told) {
  const { changed, moved } = difference(jobs, now, (job) => (columned() ? stateOf(job) : "")),
    counted = JSON.stringify([page.states, page.total]) !== JSON.stringify([told.states, told.total]);
  if (!inTheMidst(list) && (moved || counted || changed.length)) return takeIn(now, told);
  for (const job of changed) putRow(job, cardOf(job));
  jobs = jobs.map((job) => changed.find((one) => one.id === job.id) ?? job);
  changes.hidden = !moved && !counted;
}

const EMPTY = /** @type {Record<string, string>} */ ({
  "": "No jobs yet.",
  archived: "Nothing is archived.",
  deleted: "Nothing is deleted.",
});
const WHERE = /** @type {Record<string, string>} */ ({ "": "", archived: " in the archive", deleted: " deleted" });

/** Something else in place of the list. @param {(list: HTMLElement) => Promise<void>} show */
async function beside(show) {
  clearTimeout(again);
  asked += 1;
  owing = false;
  for (const part of [states, find("#due"), greeting, found]) part.replaceChildren();
  turn.hidden = true;
  told.textContent = "";
  await show(list).catch((problem) => say(told, messageOf(problem)));
}

function draw() {
  const held = /** @type {any} */ (document.activeElement)?.dataset?.key;
  const newcomer = !words.value && !shelf.value && !chosen() && jobs.every((job) => job.summary?.invented);
  greeting.replaceChildren(...(newcomer ? [welcome(start)] : []));
  told.textContent = page.total
    ? `${page.total} ${page.total === 1 ? "job" : "jobs"}${WHERE[shelf.value]}`
    : words.value
      ? "No job has these words."
      : chosen()
        ? "No job is so."
        : EMPTY[shelf.value];
  // with no job at all there is nothing to filter, and no view to keep
  const bare = !page.total && newcomer;
  for (const part of [find("#only"), find("#keep-view"), view.parentElement, sort.parentElement]) part.hidden = bare;
  const one_state = Object.values(page.states).filter(Boolean).length < 2;
  states.replaceChildren(...(one_state && !filters.state ? [] : stateButtons(page, filters.state ?? "", chooseState)));
  find("#only").textContent = filtered(filters) ? `Filter (${filtered(filters)})` : "Filter";
  list.replaceChildren(...(columned() ? columns() : [listOf(jobs)]));
  turn.hidden = page.total <= jobs.length;
  find("#where").textContent = `${jobs.length} of ${page.total}`;
  find("#more-jobs").textContent = `Show ${Math.min(PAGE, page.total - jobs.length)} more`;
  if (held) /** @type {any} */ (document.querySelector(`[data-key="${held}"]`))?.focus();
}

const chosen = () => Boolean(filters.state) || filtered(filters) > 0;
const columned = () =>
  WIDE.matches && !shelf.value && !words.value && !filters.state && new Set(jobs.map(stateOf)).size > 1;
const stateOf = (/** @type {any} */ job) => job.standing?.state ?? "unsaid";

/** @param {any[]} shown */
const listOf = (shown) => el("ul", { class: "jobs" }, ...shown.map(cardOf));

/** @param {any} job */
const cardOf = (job) =>
  card(
    job,
    actsOf(
      job,
      shelf.value,
      () => load(),
      () => fresh(likely(), job.id),
    ),
    () => stated(job),
  );

/** @param {any} job */
async function stated(job) {
  if (await setState(job, page.order)) load();
}

/** A column for each state in which there are jobs on this page. */
function columns() {
  const names = { ...page.order.states, unsaid: "Not worked out" };
  const filled = Object.keys(names).filter((state) => jobs.some((job) => stateOf(job) === state));
  return [
    el(
      "div",
      { class: "columns" },
      ...filled.map((state) =>
        el(
          "section",
          { "aria-label": names[state] },
          el("h2", { text: `${names[state]} ${heldOf(state)}` }),
          listOf(jobs.filter((job) => stateOf(job) === state)),
        ),
      ),
    ),
  ];
}

/** How many jobs a state has, and how many of them are shown where not all are. @param {string} state */
function heldOf(state) {
  const [all, shown] = [page.states[state] ?? 0, jobs.filter((job) => stateOf(job) === state).length];
  return shown < all ? `${shown} of ${all}` : all;
}

/** @param {string} state */
function chooseState(state) {
  filters = { ...filters, state };
  afresh();
}

async function loadViews() {
  views = (await call("GET", "/api/views").catch(() => ({ views: [] }))).views;
  const held = view.value;
  view.replaceChildren(
    el("option", { value: "", text: "none" }),
    ...views.map((one) => el("option", { value: one.id, text: one.name })),
  );
  view.value = views.some((one) => one.id === held) ? held : "";
  find("#drop-view").hidden = !view.value;
}

/** Jobs whose prices a new one may take, own ones before invented ones. */
const likely = () => [...jobs].sort((one, other) => Number(invented(one)) - Number(invented(other))).slice(0, 50);
const invented = (/** @type {any} */ job) => job.summary?.invented ?? false;
const start = () => fresh(likely().filter((job) => !invented(job)));

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
  typing = setTimeout(afresh, TYPING_MS);
});
shelf.addEventListener("change", afresh);
view.addEventListener("change", () => {
  const one = views.find((each) => each.id === view.value);
  filters = one ? { ...one.body } : {};
  words.value = filters.words ?? "";
  if (filters.sort) sort.value = filters.sort;
  delete filters.words;
  delete filters.sort;
  find("#drop-view").hidden = !view.value;
  afresh();
});
find("#only").addEventListener("click", async () => {
  const given = await askFilters(filters, page.money).catch((problem) => void tell(messageOf(problem)));
  if (!given) return;
  filters = given;
  afresh();
});
find("#keep-view").addEventListener("click", async () => {
  if (await keepView({ ...filters, words: words.value.trim(), sort: sort.value })) await loadViews();
});
find("#drop-view").addEventListener("click", async () => {
  await call("DELETE", `/api/views/${view.value}`).catch((problem) => tell(messageOf(problem)));
  await loadViews();
});
find("#more-jobs").addEventListener("click", () => {
  const seen = jobs.length;
  pages += 1;
  // the hand goes on where the list went on
  load().then(() => /** @type {any} */ (document.querySelector(`[data-key="${jobs[seen]?.id}"]`))?.focus());
});
WIDE.addEventListener("change", draw);
try {
  const sorted = localStorage.getItem(SORTED_BY) ?? "";
  if ([...sort.options].some((/** @type {any} */ one) => one.value === sorted)) sort.value = sorted;
} catch {
  /* nothing is kept: the usual order */
}
sort.addEventListener("change", () => {
  try {
    localStorage.setItem(SORTED_BY, sort.value);
  } catch {
    /* the choice holds for this page */
  }
  afresh();
});
find("#new").addEventListener("click", start);
find("#demo").addEventListener("click", () => begin({ start_from: "demo" }));
takes("#bring", "#file", bringIn);
takes("#restore", "#backup-file", (given) => restore(given, () => load()));
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
hidden().then(({ acts }) => {
  find("#backups").hidden = acts.includes("backup");
  for (const each of sort.options) each.hidden = each.disabled = each.value === "price" && hidesMoney();
  if (sort.value === "price" && hidesMoney()) sort.value = "changed";
});
for (const name of ["#new", "#demo", "#bring", "#restore", "#only", "#keep-view"]) find(name).disabled = false;
changes.addEventListener("click", () => load());
const rests = followJobs(() => load(true));
load();
loadViews();
showDue(find("#due"));
