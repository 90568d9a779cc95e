// @ts-check
import { el, svg } from "../../lib/dom.js";
import { form, group } from "../form/form.js";
import { fact, facts, table } from "../../lib/results.js";
import { cut, day, plain } from "../../lib/words.js";

/** @param {Planned} state */
export function results(state) {
  const { programme } = state.plan;
  return [
    facts(
      fact("Starts", day(programme.start)),
      fact("Ends", day(programme.finish)),
      fact("Days on site", String(programme.site_days)),
      fact("To walk on", programme.foot_ready ? day(programme.foot_ready) : "–"),
    ),
    bars(programme),
    table(
      [
        { head: "Task" },
        { head: "From" },
        { head: "To" },
        { head: "Hours", number: true },
        { head: "People", number: true },
        { head: "" },
      ],
      programme.tasks.map((task) => [
        task.description,
        clock(task.start),
        clock(task.finish),
        plain(task.work_min / 60, 1),
        String(task.people),
        [task.weather ? "not in rain" : "", task.wait ? "waits" : ""].filter(Boolean).join(", "),
      ]),
      "Programme",
    ),
  ];
}
/** @param {string} iso */
const clock = (iso) => `${day(iso)} ${iso.slice(11, 16)}`;

/** @param {plan.Programme} programme */
function bars(programme) {
  const start = new Date(`${programme.start}T00:00`).getTime(),
    end = new Date(`${programme.finish}T23:59`).getTime(),
    width = 640,
    left = 210;
  const put = (/** @type {string} */ iso) =>
    left + ((new Date(iso).getTime() - start) / (end - start)) * (width - left - 8);
  const height = programme.tasks.length * 26 + 26,
    picture = svg("svg", {
      viewBox: `0 0 ${width} ${height}`,
      role: "img",
      "aria-label": "Programme as bars; the table below says the same",
      class: "paper",
    });
  for (let at = start, row = 0; at < end; at += 86400000, row += 1) {
    const x = put(new Date(at).toISOString().slice(0, 19)),
      weekday = new Date(at).getDay();
    picture.append(
      svg("path", { d: `M${x} 20V${height}`, stroke: "var(--line)", "stroke-width": weekday === 1 ? 2 : 1 }),
    );
    if (weekday === 1 || row === 0)
      picture.append(
        svg("text", {
          x: x + 2,
          y: 14,
          "font-size": 12,
          fill: "currentColor",
          text: new Date(at).toLocaleDateString("en-GB", { day: "numeric", month: "short" }),
        }),
      );
  }
  programme.tasks.forEach((task, index) => {
    const y = 24 + index * 26,
      x = put(task.start),
      wide = Math.max(put(task.finish) - x, 4);
    picture.append(
      svg("text", {
        x: left - 8,
        y: y + 15,
        "font-size": 12.5,
        "text-anchor": "end",
        fill: "currentColor",
        text: task.description.length > 30 ? `${cut(task.description, 29)}…` : task.description,
      }),
      svg("rect", {
        x,
        y: y + 3,
        width: wide,
        height: 16,
        rx: 2,
        fill: task.wait ? "none" : "var(--act)",
        stroke: "var(--act)",
        "stroke-dasharray": task.wait ? "4 3" : null,
      }),
    );
  });
  return el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Programme as bars" }, picture);
}
/** @param {Planned} state */
export const inputs = (state) => [
  group("Crew", [form(state, ["crew"])], { open: true }),
  group("Calendar", [form(state, ["calendar"])]),
];
