// @ts-check
/**
 * Items of the lists of a job document: what makes one known, and which fields name what stands elsewhere. The same as
 * the program has it; a test holds the two together. Pure.
 */

/** @typedef {any} Json */
/** @typedef {Record<string, any>} Selector what makes an item of a list known, with `nth` among equal ones */
/** @typedef {string|Selector} Step */

/**
 * Fields that make an item known, by its list; elsewhere it is its name, or the whole.
 * @type {Record<string, string[]>}
 */
export const KEYS = {
  tapes: ["start", "end", "length_mm"],
  sides: ["point", "line_from", "line_to"],
  square_corners: ["at", "first", "second"],
  points_on_lines: ["point", "line_from", "line_to"],
  benchmarks: ["point"],
  heights_over: ["point", "over", "higher_mm"],
  outline: ["point"],
  edges: ["corner"],
  materials: ["key"],
  plant: ["key"],
  catalogue: ["key"],
  labour: ["skill"],
  outputs: ["kind", "pattern"],
  weather: ["month"],
  tax_lines: ["group", "key"],
  changes: ["key"],
  walk_round: ["question"],
  holds: ["key"],
  pins: ["task"],
  done: ["task"],
  worked: ["task"],
  later_visits: ["date"],
  cover_keys: ["cover"],
  spares: ["unit"],
  read_again: ["label"],
  variations: ["number"],
  to_settle: ["number"],
  settled: ["number"],
  bills: ["number"],
  strings_set: ["peg"],
};
/** Lists that hold one item of each key: a second, other one is a clash. */
export const UNIQUE = [
  "sides",
  "benchmarks",
  "edges",
  "materials",
  "plant",
  "changes",
  "walk_round",
  "catalogue",
  "labour",
  "weather",
  "holds",
  "pins",
  "done",
  "worked",
  "cover_keys",
  "spares",
  "later_visits",
  "read_again",
  "variations",
  "to_settle",
  "settled",
  "bills",
  "strings_set",
];
/** Lists in which the same item twice says nothing more. */
export const ONCE = ["square_corners", "points_on_lines", "outline"];
/** Lists of plain values that merge one by one. */
export const SETS = ["ground_points", "days_off", "weekdays"];
/** What the items of a list are, where other parts call them by name. @type {Record<string, string>} */
export const KINDS = {
  points: "point",
  offsets: "point",
  sketch: "point",
  walls: "wall",
  outfalls: "outfall",
  gullies: "gully",
  areas: "area",
  units: "unit",
  curves: "curve",
  level_books: "book",
  photo_planes: "photo",
};
/** Lists that may not both place a point of one name. */
export const PLACES = ["points", "offsets"];
const POINT_FIELDS =
  "start end point over line_from line_to base_from base_to corner at first second level_at origin through centre " +
  "circle_at to points ground_points along beyond dpc_level_mm threshold_level_mm underside_level_mm level_mm " +
  "start_level_mm end_level_mm drop_point level_from";
/** Fields that name what stands elsewhere, and what that is. @type {Record<string, string>} */
export const REFERENCES = {
  ...Object.fromEntries(POINT_FIELDS.split(" ").map((field) => [field, "point"])),
  away_from: "wall",
  wall: "wall",
  gully: "gully",
  outfall: "outfall",
  unit: "unit",
  course_units: "unit",
  also_cut_from: "unit",
  units_in_pack: "unit",
  area: "area",
  upper_area: "area",
  lower_area: "area",
  curve: "curve",
  book: "book",
  by_photo: "photo",
};
/** Parts of the document in which no field names anything else. */
export const UNNAMED = ["identity", "calendar", "accepted", "variations", "settled", "bills", "received"];
const LONGEST = 60;

/** @param {Json} value @returns {value is Record<string, any>} */
export const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

/**
 * Whether two values are the same, whatever the order of their fields.
 * @param {Json} one @param {Json} other @returns {boolean}
 */
