// @ts-check
/**
 * Changes of a job document as small operations, which are stored, sent, merged and undone as such.
 *
 * `between` makes them, `applied` applies them by rule to a document that may have changed since, `inverse` undoes
 * them. Where two people's operations truly clash the value in the document stays and both are handed back. The program
 * has the same rules (pavewright.job.operations). Pure: what is given stays as it is.
 */
import { isListOfItems, isObject, namesElsewhere, same, selectorOf, withNth } from "./items.js";
import { Standing, matched, staying } from "./matching.js";
import { Work } from "./operations-work.js";

/** @typedef {import("./items.js").Step} Step */
/** @typedef {import("./items.js").Selector} Selector */
/**
 * @typedef {{op: "set"|"add"|"remove"|"move", at: Step[], was?: any, to?: any, item?: any, after?: Selector|null,
 *   was_after?: Selector|null, nth?: number, then?: Selector, beside?: boolean, was_beside?: boolean,
 *   known_as?: Selector, was_now?: any}} Operation
 * @typedef {{kind: "value"|"gone"|"changed"|"taken", operation: Operation, ours?: any, theirs?: any}} Clash
 *   ours is what stands in the document, theirs what was sent
 */

/** The operations that make one document of another. @param {any} before @param {any} after @returns {Operation[]} */
export function between(before, after) {
  /** @type {Operation[]} */ const found = [];
  ofFields(found, [], before, after);
  return found;
}

/**
 * A document with operations in it, and those that could not be done.
 * @param {any} doc @param {Operation[]} ops @returns {{doc: any, clashes: Clash[]}}
 */
export function applied(doc, ops) {
  const work = new Work(structuredClone(doc));
  for (const op of ops) work.do(op);
  return { doc: work.doc, clashes: work.clashes };
}

/** The operations that undo others. @param {Operation[]} ops @returns {Operation[]} */
export const inverse = (ops) => ops.map(inverseOf).reverse();

/** @param {Operation[]} found @param {Step[]} at @param {any} before @param {any} after */
function ofFields(found, at, before, after) {
  for (const name of new Set([...Object.keys(before), ...Object.keys(after)]))
    if (Array.isArray(before[name]) && isListOfItems(name, before[name], after[name]))
      ofList(found, [...at, name], before[name], after[name], namesElsewhere(name, before, after));
    else ofValue(found, [...at, name], before[name], after[name]);
}

/** @param {Operation[]} found @param {Step[]} at @param {any} was @param {any} to */
function ofValue(found, at, was, to) {
  if (same(was, to)) return;
  if (isObject(was) && isObject(to)) ofFields(found, at, was, to);
  else if (isListOfItems(/** @type {Step} */ (at.at(-1)), was, to)) ofList(found, at, was, to, []);
  else found.push(setting(at, was, to));
}

/** @param {Step[]} at @param {any} was @param {any} to @returns {Operation} */
const setting = (at, was, to) => ({
  op: "set",
  at,
  ...(was === undefined ? {} : { was }),
  ...(to === undefined ? {} : { to }),
});

/**
 * @param {Operation[]} found
 * @param {Step[]} at @param {any[]} before @param {any[]} after @param {string[]} elsewhere
 */
function ofList(found, at, before, after, elsewhere) {
  if (same(before, after)) return;
  const name = String(at.at(-1)),
    standing = new Standing(name, before, elsewhere),
    placeOf = matched(name, before, after);
  for (let index = before.length - 1; index >= 0; index -= 1) {
    if (placeOf.has(index)) continue;
    /** @type {Operation} */ const made = { op: "remove", at, item: before[index], ...standing.amongEquals(index) },
      last = index === standing.items.length - 1;
    standing.remove(index);
    found.push(last ? made : { ...made, after: standing.before(index) });
  }
  const order = [...placeOf.keys()].sort((one, other) => one - other).map((index) => Number(placeOf.get(index)));
  order.forEach((goal, place) => ofItem(found, at, standing, place, after[goal]));
  const taken = new Set(order),
    last = Math.max(-1, ...order);
  moves(found, at, standing, order);
  after.forEach((item, place) => {
    if (taken.has(place)) return;
    const where = place < last ? { after: standing.before(place) } : {};
    standing.insert(place, item);
    found.push({ op: "add", at, item, ...where, ...standing.amongEquals(place) });
  });
}

