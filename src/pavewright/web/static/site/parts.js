// @ts-check
/** Pieces that every panel on site is made of. */
import { ask, el } from "../lib/dom.js";
import { pad } from "./pad.js";

/**
 * @typedef {{
 *   job: string, doc: JobDocument, base: {document: JobDocument, rev: number}|null, view: SiteView|null,
 *   queue: import("./queue.js").Queue|import("./sheet-queue.js").SheetQueue, ui: any,
 *   remember: () => void, redraw: () => void, say: (words: string) => void,
 *   panels: import("./panels.js").Panel[], open: (key: string, spot?: any) => void
 * }} Here
 * @typedef {Here & {queue: import("./queue.js").Queue}} PageHere on the page, not on a sheet by itself
 */

/**
 * A picker with big lines.
 * @param {string} label
 * @param {string[]} names
 * @param {string} value
 * @param {(name: string) => void} act
 * @param {{spoken?: (name: string) => string, none?: string, fresh?: string}} [wishes]
 */
export function picker(label, names, value, act, wishes = {}) {
  const box = el("select", { class: "tall", "aria-label": label });
  if (!value) box.append(el("option", { value: "", text: wishes.none ?? "choose" }));
  for (const name of names) box.append(el("option", { value: name, text: wishes.spoken?.(name) ?? name }));
  if (value && !names.includes(value)) box.append(el("option", { value, text: value }));
  if (wishes.fresh) box.append(el("option", { value: "\u0000", text: wishes.fresh }));
  box.value = value;
  box.addEventListener("change", async () => {
    if (box.value !== "\u0000") return act(box.value);
    const name = await askName();
    if (name) act(name);
    else box.value = value;
  });
  return el("label", { class: "field" }, el("span", { class: "name", text: label }), box);
}

/** Ask for the name of a new point. */
async function askName() {
  const input = el("input", {
    type: "text",
    maxlength: "60",
    autocomplete: "off",
    "aria-label": "Name of the new point",
  });
  const way = await ask(
    "A new point",
    [el("p", { text: "Its name as on the sketch, such as Post 1." }), input],
    [
      { label: "Take it", value: "yes", main: true },
      { label: "Back", value: "no" },
    ],
  );
  return way === "yes" ? input.value.trim() : "";
}

/**
 * One of a few words, as big buttons.
 * @param {string} label
 * @param {[string, string][]} choices
 * @param {string} value
 * @param {(value: string) => void} act
 */
export function words(label, choices, value, act) {
  return el(
    "div",
    { class: choices.length === 2 ? "words pair" : "words", role: "group", "aria-label": label },
    ...choices.map(([key, face]) =>
      el("button", {
        type: "button",
        "aria-pressed": String(key === value),
        text: face,
        on: { click: () => act(key) },
      }),
    ),
  );
}

/**
 * One of a few things, in one line.
 * @param {string} label
 * @param {[string, string][]} choices
 * @param {string} value
 * @param {(value: string) => void} act
 */
export function tabs(label, choices, value, act) {
  return el(
    "div",
    { class: "row-tabs", role: "group", "aria-label": label },
    ...choices.map(([key, face]) =>
      el("button", {
        type: "button",
        "aria-pressed": String(key === value),
        text: face,
        on: { click: () => act(key) },
      }),
    ),
  );
}

/**
 * Where one is: so many of so many, and what is next.
 * @param {number} done
 * @param {number} count
 * @param {string} what
 * @param {string} next
 */
export const glance = (done, count, what, next) =>
  el(
    "p",
    { class: "glance", role: "status" },
    el("b", { text: `${done} of ${count} ${what}` }),
    next ? `; next: ${next}` : done >= count ? "; all done" : "",
  );

/**
 * Taking the last reading back.
 * @param {Here} here
 * @param {(one: any) => boolean} mine
 * @param {(entry: any) => string} [spoken] a reading in words; a change has its note
 */
export function undoLine(here, mine, spoken = () => "") {
  const last = here.queue.list.filter((one) => !one.undone && !one.of && one.kind !== "take_back" && mine(one)).at(-1);
  if (!last) return el("span");
  const state = /** @type {Record<string, string>} */ ({
    sent: "✓ sent",
    waiting: "… kept here",
    held: "… goes with the next reading",
    refused: "✕ refused",
  })[last.state];
  return el(
    "div",
    { class: "last" },
    el(
      "span",
      { class: "fill" },
      el("b", { text: last.kind === "operations" ? (last.note ?? "") : spoken(last.entries.at(-1)) }),
      el("span", { class: "quiet", text: ` ${state}` }),
    ),
    el("button", {
      type: "button",
      text: "↶ Take back",
      on: {
        click: async () => {
          const told = await here.queue
            .undo(mine)
            .catch(() => "This phone could not take that back: its memory is full or closed.");
          if (told) here.say(told);
        },
      },
    }),
  );
}

/**
 * Keep a reading and say so when it is on the disk; say what is wrong where it could not be kept.
 * @param {Here} here
 * @param {string} kind
 * @param {any} entry
 */
export async function keep(here, kind, entry) {
  try {
    await here.queue.add(kind, entry);
    navigator.vibrate?.(30);
    return true;
  } catch {
    here.say("This phone could not keep the reading: its memory is full or closed. Write it on paper.");
    return false;
  }
}

/** @param {Here} here @param {any} changes */
export function set(here, changes) {
  Object.assign(here.ui, changes);
  here.remember();
  here.redraw();
}

/**
 * @param {Here} here
 * @param {string} label
 * @param {string} face
 * @param {(value_mm: number) => void} onKeep
 * @param {boolean} [can]
 * @param {() => void} [typing]
 * @param {import("../lib/lengths.js").LengthKind|null} [kind] what is measured: it decides what is asked
 */
export const padFor = (here, label, face, onKeep, can = true, typing = () => {}, kind = null) =>
  pad({
    kind,
    typed: here.ui.typed ?? "",
    label,
    keep: face,
    can,
    onType: (typed) => {
      here.ui.typed = typed;
      here.remember();
      typing();
    },
    onKeep,
  });
