// @ts-check
/** Days on site: what was logged, how tasks go, bays on the plan, and what the firm's book may learn of it. */
import { el, svg } from "../../lib/dom.js";
import { findings, sums, table } from "../../lib/results.js";
import { counted, day as dayWords, plain } from "../../lib/words.js";
import { askedPart } from "./asked-part.js";
import { dayBox } from "./site-log-days.js";
import { ownHours } from "./site-log-own.js";
import { bayHatches, bayMiddle, bayShape, bayWord } from "../../site/day/bay-shapes.js";

/** @typedef {{task: string, words: string, person_h: number, done_percent: number|null}} Hours */
/** @typedef {{on: string, people: {name: string, there_h: number|null}[], hours: Hours[], person_h: number,
 *   there_h: number|null, lost_h: number|null, logs: doc.SiteDay[]}} Day */
/** @typedef {{kind: string, pattern: string|null, words: string[], amount: number, unit: string, person_h: number,
 *   hours_each: number, planned_each: number, why_not: string|null, entry: any,
 *   learnt: {jobs: number, book_hours: number, weight: number, hours_each: number, sd_hours: number}|null}} Own */
/** @typedef {{area: string, number: number, outline: number[][], stage: doc.WorkStage|null, on: string|null}} Bay */
/** @typedef {{days: Day[], tasks: any[], bays: Bay[], own: Own[], done: any[], person_h: number,
 *   findings: plan.Finding[]}} Told */

/** Kept between drawings: nobody opens it twice. */
const kept = { open: false };
const PACE = /** @type {Record<string, string>} */ ({
  not_begun: "–",
  not_known: "? nobody said how much is done",
  too_early: "? too early to say",
  quicker: "▼ quicker",
  as_planned: "= as planned",
  slower: "▲ slower",
});

/** @param {JobState} state */
export const siteLogPart = (state) =>
  askedPart(state, "Log of the days", {
    address: "/api/site-log",
    waiting: "reading the log …",
    kept,
    shown: (found, again) => shown(state, /** @type {Told} */ (found), again),
  });

/** @param {JobState} state @param {Told} found @param {() => void} again @returns {Node[]} */
function shown(state, found, again) {
  const job = location.pathname.split("/")[2];
  const way = el("a", { class: "button", href: `/jobs/${job}/site#day`, text: "Write the log of today" });
  if (!found.days.length) return [el("p", { text: "No day is logged yet." }), way];
  return [
    way,
    findings(found.findings, { sources: state.sources }),
    ...replan(state, found),
    bayPlan(found.bays),
    tasks(state, found),
    ...ownHours(found, again),
    el("h3", { text: "Days" }),
    ...[...found.days].reverse().map(dayBox),
  ];
}

/** What the log says is done, taken over into the programme by a touch. @param {JobState} state @param {Told} found */
function replan(state, found) {
  const shown = new Map((state.doc.done ?? []).map((/** @type {any} */ one) => [one.task, one]));
  const differ = found.done.filter((one) => {
    const now = shown.get(one.task);
    return !now || now.done_percent !== one.done_percent || now.on !== one.on;
  });
  if (!differ.length) return [el("p", { class: "quiet", text: "The programme goes by the log." })];
  return [
    el("button", {
      type: "button",
      class: "main",
      text: `Plan the rest by the log: ${counted(differ.length, "task differs", "tasks differ")}`,
      on: {
        click: () => {
          const logged = new Map(found.done.map((one) => [one.task, one])),
            doc = structuredClone(state.doc);
          const stay = (doc.done ?? []).map((/** @type {any} */ one) => {
            const own = logged.get(one.task);
            logged.delete(one.task);
            return own ?? one;
          });
          doc.done = [...stay, ...logged.values()];
          state.put("Programme by the log", doc);
        },
      },
    }),
  ];
}

/** @param {Bay[]} bays */
function bayPlan(bays) {
  if (!bays.some((one) => one.stage)) return el("span");
  const all = bays.flatMap((one) => one.outline),
    xs = all.map((at) => at[0]),
    ys = all.map((at) => at[1]);
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)],
    edge = 200,
    size = Math.max(right - left, high - low) / 26;
  const turned = bays.map((one) => ({ ...one, outline: one.outline.map(([x, y]) => [x, high + low - y]) }));
  return el(
    "figure",
    { class: "bay-plan" },
    svg(
      "svg",
      {
        viewBox: `${left - edge} ${low - edge} ${right - left + 2 * edge} ${high - low + 2 * edge}`,
        role: "img",
        "aria-label": bays.map((one) => `${one.area}, bay ${one.number}: ${one.stage ?? "nothing logged"}`).join("; "),
      },
      bayHatches(),
      ...turned.map(bayShape),
      ...turned
        .filter((one) => one.stage)
        .map((one) => {
          const [x, y] = bayMiddle(one.outline),
            word = bayWord(/** @type {doc.WorkStage} */ (one.stage));
          word.setAttribute("transform", `translate(${x} ${y}) scale(${size / 14})`);
          return word;
        }),
    ),
    el(
      "figcaption",
      { class: "quiet" },
      bays
        .filter((one) => one.stage)
        .map((one) => `${nameOf(bays, one)}: ${one.stage} on ${dayWords(one.on ?? "")}`)
        .join("; "),
    ),
  );
}

/** @param {Bay[]} bays @param {Bay} bay */
const nameOf = (bays, bay) =>
  bays.filter((one) => one.area === bay.area).length > 1 ? `${bay.area}, bay ${bay.number}` : bay.area;

/** @param {JobState} state @param {Told} found */
function tasks(state, found) {
  return table(
    [
      { head: "Task" },
      { head: "Logged, h", number: true },
      { head: "Done, %", number: true },
      { head: "In all, h", number: true },
      { head: "Planned, h", number: true },
      { head: "" },
      { head: "" },
    ],
    found.tasks.map((one) => [
      one.words,
      plain(one.logged_h, 1),
      one.done_percent === null ? "?" : plain(one.done_percent),
      one.expected_h === null ? "?" : ends(one.expected_low_h, one.expected_high_h),
      ends(one.low_h, one.high_h),
      PACE[one.pace],
      one.working ? { under: sums([one.working], state.sources), of: one.words } : "",
    ]),
    "Hours on tasks",
  );
}

/** @param {number} low @param {number|null} high */
const ends = (low, high) =>
  high === null
    ? `over ${plain(low, 1)}`
    : plain(low, 1) === plain(high, 1)
      ? plain(low, 1)
      : `${plain(low, 1)} to ${plain(high, 1)}`;
