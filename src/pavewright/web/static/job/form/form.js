// @ts-check
/**
 * Forms made from the schema of the job document: every field that a job can hold has its place, its unit, its hint.
 *
 * A form is bound to a path of the document. It writes through `state.change`, shows the faults of its fields beside
 * them and stays where the hand is: it is drawn anew only when the shape of what it shows changes.
 */
import { el, say } from "../../lib/dom.js";
import { at, put } from "../job-state.js";
import { HIDDEN } from "../../lib/hidden.js";
import { labelled, level, plain, spoken } from "../../lib/words.js";
import { resolved, schemaAt, blank } from "./schema.js";
import { listen, tick, choice } from "./inputs.js";
import { line } from "./line.js";
import { calledIn, ordered } from "./order.js";

/**
 * @typedef {{
 *   only?: string[], hide?: string[], open?: boolean, names?: Record<string, string>, start?: any,
 *   row?: (item: any, index: number) => string, add?: string, table?: boolean, then?: () => void
 * }} FormWishes
 */

/**
 * A form for an object of the document.
 * @param {JobState} state @param {(string|number)[]} path @param {FormWishes} [wishes]
 */
export function form(state, path, wishes = {}) {
  const node = schemaAt(path),
    box = el("div", { class: "fields" });
  const names = (wishes.only ?? Object.keys(node.properties)).filter(
    (name) => !wishes.hide?.includes(name) && node.properties[name] && !isHidden(path, name),
  );
  const made = (/** @type {string} */ name) =>
    field(state, [...path, name], wishes.names?.[name] ?? calledIn(node, name));
  const { first, folded } = wishes.only ? { first: names, folded: [] } : ordered(node, names);
  box.append(...first.map(made));
  for (const part of folded) {
    const closed = group(part.title, [el("div", { class: "fields" }, ...part.names.map(made))]);
    closed.classList.add("field", "wide");
    box.append(closed);
  }
  return box;
}

/** Whether a field is not for whoever looks. @param {(string|number)[]} path @param {string} name */
const isHidden = (path, name) =>
  HIDDEN.fields.includes(name) || (path.length === 1 && path[0] === "rates" && HIDDEN.rates.includes(name));

/**
 * One field, whatever it holds.
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {string} [named]
 * @returns {HTMLElement}
 */
export function field(state, path, named) {
  const node = schemaAt(path),
    key = String(path[path.length - 1]),
    label = labelled(key);
  const title = named ?? label.name,
    hint = (node.description ?? "").replace(/\s*\[[^\]]*\]$/, "");
  if (node.type === "object" && node.properties) return optionalGroup(state, path, title, node);
  if (node.type === "array" && resolved(node.items ?? {}).type === "object")
    return items(state, path, { names: { "": title } });
  if (node.type === "boolean") return tick(state, path, title, hint);
  if (node.enum || /^\^\(([a-z_|]+)\)\$$/.test(node.pattern ?? "")) return choice(state, path, title, hint, node);
  return line(state, path, title, hint, node, label);
}

/** @param {JobState} state @param {(string|number)[]} path @param {string} title @param {any} node */
function optionalGroup(state, path, title, node) {
  const box = el("div", { style: null, class: "field wide" });
  const isThere = () => at(state.doc, path) !== undefined && at(state.doc, path) !== null;
  let drawn = false;
  const draw = () => {
    const there = isThere();
    drawn = there;
    box.replaceChildren();
    if (!there && node.optional) {
      box.append(
        el("button", {
          type: "button",
          class: "small",
          text: `+ ${title}`,
          on: {
            click: () => {
              state.change(`${title} added`, (doc) => put(doc, path, blank(node)));
              draw();
            },
          },
        }),
      );
      return;
    }
    box.append(
      group(
        title,
        [
          form(state, path),
          node.optional
            ? el("button", {
                type: "button",
                class: "small",
                text: `Delete ${title.toLowerCase()}`,
                on: {
                  click: () => {
                    state.change(`${title} deleted`, (doc) => put(doc, path, null));
                    draw();
                  },
                },
              })
            : null,
        ],
        { open: there },
      ),
    );
  };
  draw();
  listen(state, box, "document", () => {
    if (isThere() !== drawn) draw();
  });
  return box;
}

/** Whether a form has no field for whoever looks. @param {Node|null} part */
const isEmpty = (part) => part instanceof HTMLElement && part.className === "fields" && !part.childElementCount;

