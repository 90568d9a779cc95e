// @ts-check
/** What waits, what was refused and why, and ways to send it, mend it, save it as a file or bring one in. */
import { ask, el } from "../lib/dom.js";
import { meant } from "./pad.js";
import { level, mm } from "../lib/words.js";
import { bringIn, fileOf, save } from "./bring-in.js";

/** The field of a reading that was typed. */
const FIELD = /** @type {Record<string, string>} */ ({
  tapes: "length_mm",
  staff: "reading_mm",
  level_by_datum: "by_mm",
  as_laid: "level_mm",
});

/** @param {any} one */
export function spokenRecord(one) {
  const entry = one.entries.at(-1) ?? {};
  const said = /** @type {Record<string, () => string>} */ ({
    tapes: () => `Tape ${entry.start} to ${entry.end}: ${mm(entry.length_mm)}`,
    staff: () =>
      one.entries.map((/** @type {any} */ each) => `Staff on ${each.point}: ${mm(each.reading_mm)}`).join(", "),
    level_by_datum: () => `${entry.point}: ${mm(entry.by_mm)} ${entry.way} than ${entry.datum}`,
    as_laid: () => `As laid ${entry.label}: ${level(entry.level_mm)}`,
    walk_round: () => `${entry.question} ${entry.answer === "value" ? entry.value : entry.answer.replaceAll("_", " ")}`,
    take_back: () => "Taking a reading back",
    operations: () => one.note ?? "",
    photo: () => `Photo${one.note ? `: ${one.note}` : ""}`,
  });
  return said[one.kind]?.() ?? one.kind;
}

/** @param {import("./parts.js").PageHere & {signal: string, reload: () => void}} here @returns {Node[]} */
export function sentPanel(here) {
  const open = here.queue.list.filter((one) => one.state !== "sent"),
    refused = open.filter((one) => one.state === "refused"),
    waiting = open.filter((one) => one.state !== "refused");
  return [
    el("h2", { text: open.length ? `${open.length} not sent yet` : "Everything is sent" }),
    el("p", { class: "quiet", text: here.signal }),
    el("button", {
      type: "button",
      class: "main pad-keep",
      text: "Send now",
      disabled: !waiting.some((one) => one.state === "waiting"),
      on: { click: () => here.queue.flush() },
    }),
    ...(refused.length
      ? [
          el("h3", { text: "Refused: fix or drop" }),
          el("ul", { class: "findings" }, ...refused.map((one) => refusedLine(here, one))),
        ]
      : []),
    ...(waiting.length
      ? [
          el("h3", { text: "Waiting on this phone" }),
          el(
            "ul",
            { class: "plain-list" },
            ...waiting.map((one) =>
              el("li", { text: spokenRecord(one) + (one.state === "held" ? " (goes with the next reading)" : "") }),
            ),
          ),
        ]
      : []),
    el("h3", { text: "By file" }),
    el("p", {
      class: "quiet",
      text: "What waits here can be saved as a file and brought in at another device. Nothing is doubled.",
    }),
    el(
      "div",
      { class: "row" },
      el("button", {
        type: "button",
        text: "Save what waits as a file",
        disabled: !open.length,
        on: { click: () => save(`readings-${here.job}.json`, fileOf(here.job, open)) },
      }),
    ),
    bringIn(here.job, () => here.reload()),
    el("h3", { text: "Without signal and without this page" }),
    el("p", {
      class: "quiet",
      text:
        "The site sheet is one file that opens anywhere and keeps readings by itself. Bring its readings in " +
        "here afterwards.",
    }),
    el("a", { class: "button", href: `/jobs/${here.job}/site-sheet.html`, download: "", text: "Save the site sheet" }),
  ];
}

/** @param {import("./parts.js").PageHere} here @param {any} one */
function refusedLine(here, one) {
  const field = FIELD[one.kind];
  return el(
    "li",
    { class: "finding stop" },
    el("p", {}, el("b", { text: spokenRecord(one) })),
    el("p", { text: one.message }),
    el(
      "div",
      { class: "row" },
      field
        ? el("button", { type: "button", text: "Change the reading", on: { click: () => change(here, one, field) } })
        : null,
      el("button", {
        type: "button",
        text: "Send again",
        on: {
          click: async () => {
            await here.queue.mend(one.id, (now) => ({ ...now, state: "waiting", message: "" }));
            here.queue.flush();
          },
        },
      }),
      el("button", {
        type: "button",
        text: "Drop",
        on: {
          click: async () => {
            const way = await ask(
              "Drop this reading?",
              [el("p", { text: spokenRecord(one) })],
              [
                { label: "Keep it", value: "no", main: true },
                { label: "Drop it", value: "yes" },
              ],
            );
            if (way === "yes") await here.queue.mend(one.id, () => null);
          },
        },
      }),
    ),
  );
}

/** @param {import("./parts.js").PageHere} here @param {any} one @param {string} field */
async function change(here, one, field) {
  const input = el("input", {
    type: "text",
    inputmode: "decimal",
    value: String(one.entries.at(-1)[field]),
    "aria-label": "The reading, in mm",
  });
  const way = await ask(
    spokenRecord(one),
    [el("p", { text: one.message }), input],
    [
      { label: "Save and send", value: "yes", main: true },
      { label: "Back", value: "no" },
    ],
  );
  const value = meant(input.value);
  if (way !== "yes") return;
  if (value === null) return here.say("Write a length: 1235, 1.235 m or 4 ft 1/2 in.");
  await here.queue.mend(one.id, (now) => ({
    ...now,
    state: "waiting",
    message: "",
    entries: [...now.entries.slice(0, -1), { ...now.entries.at(-1), [field]: value }],
  }));
  here.queue.flush();
}
