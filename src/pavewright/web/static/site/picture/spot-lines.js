// @ts-check
/** What the mark under the finger is: a known point, a measured place, or a thing that is wanted. */
import { el } from "../../lib/dom.js";
import { mm } from "../../lib/words.js";
import { datums } from "../reading.js";
import { padFor, picker } from "../parts.js";
import { placedPoints } from "./draft.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {import("./draft.js").Draft} Draft */
/** @typedef {import("./draft.js").Spot} Spot */

/**
 * @param {Here} here @param {Draft} made @param {Spot|null} spot @param {() => void} changed
 * @returns {HTMLElement[]}
 */
export function spotLines(here, made, spot, changed) {
  const out = [];
  if (made.spots.length > 1 || !spot) out.push(chips(made, changed));
  if (!spot) return out;
  if (spot.kind === "thing") out.push(nameField(made, spot, changed));
  else if (made.kind === "floor") out.push(...floorPlace(here, made, spot, changed));
  else out.push(...wallPlace(here, made, spot, changed));
  out.push(
    el("button", {
      type: "button",
      class: "quiet-button",
      text: `Delete ${spot.name}`,
      on: {
        click: () => {
          made.spots = made.spots.filter((one) => one !== spot);
          made.active = made.spots.at(-1)?.key ?? 0;
          changed();
        },
      },
    }),
  );
  return out;
}

/** @param {Draft} made @param {() => void} changed */
const chips = (made, changed) =>
  el(
    "div",
    { class: "words", role: "group", "aria-label": "Marks" },
    ...made.spots.map((one) =>
      el("button", {
        type: "button",
        "aria-pressed": String(one.key === made.active),
        text: `${one.kind === "mark" ? "⊕" : "⊞"} ${one.name}`,
        on: {
          click: () => {
            made.active = one.key;
            changed();
          },
        },
      }),
    ),
  );

/** @param {Draft} made @param {Spot} spot @param {() => void} changed */
function nameField(made, spot, changed) {
  const input = el("input", {
    type: "text",
    maxlength: "60",
    value: spot.name,
    class: "tall",
    "aria-label": "What it is",
  });
  input.addEventListener("change", () => {
    const name = input.value.trim();
    if (name && !made.spots.some((one) => one !== spot && one.name === name)) spot.name = name;
    changed();
  });
  return el("label", { class: "field" }, el("span", { class: "name", text: "What it is" }), input);
}

const OTHER = "\u0001";

/** @param {Here} here @param {Draft} made @param {Spot} spot @param {() => void} changed @returns {HTMLElement[]} */
function floorPlace(here, made, spot, changed) {
  const used = new Set(made.spots.filter((one) => one !== spot).map((one) => one.point)),
    names = placedPoints(here)
      .map((one) => one.name)
      .filter((name) => !used.has(name));
  const typed = !spot.point && here.ui.pictureTyping === spot.key;
  const choice = picker(
    "Which known place is it",
    [...names, OTHER],
    typed ? OTHER : spot.point,
    (name) => {
      if (name === OTHER) {
        spot.point = "";
        here.ui.pictureTyping = spot.key;
      } else {
        Object.assign(spot, { point: name, x_mm: null, y_mm: null });
        if (!made.spots.some((one) => one !== spot && one.name === name)) spot.name = name;
        here.ui.pictureTyping = 0;
      }
      changed();
    },
    { spoken: (name) => (name === OTHER ? "a place that was measured …" : name) },
  );
  return typed || (!spot.point && spot.x_mm !== null)
    ? [choice, ...measures(here, spot, changed, ["East (x) on the plan", "North (y) on the plan"], "place")]
    : [choice];
}

/** @param {Here} here @param {Draft} made @param {Spot} spot @param {() => void} changed @returns {HTMLElement[]} */
function wallPlace(here, made, spot, changed) {
  const walls = (here.doc.site?.walls ?? []).map((one) => one.name),
    out = [];
  if (walls.length)
    out.push(
      picker("Which wall", walls, made.wall, (name) => {
        made.wall = name;
        changed();
      }),
    );
  out.push(
    picker("Heights count from", datums(here.doc, here.view), made.level_from, (name) => {
      made.level_from = name;
      changed();
    }),
    ...measures(here, spot, changed, ["Along the wall, from its start", "Up from there"], "site"),
  );
  return out;
}

/**
 * Two measures of a place, asked one after the other.
 * @param {Here} here @param {Spot} spot @param {() => void} changed @param {string[]} faces
 * @param {"place"|"site"} kind
 * @returns {HTMLElement[]}
 */
function measures(here, spot, changed, faces, kind) {
  if (spot.x_mm !== null && spot.y_mm !== null)
    return [
      el(
        "div",
        { class: "last" },
        el("span", { class: "fill", text: `${spot.name}: ${mm(spot.x_mm)} and ${mm(spot.y_mm)}` }),
        el("button", {
          type: "button",
          text: "Change",
          on: {
            click: () => {
              Object.assign(spot, { x_mm: null, y_mm: null });
              here.ui.pictureTyping = spot.key;
              changed();
            },
          },
        }),
      ),
    ];
  const first = spot.x_mm === null;
  return [
    el("p", { class: "ask", text: `${spot.name}: ${faces[first ? 0 : 1]}` }),
    padFor(
      here,
      faces[first ? 0 : 1],
      first ? "Next" : "Take it",
      (value) => {
        if (first) spot.x_mm = value;
        else spot.y_mm = value;
        here.ui.typed = "";
        changed();
      },
      true,
      undefined,
      first || kind === "place" ? kind : "offset",
    ),
  ];
}
