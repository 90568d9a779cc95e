// @ts-check
/** Other build-ups of the job: each planned with the whole of it, compared, and chosen. */
import { call, longTask } from "../../lib/api.js";
import { el, tell } from "../../lib/dom.js";
import { withChanges } from "../../lib/drain-ways.js";
import { SIGN, table } from "../../lib/results.js";
import { cut, layerWords, messageOf, money, plain, wasStopped } from "../../lib/words.js";
import { group } from "../form/form.js";

/**
 * @typedef {{path: string, value: unknown}} Change
 * @typedef {{severity: string, place: string, message: string}} Noticed
 * @typedef {{name: string, thickness_mm: number}} Layer
 * @typedef {{name: string, layers_mm: Layer[]|null, decides: boolean, words: string}} Rule
 * @typedef {{description: string, words: string}} NoFactor
 * @typedef {object} Alternative
 * @property {string} key
 * @property {string} area
 * @property {string|null} bedding
 * @property {string} name
 * @property {boolean} chosen
 * @property {Change[]} changes
 * @property {number|null} build_up_mm
 * @property {number|null} dig_mm
 * @property {number|null} dig_m3
 * @property {number|null} total_minor
 * @property {boolean} at_least
 * @property {boolean} price_comparable
 * @property {string[]} gaps
 * @property {string[]} in_one_price_only
 * @property {number|null} mass_t
 * @property {string[]} no_mass
 * @property {number|null} days
 * @property {[number, number, number]|null} carbon_kg
 * @property {string[]} weak
 * @property {NoFactor[]} no_factor
 * @property {string|null} rule
 * @property {Rule[]} regimes
 * @property {Noticed[]} findings
 * @property {Noticed[]} stays
 * @property {Noticed[]} ends
 * @property {string[]} faults
 * @property {{kind: string, words: string}[]} not_known
 * @typedef {{words: string}} Ground
 * @typedef {{ground: Ground|null, alternatives: Alternative[], refused: Alternative[], why_not: string[]}} Choice
 */

/** What was found last, by what it was found for: after a choice is undone the table is there again. */
const kept = /** @type {Map<string, Choice>} */ (new Map()),
  KEPT = 4;
/** What was chosen, to be compared again once its plan is made. */
const chosen = { anew: false };
/**
 * The comparison under way: the part may be drawn anew meanwhile, and then goes on with it.
 * @type {{made: string, now: string, stop: AbortController, tell: () => void}|null}
 */
let running = null;
const NOT_KNOWN = "not known";

/** What build-ups are found for: the document, and the job with what the book gives it. @param {Planned} state */
const madeOf = (state) => JSON.stringify([state.doc, state.plan.job, state.plan.edition]);

/** Ask for the build-ups; what is told meanwhile goes to the part that is shown. @param {Planned} state */
async function compare(state) {
  const made = madeOf(state),
    own = { made, now: "waiting", stop: new AbortController(), tell: () => {} },
    asked = { verb: "build-ups", document: JSON.stringify(state.doc) };
  running?.stop.abort();
  running = own;
  try {
    const name = await longTask(asked, (now) => [(own.now = now), own.tell()], own.stop.signal);
    keep(made, (await call("GET", `/api/long-tasks/${name}/result`)).build_ups);
    own.now = "";
  } catch (problem) {
    own.now = wasStopped(problem) ? "Stopped." : messageOf(problem);
  }
  if (running === own) running = null;
  own.tell();
}

