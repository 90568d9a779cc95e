// @ts-check
/** A side of an outline, typed: its length, the angle at its start, its arc, and many points as few arcs. */
import { el, say, tell } from "../../lib/dom.js";
import { figures, lengthField } from "../../lib/ask-box.js";
import { lengthFrom } from "../../lib/lengths.js";
import { plain, messageOf } from "../../lib/words.js";
import { call } from "../../lib/api.js";
import { addCorner, cornersOf, straighten } from "./document.js";
import { angleAt, orientation, runInArcs, setCornerAngle, setSideLength, stretchOf } from "./sides.js";

/** @typedef {import("./edit.js").PlanEditor} PlanEditor */

/**
 * Places of corners; null where one has none yet.
 * @param {doc.OutlineCorner[]} corners
 * @param {Map<string, number[]>} places
 */
function placed(corners, places) {
  const found = corners.map((corner) => places.get(corner.point)).filter((at) => at !== undefined);
  return found.length === corners.length ? found : null;
}

/**
 * The panel of one side: its length, the angle at its start, its arc; false where it has no places yet.
 * @param {PlanEditor} editor
 * @param {number} area
 * @param {number} ring
 * @param {number} index
 * @returns {boolean}
 */
export function fillSide(editor, area, ring, index) {
  const corners = cornersOf(editor.state.doc, area, ring),
    count = corners.length,
    places = editor.places;
  const from = places.get(corners[index].point),
    to = places.get(corners[(index + 1) % count].point);
  if (!from || !to) return false;
  const ringPlaces = placed(corners, places) ?? [];
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const angle = (
    /** @type {string} */ name,
    /** @type {string} */ value,
    /** @type {(value: number) => void} */ act,
  ) => {
    const input = el("input", { type: "text", inputmode: "decimal", value, "aria-label": name });
    input.addEventListener("change", () => {
      const given = Number(input.value.replace(",", ".").replace("°", ""));
      if (!Number.isFinite(given)) {
        input.setAttribute("aria-invalid", "true");
        return;
      }
      act(given);
    });
    return el(
      "label",
      { class: "field" },
      el("span", { class: "name", text: name }),
      el("span", { class: "with-unit in" }, input, el("span", { class: "unit", text: "°" })),
    );
  };
  const box = (
    /** @type {string} */ name,
    /** @type {number} */ value,
    /** @type {(value: number) => void} */ act,
    /** @type {import("../../lib/lengths.js").LengthKind} */ kind = "site",
  ) => {
    let now = figures(Math.round(value * 10) / 10);
    const take = (/** @type {number|null} */ given) => {
      if (given === null) return;
      now = figures(given);
      act(given);
    };
    return lengthField(name, { kind, now: () => now, take }).field;
  };
  const pick = (/** @type {string} */ name, /** @type {"through"|"centre"} */ key) => {
    const taken = corners[index][key] ?? "",
      choice = el(
        "select",
        { "aria-label": name },
        el("option", { value: "", text: "none" }),
        ...[...places.keys()]
          .filter((one) => one !== corners[index].point)
          .map((one) => el("option", { value: one, text: one, selected: one === taken })),
      );
    choice.addEventListener("change", () =>
      curve(editor, area, ring, index, choice.value ? { [key]: choice.value } : {}),
    );
    return el("label", { class: "field" }, el("span", { class: "name", text: name }), choice);
  };
  const arrange = el(
    "div",
    { class: "fields" },
    box("Length", length, (value) =>
      editor.state.change(`side ${corners[index].point} ${plain(value)} mm`, (doc) =>
        setSideLength(doc, area, ring, index, value, editor.places),
      ),
    ),
    angle(`Angle at ${corners[index].point}`, angleAt(ringPlaces, index).toFixed(1), (value) =>
      editor.state.change(`angle at ${corners[index].point}`, (doc) =>
        setCornerAngle(doc, area, ring, index, value, editor.places),
      ),
    ),
    box(
      "Curve: rise at the middle",
      corners[index].rise_mm ?? 0,
      (value) => curve(editor, area, ring, index, { rise_mm: value }),
      "offset",
    ),
    pick("Arc through a point", "through"),
    pick("Arc about a centre", "centre"),
  );
  editor.side.replaceChildren(
    el("h2", {
      class: "low",
      text: `${editor.state.doc.areas[area].name}: ${corners[index].point} to ${corners[(index + 1) % count].point}`,
    }),
    arrange,
    el(
      "div",
      { class: "row" },
      el("button", {
        type: "button",
        class: "small",
        text: "+ corner in this side",
        on: {
          click: () => {
            editor.state.change("corner added", (doc) => {
              addCorner(doc, area, ring, index, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]);
            });
            editor.closeSide();
          },
        },
      }),
      el("button", {
        type: "button",
        class: "small",
        text: `Delete corner ${corners[index].point}`,
        on: { click: () => editor.removeCorner(area, ring, index) },
      }),
      arcs(editor, area, ring, index),
      el("button", { type: "button", class: "small", text: "Close", on: { click: () => editor.closeSide() } }),
    ),
  );
  return true;
}

