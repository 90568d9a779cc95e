// @ts-check
/** Rows of bars for what comes and goes: a row for each supplier, each hire, and spoil. No colour is needed. */
import { svg } from "../../lib/dom.js";
import { day } from "../../lib/words.js";
import { loadWords, plantName } from "./supply.js";

const HALF = 8;

/**
 * @typedef {"triangle"|"ring"|"arrival"|"square"} Shape
 * @typedef {{on: string, shape: Shape, words: string}} Mark
 * @typedef {{name: string, marks: Mark[], span: {on: string, off: string, paid: string|null, words: string}|null}} Row
 */

/** @param {Planned} state @returns {Row[]} */
export function supplyRows(state) {
  const { programme } = state.plan;
  /** @type {Map<string, plan.Delivery[]>} */
  const suppliers = new Map();
  for (const one of programme.deliveries) {
    const who = `${one.supplier}|${one.supplier_kind ?? ""}`;
    suppliers.set(who, [...(suppliers.get(who) ?? []), one]);
  }
  const first = firstDay(programme);
  return [
    ...[...suppliers.values()].map((theirs) => ({
      name: `Comes from ${theirs[0].supplier || "suppliers without a name"}`,
      marks: theirs.flatMap((one) => deliveryMarks(one, first)),
      span: null,
    })),
    ...programme.hires.flatMap((one) => hireRow(state, one)),
    ...(programme.loads.length ? [{ name: "Spoil leaves", marks: programme.loads.map(loadMark), span: null }] : []),
  ];
}

/** The first day of the bars: work may be done before the job was to begin, and materials come before it.
 * @param {plan.Programme} programme
 */
export const firstDay = (programme) =>
  [...programme.tasks.map((task) => task.start.slice(0, 10)), ...programme.deliveries.map((one) => one.on)].reduce(
    (one, two) => (one < two ? one : two),
    programme.start,
  );

/** @param {plan.Delivery} one @param {string} first @returns {Mark[]} */
function deliveryMarks(one, first) {
  const what = one.items.map((item) => item.description).join(", "),
    by = one.order_by;
  return [
    { on: one.on, shape: "triangle", words: `there on ${day(one.on)}: ${what}` },
    ...(by && by >= first && !one.begun
      ? [{ on: by, shape: /** @type {Shape} */ ("ring"), words: `order by ${day(by)}: ${what}` }]
      : []),
  ];
}

/** @param {Planned} state @param {plan.Hire} one @returns {Row[]} */
function hireRow(state, one) {
  if (!one.on || !one.off) return [];
  const paid = one.paid_until && one.paid_until > one.off ? one.paid_until : null,
    words = `from ${day(one.on)}, call off at the end of ${day(one.off)}${paid ? `, paid until ${day(paid)}` : ""}`;
  return [{ name: `On hire: ${plantName(state, one)}`, marks: [], span: { on: one.on, off: one.off, paid, words } }];
}

/** @param {plan.LoadDay} one @returns {Mark} */
const loadMark = (one) => ({ on: one.on, shape: LOADS[one.kind], words: `${day(one.on)}: ${loadWords(one)}` });

/** @type {Record<plan.LoadDay["kind"], Shape>} */
const LOADS = { skip_comes: "arrival", skip_changed: "square", skip_goes: "triangle", load_leaves: "triangle" };

/**
 * @param {Row} row @param {{y: number, high: number}} place
 * @param {{put: (iso: string) => number, dayWide: number, width: number}} scale
 */
export function supplyRow(row, { y, high }, scale) {
  const at = y + high - HALF - 8,
    told = [...row.marks.map((mark) => mark.words), ...(row.span ? [row.span.words] : [])].join("; "),
    middle = (/** @type {string} */ on) => scale.put(`${on}T12:00`);
  /** @type {Map<string, number>} */
  const taken = new Map();
  const node = svg("g", { class: "comes", role: "img", "aria-label": `${row.name}: ${told}` });
  for (const mark of row.marks) {
    // what falls on one day stands side by side
    const count = taken.get(mark.on) ?? 0;
    taken.set(mark.on, count + 1);
    const x = middle(mark.on) + (count % 2 ? 1 : -1) * Math.ceil(count / 2) * 2 * HALF;
    node.append(svg("path", { d: SHAPES[mark.shape](x, at), class: mark.shape }, svg("title", { text: mark.words })));
  }
  if (row.span) {
    const from = middle(row.span.on) - scale.dayWide / 2,
      to = middle(row.span.off) + scale.dayWide / 2,
      ends = [from, to].map((x) => `M${x} ${at - HALF}V${at + HALF}`).join("");
    node.append(
      svg("path", { d: `M${from} ${at}H${to}${ends}`, class: "hire" }, svg("title", { text: row.span.words })),
    );
    const paid = row.span.paid && Math.min(middle(row.span.paid) + scale.dayWide / 2, scale.width);
    if (paid && paid > to) node.append(svg("path", { d: `M${to} ${at}H${paid}`, class: "paid" }));
  }
  return node;
}

/** @type {Record<Shape, (x: number, y: number) => string>} */
const SHAPES = {
  triangle: (x, y) => `M${x - HALF} ${y + HALF}L${x + HALF} ${y + HALF}L${x} ${y - HALF}Z`,
  arrival: (x, y) => `M${x - HALF} ${y - HALF}L${x + HALF} ${y - HALF}L${x} ${y + HALF}Z`,
  square: (x, y) => `M${x - HALF + 1} ${y - HALF + 1}H${x + HALF - 1}V${y + HALF - 1}H${x - HALF + 1}Z`,
  ring: (x, y) => `M${x - HALF} ${y}a${HALF} ${HALF} 0 1 0 ${2 * HALF} 0a${HALF} ${HALF} 0 1 0 ${-2 * HALF} 0Z`,
};

/** What the signs of these rows mean; nothing where there are none. @param {Planned} state */
export const supplyLegend = ({ plan: { programme } }) =>
  [
    programme.deliveries.length ? "▲: materials are to be there. ○: last day to order them." : "",
    programme.hires.some((one) => one.on) ? "Line between two ends: on hire; dotted: paid for after the call." : "",
    programme.loads.some((one) => one.kind !== "load_leaves") ? "▼: a skip comes. ■: changed. ▲: goes." : "",
    programme.loads.some((one) => one.kind === "load_leaves") ? "▲: a load of spoil leaves." : "",
  ]
    .filter(Boolean)
    .join(" ");
