// @ts-check
/** How a price list is read: its columns, its numbers, the tax in its prices; put right by hand. */
import { el } from "../lib/dom.js";
import { placed } from "../lib/cards.js";

const COLUMNS = /** @type {[string, string][]} */ ([
  ["name", "What it is called"],
  ["price", "Price"],
  ["code", "Code"],
  ["sold_by", "Unit of sale"],
  ["pack_amount", "Size of a pack"],
  ["min_packs", "Fewest packs"],
  ["lead_days", "Days to delivery"],
]);

/** @param {string} name @param {Node} box @param {string} [more] */
export const named = (name, box, more = "") =>
  el("label", { class: `field ${more}` }, el("span", { class: "name", text: name }), box);

/**
 * How a list is read, to be put right.
 * @param {any} told @param {boolean} open @param {(more: Record<string, any>) => void} say
 */
export function readAs(told, open, say) {
  const width = Math.max(told.heads.length, ...told.sample.map((/** @type {any[]} */ row) => row.length), 0);
  const columns = COLUMNS.map(([kind, title]) => {
    const box = el("select", {}, el("option", { value: "", text: "none" }));
    for (let place = 0; place < width; place += 1)
      box.append(
        el("option", {
          value: place,
          text: told.heads[place] || `column ${place + 1}: ${told.sample[0]?.[place] ?? ""}`,
        }),
      );
    box.value = String(told.columns[kind] ?? "");
    box.addEventListener("change", () => {
      const { [kind]: _, ...others } = told.columns;
      say({ columns: box.value === "" ? others : { ...others, [kind]: Number(box.value) } });
    });
    return named(title, box);
  });
  const mark = el(
    "select",
    {},
    el("option", { value: ".", text: "1,234.50" }),
    el("option", { value: ",", text: "1.234,50" }),
  );
  mark.value = told.decimal;
  mark.addEventListener("change", () => say({ decimal: mark.value }));
  const tax = el("input", { inputmode: "decimal", value: told.tax_percent ?? "", placeholder: "none" });
  tax.addEventListener("change", () => {
    const text = tax.value.trim().replace(",", ".");
    say({ tax_percent: text === "" || !Number.isFinite(Number(text)) ? null : Number(text) });
  });
  const each = el(
    "select",
    {},
    el("option", { value: "", text: "of the pack" }),
    el("option", { value: "1", text: "of one unit (kg, m², ...)" }),
  );
  each.value = told.per_unit ? "1" : "";
  each.addEventListener("change", () => say({ per_unit: each.value === "1" }));
  const sheets = el(
    "select",
    {},
    ...told.sheets.map((/** @type {string} */ name) => el("option", { value: name, text: name })),
  );
  sheets.value = told.sheet;
  sheets.addEventListener("change", () => say({ sheet: sheets.value, columns: {} }));
  return el(
    "details",
    { class: "group", open },
    el("summary", { text: "How it is read" }),
    el(
      "div",
      { class: "inside" },
      el(
        "div",
        { class: "fields" },
        ...columns,
        named("Prices look like", mark),
        named("Tax that prices hold, %", tax),
        named("Prices are", each),
        told.sheets.length > 1 ? named("Sheet", sheets) : null,
      ),
      sample(told, width),
    ),
  );
}

/** The first rows as they stand in the file. @param {any} told @param {number} width */
function sample(told, width) {
  const places = Array.from({ length: width }, (_, place) => place),
    head = el(
      "tr",
      {},
      ...places.map((place) => el("th", { scope: "col", text: told.heads[place] || `column ${place + 1}` })),
    ),
    rows = told.sample
      .slice(0, 3)
      .map((/** @type {string[]} */ row) =>
        el("tr", {}, ...places.map((place) => el("td", { text: row[place] ?? "" }))),
      );
  return el(
    "div",
    { class: "sample" },
    placed("First rows", el("table", {}, el("thead", {}, head), el("tbody", {}, ...rows))),
  );
}