/**
 * An edge measured by many points as few arcs: up to which corner, and how true.
 * @param {PlanEditor} editor
 * @param {number} area
 * @param {number} ring
 * @param {number} index
 */
function arcs(editor, area, ring, index) {
  const corners = cornersOf(editor.state.doc, area, ring),
    count = corners.length,
    ends = corners
      .map((one, /** @type {number} */ at) => [one.point, at])
      .filter((/** @type {any} */ [, at]) => (at - index + count) % count >= 2);
  if (ends.length < 1) return null;
  const up = el(
      "select",
      { "aria-label": "Up to corner" },
      ...ends.map((/** @type {any} */ [name, at]) => el("option", { value: String(at), text: name })),
    ),
    true_mm = el("input", { type: "text", inputmode: "decimal", value: "10", "aria-label": "Accuracy, mm" }),
    told = el("span", { role: "status", class: "quiet" });
  const fit = async () => {
    const places = editor.places,
      stretch = placed(stretchOf(corners, index, Number(up.value)), places),
      tolerance = lengthFrom(true_mm.value, "accuracy");
    if (!stretch || !tolerance || tolerance <= 0) {
      say(told, "Give how far a point may stand off, such as 10 mm.");
      return;
    }
    const [from, to] = [stretch[0], stretch[stretch.length - 1]],
      chord = Math.hypot(to[0] - from[0], to[1] - from[1]),
      ux = (to[0] - from[0]) / chord,
      uy = (to[1] - from[1]) / chord;
    const along_mm = stretch.map(([x, y]) => (x - from[0]) * ux + (y - from[1]) * uy),
      offsets_mm = stretch.map(([x, y]) => (y - from[1]) * ux - (x - from[0]) * uy);
    try {
      const { answers: found } = await call("POST", "/api/sums", {
        name: "curved-edge-by-arcs",
        given: { along_mm, offsets_mm, tolerance_mm: tolerance },
      });
      const way = orientation(placed(corners, places) ?? []) < 0 ? -1 : 1;
      editor.state.change(`edge in ${found.arcs} arcs`, (doc) => {
        runInArcs(doc, area, ring, index, Number(up.value), found, way);
      });
      editor.closeSide();
      tell(
        `${found.arcs} ${found.arcs === 1 ? "arc" : "arcs"}; the farthest point stands ${plain(found.off_mm, 1)} ` +
          `mm off.`,
        { label: "Undo", act: () => editor.state.undo() },
      );
    } catch (problem) {
      say(told, messageOf(problem));
    }
  };
  return el(
    "details",
    { class: "fit-arcs" },
    el("summary", { text: "As arcs" }),
    el(
      "div",
      { class: "row" },
      el("label", { class: "field" }, el("span", { class: "name", text: "Up to corner" }), up),
      el(
        "label",
        { class: "field" },
        el("span", { class: "name", text: "Accuracy" }),
        el("span", { class: "with-unit" }, true_mm, el("span", { class: "unit", text: "mm" })),
      ),
      el("button", { type: "button", class: "small", text: "Fit arcs", on: { click: fit } }),
    ),
    told,
  );
}

/**
 * Tell an arc in one way; the others are removed.
 * @param {PlanEditor} editor
 * @param {number} area
 * @param {number} ring
 * @param {number} index
 * @param {Partial<doc.OutlineCorner>} told
 */
function curve(editor, area, ring, index, told) {
  editor.state.change("side curved", (doc) => {
    const corner = cornersOf(doc, area, ring)[index];
    straighten(corner);
    Object.assign(corner, told);
  });
}

/**
 * Bring the middle of a side into sight, where it is not.
 * @param {PlanEditor} editor
 * @param {number} area
 * @param {number} ring
 * @param {number} index
 */
export function bringIntoSight(editor, area, ring, index) {
  const corners = cornersOf(editor.state.doc, area, ring),
    from = editor.places.get(corners[index].point),
    to = editor.places.get(corners[(index + 1) % corners.length].point),
    { width, height } = editor.view.size;
  if (!from || !to) return;
  const middle = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
    [left, top] = editor.view.toScreen(middle);
  if (left < 20 || left > width - 20 || top < 20 || top > height - 20) editor.view.centre(middle);
}
