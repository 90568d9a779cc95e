// @ts-check
/** A new price in the book, and what plans take a thing for. */
import { ask, el } from "../lib/dom.js";
import { spoken } from "../lib/words.js";
import { at, put } from "../job/job-state.js";
import { blank, resolved, schemaAt } from "../job/form/schema.js";
import { named } from "./list-how.js";

/** @typedef {import("./state.js").FirmState} FirmState */

/**
 * Let something of the catalogue be a material that plans ask for.
 * @param {FirmState} state @param {(string|number)[]} path
 */
export function use(state, path) {
  const kinds = resolved(resolved(schemaAt(["rates", "materials"]).items).properties.key).enum,
    choice = el(
      "select",
      { "aria-label": "Use it in plans as" },
      el("option", { value: "", text: "Use in plans as …" }),
      ...kinds.map((/** @type {string} */ kind) => el("option", { value: kind, text: spoken(kind) })),
    );
  choice.addEventListener("change", () => {
    if (!choice.value) return;
    state.change(`used as ${choice.value}`, (doc) => {
      const { kg_per_unit: _, ...item } = at(doc, path);
      put(doc, path, undefined);
      const others = (doc.rates.materials ?? []).filter((/** @type {any} */ each) => each.key !== choice.value);
      doc.rates.materials = [...others, { ...item, key: choice.value }];
    });
  });
  return choice;
}

/** @param {FirmState} state @param {(more: {words: string, supplier: string, only: string}) => void} again */
export async function add(state, again) {
  const name = el("input", { maxlength: 60, placeholder: "Edging blade 230 mm" }),
    kind = el(
      "select",
      {},
      el("option", { value: "catalogue", text: "anything else that is bought" }),
      el("option", { value: "materials", text: "material that plans use" }),
      el("option", { value: "units", text: "paving unit" }),
    );
  const way = await ask(
    "A new price",
    [named("What is it called?", name), named("What is it?", kind)],
    [
      { label: "Add", value: "add", main: true },
      { label: "Not now", value: "" },
    ],
  );
  const called = name.value.trim();
  if (way !== "add" || !called) return;
  const path = kind.value === "units" ? ["units"] : ["rates", kind.value];
  state.change(`${called} added`, (doc) => {
    const list = [...(at(doc, path) ?? [])],
      made = { ...blank(schemaAt(path).items), name: called };
    if (kind.value === "catalogue")
      Object.assign(made, { key: keyFor(called, list), pack_amount: 1, pack_unit: "each" });
    if (kind.value === "materials") made.key = freeKind(list) ?? made.key;
    put(doc, path, [...list, made]);
  });
  again({ words: called, supplier: "", only: "" });
}

/** The first material of which the book has none. @param {any[]} list */
function freeKind(list) {
  const kinds = resolved(resolved(schemaAt(["rates", "materials"]).items).properties.key).enum;
  return kinds.find((/** @type {string} */ kind) => !list.some((one) => one.key === kind));
}

/** A key that nothing in the list has. @param {string} name @param {any[]} list */
function keyFor(name, list) {
  const letters = name
      .normalize("NFKD")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "_")
      .replace(/^_+|_+$/g, "")
      .slice(0, 50),
    begun = /^[a-z]/.test(letters) ? letters : `item_${letters}`.replace(/_$/, ""),
    taken = new Set(list.map((one) => one.key));
  let key = begun;
  for (let number = 2; taken.has(key); number += 1) key = `${begun}_${number}`;
  return key;
}
