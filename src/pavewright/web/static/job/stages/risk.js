// @ts-check
/** The risk of the price: how it falls, what moves it, and the price for a chance that one takes. */
import { el, say } from "../../lib/dom.js";
import { bars } from "../../lib/charts.js";
import { call, longTask } from "../../lib/api.js";
import { group } from "../form/form.js";
import { fact, facts, source } from "../../lib/results.js";
import { messageOf, money, plain, roundMoney, spoken, wasStopped } from "../../lib/words.js";

/** What was found last, with what it was found for: both stages show it. */
const last = { made: "", /** @type {plan.Risk|null} */ found: null };
/** What the user picked stays while the screen is made anew. */
const picked = { percent: 10 };
const SHOWN = 8;

/** @param {number} share */
const percent = (share) => `${plain(100 * share, share < 0.1 ? 1 : 0)} %`;

/** What the draws show of a chance: one nearer to none or to all than this is not said as certain. */
const SEEN = 0.0005;

/** The chance of losing money, never as certain. @param {plan.Risk} risk */
function losingText(risk) {
  const open = risk.gaps.length > 0;
  if (risk.losing === null) return "not known: some labour, overhead, margin or tax is missing";
  if (risk.losing < SEEN) return `under 0.1 %${open ? ", and more with what has no price" : ""}`;
  if (risk.losing > 1 - SEEN) return "over 99.9 %";
  return `${open ? "at least " : ""}${percent(risk.losing)} ± ${plain(100 * (risk.losing_error ?? 0), 1)} %`;
}

/**
 * A button that works the risk out, with its progress and a stop, and what it brought.
 * @param {Planned} state @param {string} words @param {(risk: plan.Risk) => Node[]} shown
 */
export function whenFound(state, words, shown) {
  const document = JSON.stringify(state.doc),
    made = madeOf(state),
    told = el("p", { class: "quiet", role: "status" }),
    box = el("div"),
    begin = el("button", { type: "button", class: "main", text: words }),
    halt = el("button", { type: "button", text: "Stop", hidden: true });
  const show = (/** @type {plan.Risk} */ risk) => {
    // the book may have changed since this page was planned: then the risk is that of other prices
    if (risk.likely_minor === state.plan.cost.total_minor) box.replaceChildren(...shown(risk));
    else say(told, "Prices have changed since this plan was made: load the page again, then do it again.");
  };
  begin.addEventListener("click", async () => {
    const stop = new AbortController();
    halt.onclick = () => stop.abort();
    begin.hidden = true;
    halt.hidden = false;
    say(told, "waiting");
    try {
      const name = await longTask({ verb: "risk", document }, (now) => say(told, now), stop.signal);
      last.found = (await call("GET", `/api/long-tasks/${name}/result`)).risk;
      last.made = made;
      told.textContent = "";
      if (last.found) show(last.found);
    } catch (problem) {
      say(told, wasStopped(problem) ? "Stopped." : messageOf(problem));
    }
    begin.hidden = false;
    halt.hidden = true;
  });
  if (last.found && last.made === made) show(last.found);
  else if (last.found) say(told, "The job or its prices have changed since: do it again.");
  return [el("div", { class: "row" }, begin, halt), told, box];
}

/** What a risk is found for: the document, and the job with what the book gives it. @param {Planned} state */
const madeOf = (state) => JSON.stringify([state.doc, state.plan.job, state.plan.edition]);

/** @param {Planned} state */
export function riskPart(state) {
  const currency = state.plan.job.identity.currency,
    write = (/** @type {number} */ minor) => money(minor, currency);
  return group("What the price risks", [
    el("p", {
      text:
        "What nobody knows before the work is drawn some thousand times, together: levels of the dig and of layers, " +
        "bulking, breakages, outputs, topsoil, what is assumed. Packs and loads are rounded each time. What has no " +
        "price, and what is taken as certain, stands below.",
    }),
    ...whenFound(state, "Work out the risk", (risk) => [
      ...falls(risk, write, (minor) => roundMoney(minor, currency)),
      ...chosen(risk, write),
      ...drivers(risk, (minor) => roundMoney(minor, currency)),
      ...others(risk),
      ...grounds(risk, state),
    ]),
  ]);
}

/**
 * How the price falls.
 * @param {plan.Risk} risk @param {(minor: number) => string} write @param {(minor: number) => string} round
 */
function falls(risk, write, round) {
  const of = (/** @type {number} */ chance) => risk.quantiles.find((one) => one.chance === chance),
    left = risk.gaps.length ? ", what has no price left out" : "",
    shown = [0.1, 0.5, 0.9].map((chance) => {
      const one = of(chance);
      return fact(`P${100 * chance}${left}`, one ? `${round(one.minor)} ± ${round(one.error_minor)}` : "not known");
    });
  return [
    facts(
      ...shown,
      fact("Price of the plan", write(risk.likely_minor)),
      fact(`Chance of losing money at it${left}`, losingText(risk)),
    ),
    el("p", {
      text:
        `P90 is the price that nine of ten such jobs would stay within, priced by what they turned out to cost. ` +
        `It is no guarantee. ${percent(risk.dearer)} of them cost more than the likely values say, because ranges ` +
        `reach further up than down. Losing means that cost and overhead are more than the price before tax; ` +
        `provisional work is settled at its rates, so it loses nothing.`,
    }),
  ];
}

