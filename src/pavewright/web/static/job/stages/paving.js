// @ts-check
import { toRing } from "../../lib/kernel.js";
import { hidesMoney } from "../../lib/hidden.js";
import { el, say } from "../../lib/dom.js";
import { call, longTask } from "../../lib/api.js";
import { form, group, items } from "../form/form.js";
import { following } from "../form/following.js";
import { areaNames } from "../form/schema.js";
import { fact, facts, table } from "../../lib/results.js";
import { put } from "../job-state.js";
import { addPoint } from "../plan/document.js";
import { middle } from "../plan/outline.js";
import { piecesOf } from "../plan/pieces.js";
import { cutPlan } from "../look/cuts.js";
import { formPart, later } from "../look/later.js";
import { playback } from "../look/playback.js";
import { plain, spoken, messageOf, wasStopped } from "../../lib/words.js";
import { fromTheBook } from "./book-units.js";
import { better } from "./better.js";

/**
 * @typedef {{
 *   cut: number, slivers: number, smallest_mm: number|null, saw_m: number, units_with_offcuts: number,
 *   best_at: string[], fields: [string, unknown][]
 * }} Start where the first unit could lie, with what comes of it
 */

/** @param {Planned} state @param {any} _say @param {{overlay: import("../look/overlay.js").Overlay}} wishes */
export function results(state, _say, wishes) {
  /** @type {Node[]} */ const out = [];
  for (const area of state.plan.laying.areas) {
    out.push(
      el("h3", { text: area.area }),
      facts(
        fact("Whole", String(area.whole)),
        fact("Cut", String(area.cut)),
        fact("Smaller than advised", String(area.slivers)),
        fact("Units needed", String(area.units_with_offcuts), area.workings, state.sources),
        fact("Impossible with fewer than", String(area.units_bound)),
        fact("Sawing", `${plain(area.saw_m, 1)} m`),
      ),
    );
    out.push(
      later(`Cut pieces of ${area.area}`, () => [
        table(
          [
            { head: "No.", number: true },
            { head: "Course" },
            { head: "Unit" },
            { head: "Size, mm" },
            { head: "kg", number: true },
          ],
          piecesOf(area)
            .cut()
            .map((piece) => [
              String(piece.number),
              `${piece.course}.${piece.place}`,
              piece.unit,
              `${plain(piece.along_mm)} × ` +
                `${plain(piece.across_mm)}${piece.notched ? ", notched" : ""}${piece.curved ? ", curved" : ""}`,
              plain(piece.kg, 1),
            ]),
          "Cut pieces",
        ),
      ]),
      cutPlan(state, area, wishes.overlay),
      playback(state, area, wishes.overlay),
    );
  }
  out.push(starts(state), ...(hidesMoney() ? [] : [better(state)]));
  return out;
}

/** Choices of where to begin, side by side. @param {Planned} state */
function starts(state) {
  const box = el("div"),
    told = el("p", { class: "quiet", role: "status" });
  const begin = el("button", { type: "button", class: "main", text: "Search better starts" });
  const halt = el("button", { type: "button", text: "Stop", hidden: true });
  begin.addEventListener("click", async () => {
    const stop = new AbortController();
    halt.onclick = () => stop.abort();
    begin.hidden = true;
    halt.hidden = false;
    try {
      const name = await longTask(
        { verb: "starts", document: JSON.stringify(state.doc) },
        (words) => {
          say(told, words);
        },
        stop.signal,
      );
      show(await call("GET", `/api/long-tasks/${name}/result`));
    } catch (problem) {
      say(told, wasStopped(problem) ? "Stopped." : messageOf(problem));
    }
    begin.hidden = false;
    halt.hidden = true;
  });
  const show = (/** @type {{area: string, words: string, now: Start, choices: Start[]}[]} */ areas) => {
    told.textContent = "";
    box.replaceChildren(
      ...areas.flatMap((area) => [
        el("p", { text: area.words }),
        table(
          [
            { head: "Choice" },
            { head: "Cut", number: true },
            { head: "Small", number: true },
            { head: "Smallest", number: true },
            { head: "Saw, m", number: true },
            { head: "Units", number: true },
            { head: "" },
          ],
          [
            { name: "As it is", one: area.now },
            ...area.choices.map((one, index) => ({
              name: `${index + 1}. ${one.best_at.join(", ") || "another way"}`,
              one,
            })),
          ].map(({ name, one }, index) => [
            name,
            String(one.cut),
            String(one.slivers),
            one.smallest_mm === null ? "–" : plain(one.smallest_mm),
            plain(one.saw_m, 1),
            String(one.units_with_offcuts),
            index === 0 || !one.fields.length
              ? ""
              : el("button", {
                  type: "button",
                  class: "small",
                  text: "Take it",
                  on: {
                    click: () =>
                      state.change(`start taken: ${name}`, (doc) => {
                        const here = doc.areas.find((/** @type {{name: string}} */ each) => each.name === area.area);
                        if (!here) return;
                        for (const [field, value] of one.fields) put(here.laying, field.split("."), value);
                      }),
                  },
                }),
          ]),
          `Starts of ${area.area}`,
        ),
      ]),
    );
  };
  return group(
    "Where to begin",
    [
      el("p", { text: "Thousands of starts are counted, the best are really laid and cut." }),
      el("div", { class: "row" }, begin, halt),
      told,
      box,
    ],
    { open: true },
  );
}

