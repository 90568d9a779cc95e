// @ts-check
/** Boxes for names of the document: of points, areas, units. What is new is on offer at once. */
import { el } from "../../lib/dom.js";
import { freshName, listen } from "./inputs.js";
import { namesFor } from "./schema.js";

/**
 * A box in which one of some names is chosen.
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {boolean} optional
 * @param {() => any} value what the document holds
 */
export function picker(state, path, optional, value) {
  const box = el("select"),
    key = String(path[path.length - 1]);
  let drawn = "";
  const draw = () => {
    const names = namesFor(state, key, path) ?? [],
      now = names.join("\u0000");
    if (now === drawn && box.options.length) return;
    drawn = now;
    const held = value() || "";
    box.replaceChildren(
      el("option", { value: "", text: optional ? "none" : "choose" }),
      ...(held && !names.includes(held) ? [held, ...names] : names).map((name) =>
        el("option", { value: name, text: name }),
      ),
    );
    box.value = held;
  };
  draw();
  listen(state, box, "document", draw);
  return box;
}

/**
 * A box for a point that is measured: one of those there are, or a new name.
 * @param {JobState} state
 * @param {(string|number)[]} path
 */
export function pointBox(state, path) {
  const list = el("datalist", { id: freshName() }),
    key = String(path[path.length - 1]),
    box = el("input", { type: "text", list: list.id, autocomplete: "off", maxlength: "60" });
  const draw = () =>
    list.replaceChildren(...(namesFor(state, key, path) ?? []).map((name) => el("option", { value: name })));
  box.addEventListener("focus", draw);
  return { box, list };
}

/** Whether a field of the measurements may name a point that is new. @param {(string|number)[]} path */
export const mayBeNew = (path) =>
  path[0] === "measurements" &&
  ["tape_plan", "level_books", "heights_over", "benchmarks"].includes(String(path[1])) &&
  !["sides", "points_on_lines"].includes(String(path[2]));