/** @param {Planned} state */
export function alternatives(state) {
  const made = madeOf(state),
    said = el("p", { class: "quiet", role: "status" }),
    box = el("div"),
    begin = el("button", { type: "button", class: "main", text: "Compare build-ups" }),
    halt = el("button", { type: "button", text: "Stop", on: { click: () => running?.stop.abort() } });
  const draw = () => {
    const mine = running?.made === made;
    begin.hidden = mine;
    halt.hidden = !mine;
    const found = kept.get(made);
    if (found && !box.childElementCount) box.replaceChildren(...shown(state, found));
  };
  /** Go on with a comparison, whoever began it. */
  const follow = () => {
    const own = running;
    if (!own) return;
    const now = () => {
      said.textContent = own.now;
      draw();
    };
    own.tell = now;
    now();
  };
  const start = () => {
    box.replaceChildren();
    compare(state);
    follow();
  };
  begin.addEventListener("click", start);
  draw();
  if (running?.made === made) follow();
  else if (!kept.has(made) && chosen.anew && state.planIsOf === state.doc) start();
  else if (!kept.has(made) && kept.size) said.textContent = "The job or its prices have changed since: compare again.";
  if (state.planIsOf === state.doc) chosen.anew = false;
  const about =
    "Each build-up is planned with the whole job: its layers, dig, price, days, mass and carbon. What published " +
    "rules say stands beside the one that decides. What is not known is said, never guessed.";
  return group("Other build-ups", [el("p", { text: about }), el("div", { class: "row" }, begin, halt), said, box], {
    open: kept.size > 0 || running !== null,
  });
}

/** @param {string} made @param {Choice} found */
function keep(made, found) {
  kept.delete(made);
  kept.set(made, found);
  for (const old of [...kept.keys()].slice(0, -KEPT)) kept.delete(old);
}

/** @param {Planned} state @param {Choice} found @returns {Node[]} */
function shown(state, found) {
  if (!found.alternatives.length)
    return [
      el("p", { text: "No build-up is compared yet. First:" }),
      el("ul", {}, ...found.why_not.map((text) => el("li", { text }))),
    ];
  // the book may have changed since this page was planned: then these are build-ups at other prices
  const now = found.alternatives.find((one) => one.chosen)?.total_minor,
    planned = state.plan.cost?.total_minor;
  if (typeof now === "number" && typeof planned === "number" && now !== planned)
    return [
      el("p", { text: "Prices have changed since this plan was made: load the page again, then compare again." }),
    ];
  const areas = [...new Set(found.alternatives.map((one) => one.area))],
    out = found.ground ? [el("p", { text: `Ground: ${found.ground.words}.` })] : [];
  for (const area of areas) {
    const own = found.alternatives.filter((one) => one.area === area),
      refused = found.refused.filter((one) => one.area === area);
    out.push(el("h4", { text: area }), compared(state, own));
    if (refused.length) out.push(el("h4", { text: `${area}: refused` }), ...refused.map(whyRefused));
  }
  return out;
}

/** @param {Planned} state @param {Alternative[]} all */
function compared(state, all) {
  const now = all.find((one) => one.chosen),
    currency = state.plan.job.identity.currency;
  return table(
    [
      { head: "Build-up" },
      { head: "Dig" },
      { head: "Price" },
      { head: "Days" },
      { head: "Mass" },
      { head: "Carbon" },
      { head: "" },
      { head: "" },
    ],
    all.map((one) => [
      named(one),
      one.dig_mm === null || one.dig_m3 === null
        ? NOT_KNOWN
        : `${plain(one.dig_mm)}\u00a0mm, ${plain(one.dig_m3, 1)}\u00a0m³`,
      el("span", { text: priceOf(one, now, currency) }),
      one.days === null ? NOT_KNOWN : plain(one.days),
      one.mass_t === null ? NOT_KNOWN : `${one.no_mass.length ? "at least " : ""}${plain(one.mass_t, 1)}\u00a0t`,
      one.carbon_kg === null ? NOT_KNOWN : `${plain(one.carbon_kg[0])} to ${plain(one.carbon_kg[2])}\u00a0kg`,
      { under: reasons(one), of: one.name, word: "Why" },
      pick(state, one),
    ]),
    `Build-ups of ${all[0].area}`,
  );
}

/** Its name, and its layers under it. @param {Alternative} one */
const named = (one) =>
  el(
    "div",
    {},
    `${one.chosen ? "✓ planned: " : ""}${shortName(one)}`,
    el("span", { class: "source", text: `Layers: ${layersOf(one)}` }),
  );

/** Its name without that of its area, which stands over the table. @param {Alternative} one */
const shortName = (one) => one.name.slice(one.area.length + 2);

