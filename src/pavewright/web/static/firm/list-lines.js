// @ts-check
/** What lines of a price list are: materials that plans ask for, paving units, machines, loads, skills. */
import { el } from "../lib/dom.js";
import { counted, money, plain, spoken } from "../lib/words.js";
import { resolved, schemaAt } from "../job/form/schema.js";
import { choice, named } from "./list-how.js";

const SHOWN = 60;
/** Where the kinds of what is listed stand in the schema, and what is asked of a line. */
const KINDS = /** @type {Record<string, {path: string[], field: string, title: string, none: string}>} */ ({
  goods: { path: ["rates", "materials"], field: "key", title: "Plans take these as", none: "not used in plans" },
  plant: { path: ["rates", "plant"], field: "key", title: "What machines are these?", none: "not taken" },
  labour: { path: ["rates", "labour"], field: "skill", title: "Whose hour is it?", none: "not taken" },
});
const LOADS = /** @type {[string, string][]} */ ([
  ["skip", "skip"],
  ["grab", "grab lorry"],
  ["tipper", "tipper"],
]);

/** @param {string} of @returns {[string, string][]} */
function kindsOf(of) {
  const { path, field, none } = KINDS[of],
    all = resolved(resolved(schemaAt(path).items).properties[field]).enum;
  return [["", none], ...all.map((/** @type {string} */ kind) => [kind, spoken(kind)])];
}

/** @param {any} line @param {string} currency */
function sold(line, currency) {
  if (line.pack_unit) return `${plain(line.pack_amount)} ${line.pack_unit}, ${money(line.price_minor, currency)}`;
  const prices = [
    line.price_minor === null
      ? ""
      : `${money(line.price_minor, currency)} ${line.per === "hour" ? "an" : "a"} ${line.per}`,
    line.week_minor === null ? "" : `${money(line.week_minor, currency)} a week`,
    line.volume_m3 === null ? "" : `${plain(line.volume_m3, 1)} m³`,
  ];
  return prices.filter(Boolean).join(", ");
}

/**
 * What lines are, to be put right.
 * @param {any} told @param {Record<string, string>} uses @param {string} currency
 * @param {(uses: Record<string, string>) => void} say
 * @returns {Node[]}
 */
export function whatLinesAre(told, uses, currency, say) {
  if (told.of === "disposal") return loads(told, uses, currency, say);
  const goods = told.of === "goods",
    lines = goods ? told.lines.filter((/** @type {any} */ one) => told.suggested[one.row]) : told.lines;
  if (!lines.length) return [];
  const kinds = kindsOf(told.of),
    boxes = lines.slice(0, SHOWN).map((/** @type {any} */ line) =>
      named(
        `${line.name}, ${sold(line, currency)}`,
        choice(kinds, uses[line.row] ?? "", (kind) => say(without({ ...uses, [line.row]: kind }))),
      ),
    );
  return [
    el("h3", { text: KINDS[told.of].title }),
    goods ? null : el("p", { class: "quiet", text: "Lines that are none of these are not taken." }),
    el("div", { class: "fields" }, ...boxes),
    lines.length > SHOWN ? el("p", { text: `and ${plain(lines.length - SHOWN)} more, as their names say` }) : null,
  ].filter((one) => one !== null);
}

/** @param {Record<string, string>} uses */
const without = (uses) => Object.fromEntries(Object.entries(uses).filter(([, kind]) => kind));

/** By which of the lines spoil leaves. @param {any} told @param {Record<string, string>} uses
 * @param {string} currency @param {(uses: Record<string, string>) => void} say */
function loads(told, uses, currency, say) {
  const [row = "", kind = "skip"] = Object.entries(uses)[0] ?? [],
    lines = /** @type {[string, string][]} */ ([
      ["", "none of these"],
      ...told.lines.map((/** @type {any} */ one) => [String(one.row), `${one.name}, ${sold(one, currency)}`]),
    ]);
  const kindFor = (/** @type {string} */ at) =>
    LOADS.find(([one]) =>
      told.lines.some((/** @type {any} */ line) => String(line.row) === at && line.name.toLowerCase().includes(one)),
    )?.[0] ?? kind;
  return [
    el(
      "div",
      { class: "fields" },
      named(
        "Spoil leaves by",
        choice(lines, row, (at) => say(at ? { [at]: kindFor(at) } : {})),
      ),
      row
        ? named(
            "Which is a",
            choice(LOADS, kind, (now) => say({ [row]: now })),
          )
        : "",
    ),
  ];
}

