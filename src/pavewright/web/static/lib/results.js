// @ts-check
/** Results: figures that unfold to their sums, findings with their chain of levels and options, tables. */
import { placed } from "./cards.js";
import { el } from "./dom.js";
import { money, plain } from "./words.js";
import { currencyNow } from "./writing.js";

export const STATUS = /** @type {Record<string, string>} */ ({
  S: "read in the source",
  D: "worked out from what the source prints",
  M: "from memory, look it up before you rely on it",
  C: "common practice",
});
/** What is no source of its own, but what the trade does. */
const PRACTICE = "common_practice";
/** How severe a finding is, in a sign and a word. */
export const SIGN = /** @type {Record<string, string>} */ ({ stop: "■ STOP", check: "▲ CHECK", note: "● NOTE" });

/** The sums behind a figure. @param {any[]} workings @param {Record<string, string>} sources */
export function sums(workings, sources) {
  const list = el("ul");
  for (const working of workings.filter(Boolean)) {
    const unit = working.unit && working.unit !== "-" ? ` ${working.unit}` : "",
      coins = working.unit === "minor units";
    list.append(
      el(
        "li",
        {},
        el("span", {
          class: "sum-line",
          text: coins
            ? `${working.expression} = ${money(working.result, currencyNow())}`
            : `${working.expression} = ${short(working.result)}${unit}`,
        }),
        working.note ? el("span", { class: "source", text: working.note }) : null,
        ...working.figures.map((/** @type {any} */ figure) => source(figure, sources)),
      ),
    );
  }
  return el("div", { class: "sums" }, list);
}

/** @param {number} value */
function places(value) {
  const size = Math.abs(value);
  return Number.isInteger(value) ? 0 : size < 1 ? 4 : size < 100 ? 3 : 1;
}

