// @ts-check
/** How a price list is read: its columns, its numbers, the tax in its prices; put right by hand. */
import { el } from "../lib/dom.js";
import { placed } from "../lib/cards.js";
import { plainNumber } from "../lib/numbers-typed.js";

/** What a list holds prices of. @type {[string, string][]} */
export const LISTS = [
  ["goods", "Materials, paving units, anything that is bought"],
  ["plant", "Plant on hire"],
  ["disposal", "Skips and lorries"],
  ["labour", "Labour by the hour"],
];
const COLUMNS = /** @type {Record<string, [string, string][]>} */ ({
  goods: [
    ["name", "What it is called"],
    ["price", "Price"],
    ["code", "Code"],
    ["sold_by", "Unit of sale"],
    ["pack_amount", "Size of a pack"],
    ["min_packs", "Fewest packs"],
    ["lead_days", "Days to delivery"],
  ],
  plant: [
    ["name", "What it is called"],
    ["price", "Price"],
    ["week_price", "Price of a week"],
    ["code", "Code"],
    ["sold_by", "By day or week"],
    ["min_days", "Shortest hire, days"],
    ["delivery", "Delivery and collection"],
    ["lead_days", "Days of notice"],
  ],
  disposal: [
    ["name", "What it is called"],
    ["price", "Price of a load"],
    ["volume", "What it holds"],
    ["payload", "Most that it may weigh, t"],
    ["code", "Code"],
    ["sold_by", "Charged by"],
    ["lead_days", "Days of notice"],
  ],
  labour: [
    ["name", "Trade"],
    ["price", "Price"],
    ["sold_by", "By hour or day"],
    ["code", "Code"],
  ],
});
const PER = /** @type {[string, string][]} */ ([
  ["", "as each line says"],
  ["hour", "of an hour"],
  ["day", "of a day"],
  ["week", "of a week"],
]);

/** A choice among some. @param {[string, string][]} all @param {string} now @param {(value: string) => void} take */
export function choice(all, now, take) {
  const box = el("select", {}, ...all.map(([value, text]) => el("option", { value, text })));
  box.value = now;
  box.addEventListener("change", () => take(box.value));
  return box;
}

/** @param {string} name @param {Node} box @param {string} [more] */
export const named = (name, box, more = "") =>
  el("label", { class: `field ${more}` }, el("span", { class: "name", text: name }), box);

/**
 * How a list is read, to be put right.
 * @param {any} told @param {boolean} open @param {(more: Record<string, any>) => void} say
 */
export function readAs(told, open, say) {
  const width = Math.max(told.heads.length, ...told.sample.map((/** @type {any[]} */ row) => row.length), 0);
  const goods = told.of === "goods",
    columns = COLUMNS[told.of].map(([kind, title]) => {
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
  const marks = /** @type {[string, string][]} */ ([
      [".", "1,234.50"],
      [",", "1.234,50"],
    ]),
    mark = choice(marks, told.decimal, (decimal) => say({ decimal }));
  const tax = el("input", { inputmode: "decimal", value: told.tax_percent ?? "", placeholder: "none" });
  tax.addEventListener("change", () => {
    say({ tax_percent: plainNumber(tax.value, "%").value });
  });
  const ways = /** @type {[string, string][]} */ ([
      ["", "of the pack"],
      ["1", "of one unit (kg, m², ...)"],
    ]),
    each = goods
      ? choice(ways, told.per_unit ? "1" : "", (way) => say({ per_unit: way === "1" }))
      : told.of === "disposal"
        ? null
        : choice(PER, told.per ?? "", (per) => say({ per: per || null }));
  const sheets = choice(
    told.sheets.map((/** @type {string} */ name) => [name, name]),
    told.sheet,
    (sheet) => say({ sheet, columns: {} }),
  );
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
        each && named("Prices are", each),
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
