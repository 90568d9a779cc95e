// @ts-check
/** Prices of the book: found, filtered, edited where they stand; old ones and missing ones are marked. */
import { el, say } from "../lib/dom.js";
import { placed } from "../lib/cards.js";
import { counted, currencySign, moneyBare, plain, spoken, unitSign } from "../lib/words.js";
import { at, put } from "../job/job-state.js";
import { form, items } from "../job/form/form.js";
import { listen } from "../job/form/inputs.js";
import { schemaAt } from "../job/form/schema.js";
import { named } from "./list-how.js";
import { add, use } from "./price-add.js";
import { bringing } from "./price-list.js";
import { moneyTyped, withMark } from "../lib/numbers-typed.js";
import { tag } from "../lib/writing.js";

/** @typedef {import("./state.js").FirmState} FirmState */
/** @typedef {{path: (string|number)[], item: any}} Entry */

/** What is looked at first, of everything that is sold. */
const FIRST = ["name", "key", "pack_amount", "pack_unit", "pack_price_minor", "priced_on", "supplier", "supplier_code"];
const STEP = 60,
  DAY_MS = 86_400_000;
const today = () => new Date().toLocaleDateString("sv-SE");

/** Everything with a pack and a price. @param {any} doc @returns {Entry[]} */
function entries(doc) {
  const lists = /** @type {[(string|number)[], any[]][]} */ ([
    [["rates", "materials"], doc.rates?.materials ?? []],
    [["units"], doc.units ?? []],
    [["rates", "catalogue"], doc.rates?.catalogue ?? []],
  ]);
  return lists.flatMap(([path, list]) => list.map((item, index) => ({ path: [...path, index], item })));
}

/** @param {any} item */
const nameOf = (item) => item.name || spoken(item.key ?? "");

/** How old a price is, in days; null where its day is not known. @param {any} item */
const ageOf = (item) => (item.priced_on ? Math.floor((Date.now() - Date.parse(item.priced_on)) / DAY_MS) : null);

/** @param {FirmState} state @param {any} item */
function isStale({ ageDays: most }, item) {
  const age = ageOf(item);
  return typeof item.pack_price_minor === "number" && (age === null || (typeof most === "number" && age > most));
}

const wish = { words: "", supplier: "", only: "", shown: STEP };

/** @param {FirmState} state */
export function prices(state) {
  const list = el("div"),
    told = el("p", { class: "quiet", role: "status" }),
    supplier = el("select", { on: { change: () => again({ supplier: supplier.value }) } }),
    find = el("input", { type: "search", value: wish.words, autocomplete: "off", placeholder: "sand, kerb, code" }),
    only = el(
      "select",
      { value: wish.only, on: { change: () => again({ only: only.value }) } },
      el("option", { value: "", text: "All" }),
      el("option", { value: "stale", text: "Old prices" }),
      el("option", { value: "none", text: "No price" }),
      el("option", { value: "used", text: "Used in plans" }),
    );
  find.addEventListener("input", () => again({ words: find.value }));
  const draw = () => {
    const all = entries(state.doc),
      names = [...new Set(all.map((one) => one.item.supplier).filter(Boolean))].sort();
    supplier.replaceChildren(
      el("option", { value: "", text: "All" }),
      ...names.map((name) => el("option", { value: name, text: name })),
    );
    supplier.value = names.includes(wish.supplier) ? wish.supplier : "";
    const found = all.filter((one) => fits(state, one));
    say(
      told,
      all.length
        ? `${counted(found.length, "price")} of ${plain(all.length)}` +
            (state.ageDays === null ? "" : `; old after ${plain(state.ageDays)} days`)
        : "No price yet. Bring in a price list, or add a price.",
    );
    list.replaceChildren(...(found.length ? [drawn(state, found.slice(0, wish.shown))] : []));
    if (found.length > wish.shown)
      list.append(
        el("button", {
          type: "button",
          text: `Show more of ${plain(found.length)}`,
          on: { click: () => again({ shown: wish.shown + STEP }) },
        }),
      );
    shape = shapeOf(all);
  };
  let shape = "";
  /** @param {Partial<typeof wish>} more */
  const again = (more) => {
    Object.assign(wish, { shown: STEP }, more);
    draw();
  };
  draw();
  listen(state, list, "document", () => {
    if (shapeOf(entries(state.doc)) !== shape) draw();
  });
  return [
    bringing(state, draw),
    el(
      "div",
      { class: "search-row" },
      named("Find a price", find, "grow"),
      named("Supplier", supplier),
      named("Show", only),
      el("button", { type: "button", text: "+ price", on: { click: () => add(state, again) } }),
    ),
    told,
    list,
    items(/** @type {any} */ (state), ["mixed_packs"], {
      names: { "": "Packs of mixed sizes", units_in_pack: "Paving units in it", counts: "How many of each" },
      add: "pack",
      row: (one) => `${one.name || "no name yet"}: ${one.counts?.join(", ") || "nothing"} of each`,
    }),
  ];
}

/** What a list has to be drawn anew for. @param {Entry[]} all */
const shapeOf = (all) => `${all.length} ${all.map((one) => one.item.name ?? one.item.key).join("|")}`;

