// @ts-check
/**
 * What is typed into boxes and not taken yet: it is kept in this browser until the box takes it or gives it up, so that
 * neither a reload nor another stage loses it. While there is any, the job is not shown as kept.
 */
import { at } from "../job-state.js";

/**
 * What is typed and where: the thing of a list that it belongs to, and how many the list has.
 * @typedef {{path: (string|number)[], text: string, of: string, count: number}} Held
 */

/** @type {WeakMap<EventTarget, TypedTexts>} */ const ALL = new WeakMap();

/** The typed texts of a job on the screen. @param {JobState} state @returns {TypedTexts} */
export function typedOf(state) {
  let found = ALL.get(state);
  if (!found) ALL.set(state, (found = new TypedTexts(state)));
  return found;
}

/** What stands instead of "kept" while a box holds what is not taken; empty where none does. @param {JobState} state */
export function typingWords(state) {
  return state.saving === "saved" && typedOf(state).size ? "✎ typed, not taken yet" : "";
}

class TypedTexts {
  /** @param {JobState} state */
  constructor(state) {
    this.state = state;
    this.place = `pavewright.typed.${state.id}`;
    /** @type {Map<string, Held>} */ this.held = new Map(read(this.place).map((one) => [one.path.join("."), one]));
    state.addEventListener("document", () => this.#follow());
  }

  get size() {
    return this.held.size;
  }

  /** The places whose texts wait. */
  get paths() {
    return [...this.held.values()].map((one) => one.path);
  }

  /** The first place whose text waits; empty where none does. @returns {string} */
  get first() {
    return this.held.keys().next().value ?? "";
  }

  /** @param {(string|number)[]} path */
  get(path) {
    const held = this.held.get(path.join("."));
    // another one may stand in its place since: then it is not about this one
    return held && held.of === thingAt(this.state.doc, path).of ? held.text : null;
  }

  /** @param {(string|number)[]} path @param {string} text */
  set(path, text) {
    this.held.set(path.join("."), { path, text, ...thingAt(this.state.doc, path) });
    this.#keep();
  }

  /** @param {(string|number)[]} path */
  delete(path) {
    if (this.held.delete(path.join("."))) this.#keep();
  }

  /** A text stays with its thing: where one before it comes or goes it moves along, and it goes with it. */
  #follow() {
    const { doc } = this.state;
    if (!doc || !this.held.size) return;
    const before = [...this.held.values()];
    this.held = new Map();
    for (const held of before) {
      const now = thingAt(doc, held.path),
        path = now.count === held.count ? held.path : moved(doc, held);
      if (path) this.held.set(path.join("."), { ...held, path, ...thingAt(doc, path) });
    }
    this.#keep();
  }

  #keep() {
    try {
      if (this.held.size) localStorage.setItem(this.place, JSON.stringify([...this.held.values()]));
      else localStorage.removeItem(this.place);
    } catch {
      /* no room in this browser: the text stays in its box as long as the page does */
    }
    this.state.dispatchEvent(new Event("typing"));
  }
}

/** @param {string} place @returns {Held[]} */
function read(place) {
  try {
    const found = JSON.parse(localStorage.getItem(place) ?? "[]");
    return Array.isArray(found) ? found.filter((one) => typeof one?.text === "string" && Array.isArray(one.path)) : [];
  } catch {
    return [];
  }
}

/** Where the last list of a path is entered. @param {(string|number)[]} path */
const entry = (path) => path.findLastIndex((step) => typeof step === "number");

/** The thing of a list that a field belongs to, without the field. @param {any} doc @param {(string|number)[]} path */
function thingAt(doc, path) {
  const number = entry(path);
  if (number < 0) return { of: "", count: 0 };
  const thing = at(doc, path.slice(0, number + 1)),
    rest = thing && typeof thing === "object" ? { ...thing } : thing;
  if (rest && typeof rest === "object") delete rest[path[number + 1]];
  return { of: JSON.stringify(rest ?? null), count: at(doc, path.slice(0, number))?.length ?? 0 };
}

/** Where the thing of a text is now. @param {any} doc @param {Held} held @returns {(string|number)[]|null} */
function moved(doc, held) {
  const number = entry(held.path),
    list = at(doc, held.path.slice(0, number)) ?? [];
  for (let index = 0; index < list.length; index += 1) {
    const path = held.path.with(number, index);
    if (thingAt(doc, path).of === held.of) return path;
  }
  return null;
}
