// @ts-check
/** Days as the calendar counts them: text such as 2027-05-10, no clock and no zone. */
import { tag } from "../lib/writing.js";

/** @param {string} day */
const utc = (day) => new Date(`${day}T00:00:00Z`);

/** @param {string} day @param {number} count */
export function later(day, count) {
  const found = utc(day);
  found.setUTCDate(found.getUTCDate() + count);
  return found.toISOString().slice(0, 10);
}

/** Day of the week, Monday 0. @param {string} day */
export const weekday = (day) => (utc(day).getUTCDay() + 6) % 7;

/** @param {string} day */
export const mondayOf = (day) => later(day, -weekday(day));

/** The day from Monday to Friday that is so many of them before another. @param {string} day @param {number} count */
export function workdaysBefore(day, count) {
  let found = day;
  for (let left = count; left > 0; left -= weekday(found) < 5 ? 1 : 0) found = later(found, -1);
  return found;
}

/** The day from Monday to Friday at or past so many days on. @param {string} day @param {number} count */
export function workingDay(day, count) {
  let found = later(day, count);
  while (weekday(found) > 4) found = later(found, count < 0 ? -1 : 1);
  return found;
}

/** Whole days from one to the other. @param {string} from @param {string} to */
export const between = (from, to) => Math.round((utc(to).getTime() - utc(from).getTime()) / 86_400_000);

/** @param {string} day @param {Intl.DateTimeFormatOptions} [how] */
export const said = (day, how = { weekday: "short", day: "numeric", month: "short" }) =>
  utc(day).toLocaleDateString(tag(), { ...how, timeZone: "UTC" });

/**
 * Days on which a job waits: after one stretch and before the next may begin, by its waits.
 * @param {{job: string, stretch: number, days: {on: string}[]}[]} bookings
 * @param {{before: number[], after: number[], days: number, hold: boolean}[]} links
 * @returns {{from: string, until: string, hold: boolean}[]}
 */
export function waitsOf(bookings, links) {
  return links.flatMap((link) => {
    const before = bookings.find((each) => each.stretch === link.before[0])?.days[link.before[1]]?.on;
    if (!before || link.days < 2) return [];
    return [{ from: later(before, 1), until: later(before, link.days - 1), hold: link.hold }];
  });
}