/** @param {Operation[]} found @param {Step[]} at @param {Standing} standing @param {number} place @param {any} after */
function ofItem(found, at, standing, place, after) {
  const item = standing.items[place];
  if (same(item, after)) return;
  if (!isObject(item)) return one(found, [...at, standing.selector(place)], standing, place, [item, after, after]);
  /** @type {string[]} */ const within = [];
  for (const field of new Set([...Object.keys(item), ...Object.keys(after)])) {
    if (same(item[field], after[field])) continue;
    const present = standing.items[place],
      { [field]: _, ...changed } = present;
    if (after[field] !== undefined) changed[field] = after[field];
    const selector = selectorOf(standing.name, present);
    if (!("is" in selector) && same(selector, selectorOf(standing.name, changed))) within.push(field);
    else one(found, [...at, standing.selector(place), field], standing, place, [item[field], after[field], changed]);
  }
  const present = standing.items[place];
  for (const field of within) ofValue(found, [...at, standing.selector(place), field], present[field], after[field]);
  standing.put(place, after);
}

/**
 * One change after which the item is known by something else.
 * @param {Operation[]} found @param {Step[]} at @param {Standing} standing @param {number} place
 * @param {[any, any, any]} values was, to, and the item with it
 */
function one(found, at, standing, place, [was, to, changed]) {
  const made = setting(at, was, to),
    selector = selectorOf(standing.name, standing.items[place]);
  if ("beside" in standing.amongEquals(place)) made.was_beside = true;
  standing.put(place, changed);
  const then = selectorOf(standing.name, changed);
  if (!("is" in selector) && !same(Object.keys(then).sort(), Object.keys(selector).sort())) made.then = then;
  found.push({ ...made, ...standing.amongEquals(place) });
}

/** @param {Operation[]} found @param {Step[]} at @param {Standing} standing @param {number[]} order */
function moves(found, at, standing, order) {
  const goals = [...order].sort((one, other) => one - other);
  if (same(goals, order)) return;
  const stay = staying(order);
  goals.forEach((goal, rank) => {
    if (stay.has(goal)) return;
    const place = order.indexOf(goal);
    /** @type {Operation} */ const made = {
      op: "move",
      at,
      item: standing.selector(place),
      was_after: standing.before(place),
    };
    const item = standing.remove(place);
    order.splice(place, 1);
    const to = rank === 0 ? 0 : order.indexOf(goals[rank - 1]) + 1;
    made.after = standing.before(to);
    standing.insert(to, item);
    order.splice(to, 0, goal);
    found.push(withNth(made, standing.nth(to)));
  });
}

/** @param {Operation} op @returns {Operation} */
function inverseOf(op) {
  if (op.op === "add") return { ...op, op: "remove" };
  if (op.op === "remove") return { ...op, op: "add" };
  if (op.op === "move") {
    const { nth, ...plain } = op.item,
      made = { op: op.op, at: op.at, item: withNth(plain, op.nth), after: op.was_after, was_after: op.after };
    return withNth(made, nth);
  }
  const at = [...op.at],
    place = typeof at.at(-1) === "object" ? at.length - 1 : at.length - 2,
    step = at[place];
  let nth;
  if (isObject(step)) {
    const then = selectorAfter(op, String(at[place - 1]), step);
    if (then) {
      nth = step.nth;
      at[place] = withNth(then, op.nth);
    }
  }
  const made = setting(at, op.to, op.was);
  if (op.was_beside) made.beside = true;
  if (op.beside) made.was_beside = true;
  return withNth(made, nth);
}

/**
 * What makes an item known after one of its fields was set.
 * @param {Operation} op @param {string} name @param {Selector} step
 */
export function selectorAfter(op, name, step) {
  const field = op.at.at(-1);
  if (op.then) return op.then;
  if (typeof field !== "string") return selectorOf(name, op.to);
  if ("is" in step) {
    const { [field]: _, ...changed } = step.is;
    return selectorOf(name, op.to === undefined ? changed : { ...changed, [field]: op.to });
  }
  return field in step ? { ...step, [field]: op.to } : null;
}
