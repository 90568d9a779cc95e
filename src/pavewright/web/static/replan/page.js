// @ts-check
/** All open jobs planned again after a change: begin, see how far it is, look through it; no job is changed. */
import { el, find, say } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";

/** @typedef {{job_id: string, title: string, standing: string, headline: string, details: string[]}} Row */

const LOOK_MS = 1000;
const main = find("#main"),
  state = el("p", { role: "status" }),
  begin = el("button", { type: "button", class: "main", text: "Plan again" }),
  stop = el("button", { type: "button", text: "Stop", hidden: true }),
  table = el("a", { class: "button", text: "Table (CSV)", hidden: true }),
  list = el("ul", { class: "jobs", "aria-label": "What changed" }),
  more = el("button", { type: "button", text: "More jobs", hidden: true });
const of = el(
  "select",
  { id: "of" },
  ...[
    ["all", "Everything"],
    ["prices", "Prices"],
    ["outputs", "Outputs"],
    ["edition", "Rulebook"],
  ].map(([value, text]) => el("option", { value, text })),
);
let run = "",
  shown = 0;

/** @param {Row} row */
function line(row) {
  const name = row.title || row.job_id,
    wrong = ["no_plan", "failed"].includes(row.standing);
  return el(
    "li",
    { class: "sheet" },
    el("a", { href: `/jobs/${row.job_id}` }, el("b", { text: name })),
    el("p", { text: `${wrong ? "▲ " : ""}${row.headline}` }),
    row.details.length ? el("ul", {}, ...row.details.map((text) => el("li", { text }))) : null,
  );
}

/** @param {any} told */
function show(told) {
  const ended = { finished: "Done", stopped: "Stopped" }[/** @type {string} */ (told.state)] ?? "Stopped";
  say(state, `${told.going ? "Planning" : ended}: ${told.done} of ${told.pieces} jobs`);
  begin.hidden = told.going;
  stop.hidden = !told.going;
  begin.textContent = told.state === "finished" || told.going ? "Plan again" : "Go on";
  table.hidden = told.going || !told.done;
  table.href = `/api/replans/${told.id}/table`;
}

/** @param {boolean} [again] */
async function look(again = true) {
  const told = await call("GET", `/api/replans/${run}?from=${again ? 0 : shown}`);
  show(told);
  if (again) {
    list.replaceChildren();
    shown = 0;
  }
  list.append(...told.jobs.map(line));
  shown += told.jobs.length;
  more.hidden = shown >= told.of_jobs;
  if (told.going) setTimeout(() => look().catch(failed), LOOK_MS);
}

const failed = (/** @type {unknown} */ problem) => say(state, messageOf(problem));

begin.addEventListener("click", () => {
  call("POST", "/api/replans", { of: of.value })
    .then((told) => {
      run = told.id;
      return look();
    })
    .catch(failed);
});
stop.addEventListener("click", () => {
  call("DELETE", `/api/replans/${run}`).catch(failed);
});
more.addEventListener("click", () => look(false).catch(failed));

async function load() {
  const told = await call("GET", "/api/replans");
  main.replaceChildren(
    el("p", { text: "See what a change of prices, outputs or rulebook does to each open job. No job is changed." }),
    el("p", { class: "row" }, el("label", { for: "of", text: "What changed" }), of, begin, stop, table),
    state,
    list,
    el("p", { class: "row" }, more),
  );
  if (!told.runs.length) return;
  run = told.runs[0].id;
  await look();
}

load().catch((problem) => main.replaceChildren(el("p", { role: "alert", text: messageOf(problem) })));
