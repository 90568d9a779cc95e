// @ts-check
/** The log of a day: what stands in it, what it says, and how it is written. Pure; the program says the same. */
import { areaAt } from "../reading.js";

/** @typedef {doc.SiteDay} Day */

/** Stages of a bay from the first to the last. @type {doc.WorkStage[]} */
export const STAGES = ["dug", "base", "bed", "laid", "jointed"];

const TRUSTED = 2; // standard deviations of how much is done
const ALL = 100;

/**
 * What a task will take in all if the rest goes like what is done.
 * @param {number} logged_h @param {number} done_percent @param {number} sd_percent
 */
export function expectedHours(logged_h, done_percent, sd_percent) {
  if (done_percent >= ALL) return { likely_h: logged_h, low_h: logged_h, high_h: logged_h };
  const off = TRUSTED * sd_percent,
    least = done_percent - off,
    most = Math.min(done_percent + off, ALL);
  return {
    likely_h: (logged_h * ALL) / done_percent,
    low_h: (logged_h * ALL) / most,
    high_h: least > 0 ? (logged_h * ALL) / least : Infinity,
  };
}

/** The logs in the order of their days. @param {JobDocument} doc @returns {Day[]} */
export const daysOf = (doc) =>
  [...(doc.site_days ?? [])].sort((one, other) => (one.date < other.date ? -1 : one.date > other.date ? 1 : 0));

/**
 * Hours on a task so far, and how much of it is done by what was said last; of two logs of one day the one that says
 * more holds.
 * @param {JobDocument} doc @param {string} task
 * @returns {{logged_h: number, done_percent: number|null}}
 */
export function taskSaid(doc, task) {
  let logged_h = 0,
    done = /** @type {number|null} */ (null),
    on = "";
  for (const day of daysOf(doc))
    for (const each of day.worked ?? []) {
      if (each.task !== task) continue;
      logged_h += each.person_h;
      if (typeof each.done_percent !== "number") continue;
      done = on === day.date ? Math.max(each.done_percent, done ?? 0) : each.done_percent;
      on = day.date;
    }
  return { logged_h, done_percent: done };
}

/**
 * How far each bay is: what was logged last, of two logs of one day the one that is farther.
 * @param {JobDocument} doc @param {SiteView} view
 * @returns {{area: string, number: number, outline: number[][], stage: doc.WorkStage|null, on: string|null}[]}
 */
export function baysSeen(doc, view) {
  /** @type {Map<string, {on: string, stage: number}>} */ const said = new Map();
  for (const day of daysOf(doc))
    for (const bay of day.bays ?? []) {
      const number = bayAt(view, bay.area, [bay.x_mm, bay.y_mm]);
      if (number < 0) continue;
      const key = `${bay.area}\u0000${number}`,
        before = said.get(key),
        stage = STAGES.indexOf(bay.stage);
      said.set(key, { on: day.date, stage: before?.on === day.date ? Math.max(stage, before.stage) : stage });
    }
  return (view.levels?.areas ?? []).flatMap((area) =>
    area.surface.facets.map((facet, number) => {
      const found = said.get(`${area.area}\u0000${number}`);
      return {
        area: area.area,
        number: number + 1,
        outline: facet.outline,
        stage: found ? STAGES[found.stage] : null,
        on: found?.on ?? null,
      };
    }),
  );
}

/**
 * Which bay of an area lies at a place, from 0; -1 where there is no such area.
 * @param {SiteView} view @param {string} name @param {number[]} at
 */
export function bayAt(view, name, at) {
  const area = (view.levels?.areas ?? []).find((one) => one.area === name);
  if (!area) return -1;
  let best = 0,
    off = Infinity;
  area.surface.facets.forEach((facet, number) => {
    const away = areaAt(/** @type {any} */ ({ levels: { areas: [{ area: name, surface: { facets: [facet] } }] } }), at);
    if (away.off_mm < off) [best, off] = [number, away.off_mm];
  });
  return best;
}

/**
 * The log that this phone writes of a day, made where there is none.
 * @param {JobDocument} draft @param {string} name @param {string} date
 * @returns {Day}
 */
export function mine(draft, name, date) {
  draft.site_days ??= [];
  let found = draft.site_days.find((one) => one.name === name);
  if (!found) {
    found = { name, date };
    draft.site_days = [...draft.site_days, found];
  }
  return found;
}

/**
 * Book hours on a task, on top of those of the same log.
 * @param {Day} day @param {string} task @param {number} person_h
 */
export function book(day, task, person_h) {
  day.worked ??= [];
  const found = day.worked.find((one) => one.task === task);
  if (found) found.person_h = Math.round((found.person_h + person_h) * ALL) / ALL;
  else day.worked = [...day.worked, { task, person_h }];
}

/**
 * Say how much of a task is done, in the log and in the programme: what is left of it is planned from the next day.
 * @param {JobDocument} draft @param {Day} day @param {string} task @param {number} percent
 */
export function done(draft, day, task, percent) {
  const found = day.worked?.find((one) => one.task === task);
  if (found) found.done_percent = percent;
  const shown = (draft.done ?? []).find((one) => one.task === task);
  if (shown) {
    shown.since ??= shown.on;
    shown.on = day.date;
    shown.done_percent = percent;
  } else {
    const began = daysOf(draft).find((one) => one.worked?.some((each) => each.task === task))?.date ?? day.date;
    draft.done = [...(draft.done ?? []), { task, on: day.date, since: began, done_percent: percent }];
  }
}

/** Who was named in the log so far, those named most first. @param {JobDocument} doc */
export function peopleOf(doc) {
  /** @type {Map<string, number>} */ const often = new Map();
  for (const day of doc.site_days ?? [])
    for (const one of day.present ?? []) often.set(one.name, (often.get(one.name) ?? 0) + 1);
  return [...often].sort((one, other) => other[1] - one[1]).map(([name]) => name);
}
