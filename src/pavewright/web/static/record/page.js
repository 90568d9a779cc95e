// @ts-check
/** The record of a job: the hash to give out, the record as files, timestamps, and what was recorded, last first. */
import { el, find, say, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { counted, messageOf } from "../lib/words.js";

/** @typedef {{number: number, at: string, what: string, who: string, read_with: string, digest: string}} Row */

const id = location.pathname.split("/")[2],
  main = find("#main"),
  FILES = [
    ["record.pdf", "PDF with its data"],
    ["record.zip", "Zip with the photos"],
    ["record.jsonl", "Data alone"],
    ["instructions.txt", "How to check it"],
  ],
  SHOWN = 16;
find("#back").setAttribute("href", `/jobs/${id}#papers`);

/** @param {string} title @param {string[]} words */
const points = (title, words) =>
  el("div", {}, el("h3", { text: title }), el("ul", {}, ...words.map((one) => el("li", { text: one }))));

/** Words with the sign of a finding. @param {"stop"|"check"} severity @param {string} sign @param {string[]} words */
const told = (severity, sign, words) =>
  el(
    "div",
    { class: `finding ${severity}`, role: severity === "stop" ? "alert" : null },
    el("p", {}, el("span", { class: "word", text: sign })),
    ...words.map((one) => el("p", { text: one })),
  );

/** What is to be looked at before the record is handed out. @param {any} record */
function warnings(record) {
  const found = [];
  if (record.faults.length)
    found.push(told("stop", "■ STOP", ["This record was changed after it was written.", ...record.faults]));
  if (record.begun_late)
    found.push(
      told("check", "▲ CHECK", [
        `The record begins with revision ${record.begun_late}: what came before was not recorded as it happened.`,
      ]),
    );
  if (record.clock_back.length) {
    const entries = record.clock_back.slice(0, 10).join(", ");
    found.push(
      told("check", "▲ CHECK", [`A clock was set back: entries ${entries} bear a time before the entry before.`]),
    );
  }
  return found;
}

/** The hash that stands for everything so far, and ways to give it away. @param {any} record */
function toGiveOut(record) {
  const words = `${record.title}: hash of the record, entry ${record.entries}: ${record.head}`;
  const copy = el("button", { type: "button", class: "main", text: "Copy" });
  copy.addEventListener("click", () =>
    navigator.clipboard
      ? navigator.clipboard.writeText(words).then(
          () => tell("Copied."),
          () => tell("It could not be copied: mark it and copy it by hand."),
        )
      : tell("This connection is not secure, so nothing can be copied from here: mark it and copy it by hand."),
  );
  const mail = el("a", {
    class: "button",
    href: `mailto:?subject=${encodeURIComponent(record.title)}&body=${encodeURIComponent(words)}`,
    text: "Send by mail",
  });
  return el(
    "section",
    { "aria-label": "Hash to give out" },
    el("h2", { text: "Give this to the customer" }),
    el("p", { class: "whole-hash", id: "head", text: record.head_text }),
    el("p", { text: "From then on no entry up to now can be changed unseen. Without it, the whole could be remade." }),
    el("div", { class: "row" }, copy, mail),
  );
}

/** The record as files. */
const files = () =>
  el(
    "section",
    { "aria-label": "Files" },
    el("h2", { text: "Hand it over" }),
    el(
      "div",
      { class: "row" },
      ...FILES.map(([name, words]) =>
        el("a", { class: "button", href: `/api/jobs/${id}/record/${name}`, download: name, text: words }),
      ),
    ),
  );

/** Timestamps that stand in it, and how another one is added. @param {any} record */
function stamps(record) {
  const said = el("p", { role: "status", class: "quiet" }),
    file = el("input", { type: "file", id: "token", accept: ".tsr,.tst,application/timestamp-reply" });
  file.addEventListener("change", async () => {
    const given = file.files?.[0];
    if (!given) return;
    try {
      const { entry } = await call("POST", `/api/jobs/${id}/record/tokens`, new Blob([given]));
      await show();
      tell(`The timestamp of entry ${entry} is kept.`);
    } catch (problem) {
      say(said, messageOf(problem));
    }
    file.value = "";
  });
  return el(
    "details",
    {},
    el("summary", { text: `Timestamps (${record.stamps.length})` }),
    record.stamps.length
      ? el("ul", {}, ...record.stamps.map((/** @type {string} */ one) => el("li", { text: one })))
      : null,
    el("p", { text: "Optional. Ask a timestamp authority with this line, then bring in the file that it answers:" }),
    el("p", { class: "formula", text: `openssl ts -query -digest ${record.head} -sha256 -cert -out ask.tsq` }),
    el("label", { class: "field", for: "token" }, "Answer of the authority", file),
    said,
  );
}

/** One entry: what it says first, then who, with what, and how its hash begins. @param {Row} row */
const entry = (row) =>
  el(
    "li",
    {},
    el("p", { class: "quiet" }, el("strong", { text: `${row.number}` }), ` · ${row.at}`),
    el("p", { text: row.what }),
    el("p", { class: "quiet", text: [row.who, row.read_with].filter(Boolean).join(" · ") || null }),
    el("p", { class: "begins", text: `${row.digest.slice(0, SHOWN)} …` }),
  );

/** @param {Row[]} rows @param {number} all */
const entries = (rows, all) =>
  el(
    "section",
    { "aria-label": "Entries" },
    el("h2", { text: "Entries, last first" }),
    el("p", { class: "quiet", text: "± is one standard deviation, as its reader stated it. Times are UTC." }),
    el("ol", { class: "entries", reversed: true }, ...rows.map(entry)),
    rows.length < all
      ? el("p", { text: `${counted(all - rows.length, "earlier entry", "earlier entries")} in the files.` })
      : null,
  );

async function show() {
  const record = await call("GET", `/api/jobs/${id}/record`);
  document.title = `Record: ${record.title} – pavewright`;
  const deleted = record.photos_deleted ? `, ${record.photos_deleted} of them deleted` : "";
  main.replaceChildren(
    el("h2", { text: record.title }),
    el("p", {
      text:
        `${counted(record.entries, "entry", "entries")}, ${record.first} to ${record.last} UTC. ` +
        `${counted(record.photos, "photo")}${deleted}.`,
    }),
    ...warnings(record),
    toGiveOut(record),
    files(),
    stamps(record),
    el("div", { class: "shows" }, points("It shows", record.shows), points("It does not show", record.shows_not)),
    entries(record.rows, record.entries),
  );
}

try {
  await show();
} catch (problem) {
  main.replaceChildren(
    el("h2", { text: "The record cannot be shown" }),
    el("p", { role: "alert", text: messageOf(problem) }),
    el("a", { class: "button", href: `/jobs/${id}`, text: "To the job" }),
  );
}
