// @ts-check
/** The order of work: one step at a time, with the tape that proves it. */
import { el } from "../../lib/dom.js";
import { mm, plain, tape } from "../../lib/words.js";
import { glance, padFor, set } from "../parts.js";
import { checkSays } from "./hung.js";

/** @typedef {import("../parts.js").Here} Here */

/** @param {Here} here @returns {Node[]} */
export function orderPanel(here) {
  const work = /** @type {any} */ (here.view).setting_out.work,
    done = new Map(Object.entries(here.ui.outDone ?? {}));
  const key = (/** @type {any} */ one) => `${one.number} ${one.place} ${one.at.map(Math.round).join(" ")}`,
    left = work.steps.filter((/** @type {any} */ one) => !done.has(key(one)));
  const now = work.steps.find((/** @type {any} */ one) => one.number === here.ui.outStep) ?? left[0] ?? work.steps[0];
  if (!now) return [el("p", { class: "ask", text: "There is nothing to set out yet." })];
  const index = work.steps.indexOf(now),
    isDone = done.has(key(now)),
    taped = /** @type {number[]} */ (isDone ? done.get(key(now)) : (here.ui.outFound ?? [])),
    next = isDone ? null : (now.checks[taped.length] ?? null);
  const clean = { outFound: [], outOff: 0, typed: "" };
  const keepStep = (/** @type {number[]} */ found) => {
    const kept = { ...here.ui.outDone, [key(now)]: found },
      after = work.steps.find((/** @type {any} */ one) => !(key(one) in kept));
    set(here, { ...clean, outDone: kept, outStep: after?.number ?? now.number });
  };
  const onCheck = (/** @type {number} */ found_mm) => {
    if (!checkSays(next, found_mm).good) return set(here, { outOff: found_mm, typed: "" });
    const found = [...taped, found_mm];
    return found.length < now.checks.length ? set(here, { ...clean, outFound: found }) : keepStep(found);
  };
  const go = (/** @type {number} */ way) =>
    set(here, { ...clean, outStep: work.steps[(index + way + work.steps.length) % work.steps.length].number });
  return [
    glance(work.steps.length - left.length, work.steps.length, "steps done", left.find(other(now))?.place ?? ""),
    el(
      "div",
      { class: "peg" },
      el("h2", { text: `${now.number}. ${now.place}${isDone ? " ✓" : ""}` }),
      ...howTo(now),
      el("p", { class: "quiet", text: `${now.area}. Comes within ${mm(Math.ceil(now.error.within_mm))} or so.` }),
      ...now.checks.map((/** @type {any} */ check) => checkAsked(check)),
      el("p", { class: "quiet", text: whatChecksFind(now) }),
      ...taped.map((found_mm, number) => told(now.checks[number], found_mm)),
    ),
    next ? padFor(here, `Tape found, ${next.start} to ${next.end}`, "Check it", onCheck) : el("span"),
    here.ui.outOff && next ? told(next, here.ui.outOff) : el("span"),
    el(
      "div",
      { class: "row thirds" },
      el("button", { type: "button", text: "◂ Before", on: { click: () => go(-1) } }),
      el("button", {
        type: "button",
        class: next ? "" : "main",
        text: isDone ? "Not done" : next ? "Skip check" : "Done",
        on: { click: () => (isDone ? undo(here, key(now)) : keepStep(taped)) },
      }),
      el("button", { type: "button", text: "Next ▸", on: { click: () => go(1) } }),
    ),
    assumedLine(work),
  ];
}

const other = (/** @type {any} */ now) => (/** @type {any} */ one) => one !== now;

/** @param {Here} here @param {string} key */
function undo(here, key) {
  const { [key]: _, ...rest } = here.ui.outDone ?? {};
  set(here, { outDone: rest, outFound: [], outOff: 0 });
}

/** How a step is done, in big figures. @param {any} step @returns {Node[]} */
function howTo(step) {
  const [one, two] = step.stations,
    [first, second] = step.tapes_mm;
  const line = (/** @type {number} */ length_mm, /** @type {string} */ words) =>
    el("p", { class: "peg-string" }, el("b", { text: tape(Math.abs(length_mm)) }), ` m ${words}`);
  if (step.fixed_by === "base") return [line(first, `from ${one} to ${two}: the base line`)];
  if (step.fixed_by === "square")
    return [
      line(first, `along the base line from ${one}`),
      line(second, `square off it, to the ${second > 0 ? "left" : "right"}`),
    ];
  return [
    line(first, `from ${one}`),
    line(second, `from ${two}`),
    el("p", { class: "quiet", text: `The two tapes cross at ${plain(step.cut_deg)}°.` }),
  ];
}

/** @param {any} check */
const checkAsked = (check) =>
  el(
    "p",
    { class: "ask" },
    `Check: ${check.start} to ${check.end} reads `,
    el("b", { text: `${tape(check.expected_mm)} m` }),
    `, up to ${mm(Math.ceil(check.limit_mm))} off.`,
  );

/** @param {any} step */
function whatChecksFind(step) {
  if (step.checks.length)
    return step.finds_mm === null
      ? "This does not show every slip: the next corners prove it too."
      : `Shows a corner that is ${mm(Math.ceil(step.finds_mm))} out.`;
  return step.fixed_by === "base"
    ? "Tape it twice, the second time from the other end."
    : "No other place is seen from here yet: tape it twice. The next corners prove it.";
}

/** @param {any} check @param {number} found_mm */
function told(check, found_mm) {
  const { off_mm, good } = checkSays(check, found_mm),
    way = off_mm < 0 ? "short" : "long";
  return el(
    "div",
    { class: `finding ${good ? "note" : "stop"}`, role: "alert" },
    el("p", {
      text: good
        ? `✓ ${mm(Math.abs(off_mm))} ${way}: within ${plain(check.limit_mm, 1)} mm.`
        : `✕ ${mm(Math.abs(off_mm))} ${way}; ${plain(check.limit_mm, 1)} mm is the limit. ` +
          "Something is wrong: tape this corner again, then the check.",
    }),
  );
}

/** What is taken for the tools. @param {any} work */
function assumedLine(work) {
  const assumed = work.tools.assumed.map((/** @type {any} */ one) => TOOLS[one.tool]);
  return el("p", {
    class: "quiet",
    text: assumed.length
      ? `Nobody entered the ${assumed.join(", ")}: usual ones are assumed.`
      : "Worked out for the tools that were entered.",
  });
}

const TOOLS = /** @type {Record<string, string>} */ ({
  tape: "class of the tape",
  tape_length: "length of the tape",
  tape_read: "reading of the tape",
  square: "square",
  level: "level",
  string: "string",
  pull: "pull on the string",
});
