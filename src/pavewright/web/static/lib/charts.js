// @ts-check
/* Charts: bars, a waterfall, a line. Every value stands beside in words; hatching, not colour, tells kinds apart. */
import { el, svg } from "./dom.js";

const WIDE = 1000,
  HIGH = 24;
let made = 0;

/** @typedef {{label: string, value: number, low?: number, high?: number, note?: string}} Bar */
/** @typedef {{label: string, value: number, total?: boolean, words?: string}} Step */
/** @typedef {{at: number, value: number}} Point */
/** @typedef {(value: number) => string} Write */

/**
 * Bars one under the other, each with its value; a whisker from low to high where both are known.
 * @param {string} name what the chart shows
 * @param {Bar[]} rows @param {Write} write
 */
export function bars(name, rows, write) {
  const ends = rows.flatMap((row) => [row.value, row.low ?? row.value, row.high ?? row.value]),
    put = scale(ends);
  return chart(
    name,
    rows.map((row) => {
      const drawn = [rect(put(0), put(row.value), "solid")];
      if (row.low !== undefined && row.high !== undefined) drawn.push(whisker(put(row.low), put(row.high)));
      return rowOf(row.label, drawn, [write(row.value), row.note].filter(Boolean).join(", "), put(0));
    }),
  );
}

/**
 * Steps from nothing to a total: each step begins where the last one ended; a total stands on zero. A step with words
 * in place of its value is not known, and is not drawn.
 * @param {string} name @param {Step[]} steps @param {Write} write
 */
export function waterfall(name, steps, write) {
  let reached = 0;
  const spans = steps.map((step) => {
    const from = step.total ? 0 : reached;
    reached = step.total ? step.value : reached + step.value;
    return { step, from, to: reached };
  });
  const put = scale(spans.flatMap((span) => [span.from, span.to]));
  return chart(
    name,
    spans.map(({ step, from, to }) => {
      const kind = step.total ? "solid" : to < from ? "less" : "more",
        drawn = step.words === undefined ? [rect(put(from), put(to), kind)] : [],
        row = rowOf(step.label, drawn, step.words ?? write(step.value), put(0));
      if (step.total) row.classList.add("chart-total");
      return row;
    }),
  );
}

/**
 * A line that holds each value until the next one, with its lowest value marked; the words under it say the same.
 * @param {string} name @param {Point[]} points in order of place
 * @param {Write} write a value in words @param {Write} where a place in words
 */
export function line(name, points, write, where) {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return el("figure", { class: "chart" }, el("figcaption", { text: name }));
  const low = points.reduce((least, point) => (point.value < least.value ? point : least), first),
    high = points.reduce((most, point) => (point.value > most.value ? point : most), first),
    tall = 260,
    values = scale([low.value, high.value]),
    up = (/** @type {number} */ value) => tall - 10 - (values(value) / WIDE) * (tall - 20),
    along = (/** @type {number} */ at) => ((at - first.at) / (last.at - first.at || 1)) * (WIDE - 20) + 10;
  let path = `M${along(first.at)},${up(first.value)}`;
  for (const point of points.slice(1)) path += `H${along(point.at)}V${up(point.value)}`;
  const lowest = `Lowest ${write(low.value)}, ${where(low.at)}`,
    highest = `highest ${write(high.value)}, ${where(high.at)}`,
    words = `${lowest}; ${highest}; ends at ${write(last.value)}.`;
  const picture = svg(
    "svg",
    { viewBox: `0 0 ${WIDE} ${tall}`, preserveAspectRatio: "none", role: "img", "aria-label": `${name}. ${words}` },
    svg("path", { d: `M0,${up(0)}H${WIDE}`, class: "chart-zero" }),
    svg("path", { d: `M${along(low.at)},${up(low.value)}V${tall}`, class: "chart-mark" }),
    svg("path", { d: path, class: "chart-line" }),
  );
  return el(
    "figure",
    { class: "chart chart-curve" },
    el("figcaption", { text: name }),
    el("p", { class: "chart-top", text: write(high.value) }),
    picture,
    el("p", { class: "chart-ends" }, el("span", { text: where(first.at) }), el("span", { text: where(last.at) })),
    el("p", { text: words }),
  );
}

/** @param {number[]} values @returns {(value: number) => number} */
function scale(values) {
  const low = Math.min(0, ...values),
    high = Math.max(0, ...values);
  return (value) => ((value - low) / (high - low || 1)) * WIDE;
}

/** @param {number} from @param {number} to @param {"solid"|"more"|"less"} kind */
function rect(from, to, kind) {
  const width = Math.max(Math.abs(to - from), 2);
  return svg("rect", { x: Math.min(from, to), y: 3, width, height: HIGH - 6, class: `chart-${kind}` });
}

/** @param {number} from @param {number} to */
const whisker = (from, to) =>
  svg("path", { d: `M${from},6V${HIGH - 6}M${from},${HIGH / 2}H${to}M${to},6V${HIGH - 6}`, class: "chart-range" });

/** @param {string} label @param {SVGElement[]} drawn @param {string} words @param {number} zero */
function rowOf(label, drawn, words, zero) {
  const hatch = `hatch-${(made += 1)}`;
  for (const part of drawn)
    if (part.classList.contains("chart-more") || part.classList.contains("chart-less"))
      part.setAttribute("fill", `url(#${hatch})`);
  const picture = svg(
    "svg",
    { viewBox: `0 0 ${WIDE} ${HIGH}`, preserveAspectRatio: "none", "aria-hidden": "true" },
    svg(
      "defs",
      {},
      svg(
        "pattern",
        { id: hatch, width: 12, height: 8, patternUnits: "userSpaceOnUse" },
        svg("path", { d: "M0,8L12,0", class: "chart-hatch" }),
      ),
    ),
    svg("path", { d: `M${zero},0V${HIGH}`, class: "chart-zero" }),
    ...drawn,
  );
  return el(
    "li",
    {},
    el("span", { class: "chart-label", text: label }),
    picture,
    el("span", { class: "chart-value", text: words }),
  );
}

/** @param {string} name @param {HTMLElement[]} rows */
const chart = (name, rows) => el("figure", { class: "chart" }, el("figcaption", { text: name }), el("ul", {}, ...rows));
