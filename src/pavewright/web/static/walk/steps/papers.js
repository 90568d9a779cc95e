// @ts-check
/** The price as a range with what it rests on, then the papers for the customer. */
import { el, say } from "../../lib/dom.js";
import { call, longTask } from "../../lib/api.js";
import { ofMoney } from "../../lib/lists.js";
import { messageOf, money, plain, squareMetres } from "../../lib/words.js";
import { rangeWords } from "../../lib/price-range.js";
import { button } from "../parts.js";
import { agreedPart, noticePart } from "./agreed.js";
import { askAgain, plannedOnce, textOf, toldNow } from "../planned.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "papers",
  name = "Quotation",
  why = "The price, what it rests on, and the papers for the customer.",
  /** @type {("none"|"could_not_see")[]} */ answers = [];

const PAPER = "quotation.pdf";

/** @param {any} here */
export const state = (here) => (here.made ? "done" : "open");

/** @param {any} here @returns {Node[]} */
export function draw(here) {
  plannedOnce(here).then((told) => {
    if (told === null && here.step.key === key) offline(here);
  });
  const told = toldNow(here); // a price of an older state is not shown
  if (!told)
    return [
      el("p", { class: "question", text: "The price" }),
      el("p", {
        id: "price-waits",
        role: "status",
        text: navigator.onLine ? "working it out …" : "No signal: all is kept here, the price comes with signal.",
      }),
      button("Try again", () => askAgain(here)),
    ];
  const plan = told.plan ?? {};
  return [
    ...priceOf(here, plan),
    ...stopsOf(plan),
    ...papersPart(here, told),
    ...gapsOf(plan),
    ...missingOf(told),
    ...assumedOf(here, plan),
  ];
}

/** @param {any} here */
function offline(here) {
  const box = document.querySelector("#price-waits");
  if (box && !here.told) say(box, "No signal: all is kept here, the price comes with signal.");
}

/** @param {any} here @param {any} plan */
function priceOf(here, plan) {
  const { cost } = plan,
    currency = here.doc.identity?.currency ?? "GBP",
    areas = plan.survey?.site?.areas ?? [];
  const size = areas.reduce((/** @type {number} */ sum, /** @type {any} */ one) => sum + areaOf(one.shape), 0),
    lays = size ? ` ${squareMetres(size)} to pave.` : "";
  if (!cost) return [el("p", { class: "question", text: "There is no price yet" }), el("p", { text: lays.trim() })];
  if (cost.range_kind === "not_known")
    return [
      el("p", { class: "question", text: "The price is not known yet" }),
      el("p", { text: `${rangeWords(cost, currency)}${lays}` }),
    ];
  return [
    el("p", { class: "question", text: rangeWords(cost, currency) }),
    el("p", { text: `Likely ${money(cost.total_minor, currency)}, ${taxWords(cost, plan.job?.rates)}.${lays}` }),
  ];
}

const UNTAXED = ["none", "reverse_charge"];

/** What of the tax is in a price, in words. @param {any} cost @param {any} rates */
function taxWords(cost, rates) {
  const name = rates?.tax_name ?? "tax",
    shares = cost.tax ?? [],
    free = (/** @type {any} */ { taxed }) => UNTAXED.includes(taxed.regime),
    known = shares.length
      ? shares.every((/** @type {any} */ one) => free(one) || one.taxed.percent !== null)
      : (rates?.tax_percent ?? null) !== null;
  if (!known) return `${name} not known and not in it`;
  return shares.length && shares.every(free) ? `no ${name} in it` : `${name} included`;
}

const MM2_PER_M2 = 1e6;

/** @param {any} shape @returns {number} */
function areaOf(shape) {
  const ring = (/** @type {number[][]} */ all) =>
    Math.abs(
      all.reduce((sum, [x, y], index) => {
        const [x2, y2] = all[(index + 1) % all.length];
        return sum + x * y2 - x2 * y;
      }, 0),
    ) / 2;
  if (!shape?.outer) return 0;
  const holes = (shape.holes ?? []).reduce(
    (/** @type {number} */ sum, /** @type {number[][]} */ one) => sum + ring(one),
    0,
  );
  return (ring(shape.outer) - holes) / MM2_PER_M2;
}

/** @param {string[]} lines */
const list = (lines) => el("ul", { class: "plain-list" }, ...lines.slice(0, 12).map((text) => el("li", { text })));

/**
 * A few words that unfold.
 * @param {string} look
 * @param {string} head
 * @param {string[]} lines
 * @param {boolean} [open]
 */
