// @ts-check
/** Which items of two lists are the same ones, and a list that stands as it is after each operation. Pure. */
import { keyOf, selectorOf, similar, withNth } from "./items.js";

/** @typedef {import("./items.js").Selector} Selector */

const LOOK_AHEAD = 8; // so many items are looked at for one that was changed

/** A list as it stands after each operation, with how many items are known by the same. */
export class Standing {
  /** @param {string} name @param {any[]} items @param {string[]} elsewhere names that another list gives as well */
  constructor(name, items, elsewhere) {
    this.name = name;
    this.elsewhere = elsewhere;
    this.items = [...items];
    this.keys = items.map((item) => keyOf(name, item));
    /** @type {Map<string, number>} */ this.counts = new Map();
    for (const key of this.keys) this.#count(key, 1);
  }

  /** @param {string} key @param {number} by */
  #count(key, by) {
    this.counts.set(key, (this.counts.get(key) ?? 0) + by);
  }

  /** @param {number} place */
  nth(place) {
    const key = this.keys[place];
    return (this.counts.get(key) ?? 0) > 1 ? this.keys.slice(0, place).filter((each) => each === key).length : 0;
  }

  /** What an operation says of an item beside others known by the same. @param {number} place */
  amongEquals(place) {
    const twice = this.elsewhere.includes(this.items[place]?.name);
    return twice || (this.counts.get(this.keys[place]) ?? 0) > 1 ? withNth({ beside: true }, this.nth(place)) : {};
  }

  /** @param {number} place @returns {Selector} */
  selector(place) {
    return withNth(selectorOf(this.name, this.items[place]), this.nth(place));
  }

  /** @param {number} place */
  before(place) {
    return place ? this.selector(place - 1) : null;
  }

  /** @param {number} place @param {any} item */
  put(place, item) {
    this.#count(this.keys[place], -1);
    this.items[place] = item;
    this.keys[place] = keyOf(this.name, item);
    this.#count(this.keys[place], 1);
  }

  /** @param {number} place */
  remove(place) {
    this.#count(this.keys.splice(place, 1)[0], -1);
    return this.items.splice(place, 1)[0];
  }

  /** @param {number} place @param {any} item */
  insert(place, item) {
    const key = keyOf(this.name, item);
    this.items.splice(place, 0, item);
    this.keys.splice(place, 0, key);
    this.#count(key, 1);
  }
}

/**
 * Places in the later list by those in the earlier one.
 * @param {string} name @param {any[]} before @param {any[]} after
 */
export function matched(name, before, after) {
  /** @type {Map<string, number[]>} */ const places = new Map();
  for (let index = before.length - 1; index >= 0; index -= 1) {
    const key = keyOf(name, before[index]);
    places.set(key, [...(places.get(key) ?? []), index]);
  }
  /** @type {Map<number, number>} */ const found = new Map();
  /** @type {number[]} */ const fresh = [];
  after.forEach((item, place) => {
    const index = places.get(keyOf(name, item))?.pop();
    if (index === undefined) fresh.push(place);
    else found.set(index, place);
  });
  const gone = [...before.keys()].filter((index) => !found.has(index));
  for (const place of fresh) {
    const ahead = gone.slice(0, LOOK_AHEAD).findIndex((index) => similar(before[index], after[place]));
    if (ahead >= 0) found.set(gone.splice(ahead, 1)[0], place);
  }
  return found;
}

/** The longest run of values that rise. @param {number[]} order @returns {Set<number>} */
export function staying(order) {
  /** @type {number[]} */ const ends = [],
    /** @type {number[]} */ upto = [];
  for (const value of order) {
    const at = ends.findIndex((each) => each >= value),
      rank = at < 0 ? ends.length : at;
    ends[rank] = value;
    upto.push(rank);
  }
  /** @type {Set<number>} */ const found = new Set();
  let rank = ends.length - 1;
  for (let place = order.length - 1; place >= 0; place -= 1)
    if (upto[place] === rank) {
      found.add(order[place]);
      rank -= 1;
    }
  return found;
}
