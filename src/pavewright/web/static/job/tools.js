// @ts-check
/**
 * The tools over the plan: one stop for Tab, arrow keys go from one to the next. What has no room stands in the menu at
 * the end, so that every tool can be reached at every width.
 */
import { el, say } from "../lib/dom.js";
import { told } from "../lib/writing.js";
import { THINGS } from "./plan/document.js";

/**
 * @typedef {{
 *   key: string, words: string, act: () => void, pressed?: boolean, off?: boolean, title?: string, keys?: string
 * }} Tool
 */

/**
 * Let arrow keys go along buttons of which one is a stop for Tab.
 * @param {HTMLElement} node
 * @param {() => HTMLElement[]} all
 */
export function roving(node, all) {
  node.addEventListener("keydown", (event) => {
    const list = all(),
      here = list.indexOf(/** @type {HTMLElement} */ (document.activeElement));
    if (here < 0 || event.ctrlKey || event.metaKey || event.altKey) return;
    const to = {
      ArrowRight: here + 1,
      ArrowDown: here + 1,
      ArrowLeft: here - 1,
      ArrowUp: here - 1,
      Home: 0,
      End: list.length - 1,
    }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    const next = list[(to + list.length) % list.length];
    oneStop(list, next);
    next.focus();
  });
  node.addEventListener("focusin", (event) => {
    const list = all();
    if (list.includes(/** @type {HTMLElement} */ (event.target)))
      oneStop(list, /** @type {HTMLElement} */ (event.target));
  });
}

/** @param {HTMLElement[]} list @param {HTMLElement|undefined} stop */
export function oneStop(list, stop) {
  for (const one of list) one.tabIndex = one === stop ? 0 : -1;
}

export class Tools {
  /** @param {HTMLElement} node */
  constructor(node) {
    this.node = node;
    /** @type {HTMLButtonElement[]} */ this.buttons = [];
    /** @type {Tool[]} */ this.tools = [];
    this.list = el("div", { class: "menu-list" });
    this.head = el("summary", { class: "button", text: "More ▾" });
    this.menu = el("details", { class: "tool-menu" }, this.head, this.list);
    roving(node, () => this.#stops());
    this.width = 0;
    new ResizeObserver(() => {
      if (node.clientWidth !== this.width || this.rows !== this.#rows()) this.fit();
    }).observe(node);
  }

  /** Those that can be reached now, in order. */
  #stops() {
    const shown = this.buttons.filter((one) => one.parentElement === this.node && !one.disabled),
      more = this.buttons.filter((one) => one.parentElement === this.list && !one.disabled);
    return [...shown, ...(more.length ? [this.head] : []), ...(this.menu.open ? more : [])];
  }

  #rows() {
    return Number(getComputedStyle(this.node).getPropertyValue("--tool-rows")) || 1;
  }

  /** @param {Tool[]} tools */
  show(tools) {
    const same = tools.length === this.tools.length && tools.every((one, index) => one.key === this.tools[index].key);
    this.tools = tools;
    if (!same)
      this.buttons = tools.map((tool) =>
        el("button", {
          type: "button",
          "aria-keyshortcuts": tool.keys,
          data: { tool: tool.key },
          on: {
            click: () => {
              this.menu.open = false;
              this.tools.find((one) => one.key === tool.key)?.act();
            },
          },
        }),
      );
    this.buttons.forEach((button, index) => {
      const tool = tools[index];
      const words = told(tool.words);
      if (button.textContent !== words) button.textContent = words;
      button.title = told(tool.title ?? "");
      button.disabled = tool.off ?? false;
      if (tool.pressed !== undefined) button.setAttribute("aria-pressed", String(tool.pressed));
    });
    if (!same) this.fit();
    this.#tell();
  }

  clear() {
    this.buttons = [];
    this.tools = [];
    this.node.replaceChildren();
  }

  /** The menu says which of its tools is picked; Tab stops at one place. */
  #tell() {
    const picked = this.buttons.find((one) => one.parentElement === this.list && one.ariaPressed === "true");
    say(this.head, picked ? `${picked.textContent} ▾` : "More ▾");
    this.head.classList.toggle("main", Boolean(picked));
    const stops = this.#stops();
    for (const one of [...this.buttons, this.head]) if (!stops.includes(one)) one.tabIndex = -1;
    oneStop(stops, stops.find((one) => one.tabIndex === 0) ?? stops[0]);
  }

  /** Put into the menu what has no room in the rows. */
  fit() {
    if (!this.buttons.length) return;
    const had = /** @type {HTMLElement|null} */ (document.activeElement),
      held = this.node.contains(had);
    this.width = this.node.clientWidth;
    this.rows = this.#rows();
    this.list.replaceChildren();
    this.node.replaceChildren(...this.buttons, this.menu);
    const first = this.buttons[0].offsetTop,
      limit = first + (this.rows - 1) * (this.buttons[0].offsetHeight + 2) + this.buttons[0].offsetHeight / 2;
    this.menu.hidden = this.buttons.every((one) => one.offsetTop < limit);
    if (!this.menu.hidden)
      for (let index = this.buttons.length - 1; index > 0 && this.menu.offsetTop >= limit; index -= 1)
        this.list.prepend(this.buttons[index]);
    if (held) had?.focus({ preventScroll: true });
    this.#tell();
  }
}

/**
 * The tools of the plan as they stand now.
 * @param {JobState} state
 * @param {import("./plan/edit.js").PlanEditor} editor
 * @param {() => void} reveal brings the plan into sight
 * @returns {Tool[]}
 */
export function listed(state, editor, reveal) {
  const things = [
    ["move", "Move"],
    ["area", "+ Area"],
    ["hole", "+ Hole"],
    ["wall", "+ Wall"],
    ["door", "+ Door"],
    ...Object.entries(THINGS)
      .filter(([key]) => key !== "wall")
      .map(([key, thing]) => [key, `+ ${thing.words}`]),
  ];
  return [
    {
      key: "undo",
      words: "↶ Undo",
      keys: "Control+Z",
      off: state.past.length === 0,
      title: state.past.at(-1)?.label ?? "",
      act: () => state.undo(),
    },
    { key: "redo", words: "↷ Redo", keys: "Control+Y", off: state.future.length === 0, act: () => state.redo() },
    ...things.map(([key, words]) => ({
      key,
      words,
      pressed: editor.tool === key,
      act: () => {
        reveal();
        editor.choose(editor.tool === key ? "move" : key);
      },
    })),
  ];
}
