// @ts-check
/** The plan as it is shown, printed to scale: so many millimetres of the site to one of the paper. */
import { ask, el, say, svg } from "../../lib/dom.js";
import { tape } from "../../lib/words.js";
import { LAYERS } from "./layers.js";
import { outlineOf, placesOf } from "./outline.js";
import { northArrow, scaleBar } from "./marks.js";
import { PlanView } from "./view.js";
import { pathOf } from "./paths.js";
import { drawable } from "../so-far.js";
import { tag } from "../../lib/writing.js";

/** @typedef {JobState & { plan: PlanSoFar }} Measured a job that has been surveyed */

const PX_PER_MM = 96 / 25.4; // what a browser takes for a millimetre of paper
const SCALES = [5, 10, 20, 25, 50, 100, 200, 500];
const RIM_MM = 14; // room on the paper for what stands outside of the outline

/**
 * Papers by name: what the plan has of each, beside its margins and its head, mm.
 * @type {Record<string, {name: string, wide: number, high: number}>}
 */
export const PAPERS = {
  "a4-landscape": { name: "A4 landscape", wide: 277, high: 172 },
  "a4-portrait": { name: "A4 portrait", wide: 190, high: 259 },
  "a3-landscape": { name: "A3 landscape", wide: 400, high: 259 },
};

/** The largest scale at which a box fits a paper; null where none does. @param {number[]} box @param {string} paper */
export function scaleFor([x1, y1, x2, y2], paper) {
  const { wide, high } = PAPERS[paper];
  return SCALES.find((each) => (x2 - x1) / each <= wide - 2 * RIM_MM && (y2 - y1) / each <= high - 2 * RIM_MM) ?? null;
}

/** What is printed: everything that outlines, walls and drains reach. @param {Measured} state @returns {number[]} */
export function boxOf(state) {
  const places = placesOf(state.plan),
    site = state.plan.survey.site,
    all = [];
  for (const area of state.doc.areas ?? []) all.push(...outlineOf(area.outline, places));
  for (const each of [...site.gullies, ...site.covers]) all.push(each.at);
  const xs = all.map((at) => at[0]),
    ys = all.map((at) => at[1]);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** A date of the job in words. @param {string} date */
const dateWords = (date) =>
  new Date(`${date}T00:00:00`).toLocaleDateString(tag(), { day: "numeric", month: "long", year: "numeric" });

/**
 * A sheet with the plan to scale, ready to be printed.
 * @param {Measured} state
 * @param {Iterable<string>} shown layers
 * @param {string} paper
 * @param {number} scale
 */
export function sheetToScale(state, shown, paper, scale) {
  const { high } = PAPERS[paper],
    { job, survey } = state.plan,
    box = boxOf(state);
  const holder = el("div", { class: "to-scale-plan" }),
    words = `1:${scale} on ${PAPERS[paper].name}, printed at 100\u00a0%. Measure the bar before you measure the plan.`;
  const sheet = el(
    "section",
    { class: `to-scale ${paper}`, "aria-label": "Plan to scale" },
    el(
      "header",
      {},
      el("strong", { text: `${job.identity.job}  ${job.identity.title}` }),
      el("span", { text: words }),
      el("span", {
        text:
          `${dateWords(job.identity.date)}, revision ` +
          `${job.identity.revision}${job.identity.invented ? ", invented example" : ""}`,
      }),
    ),
    holder,
  );
  document.body.append(sheet);
  const view = new PlanView(holder, "Plan to scale"),
    places = placesOf(state.plan);
  const layers = svg("g"),
    signs = svg("g");
  view.ground.append(layers);
  view.backSigns.append(signs);
  view.scale = PX_PER_MM / scale;
  const to = { ground: layers, signs, plan: drawable(state.plan), doc: state.doc, scale: view.scale, points: places };
  const on = new Set(shown);
  for (const [name, layer] of Object.entries(LAYERS)) if (on.has(name)) layer.draw(to);
  for (const area of state.doc.areas ?? [])
    for (const corners of [area.outline, ...(area.holes ?? [])]) {
      view.hand.append(
        svg("path", {
          class: "printed-outline",
          d: pathOf(outlineOf(corners, places)),
          fill: "none",
          stroke: "currentColor",
          "stroke-width": 2,
          "vector-effect": "non-scaling-stroke",
        }),
      );
      sides(view, corners, places);
    }
  [view.x, view.y] = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
  view.place();
  view.tidy();
  const north = northArrow(survey.site.north_bearing_deg ?? null),
    bar = scaleBar(view.scale, 60 * PX_PER_MM);
  north.setAttribute("transform", "translate(24 44)");
  bar.setAttribute("transform", `translate(60 ${(high * PX_PER_MM - 14).toFixed(1)})`);
  view.node.append(north, bar);
  return sheet;
}

/**
 * Lengths along the sides, where there is room.
 * @param {PlanView} view
 * @param {any[]} corners
 * @param {Map<string, number[]>} places
 */
function sides(view, corners, places) {
  corners.forEach((corner, index) => {
    const from = places.get(corner.point),
      to = places.get(corners[(index + 1) % corners.length].point);
    if (!from || !to) return;
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (length * view.scale < 40) return;
    let turn = (-Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
    if (turn > 90) turn -= 180;
    else if (turn < -90) turn += 180;
    view.signs.append(
      svg(
        "g",
        {
          class: "side",
          "data-long": length * view.scale,
          "data-x": (from[0] + to[0]) / 2,
          "data-y": (from[1] + to[1]) / 2,
        },
        svg(
          "g",
          { transform: `rotate(${turn.toFixed(1)})` },
          svg("text", {
            y: 16,
            "font-size": 11.5,
            "text-anchor": "middle",
            fill: "currentColor",
            stroke: "#fff",
            "stroke-width": 3,
            "paint-order": "stroke",
            text: tape(length),
          }),
        ),
      ),
    );
  });
}

/** Ask for paper and scale, then print. @param {Measured} state @param {() => Iterable<string>} shown */
export async function printPlan(state, shown) {
  const paper = el(
    "select",
    { "aria-label": "Paper" },
    ...Object.entries(PAPERS).map(([key, each]) => el("option", { value: key, text: each.name })),
  );
  const scale = el("select", { "aria-label": "Scale" }),
    told = el("p", { role: "status", class: "quiet" }),
    box = boxOf(state);
  const fill = () => {
    const best = scaleFor(box, paper.value);
    scale.replaceChildren(
      ...SCALES.filter((each) => best !== null && each >= best).map((each) =>
        el("option", { value: String(each), text: `1:${each}` }),
      ),
    );
    say(told, best === null ? "No scale fits this paper: take a larger one." : `1:${best} is the largest that fits.`);
  };
  paper.addEventListener("change", fill);
  fill();
  const way = await ask(
    "Print the plan to scale",
    [
      el("p", {
        text: "The layers that are shown are printed. In the window that follows leave the size at 100\u00a0%.",
      }),
      el("label", { class: "field" }, el("span", { class: "name", text: "Paper" }), paper),
      el("label", { class: "field" }, el("span", { class: "name", text: "Scale" }), scale),
      told,
    ],
    [
      { label: "Print", value: "print", main: true },
      { label: "Leave it", value: "" },
    ],
  );
  if (way !== "print" || !scale.value) return;
  const sheet = sheetToScale(state, shown(), paper.value, Number(scale.value));
  document.body.classList.add("prints-plan");
  window.addEventListener(
    "afterprint",
    () => {
      document.body.classList.remove("prints-plan");
      sheet.remove();
    },
    { once: true },
  );
  window.print();
}