/** @param {JobState} state */
export function inputs(state) {
  return [
    following(state, areaNames, () => areaParts(state)),
    group(
      "Slabs, blocks, setts",
      [
        items(state, ["units"], {
          names: { "": "Units" },
          row: (one) => `${one.name}, ${one.length_mm} × ${one.width_mm} × ${one.thickness_mm}`,
        }),
        fromTheBook(state),
      ],
      { open: !state.doc.units?.length },
    ),
  ];
}

/** What belongs to each area. @param {JobState} state */
function areaParts(state) {
  const areas = state.doc.areas ?? [];
  return [
    ...areas.map((area, index) =>
      formPart(
        areas.length,
        `Laying of ${area.name}`,
        () => [
          form(state, ["areas", index, "laying"], {
            only: [
              "unit",
              "pattern",
              "stagger",
              "joint_mm",
              "turn_deg",
              "border",
              "start_corner",
              "shift_along_mm",
              "shift_across_mm",
              "along",
              "bedding",
              "factory_edges",
              "split_corners",
              "wall_joint_mm",
              "course_units",
              "pack",
              "mix",
              "origin",
              "centre_radius_mm",
            ],
          }),
        ],
        { open: index === 0 },
      ),
    ),
    ...areas.map((area, index) =>
      formPart(areas.length, `${area.name}: use and edges`, () => [
        form(state, ["areas", index], {
          only: ["name", "use", "position", "accessible", "before", "base_rule", "base_design", "permeable", "note"],
        }),
        items(state, ["areas", index, "edges"], {
          row: (one) => `${one.corner}: ${spoken(one.restraint ?? "")}`,
          add: "edge",
          start: (/** @type {JobDocument} */ doc) => ({
            corner: doc.areas[index].outline[0].point,
            restraint: "haunch",
          }),
        }),
      ]),
    ),
    ...areas.map((area, index) =>
      formPart(areas.length, `${area.name}: parts laid otherwise`, () => [
        el("p", { class: "quiet", text: "An inlay, a circle, or all beyond a line." }),
        items(state, ["areas", index, "zones"], {
          names: { "": "Parts" },
          row: (one) => `${one.name}: ${spoken(one.laying?.pattern ?? "")}`,
          add: "part",
          start: (/** @type {JobDocument} */ doc) => partOf(state, doc, index),
        }),
      ]),
    ),
  ];
}

/**
 * A first part of an area, to be changed: a circle laid as the area is, where there is most room.
 * @param {JobState} state
 * @param {JobDocument} doc
 * @param {number} index
 */
function partOf(state, doc, index) {
  const area = doc.areas[index],
    { border: _border, pack: _pack, ...laying } = structuredClone(area.laying ?? {});
  const laid = state.plan?.laying?.areas.find((each) => each.area === area.name),
    shape = state.plan?.survey.site.areas[index]?.shape;
  let best = { at: [0, 0], room: 0 };
  const rings = shape ? [shape.outer, ...shape.holes] : [];
  for (const piece of shape && laid ? laid.pieces : []) {
    const at = middle(piece.shape.outer),
      room = Math.min(...rings.map((ring) => toRing(at, ring)));
    if (room > best.room) best = { at, room };
  }
  return {
    name: `Part ${(area.zones?.length ?? 0) + 1}`,
    circle_at: best.room
      ? addPoint(doc, /** @type {[number, number]} */ (best.at.map(Math.round)), "O")
      : area.outline[0].point,
    radius_mm: Math.min(600, Math.max(100, Math.floor(best.room * 0.09) * 10)),
    laying,
  };
}
