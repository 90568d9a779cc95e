// @ts-check
/** The frame of the walk: the row of steps, one question at a time, what it is answered with, and the way back. */
import { el, find, tell } from "../lib/dom.js";

/**
 * @typedef {"open"|"done"|"none"|"not seen"|"later"} State
 * @typedef {{
 *   pick?: (at: number[], near: Near|null) => void, taker?: (event: PointerEvent, at: [number, number]) => boolean,
 *   point?: string, line?: [string, string]|null, marks?: {at: number[], words: string}[], hint?: string,
 *   hand?: SVGElement[], still?: boolean, wide?: boolean}} SketchWish
 * @typedef {{kind: "point"|"side", name: string, along_mm?: number}} Near
 * @typedef {{
 *   key: string, name: string, why: string, question?: string, answers?: ("none"|"could_not_see")[],
 *   state: (here: Walk) => State, draw: (here: Walk) => Node[], sketch?: (here: Walk) => SketchWish,
 *   leave?: (here: Walk) => void, foot?: (here: Walk) => Node[]|null
 * }} Step
 * @typedef {{
 *   job: string, doc: any, ui: any, shared: any, step: Step, places: import("./places.js").Places,
 *   levels: Map<string, number>, walk: import("./job.js").WalkJob, queue: import("../site/queue.js").Queue,
 *   change: (label: string, act: (draft: any) => void) => Promise<boolean>,
 *   answer: (answer: "none"|"could_not_see"|"value", value?: string) => Promise<boolean>,
 *   answered: (key: string) => any, stateOf: (step: Step) => State,
 *   set: (changes: any) => void, remember: () => void, redraw: () => void, say: (words: string) => void,
 *   next: () => void, go: (key: string) => void, view: any, sources: any, sheet: import("../job/plan/view.js").PlanView
 * }} Walk
 */

/** What a state is called, with a sign that needs no colour. */
const SIGNS = /** @type {Record<State, [string, string]>} */ ({
  open: ["○", "open"],
  done: ["✓", "done"],
  none: ["–", "none here"],
  "not seen": ["?", "could not see"],
  later: ["◷", "later"],
});

const MANY = 3; // keys of a step's own that leave no room for another: the row of steps leads on

/** @param {string} key */
function remembered(key) {
  try {
    return { steps: {}, later: {}, shared: {}, ...JSON.parse(localStorage.getItem(key) ?? "{}") };
  } catch {
    return { steps: {}, later: {}, shared: {} };
  }
}

/**
 * @param {any} here gets what steps work with
 * @param {Step[]} steps
 * @param {(wish: SketchWish) => void} show draws the sketch
 * @param {() => void} drawn what follows each drawing
 */
export function frame(here, steps, show, drawn) {
  const key = `pavewright.walk.${here.job}`,
    kept = remembered(key),
    panel = find("#panel"),
    row = find("#steps"),
    foot = find("#foot");
  const byKey = (/** @type {string} */ name) => steps.find((one) => one.key === name) ?? steps[0];
  const use = (/** @type {Step} */ step) => {
    here.step = step;
    here.ui = kept.steps[step.key] ??= {};
    kept.at = step.key;
    here.remember();
  };
  here.shared = kept.shared;
  here.say = (/** @type {string} */ words) => tell(words);
  here.remember = () => {
    try {
      localStorage.setItem(key, JSON.stringify(kept));
    } catch {
      /* the spot is lost, no reading is */
    }
  };
  here.set = (/** @type {any} */ changes) => {
    Object.assign(here.ui, changes);
    here.remember();
    here.redraw();
  };
  here.answered = (/** @type {string} */ topic) =>
    (here.doc.site?.walk_round ?? []).find((/** @type {any} */ one) => one.topic === topic);
  here.stateOf = (/** @type {Step} */ step) => {
    const said = step.state(here);
    if (said !== "open") return said;
    const answer = here.answered(step.key)?.answer;
    if (answer) return answer === "none" ? "none" : answer === "could_not_see" ? "not seen" : "done";
    return kept.later[step.key] ? "later" : "open";
  };
  here.answer = (/** @type {string} */ answer, value = "") =>
    here.change(`${here.step.name}: ${value || answer.replaceAll("_", " ")}`, (/** @type {any} */ draft) => {
      const entry = { topic: here.step.key, question: here.step.question ?? here.step.why, answer, value };
      const list = ((draft.site ??= {}).walk_round ??= []),
        at = list.findIndex((/** @type {any} */ one) => one.topic === entry.topic);
      if (at < 0) list.push(entry);
      else list[at] = entry;
    });
  here.go = (/** @type {string} */ name, how = "push") => {
    here.step.leave?.(here);
    use(byKey(name));
    if (how === "push") history.pushState({ step: name }, "", `#${name}`);
    here.redraw();
    panel.scrollTop = 0;
    panel.focus({ preventScroll: true });
  };
  here.next = () => {
    const after = steps.slice(steps.indexOf(here.step) + 1),
      to = after.find((step) => step.state(here) !== "none") ?? after[0];
    if (to) here.go(to.key);
  };
  here.redraw = () => {
    if (!here.doc) return;
    const had = spot(document.activeElement);
    row.replaceChildren(...steps.map((step) => stepButton(here, step)));
    const now = row.querySelector("[aria-current]");
    if (now && row.dataset.at !== here.step.key) {
      row.dataset.at = here.step.key;
      now.scrollIntoView({ inline: "center", block: "nearest" });
    }
    show(here.step.sketch?.(here) ?? {});
    panel.replaceChildren(...here.step.draw(here));
    panel.scrollTop = 0;
    foot.replaceChildren(...footOf(here, steps, kept));
    refocus(had);
    if (matchMedia("(pointer: fine)").matches) toPad(panel);
    drawn();
    panel.dataset.drawn = String(Number(panel.dataset.drawn ?? 0) + 1);
  };
  const began = location.hash.slice(1) || kept.at || steps[0].key;
  use(byKey(began));
  history.replaceState({ step: here.step.key }, "", `#${here.step.key}`);
  window.addEventListener("popstate", (event) => here.go(event.state?.step ?? location.hash.slice(1), "back"));
}

