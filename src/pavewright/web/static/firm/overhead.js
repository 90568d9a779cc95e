// @ts-check
/** What the firm costs in a year, and the rate that follows from it. */
import { el, say } from "../lib/dom.js";
import { moneyTyped, withMark } from "../lib/numbers-typed.js";
import { currencySign, money, moneyBare } from "../lib/words.js";
import { form } from "../job/form/form.js";
import { listen } from "../job/form/inputs.js";

/** @typedef {import("./state.js").FirmState} FirmState */

/** @param {FirmState} given */
export function overhead(given) {
  const state = /** @type {any} */ (given),
    sign = currencySign(state.doc.currency ?? "GBP"),
    rows = el("tbody"),
    told = el("p", { class: "sum-told", role: "status" });
  const list = () => state.doc.overhead?.yearly ?? [];
  const change = (/** @type {string} */ label, /** @type {(yearly: any[]) => void} */ act) =>
    given.change(label, (doc) => {
      doc.overhead = { ...doc.overhead, yearly: [...(doc.overhead?.yearly ?? [])] };
      act(doc.overhead.yearly);
    });
  const draw = () => {
    rows.replaceChildren(...list().map((/** @type {any} */ one, /** @type {number} */ at) => row(one, at)));
    shown = list().length;
  };
  let shown = -1;
  const row = (/** @type {any} */ one, /** @type {number} */ at) => {
    const name = el("input", { value: one.name, "aria-label": "What is paid", maxlength: 60 }),
      cost = el("input", {
        value: withMark(moneyBare(one.minor, state.doc.currency ?? "GBP")),
        inputmode: "decimal",
        "aria-label": "A year",
      });
    name.addEventListener("change", () =>
      change("yearly cost", (yearly) => (yearly[at] = { ...yearly[at], name: name.value.trim() })),
    );
    cost.addEventListener("change", () => {
      const { minor, words } = moneyTyped(cost.value, state.doc.currency ?? "GBP");
      cost.setCustomValidity(words);
      if (minor === null) {
        cost.setAttribute("aria-invalid", "true");
        return cost.reportValidity();
      }
      cost.removeAttribute("aria-invalid");
      return change("yearly cost", (yearly) => (yearly[at] = { ...yearly[at], minor }));
    });
    const gone = () => {
      change("yearly cost deleted", (yearly) => yearly.splice(at, 1));
      draw();
    };
    return el(
      "tr",
      {},
      el("td", {}, name),
      el("td", { class: "price-row" }, el("span", { class: "money-box" }, sign, cost)),
      el(
        "td",
        {},
        el("button", {
          type: "button",
          class: "small",
          text: "✕",
          "aria-label": `Delete ${one.name}`,
          on: { click: gone },
        }),
      ),
    );
  };
  const sum = () => {
    const yearly = list().reduce((/** @type {number} */ total, /** @type {any} */ one) => total + one.minor, 0),
      rate = state.overhead;
    if (!list().length) {
      say(told, rate === null ? "No yearly cost yet: overhead is not known." : rate.sum);
      return;
    }
    say(
      told,
      `${money(yearly, state.doc.currency ?? "GBP")} a year. ` +
        (rate === null
          ? "Say how many hours are sold in a year, or the direct cost of a year: then it becomes a rate."
          : rate.minor_per_hour !== null
            ? `On each hour of labour: ${money(rate.minor_per_hour, state.doc.currency ?? "GBP")}. ${rate.sum}`
            : `On the direct cost: ${rate.percent.toFixed(1)} %. ${rate.sum}`),
    );
  };
  draw();
  sum();
  const box = el("div", {}, told);
  listen(state, box, "plan", sum);
  listen(state, box, "document", () => {
    sum();
    if (list().length !== shown) draw();
  });
  const add = () => {
    change("yearly cost added", (yearly) => yearly.push({ name: `Cost ${yearly.length + 1}`, minor: 0 }));
    draw();
    rows.lastElementChild?.querySelector("input")?.select();
  };
  return [
    el("p", { class: "quiet", text: "What is paid in a year whatever is built: van, yard, insurance, office, phone." }),
    el(
      "table",
      {},
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          ...["What", "A year", "Delete"].map((text, at) =>
            el("th", {}, el("span", { class: at === 2 ? "unseen" : "", text })),
          ),
        ),
      ),
      rows,
    ),
    el("p", {}, el("button", { type: "button", class: "small", text: "+ yearly cost", on: { click: add } })),
    form(state, ["overhead"], {
      hide: ["yearly"],
      names: { hours_sold: "Hours sold in a year", direct_minor: "Direct cost of a year" },
    }),
    box,
  ];
}
