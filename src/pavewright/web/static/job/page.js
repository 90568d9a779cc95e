// @ts-check
/** The working screen of one job: stages of the trade, the plan, and what belongs to the stage. */
import { cut, messageOf } from "../lib/words.js";
import { el, find, say, tell } from "../lib/dom.js";
import { stageKeyOf, STAGES as LISTED } from "../lib/lists.js";
import { JOB_KEYS, listenForKeys } from "../lib/keys.js";
import { JobState, put } from "./job-state.js";
import { loadSchema } from "./form/schema.js";
import { typingWords } from "./form/typed.js";
import { findings } from "../lib/results.js";
import { askWhatDrains } from "./plan/drains-asked.js";
import { PlanEditor } from "./plan/edit.js";
import { LAYERS } from "./plan/layers.js";
import { Marks } from "./plan/marks.js";
import { printPlan } from "./plan/print.js";
import { chooseStep } from "./look/contours.js";
import { Overlay } from "./look/overlay.js";
import { faultBox, measured, nextLine, notYet, planned } from "./so-far.js";
import { tellClashes } from "./clashes.js";
import { draft, tellTrouble } from "./trouble.js";
import { Panes } from "./panes.js";
import { openFile } from "./stages/begin.js";
import { printsWhole } from "./printing.js";
import { Rail } from "./rail.js";
import { inPlace } from "./in-place.js";
import { together } from "./together.js";
import { listed, Tools } from "./tools.js";

/** Each stage with its part of the page, which is the file of its key. */
const STAGES = await Promise.all(LISTED.map(async (one) => ({ ...one, part: await import(`./stages/${one.key}.js`) })));

const id = location.pathname.split("/")[2];
const state = new JobState(id);
const panel = find("#panel"),
  rail = find("#rail"),
  title = find("#title"),
  saved = find("#saved"),
  trouble = find("#trouble");
askWhatDrains(state);
const panes = new Panes(),
  tools = new Tools(find("#tools")),
  stages = new Rail(rail, STAGES, go);
const editor = new PlanEditor(state, find("#plan"), find("#strip"));
const overlay = new Overlay(editor.view),
  marks = new Marks(editor.view, find("#plan"));
/** @type {ReturnType<typeof together>|null} */ let others = null;
/** Whether nothing but its revisions is shown of the job. */
let drafted = false;
let stage = STAGES.find((one) => one.key === location.hash.slice(1)) ?? STAGES[0];
const parts = {
  next: el("div", { role: "status" }),
  results: el("section", { "aria-label": "Results" }),
  findings: el("section", { "aria-label": "Findings" }),
  inputs: el("section", { "aria-label": "Inputs" }),
};

/** Opens a stage by its key. @param {string} key */
const openStage = (key) => go(STAGES.find((one) => one.key === key) ?? STAGES[0]);

/** Which stage a finding belongs to. @param {Finding} finding */
const stageOf = (finding) => STAGES.find((one) => one.key === stageKeyOf(finding)) ?? STAGES[0];

const drawRail = () => stages.draw(stage, state.plan?.findings ?? [], stageOf);

/**
 * Open a stage. Each that was opened is a step of the history, so that Back goes to the stage before.
 * @param {typeof STAGES[0]} to
 * @param {"new"|"same"} [step]
 */
function go(to, step = "new") {
  if (step === "new" && to !== stage) history.pushState(null, "", `#${to.key}`);
  else if (location.hash !== `#${to.key}`) history.replaceState(null, "", `#${to.key}`);
  stage = to;
  overlay.clear();
  drawRail();
  if (stage !== to) return; // one that is not for whoever looks led to another
  editor.show(stage.layers);
  drawLayerBox();
  panel.replaceChildren(
    el("h2", { text: stage.name }),
    el("p", { class: "quiet", text: stage.words }),
    parts.next,
    parts.results,
    parts.findings,
    parts.inputs,
  );
  drawInputs();
  drawResults();
  panel.scrollTop = 0;
  others?.moved();
}

/** What is open stays open when results come anew. */
function drawResults() {
  const open = new Set([...parts.results.querySelectorAll("details[open] > summary")].map((one) => one.textContent));
  const keep =
    state.plan &&
    stage.key === "papers" &&
    parts.results.childElementCount > 0 &&
    parts.results.dataset.stage === "papers";
  if (state.faults.length) parts.findings.replaceChildren(faultBox(state));
  if (!state.plan) {
    const words = state.faults.length ? "" : "working it out …";
    parts.results.replaceChildren(...(words ? [el("p", { class: "quiet", text: words })] : []));
    return;
  }
  parts.next.replaceChildren(...nextLine(state.plan, openStage));
  if (!keep && stage.key !== "paving-busy") {
    const searching =
      stage.key === "paving" && parts.results.dataset.stage === "paving"
        ? parts.results.querySelector(":scope > details:last-of-type")
        : null;
    overlay.clear();
    parts.results.replaceChildren(
      ...(planned(state, stage)
        ? stage.part.results(state, tell, { tryWay, overlay })
        : notYet(state.plan, stage, openStage)),
    );
    if (searching) parts.results.lastElementChild?.replaceWith(searching);
    parts.results.dataset.stage = stage.key;
    for (const one of parts.results.querySelectorAll("details"))
      if (open.has(one.querySelector("summary")?.textContent ?? "")) one.open = true;
  }
  const mine = state.plan.findings.filter((finding) => stageOf(finding) === stage);
  const told = mine.length
    ? [
        el("h3", { text: "Findings" }),
        findings(mine, { sources: state.sources, show: (at) => editor.view.centre(at), tryWay }),
      ]
    : [];
  parts.findings.replaceChildren(...(state.faults.length ? [faultBox(state)] : []), ...told);
}