const box = (look, head, lines, open = false) =>
  lines.length
    ? [
        el(
          "details",
          { class: `finding ${look}`, open },
          el("summary", { text: `${head}: ${lines.length}` }),
          list(lines),
        ),
      ]
    : [];

/** @param {any} plan */
function stopsOf(plan) {
  const stops = (plan.findings ?? []).filter((/** @type {any} */ one) => one.severity === "stop"),
    said = (/** @type {any[]} */ some) => some.map((one) => one.message);
  return [
    ...box("stop", "■ To settle before laying", said(stops.filter((/** @type {any} */ one) => !ofMoney(one)))),
    ...box("stop", "■ To settle before the price is sent", said(stops.filter(ofMoney))),
  ];
}

/** @param {any} plan */
const gapsOf = (plan) =>
  box(
    "check",
    "▲ Not in the price",
    (plan.cost?.gaps ?? []).map((/** @type {any} */ gap) => gap.words),
  );

/** @param {any} told */
const missingOf = (told) =>
  box(
    "note",
    "● Not known yet",
    [
      ...(told.faults ?? []).map((/** @type {any} */ one) => one.message),
      ...(told.missing ?? []).map((/** @type {any} */ one) => one.words),
    ],
    !told.plan?.cost,
  );

/** A key or a value as words. @param {any} key */
const plainly = (key) => String(key ?? "").replaceAll("_", " ");

/** What was taken to be so, and what nobody could see. @param {any} here @param {any} plan */
function assumedOf(here, plan) {
  const assumed = (plan.survey?.assumed ?? []).map((/** @type {any} */ one) =>
      [`${one.place || plainly(one.what)}: ${one.words ?? plainly(one.value)}`, one.why].filter(Boolean).join(", "),
    ),
    unseen = (here.doc.site?.walk_round ?? [])
      .filter((/** @type {any} */ one) => one.answer === "could_not_see")
      .map((/** @type {any} */ one) => one.question);
  return [...box("note", "● Assumed", assumed), ...box("note", "● Could not be seen", unseen)];
}

/** @param {any} here @param {any} told @returns {Node[]} */
function papersPart(here, told) {
  if (here.making) return [el("p", { class: "quiet", role: "status", id: "making", text: `${here.making} …` })];
  const now = here.made?.of === textOf(here.doc);
  const make = told.plan?.cost
    ? [button("Make the quotation", () => makeIt(here), { class: now ? "tall" : "main tall" })]
    : [];
  const asked = told.plan?.cost ? agreedPart(here) : [];
  if (!here.made)
    return [here.refused ? el("p", { role: "alert", text: here.refused }) : el("span"), ...asked, ...make];
  if (now) return [madePart(here)];
  const changed = el("p", { class: "finding check", text: "▲ Something changed since the quotation was made." });
  return [changed, ...asked, ...make];
}

/** Make the papers of the job as it stands now. @param {any} here */
async function makeIt(here) {
  const of = textOf(here.doc);
  Object.assign(here, { making: "asked", refused: "" });
  here.redraw();
  try {
    const asked = { verb: "pack", document: JSON.stringify(here.doc) };
    const tell = (/** @type {string} */ words) => {
      here.making = words;
      const box = document.querySelector("#making");
      if (box) say(box, `${words} …`);
    };
    const task = await longTask(asked, tell, new AbortController().signal);
    const { files } = await call("GET", `/api/long-tasks/${task}/papers`);
    here.made = { task, files, of };
  } catch (problem) {
    here.refused = messageOf(problem);
  }
  here.making = "";
  here.redraw();
}

/** @param {any} here */
function madePart(here) {
  const { task, files } = here.made,
    one =
      files.find((/** @type {any} */ file) => file.name === PAPER) ??
      files.find((/** @type {any} */ file) => file.name.endsWith(".pdf")),
    where = `/api/long-tasks/${task}/papers/${one.name}`;
  const open = el("a", {
    class: "button main tall",
    href: `${where}?show=1`,
    target: "_blank",
    rel: "noopener",
    text: `Open the quotation (${plain(one.bytes / 1000)} kB)`,
  });
  return el(
    "div",
    { class: "tall-list" },
    open,
    ...noticePart(task, files),
    typeof navigator.share === "function"
      ? button("Share it", async () => {
          try {
            const content = await (await fetch(where)).blob();
            await navigator.share({ files: [new File([content], PAPER, { type: "application/pdf" })] });
          } catch {
            here.say("This phone did not share it: open it and share from there.");
          }
        })
      : null,
    button("Make it again", () => {
      here.made = null;
      here.redraw();
    }),
  );
}
