// @ts-check
/**
 * Drawing by typing lengths in a row: `6000 Tab 4000 Enter` is a rectangle. Each side has a box; arrow keys turn it, a
 * right angle is the default; the shape is drawn as it is typed. The whole of it goes by the keyboard.
 */
import { el, say, svg, tell } from "../../lib/dom.js";
import { pointNames } from "../form/schema.js";
import { fillRow } from "./type-row.js";
import { pathOf } from "./paths.js";
import { addTypedArea, addTypedWalls, chainOf, closing } from "./type-shape.js";

/** @typedef {import("./edit.js").PlanEditor} PlanEditor */
/** @typedef {import("./type-shape.js").Side} Side */
/** @typedef {{length_mm: number|null, heading_deg: number, wall: boolean, dpc_level_mm: number|null}} Row */

const APART_MM = 1500;

/**
 * Open the boxes for an area or a run of walls.
 * @param {PlanEditor} editor
 * @param {"area"|"wall"} kind
 */
export function openTyping(editor, kind) {
  const typing = new Typing(editor, kind);
  editor.side.replaceChildren(typing.node);
  editor.side.hidden = false;
  editor.dispatchEvent(new Event("side"));
  typing.rows[0].focus();
}

export class Typing {
  /** @param {PlanEditor} editor @param {"area"|"wall"} kind */
  constructor(editor, kind) {
    this.editor = editor;
    this.kind = kind;
    /** @type {(Row & {node: HTMLElement, focus: () => void, draw: () => void})[]} */ this.rows = [];
    this.drawing = false;
    this.begin = "";
    const areas = editor.state.doc.areas ?? [];
    this.name = el("input", { type: "text", autocomplete: "off", maxlength: "60", value: `Area ${areas.length + 1}` });
    this.list = el("div", { class: "sides-typed" });
    this.told = el("p", { role: "status", class: "quiet" });
    this.preview = svg("g");
    editor.view.over.append(this.preview);
    this.node = el(
      "div",
      { on: { keydown: (/** @type {KeyboardEvent} */ event) => event.key === "Escape" && this.stop() } },
      el("h3", { text: kind === "area" ? "New area: type its sides" : "Walls: type their lengths" }),
      this.list,
      this.told,
      el("div", { class: "fields" }, kind === "area" ? field("Name", this.name) : null, this.#from(), this.#source()),
      el(
        "div",
        { class: "row" },
        el("button", { type: "button", class: "main", text: this.#done(), on: { click: () => this.finish() } }),
        el("button", { type: "button", class: "small", text: "Cancel", on: { click: () => this.stop() } }),
      ),
      el("p", {
        class: "hint",
        text:
          "Tab: next side. Arrow keys: its direction. @: another angle. " +
          (kind === "area" ? "W: a house wall along it. Enter closes. " : "Enter: done. ") +
          "Or tap on the plan.",
      }),
    );
    this.add(0);
    // another tool, or the end of this one, takes the drawing away
    const left = () => {
      if (this.node.isConnected && !editor.side.hidden) return;
      this.preview.remove();
      editor.removeEventListener("tool", left);
    };
    editor.addEventListener("tool", () => setTimeout(left));
  }

  #done() {
    return this.kind === "area" ? "Close the shape" : "Take the walls";
  }

  /** Where it begins: at a point that is there, or beside what is there. */
  #from() {
    const names = pointNames(this.editor.state.doc);
    if (!names.length) return null;
    const box = el(
      "select",
      {},
      el("option", { value: "", text: "a new point" }),
      ...names.map((name) => el("option", { value: name, text: name })),
    );
    box.addEventListener("change", () => {
      this.begin = box.value;
      this.draw();
    });
    return field("Begins at", box);
  }

  #source() {
    const box = el(
      "select",
      {},
      el("option", { value: "taped", text: "taped on site" }),
      el("option", { value: "drawing", text: "read off a drawing" }),
    );
    box.addEventListener("change", () => {
      this.drawing = box.value === "drawing";
      this.draw();
    });
    return field("Lengths are", box);
  }

