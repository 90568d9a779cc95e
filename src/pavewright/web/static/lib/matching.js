// @ts-check
/** Which items of two lists are the same ones, and a list that stands as it is after each operation. Pure. */
import { keyOf, meeting, same, selectorOf, similar, withNth } from "./items.js";

/** @typedef {import("./items.js").Selector} Selector */

const LOOK_AHEAD = 8, // so many items are looked at for one that was changed
  OFTEN = 20; // so many questions are answered by looking through the list

/** A list as it stands after each operation, with how many items are known by the same. */
export class Standing {
  /** @param {string} name @param {any[]} items @param {string[]} elsewhere names that another list gives as well */
  constructor(name, items, elsewhere) {
    this.name = name;
    this.elsewhere = elsewhere;
    this.items = [...items];
    this.asked = 0;
    /** What each item is known by, once that was asked often. @type {string[]|null} */ this.keys = null;
    /** @type {Map<string, number>} */ this.counts = new Map();
  }

  /** @param {string} key @param {number} by */
  #count(key, by) {
    this.counts.set(key, (this.counts.get(key) ?? 0) + by);
  }

  /** How many items are known by the same as one, and how many of them stand before it. @param {number} place */
  #equals(place) {
    this.asked += 1;
    if (!this.keys && this.asked < OFTEN) {
      const all = meeting(this.name, this.items, selectorOf(this.name, this.items[place]));
      return { all: all.length, before: all.filter((each) => each < place).length };
    }
    if (!this.keys) {
      this.keys = this.items.map((item) => keyOf(this.name, item));
      for (const key of this.keys) this.#count(key, 1);
    }
    const { keys } = this,
      key = keys[place],
      all = this.counts.get(key) ?? 0;
    return { all, before: all > 1 ? keys.slice(0, place).filter((each) => each === key).length : 0 };
  }

  /** @param {number} place */
  nth(place) {
    return this.#equals(place).before;
  }

  /** What an operation says of an item beside others known by the same. @param {number} place */
  amongEquals(place) {
    const { all, before } = this.#equals(place),
      twice = this.elsewhere.includes(this.items[place]?.name);
    return twice || all > 1 ? withNth({ beside: true }, before) : {};
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
    this.items[place] = item;
    if (!this.keys) return;
    this.#count(this.keys[place], -1);
    this.keys[place] = keyOf(this.name, item);
    this.#count(this.keys[place], 1);
  }

  /** @param {number} place */
  remove(place) {
    if (this.keys) this.#count(this.keys.splice(place, 1)[0], -1);
    return this.items.splice(place, 1)[0];
  }

  /** @param {number} place @param {any} item */
  insert(place, item) {
    this.items.splice(place, 0, item);
    if (!this.keys) return;
    const key = keyOf(this.name, item);
    this.keys.splice(place, 0, key);
    this.#count(key, 1);
  }
}

/**
 * Places in the later list by those in the earlier one.
 * @param {string} name @param {any[]} before @param {any[]} after
 */
export function matched(name, before, after) {
  // what stands alike at both ends is not looked at more closely
  const most = Math.min(before.length, after.length);
  let first = 0,
    last = 0;
  while (first < most && same(before[first], after[first])) first += 1;
  while (last < most - first && same(before.at(-1 - last), after.at(-1 - last))) last += 1;
  /** @type {Map<number, number>} */ const found = new Map();
  for (let place = 0; place < first; place += 1) found.set(place, place);
  for (let back = last; back > 0; back -= 1) found.set(before.length - back, after.length - back);
  /** @type {Map<string, number[]>} */ const places = new Map();
  for (let index = before.length - last - 1; index >= first; index -= 1) {
    const key = keyOf(name, before[index]),
      equal = places.get(key);
    if (equal) equal.push(index);
    else places.set(key, [index]);
  }
  /** @type {number[]} */ const fresh = [];
  for (let place = first; place < after.length - last; place += 1) {
    const index = places.get(keyOf(name, after[place]))?.pop();
    if (index === undefined) fresh.push(place);
    else found.set(index, place);
  }
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
