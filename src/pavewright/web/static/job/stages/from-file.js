// @ts-check
/** Points, lines and clouds from files of other programs: asked what they do not tell, seen before they are taken. */
import { inside } from "../../lib/kernel.js";
import { el, say, svg } from "../../lib/dom.js";
import { call } from "../../lib/api.js";
import { meant } from "../../site/pad.js";
import { counted, plain, messageOf } from "../../lib/words.js";
import { group } from "../form/form.js";
import { pointNames } from "../form/schema.js";
import { placesIn } from "../plan/document.js";
import { outlineOf, placesOf } from "../plan/outline.js";

const ORDERS = {
  "name,east,north,level": "Name, east, north, level",
  "name,north,east,level": "Name, north, east, level",
  "east,north,level": "East, north, level",
  "north,east,level": "North, east, level",
};
const UNITS = { m: "metres", mm: "millimetres", ft: "feet", in: "inches" };
/**
 * What a file holds, as the server read it.
 * @typedef {{name: string, x_mm: number, y_mm: number, level_mm?: number, code?: string}} FilePoint
 * @typedef {{
 *   points: FilePoint[], lines: {layer: string, closed: boolean, points: string[]}[], layers?: Record<string, number>,
 * unit?: string,
 *   caveats: string[], residuals?: {plan_mm: number, level_mm: number}[]
 * }} FileFound
 */

/** How many lines there are, after a comma; nothing where there are none. @param {number} count */
const linesIn = (count) => (count ? `, ${count} ${count === 1 ? "line" : "lines"}` : "");

const KINDS = /** @type {Record<string, string>} */ ({
  csv: "csv",
  txt: "csv",
  dxf: "dxf",
  geojson: "geojson",
  json: "geojson",
  xml: "landxml",
  las: "las",
  laz: "las",
  ply: "ply",
});
/** What each kind has to be told. */
const ASKS = /** @type {Record<string, string[]>} */ ({
  csv: ["order", "unit"],
  dxf: ["layers", "unit"],
  geojson: ["unit"],
  landxml: [],
  las: ["every", "ground", "marks"],
  ply: ["unit", "every", "marks"],
});
const MARKS = 3;

/** @param {Record<string, string>} choices @param {string} id @param {boolean} [ask] */
const choice = (choices, id, ask = true) =>
  el(
    "select",
    { id },
    ask ? el("option", { value: "", text: "Say which" }) : null,
    ...Object.entries(choices).map(([value, text]) => el("option", { value, text })),
  );

/**
 * Points of a file as points of the job, or as readings on the finished paving.
 * @param {JobState} state
 * @param {{laid?: boolean}} [wishes]
 */
