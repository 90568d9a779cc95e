// @ts-check
/** What is next: the tasks that are not done yet, each with the buttons to show it as done, for a thumb on site. */
import { el } from "../../lib/dom.js";
import { doneButtons } from "./task-card.js";
import { clock, gangName } from "./task-words.js";

const SHOWN = 4;

/** The work and the looks that come next, in their order. @param {Planned} state */
export function next(state) {
  const { programme } = state.plan,
    every = programme.tasks.filter((task) => !task.wait || task.hold),
    left = every.filter((task) => task.done_percent < 100);
  if (!left.length) return [el("p", { class: "quiet", text: "All work is shown as done." })];
  return [
    el("h3", { text: "What comes next" }),
    el(
      "ul",
      { class: "next-tasks" },
      ...left
        .slice(0, SHOWN)
        .map((task) =>
          el(
            "li",
            {},
            el("p", {}, el("strong", { text: task.description })),
            el("p", { class: "quiet", text: [whenWords(task), gangName(programme, task)].filter(Boolean).join(", ") }),
            doneButtons(state, task, task.description),
          ),
        ),
    ),
    el("p", {
      class: "quiet",
      text:
        `${every.length - left.length} of ${every.length} done. ` +
        (left.length > SHOWN ? "Later work: touch its bar below." : ""),
    }),
  ];
}

/** @param {plan.Task} task */
const whenWords = (task) =>
  `${clock(task.start)} to ${clock(task.finish)}` +
  (task.done_percent ? `, ${Math.round(task.done_percent)} % done` : "");
