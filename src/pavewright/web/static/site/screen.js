// @ts-check
/**
 * The frame that the page on site and the site sheet share: a start of big buttons, tabs under the thumb, a panel, and
 * the same spot after a reload.
 */
import { el, find, tell } from "../lib/dom.js";
import { PANELS } from "./panels.js";
import { START, start } from "./start.js";
import { tabsInUse } from "./tabs-in-use.js";

const SPOT = { tab: START, what: "tape", checking: "pegs" },
  IN_USE = 3; // tabs between the start and what is unsent

/** What one was doing, kept at every key. @param {string} key */
export function remembered(key) {
  try {
    return { ...SPOT, ...JSON.parse(localStorage.getItem(key) ?? "{}") };
  } catch {
    return { ...SPOT };
  }
}

/**
 * @param {any} here what panels work on; gets `panels`, `open`, `redraw`, `remember` and `say`
 * @param {string} key
 * @param {"page"|"sheet"} on
 */
export function screen(here, key, on) {
  const panels = PANELS.filter((one) => one.on === "both" || one.on === on),
    last = /** @type {import("./panels.js").Panel} */ (panels.at(-1)),
    movable = panels.slice(0, -1),
    panel = find("#panel"),
    bar = find("#tabs");
  here.panels = panels;
  here.ui = remembered(key);
  const known = (/** @type {any} */ keys) => (Array.isArray(keys) ? keys.filter((one) => movable.some(is(one))) : []);
  here.ui.tabs = [...new Set([...known(here.ui.tabs), ...FIRST.filter((one) => movable.some(is(one)))])];
  here.ui.tabs.length = Math.min(here.ui.tabs.length, IN_USE);
  here.ui.lately = known(here.ui.lately);
  const asked = location.hash.slice(1); // an address may name the panel that it opens
  if (asked === START || panels.some(is(asked))) here.ui.tab = asked;
  here.say = (/** @type {string} */ words) => tell(words);
  here.remember = () => {
    try {
      localStorage.setItem(key, JSON.stringify(here.ui));
    } catch {
      /* the spot is lost, no reading is */
    }
  };
  here.open = (/** @type {string} */ to, /** @type {any} */ spot = {}) => {
    Object.assign(here.ui, spot, { tab: to });
    if (movable.some(is(to))) {
      here.ui.tabs = tabsInUse(here.ui.tabs, here.ui.lately, to);
      here.ui.lately = [to, ...here.ui.lately.filter((/** @type {string} */ one) => one !== to)];
    }
    here.remember();
    here.redraw();
    panel.scrollTop = 0;
  };
  window.addEventListener("hashchange", () => {
    const to = location.hash.slice(1);
    if (here.doc && (to === START || panels.some(is(to)))) here.open(to);
  });
  const pressed = underFinger(() => here.redraw());
  here.redraw = () => {
    if (pressed() || !here.doc) return; // nothing is drawn of a job that is not opened yet
    const had = spot(document.activeElement),
      typed = typedIn(document.activeElement),
      open = new Set([...panel.querySelectorAll("details[open] > summary")].map((one) => one.textContent));
    const now = panels.find(is(here.ui.tab)) ?? null;
    const tab = (/** @type {string} */ to, /** @type {string} */ face) =>
      el("button", {
        type: "button",
        "aria-current": to === (now?.key ?? START) ? "page" : null,
        text: face,
        on: { click: () => here.open(to) },
      });
    bar.replaceChildren(
      tab(START, "Start"),
      ...here.ui.tabs.map((/** @type {string} */ to) => tab(to, panels.find(is(to))?.face ?? to)),
      tab(last.key, last.counted?.(here) ?? last.face),
    );
    panel.dataset.panel = now?.key ?? START;
    panel.replaceChildren(...(now ? now.draw(here) : start(here)));
    for (const one of panel.querySelectorAll("details"))
      if (open.has(one.querySelector("summary")?.textContent ?? "")) one.open = true;
    if (!had) return;
    /** @type {any} */ const again = [
      ...document.querySelectorAll("#panel button, #panel input, #panel select, #panel textarea, #tabs button"),
    ].find((one) => spot(one) === had);
    again?.focus({ preventScroll: true });
    if (!again || !typed) return;
    again.value = typed.value;
    again.dataset.typed = "1";
    again.setSelectionRange(typed.start, typed.end);
  };
  return here;
}

/**
 * A button that is drawn anew between the press and the lift of a finger loses the touch: drawing waits for the lift.
 * @param {() => void} draw
 * @returns {() => boolean} whether a finger is down; drawing follows by itself then
 */
function underFinger(draw) {
  let down = false,
    due = false;
  /** @type {ReturnType<typeof setTimeout>|undefined} */ let lift;
  const lifted = () => {
    down = false;
    if (due) draw();
  };
  const soon = (/** @type {number} */ ms) => {
    clearTimeout(lift);
    lift = setTimeout(lifted, ms);
  };
  document.addEventListener("pointerdown", () => {
    down = true;
    soon(LONGEST_PRESS_MS);
  });
  for (const name of ["pointerup", "pointercancel"]) document.addEventListener(name, () => soon(CLICK_COMES_MS));
  document.addEventListener("click", () => (down = false), true); // what a button does is drawn at once
  return () => (due = down);
}

const LONGEST_PRESS_MS = 3000,
  CLICK_COMES_MS = 60; // after the lift

/** Tabs of a phone that has used none. */
const FIRST = ["measure", "check", "photos", "plan"];

/** @param {string} key */
const is = (key) => (/** @type {{key: string}} */ one) => one.key === key;

/** What is typed into a line and not kept yet. @param {any} node */
const typedIn = (node) =>
  node?.dataset?.typed ? { value: node.value, start: node.selectionStart, end: node.selectionEnd } : null;

/** What an element is, so that the same one is found after drawing anew. @param {Element|null} node */
const spot = (node) =>
  node && node !== document.body ? `${node.tagName} ${node.getAttribute("aria-label") ?? node.textContent}` : "";
