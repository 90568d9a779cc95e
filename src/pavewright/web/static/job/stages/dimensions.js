// @ts-check
/** The dimension book: every item line by line, deductions negative, each with its drawing. */
import { el } from "../../lib/dom.js";
import { group } from "../form/form.js";
import { table } from "../../lib/results.js";
import { plain } from "../../lib/words.js";
import { openDrawing } from "./open-drawing.js";

const TITLES = {
  survey: "Site as measured",
  levels: "Finished levels",
  laying: "Laying",
  dig: "Dig",
  water: "Water",
  steps: "Section through steps",
};

/** @param {plan.Dimension} line */
function figures(line) {
  const lengths = [line.length_m, line.width_m, line.depth_m].filter((each) => each !== null);
  const sides = lengths.map((each) => `${plain(Number(each), 3)} m`);
  if (line.area_m2 !== null) sides.unshift(`${plain(line.area_m2, 3)} m²`);
  if (line.volume_m3 !== null) sides.unshift(`${plain(line.volume_m3, 3)} m³`);
  if (line.times !== 1 || !sides.length) sides.unshift(plain(line.times, Number.isInteger(line.times) ? 0 : 2));
  if (line.each_unit) sides.push(`${plain(line.each, 3)} ${line.each_unit}`);
  return sides.join(" × ");
}

/** @param {Planned} state @param {plan.Dimension} line @param {HTMLElement} told */
function drawing(state, line, told) {
  const key = line.drawing === "steps" ? `steps-${(line.scope ?? "steps.1").split(".").at(-1)}` : line.drawing,
    words = TITLES[line.drawing];
  return el("button", {
    type: "button",
    class: "small",
    text: words,
    "aria-label": `Drawing: ${words}`,
    on: { click: () => openDrawing(state, key, words, told) },
  });
}

/** @param {Planned} state */
export function dimensionsPart(state) {
  const told = el("p", { class: "quiet", role: "status" });
  const inside = state.plan.quantities.items
    .filter((item) => item.dimensions.length)
    .flatMap((item) => [
      el("h3", { text: item.description }),
      table(
        [
          { head: "What and where" },
          { head: "Figures", number: true },
          { head: "Amount", number: true },
          { head: "Drawing" },
        ],
        [
          ...item.dimensions.map((line) => [
            line.side ? `${line.words}, side ${line.side}` : line.words,
            figures(line),
            plain(line.amount, 3),
            drawing(state, line, told),
          ]),
          ["Net", "", `${plain(item.net, 3)} ${item.unit}`, ""],
        ],
        `Dimensions: ${item.description}`,
      ),
    ]);
  return group("Dimension book", [
    el("p", {
      text: "Every figure as it is measured, deductions negative; nothing is added for waste here.",
    }),
    told,
    ...inside,
  ]);
}
