// @ts-check
/**
 * Readings on site: what is next, what follows at once, and how they wait to be sent. Nothing here touches the page.
 */
import { outsideBy, surfaceLevel } from "../lib/kernel.js";
import { inverse } from "../lib/operations.js";
import { cut } from "../lib/words.js";

/**
 * @typedef {{
 *   seq?: number, id: string, job: string, kind: string, entries: any[], date: string,
 *   state: "held"|"waiting"|"sent"|"refused", tried: number, message?: string, rev?: number, undone?: boolean,
 *   of?: string, image?: Blob, place?: number[]|null, note?: string, base?: number, from?: string
 * }} Waiting base is the revision of the job that was seen when it was made, from the name of this phone
 */

// ---- waiting

/**
 * What is kept when a reading is taken: a new delivery, or a held backsight together with the reading that follows it.
 * @param {Waiting[]} records @param {string} kind @param {any} entry @param {() => Waiting} fresh
 * @returns {Waiting}
 */
export function withReading(records, kind, entry, fresh) {
  if (kind === "operations")
    return { ...fresh(), kind, entries: entry.operations, note: cut(entry.note, 200), state: "waiting" };
  if (kind === "staff") {
    if (entry.sight !== "next") return { ...fresh(), kind, entries: [entry], state: "held" };
    const held = records.find((one) => one.state === "held" && one.entries[0]?.book === entry.book);
    if (held) return { ...held, entries: [...held.entries, entry], state: "waiting" };
  }
  return { ...fresh(), kind, entries: [entry], state: "waiting" };
}

/**
 * What is kept and what is dropped when the last reading is taken back. What the server may have already is taken back
 * there.
 * @param {Waiting[]} records @param {(one: Waiting) => boolean} mine @param {() => Waiting} fresh
 * @returns {{put: Waiting[], drop: Waiting[], words: string}}
 */
export function withoutLast(records, mine, fresh) {
  const last = records.filter((one) => !one.undone && !one.of && one.kind !== "take_back" && mine(one)).at(-1);
  if (!last) return { put: [], drop: [], words: "" };
  const entry = last.entries.at(-1),
    changed = last.kind === "operations",
    both = last.entries.length > 1 && !changed;
  if (last.state === "held" || last.state === "refused") return { put: [], drop: [last], words: "Taken back." };
  if (last.state === "waiting" && last.tried === 0) {
    if (!both) return { put: [], drop: [last], words: "Taken back." };
    return { put: [{ ...last, entries: last.entries.slice(0, -1), state: "held" }], drop: [], words: "Taken back." };
  }
  const back = {
    ...fresh(),
    ...(changed
      ? { kind: last.kind, entries: inverse(last.entries), note: cut(`Taken back: ${last.note ?? ""}`, 200) }
      : { kind: "take_back", entries: [{ of: last.kind, entry }] }),
    state: /** @type {const} */ ("waiting"),
    of: last.id,
  };
  return {
    put: [{ ...last, undone: true }, back],
    drop: [],
    words: both ? "Taken back, with the backsight before it: read that one again too." : "Taken back.",
  };
}

/** Deliveries as a server takes them. @param {Waiting} one */
export const delivery = (one) => ({
  id: one.id,
  kind: one.kind,
  entries: one.entries,
  date: one.date,
  ...(one.base ? { rev: one.base, from: one.from } : {}),
  ...(one.kind === "operations" ? { note: cut(one.note ?? "", 200) } : {}),
});

/** Those that stand: neither taken back nor refused. @param {Waiting[]} records @param {string} kind */
export const standing = (records, kind) =>
  records.filter((one) => one.kind === kind && !one.undone && one.state !== "refused").flatMap((one) => one.entries);

/** How many are not on the server yet. @param {Waiting[]} records */
export const unsent = (records) => records.filter((one) => one.state !== "sent").length;

// ---- levels

/** Points of known level. @param {JobDocument} doc @param {SiteView|null} view @returns {Map<string, number>} */
export function knownLevels(doc, view) {
  const found = new Map();
  for (const point of view?.survey?.points ?? []) if (point.level_mm !== null) found.set(point.name, point.level_mm);
  for (const point of doc.measurements?.points ?? [])
    if (point.level_mm !== undefined && point.level_mm !== null) found.set(point.name, point.level_mm);
  for (const mark of doc.measurements?.benchmarks ?? []) found.set(mark.point, mark.level_mm);
  return found;
}

/**
 * Levels that are not read but given: what a book closes on, beside the point on which it began.
 * @param {JobDocument} doc
 * @param {Map<string, number>} known
 * @param {string} start
 */
export function closingLevels(doc, known, start) {
  const fixed = knownLevels(doc, null),
    level = known.get(start);
  if (level !== undefined) fixed.set(start, level);
  return fixed;
}

/** Points that can begin a book, benchmarks first. @param {JobDocument} doc @param {SiteView|null} view */
export function datums(doc, view) {
  const first = (doc.measurements?.benchmarks ?? []).map((mark) => mark.point);
  const given = (doc.measurements?.points ?? [])
    .filter((point) => typeof point.level_mm === "number")
    .map((point) => point.name);
  const levelled = (view?.survey?.points ?? [])
    .filter((point) => point.level_mm !== null && point.levelled_by)
    .map((point) => point.name);
  return [...new Set([...first, ...given, ...levelled])];
}

