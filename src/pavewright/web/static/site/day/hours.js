// @ts-check
/** Who is there, and hours by task: one touch for a person, a task, its hours, and how far it is. */
import { ask, el } from "../../lib/dom.js";
import { plain } from "../../lib/words.js";
import { source } from "../sources.js";
import { picker, set } from "../parts.js";
import { book, done, expectedHours, peopleOf, taskSaid } from "./log.js";
import { dayOf, write, inHours } from "./parts.js";

/** @typedef {import("../parts.js").Here} Here */

const HOURS = [0.5, 1, 2, 4, 8],
  SHARES = [25, 50, 75, 100],
  NEXT = 4;
const PEOPLE = "pavewright.people"; // names that this phone knows, whatever the job

/** @param {Here} here @returns {Node[]} */
export function hours(here) {
  const day = dayOf(here),
    tasks = here.view?.parts?.day?.tasks ?? [];
  return [
    people(here, day),
    ...(tasks.length
      ? work(here, day, tasks)
      : [el("p", { class: "ask", text: "The plan has no tasks yet: write the hours of the day in the note." })]),
  ];
}

/** Names that may be touched. @param {Here} here */
function known(here) {
  let kept = [];
  try {
    kept = JSON.parse(localStorage.getItem(PEOPLE) ?? "[]");
  } catch {
    /* then those of the job are all */
  }
  const all = [...new Set([...peopleOf(here.doc), ...(Array.isArray(kept) ? kept.map(String) : [])])].slice(0, 12);
  try {
    localStorage.setItem(PEOPLE, JSON.stringify(all));
  } catch {
    /* they stand in the job */
  }
  return all;
}

/** @param {Here} here @param {doc.SiteDay|null} day */
function people(here, day) {
  const there = new Map((day?.present ?? []).map((one) => [one.name, one])),
    usual = here.doc.crew?.hours_per_day ?? 8;
  const add = (/** @type {string} */ name) =>
    write(here, `${name} is there`, (draft) => {
      draft.present = [...(draft.present ?? []), { name, there_h: usual }];
    });
  return el(
    "div",
    { class: "words", role: "group", "aria-label": "Who is there" },
    ...[...new Set([...known(here), ...there.keys()])].map((name) => {
      const one = there.get(name);
      return el("button", {
        type: "button",
        "aria-pressed": String(Boolean(one)),
        text: one ? `${name}, ${one.there_h ? `${inHours(one.there_h)}` : "hours not counted"}` : name,
        on: { click: () => (one ? there_h(here, name) : add(name)) },
      });
    }),
    el("button", {
      type: "button",
      text: "+ Name",
      on: {
        click: async () => {
          const name = await asked("Who is there?", "Name", "text");
          if (name) add(name.slice(0, 60));
        },
      },
    }),
  );
}

/** Ask for a line. @param {string} title @param {string} label @param {string} mode @param {string} [value] */
async function asked(title, label, mode, value = "") {
  const input = el("input", { type: "text", inputmode: mode, maxlength: "60", "aria-label": label, value });
  const way = await ask(
    title,
    [input],
    [
      { label: "Save", value: "yes", main: true },
      { label: "Back", value: "no" },
    ],
  );
  return way === "yes" ? input.value.trim() : "";
}

/** Other hours for somebody, or not there after all. @param {Here} here @param {string} name */
async function there_h(here, name) {
  const input = el("input", { type: "text", inputmode: "decimal", maxlength: "6", "aria-label": "Hours there" });
  input.value = String(dayOf(here)?.present?.find((one) => one.name === name)?.there_h ?? "");
  const way = await ask(
    name,
    [el("label", { class: "field" }, el("span", { class: "name", text: "Hours there, without breaks" }), input)],
    [
      { label: "Save", value: "save", main: true },
      { label: "Was not there", value: "gone" },
      { label: "Back", value: "no" },
    ],
  );
  const found = Number(input.value.replace(",", "."));
  if (way === "gone")
    write(here, `${name} was not there`, (day) => {
      day.present = (day.present ?? []).filter((one) => one.name !== name);
    });
  if (way !== "save") return;
  if (input.value.trim() && !(found > 0 && found <= 24)) return here.say("Hours lie between 0 and 24.");
  write(here, `${name}: ${found ? `${found} h` : "hours not counted"}`, (day) => {
    for (const one of day.present ?? [])
      if (one.name === name) {
        if (found) one.there_h = found;
        else delete one.there_h;
      }
  });
}

