// @ts-check
/** The page on site: opened once with signal, then it works without. */
import { counted, messageOf } from "../lib/words.js";
import { el, find } from "../lib/dom.js";
import { keepPage, secure } from "../lib/keep-page.js";
import { unanswered, workOut } from "./changes.js";
import { Queue } from "./queue.js";
import { screen } from "./screen.js";
import { setFirmWriting, setWriting } from "../lib/writing.js";

const job = location.pathname.split("/")[2];
const queue = new Queue(job);
/** @type {any} */ const here = {
  job,
  doc: null,
  base: null,
  view: null,
  photos: [],
  queue,
  signal: "",
  reload: () => load(),
};
const count = find("#unsent"),
  banner = find("#banner");

screen(here, `pavewright.site.${job}`, "page");

/** What waits is always told: a word and a number, not a colour. */
function tellUnsent() {
  const n = queue.unsent,
    refused = queue.list.filter((one) => one.state === "refused").length;
  count.textContent =
    n === 0
      ? queue.underway
        ? "… saving"
        : "✓ all sent"
      : refused
        ? `✕ ${refused} refused, ${n} unsent`
        : queue.state === "sending"
          ? `… sending ${n}`
          : `⚠ ${n} unsent, kept here`;
  here.signal =
    queue.state === "no answer"
      ? `${queue.words || "The server does not answer."} Readings are kept on this phone and go when it does.`
      : n
        ? "Readings go as soon as the server answers."
        : "Readings go as they are taken.";
}

/** The plan follows a little after the last reading of a row. @type {ReturnType<typeof setTimeout>|undefined} */
let soon;
const PATIENT_MS = 90000,
  AGAIN_MS = 20000, // a server that did not answer is asked again
  SOON_MS = 15000; // where nothing is kept yet the first answer is waited for

/** The answer of the server, or the last one that was kept. @param {string} path @param {boolean} [patient] */
async function fetched(path, patient = false) {
  const had = await queue.kept(path);
  try {
    const answer = await fetch(path, {
      signal: AbortSignal.timeout(had && !patient ? SOON_MS : PATIENT_MS),
      cache: "no-store",
    });
    if (answer.ok) {
      const told = await answer.json();
      await queue.kept(path, told);
      return { told, fresh: true };
    }
    if (answer.status === 404) return { told: null, fresh: true };
  } catch {
    /* then the last answer holds */
  }
  return { told: had, fresh: false };
}

async function load(patient = false) {
  clearTimeout(soon);
  const path = `/api/jobs/${job}/site-plan`,
    asked = Promise.all([fetched(path, patient), fetched(`/api/jobs/${job}/photos`)]);
  const kept = here.doc ? null : await queue.kept(path);
  if (kept)
    await show({ told: kept, fresh: true }); // what was seen last is there at once
  else if (!here.doc)
    find("#panel").replaceChildren(el("p", { class: "quiet", role: "status", text: "Opening the job …" }));
  const [plan, shots] = await asked;
  const wanted = `/api/jobs/${job}/site-water`;
  if (!plan.told)
    return fail(
      plan.fresh
        ? "There is no such job here."
        : "This job was not opened on this phone before, and the server does not answer. Open it once with signal.",
    );
  here.photos = shots.told?.photos ?? here.photos;
  await show(plan);
  if (here.view?.parts?.laid?.is_read) {
    // it takes longer than the plan: what was told last stands meanwhile
    takeWater(await queue.kept(wanted));
    here.redraw();
    takeWater((await fetched(wanted, true)).told);
    here.redraw();
  }
  if (!plan.fresh && navigator.onLine) soon = setTimeout(() => load(true), AGAIN_MS);
}

/** What is told of standing water counts for the revision that it was worked out for. @param {any} told */
function takeWater(told) {
  here.water = told ?? here.water;
  const laid = here.view?.parts?.laid;
  if (!laid || !here.water?.water) return;
  laid.water = here.water.water;
  laid.is_old = here.water.rev !== here.base?.rev;
}