/** Drains and covers. @param {JobDocument} doc */
const standingOn = (doc) => [...(doc.site?.gullies ?? []), ...(doc.site?.covers ?? [])];

/**
 * Points that need a level, in the order of the site: drains and covers, corners, the ground.
 * @param {JobDocument} doc
 */
export function staffPoints(doc) {
  const names = [];
  for (const one of standingOn(doc)) names.push(one.point);
  for (const area of doc.areas ?? []) for (const corner of area.outline ?? []) names.push(corner.point);
  names.push(...(doc.measurements?.ground_points ?? []));
  return [...new Set(names.filter(Boolean))];
}

/** What stands at a point, in words. @param {JobDocument} doc @param {string} point */
export function spokenPoint(doc, point) {
  const here = standingOn(doc).find((one) => one.point === point && one.name !== point);
  if (here) return `${here.name} (${point})`;
  return point;
}

/** @param {JobDocument} doc */
export function pointNames(doc) {
  const m = doc.measurements ?? {},
    names = new Set(),
    plan = m.tape_plan;
  for (const point of m.points ?? []) names.add(point.name);
  for (const point of m.offsets ?? []) names.add(point.name);
  for (const tape of plan?.tapes ?? []) {
    names.add(tape.start);
    names.add(tape.end);
  }
  for (const mark of m.benchmarks ?? []) names.add(mark.point);
  return [...names];
}

// ---- tapes

/** @param {string} a @param {string} b */
const pair = (a, b) => [a, b].sort().join("\u0000");

/**
 * Tapes that a plan wants: sides, then diagonals from both ends of the base line.
 * @param {JobDocument} doc
 * @param {any[]} taken
 */
export function tapesWanted(doc, taken) {
  const plan = doc.measurements?.tape_plan,
    wanted = new Map(),
    done = new Set();
  const want = (/** @type {string} */ a, /** @type {string} */ b) => {
    if (a && b && a !== b && !wanted.has(pair(a, b))) wanted.set(pair(a, b), [a, b]);
  };
  for (const area of doc.areas ?? [])
    area.outline?.forEach((corner, index) => want(corner.point, area.outline[(index + 1) % area.outline.length].point));
  const first = doc.areas?.[0]?.outline ?? [],
    base = plan ? [plan.base_from, plan.base_to] : [first[0]?.point, first[1]?.point];
  for (const area of doc.areas ?? [])
    for (const corner of area.outline ?? []) for (const end of base) want(end, corner.point);
  for (const tape of [...(plan?.tapes ?? []), ...taken]) done.add(pair(tape.start, tape.end));
  const left = [...wanted.entries()].filter(([key]) => !done.has(key)).map(([, ends]) => ends);
  return { count: wanted.size, done: wanted.size - left.length, left };
}

/**
 * The line on which a new point needs its side told; null where it is known.
 * @param {JobDocument} doc
 * @param {any[]} taken
 * @param {string[]} ends
 */
export function sideWanted(doc, taken, ends) {
  const plan = doc.measurements?.tape_plan,
    base = plan ? [plan.base_from, plan.base_to] : taken.length ? [taken[0].start, taken[0].end] : null;
  if (!base) return null;
  const placed = new Set([
    ...base,
    ...(doc.measurements?.points ?? []).map((one) => one.name),
    ...(doc.measurements?.offsets ?? []).map((one) => one.name),
    ...(plan?.sides ?? []).map((one) => one.point),
    ...taken.map((one) => one.side?.point),
  ]);
  const point = ends.find((name) => name && !placed.has(name));
  return point ? { point, line_from: base[0], line_to: base[1] } : null;
}

// ---- as laid

/**
 * The level that is planned at a place; null where no such area is.
 * @param {SiteView} view
 * @param {string} area
 * @param {number[]} at
 */
export function plannedAt(view, area, at) {
  const found = areasOf(view).find((one) => one.area === area);
  return found ? surfaceLevel(found.surface, at) : null;
}

/** @param {SiteView} view @returns {plan.FinishedArea[]} */
const areasOf = (view) => view?.levels?.areas ?? [];

/**
 * The area at a place, with how far the place lies off it; null where there is none.
 * @param {SiteView} view
 * @param {number[]} at
 */
export function areaAt(view, at) {
  let area = /** @type {string|null} */ (null),
    off_mm = Infinity;
  for (const one of areasOf(view))
    for (const facet of one.surface.facets) {
      const off = outsideBy(facet.outline, at);
      if (off < off_mm) [area, off_mm] = [one.area, off];
    }
  return { area, off_mm };
}

/** Grid places that have no reading yet. @param {SiteView} view @param {any[]} taken */
export function gridLeft(view, taken) {
  const near = (/** @type {plan.GridPlace} */ place) =>
    taken.some((one) => one.area === place.area && Math.hypot(one.x_mm - place.at[0], one.y_mm - place.at[1]) < 150);
  return (view?.grid ?? []).filter((place) => !near(place));
}