/** The price for a chance of losing that one picks. @param {plan.Risk} risk @param {(minor: number) => string} write */
function chosen(risk, write) {
  if (!risk.break_even.length) return [];
  const given = { type: "range", min: 1, max: 50, step: 1, value: String(picked.percent) },
    slider = el("input", { ...given, "aria-label": "Chance of losing money that you take, in per cent" }),
    typed = el("input", { ...given, type: "number", inputmode: "numeric" }),
    told = el("p", { class: "told-price", role: "status" });
  const show = () => {
    const minor = risk.break_even[99 - picked.percent],
      more = minor - risk.likely_minor;
    say(
      told,
      `${write(minor)} with tax: at it ${picked.percent} in 100 such jobs lose money. That is ` +
        `${write(Math.abs(more))} ${more < 0 ? "less" : "more"} than the price of the plan.` +
        (risk.gaps.length ? " What has no price comes on top." : ""),
    );
  };
  const take = (/** @type {HTMLInputElement} */ from) => {
    const value = Math.round(Number(from.value));
    if (!(value >= 1 && value <= 50)) return;
    picked.percent = value;
    slider.value = typed.value = String(value);
    show();
  };
  slider.addEventListener("input", () => take(slider));
  typed.addEventListener("input", () => take(typed));
  show();
  const unit = el("span", { class: "with-unit" }, typed, el("span", { class: "unit", text: "%" }));
  return [
    el("h4", { text: "The price for a chance that you take" }),
    el("label", { class: "field" }, el("span", { class: "name", text: "Chance of losing money" }), unit),
    slider,
    told,
  ];
}

/** @param {plan.Risk} risk @param {(minor: number) => string} write */
function drivers(risk, write) {
  const all = risk.drivers.slice(0, SHOWN);
  if (!all.length) return [];
  // a sign and its amount stay on one line
  const signed = (/** @type {number} */ minor) =>
    minor ? `${minor < 0 ? "−" : "+"}\u2060${write(Math.abs(minor))}` : write(0);
  return [
    bars(
      "What moves the price",
      all.map((one) => ({
        label: one.words,
        value: one.high_minor,
        low: one.low_minor,
        high: one.high_minor,
        note: `${signed(one.low_minor)}, ${percent(Math.max(0, one.total))}`,
      })),
      signed,
    ),
    el("p", {
      class: "quiet",
      text:
        "Beside each stands what it alone does to the price, where it turns out as in the dearest and in the " +
        "cheapest tenth of cases; then its share of the variance of the price, with what it does together with " +
        "others (Sobol, by Jansen's estimator).",
    }),
  ];
}

/** @param {plan.Risk} risk */
function others(risk) {
  if (!risk.facts.length) return [];
  return [
    el("h4", { text: "If one fact were another" }),
    el("ul", {}, ...risk.facts.map((one) => el("li", { text: `${one.words}.` }))),
  ];
}

/** What the chance rests on. @param {plan.Risk} risk @param {Planned} state */
function grounds(risk, state) {
  const named_of = (/** @type {string[]} */ keys) =>
      state.plan.cost.lines.filter((line) => keys.includes(line.key)).map((line) => line.description),
    certain = named_of(risk.wholly_fixed),
    still = named_of(risk.unmoved);
  const named = (/** @type {plan.AssumedFact} */ one) => [spoken(one.what), one.place].filter(Boolean).join(", ");
  const lines = [
    ...risk.assumed.map((one) => `Assumed, drawn between its ends: ${named(one)}.`),
    ...risk.not_drawn.map((one) => `Assumed, and not in the range: ${named(one)}.`),
    ...risk.gaps.map((one) => `Not in the price, so not in its range: ${one.words}.`),
    ...(certain.length ? [`Taken as certain, at the amount of the plan: ${certain.join("; ")}.`] : []),
    ...(still.length ? [`The same in every case that was drawn: ${still.join("; ")}.`] : []),
    "Outputs of one crew lean on each other; work of one kind goes alike in all areas; one soil bulks for all areas.",
    "A dig that is too deep is filled by the lowest layer; a layer that is too high takes from the bed.",
    `${risk.replicates} times ${risk.draws} draws; the same job brings the same figures.`,
  ];
  return [
    el(
      "details",
      {},
      el("summary", { text: "What this rests on" }),
      el("ul", {}, ...lines.map((text) => el("li", { text }))),
      ...risk.figures.map((one) => el("p", {}, source(one, state.sources))),
    ),
  ];
}