/** @param {Finding} finding @param {number} index */
function tryWay(finding, index) {
  state.change(cut(`tried: ${finding.options[index].words}`, 190), (doc) => {
    for (const change of finding.options[index].changes)
      put(
        doc,
        change.path.split(".").map((/** @type {string} */ step) => (/^\d+$/.test(step) ? Number(step) : step)),
        change.value,
      );
  });
  tell("Tried. The plan follows.", { label: "Undo", act: () => state.undo() });
}

function drawInputs() {
  const made = stage.part.inputs(state);
  parts.inputs.replaceChildren(...(made.length ? [el("h3", { text: "Inputs" }), ...made] : []));
}

/** The address was changed, by hand or by Back and Forward. */
function follow() {
  const to = STAGES.find((one) => one.key === location.hash.slice(1));
  if (state.doc && !drafted && to && to !== stage) go(to, "same");
}

function drawLayerBox() {
  find("#layer-list").replaceChildren(
    ...Object.entries(LAYERS).map(([name, layer]) =>
      el(
        "label",
        {},
        el("input", {
          type: "checkbox",
          checked: editor.shown.has(name),
          on: {
            change: (/** @type {{target: HTMLInputElement}} */ event) => {
              const shown = new Set(editor.shown);
              if (event.target.checked) shown.add(name);
              else shown.delete(name);
              editor.show(shown);
            },
          },
        }),
        layer.name,
      ),
    ),
  );
}

const drawTools = () => tools.show(listed(state, editor, () => panes.reveal("plan")));

const SAVED = /** @type {Record<string, string>} */ ({
  saved: "✓ kept",
  waiting: "… keeping",
  unsent: "⚠ not saved, trying again",
  refused: "⚠ not saved",
});

function tellSaved() {
  say(saved, state.doc ? typingWords(state) || SAVED[state.saving] : "");
  say(title, state.doc?.identity?.title ?? "Job");
  title.title = title.textContent ?? "";
  document.title = `${title.textContent} – pavewright`;
  tellTrouble(trouble, state);
  tellClashes(find("#clashes"), state);
}

/** A job of which nothing can be shown: its fault and its revisions. @param {string} [more] */
function showDraft(more = "") {
  drafted = true;
  rail.replaceChildren();
  tools.clear();
  panel.replaceChildren(...draft(state, more, STAGES.find((one) => one.key === "papers")?.part.inputs(state) ?? []));
  for (const box of panel.querySelectorAll("details")) box.open = true;
  state.addEventListener("saved", () => {
    if (state.doc && state.saving === "saved") location.reload();
  });
}

state.addEventListener("document", () => {
  tellSaved();
  if (state.doc && !drafted) drawTools();
});
for (const name of ["saved", "typing"]) state.addEventListener(name, tellSaved);
state.addEventListener("plan", () => {
  if (drafted) return;
  marks.turn(state.plan?.survey.site.north_bearing_deg ?? null);
  drawRail();
  inPlace(panel, state, drawResults);
});
state.addEventListener("kept-back", (event) => {
  const { detail } = /** @type {CustomEvent} */ (event);
  tell(`Not all of it is undone: somebody else has changed it since. (${detail})`);
});
editor.addEventListener("tool", drawTools);
state.addEventListener("begin", (event) => {
  const way = /** @type {CustomEvent} */ (event).detail;
  if (way === "file") return openFile();
  panes.reveal("plan");
  editor.choose("area");
});
editor.view.addEventListener("place", () => chooseStep(editor.view));
document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || /** @type {any} */ (event.target).matches?.("input, textarea")) return;
  if (event.key.toLowerCase() === "z") {
    event.preventDefault();
    if (event.shiftKey) state.redo();
    else state.undo();
  }
  if (event.key.toLowerCase() === "y") {
    event.preventDefault();
    state.redo();
  }
});
find("#zoom-in").addEventListener("click", () => editor.view.zoom(1.3));
find("#zoom-out").addEventListener("click", () => editor.view.zoom(1 / 1.3));
find("#zoom-all").addEventListener("click", () => editor.fit());
find("#print").addEventListener("click", () =>
  measured(state) ? printPlan(state, () => editor.shown) : tell("There is no plan yet to print."),
);
find("#to-plan").addEventListener("click", (/** @type {Event} */ event) => {
  event.preventDefault(); // the address names the stage
  panes.reveal("plan");
  editor.view.node.focus();
});
find("#to-stage").addEventListener("click", (/** @type {Event} */ event) => {
  event.preventDefault();
  panes.reveal("panel");
  panel.focus();
});
printsWhole(editor);
listenForKeys(JOB_KEYS);
window.addEventListener("popstate", follow);
window.addEventListener("hashchange", follow);
editor.addEventListener("side", () => panes.reveal("panel"));
find("#site").setAttribute("href", `/jobs/${id}/site`);
window.addEventListener("beforeunload", (event) => {
  if (state.saving !== "saved") event.preventDefault();
});

try {
  await loadSchema();
  await Promise.all([state.open(), stages.known]);
  if (state.doc) others = together(state, panel, find("#others"), () => stage.key);
  if (state.doc)
    try {
      go(stage, "same");
    } catch (problem) {
      console.warn(problem);
      showDraft("The document lacks what every job has.");
    }
  else showDraft();
} catch (problem) {
  panel.replaceChildren(
    el("p", { role: "alert", text: messageOf(problem) }),
    el("a", { class: "button", href: "/", text: "All jobs" }),
  );
}
