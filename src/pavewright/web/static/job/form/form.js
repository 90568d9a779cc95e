// @ts-check
/**
 * Forms made from the schema of the job document: every field that a job can hold has its place, its unit, its hint.
 *
 * A form is bound to a path of the document. It writes through `state.change`, shows the faults of its fields beside
 * them and
 * stays where the hand is: it is drawn anew only when the shape of what it shows changes.
 */
import { el } from "../../lib/dom.js";
import { at, put } from "../job-state.js";
import { labelled, lengthFrom, plain, spoken } from "../../lib/words.js";

/**
 * @typedef {{
 *   only?: string[], hide?: string[], open?: boolean, names?: Record<string, string>, start?: any,
 *   row?: (item: any, index: number) => string, add?: string, table?: boolean
 * }} FormWishes
 */

/** @type {any} */ let schema = null;
export async function loadSchema() {
  schema ??= await (await fetch("/api/schema")).json();
  return schema;
}

/** Resolve references and "this or nothing". @param {any} node */
function resolved(node) {
  let found = node,
    optional = false;
  for (;;) {
    if (found.$ref)
      found = {
        ...schema.$defs[found.$ref.split("/").pop()],
        ...(found.description ? { description: found.description } : {}),
        ...("default" in found ? { default: found.default } : {}),
      };
    else if (found.anyOf && found.anyOf.some((/** @type {any} */ each) => each.type === "null")) {
      optional = true;
      const rest = found.anyOf.filter((/** @type {any} */ each) => each.type !== "null");
      found = {
        ...(rest.length === 1 ? rest[0] : { anyOf: rest }),
        description: found.description,
        default: found.default,
      };
    } else if (found.allOf?.length === 1)
      found = { ...found.allOf[0], description: found.description, default: found.default };
    else break;
  }
  return { ...found, optional };
}

/** The schema of a place of the document. @param {(string|number)[]} path */
export function schemaAt(path) {
  let node = resolved(schema);
  for (const step of path)
    node = resolved(typeof step === "number" ? (node.items ?? node.prefixItems[step]) : node.properties[step]);
  return node;
}

const POINT_FIELDS = new Set([
  "point",
  "start",
  "end",
  "line_from",
  "line_to",
  "base_from",
  "base_to",
  "origin",
  "level_at",
  "corner",
  "circle_at",
  "at",
  "first",
  "second",
  "over",
  "through",
  "centre",
]);

/** What a name field refers to. @param {JobState} state @param {string} field @param {(string|number)[]} path */
function namesFor(state, field, path) {
  const doc = state.doc,
    name = (/** @type {any[]} */ list) => (list ?? []).map((each) => each.name);
  const inside = String(path[0]) + "." + String(path[1] ?? "");
  if (field === "unit" || path.includes("course_units") || path.includes("also_cut_from")) return name(doc.units);
  if (field === "away_from") return name(doc.site?.walls ?? []);
  if (field === "outfall") return name(doc.site?.outfalls ?? []);
  if (field === "gully") return name(doc.site?.gullies ?? []);
  if (["area", "upper_area", "lower_area"].includes(field)) return name(doc.areas);
  if (
    POINT_FIELDS.has(field) ||
    path.includes("along") ||
    path.includes("beyond") ||
    path.includes("ground_points") ||
    path.includes("break_lines") ||
    path.includes("ground_gaps") ||
    (inside === "site.services" && field === "points")
  )
    return pointNames(doc);
  return null;
}

/** Every named point of a document. @param {JobDocument} doc @returns {string[]} */
export function pointNames(doc) {
  const m = doc.measurements ?? {},
    found = new Set();
  for (const point of m.points ?? []) found.add(point.name);
  for (const tape of m.tape_plan?.tapes ?? []) {
    found.add(tape.start);
    found.add(tape.end);
  }
  for (const point of m.offsets ?? []) found.add(point.name);
  return [...found].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
}

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

let counter = 0;
const freshName = () => `f${(counter += 1)}`;

/**
 * Keep an element in step with the faults and the value of its place.
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {HTMLElement} box
 * @param {HTMLElement} input
 * @param {() => void} [refresh]
 */
