// @ts-check
/**
 * The programme as bars. A bar is a button: it can be dragged to another day, or moved by the arrow keys, which pins it
 * there. What is critical has a thick edge and a sign, so that no colour is needed to see it.
 */
import { el, svg } from "../../lib/dom.js";
import { day } from "../../lib/words.js";
import { clock, floatWords } from "./task-words.js";
import { pinned } from "./task-card.js";
import { firstDay, supplyRow, supplyRows } from "./gantt-supply.js";
import { tag } from "../../lib/writing.js";

const ROW = 48,
  BAR = 18,
  HEAD = 24,
  LEFT = 8,
  LINE = 16,
  LETTERS = 38,
  DAY_MS = 86400000;

/** @typedef {{put: (iso: string) => number, wide: number, dayWide: number, width: number}} Scale */

/**
 * @param {Planned} state @param {{task: string, byGang: boolean}} look
 * @param {(key: string) => void} choose called with the key of the task that is looked at
 */
export function chart(state, look, choose) {
  const { programme } = state.plan,
    byGang = look.byGang && programme.gangs.length > 1,
    scale = scaleOf(programme),
    supplied = supplyRows(state),
    own = byGang
      ? [...programme.gangs.map((gang) => gang.name || "Crew"), "Nobody on site, or done"]
      : programme.tasks.map((task) => `${sign(task)}${task.description}`),
    names = [...own, ...supplied.map((row) => row.name)],
    tops = topsOf(names),
    height = (tops.at(-1) ?? HEAD) + 4;
  const picture = svg("svg", {
    width: scale.width,
    height,
    viewBox: `0 0 ${scale.width} ${height}`,
    class: "gantt",
    role: "group",
    "aria-label": "Programme as bars; the table of every task says the same",
  });
  days(picture, state.plan, scale, height);
  programme.tasks.forEach((task, index) => {
    const row = byGang ? (task.gang ?? programme.gangs.length) : index,
      place = { y: tops[row], high: tops[row + 1] - tops[row] };
    picture.append(bar(state, task, place, scale, { choose, chosen: look.task === task.key, byGang }));
  });
  supplied.forEach((row, index) => {
    const at = own.length + index;
    picture.append(supplyRow(row, { y: tops[at], high: tops[at + 1] - tops[at] }, scale));
  });
  const sheet = el("div", { class: "gantt-sheet" }, nameList(names, tops), picture);
  sheet.style.width = `${scale.width}px`;
  return el("div", { class: "scroll gantt-room", role: "region", "aria-label": "Programme as bars" }, sheet);
}

/** Where rows begin, and where the last ends: a long name has two lines or three. @param {string[]} names */
function topsOf(names) {
  const tops = [HEAD];
  for (const name of names) tops.push((tops.at(-1) ?? HEAD) + ROW + (Math.ceil(name.length / LETTERS) - 1) * LINE);
  return tops;
}

/**
 * Names of the rows, which stay where they are read while the days run by.
 * @param {string[]} names @param {number[]} tops
 */
function nameList(names, tops) {
  const list = el("div", { class: "bar-names", "aria-hidden": "true" });
  names.forEach((name, row) => {
    const words = el("span", { text: name });
    words.style.top = `${tops[row] + 4}px`;
    list.append(words);
  });
  return list;
}

/** @param {plan.Programme} programme @returns {Scale} */
function scaleOf(programme) {
  const first = new Date(`${firstDay(programme)}T00:00`).getTime(),
    ends = programme.tasks.map((task) => new Date(task.finish).getTime()),
    last = Math.max(...ends, new Date(`${programme.finish}T00:00`).getTime()),
    count = Math.floor((last - first) / DAY_MS) + 1,
    dayWide = Math.max(34, Math.min(72, 640 / count));
  return {
    put: (iso) => LEFT + ((new Date(iso).getTime() - first) / DAY_MS) * dayWide,
    wide: count * dayWide,
    dayWide,
    width: Math.ceil(count * dayWide) + 2 * LEFT,
  };
}

/** @param {SVGElement} picture @param {Planned["plan"]} plan @param {Scale} scale @param {number} height */
function days(picture, { programme, job }, scale, height) {
  const first = new Date(`${firstDay(programme)}T12:00`);
  for (let row = 0; LEFT + row * scale.dayWide < scale.width - LEFT; row += 1) {
    const at = new Date(first.getTime() + row * DAY_MS),
      monday = at.getDay() === 1,
      x = LEFT + row * scale.dayWide;
    if (isOff(job.calendar, at))
      picture.append(svg("rect", { x, y: HEAD, width: scale.dayWide, height: height - HEAD, class: "day-off" }));
    picture.append(svg("path", { d: `M${x} ${HEAD}V${height}`, class: monday ? "week" : "day" }));
    if (monday || row === 0)
      picture.append(label(x + 2, 15, at.toLocaleDateString(tag(), { day: "numeric", month: "short" }), "start"));
  }
}

/** Whether nobody works on a day. @param {Planned["plan"]["job"]["calendar"]} calendar @param {Date} noon */
const isOff = (calendar, noon) =>
  !calendar.weekdays.includes((noon.getDay() + 6) % 7) ||
  calendar.days_off.includes(new Date(noon.getTime() - noon.getTimezoneOffset() * 60000).toISOString().slice(0, 10));

