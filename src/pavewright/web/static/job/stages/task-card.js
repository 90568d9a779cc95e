// @ts-check
/** The task that is looked at: why it lies where it does, its pin with its reason, and what of it is done. */
import { el, tell } from "../../lib/dom.js";
import { day } from "../../lib/words.js";
import { clock, floatWords, gangName, heldWords } from "./task-words.js";

/** Today by the clock of this device, as a date. */
export function today() {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
}

/**
 * Pin a task to a day; a day before the one on which it can begin at the earliest takes its pin away.
 * @param {Planned} state @param {plan.Task} task @param {string} on
 */
export function pinned(state, task, on) {
  const earlier = on < task.start.slice(0, 10);
  if (earlier && task.held_by.kind !== "pin") {
    tell(heldWords(state.plan.programme, task));
    return;
  }
  state.change(`${task.description}: pinned to ${day(on)}`, (doc) => {
    const had = (doc.pins ?? []).find((/** @type {any} */ pin) => pin.task === task.key);
    if (had) had.on = on;
    else doc.pins = [...(doc.pins ?? []), { task: task.key, on, reason: "" }];
  });
  tell(`Pinned to ${day(on)}. The plan follows.`, { label: "Undo", act: () => state.undo() });
}

/** @param {Planned} state @param {plan.Task} task */
function unpinned(state, task) {
  state.change(`${task.description}: no longer pinned`, (doc) => {
    doc.pins = doc.pins.filter((/** @type {any} */ pin) => pin.task !== task.key);
  });
}

/** @param {Planned} state @param {plan.Task} task @param {number} percent */
function done(state, task, percent) {
  const on = today(),
    planned = task.start.slice(0, 10);
  state.change(`${task.description}: ${percent < 100 ? `${percent} % ` : ""}done`, (doc) => {
    const others = (doc.done ?? []).filter((/** @type {any} */ one) => one.task !== task.key),
      had = (doc.done ?? []).find((/** @type {any} */ one) => one.task === task.key);
    const since = had?.since ?? (planned <= on ? planned : on);
    doc.done = [...others, { task: task.key, on, since, done_percent: percent }];
  });
  tell(`Shown as done on ${day(on)}. What is left is planned from the day after.`, {
    label: "Undo",
    act: () => state.undo(),
  });
}

/** @param {Planned} state @param {plan.Task} task */
function notDone(state, task) {
  state.change(`${task.description}: not done`, (doc) => {
    doc.done = doc.done.filter((/** @type {any} */ one) => one.task !== task.key);
  });
}

/** @param {Planned} state @param {string} key */
export function card(state, key) {
  const { programme, job } = state.plan,
    task = programme.tasks.find((one) => one.key === key);
  if (!task) return el("p", { class: "quiet", text: "Touch a bar to see why it lies there, and to show it as done." });
  return el(
    "section",
    { class: "task-card", "aria-label": task.description },
    el("h3", { text: task.description }),
    el("p", {
      text: [`${clock(task.start)} to ${clock(task.finish)}`, gangName(programme, task)].filter(Boolean).join(", "),
    }),
    el("p", { text: heldWords(programme, task) }),
    el("p", { text: `Float: ${floatWords(task, job)}.` }),
    ...(task.wait ? [] : pinFields(state, task)),
    ...(task.wait && !task.hold ? [] : [doneButtons(state, task)]),
  );
}

/**
 * Buttons that show a task as done; where several tasks have them each says of what.
 * @param {Planned} state @param {plan.Task} task
 */
export function doneButtons(state, task, of = "") {
  const button = (/** @type {string} */ text, /** @type {() => void} */ act) =>
    el("button", { type: "button", text, "aria-label": of ? `${text}: ${of}` : text, on: { click: act } });
  return el(
    "p",
    { class: "ways" },
    task.done_percent < 100 ? button(task.hold ? "Looked at today" : "Done today", () => done(state, task, 100)) : null,
    task.done_percent < 100 && !task.hold ? button("Half done today", () => done(state, task, 50)) : null,
    task.done_percent ? button("Not done", () => notDone(state, task)) : null,
  );
}

/** @param {Planned} state @param {plan.Task} task */
function pinFields(state, task) {
  if (task.done_percent >= 100) return [];
  const pin = (state.doc.pins ?? []).find((/** @type {any} */ one) => one.task === task.key);
  const on = el("input", {
    type: "date",
    value: pin?.on ?? "",
    on: {
      change: (/** @type {{target: HTMLInputElement}} */ event) => {
        if (event.target.value) pinned(state, task, event.target.value);
        else if (pin) unpinned(state, task);
      },
    },
  });
  const fields = [el("label", { class: "field" }, el("span", { text: "Not before" }), on)];
  if (pin)
    fields.push(
      el(
        "label",
        { class: "field" },
        el("span", { text: "Why" }),
        el("input", {
          type: "text",
          value: pin.reason ?? "",
          on: {
            change: (/** @type {{target: HTMLInputElement}} */ event) =>
              state.change(`${task.description}: why it is pinned`, (doc) => {
                const had = doc.pins.find((/** @type {any} */ one) => one.task === task.key);
                if (had) had.reason = event.target.value;
              }),
          },
        }),
      ),
    );
  const box = el("div", { class: "fields" }, ...fields);
  if (!pin) return [box];
  const free = el("button", { type: "button", text: "No longer pinned", on: { click: () => unpinned(state, task) } });
  return [box, el("p", {}, free)];
}
