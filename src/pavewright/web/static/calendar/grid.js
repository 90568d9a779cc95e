// @ts-check
/** People down, days across on a wide screen; a list by day on a narrow one. */
import { el } from "../lib/dom.js";
import { later, said, waitsOf, weekday, workdaysBefore } from "./days.js";
import { moveTo, nudge, openStretch } from "./move.js";
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

/** @param {any} booking @param {number} place @param {string} day */
export function chip(booking, place, day) {
  const job = jobOf(booking.job),
    breaks = broken(booking, day),
    extra = signs(booking, place);
  const made = el(
    "button",
    {
      type: "button",
      class: `crew-stretch${breaks.length ? " broken" : ""}${extra.includes("✎") ? " pencilled" : ""}`,
      draggable: state.told.may_change ? "true" : "false",
      title: state.told.may_change ? `${job.title}. Drag it, or Shift with the left or right arrow.` : job.title,
      data: { job: booking.job, stretch: booking.stretch },
      on: {
        click: () => openStretch(booking),
        dragstart: (/** @type {DragEvent} */ event) => {
          event.dataTransfer?.setData("text/plain", JSON.stringify([booking.job, booking.stretch, place]));
        },
        keydown: (/** @type {KeyboardEvent} */ event) => {
          const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
          if (!step || !event.shiftKey || !state.told.may_change) return;
          event.preventDefault();
          nudge(booking, step);
        },
      },
    },
    el("span", { class: "crew-title", text: `${breaks.length ? "⚠ " : ""}${job.title}` }),
  );
  if (extra) made.append(el("small", { text: extra }));
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

/** @param {string} day @param {HTMLElement} cell */
function takesDrops(day, cell) {
  cell.addEventListener("dragover", (event) => {
    event.preventDefault();
    cell.classList.add("dropped-on");
  });
  cell.addEventListener("dragleave", () => cell.classList.remove("dropped-on"));
  cell.addEventListener("drop", (event) => {
    event.preventDefault();
    cell.classList.remove("dropped-on");
    const [job, stretch, place] = JSON.parse(event.dataTransfer?.getData("text/plain") || "[]");
    // the day that was taken hold of comes to stand here: the part begins as many days before
    if (job) moveTo(job, stretch, workdaysBefore(day, place));
  });
  return cell;
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
      const cell = el("td", { class: works ? "" : "no-work" });
      if (away) cell.append("away");
      for (const booking of state.told.document.bookings ?? [])
        booking.days.forEach((/** @type {any} */ each, /** @type {number} */ place) => {
          if (each.on === day && (each.crew ?? []).includes(person.id)) cell.append(chip(booking, place, day));
        });
      return takesDrops(day, cell);
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
    if (!there.length) return [];
    return [
      el(
        "li",
        { class: "sheet" },
        el("h3", { text: `${said(day)}${day === state.told.today ? " (today)" : ""}` }),
        ...there.map((/** @type {any} */ each) =>
          el(
            "div",
            {},
            chip(each.booking, each.place, day),
            el("p", { class: "quiet", text: each.crew.map(personName).join(", ") || "Nobody is sent." }),
          ),
        ),
      ),
    ];
  });
  return entries.length
    ? el("ul", { class: "crew-days" }, ...entries)
    : el("p", { text: "Nothing stands on these days." });
}