  get start() {
    const places = this.editor.places,
      at = this.begin ? places.get(this.begin) : null;
    if (at) return /** @type {[number, number]} */ ([at[0], at[1]]);
    if (!places.size) return /** @type {[number, number]} */ ([0, 0]);
    const all = [...places.values()];
    return /** @type {[number, number]} */ ([
      Math.max(...all.map(([x]) => x)) + APART_MM,
      Math.min(...all.map(([, y]) => y)),
    ]);
  }

  /** The sides that have a length. @returns {Side[]} */
  get sides() {
    return this.rows.flatMap(({ node: _, focus: _focus, draw: _draw, length_mm, ...rest }) =>
      length_mm ? [{ ...rest, length_mm }] : [],
    );
  }

  /** @param {number} heading_deg */
  add(heading_deg) {
    const row = /** @type {any} */ ({ length_mm: null, heading_deg, wall: this.kind === "wall", dpc_level_mm: null });
    fillRow(this, row);
    this.rows.push(row);
    this.list.append(row.node);
    this.draw();
  }

  /** Turn a side; those after it turn with it. @param {Row} row @param {number} heading_deg */
  turn(row, heading_deg) {
    const index = this.rows.indexOf(/** @type {any} */ (row)),
      by = heading_deg - row.heading_deg;
    for (const each of this.rows.slice(index)) each.heading_deg = (each.heading_deg + by + 360) % 360;
    this.draw();
  }

  draw() {
    const last = this.rows[this.rows.length - 1];
    if (last?.length_mm) return this.add((last.heading_deg + 90) % 360);
    for (const row of this.rows) row.draw();
    const { sides, start } = this,
      end = this.kind === "area" ? closing(sides, start) : null,
      chain = chainOf(sides, start);
    this.preview.replaceChildren(
      line(end ? end.corners : chain, Boolean(end), "6 5"),
      line(chain, false, null),
      ...sides.map((side, index) => (side.wall ? line(chain.slice(index, index + 2), false, null, 6) : svg("g"))),
    );
    if (sides.length) {
      const all = [...chain, ...(end?.corners ?? [])],
        xs = all.map(([x]) => x),
        ys = all.map(([, y]) => y);
      this.editor.view.fit([Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)]);
    }
    say(this.told, this.#words(sides, end));
  }

  /** @param {Side[]} sides @param {ReturnType<typeof closing>} end */
  #words(sides, end) {
    if (!sides.length) return "Type the first length, such as 6000 or 6.0 m.";
    if (this.kind === "wall") return `${sides.length} ${sides.length === 1 ? "wall" : "walls"}.`;
    if (!end) return "Type the next side.";
    const taken = this.drawing ? "" : " Corners are taken square until they are taped.";
    if (end.ending === "rectangle") return `Closes to a rectangle, opposite sides alike.${taken}`;
    if (end.ending === "meets") return `The sides meet within ${Math.round(end.gap_mm)} mm.`;
    return `Closes with a straight side of ${Math.round(end.gap_mm)} mm that is not measured.${taken}`;
  }

  finish() {
    const { editor, kind, sides, drawing, begin, start } = this,
      name = this.name.value.trim();
    if (kind === "area" ? sides.length < 2 : !sides.length) {
      say(this.told, kind === "area" ? "Two sides at least." : "One length at least.");
      return;
    }
    editor.fitted = false;
    editor.choose("move");
    editor.state.change(kind === "area" ? "area typed" : "walls typed", (doc) =>
      kind === "area"
        ? addTypedArea(doc, sides, { name, drawing, begin, start })
        : addTypedWalls(doc, sides, { drawing, begin, start }),
    );
    tell(kind === "area" ? `${name} is drawn.` : "The walls are drawn.", {
      label: "Undo",
      act: () => editor.state.undo(),
    });
  }

  stop() {
    this.editor.choose("move");
  }
}

/** @param {string} name @param {HTMLElement} box */
function field(name, box) {
  return el("label", { class: "field" }, el("span", { class: "name", text: name }), box);
}

/** @param {number[][]} places @param {boolean} closed @param {string|null} dashes @param {number} [width] */
const line = (places, closed, dashes, width = 2.6) =>
  svg("path", {
    d: places.length > 1 ? pathOf(places, closed) : "",
    fill: "none",
    stroke: width > 3 ? "var(--wall)" : "var(--act)",
    "stroke-width": width,
    "stroke-dasharray": dashes,
    "vector-effect": "non-scaling-stroke",
  });
