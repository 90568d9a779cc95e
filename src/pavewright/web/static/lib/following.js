// @ts-check
/** What was done by others since is followed: operations that wait name things as they are called now. Pure. */
import { isObject, kindOf, known, nameKey, renamed, same, selectorOf, withNth } from "./items.js";
import { selectorAfter } from "./operations.js";

/** @typedef {import("./operations.js").Operation} Operation */
/** @typedef {import("./items.js").Step} Step */
/** @typedef {import("./items.js").Selector} Selector */

/** @param {Selector} selector */
function plainly(selector) {
  const { nth: _, ...plain } = selector;
  return plain;
}

/** @param {Step[]} at @param {Selector} selector */
const place = (at, selector) => known([at, plainly(selector)]);

/**
 * Operations as they are to be done after others. The place of an item is that before these.
 * @param {Operation[]} ops @param {Operation[]} since what was done by others
 * @returns {Operation[]}
 */
export function followed(ops, since) {
  /** @type {Map<string, Selector>} */ const now = new Map(),
    /** @type {Map<string, Selector>} */ before = new Map(),
    /** @type {import("./items.js").Names} */ names = new Map();
  /** @param {Step[]} at @param {Map<string, Selector>} by */
  const along = (at, by) => {
    /** @type {Step[]} */ const view = [],
      found = [];
    for (const step of at) {
      if (typeof step === "string") {
        found.push(step);
        view.push(step);
        continue;
      }
      const other = by.get(place(view, step));
      found.push(withNth(other ?? plainly(step), step.nth));
      // lists are written by the steps before the changes of others
      view.push(plainly(by === before ? (other ?? step) : step));
    }
    return { found, view };
  };
  for (const op of since) {
    const index = typeof op.at.at(-1) === "object" ? op.at.length - 1 : op.at.length - 2,
      step = op.at[index];
    if (op.op !== "set" || !isObject(step)) continue;
    const then = selectorAfter(op, String(op.at[index - 1]), step);
    if (!then) continue;
    const { view } = along(op.at.slice(0, index + 1), before),
      list = view.slice(0, -1),
      own = /** @type {Selector} */ (view.at(-1));
    before.delete(place(list, step));
    now.set(place(list, own), plainly(then));
    before.set(place(list, then), own);
    if (typeof step.name === "string" && typeof then.name === "string")
      calls(names, kindOf(list), step.name, then.name);
  }
  if (!now.size) return ops;
  return ops.map((op) => {
    const { found, view } = along(op.at, now),
      made = { ...renamed(op, names), at: found },
      here = (/** @type {Selector} */ selector) => now.get(place(view, selector));
    for (const part of /** @type {const} */ (["after", "was_after"])) {
      const selector = op[part];
      if (op.op !== "set" && isObject(selector)) made[part] = withNth(here(selector) ?? selector, selector.nth);
    }
    if (op.op === "move") made.item = withNth(here(op.item) ?? op.item, op.item.nth);
    if (op.op === "remove") {
      made.item = op.item;
      const since = here(selectorOf(String(op.at.at(-1)), op.item));
      if (since) made.known_as = since;
    }
    // whoever renamed it may have left what names it as it was
    if (op.op === "set" && !same(made.was, op.was)) [made.was, made.was_now] = [op.was, made.was];
    return made;
  });
}

/** @param {import("./items.js").Names} names @param {string} kind @param {string} before @param {string} name */
function calls(names, kind, before, name) {
  const called = [...names].filter(([key, now]) => now === before && JSON.parse(key)[0] === kind).map(([key]) => key);
  for (const key of called.length ? called : [nameKey(kind, before)]) names.set(key, name);
}