/**
 * A part that opens and closes, and stays as it was left.
 * @param {string} title
 * @param {(Node|null)[]} inside
 * @param {{open?: boolean}} [wishes]
 */
export function group(title, inside, wishes = {}) {
  return el(
    "details",
    { class: "group", open: wishes.open ?? false, hidden: inside.length > 0 && inside.every(isEmpty) },
    el("summary", { text: title }),
    el("div", { class: "inside" }, ...inside),
  );
}

/**
 * A list of things of the document: walls, tapes, units.
 * @param {JobState} state @param {(string|number)[]} path @param {FormWishes} [wishes] `start` is what a new one holds,
 *   `row` how one is told closed
 */
export function items(state, path, wishes = {}) {
  const node = schemaAt(path),
    inner = resolved(node.items),
    key = String(path[path.length - 1]);
  const title = wishes.names?.[""] ?? spoken(key),
    one = wishes.add ?? title.replace(/ies$/, "y").replace(/s$/, "").toLowerCase();
  const box = el("div", { class: "field wide" }),
    list = el("div", { class: "items" });
  let shown = -1;
  const draw = () => {
    const found = at(state.doc, path) ?? [];
    shown = found.length;
    list.replaceChildren(
      ...found.map((/** @type {any} */ item, /** @type {number} */ index) => {
        const words = el("span", { text: told(item, index, wishes) });
        const part = el(
          "details",
          { class: "group", data: { row: [...path, index].join(".") } },
          el("summary", {}, words),
        );
        part.addEventListener("toggle", () => {
          if (part.open && part.childElementCount === 1)
            part.append(
              el(
                "div",
                { class: "inside" },
                form(state, [...path, index], wishes),
                el("button", {
                  type: "button",
                  class: "small",
                  text: `Delete ${one}`,
                  on: {
                    click: () => {
                      state.change(`${one} deleted`, (doc) => put(doc, [...path, index], undefined));
                      draw();
                    },
                  },
                }),
              ),
            );
        });
        listen(state, part, "document", () => {
          say(words, told(at(state.doc, [...path, index]) ?? {}, index, wishes));
        });
        return part;
      }),
    );
  };
  draw();
  box.append(
    el("h3", { text: title }),
    list,
    el("button", {
      type: "button",
      class: "small",
      text: `+ ${one}`,
      on: {
        click: () => {
          state.change(`${one} added`, (doc) => {
            const there = at(doc, path) ?? [];
            there.push(
              structuredClone(typeof wishes.start === "function" ? wishes.start(doc) : (wishes.start ?? blank(inner))),
            );
            put(doc, path, there);
          });
          draw();
          const last = /** @type {HTMLDetailsElement|null} */ (list.lastElementChild);
          if (last) {
            last.open = true;
            last.dispatchEvent(new Event("toggle")); // filled now: the browser's own comes after the next key
            last.querySelector("summary")?.focus();
            wishes.then?.();
          }
        },
      },
    }),
  );
  listen(state, box, "document", () => {
    if ((at(state.doc, path) ?? []).length !== shown) draw();
  });
  return box;
}

/** @param {any} item @param {number} index @param {FormWishes} wishes */
function told(item, index, wishes) {
  if (wishes.row) return wishes.row(item, index);
  const words = [
    item.name ??
      item.point ??
      item.question ??
      item.key ??
      (item.event ? spoken(item.event) : null) ??
      (item.skill ? spoken(item.skill) : null) ??
      (item.start && item.end ? `${item.start} – ${item.end}` : `${index + 1}`),
  ];
  if (item.event)
    words.push(
      item.percent || item.percent === 0 ? `${plain(item.percent)} %` : item.amount_minor ? "a sum" : "the rest",
    );
  if (item.length_mm && item.start) words.push(`${plain(item.length_mm)} mm`);
  if ("dpc_level_mm" in item && item.kind !== "garden")
    words.push(
      item.dpc_level_mm === null
        ? "DPC not read"
        : typeof item.dpc_level_mm === "number"
          ? `DPC ${level(item.dpc_level_mm)}`
          : `DPC of ${item.dpc_level_mm}`,
    );
  if (item.kind) words.push(spoken(item.kind));
  if ("level_mm" in item)
    words.push(
      item.level_mm === null
        ? "not read"
        : typeof item.level_mm === "number"
          ? level(item.level_mm)
          : `level of ${item.level_mm}`,
    );
  return words.join(", ");
}
