// @ts-check
/** A job document while operations are applied to it: the rules by which those of several people merge. */
import {
  ONCE,
  PLACES,
  SETS,
  UNIQUE,
  alike,
  freshName,
  isListOfItems,
  isNamed,
  isObject,
  kindOf,
  meeting,
  nameKey,
  renamed,
  same,
  selectorOf,
  takenNames,
} from "./items.js";

/** @typedef {import("./items.js").Step} Step */
/** @typedef {import("./items.js").Selector} Selector */
/** @typedef {import("./operations.js").Operation} Operation */
/** @typedef {import("./operations.js").Clash} Clash */

export class Work {
  /** @param {any} doc which may be changed */
  constructor(doc) {
    this.doc = doc;
    /** @type {Clash[]} */ this.clashes = [];
    /** What is called otherwise here than its sender calls it. @type {import("./items.js").Names} */
    this.names = new Map();
    /** Names that a new thing may not have, by what it is. @type {Map<string, Set<string>>} */ this.taken = new Map();
  }

  /** @param {Operation} op */
  do(op) {
    this.#one(renamed(op, this.names));
  }

  /** @param {Operation} op */
  #one(op) {
    if (op.op === "set") this.#set(op);
    else if (op.op === "add") this.#add(op);
    else if (op.op === "remove") this.#remove(op);
    else this.#move(op);
  }

  /** @param {Clash["kind"]} kind @param {Operation} op @param {any} [ours] */
  #clash(kind, op, ours) {
    const theirs = op.op === "set" ? op.to : op.op === "remove" ? undefined : op.item;
    this.clashes.push({
      kind,
      operation: op,
      ...(ours === undefined ? {} : { ours: structuredClone(ours) }),
      ...(theirs === undefined ? {} : { theirs }),
    });
  }

  /** What stands at a place. @param {Step[]} at @param {boolean} [make] whether fields on the way are made */
  #at(at, make = false) {
    let here = this.doc;
    for (const [number, step] of at.entries()) {
      if (typeof step === "string") {
        if (!isObject(here)) return undefined;
        if (here[step] === undefined || here[step] === null) {
          if (!make || !at.slice(number).every((each) => typeof each === "string")) return undefined;
          here[step] = {};
        }
        here = here[step];
      } else {
        const place = Array.isArray(here) ? find(String(at[number - 1]), here, step) : -1;
        if (place < 0) return undefined;
        here = here[place];
      }
    }
    return here;
  }

  /** @param {Step[]} at @returns {any[]|null} */
  #list(at) {
    const found = this.#at(at);
    return Array.isArray(found) ? found : null;
  }

  /** @param {Operation} op */
  #set(op) {
    const { at, was, to } = op,
      last = at.at(-1);
    if (typeof last !== "string") return this.#setItem(op);
    const owner = this.#at(at.slice(0, -1), to !== undefined);
    if (!isObject(owner)) return to === undefined ? undefined : this.#clash("gone", op);
    const current = owner[last];
    if (alike(current, was) || (op.was_now !== undefined && alike(current, op.was_now))) {
      if (to === undefined) delete owner[last];
      else owner[last] = structuredClone(last === "name" && !op.beside ? this.#nameFor(at, owner, to) : to);
    } else if (!alike(current, to)) {
      // two people began the same thing at once: its parts merge
      const empty = was === undefined || was === null || same(was, []) || same(was, {});
      if (empty && isObject(current) && isObject(to))
        for (const [name, each] of Object.entries(to)) this.#one({ op: "set", at: [...at, name], to: each });
      else if (empty && isListOfItems(last, current, to)) for (const item of to) this.#one({ op: "add", at, item });
      else this.#clash("value", op, current);
    }
  }

  /**
   * The new name of a thing; a fresh one where another was given the same.
   * @param {Step[]} at @param {any} owner @param {any} to
   */
  #nameFor(at, owner, to) {
    const list = at.length > 1 && typeof at.at(-2) === "object" ? this.#list(at.slice(0, -2)) : null,
      name = String(at.at(-3));
    if (!list || typeof to !== "string" || !isNamed(name, owner)) return to;
    return list.some((item) => item !== owner && isNamed(name, item) && item.name === to)
      ? this.#fresh(at.slice(0, -2), to, list)
      : to;
  }

  /** @param {Operation} op */
  #setItem(op) {
    const list = this.#list(op.at.slice(0, -1)),
      name = String(op.at.at(-2)),
      place = list ? find(name, list, /** @type {Selector} */ (op.at.at(-1))) : -1;
    if (!list || place < 0) {
      if (!list?.some((item) => same(item, op.to))) this.#clash("gone", op);
    } else if (!same(list[place], op.was)) this.#clash("value", op, list[place]);
    else list[place] = structuredClone(op.to);
  }

  /** @param {Operation} op */
  #add(op) {
    const { at, after } = op,
      name = String(at.at(-1)),
      owner = this.#at(at.slice(0, -1), true);
    if (!isObject(owner)) return this.#clash("gone", op);
    owner[name] ??= [];
    const list = owner[name];
    if (!Array.isArray(list)) return this.#clash("value", op, list);
    const item = op.beside ? op.item : this.#meeting(op, list);
    if (item === undefined) return;
    const before = after ? find(name, list, after) : -1,
      place = after === null ? 0 : before < 0 ? list.length : before + 1;
    list.splice(place, 0, structuredClone(item));
    if (isNamed(name, item)) this.taken.get(kindOf(at))?.add(item.name);
  }

  /**
   * An item as it is added beside those known by the same; undefined where it is not.
   * @param {Operation} op @param {any[]} list
   */
  #meeting({ at, item, ...op }, list) {
    const name = String(at.at(-1)),
      named = isNamed(name, item),
      equal = likeIn(name, list, item).map((place) => list[place]);
    if (equal.length && (named || [...UNIQUE, ...ONCE, ...SETS].includes(name))) {
      if (equal.some((each) => same(each, item))) return undefined;
      if (UNIQUE.includes(name)) return this.#clash("taken", { ...op, at, item }, equal[0]);
    }
    const elsewhere = () =>
      at.length > 1 &&
      PLACES.includes(name) &&
      PLACES.some(
        (other) => other !== name && this.#list([...at.slice(0, -1), other])?.some((each) => each.name === item.name),
      );
    return named && (equal.length || elsewhere()) ? { ...item, name: this.#fresh(at, item.name, list) } : item;
  }

  /** @param {Step[]} at the list @param {string} name @param {any[]} list */
  #fresh(at, name, list) {
    const kind = kindOf(at),
      taken = this.taken.get(kind) ?? takenNames(this.doc, at, list),
      made = freshName(name, taken);
    this.taken.set(kind, taken.add(made));
    this.names.set(nameKey(kind, name), made);
    return made;
  }

  /** @param {Operation} op */
  #remove(op) {
    const list = this.#list(op.at),
      name = String(op.at.at(-1)),
      equal = list ? meeting(name, list, op.known_as ?? selectorOf(name, op.item)) : [],
      meant = equal[op.nth ?? 0];
    if (!list || meant === undefined) return;
    const place = [meant, ...equal].find((each) => same(list[each], op.item));
    if (place === undefined) this.#clash("changed", op, list[meant]);
    else list.splice(place, 1);
  }

  /** @param {Operation} op */
  #move(op) {
    const list = this.#list(op.at),
      name = String(op.at.at(-1)),
      place = list ? find(name, list, op.item) : -1;
    if (!list || place < 0) return;
    const [item] = list.splice(place, 1),
      before = op.after ? find(name, list, op.after) : -1;
    list.splice(!op.after ? 0 : before < 0 ? place : before + 1, 0, item);
  }
}

/**
 * Places of the items that are known by the same as an item.
 * @param {string} name @param {any[]} list @param {any} item
 */
const likeIn = (name, list, item) => meeting(name, list, selectorOf(name, item));

/**
 * The place of the item that a selector means, -1 where there is none.
 * @param {string} name @param {any[]} list @param {Selector} selector
 */
function find(name, list, selector) {
  const found = meeting(name, list, selector);
  return found[selector.nth ?? 0] ?? found.at(-1) ?? -1;
}