/** @param {number} x @param {number} y @param {string} text @param {"start"|"end"} anchor */
const label = (x, y, text, anchor) =>
  svg("text", { x, y, "font-size": 13, "text-anchor": anchor, fill: "currentColor", text });

/** @param {plan.Task} task */
const sign = (task) =>
  `${task.done_percent >= 100 ? "✓ " : ""}${task.pinned_on ? "⚑ " : ""}${task.critical ? "◆ " : ""}`;

/**
 * @param {Planned} state @param {plan.Task} task
 * @param {{y: number, high: number}} place @param {Scale} scale
 * @param {{choose: (key: string) => void, chosen: boolean, byGang: boolean}} wishes
 */
function bar(state, task, { y, high }, scale, wishes) {
  const x = scale.put(task.start),
    wide = Math.max(scale.put(task.finish) - x, 5),
    late = scale.put(task.late_finish),
    grab = Math.max(wide + 8, 44),
    top = y + high - BAR - 6;
  const told =
    `${task.description}, ${clock(task.start)} to ${clock(task.finish)}, float ${floatWords(task, state.plan.job)}` +
    `${task.pinned_on ? `, pinned to ${day(task.pinned_on)}` : ""}`;
  const node = svg(
    "g",
    {
      class: classOf(task),
      tabindex: "0",
      role: "button",
      "aria-pressed": String(wishes.chosen),
      "aria-label": told,
      "data-task": task.key,
    },
    // a row takes a touch over its whole width; by its bar it is dragged, and that is never narrower than a finger
    wishes.byGang ? null : svg("rect", { x: 0, y, width: scale.width, height: high, class: "reach" }),
    svg("rect", { x: Math.max(x + wide / 2 - grab / 2, 0), y: top - 4, width: grab, height: BAR + 8, class: "grab" }),
    late > x + wide + 1 && !task.done_percent
      ? svg("path", { d: `M${x + wide} ${top + BAR / 2}H${late}M${late} ${top + 3}V${top + BAR - 3}`, class: "float" })
      : null,
    task.hold
      ? svg("path", { d: diamond(x + (wide > 5 ? wide / 2 : 0), top + BAR / 2), class: "shape" })
      : svg("rect", { x, y: top, width: wide, height: BAR, rx: 2, class: "shape" }),
  );
  node.addEventListener("click", () => wishes.choose(task.key));
  if (!task.wait && task.done_percent < 100) drags(state, task, node, scale, wishes.choose);
  node.addEventListener("keydown", (event) => {
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      wishes.choose(task.key);
    }
  });
  return node;
}

/** @param {plan.Task} task */
const classOf = (task) =>
  ["bar", task.wait && "waits", task.critical && "critical", task.done_percent >= 100 && "done"]
    .filter(Boolean)
    .join(" ");

/** @param {number} x @param {number} y */
const diamond = (x, y) => `M${x} ${y - 9}L${x + 9} ${y}L${x} ${y + 9}L${x - 9} ${y}Z`;

/**
 * Let a bar be moved by whole days, by hand and by the arrow keys.
 * @param {Planned} state @param {plan.Task} task @param {SVGElement} node @param {Scale} scale
 * @param {(key: string) => void} choose
 */
function drags(state, task, node, scale, choose) {
  /** @type {number|null} */ let from = null;
  let by = 0;
  node.addEventListener("pointerdown", (event) => {
    if (/** @type {Element} */ (event.target).classList.contains("reach")) return;
    from = event.clientX;
    by = 0;
    node.setPointerCapture(event.pointerId);
  });
  node.addEventListener("pointermove", (event) => {
    if (from === null) return;
    by = Math.round((event.clientX - from) / scale.dayWide);
    node.setAttribute("transform", `translate(${by * scale.dayWide} 0)`);
  });
  const ends = () => {
    if (from === null) return;
    from = null;
    node.removeAttribute("transform");
    if (by) choose(task.key);
    if (by) pinned(state, task, dragged(task, by));
  };
  node.addEventListener("pointerup", ends);
  node.addEventListener("pointercancel", () => {
    from = null;
    node.removeAttribute("transform");
  });
  node.addEventListener("keydown", (event) => {
    const step = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
    if (!step) return;
    event.preventDefault();
    choose(task.key);
    pinned(state, task, moved(state, task, step));
  });
}

/**
 * The day so many working days from the one on which a task begins.
 * @param {Planned} state @param {plan.Task} task @param {number} by
 */
function moved(state, task, by) {
  const at = new Date(`${task.start.slice(0, 10)}T12:00:00Z`),
    { weekdays, days_off: off } = state.plan.job.calendar;
  for (let left = Math.abs(by), tries = 0; left > 0 && tries < 400; tries += 1) {
    at.setUTCDate(at.getUTCDate() + Math.sign(by));
    const iso = at.toISOString().slice(0, 10);
    if (weekdays.includes((at.getUTCDay() + 6) % 7) && !off.includes(iso)) left -= 1;
  }
  return at.toISOString().slice(0, 10);
}

/** The day to which a bar was dragged. @param {plan.Task} task @param {number} by */
function dragged(task, by) {
  const at = new Date(`${task.start.slice(0, 10)}T12:00:00Z`);
  at.setUTCDate(at.getUTCDate() + by);
  return at.toISOString().slice(0, 10);
}
