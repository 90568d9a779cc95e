// @ts-check
/** Weather, stops and why, batches, and what else is to be remembered. */
import { el } from "../../lib/dom.js";
import { set, words } from "../parts.js";
import { dayOf, line, numberIn, typing, write, inHours } from "./parts.js";

/** @typedef {import("../parts.js").Here} Here */

const SKY = /** @type {[doc.SkyKind, string][]} */ ([
  ["dry", "☀ Dry"],
  ["showers", "☂ Showers"],
  ["rain", "☔ Rain"],
  ["frost", "❄ Frost"],
  ["snow", "❅ Snow"],
]);
export const WHY = /** @type {[doc.StopKind, string][]} */ ([
  ["rain", "Rain"],
  ["frost", "Frost"],
  ["heat", "Heat"],
  ["delivery", "Nothing came"],
  ["breakdown", "Broken"],
  ["found", "Found something"],
  ["look", "Waits for a look"],
  ["customer", "Customer"],
  ["people", "Nobody"],
  ["other", "Other"],
]);
const LOST = [0.5, 1, 2, 4];
const MIXES = ["Bed", "Joints", "Concrete", "Slurry"];

/** @param {Here} here @returns {Node[]} */
export function weather(here) {
  const day = dayOf(here),
    stops = day?.stops ?? [],
    stop = stops.at(-1);
  return [
    words("Weather", SKY, day?.weather?.sky ?? "", (sky) =>
      write(here, `Weather: ${sky}`, (mine) => {
        mine.weather = { ...mine.weather, sky: /** @type {doc.SkyKind} */ (sky) };
      }),
    ),
    el(
      "div",
      { class: "side-by-side" },
      reading(here, "Lowest", "°C", "lowest_c"),
      reading(here, "Highest", "°C", "highest_c"),
    ),
    el("h2", { class: "low", text: "Work stopped: why?" }),
    words("Work stopped: why?", WHY, stop?.why ?? "", (why) =>
      write(here, `Stopped: ${WHY.find(([key]) => key === why)?.[1]}`, (mine) => {
        mine.stops = [...(mine.stops ?? []), { why: /** @type {doc.StopKind} */ (why) }];
      }),
    ),
    ...(stop
      ? [
          el("p", {
            class: "name",
            text: `${WHY.find(([key]) => key === stop.why)?.[1]}: how long, on the clock? ${
              stop.lost_h ? `${inHours(stop.lost_h)}` : "not noted yet"
            }`,
          }),
          el(
            "div",
            { class: "words day-keys", role: "group", "aria-label": "How long it stood" },
            ...LOST.map((each) =>
              el("button", {
                type: "button",
                "aria-pressed": String(stop.lost_h === each),
                text: `${each === 0.5 ? "½" : each} h`,
                on: {
                  click: () =>
                    write(here, `Stood ${each} h`, (mine) => {
                      const last = mine.stops?.at(-1);
                      if (last) last.lost_h = each;
                    }),
                },
              }),
            ),
          ),
        ]
      : []),
  ];
}

/** @param {Here} here @param {string} label @param {string} unit @param {"lowest_c"|"highest_c"} field */
function reading(here, label, unit, field) {
  return line(
    label,
    String(dayOf(here)?.weather?.[field] ?? ""),
    (typed) => {
      const value = numberIn(typed);
      if (typed && (value === null || Math.abs(value) > 60)) return here.say("Write a temperature, such as 7 or -2.");
      write(here, `${label}: ${typed} ${unit}`, (day) => {
        const { [field]: _, ...others } = day.weather ?? {};
        day.weather = value === null ? others : { ...others, [field]: value };
      });
    },
    { unit, number: true },
  );
}

/** @param {Here} here @returns {Node[]} */
export function notes(here) {
  const day = dayOf(here),
    last = day?.mixed?.at(-1),
    box = el("textarea", {
      maxlength: "2000",
      rows: "5",
      "aria-label": "What else happened",
      placeholder: "Who called, what was seen, what is next",
    });
  box.value = day?.note ?? "";
  typing(box, (note) => {
    write(here, "A note", (mine) => {
      mine.note = note;
    });
  });
  return [
    el("h2", { class: "low", text: "A batch is mixed" }),
    words(
      "A batch is mixed",
      MIXES.map((each) => [each, each]),
      "",
      (mix) =>
        write(here, `A batch: ${mix}`, (mine) => {
          const now = new Date(),
            found = mine.mixed?.find((one) => one.mix === mix);
          if (found) found.count = (found.count ?? 1) + 1;
          else
            mine.mixed = [...(mine.mixed ?? []), { mix, count: 1, mixed_min: now.getHours() * 60 + now.getMinutes() }];
        }),
    ),
    last
      ? el("p", { class: "quiet", text: (day?.mixed ?? []).map((one) => `${one.mix}: ${one.count ?? "?"}`).join(", ") })
      : el("span"),
    last
      ? line(
          `Temperature of ${last.mix}`,
          String(last.mix_c ?? ""),
          (typed) => {
            const value = numberIn(typed);
            if (typed && (value === null || Math.abs(value) > 60)) return here.say("Write a temperature, such as 12.");
            write(here, `${last.mix}: ${typed} °C`, (mine) => {
              const found = mine.mixed?.at(-1);
              if (!found) return;
              if (value === null) delete found.mix_c;
              else found.mix_c = value;
            });
          },
          { unit: "°C", number: true },
        )
      : el("span"),
    el("h2", { class: "low", text: "What else" }),
    box,
    line("Written by", day?.written_by ?? here.ui.dayBy ?? "", (by) => {
      set(here, { dayBy: by });
      write(here, `Written by ${by}`, (mine) => {
        mine.written_by = by;
      });
    }),
    ...photos(here, day),
  ];
}

/** @param {Here} here @param {doc.SiteDay|null} day */
function photos(here, day) {
  if (!here.panels.some((one) => one.key === "photos"))
    return [el("p", { class: "quiet", text: "This sheet keeps no photos: take them with the page On site." })];
  return [
    el("p", {
      class: "quiet",
      text: day?.photos?.length
        ? `${day.photos.length} photos of today are in the log.`
        : "Photos that are taken while a day is logged come into its log.",
    }),
    el("button", { type: "button", class: "pad-keep", text: "Take a photo", on: { click: () => here.open("photos") } }),
  ];
}
