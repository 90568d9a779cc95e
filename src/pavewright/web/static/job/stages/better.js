// @ts-check
/** Find better: whole plans with other starts, patterns, sizes, falls, edges and build-ups; each one touch to try. */
import { call } from "../../lib/api.js";
import { el, say, tell } from "../../lib/dom.js";
import { applied, between } from "../../lib/operations.js";
import { table } from "../../lib/results.js";
import { counted, cut, messageOf, money, plain } from "../../lib/words.js";
import { group } from "../form/form.js";
import { betterPicture } from "./better-picture.js";

/**
 * @typedef {"price"|"cuts"|"days"|"carbon"|"clearance"} Aim
 * @typedef {"better"|"same"|"worse"|"open"} Beside
 * @typedef {object} Row
 * @property {boolean} is_drawn
 * @property {string[]} changes
 * @property {import("../../lib/operations.js").Operation[]} operations
 * @property {number|null} price_minor
 * @property {boolean} price_at_least
 * @property {number|null} cut
 * @property {number|null} days
 * @property {[number, number, number]|null} carbon_kg
 * @property {number|null} clearance_mm
 * @property {boolean} no_wall
 * @property {Record<Aim, Beside>} beside
 * @property {string[]} stops
 * @property {number} ends_stops
 * @property {number} new_checks
 * @typedef {{currency: string, aims: {key: Aim, name: string}[], planned: number, of: number, whole: boolean,
 *   drawn: Row, front: Row[], best: number|null, why: string, refused: string[], limits: string[]}} Found
 */

const AIMS = /** @type {[Aim, string][]} */ ([
    ["price", "Price"],
    ["cuts", "Cut pieces"],
    ["days", "Days"],
    ["carbon", "Carbon"],
    ["clearance", "Below the DPC"],
  ]),
  PLANS = [50, 200, 600],
  LOOK_MS = 500,
  NOT_KNOWN = "not known";
/** How a figure stands beside the job as drawn: a sign and a word, never colour alone. */
const BESIDE = /** @type {Record<Beside, string>} */ ({
  better: "✓ better",
  same: "= same",
  worse: "✗ worse",
  open: "? cannot be compared",
});

/** What was asked and found last, by job: it stays while the panel is drawn anew. */
const kept = /** @type {Map<string, Search>} */ (new Map());

/** A search: what is asked of it, how far it is, what it found. */
class Search {
  constructor() {
    this.aims = new Set(AIMS.map(([key]) => key));
    this.plans = 200;
    /** The job that was searched. @type {any} */ this.base = null;
    /** @type {Found|null} */ this.found = null;
    /** @type {string} */ this.name = "";
    this.running = false;
    this.done = 0;
    this.said = "";
    this.tell = () => {};
  }

