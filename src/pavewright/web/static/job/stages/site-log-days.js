// @ts-check
/** A day of the log, unfolded. */
import { el } from "../../lib/dom.js";
import { counted, day as dayWords, plain, spoken } from "../../lib/words.js";

/** @typedef {import("./site-log.js").Day} Day */

/** @param {Day} one */
export function dayBox(one) {
  const said = one.logs.flatMap((log) => words(log));
  return el(
    "details",
    { class: "group" },
    el("summary", {
      text:
        `${dayWords(one.on)}: ${counted(one.people.length, "person", "people")}, ${plain(one.person_h, 1)} h booked` +
        (one.there_h === null ? "" : ` of ${plain(one.there_h, 1)} h there`) +
        (one.lost_h ? `, ${plain(one.lost_h, 1)} h lost` : one.lost_h === null ? ", stops not timed" : ""),
    }),
    el(
      "div",
      { class: "inside" },
      el("p", {
        text: one.people
          .map((each) => `${each.name} ${each.there_h === null ? "(hours not known)" : `${plain(each.there_h, 1)} h`}`)
          .join(", "),
      }),
      el(
        "ul",
        {},
        ...one.hours.map((each) =>
          el("li", {
            text:
              `${each.words}: ${plain(each.person_h, 1)} h` +
              (each.done_percent === null ? "" : `, ${plain(each.done_percent)} % done`),
          }),
        ),
        ...said.map((text) => el("li", { text })),
      ),
    ),
  );
}

/** What else a log says. @param {doc.SiteDay} log @returns {string[]} */
function words(log) {
  return [
    weather(log.weather ?? {}),
    ...(log.stops ?? []).map((one) =>
      joined([`Stopped, ${spoken(one.why)}: ${one.lost_h ? `${plain(one.lost_h, 1)} h` : "not timed"}`, one.note]),
    ),
    ...(log.delivered ?? []).map((one) =>
      joined([
        `Came: ${one.product || one.unit}`,
        one.batch ? `batch ${one.batch}` : "batch not read",
        one.ticket && `ticket ${one.ticket}`,
      ]),
    ),
    ...(log.waste ?? []).map((one) =>
      joined([
        `Left: ${one.what ?? "soil"}`,
        one.volume_m3 && `${plain(one.volume_m3, 1)} m³`,
        one.mass_tonnes && `${plain(one.mass_tonnes, 2)} t`,
        one.ticket ? `ticket ${one.ticket}` : "no ticket",
        one.went_to && `to ${one.went_to}`,
      ]),
    ),
    ...(log.mixed ?? []).map((one) =>
      joined([
        `Mixed: ${one.mix}`,
        one.count && counted(one.count, "batch", "batches"),
        typeof one.mix_c === "number" && `${one.mix_c} °C`,
      ]),
    ),
    log.note ?? "",
    log.photos?.length ? counted(log.photos.length, "photo") : "",
    log.written_by ? `Written by ${log.written_by}` : "",
  ].filter(Boolean);
}

/** @param {(string|number|false|null|undefined)[]} parts */
const joined = (parts) => parts.filter(Boolean).join(", ");

/** @param {doc.DayWeather} one */
function weather(one) {
  const degrees = (/** @type {string} */ word, /** @type {number|null|undefined} */ value) =>
    typeof value === "number" && `${word} ${value} °C`;
  const said = joined([one.sky, degrees("lowest", one.lowest_c), degrees("highest", one.highest_c)]);
  return said ? `Weather: ${said}` : "";
}