/** @param {Alternative} one */
function layersOf(one) {
  const base = one.regimes.find((rule) => rule.decides)?.layers_mm;
  if (!base || one.build_up_mm === null) return NOT_KNOWN;
  const parts = base.map(layerWords).join(" + ");
  return `${parts}; ${plain(one.build_up_mm)} mm with bed and units`;
}

/** The price, and what it is more or less than what is planned; where the two cannot be compared it says so. */
const priceOf = (
  /** @type {Alternative} */ one,
  /** @type {Alternative|undefined} */ now,
  /** @type {string} */ currency,
) => {
  if (one.total_minor === null) return NOT_KNOWN;
  const price = `${one.at_least ? "at least " : ""}${money(one.total_minor, currency)}`;
  if (one.chosen) return price;
  if (!one.price_comparable || !now || now.total_minor === null) return `${price}, not to be compared`;
  const more = one.total_minor - now.total_minor;
  return `${price}, ${more < 0 ? "−" : "+"}\u2060${money(Math.abs(more), currency)}`;
};

/** @param {Planned} state @param {Alternative} one */
function pick(state, one) {
  if (one.chosen) return "";
  if (!one.changes.length) return el("span", { text: "not planned here" });
  return el("button", {
    type: "button",
    text: "Choose",
    "aria-label": `Choose ${one.name}`,
    on: {
      click: () => {
        chosen.anew = true;
        state.change(cut(`build-up: ${one.name}`, 190), (doc) => withChanges(doc, one.changes));
        tell("Chosen. The plan follows.", { label: "Undo", act: () => state.undo() });
      },
    },
  });
}

/** Why a build-up is as it is, and what is not known of it. @param {Alternative} one */
function reasons(one) {
  const beside = one.regimes.filter((rule) => !rule.decides),
    parts = /** @type {[string, string[]][]} */ ([
      ["The rule that decides", one.rule ? [one.rule] : []],
      ["What other published rules say", beside.map((rule) => `${rule.name}: ${rule.words}`)],
      ["What is not known", one.not_known.map((each) => each.words)],
      ["Has no price, and differs from what is planned", one.in_one_price_only],
      ["Has no price", one.gaps.filter((gap) => !one.in_one_price_only.includes(gap))],
      ["Noticed", one.findings.map((each) => `${SIGN[each.severity]} ${each.message}`)],
      ["Stops of the job that stay", one.stays.map((each) => each.message)],
      ["Stops of the job that it ends", one.ends.map((each) => each.message)],
      ["Not in its mass, because what it weighs is not known", listed(one.no_mass)],
      ["Not in its carbon", noCarbon(one.no_factor)],
      ["Weak factors of carbon", one.weak],
    ]);
  return el(
    "div",
    { class: "inside" },
    ...parts
      .filter(([, lines]) => lines.length)
      .flatMap(([head, lines]) => [
        el("p", {}, el("b", { text: head })),
        el("ul", {}, ...lines.map((text) => el("li", { text }))),
      ]),
  );
}

/** Many names as one line. @param {string[]} names */
const listed = (names) => (names.length ? [`${names.join("; ")}.`] : []);

/** What has no factor, by the reason. @param {NoFactor[]} all */
function noCarbon(all) {
  const why = [...new Set(all.map((one) => one.words))];
  return why.map(
    (words) =>
      `${words}: ${all
        .filter((one) => one.words === words)
        .map((one) => one.description)
        .join("; ")}.`,
  );
}

/** @param {Alternative} one */
function whyRefused(one) {
  const stops = one.findings.filter((each) => each.severity === "stop").map((each) => `${SIGN.stop} ${each.message}`),
    first = one.dig_m3 === null && !one.faults.length ? ["It is not planned as far as the job is."] : [];
  return el(
    "div",
    { class: "finding stop" },
    el("p", {}, el("b", { text: one.name })),
    el("ul", {}, ...[...one.faults, ...stops, ...(stops.length ? [] : first)].map((text) => el("li", { text }))),
    one.build_up_mm === null ? null : el("p", { text: `Layers: ${layersOf(one)}.` }),
  );
}
