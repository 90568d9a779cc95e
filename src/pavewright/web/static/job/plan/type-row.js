// @ts-check
/** The boxes of one typed side: its length, its direction, the angle before it, the wall along it. */
import { el, say } from "../../lib/dom.js";
import { figures, lengthField } from "../../lib/ask-box.js";
import { turnOf } from "./type-shape.js";

/** @typedef {import("./type-lengths.js").Typing} Typing */

const HEADINGS = /** @type {Record<string, number>} */ ({ ArrowRight: 0, ArrowUp: 90, ArrowLeft: 180, ArrowDown: 270 }),
  ARROWS = ["→", "↗", "↑", "↖", "←", "↙", "↓", "↘"];

/** @param {number} heading_deg */
const arrow = (heading_deg) => ARROWS[Math.round((((heading_deg % 360) + 360) % 360) / 45) % 8];

/** The boxes of one side. @param {Typing} typing @param {any} row */
export function fillRow(typing, row) {
  const number = typing.rows.length,
    side = `Side ${number + 1}`;
  const length = lengthField(side, {
    now: () => (row.length_mm ? figures(row.length_mm) : ""),
    take: (value) => {
      row.length_mm = value && value > 0 ? value : null;
      typing.draw();
    },
  });
  const way = el("button", { type: "button", class: "small way", tabindex: "-1" }),
    angle = el("input", {
      type: "text",
      inputmode: "decimal",
      tabindex: "-1",
      "aria-label": `Angle before side ${number + 1}`,
    }),
    wall = el("input", { type: "checkbox", tabindex: "-1", "aria-label": `A house wall along side ${number + 1}` });
  const dpc = lengthField(`DPC level of side ${number + 1}`, {
    kind: "level",
    seen: false,
    now: () => (row.dpc_level_mm === null ? "" : figures(row.dpc_level_mm)),
    take: (value) => {
      row.dpc_level_mm = value;
    },
  });
  dpc.input.placeholder = "DPC, not read";
  const before = () => typing.rows[number - 1]?.heading_deg ?? null;
  row.draw = () => {
    say(way, arrow(row.heading_deg));
    way.setAttribute("aria-label", `${side} runs ${arrow(row.heading_deg)}; turn it`);
    const from = before();
    angle.hidden = from === null;
    if (from !== null && document.activeElement !== angle) angle.value = figures(180 - turnOf(from, row.heading_deg));
    wall.checked = row.wall;
    dpc.field.hidden = !row.wall;
  };
  row.focus = () => length.input.focus();
  way.addEventListener("click", () => typing.turn(row, (row.heading_deg + 90) % 360));
  wall.addEventListener("change", () => {
    row.wall = wall.checked;
    typing.draw();
  });
  angle.addEventListener("change", () => {
    const value = Number(angle.value.replace(",", ".").replace("°", "")),
      from = before();
    if (from !== null && value > 0 && value < 360) typing.turn(row, (from + 180 - value + 360) % 360);
    row.draw();
  });
  for (const box of [length, dpc])
    box.input.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && box.settled()) {
        event.preventDefault();
        typing.finish();
      }
    });
  length.input.addEventListener("keydown", (event) => {
    const heading = HEADINGS[event.key],
      along = event.key === "ArrowLeft" || event.key === "ArrowRight";
    if (heading !== undefined && !event.shiftKey && !(along && length.input.value)) {
      event.preventDefault();
      typing.turn(row, heading);
    } else if (event.key === "@" && number > 0) {
      event.preventDefault();
      angle.focus();
      angle.select();
    } else if (event.key.toLowerCase() === "w" && !event.ctrlKey && !event.metaKey && typing.kind === "area") {
      event.preventDefault();
      row.wall = !row.wall;
      typing.draw();
    }
  });
  angle.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    angle.dispatchEvent(new Event("change"));
    length.input.focus();
  });
  row.node = el(
    "div",
    { class: "side-typed" },
    way,
    length.field,
    el(
      "label",
      { class: "with-unit in corner-typed", hidden: number === 0 },
      angle,
      el("span", { class: "unit", text: "°" }),
    ),
    typing.kind === "area" ? el("label", { class: "wall-typed" }, wall, "wall") : null,
    dpc.field,
  );
}
