// @ts-check
/**
 * Forms made from the schema of the job document: every field that a job can hold has its place, its unit, its hint.
 *
 * A form is bound to a path of the document. It writes through `state.change`, shows the faults of its fields beside
 * them and stays where the hand is: it is drawn anew only when the shape of what it shows changes.
 */
import { cards, placed } from "../../lib/cards.js";
import { el } from "../../lib/dom.js";
import { at, put } from "../job-state.js";
import { currencySign, labelled, plain, spoken } from "../../lib/words.js";
import { resolved, schemaAt, namesFor, takesLevelOrPoint, blank } from "./schema.js";
import { freshName, bind, listen, moneyLine, take, picker, tick, choice } from "./inputs.js";

/**
 * @typedef {{
 *   only?: string[], hide?: string[], open?: boolean, names?: Record<string, string>, start?: any,
 *   row?: (item: any, index: number) => string, add?: string, table?: boolean
 * }} FormWishes
 */

/**
 * A form for an object of the document.
 * @param {JobState} state @param {(string|number)[]} path @param {FormWishes} [wishes]
 */
export function form(state, path, wishes = {}) {
  const node = schemaAt(path),
    box = el("div", { class: "fields" });
  for (const name of wishes.only ?? Object.keys(node.properties)) {
    if (wishes.hide?.includes(name) || !node.properties[name]) continue;
    box.append(field(state, [...path, name], wishes.names?.[name]));
  }
  return box;
}

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

/**
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {string} title
 * @param {string} hint
 * @param {any} node
 * @param {any} label
 */
function line(state, path, title, hint, node, label) {
  const id = freshName(),
    key = String(path[path.length - 1]);
  const isNumber = node.type === "number" || node.type === "integer",
    isList = node.type === "array",
    isLevel = takesLevelOrPoint(node);
  const names = namesFor(state, key, path),
    isDate = node.format === "date";
  const input = /** @type {HTMLInputElement} */ (
    names && !isList
      ? picker(names, node.optional || "default" in node)
      : el(node.maxLength > 300 && !isList && !isNumber ? "textarea" : "input", {
          id,
          type: isDate ? "date" : "text",
          inputmode: isNumber ? "decimal" : null,
          autocomplete: "off",
        })
  );
  input.id = id;
  const show = () => {
    const value = at(state.doc, path);
    if (document.activeElement === input) return;
    if (names && !isList && value && ![.../** @type {any} */ (input).options].some((option) => option.value === value))
      input.append(el("option", { value, text: value }));
    input.value = value === undefined || value === null ? "" : isList ? value.join(", ") : String(value);
  };
  if (!isList && node.default !== undefined && node.default !== null && input.tagName === "INPUT")
    input.placeholder = String(node.default);
  if (isLevel || (isNumber && key.endsWith("level_mm"))) input.placeholder = "not read";
  show();
  const sign = currencySign(state.doc.identity?.currency ?? "").trim(),
    unit = label.unit === "price" ? sign : label.unit,
    money = label.unit === "price" || label.unit === "an hour";
  if (money) show.call(null);
  const box = el(
    "div",
    { class: "field" },
    el("label", { class: "name", for: id, text: title }),
    el(
      "span",
      { class: "with-unit" },
      input,
      unit
        ? el("span", {
            class: "unit",
            text: money ? `${sign}${label.unit === "an hour" ? " an hour" : ""}` : unit,
          })
        : null,
    ),
    hint ? el("span", { class: "hint", text: hint }) : null,
  );
  if (money) moneyLine(state, path, input, title);
  else input.addEventListener("change", () => take(state, path, input, node, label, title));
  bind(state, path, box, input, money ? undefined : show);
  return box;
}

