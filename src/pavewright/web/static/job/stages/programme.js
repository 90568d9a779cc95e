// @ts-check
/** The programme: who does what on which day, what holds it up, what is pinned and what is done. */
import { el } from "../../lib/dom.js";
import { form, group } from "../form/form.js";
import { fact, facts, sums, table } from "../../lib/results.js";
import { counted, day, plain } from "../../lib/words.js";
import { hidesMoney } from "../../lib/hidden.js";
import { chart } from "./gantt.js";
import { supplyLegend } from "./gantt-supply.js";
import { siteLogPart } from "./site-log.js";
import { supply } from "./supply.js";
import { card } from "./task-card.js";
import { clock, floatWords, gangName } from "./task-words.js";
import { next } from "./today.js";
import { weather } from "./weather.js";
import { weatherTable } from "./weather-table.js";

/** What is looked at; it stays so while plans come anew. */
const look = { task: "", byGang: false };

/** @param {Planned} state */
export function results(state) {
  const { programme } = state.plan;
  return [
    facts(
      fact("Starts", day(programme.start)),
      fact("Ends", day(programme.finish)),
      fact("Days on site", String(programme.site_days)),
      fact("To walk on", programme.foot_ready ? day(programme.foot_ready) : "–"),
      ...(programme.car_ready ? [fact("To drive on", day(programme.car_ready))] : []),
    ),
    el("p", { class: "quiet", text: proof(programme) }),
    ...(programme.uncounted_words ? [el("p", { text: programme.uncounted_words })] : []),
    ...next(state),
    drawn(state),
    ...supply(state),
    ...weather(state),
    ...(hidesMoney() ? [] : [siteLogPart(state)]), // it compares with what hours cost
    group("Every task", [list(state)]),
  ];
}

/** How good the dates are. @param {plan.Programme} programme */
function proof(programme) {
  const who = counted(programme.gangs.length, "gang");
  if (programme.proven) return `No other order of the work of ${who} ends on an earlier day.`;
  return (
    `The best order found ends on ${day(programme.finish)}; none can end before ${day(programme.earliest_finish)}. ` +
    `What lies between is not settled.`
  );
}

/** The bars with the task that is looked at under them. @param {Planned} state */
function drawn(state) {
  const box = el("div", { class: "programme" });
  const draw = (/** @type {boolean} */ focus) => {
    box.replaceChildren(
      ...(state.plan.programme.gangs.length > 1 ? [rowsChoice(draw)] : []),
      chart(state, look, (key) => {
        look.task = key;
        draw(true);
      }),
      legend(state),
      card(state, look.task),
    );
    if (focus) /** @type {any} */ (box.querySelector("[aria-pressed='true'].bar"))?.focus({ preventScroll: true });
  };
  // a plan that comes anew leaves the hand where it was
  const held = document.activeElement?.closest?.(".programme .bar");
  draw(false);
  if (held) queueMicrotask(() => /** @type {any} */ (box.querySelector("[aria-pressed='true'].bar"))?.focus());
  return box;
}

/** @param {(focus: boolean) => void} draw */
function rowsChoice(draw) {
  return el("button", {
    type: "button",
    "aria-pressed": String(look.byGang),
    text: look.byGang ? "Show a row for each task" : "Show a row for each gang",
    on: {
      click: () => {
        look.byGang = !look.byGang;
        draw(false);
      },
    },
  });
}

/** @param {Planned} state */
function legend(state) {
  return el("p", {
    class: "quiet",
    text:
      "Thick edge and ◆: a delay of it delays the end. Thin line after a bar: its float. Dashed: a wait. " +
      "◇: work stops until somebody has looked. ✓: done. ⚑: pinned. Drag a bar, or move it by the arrow keys, " +
      `to pin it to a day. ${supplyLegend(state)}`,
  });
}

/** @param {Planned} state */
function list(state) {
  const { programme, job } = state.plan;
  return table(
    [
      { head: "Task" },
      { head: "From" },
      { head: "To" },
      { head: "Hours", number: true },
      { head: "Who" },
      { head: "Float" },
      { head: "" },
      { head: "" },
    ],
    programme.tasks.map((task) => [
      task.description,
      clock(task.start),
      clock(task.finish),
      plain(task.work_min / 60, 1),
      gangName(programme, task),
      floatWords(task, job),
      [task.weather ? "not in rain" : "", task.hold ? "hold point" : task.wait ? "waits" : ""]
        .filter(Boolean)
        .join(", "),
      { under: sums([task.working], state.sources), of: task.description },
    ]),
    "Programme",
  );
}

/** @param {Planned} state */
export const inputs = (state) => [
  group("Crew", [form(state, ["crew"])], { open: true }),
  group("Bad weather by month", [weatherTable(state)]),
  group("Calendar", [form(state, ["calendar"])]),
  group("Hold points, pins and what is done", [form(state, [], { only: ["holds", "pins", "done"] })]),
];