  /** @param {any} doc @param {boolean} goOn */
  async start(doc, goOn) {
    const earlier = goOn ? this.name : "";
    Object.assign(this, { base: structuredClone(doc), running: true, said: "waiting", done: 0 });
    if (!goOn) this.found = null;
    this.tell();
    try {
      const asked = { document: JSON.stringify(doc), aims: [...this.aims], plans: this.plans, go_on: earlier };
      this.name = (await call("POST", "/api/better", asked)).long_task;
      while (this.running && (await this.#look())) await new Promise((next) => setTimeout(next, LOOK_MS));
    } catch (problem) {
      this.said = messageOf(problem);
    }
    this.running = false;
    this.tell();
  }

  /** Look how far it is; whether it goes on. */
  async #look() {
    const now = await call("GET", `/api/better/${this.name}`);
    if (now.so_far) this.found = now.so_far;
    if (now.state === "done") {
      this.found = await call("GET", `/api/long-tasks/${this.name}/result`);
      this.said = "";
      return false;
    }
    if (now.state === "stopped" || !["waiting", "working"].includes(now.state)) {
      this.said = now.message || (this.found ? "Stopped. The best so far stays." : "Stopped before the first plans.");
      return false;
    }
    this.said = now.told[0] ?? "waiting";
    this.done = parseInt(this.said, 10) || 0;
    this.tell();
    return true;
  }

  async stop() {
    if (this.name) await call("DELETE", `/api/long-tasks/${this.name}`);
  }
}

/** @param {Planned} state */
export function better(state) {
  const search = kept.get(state.id) ?? new Search();
  kept.set(state.id, search);
  const said = el("p", { class: "quiet", role: "status" }),
    bar = el("progress", { max: search.plans, "aria-label": "Plans made" }),
    box = el("div"),
    begin = el("button", { type: "button", class: "main", text: "Find better" }),
    goOn = el("button", { type: "button", text: "Go on" }),
    halt = el("button", { type: "button", text: "Stop", on: { click: () => search.stop() } });
  const draw = () => {
    begin.hidden = search.running;
    halt.hidden = bar.hidden = !search.running;
    goOn.hidden = search.running || !search.found || search.found.whole || !same(state.doc, search.base);
    bar.max = search.plans;
    bar.value = search.done;
    say(said, search.said);
    box.replaceChildren(...(search.found ? shown(state, search, search.found) : []));
  };
  search.tell = draw;
  begin.addEventListener("click", () => search.start(state.doc, false));
  goOn.addEventListener("click", () => search.start(state.doc, true));
  draw();
  const about =
    "Whole plans are made with other starts, patterns, joints, sizes of the firm's list, falls, edges that may move, " +
    "and build-ups. What others own stays. Shown are those that no other one beats in what you choose.";
  return group(
    "Find better",
    [el("p", { text: about }), chooser(search), el("div", { class: "row" }, begin, goOn, halt), bar, said, box],
    { open: search.running || search.found !== null },
  );
}

/** What matters, and how many plans. @param {Search} search */
function chooser(search) {
  const boxes = AIMS.map(([key, name]) =>
    el(
      "label",
      { class: "better-aim" },
      el("input", {
        type: "checkbox",
        checked: search.aims.has(key),
        on: {
          change: (/** @type {Event} */ event) => {
            const on = /** @type {HTMLInputElement} */ (event.target).checked;
            if (on) search.aims.add(key);
            else search.aims.delete(key);
          },
        },
      }),
      el("span", { text: name }),
    ),
  );
  const many = el(
    "select",
    {
      on: {
        change: (/** @type {Event} */ event) =>
          (search.plans = Number(/** @type {HTMLSelectElement} */ (event.target).value)),
      },
    },
    ...PLANS.map((count) =>
      el("option", { value: String(count), selected: count === search.plans, text: `${count} plans` }),
    ),
  );
  return el(
    "div",
    {},
    el("fieldset", { class: "better-aims" }, el("legend", { text: "What matters" }), ...boxes),
    el("label", { class: "field" }, el("span", { class: "name", text: "How long it looks" }), many),
  );
}

/** Whether two documents hold the same, in whatever order it is written. @param {any} one @param {any} other */
const same = (one, other) => Boolean(one && other) && !between(one, other).length;

/** The job with a proposal; nothing where it cannot be put in any more. @param {any} base @param {Row} row */
function joined(base, row) {
  const { doc, clashes } = applied(base, row.operations);
  return clashes.length ? null : doc;
}

/** @param {Planned} state @param {Search} search @param {Found} found @returns {Node[]} */
function shown(state, search, found) {
  const taken = found.front.findIndex((row) => same(state.doc, joined(search.base, row))),
    fresh = taken >= 0 || same(state.doc, search.base),
    out = /** @type {Node[]} */ ([el("p", { class: "better-why", text: found.why })]);
  if (!fresh) out.push(el("p", { text: "The job has changed since: search again before you try one." }));
  out.push(
    betterPicture(found),
    table(
      [{ head: "No." }, { head: "What changes" }, ...AIMS.map(([, head]) => ({ head })), { head: "" }],
      [
        ["■", el("b", { text: "As drawn" }), ...AIMS.map(([aim]) => value(aim, found.drawn, found.currency)), ""],
        ...found.front
          .map((row, index) => ({ row, index }))
          .filter(({ row }) => !row.is_drawn)
          .map(({ row, index }) => [
            `${found.best === index ? "★ " : ""}${index + 1}`,
            whatChanges(row),
            ...AIMS.map(([aim]) => beside(aim, row, found.currency)),
            tryIt(state, search, row, index, { fresh, taken: taken === index }),
          ]),
      ],
      "Better ways",
    ),
    el("p", { class: "quiet", text: "★ recommended. Carbon is that of what has a factor." }),
  );
  const left = [...found.refused.map((words) => `${words}.`), ...found.limits];
  if (left.length)
    out.push(
      el(
        "details",
        {},
        el("summary", { text: `${counted(found.planned, "plan")} made; what is not here` }),
        el("ul", {}, ...left.map((text) => el("li", { text }))),
      ),
    );
  return out;
}

/** @param {Row} row */
function whatChanges(row) {
  const more = [];
  if (row.ends_stops) more.push(`✓ ends ${counted(row.ends_stops, "stop")}`);
  if (row.new_checks) more.push(`▲ ${counted(row.new_checks, "new thing")} to look at`);
  return el("ul", { class: "better-changes" }, ...[...row.changes, ...more].map((text) => el("li", { text })));
}

/** @param {Planned} state @param {Search} search @param {Row} row @param {number} index
 * @param {{fresh: boolean, taken: boolean}} now */
function tryIt(state, search, row, index, now) {
  if (now.taken) return el("b", { text: "✓ taken" });
  return el("button", {
    type: "button",
    class: "small",
    text: "Try it",
    "aria-label": `Try ${index + 1}: ${row.changes.join("; ")}`,
    disabled: !now.fresh,
    on: {
      click: () => {
        const next = joined(search.base, row);
        if (!next) return tell("This cannot be put in any more: search again.");
        state.put(cut(`better: ${row.changes.join("; ")}`, 150), next);
        search.tell(); // at once: the plan of it comes later
        tell(`Number ${index + 1} is in the job.`, { label: "Undo", act: () => state.undo() });
      },
    },
  });
}

/** A figure of a plan. @param {Aim} aim @param {Row} row @param {string} currency */
function value(aim, row, currency) {
  switch (aim) {
    case "price":
      if (row.price_minor === null) return NOT_KNOWN;
      return `${row.price_at_least ? "at least " : ""}${money(row.price_minor, currency)}`;
    case "cuts":
      return row.cut === null ? NOT_KNOWN : plain(row.cut);
    case "days":
      return row.days === null ? NOT_KNOWN : plain(row.days);
    case "carbon":
      return row.carbon_kg === null ? NOT_KNOWN : `${plain(row.carbon_kg[0])}–${plain(row.carbon_kg[2])} kg`;
    default:
      return row.no_wall ? "no wall" : row.clearance_mm === null ? NOT_KNOWN : `${plain(row.clearance_mm)} mm`;
  }
}

/** A figure with how it stands beside the job as drawn. @param {Aim} aim @param {Row} row @param {string} currency */
const beside = (aim, row, currency) =>
  el(
    "span",
    { class: "better-figure" },
    el("span", { text: value(aim, row, currency) }),
    el("small", { text: BESIDE[row.beside[aim]] }),
  );