export function same(one, other) {
  if (one === other) return true;
  if (Array.isArray(one) && Array.isArray(other))
    return one.length === other.length && one.every((each, place) => same(each, other[place]));
  if (!isObject(one) || !isObject(other)) return false;
  const names = Object.keys(one);
  return (
    names.length === Object.keys(other).length &&
    names.every((name) => Object.hasOwn(other, name) && same(one[name], other[name]))
  );
}

/**
 * Whether two values mean the same in a job, where null is as good as a field left out.
 * @param {Json} one @param {Json} other
 */
export const alike = (one, other) => same(one ?? null, other ?? null);

/** A value as one text, the same for the same value. @param {Json} value @returns {string} */
export function known(value) {
  if (Array.isArray(value)) return `[${value.map(known).join()}]`;
  if (!isObject(value)) return JSON.stringify(value) ?? "null";
  const names = Object.keys(value).sort();
  return `{${names.map((name) => `${JSON.stringify(name)}:${known(value[name])}`).join()}}`;
}

/** Whether values are lists that merge item by item. @param {Step} name @param {Json[]} values */
export function isListOfItems(name, ...values) {
  if (typeof name !== "string" || !values.every(Array.isArray)) return false;
  const items = values.flat(1);
  if (SETS.includes(name)) return items.every((item) => typeof item !== "object" || item === null);
  return items.every(isObject) || items.every(Array.isArray);
}

/** What makes an item known. @param {string} name the list @param {Json} item @returns {Selector} */
export function selectorOf(name, item) {
  if (!isObject(item)) return { is: item };
  const fields = KEYS[name] ?? ["name"];
  if (!fields.every((field) => ["string", "number", "boolean"].includes(typeof item[field]))) return { is: item };
  return Object.fromEntries(fields.map((field) => [field, item[field]]));
}

/** @param {string} name @param {Json} item */
export const keyOf = (name, item) => known(selectorOf(name, item));

/**
 * Places of the items that are known by a selector.
 * @param {string} name @param {any[]} list @param {Selector} selector
 */
export function meeting(name, list, selector) {
  // item by item, without making a text of each
  const fields = Object.keys(selector).filter((field) => field !== "nth"),
    meets =
      "is" in selector
        ? (/** @type {any} */ item) => same(item, selector.is)
        : (/** @type {any} */ item) => fields.every((field) => same(item?.[field], selector[field]));
  const found = [];
  for (const [place, item] of list.entries()) if (meets(item)) found.push(place);
  const exact = found.filter((place) => same(Object.keys(selectorOf(name, list[place])).sort(), [...fields].sort()));
  return exact.length || "is" in selector ? exact : found;
}

/** @template {Record<string, any>} T @param {T} made @param {number|undefined} nth @returns {T} */
export const withNth = (made, nth) => (nth ? { ...made, nth } : made);

/** Whether an item is known by a name of its own. @param {string} name @param {Json} item */
export const isNamed = (name, item) => !(name in KEYS) && isObject(item) && typeof item.name === "string";

/** Whether two items are likely one that was changed. @param {Json} one @param {Json} other */
export function similar(one, other) {
  if (isObject(one) && isObject(other)) {
    const fields = [...new Set([...Object.keys(one), ...Object.keys(other)])],
      agree = fields.filter((field) => same(one[field], other[field])).length;
    return typeof one.name === "string" && typeof other.name === "string"
      ? 2 * agree >= fields.length - 1
      : 3 * agree >= fields.length;
  }
  if (!Array.isArray(one) || !Array.isArray(other)) return false;
  const agree = one.filter((each, place) => place < other.length && same(each, other[place])).length;
  return 3 * agree >= Math.max(one.length, other.length);
}

/** What the items of the list at a place are: a kind that others name, or the list itself. @param {Step[]} at */
export const kindOf = (at) => KINDS[String(at.at(-1))] ?? known(at);

/**
 * Names of the document by those of a sender: the key is of kind and name.
 * @typedef {Map<string, string>} Names
 */