/** @param {{told: any, fresh: boolean}} plan */
async function show(plan) {
  if (!plan.told.document)
    return fail(
      `This job cannot be read as it was kept. ${plan.told.fault ?? ""} Open it on the working screen and go back ` +
        `to a revision.`,
    );
  const rev = plan.told.rev ?? 0;
  // a change whose answer never came may be in it already: it counts once that is known
  if (here.base && (rev < here.base.rev || unanswered(queue.list))) return;
  here.base = { document: plan.told.document, rev };
  workOut(here);
  setFirmWriting(plan.told.writing);
  setWriting(here.doc.identity, here.doc);
  queue.rev = rev;
  if (plan.told.view) {
    here.view = plan.told.view;
    await queue.kept(`view ${job}`, plan.told.view);
  } else here.view = withoutHeights(await queue.kept(`view ${job}`));
  takeWater(null);
  const title = here.doc.identity?.title ?? "Job";
  find("#title").textContent = title;
  document.title = `On site: ${title} – pavewright`;
  here.fresh = plan.fresh;
  tellState(plan.told.faults, plan.told.clashes);
  here.redraw();
}

/** No part at all. @type {any} */
const NO_PARTS = {};

/** What was seen last of a job that cannot be read now: its shape, and no height or peg of the job that it was. */
const withoutHeights = (/** @type {SiteView|null} */ view) =>
  view && { ...view, levels: null, setting_out: null, grid: [], walls: [], parts: NO_PARTS };

/** @param {string} words */
function fail(words) {
  find("#panel").replaceChildren(
    el("p", { role: "alert", text: words }),
    el("button", { type: "button", class: "main", text: "Try again", on: { click: () => load() } }),
    el("a", { class: "button", href: "/", text: "All jobs" }),
  );
}

/** States in words, at the top, each with what to do. @param {any[]} [faults] @param {any[]} [clashes] */
function tellState(faults = [], clashes = []) {
  const told = [];
  if (!secure)
    told.push(
      el(
        "p",
        {},
        el("b", { text: "No secure connection. " }),
        "This browser does not keep the page for places without signal: leave it open, or take the site sheet along. ",
        el("a", { href: `/jobs/${job}/site-sheet.html`, download: "", text: "Save the site sheet" }),
      ),
    );
  if (!here.fresh)
    told.push(el("p", { text: "No answer from the server: this is the job as it was when this phone last saw it." }));
  if (faults.length)
    told.push(
      el("p", { text: `Something contradicts itself: ${faults[0].message} No heights are shown that hang on it.` }),
    );
  if (clashes.length)
    told.push(
      el(
        "p",
        {},
        `${counted(clashes.length, "change")} met another. Both are kept: say which holds on the `,
        el("a", { href: `/jobs/${job}`, text: "working screen" }),
        ".",
      ),
    );
  banner.replaceChildren(...told);
  banner.hidden = told.length === 0;
}

/** What a drawing shows of the queue: as long as that stays, nothing is drawn anew under the fingers. */
const shownOf = () =>
  queue.list.map((one) => [one.id, one.state, one.entries.length, one.undone, one.message].join()).join(";") +
  (here.ui.tab === "sent" ? here.signal : "");
queue.addEventListener("change", () => {
  tellUnsent();
  const now = shownOf();
  if (here.doc && now !== here.shown) {
    here.shown = now;
    workOut(here);
    here.redraw();
  }
});
queue.addEventListener("writing", tellUnsent);
queue.addEventListener("sent", () => {
  clearTimeout(soon);
  soon = setTimeout(() => load(), 1200);
});
window.addEventListener("online", () => load());
find("#working").setAttribute("href", `/jobs/${job}`);
count.addEventListener("click", () => {
  here.open("sent");
});

try {
  await queue.open();
  tellUnsent();
  await load();
  await keepPage();
} catch (problem) {
  fail(
    `This browser keeps nothing (${messageOf(problem) ?? problem}): leave the private window, or ` +
      `take the site sheet along.`,
  );
}