/** @param {JobState} state @param {(string|number)[]} path @param {string} title @param {any} node */
function optionalGroup(state, path, title, node) {
  const box = el("div", { style: null, class: "field wide" });
  const draw = () => {
    const there = at(state.doc, path) !== undefined && at(state.doc, path) !== null;
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
  return box;
}

/**
 * A part that opens and closes, and stays as it was left.
 * @param {string} title
 * @param {(Node|null)[]} inside
 * @param {{open?: boolean}} [wishes]
 */
export function group(title, inside, wishes = {}) {
  return el(
    "details",
    { class: "group", open: wishes.open ?? false },
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
        const part = el("details", { class: "group" }, el("summary", {}, words));
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
          words.textContent = told(at(state.doc, [...path, index]) ?? {}, index, wishes);
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
            last.querySelector("summary")?.focus();
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
      (item.start && item.end ? `${item.start} – ${item.end}` : `${index + 1}`),
  ];
  if (item.length_mm && item.start) words.push(`${plain(item.length_mm)} mm`);
  if ("dpc_level_mm" in item && item.kind !== "garden")
    words.push(
      item.dpc_level_mm === null
        ? "DPC not read"
        : typeof item.dpc_level_mm === "number"
          ? `DPC ${plain(item.dpc_level_mm / 1000, 3)}`
          : `DPC of ${item.dpc_level_mm}`,
    );
  if (item.kind) words.push(spoken(item.kind));
  if ("level_mm" in item)
    words.push(
      item.level_mm === null
        ? "not read"
        : typeof item.level_mm === "number"
          ? plain(item.level_mm / 1000, 3)
          : `level of ${item.level_mm}`,
    );
  return words.join(", ");
}

/**
 * A list as a table for quick typing: tapes, staff readings, level as laid.
 * @param {JobState} state @param {(string|number)[]} path @param {string[]} columns
 * @param {{title: string, add: string, start?: (doc: any) => any}} wishes
 */
export function rows(state, path, columns, wishes) {
  const inner = resolved(schemaAt(path).items),
    box = el("div", { class: "field wide" }),
    body = el("tbody");
  let shown = -1;
  const head = el(
    "tr",
    {},
    ...columns.map((name) => {
      const label = labelled(name);
      return el("th", {
        scope: "col",
        text: label.unit && !["price"].includes(label.unit) ? `${label.name}, ${label.unit}` : label.name,
      });
    }),
    el("th", {}, el("span", { class: "unseen", text: "Delete" })),
  );
  const full = el("table", {}, el("thead", {}, head), body),
    place = placed(wishes.title, full);
  const draw = () => {
    const found = at(state.doc, path) ?? [];
    shown = found.length;
    body.replaceChildren(
      ...found.map((/** @type {any} */ _, /** @type {number} */ index) =>
        el(
          "tr",
          {},
          ...columns.map((name) => {
            const cell = field(state, [...path, index, name]);
            cell.querySelector(".hint")?.remove();
            cell.querySelector("label.name, legend")?.classList.add("unseen");
            return el("td", {}, cell);
          }),
          el(
            "td",
            {},
            el("button", {
              type: "button",
              class: "small",
              "aria-label": `Delete row ${index + 1}`,
              text: "✕",
              on: {
                click: () => {
                  state.change("row deleted", (doc) => put(doc, [...path, index], undefined));
                  draw();
                },
              },
            }),
          ),
        ),
      ),
    );
    cards(full, place);
  };
  draw();
  box.append(
    el("h3", { text: wishes.title }),
    place,
    el("button", {
      type: "button",
      class: "small",
      text: `+ ${wishes.add}`,
      on: {
        click: () => {
          state.change(`${wishes.add} added`, (doc) => {
            const there = at(doc, path) ?? [];
            there.push(wishes.start ? wishes.start(doc) : blank(inner));
            put(doc, path, there);
          });
          draw();
          /** @type {HTMLElement|null} */ (body.lastElementChild?.querySelector("input, select"))?.focus();
        },
      },
    }),
  );
  listen(state, box, "document", () => {
    if ((at(state.doc, path) ?? []).length !== shown) draw();
  });
  return box;
}