/** @param {Walk} here @param {Step} step */
function stepButton(here, step) {
  const state = here.stateOf(step),
    [sign, words] = SIGNS[state];
  return el(
    "button",
    {
      type: "button",
      "aria-current": step === here.step ? "step" : null,
      "aria-label": `${step.name}: ${words}`,
      data: { state: state.replace(" ", "-") },
      on: { click: () => step !== here.step && here.go(step.key) },
    },
    el("span", { class: "sign", "aria-hidden": "true", text: sign }),
    step.name,
  );
}

/** @param {Walk} here @param {Step[]} steps @param {any} kept */
function footOf(here, steps, kept) {
  const { step } = here,
    at = steps.indexOf(step),
    state = here.stateOf(step),
    allowed = step.answers ?? ["none", "could_not_see"];
  const button = (/** @type {string} */ text, /** @type {() => void} */ click, more = {}) =>
    el("button", { type: "button", text, on: { click }, ...more });
  const answer = async (/** @type {"none"|"could_not_see"} */ kind) => {
    if (await here.answer(kind)) here.next();
  };
  const later = () => {
    kept.later[step.key] = true;
    here.remember();
    here.next();
  };
  const extra = step.foot?.(here) ?? [],
    last = at + 1 >= steps.length,
    done = state !== "open" && state !== "later";
  return [
    button("◂", () => here.go(steps[at - 1].key), { disabled: at === 0, "aria-label": "Step before" }),
    ...extra,
    ...(allowed.includes("none") && step.state(here) === "open" ? [button("None here", () => answer("none"))] : []),
    ...(allowed.includes("could_not_see") && step.state(here) === "open"
      ? [button("Could not see", () => answer("could_not_see"))]
      : []),
    ...(done || last || extra.length > MANY ? [] : [button("Later", later)]),
    ...(done && !last ? [button("Done ▸", here.next, { class: "main fill" })] : []),
  ];
}

/** What an element is, so that the same one is found after drawing anew. @param {Element|null} node */
const spot = (node) =>
  node && node !== document.body ? `${node.tagName} ${node.getAttribute("aria-label") ?? node.textContent}` : "";

/** With a mouse there is a keyboard: the number is typed at once. @param {HTMLElement} panel */
function toPad(panel) {
  const now = document.activeElement;
  if (now && now !== document.body && now !== panel && !now.closest(".pad")) return;
  /** @type {any} */ (panel.querySelector(".pad-shown"))?.focus({ preventScroll: true });
}

/** @param {string} had */
function refocus(had) {
  if (!had) return;
  const now = [...document.querySelectorAll("button, input, select, textarea")].find((one) => spot(one) === had);
  /** @type {any} */ (now)?.focus({ preventScroll: true });
}