/** @param {Here} here @param {doc.SiteDay|null} day @param {plan.TaskOnSite[]} tasks */
function work(here, day, tasks) {
  const said = new Map(tasks.map((one) => [one.key, taskSaid(here.doc, one.key)])),
    left = tasks.filter((one) => (said.get(one.key)?.done_percent ?? one.done_percent) < 100),
    begun = left.filter((one) => said.get(one.key)?.logged_h),
    near = [...new Set([...begun, ...left])].slice(0, NEXT);
  const task = tasks.find((one) => one.key === here.ui.dayTask) ?? near[0] ?? tasks[0],
    shown = near.includes(task) ? near : [task, ...near.slice(0, NEXT - 1)],
    crew = Math.max(1, day?.present?.length ?? here.doc.crew?.people ?? 1),
    hands = Math.min(here.ui.dayHands ?? crew, 20);
  return [
    el(
      "div",
      { class: "words day-tasks", role: "group", "aria-label": "Which task" },
      ...shown.map((one) =>
        el("button", {
          type: "button",
          "aria-pressed": String(one === task),
          text: `${one.words}${pieces(said.get(one.key))}`,
          on: { click: () => set(here, { dayTask: one.key }) },
        }),
      ),
    ),
    tasks.length > shown.length
      ? picker(
          "Any other task",
          tasks.map((one) => one.key),
          task.key,
          (key) => set(here, { dayTask: key }),
          { spoken: (key) => tasks.find((one) => one.key === key)?.words ?? key },
        )
      : el("span"),
    el(
      "div",
      { class: "day-hands" },
      el("button", {
        type: "button",
        "aria-label": "One fewer",
        text: "−",
        disabled: hands < 2,
        on: { click: () => set(here, { dayHands: hands - 1 }) },
      }),
      el("p", { role: "status" }, el("b", { text: String(hands) }), hands === 1 ? " works on it" : " work on it"),
      el("button", {
        type: "button",
        "aria-label": "One more",
        text: "+",
        on: { click: () => set(here, { dayHands: hands + 1 }) },
      }),
    ),
    el("p", { class: "name", text: "Add hours on the clock" }),
    el(
      "div",
      { class: "words day-keys", role: "group", "aria-label": "Add hours on the clock" },
      ...HOURS.map((each) =>
        el("button", {
          type: "button",
          text: `+ ${each === 0.5 ? "½" : each} h`,
          on: {
            click: () =>
              write(here, `${inHours(each * hands)}: ${task.words}`, (mine) => book(mine, task.key, each * hands)),
          },
        }),
      ),
    ),
    el("p", { class: "name", text: "Done by now" }),
    el(
      "div",
      { class: "words day-keys", role: "group", "aria-label": "Done by now" },
      ...SHARES.map((each) => share(here, task, each, day)),
      el("button", {
        type: "button",
        text: "… %",
        "aria-label": "Another share",
        disabled: !booked(day, task),
        on: {
          click: async () => {
            const typed = await asked(`How much is done? ${task.words}`, "Done, %", "numeric");
            const found = Number(typed.replace(",", "."));
            if (!typed) return;
            if (!(found > 0 && found <= 100)) return here.say("Between 1 and 100 %.");
            say(here, task, found);
          },
        },
      }),
    ),
    told(here, task, said.get(task.key)),
  ];
}

/** @param {doc.SiteDay|null} day @param {plan.TaskOnSite} task */
const booked = (day, task) => Boolean(day?.worked?.some((one) => one.task === task.key));

/** @param {Here} here @param {plan.TaskOnSite} task @param {number} percent @param {doc.SiteDay|null} day */
function share(here, task, percent, day) {
  const now = day?.worked?.find((one) => one.task === task.key)?.done_percent;
  return el("button", {
    type: "button",
    "aria-pressed": String(now === percent),
    text: percent === 100 ? "All" : `${percent} %`,
    disabled: !booked(day, task),
    on: { click: () => say(here, task, percent) },
  });
}

/** @param {Here} here @param {plan.TaskOnSite} task @param {number} percent */
const say = (here, task, percent) =>
  write(here, `${percent} % done: ${task.words}`, (mine, draft) => done(draft, mine, task.key, percent));

/** @param {{logged_h: number, done_percent: number|null}|undefined} said */
const pieces = (said) =>
  said?.logged_h
    ? ` (${inHours(said.logged_h)}${said.done_percent === null ? "" : `, ${plain(said.done_percent)} %`})`
    : "";

/**
 * How a task goes, with its sum.
 * @param {Here} here @param {plan.TaskOnSite} task
 * @param {{logged_h: number, done_percent: number|null}|undefined} said
 */
function told(here, task, said) {
  const part = here.view?.parts?.day,
    done = said?.done_percent ?? null,
    range = `${plain(task.low_h, 0)} to ${plain(task.high_h, 0)} h`;
  const words = (/** @type {string} */ text) =>
    el("p", { class: "quiet", role: "status", text: `${text} Planned: ${range} of people.` });
  if (!part || !said?.logged_h) return words("No hours yet.");
  if (done === null) return words(`${inHours(said.logged_h)} so far. Say how much is done: hours alone tell no end.`);
  if (done < part.judge_from.value) return words(`${inHours(said.logged_h)} so far: too early to say more.`);
  const found = expectedHours(said.logged_h, done, part.done_sd.value),
    slow = found.low_h > task.high_h,
    quick = found.high_h < task.low_h;
  const ends =
    done >= 100 ? `${inHours(found.likely_h)}` : `${plain(found.low_h, 0)} to ${plain(found.high_h, 0)} h in all`;
  return el(
    "div",
    { class: `finding ${slow ? "check" : "note"}`, role: "status" },
    el(
      "p",
      {},
      el("b", { text: slow ? "▲ Slower" : quick ? "▼ Quicker" : "= As planned" }),
      `: ${ends}; planned ${range}.`,
    ),
    el(
      "details",
      {},
      el("summary", { text: "The sum" }),
      el("p", {
        class: "sum-line",
        text:
          `${inHours(said.logged_h)} / ${plain(done)} % = ${inHours(found.likely_h)}; the share may be off by ` +
          `${plain(2 * part.done_sd.value)} points either way`,
      }),
      source(here, part.done_sd),
    ),
  );
}