const SIDES = /** @type {[string, string][]} */ ([
  ["length_mm", "Length, mm"],
  ["width_mm", "Width, mm"],
  ["thickness_mm", "Thickness, mm"],
  ["kg_each", "Weight of one, kg"],
  ["per_pack", "How many in a pack"],
  ["pack_m2", "Square metres counted for a pack"],
]);
const UNITS = /** @type {[string, string][]} */ ([
  ["", "choose"],
  ["flag", "slab"],
  ["block", "block"],
  ["sett", "sett"],
]);

/**
 * Lines that are paving units: chosen, and asked what they do not say.
 * @param {any} told @param {Record<string, any>} units what a person said, by row
 * @param {(units: Record<string, any>, ask?: boolean) => void} say keeps it, and asks again what is missing
 * @returns {Node[]}
 */
export function pavingUnits(told, units, say) {
  if (told.of !== "goods" || !told.lines.length) return [];
  const rows = [...new Set([...Object.keys(told.units ?? {}), ...Object.keys(units)])],
    there = rows.filter((row) => told.lines.some((/** @type {any} */ one) => String(one.row) === row)),
    others = told.lines.filter((/** @type {any} */ one) => !there.includes(String(one.row)));
  const more = choice(
    [["", "another line …"], ...others.slice(0, 500).map((/** @type {any} */ one) => [String(one.row), one.name])],
    "",
    (row) => row && say({ ...units, [row]: {} }),
  );
  return [
    el(
      "details",
      { class: "group", open: Object.keys(units).length > 0 },
      el("summary", { text: `Paving units (${counted(there.length, "line")} may be one)` }),
      el(
        "div",
        { class: "inside" },
        ...there.map((row) => oneUnit(told, row, units, say)),
        named("Take as a paving unit", more),
      ),
    ),
  ];
}

/** Figures as a person typed them, as numbers. @param {Record<string, any>} units */
export const asNumbers = (units) =>
  Object.fromEntries(
    Object.entries(units).map(([row, said]) => [
      row,
      Object.fromEntries(
        Object.entries(said)
          .filter(([, value]) => String(value).trim())
          .map(([name, value]) => [name, name === "kind" ? value : Number(String(value).trim().replace(",", "."))])
          .filter(([name, value]) => name === "kind" || Number.isFinite(value)),
      ),
    ]),
  );

/** @param {any} told @param {string} row @param {Record<string, any>} units
 * @param {(units: Record<string, any>, ask?: boolean) => void} say */
function oneUnit(told, row, units, say) {
  const line = told.lines.find((/** @type {any} */ one) => String(one.row) === row),
    tick = el("input", { type: "checkbox", checked: row in units });
  tick.addEventListener("change", () => {
    const { [row]: _, ...others } = units;
    say(tick.checked ? { ...others, [row]: {} } : others);
  });
  const box = el("div", { class: "unit-line" }, el("label", { class: "tick" }, tick, ` ${line.name}`));
  if (!(row in units)) return box;
  const mine = units[row],
    asked = new Set([...(told.missing?.[row] ?? []), ...Object.keys(mine)]),
    likely = told.likely_kg?.[row],
    put = (/** @type {string} */ name, /** @type {string} */ value, ask = true) => {
      mine[name] = value;
      say(units, ask);
    };
  const fields = SIDES.filter(([name]) => asked.has(name)).map(([name, title]) => {
    const hint = name === "kg_each" && likely ? `about ${plain(likely, 1)} in concrete` : "",
      input = el("input", { inputmode: "decimal", value: mine[name] ?? "", placeholder: hint });
    input.addEventListener("input", () => put(name, input.value, false));
    input.addEventListener("blur", () => put(name, input.value, true));
    return named(title, input);
  });
  if (asked.has("kind")) {
    const kinds = choice(UNITS, mine.kind ?? "", (kind) => put("kind", kind));
    fields.unshift(named("A slab, a block or a sett?", kinds));
  }
  box.append(el("div", { class: "fields" }, ...fields));
  return box;
}

/** What was taken for granted or rounded, line by line. @param {any} told @returns {Node[]} */
export function notes(told) {
  const lines = told.lines.filter((/** @type {any} */ one) => one.note);
  if (!lines.length) return [];
  const rows = lines
    .slice(0, SHOWN)
    .map((/** @type {any} */ one) => el("li", { text: `Row ${one.row}, ${one.name}: ${one.note}` }));
  return [
    el(
      "details",
      { class: "group" },
      el("summary", { text: `Taken for granted or rounded (${plain(lines.length)})` }),
      el(
        "div",
        { class: "inside" },
        el("ul", {}, ...rows),
        lines.length > SHOWN ? el("p", { text: `and ${plain(lines.length - SHOWN)} more` }) : null,
      ),
    ),
  ];
}