export function fromFile(state, wishes = {}) {
  const file = el("input", {
    type: "file",
    accept: Object.keys(KINDS)
      .map((one) => `.${one}`)
      .join(","),
    id: "points-file",
    class: "seen",
  });
  const order = choice(ORDERS, "points-order"),
    unit = choice(UNITS, "points-unit"),
    every = choice(
      { 250: "every 250 mm", 500: "every 500 mm", 1000: "every metre", 2000: "every 2 m" },
      "points-every",
      false,
    );
  every.value = "500";
  const ground = el("input", { type: "checkbox", id: "points-ground", checked: true }),
    layers = el("div", { class: "row" });
  const spots = el("input", { type: "checkbox", id: "points-spots" }),
    breaks = el("input", { type: "checkbox", id: "points-breaks" });
  const shown = el("pre", { class: "quiet" }),
    sketch = el("div"),
    told = el("p", { role: "status" }),
    caveats = el("ul", { class: "quiet" });
  const take = el("button", {
    type: "button",
    class: "main",
    text: wishes.laid ? "Take the readings" : "Take the points",
    hidden: true,
  });
  const marks = Array.from({ length: MARKS }, (_, index) => mark(state, index));
  let kind = "",
    /** @type {Blob|null} */ content = null,
    /** @type {FileFound|null} */ found = null,
    turn = 0;
  const fields = /** @type {Record<string, HTMLElement>} */ ({
    order: field("Columns", order),
    unit: field("Unit", unit),
    layers: el("fieldset", { class: "field cloud-marks" }, el("legend", { text: "Layers to take" }), layers),
    every: field("A spot", every),
    ground: box(ground, "Only points of the class ground"),
    marks: el(
      "fieldset",
      { class: "field cloud-marks" },
      el("legend", { text: "Where the cloud meets points of the site" }),
      el("p", { class: "quiet", text: "Three points or more with known levels, by their place in the cloud." }),
      ...marks.map((one) => one.row),
    ),
  });
  const after = el(
    "div",
    { hidden: true },
    box(spots, "They are spot levels of the ground"),
    box(breaks, "The lines are where the ground breaks"),
  );
  const drop = () => {
    take.hidden = true;
    after.hidden = true;
    sketch.replaceChildren();
    caveats.replaceChildren();
  };
  const asked = () => {
    const given = /** @type {Record<string, any>} */ ({ kind }),
      laid = marks.map((one) => one.read(state)).filter(Boolean);
    if (ASKS[kind].includes("order")) given.order = order.value;
    if (ASKS[kind].includes("unit")) given.unit = unit.value;
    if (ASKS[kind].includes("layers"))
      given.layers = [.../** @type {NodeListOf<HTMLInputElement>} */ (layers.querySelectorAll("input:checked"))].map(
        (one) => one.value,
      );
    if (ASKS[kind].includes("every")) given.every_mm = Number(every.value);
    if (ASKS[kind].includes("ground")) given.ground_only = ground.checked;
    if (laid.length) given.marks = laid;
    return given;
  };
  const look = async () => {
    drop();
    for (const [name, node] of Object.entries(fields)) node.hidden = !kind || !ASKS[kind].includes(name);
    if (!content || !kind) return;
    const given = asked(),
      mine = (turn += 1);
    if ((kind === "csv" && (!order.value || !unit.value)) || (["geojson", "ply"].includes(kind) && !unit.value)) {
      say(told, kind === "csv" ? "Say how the columns stand and in which unit." : "Say in which unit it is.");
      return;
    }
    say(told, "reading it …");
    try {
      const answer = await call("POST", `/api/files?asked=${encodeURIComponent(JSON.stringify(given))}`, content);
      if (mine !== turn) return;
      const here = /** @type {FileFound} */ (answer);
      found = here;
      if (kind === "dxf") {
        if (!layers.childElementCount)
          layers.replaceChildren(
            ...Object.entries(here.layers ?? {}).map(([name, count]) =>
              el(
                "label",
                { class: "choice" },
                el("input", { type: "checkbox", value: name, on: { change: look } }),
                ` ${name} (${count})`,
              ),
            ),
          );
        if (here.unit) unit.value = here.unit;
        fields.unit.hidden = Boolean(here.unit);
        if (!given.layers.length) {
          say(told, `Choose the layers to take${here.unit ? "" : ", and the unit: the drawing gives none"}.`);
          return;
        }
      }
      sketch.replaceChildren(dots(here.points, here.lines));
      caveats.replaceChildren(
        ...here.caveats.map((/** @type {string} */ words) => el("li", { text: words })),
        ...(here.residuals ?? []).map((one, index) =>
          el("li", {
            text:
              `Mark ${index + 1} is off by ${plain(one.plan_mm)} mm in plan and ${plain(one.level_mm, 1)} mm in ` +
              `level.`,
          }),
        ),
      );
      const holds = `${counted(here.points.length, "point")}${linesIn(here.lines.length)}`;
      say(told, `${holds}. Is this the site, north up?`);
      take.hidden = false;
      after.hidden = Boolean(wishes.laid);
      spots.checked = kind === "las" || kind === "ply";
      /** @type {HTMLElement} */ (breaks.closest("label")).hidden = !here.lines.length;
    } catch (problem) {
      if (mine === turn) say(told, messageOf(problem));
    }
  };
  file.addEventListener("change", async () => {
    const one = file.files?.[0];
    kind = KINDS[one?.name.split(".").at(-1)?.toLowerCase() ?? ""] ?? "";
    content = one ?? null;
    layers.replaceChildren();
    shown.textContent =
      kind === "csv" && one ? (await one.slice(0, 2000).text()).split("\n").slice(0, 4).join("\n") : "";
    if (one && !kind) say(told, "This kind of file is not read: CSV, DXF, GeoJSON, LandXML, LAS, LAZ and PLY are.");
    await look();
  });
  for (const one of [order, unit, every, ground]) one.addEventListener("change", look);
  for (const one of marks) one.row.addEventListener("change", look);
  take.addEventListener("click", () => {
    const { points, lines } = found ?? { points: [], lines: [] };
    if (wishes.laid) {
      say(told, takeReadings(state, points));
      drop();
      return;
    }
    const taken = new Set(pointNames(state.doc)),
      twice = points.find((one) => taken.has(one.name));
    if (twice) {
      say(told, `The job has a point ${twice.name} already: rename it in the file.`);
      return;
    }
    state.change(`${counted(points.length, "point")} from a file`, (doc) => {
      const m = doc.measurements;
      m.points = [...(m.points ?? []), ...points];
      if (spots.checked)
        m.ground_points = [
          ...(m.ground_points ?? []),
          ...points.filter((one) => one.level_mm !== undefined).map((one) => one.name),
        ];
      if (breaks.checked)
        m.break_lines = [
          ...(m.break_lines ?? []),
          ...lines.map((one) => ({
            points: one.closed ? [...one.points, one.points[0]] : one.points,
            note: one.layer,
          })),
        ];
    });
    drop();
    say(told, "Taken.");
  });
  look();
  return group("From a file", [
    field("CSV, DXF, GeoJSON, LandXML, LAS, LAZ or PLY", file),
    shown,
    ...Object.values(fields),
    sketch,
    caveats,
    told,
    after,
    take,
  ]);
}