/** A number with no zeros at its end. @param {number} value */
function short(value) {
  const text = plain(value, places(value));
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** Where a figure of the rulebook comes from. @param {any} figure @param {Record<string, string>} sources */
export function source(figure, sources) {
  const unit = figure.unit && figure.unit !== "-" ? ` ${figure.unit}` : "";
  const range = figure.low !== null && figure.high !== null ? ` (${short(figure.low)} to ${short(figure.high)})` : "";
  const title = sources[figure.source] ?? figure.source.replaceAll("_", " "),
    where = `${title}${figure.place ? `, ${figure.place}` : ""}.`,
    told = figure.source === PRACTICE && figure.status === "C", // its title says it
    known = told ? "" : ` ${STATUS[figure.status] ?? ""}.`;
  return el("span", {
    class: "source",
    text: `${figure.label}: ${short(figure.value)}${unit}${range}. ${where}${known}`,
  });
}

/**
 * A figure that unfolds to the sum behind it.
 * @param {string} name @param {string} value @param {any[]} [workings] @param {Record<string, string>} [sources]
 */
export function fact(name, value, workings = [], sources = {}) {
  const told = [el("span", { class: "fact-name", text: name }), el("span", { class: "fact-value", text: value })];
  const known = workings.filter(Boolean);
  if (!known.length) return el("div", { class: "fact" }, el("div", {}, ...told));
  return el("details", { class: "fact" }, el("summary", {}, ...told), sums(known, sources));
}

/** @param {...Node} all */
export const facts = (...all) => el("div", { class: "facts" }, ...all);

/**
 * Findings as a list; each can be shown on the plan, and its options tried where the program knows how.
 * @param {any[]} findings
 * @param
 *   {{sources?: Record<string, string>, show?: (at: number[]) => void, tryWay?: (finding: any, index: number) => void}}
 *   [wishes]
 */
export function findings(findings, wishes = {}) {
  const list = el("ul", { class: "findings" });
  for (const one of findings) {
    const box = el(
      "li",
      { class: `finding ${one.severity}` },
      el("p", {}, el("span", { class: "word", text: SIGN[one.severity] }), el("span", { text: one.message })),
      el("p", { class: "place", text: one.place }),
    );
    if (one.chain.length)
      box.append(
        el("p", { text: "How the levels lead there:" }),
        el("ol", {}, ...one.chain.map((/** @type {{words: string}} */ link) => el("li", { text: link.words }))),
      );
    if (one.options.length) {
      box.append(
        el("p", { text: one.options.length > 1 ? "Options:" : "Option:" }),
        el(
          "ol",
          {},
          ...one.options.map(
            (/** @type {{words: string, changes: unknown[]}} */ { words, changes }, /** @type {number} */ index) => {
              const way = el("li", { text: words });
              if (wishes.tryWay && changes.length)
                way.append(
                  " ",
                  el("button", {
                    type: "button",
                    class: "small",
                    text: "Try it",
                    on: { click: () => wishes.tryWay?.(one, index) },
                  }),
                );
              return way;
            },
          ),
        ),
      );
    }
    if (one.figure)
      box.append(el("details", {}, el("summary", { text: "Why" }), source(one.figure, wishes.sources ?? {})));
    if (one.at_mm && wishes.show)
      box.append(
        el("button", {
          type: "button",
          class: "small",
          text: "Show on the plan",
          on: { click: () => wishes.show?.(one.at_mm) },
        }),
      );
    list.append(box);
  }
  return list;
}

/** A cell of more letters than these keeps some width, so that it is not broken after every word. */
const WORDS = 24;

/**
 * A table. A cell given as `{ under }` is a button that opens a row of full width under its own; it says how, or the
 * word that is given with what it is of. Where the table is wider than its place its rows become cards.
 * @param {{head: string, number?: boolean}[]} columns
 * @param {(string|Node|{under: Node, of: string, word?: string})[][]} lines
 * @param {string} name
 */
export function table(columns, lines, name) {
  const body = el("tbody");
  for (const line of lines) {
    const row = el("tr");
    body.append(row);
    line.forEach((cell, index) => {
      const given = {
        class: columns[index].number ? "number" : typeof cell === "string" && cell.length > WORDS ? "words" : null,
      };
      if (typeof cell === "string" || cell instanceof Node) {
        row.append(el("td", given, cell));
        return;
      }
      const below = el(
        "tr",
        { class: "under", hidden: true },
        el("td", { colspan: String(columns.length) }, cell.under),
      );
      const word = cell.word ?? "How",
        way = el("button", {
          type: "button",
          class: cell.word ? "unfold" : "small unfold",
          "aria-expanded": "false",
          "aria-label": cell.word ? `${word}: ${cell.of}` : `How ${cell.of} is worked out`,
          text: `▸ ${word}`,
        });
      way.addEventListener("click", () => {
        below.hidden = !below.hidden;
        way.setAttribute("aria-expanded", String(!below.hidden));
        way.textContent = `${below.hidden ? "▸" : "▾"} ${word}`;
      });
      row.append(el("td", given, way));
      body.append(below);
    });
  }
  const heads = columns.map((column) =>
    column.head ? el("th", { scope: "col", class: column.number ? "number" : null, text: column.head }) : el("td"),
  );
  return placed(name, el("table", {}, el("thead", {}, el("tr", {}, ...heads)), body));
}

/**
 * A range as a small plot with its words: low, likely, high.
 * @param {{low: number, likely: number, high: number}} range
 * @param {(value: number) => string} write
 * @param {string} name
 */
export function range(range, write, name) {
  const span = Math.max(range.high - range.low, 1e-9),
    put = ((range.likely - range.low) / span) * 100;
  const plot = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  plot.setAttribute("viewBox", "0 0 120 16");
  plot.setAttribute("width", "120");
  plot.setAttribute("height", "16");
  plot.setAttribute("aria-hidden", "true");
  plot.innerHTML = "";
  const line = (/** @type {Record<string, number|string>} */ given) => {
    const node = document.createElementNS("http://www.w3.org/2000/svg", "line");
    for (const [key, value] of Object.entries(given)) node.setAttribute(key, String(value));
    node.setAttribute("stroke", "currentColor");
    plot.append(node);
  };
  line({ x1: 6, x2: 114, y1: 8, y2: 8, "stroke-width": 2 });
  line({ x1: 6, x2: 6, y1: 3, y2: 13, "stroke-width": 2 });
  line({ x1: 114, x2: 114, y1: 3, y2: 13, "stroke-width": 2 });
  line({ x1: 6 + 1.08 * put, x2: 6 + 1.08 * put, y1: 1, y2: 15, "stroke-width": 5 });
  return el(
    "div",
    { class: "row" },
    el("span", { class: "fact-name", text: name }),
    plot,
    el("span", {
      class: "number",
      text: `${write(range.low)} to ${write(range.high)}, likely ${write(range.likely)}`,
    }),
  );
}