/** @param {string} kind @param {string} name */
export const nameKey = (kind, name) => JSON.stringify([kind, name]);

/** An operation of a sender with the names of the document. @param {any} op @param {Names} names */
export function renamed(op, names) {
  if (!names.size || UNNAMED.includes(op.at[0])) return op;
  const at = /** @type {Step[]} */ ([]);
  for (const step of op.at) at.push(typeof step === "string" ? step : renamedItem(at, step, names));
  const made = { ...op, at };
  for (const part of ["was", "to"]) if (part in made) made[part] = valueAt(at, made[part], names);
  if ("item" in made) made.item = renamedItem(at, made.item, names);
  for (const part of ["after", "was_after"]) if (isObject(made[part])) made[part] = renamedItem(at, made[part], names);
  return made;
}

/** @param {Step[]} at @param {Json} value @param {Names} names */
function valueAt(at, value, names) {
  const last = at.at(-1);
  if (typeof last !== "string") return renamedItem(at.slice(0, -1), value, names);
  if (last === "name" && typeof at.at(-2) === "object" && typeof value === "string")
    return names.get(nameKey(kindOf(at.slice(0, -2)), value)) ?? value;
  return renamedValue(at, value, names);
}

/** @param {Step[]} at @param {Json} value @param {Names} names @returns {Json} */
function renamedValue(at, value, names) {
  const field = String(at.at(-1));
  if (typeof value === "string") return names.get(nameKey(REFERENCES[field] ?? "", value)) ?? value;
  if (Array.isArray(value)) return value.map((each) => renamedItem(at, each, names));
  if (!isObject(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, each]) => [name, renamedValue([...at, name], each, names)]),
  );
}

/** @param {Step[]} at the list @param {Json} item @param {Names} names @returns {Json} */
function renamedItem(at, item, names) {
  if (Array.isArray(item)) return item.map((each) => renamedItem(at, each, names));
  if (!isObject(item)) return renamedValue(at, item, names);
  if ("is" in item) return { ...item, is: renamedItem(at, item.is, names) };
  const made = Object.fromEntries(
    Object.entries(item).map(([name, each]) => [name, renamedValue([...at, name], each, names)]),
  );
  if (typeof item.name === "string") made.name = names.get(nameKey(kindOf(at), item.name)) ?? item.name;
  return made;
}

/** Names that a new thing may not have. @param {any} doc @param {Step[]} at its list @param {any[]} beside */
export function takenNames(doc, at, beside) {
  const kind = KINDS[String(at.at(-1))],
    found = new Set(beside.filter((item) => typeof item?.name === "string").map((item) => item.name));
  if (kind) gather(doc, kind, "", found);
  return found;
}

/** @param {Json} value @param {string} kind @param {string} field @param {Set<string>} found */
function gather(value, kind, field, found) {
  if (typeof value === "string" && REFERENCES[field] === kind) found.add(value);
  else if (Array.isArray(value))
    for (const each of value) {
      if (KINDS[field] === kind && typeof each?.name === "string") found.add(each.name);
      gather(each, kind, field, found);
    }
  else if (isObject(value))
    for (const [name, each] of Object.entries(value)) if (!UNNAMED.includes(name)) gather(each, kind, name, found);
}

/** A name like another one that nothing has. @param {string} name @param {Set<string>} taken */
export function freshName(name, taken) {
  const stem = [...name].slice(0, LONGEST - 5).join("");
  let number = 2;
  while (taken.has(`${stem} ${number}`)) number += 1;
  return `${stem} ${number}`;
}

/**
 * Names that the other list of places gives points already.
 * @param {string} name @param {any[]} owners @returns {string[]}
 */
export function namesElsewhere(name, ...owners) {
  if (!PLACES.includes(name)) return [];
  const lists = owners.flatMap((owner) => PLACES.filter((other) => other !== name).map((other) => owner[other] ?? []));
  return lists.flat().map((item) => item?.name);
}