/**
 * Take points with a level that lie on an area as readings of it; in words how many.
 * @param {JobState} state
 * @param {any[]} points
 */
function takeReadings(state, points) {
  const places = placesIn(state.doc, state.plan ? placesOf(state.plan) : new Map()),
    areas = state.doc.areas.map((area) => ({
      name: area.name,
      outline: outlineOf(area.outline, places),
    }));
  const found = points
    .filter((one) => one.level_mm !== undefined)
    .flatMap((one) => {
      const on = areas.find((area) => inside([one.x_mm, one.y_mm], [area.outline]));
      return on ? [{ x_mm: one.x_mm, y_mm: one.y_mm, level_mm: one.level_mm, area: on.name, label: one.name }] : [];
    });
  if (!found.length) return "None of these points has a level and lies on the paving: look at its grid.";
  state.change(`${counted(found.length, "reading")} from a file`, (doc) => {
    doc.as_laid ??= { date: new Date().toISOString().slice(0, 10), readings: [] };
    doc.as_laid.readings = [...(doc.as_laid.readings ?? []), ...found];
  });
  const left = counted(points.length - found.length, "point");
  return `${counted(found.length, "reading")} taken; not on the paving or without a level: ${left}.`;
}

/** @param {string} name @param {HTMLElement} input */
const field = (name, input) =>
  el("div", { class: "field" }, el("label", { class: "name", for: input.id, text: name }), input);

/** @param {HTMLElement} input @param {string} words */
const box = (input, words) => el("label", { class: "choice" }, input, ` ${words}`);

/** One place of the cloud that is a point of the site. @param {JobState} state @param {number} index */
function mark(state, index) {
  const point = el(
    "select",
    { "aria-label": `Point of mark ${index + 1}` },
    el("option", { value: "", text: "Point" }),
    ...pointNames(state.doc).map((name) => el("option", { value: name, text: name })),
  );
  const places = ["East", "North", "Level"].map((name) =>
    el("input", {
      type: "text",
      inputmode: "decimal",
      placeholder: name,
      "aria-label": `${name} of mark ${index + 1} in the cloud`,
    }),
  );
  return {
    row: el("div", { class: "row mark-row" }, point, ...places),
    read: (/** @type {JobState} */ now) => {
      const site = (now.plan?.survey.points ?? []).find((one) => one.name === point.value),
        [x, y, z] = places.map((one) => meant(one.value, null, true));
      if (!site || site.level_mm === null || [x, y, z].some((one) => one === null)) return null;
      return {
        cloud: { x_mm: x, y_mm: y, level_mm: z },
        site: { x_mm: site.x_mm, y_mm: site.y_mm, level_mm: site.level_mm },
      };
    },
  };
}

/** Points and lines as a small sketch. @param {any[]} points @param {any[]} lines */
function dots(points, lines) {
  const xs = points.map((one) => one.x_mm),
    ys = points.map((one) => one.y_mm),
    x1 = Math.min(...xs),
    y2 = Math.max(...ys);
  const wide = Math.max(Math.max(...xs) - x1, y2 - Math.min(...ys), 1),
    to = (/** @type {number} */ value) => 12 + (value / wide) * 216;
  const at = new Map(
    points.map((one) => [one.name, `${to(one.x_mm - x1).toFixed(1)} ${to(y2 - one.y_mm).toFixed(1)}`]),
  );
  return svg(
    "svg",
    {
      viewBox: "0 0 260 240",
      width: 260,
      height: 240,
      role: "img",
      "aria-label": `Sketch of ${counted(points.length, "point")}, north up`,
    },
    ...lines.slice(0, 300).map((one) =>
      svg("path", {
        d: `M${one.points.map((/** @type {string} */ name) => at.get(name)).join("L")}${one.closed ? "Z" : ""}`,
        fill: "none",
        stroke: "currentColor",
        "stroke-width": 1,
      }),
    ),
    ...points.slice(0, 400).flatMap((one) => [
      svg("circle", { cx: to(one.x_mm - x1), cy: to(y2 - one.y_mm), r: 2.5, fill: "currentColor" }),
      ...(points.length <= 40
        ? [
            svg("text", {
              x: to(one.x_mm - x1) + 4,
              y: to(y2 - one.y_mm) - 3,
              "font-size": 10,
              fill: "currentColor",
              text: one.name,
            }),
          ]
        : []),
    ]),
  );
}