function bind(state, path, box, input, refresh) {
  const key = path.join("."),
    fault = el("span", { class: "fault", id: freshName() });
  box.append(fault);
  box.dataset.path = key;
  const tellFaults = () => {
    const mine = state.faults.filter((each) => each.path === key).map((each) => each.message);
    fault.textContent = mine.join(" ");
    fault.hidden = mine.length === 0;
    if (mine.length) {
      input.setAttribute("aria-invalid", "true");
      input.setAttribute("aria-describedby", fault.id);
    } else if (!input.dataset.wrong) {
      input.removeAttribute("aria-invalid");
    }
  };
  tellFaults();
  listen(state, box, "plan", tellFaults);
  if (refresh) listen(state, box, "document", refresh);
}

/**
 * Listen while an element is on the page.
 * @param {EventTarget} target
 * @param {HTMLElement} box
 * @param {string} name
 * @param {() => void} act
 */
export function listen(target, box, name, act) {
  const heard = () => {
    if (box.isConnected) act();
    else if (box.dataset.shown) target.removeEventListener(name, heard);
  };
  target.addEventListener(name, heard);
  requestAnimationFrame(() => {
    box.dataset.shown = "1";
  });
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
  const unit = label.unit === "price" ? (state.doc.identity?.currency ?? "") : label.unit,
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
            text: money ? `${state.doc.identity?.currency ?? ""}${label.unit === "an hour" ? " an hour" : ""}` : unit,
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

/** Whether a field takes a level or the name of a point whose level it is. @param {any} node */
function takesLevelOrPoint(node) {
  const kinds = (node.anyOf ?? []).map((/** @type {any} */ each) => each.type);
  return kinds.includes("number") && kinds.includes("string");
}

/**
 * Prices are kept in the smallest coin and shown in the currency.
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {HTMLInputElement} input
 * @param {string} title
 */
function moneyLine(state, path, input, title) {
  const show = () => {
    const value = at(state.doc, path);
    if (document.activeElement !== input)
      input.value = value === undefined || value === null ? "" : (value / 100).toFixed(2);
  };
  input.inputMode = "decimal";
  show();
  listen(state, input, "document", show);
  input.addEventListener("change", () => {
    const text = input.value.trim().replace(",", ".");
    if (text === "") return state.change(title, (doc) => put(doc, path, undefined));
    const value = Math.round(Number(text) * 100);
    wrong(input, Number.isFinite(value) && value >= 0 ? "" : "Write a price in figures.");
    if (!input.dataset.wrong) state.change(title, (doc) => put(doc, path, value));
  });
}

/** @param {HTMLInputElement} input @param {string} words */
function wrong(input, words) {
  input.setCustomValidity(words);
  if (words) {
    input.dataset.wrong = "1";
    input.setAttribute("aria-invalid", "true");
    input.reportValidity();
  } else {
    delete input.dataset.wrong;
    input.removeAttribute("aria-invalid");
  }
}

/**
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {HTMLInputElement} input
 * @param {any} node
 * @param {any} label
 * @param {string} title
 */
function take(state, path, input, node, label, title) {
  const text = input.value.trim();
  wrong(input, "");
  if (text === "") return state.change(`${title} left open`, (doc) => put(doc, path, undefined));
  if (node.type === "array") {
    const words = text
        .split(/[,;]/)
        .map((word) => word.trim())
        .filter(Boolean),
      inner = resolved(node.items ?? node.prefixItems?.[0] ?? {});
    const numbers = inner.type === "number" || inner.type === "integer";
    const values = numbers ? words.map((word) => Number(word)) : words;
    if (numbers && values.some((value) => !Number.isFinite(value)))
      return wrong(input, "Write numbers, separated by commas.");
    return state.change(title, (doc) => put(doc, path, values));
  }
  if (takesLevelOrPoint(node)) {
    const value = levelled(state).includes(text) ? text : (lengthFrom(text) ?? text);
    if (typeof value === "number") input.value = plain(value, Number.isInteger(value) ? 0 : 1).replaceAll(" ", "");
    return state.change(title, (doc) => put(doc, path, value));
  }
  if (node.type === "number" || node.type === "integer") {
    const value = label.ending === "_mm" ? lengthFrom(text) : Number(text.replace(",", ".").replace("−", "-"));
    if (value === null || !Number.isFinite(value))
      return wrong(
        input,
        label.ending === "_mm" ? "Write a length: 1235, 1.235 m or 4 ft 1/2 in." : "Write a number in figures.",
      );
    const kept = node.type === "integer" ? Math.round(value) : value;
    input.value = plain(kept, Number.isInteger(kept) ? 0 : 1).replaceAll(" ", "");
    return state.change(title, (doc) => put(doc, path, kept));
  }
  return state.change(title, (doc) => put(doc, path, text));
}

/**
 * Names of points that have a level: from a benchmark, a level book or a height.
 * @param {JobState} state
 * @returns {string[]}
 */
function levelled(state) {
  const m = state.doc.measurements ?? {};
  return [
    ...(m.benchmarks ?? []),
    ...(m.level_books ?? []).flatMap((book) => book.rows ?? []),
    ...(m.heights_over ?? []),
  ]
    .map((each) => each.point)
    .concat((m.points ?? []).map((point) => point.name));
}

/** @param {string[]} names @param {boolean} optional */
function picker(names, optional) {
  const box = el("select");
  box.append(el("option", { value: "", text: optional ? "none" : "choose" }));
  for (const name of names) box.append(el("option", { value: name, text: name }));
  return box;
}

/** @param {JobState} state @param {(string|number)[]} path @param {string} title @param {string} hint */
function tick(state, path, title, hint) {
  const id = freshName(),
    input = el("input", { id, type: "checkbox" });
  const show = () => {
    input.checked = at(state.doc, path) ?? schemaAt(path).default ?? false;
  };
  show();
  input.addEventListener("change", () => state.change(title, (doc) => put(doc, path, input.checked)));
  const box = el(
    "div",
    { class: "field tick", title: hint },
    input,
    el("label", { class: "name", for: id, text: title }),
  );
  bind(state, path, box, input, show);
  return box;
}

const FEW = 4;

/**
 * @param {JobState} state
 * @param {(string|number)[]} path
 * @param {string} title
 * @param {string} hint
 * @param {any} node
 */
function choice(state, path, title, hint, node) {
  const values = node.enum ?? node.pattern.slice(2, -2).split("|"),
    now = () => at(state.doc, path) ?? node.default ?? "";
  const set = (/** @type {string} */ value) =>
    state.change(`${title}: ${spoken(value)}`, (doc) => put(doc, path, value === "" ? undefined : value));
  if (values.length <= FEW) {
    const group = freshName(),
      box = el("fieldset", { class: "field choices" }, el("legend", { text: title }));
    for (const value of values) {
      const input = el("input", {
        type: "radio",
        name: group,
        value,
        checked: now() === value,
        on: { change: () => set(value) },
      });
      box.append(el("label", {}, input, el("span", { text: spoken(value) })));
    }
    if (hint) box.append(el("span", { class: "hint", text: hint }));
    bind(state, path, box, box, () =>
      box.querySelectorAll("input").forEach((input) => {
        input.checked = input.value === now();
      }),
    );
    return box;
  }
  const id = freshName(),
    input = el("select", { id });
  if (node.optional || node.default === undefined)
    input.append(el("option", { value: "", text: node.optional ? "not known" : "choose" }));
  for (const value of values) input.append(el("option", { value, text: spoken(value) }));
  const show = () => {
    input.value = now() ?? "";
  };
  show();
  input.addEventListener("change", () => set(input.value));
  const box = el(
    "div",
    { class: "field" },
    el("label", { class: "name", for: id, text: title }),
    input,
    hint ? el("span", { class: "hint", text: hint }) : null,
  );
  bind(state, path, box, input, show);
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

/** A value with everything that must be there. @param {any} node @returns {any} */
export function blank(node) {
  const found = resolved(node);
  if (found.type === "object") {
    /** @type {any} */ const made = {};
    // a length that nobody measured stays empty and is asked for
    for (const name of found.required ?? [])
      if (!(name.endsWith("_mm") && resolved(found.properties[name]).type === "number"))
        made[name] = blank(found.properties[name]);
    return made;
  }
  if ("default" in found && found.default !== undefined) return found.default;
  if (found.enum) return found.enum[0];
  if (found.pattern && /^\^\(/.test(found.pattern)) return found.pattern.slice(2, -2).split("|")[0];
  if (found.type === "number" || found.type === "integer")
    return Math.max(found.minimum ?? 0, (found.exclusiveMinimum ?? -1) >= 0 ? 100 : 0);
  if (found.type === "array")
    return Array.from({ length: found.minItems ?? 0 }, () => blank(found.items ?? found.prefixItems[0]));
  if (found.type === "boolean") return false;
  return found.format === "date" ? new Date().toISOString().slice(0, 10) : "";
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
  };
  draw();
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
  box.append(
    el("h3", { text: wishes.title }),
    el(
      "div",
      { class: "scroll", tabindex: "0", role: "region", "aria-label": wishes.title },
      el("table", {}, el("thead", {}, head), body),
    ),
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
