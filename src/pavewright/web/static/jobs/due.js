// @ts-check
/** What is due today over all jobs, and money by weeks. */
import { el } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { day, money } from "../lib/words.js";

/** So many are shown before somebody asks for all. */
const FIRST = matchMedia("(max-width: 600px)").matches ? 3 : 5;
const SIGN = /** @type {Record<string, string>} */ ({ late: "■", today: "▲", soon: "○" });
const STAGE = /** @type {Record<string, string>} */ ({
  question: "#papers",
  accepted: "#papers",
  silent: "#papers",
  price_lapsing: "#price",
  bill_owing: "#account",
  order_by: "#programme",
});

/** One due thing, with its job. @param {any} one */
export function line(one) {
  return el(
    "li",
    { class: `due-${one.when}` },
    el(
      "a",
      { href: `/jobs/${one.job}${STAGE[one.kind] ?? ""}` },
      el("span", { class: "due-what", text: `${SIGN[one.when]} ${one.words}` }),
      el("span", { class: "quiet", text: one.title }),
    ),
    el(
      "span",
      { class: "due-by" },
      one.amount_minor === null ? "" : el("b", { text: money(one.amount_minor, one.currency) }),
      el("span", { text: `${day(one.on)}, ${one.by}` }),
    ),
  );
}

/** @param {any} told the answer of the server @param {boolean} whole @param {() => void} more */
function lines(told, whole, more) {
  const shown = whole ? told.due : told.due.slice(0, FIRST);
  return [
    el("ul", { class: "dues" }, ...shown.map(line)),
    told.total > shown.length
      ? el("button", { type: "button", text: `Show all ${told.total}`, on: { click: more } })
      : null,
  ].filter((one) => one !== null);
}

/** @param {any} told @returns {HTMLElement|null} */
function weeks(told) {
  if (!told.weeks.length && !told.unknown.length) return null;
  const rows = told.weeks.map((/** @type {any} */ one) =>
    el(
      "tr",
      {},
      el("th", { scope: "row", text: day(one.week) }),
      ...[one.owing_minor, one.expected_minor, one.out_minor].map((amount) =>
        el("td", { class: "number", text: amount ? money(amount, one.currency) : "–" }),
      ),
    ),
  );
  const unknown = told.unknown
    .slice(0, 20)
    .map((/** @type {any} */ one) =>
      el("li", {}, el("a", { href: `/jobs/${one.job}`, text: one.title }), `: ${one.why.join(", ")}`),
    );
  return el(
    "details",
    { class: "money-weeks" },
    el("summary", { text: "Money by weeks" }),
    rows.length
      ? el(
          "div",
          { class: "scroll" },
          el(
            "table",
            {},
            el(
              "thead",
              {},
              el(
                "tr",
                {},
                el("th", { scope: "col", text: "Week from" }),
                ...["Bills owing", "Still to bill", "Out"].map((text) =>
                  el("th", { scope: "col", class: "number", text }),
                ),
              ),
            ),
            el("tbody", {}, ...rows),
          ),
        )
      : el("p", { class: "quiet", text: "No money is known to move." }),
    unknown.length ? el("p", { text: `Not all is known of ${told.unknown.length}:` }) : "",
    unknown.length ? el("ul", {}, ...unknown) : "",
  );
}

/** Ask what is due and show it. @param {HTMLElement} place @param {boolean} [whole] */
export async function showDue(place, whole = false) {
  const told = await call("GET", "/api/due").catch(() => null);
  const cash = await call("GET", "/api/money-weeks").catch(() => null);
  const moving = cash && weeks(cash);
  if (!told || (!told.total && !moving)) return place.replaceChildren();
  place.replaceChildren(
    el("h2", { text: told.total ? `Due: ${told.total}` : "Nothing is due today" }),
    ...(told.total ? lines(told, whole, () => showDue(place, true)) : []),
    ...(moving ? [moving] : []),
  );
}

// on paper a part that is closed would be missing: all of what is due and the money by weeks are printed
addEventListener("beforeprint", () => document.querySelector(".money-weeks")?.setAttribute("open", ""));
