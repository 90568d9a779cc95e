// @ts-check
/** The walk round the house: opened once with signal, then it works without. */
import { el, find, say } from "../lib/dom.js";
import { hidden, hidesMoney } from "../lib/hidden.js";
import { keepPage, secure } from "../lib/keep-page.js";
import { messageOf } from "../lib/words.js";
import { Queue } from "../site/queue.js";
import { frame } from "./frame.js";
import { WalkJob } from "./job.js";
import { dropHeld, levelsOf } from "./levelling.js";
import { placesOf } from "./places.js";
import { sketchOf } from "./sketch.js";
import { OF_MONEY, STEPS } from "./steps/index.js";
import { setFirmWriting, setWriting } from "../lib/writing.js";

const [, , job] = location.pathname.split("/"),
  queue = new Queue(job),
  walk = new WalkJob(job, queue),
  count = find("#unsent"),
  undo = find("#undo"),
  banner = find("#banner");
/** @type {any} */ const here = {
  job,
  queue,
  walk,
  doc: null,
  view: null,
  sources: {},
  places: placesOf(null),
  levels: new Map(),
  change: async (/** @type {string} */ label, /** @type {(draft: any) => void} */ act) => {
    const kept = await walk.change(label, act);
    if (!kept) here.say("This phone could not keep that: its memory is full or closed. Write it on paper.");
    return kept;
  },
};

const sketch = sketchOf(here, find("#sketch"));
here.sheet = sketch.view;
await hidden();
frame(here, hidesMoney() ? STEPS.filter((one) => !OF_MONEY.includes(one.key)) : STEPS, sketch.show, tellUnsent);

/** What waits is always shown: a word and a number, not a colour. */
function tellUnsent() {
  const n = queue.unsent,
    refused = queue.list.filter((one) => one.state === "refused").length;
  const writing = n === 0 && queue.underway > 0;
  say(count, writing ? "… saving" : n === 0 ? "✓ sent" : refused ? `✕ ${refused} refused` : `⚠ ${n} kept`);
  count.setAttribute(
    "aria-label",
    writing
      ? "Saving on this phone"
      : n === 0
        ? "All is sent"
        : refused
          ? `${refused} refused, ${n} not sent`
          : `${n} not sent yet, kept on this phone`,
  );
  const { last } = walk,
    held = here.shared?.held,
    what = held ? `staff on ${held.point}` : last?.note;
  undo.disabled = !last && !held;
  undo.setAttribute("aria-label", last || held ? `Undo: ${what ?? ""}` : "Nothing to undo");
  tellState();
}

/** What the plan knows that the walk shows: what is allowed of a closing, and its sources. */
async function planned() {
  const path = `walk view ${job}`;
  try {
    const answer = await fetch(`/api/jobs/${job}/site-plan`, { signal: AbortSignal.timeout(60000), cache: "no-store" });
    const told = answer.ok ? (await answer.json()).view : null;
    if (told) await queue.kept(path, told);
  } catch {
    /* then what is kept here holds */
  }
  here.view = await queue.kept(path);
  here.sources = here.view?.sources ?? {};
  here.redraw();
}

function shown() {
  tellUnsent();
  if (!walk.doc || walk.doc === here.doc) return;
  here.doc = walk.doc;
  setFirmWriting(walk.base?.writing);
  setWriting(here.doc.identity, here.doc);
  here.places = placesOf(here.doc);
  here.levels = levelsOf(here.doc);
  const title = here.doc.identity?.title ?? "Job";
  find("#title").textContent = title;
  document.title = `Walk round: ${title} – pavewright`;
  here.redraw();
}

function tellState() {
  const told = [];
  if (!secure)
    told.push(
      el(
        "p",
        {},
        el("b", { text: "No secure connection. " }),
        "Everything is kept on this phone, but this page is not: leave it open until you are back.",
      ),
    );
  if (walk.clashes)
    told.push(
      el(
        "p",
        {},
        el("b", {
          text: walk.clashes === 1 ? "One thing was changed twice. " : `${walk.clashes} things were changed twice. `,
        }),
        "Both are kept. ",
        el("a", { href: `/jobs/${job}`, text: "Choose on the working screen" }),
      ),
    );
  for (const one of queue.list.filter((each) => each.state === "refused")) told.push(refusedLine(one));
  banner.replaceChildren(...told);
  banner.hidden = told.length === 0;
}

/** What the server could not take stays here, with ways to send it again or to let it go. @param {any} one */
const refusedLine = (one) =>
  el(
    "div",
    { class: "refused" },
    el("p", {}, el("b", { text: `Not taken: ${one.note || one.kind}. ` }), one.message ?? ""),
    el("button", {
      type: "button",
      text: "Send again",
      on: {
        click: async () => {
          await queue.mend(one.id, (now) => ({ ...now, state: "waiting", message: "" }));
          queue.flush();
        },
      },
    }),
    el("button", { type: "button", text: "Let it go", on: { click: () => queue.mend(one.id, () => null) } }),
  );

/** @param {string} words */
function fail(words) {
  find("#panel").replaceChildren(
    el("p", { role: "alert", text: words }),
    el("button", { type: "button", class: "main", text: "Try again", on: { click: () => location.reload() } }),
    el("a", { class: "button", href: "/", text: "All jobs" }),
  );
}

walk.addEventListener("change", shown);
for (const name of ["change", "writing"]) queue.addEventListener(name, tellUnsent);
undo.addEventListener("click", async () => {
  if (here.shared.held) dropHeld(here);
  else if (!(await walk.undo())) here.say("This phone could not take that back: its memory is full or closed.");
});
window.addEventListener("online", () => walk.refresh());
find("#working").setAttribute("href", `/jobs/${job}`);
count.addEventListener("click", () => location.assign(`/jobs/${job}/site`));

try {
  find("#panel").replaceChildren(el("p", { class: "quiet", role: "status", text: "Opening the job …" }));
  await queue.open();
  await walk.open();
  tellState();
  if (!here.doc)
    fail(
      walk.missing
        ? "There is no such job here."
        : "This job was not opened on this phone before, and the server does not answer. Open it once with signal.",
    );
  await keepPage();
  await planned();
} catch (problem) {
  fail(`This browser keeps nothing (${messageOf(problem)}): leave the private window.`);
}
