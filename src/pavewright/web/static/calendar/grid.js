// @ts-check
/** People down, days across on a wide screen; a list by day on a narrow one. */
import { el } from "../lib/dom.js";
import { carrying } from "./carry.js";
import { later, said, waitsOf, weekday } from "./days.js";
import { canBeTaken } from "./drag.js";
import { openStretch } from "./move.js";
import { jobOf, personName, state } from "./state.js";

const WORKS = [0, 1, 2, 3, 4];

/** @param {any} booking @param {number} place */
function signs(booking, place) {
  const job = jobOf(booking.job),
    need = job.stretches[booking.stretch]?.[place];
  const found = [];
  if (booking.pinned) found.push("◆ pinned");
  if (need?.rain) found.push("☂ dry day");
  if (job.state === "quoted" || job.state === "enquiry" || job.state === "visit") found.push("✎ pencil");
  return found.join(" · ");
}

/** @param {any} booking @param {string} day */
const broken = (booking, day) =>
  state.told.broken.filter(
    (/** @type {any} */ each) => each.job === booking.job && each.stretch === booking.stretch && each.on === day,
  );

/** @param {any} booking @param {number} place @param {string} day @param {string} person in whose row; empty for all */
export function chip(booking, place, day, person) {
  const job = jobOf(booking.job),
    breaks = broken(booking, day),
    extra = signs(booking, place);
  const made = el(
    "button",
    {
      type: "button",
      class: `crew-stretch${breaks.length ? " broken" : ""}${extra.includes("✎") ? " pencilled" : ""}`,
      title: job.title,
      "aria-describedby": state.told.may_change ? "crew-how" : null,
      data: { job: booking.job, stretch: booking.stretch },
      on: { click: () => carrying() || openStretch(booking) },
    },
    el("span", { class: "crew-title", text: `${breaks.length ? "⚠ " : ""}${job.title}` }),
  );
  if (extra) made.append(el("small", { text: extra }));
  if (state.told.may_change) canBeTaken(made, booking, place, person);
  return made;
}

/** @param {string} day */
const worked = (day) => WORKS.includes(weekday(day)) && !(state.told.document.closed ?? []).includes(day);

/** @param {string[]} days */
function head(days) {
  return el(
    "thead",
    {},
    el(
      "tr",
      {},
      el("th", { class: "crew-name", scope: "col", text: "Who" }),
      ...days.map((day) =>
        el("th", {
          scope: "col",
          class: `${day === state.told.today ? "today" : ""}${worked(day) ? "" : " no-work"}`,
          text: `${said(day)}${day === state.told.today ? " (today)" : ""}`,
        }),
      ),
    ),
  );
}

/** @param {any} person @param {string[]} days */
function row(person, days) {
  const own = (state.told.document.people ?? []).find((/** @type {any} */ each) => each.id === person.id);
  return el(
    "tr",
    {},
    el("th", { scope: "row", text: person.name }),
    ...days.map((day) => {
      const away = (own?.away ?? []).some((/** @type {any} */ each) => each.first <= day && day <= each.last);
      const works = worked(day) && (own?.weekdays ?? WORKS).includes(weekday(day)) && !away;
      const cell = el("td", { class: works ? "" : "no-work", data: { day, person: person.id } });
      if (away) cell.append("away");
      for (const booking of state.told.document.bookings ?? [])
        booking.days.forEach((/** @type {any} */ each, /** @type {number} */ place) => {
          if (each.on === day && (each.crew ?? []).includes(person.id))
            cell.append(chip(booking, place, day, person.id));
        });
      return cell;
    }),
  );
}

/** Rows of jobs that wait on some of the days. @param {string[]} days */
function waits(days) {
  const bookings = state.told.document.bookings ?? [];
  return [...new Set(bookings.map((/** @type {any} */ each) => each.job))].flatMap((/** @type {any} */ id) => {
    const job = jobOf(id),
      own = bookings.filter((/** @type {any} */ each) => each.job === id),
      found = waitsOf(own, job.links ?? []).filter(
        (each) => each.from <= days[days.length - 1] && each.until >= days[0],
      );
    if (!found.length) return [];
    return [
      el(
        "tr",
        {},
        el("th", { scope: "row", text: `${job.title} waits` }),
        ...days.map((day) => {
          const wait = found.find((each) => each.from <= day && day <= each.until);
          return el(
            "td",
            {},
            wait ? el("span", { class: "crew-wait" }, el("span", { text: wait.hold ? "look" : "hardens" })) : null,
          );
        }),
      ),
    ];
  });
}

export function grid() {
  const all = Array.from({ length: state.weeks * 7 }, (_, number) => later(state.from, number));
  const weekends = (state.told.document.bookings ?? []).some((/** @type {any} */ each) =>
    each.days.some((/** @type {any} */ day) => weekday(day.on) > 4),
  );
  const days = weekends ? all : all.filter((day) => weekday(day) < 5);
  return el(
    "div",
    { class: "crew-scroll", tabindex: "0", role: "region", "aria-label": "People and days" },
    el(
      "table",
      { class: `crew-grid ${{ 2: "two", 4: "four" }[state.weeks] ?? ""}` },
      head(days),
      el("tbody", {}, ...state.told.people.map((/** @type {any} */ person) => row(person, days)), ...waits(days)),
    ),
  );
}

/** The same days one under the other, for a phone. */
export function dayList() {
  const days = Array.from({ length: state.weeks * 7 }, (_, number) => later(state.from, number));
  const entries = days.flatMap((day) => {
    const there = (state.told.document.bookings ?? []).flatMap((/** @type {any} */ booking) =>
      booking.days.flatMap((/** @type {any} */ each, /** @type {number} */ place) =>
        each.on === day ? [{ booking, place, crew: each.crew ?? [] }] : [],
      ),
    );
    if (!there.length && !worked(day)) return [];
    return [
      el(
        "li",
        { class: there.length ? "sheet" : "sheet free", data: { day } },
        el("h3", { text: `${said(day)}${day === state.told.today ? " (today)" : ""}` }),
        there.length ? null : el("p", { class: "quiet", text: "No work." }),
        ...there.map((/** @type {any} */ each) =>
          el(
            "div",
            {},
            chip(each.booking, each.place, day, ""),
            el("p", { class: "quiet", text: each.crew.map(personName).join(", ") || "Nobody is sent." }),
          ),
        ),
      ),
    ];
  });
  return entries.some((each) => each.querySelector(".crew-stretch"))
    ? el("ul", { class: "crew-days" }, ...entries)
    : el("p", { text: "Nothing stands on these days." });
}

/** How a part is moved, in one line. */
export const how = () =>
  el("p", {
    id: "crew-how",
    class: "quiet no-print",
    text: "Move a part: drag it (with a finger, hold first), use the arrow keys, or open it.",
  });
