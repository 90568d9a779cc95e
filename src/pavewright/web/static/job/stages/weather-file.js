// @ts-check
/** A file of daily weather brought into the calendar of the job: read by the server, shown, then taken by a person. */
import { call } from "../../lib/api.js";
import { el, say } from "../../lib/dom.js";
import { table } from "../../lib/results.js";
import { counted, messageOf, monthName, plain } from "../../lib/words.js";

/**
 * @typedef {{month: number, wet_days: number|null, frost_days: number|null, hot_days: number|null,
 *   mean_c: number|null}} Month
 * @typedef {{weather: Month[], days: number, bad: {number: number, said: string}[], bad_count: number}} Read
 */

const SHOWN = 5;

/** The button that takes a file, and what it holds. @param {JobState} state */
export function weatherFile(state) {
  const told = el("p", { role: "status" }),
    found = el("div", {}),
    input = el("input", {
      type: "file",
      accept: ".csv,text/csv,text/plain",
      hidden: true,
      "aria-label": "Daily weather",
    });
  input.addEventListener("change", async () => {
    const [file] = input.files ?? [];
    input.value = "";
    if (!file) return;
    found.replaceChildren();
    say(told, "reading it …");
    const place = encodeURIComponent(state.doc.identity?.locality ?? "");
    try {
      const read = /** @type {Read} */ (await call("POST", `/api/weather?locality=${place}`, file));
      say(told, `${counted(read.days, "day")} read from ${file.name}.`);
      found.replaceChildren(...shown(state, read, told, found));
    } catch (problem) {
      say(told, messageOf(problem));
    }
  });
  return el(
    "details",
    { class: "weather-file" },
    el("summary", { text: "Daily weather from a file" }),
    el("p", {
      class: "quiet",
      text:
        "A CSV with a line a day, of as many years as there are. Its first line names the columns: date " +
        "(2026-01-31), and rain_mm or rain_in, min_c or min_f, max_c or max_f. Without it enter the months under " +
        "Calendar.",
    }),
    el("button", { type: "button", text: "Choose the file", on: { click: () => input.click() } }),
    input,
    told,
    found,
  );
}

/** @param {JobState} state @param {Read} read @param {HTMLElement} told @param {HTMLElement} box @returns {Node[]} */
function shown(state, read, told, box) {
  const days = (/** @type {number|null} */ value) => (value === null ? "not known" : plain(value, 1)),
    held = new Map((state.doc.calendar?.weather ?? []).map((/** @type {any} */ one) => [one.month, one])),
    put = () => {
      for (const one of read.weather) held.set(one.month, one);
      const weather = [...held.values()].sort((one, other) => one.month - other.month);
      state.change("weather from a file", (doc) => {
        doc.calendar = { ...doc.calendar, weather };
      });
      box.replaceChildren();
      say(told, "Taken: the chance of the finish and the times of hardening go by it.");
    };
  const lost = read.bad_count
    ? [
        el("p", { class: "ask", text: `${counted(read.bad_count, "line")} left out:` }),
        el("ul", {}, ...read.bad.slice(0, SHOWN).map((one) => el("li", { text: one.said }))),
      ]
    : [];
  return [
    table(
      [
        { head: "Month" },
        { head: "Wet days", number: true },
        { head: "Frosty days", number: true },
        { head: "Hot days", number: true },
        { head: "Mean", number: true },
      ],
      read.weather.map((one) => [
        monthName(one.month),
        days(one.wet_days),
        days(one.frost_days),
        days(one.hot_days),
        one.mean_c === null ? "not known" : `${plain(one.mean_c, 1)} °C`,
      ]),
      "Months of the file",
    ),
    ...lost,
    el("button", { type: "button", class: "main", text: "Put these months into the job", on: { click: put } }),
  ];
}