/** @param {FirmState} state @param {Entry} one */
function fits(state, { path, item }) {
  const text = `${nameOf(item)} ${item.supplier ?? ""} ${item.supplier_code ?? ""} ${item.key ?? ""}`.toLowerCase();
  if (
    !wish.words
      .toLowerCase()
      .split(/\s+/)
      .every((word) => text.includes(word))
  )
    return false;
  if (wish.supplier && item.supplier !== wish.supplier) return false;
  if (wish.only === "stale") return isStale(state, item);
  if (wish.only === "none") return typeof item.pack_price_minor !== "number";
  return wish.only !== "used" || path.includes("materials") || path[0] === "units";
}

/** @param {FirmState} state @param {Entry[]} found */
function drawn(state, found) {
  const body = el("tbody", {}, ...found.flatMap((one) => row(state, one)));
  const heads = ["What", "Sold by", "Price of a pack", "Price of"],
    opens = el("th", { scope: "col" }, el("span", { class: "unseen", text: "Edit" }));
  const head = el("tr", {}, ...heads.map((text) => el("th", { scope: "col", text })), opens);
  return placed("List of prices", el("table", {}, el("thead", {}, head), body));
}

/** @param {any} item */
const soldBy = (item) =>
  item.per_pack
    ? `${item.per_pack} units`
    : item.pack_amount === 1
      ? unitSign(item.pack_unit ?? "")
      : `${plain(item.pack_amount, Number.isInteger(item.pack_amount) ? 0 : 3)} ${unitSign(item.pack_unit ?? "")}`;

/** @param {FirmState} state @param {Entry} one */
function row(state, { path, item }) {
  const price = el("input", {
      inputmode: "decimal",
      "aria-label": `Price of ${nameOf(item)}`,
      placeholder: "not known",
    }),
    age = el("span"),
    under = el("td", { colspan: 5 }),
    more = el("tr", { hidden: true }, under);
  const show = () => {
    const now = at(state.doc, path) ?? {};
    if (document.activeElement !== price)
      price.value =
        typeof now.pack_price_minor === "number"
          ? withMark(moneyBare(now.pack_price_minor, state.doc.currency ?? "GBP"))
          : "";
    const known = typeof now.pack_price_minor === "number";
    age.className = known ? (isStale(state, now) ? "stale" : "") : "unknown";
    say(age, known ? ageWords(state, now) : "no price");
  };
  price.addEventListener("change", () => {
    const text = price.value.trim(),
      { minor, words } = moneyTyped(text, state.doc.currency ?? "GBP");
    price.setCustomValidity(text ? words : "");
    if (text && minor === null) {
      price.setAttribute("aria-invalid", "true");
      return price.reportValidity();
    }
    price.removeAttribute("aria-invalid");
    return state.change(`price of ${nameOf(item)}`, (doc) => {
      put(doc, [...path, "pack_price_minor"], text ? minor : undefined);
      put(doc, [...path, "priced_on"], text ? today() : undefined);
    });
  });
  const opens = el("button", { type: "button", class: "small", text: "Edit", "aria-expanded": "false" });
  opens.addEventListener("click", () => {
    more.hidden = !more.hidden;
    opens.setAttribute("aria-expanded", String(!more.hidden));
    if (!under.childElementCount) under.append(...editing(state, path));
  });
  show();
  const line = el(
    "tr",
    {},
    el(
      "td",
      { class: "price-name" },
      nameOf(item),
      el("span", { text: [usedAs(path, item), item.supplier, item.supplier_code].filter(Boolean).join(" · ") }),
    ),
    el("td", { text: soldBy(item) }),
    el(
      "td",
      { class: "price-row" },
      el("span", { class: "money-box" }, currencySign(state.doc.currency ?? "GBP"), price),
    ),
    el("td", {}, age),
    el("td", {}, opens),
  );
  listen(state, line, "document", show);
  listen(state, line, "plan", show);
  return [line, more];
}

/** What a plan takes it for. @param {(string|number)[]} path @param {any} item */
const usedAs = (path, item) =>
  path.includes("materials") ? `used as ${spoken(item.key).toLowerCase()}` : path[0] === "units" ? "paving unit" : "";

/** @param {FirmState} state @param {any} item */
function ageWords(state, item) {
  const age = ageOf(item);
  if (age === null) return "▲ day not known";
  const words = new Date(`${item.priced_on}T00:00:00`).toLocaleDateString(tag(), { dateStyle: "medium" });
  return isStale(state, item) ? `▲ old: ${words}` : words;
}

/** @param {FirmState} given @param {(string|number)[]} path */
function editing(given, path) {
  const state = /** @type {any} */ (given),
    free = path.includes("catalogue");
  const remove = el("button", {
    type: "button",
    class: "small",
    text: "Delete this price",
    on: { click: () => state.change("price deleted", (/** @type {any} */ doc) => put(doc, path, undefined)) },
  });
  const fields = Object.keys(schemaAt(path).properties).filter((name) => !(free && name === "key")),
    only = [...FIRST.filter((name) => fields.includes(name)), ...fields.filter((name) => !FIRST.includes(name))];
  return [
    form(state, path, { only, names: { key: "Used in plans as" } }),
    el("p", { class: "row" }, free ? use(given, path) : null, remove),
  ];
}
