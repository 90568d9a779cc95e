// @ts-check
/** Bills, credit notes, money that came in, and sums of the quotation that are settled. */
import { el } from "../../lib/dom.js";
import { table } from "../../lib/results.js";
import { day, minorPerMajor, money, toMinor } from "../../lib/words.js";
import { asked, choiceBox, confirmed, dayBox, textBox, today } from "./account-accept.js";

/** @typedef {import("./account.js").Here} Here */

const SEEN = /** @type {Record<string, string>} */ ({
  deposit: "deposit, before the work begins",
  materials_on_site: "paving and base are on the site",
  base_in: "the base is in",
  laid: "all paving is laid",
  complete: "the work is complete",
  snag_free: "every snag is put right",
});
const KINDS = /** @type {Record<string, string>} */ ({
  stage: "Bill",
  variation: "Bill of a variation",
  final: "Final bill",
  retention: "Money held back",
  credit: "Credit note",
});

/** @param {Here} here @returns {Node[]} */
export function billsPart(here) {
  const { found } = here;
  return [
    el("h3", { text: "Bills" }),
    ...(found.bills.length ? [billsTable(here)] : [el("p", { text: "Nothing was billed yet." })]),
    ...(found.accepted ? [billWays(here)] : []),
    el("h3", { text: "Money received" }),
    ...(found.received.length ? [receivedTable(here)] : [el("p", { text: "Nothing came in yet." })]),
    ...(found.bills.length ? [received(here)] : []),
    ...settling(here),
    el("p", {}, el("a", { class: "button", href: "#papers", text: "Slips, bills and the account as papers" })),
  ];
}

/** @param {Here} here */
function billsTable({ found, write }) {
  return table(
    [
      { head: "No.", number: true },
      { head: "Date" },
      { head: "What" },
      { head: "With tax", number: true },
      { head: "To pay", number: true },
      { head: "Owing with it", number: true },
    ],
    found.bills.map((one) => [
      String(one.number),
      day(one.on),
      [KINDS[one.kind], one.credits && `of bill ${one.credits}`, one.words].filter(Boolean).join(", "),
      write(one.gross_minor),
      write(one.due_minor),
      write(one.owing_minor),
    ]),
    "bills and credit notes",
  );
}

/** @param {Here} here */
function receivedTable({ found, write }) {
  return table(
    [{ head: "Date" }, { head: "Note" }, { head: "Amount", number: true }],
    found.received.map((one) => [
      day(one.on),
      [one.bill && `bill ${one.bill}`, one.note].filter(Boolean).join(", "),
      write(one.amount_minor),
    ]),
    "money received",
  );
}

/** @param {Here} here */
function billWays(here) {
  const { found } = here,
    next = found.stages.find((stage) => !stage.bills.length),
    approved = found.variations.filter(
      (one) => one.state === "approved" && !found.bills.some((bill) => bill.variation === one.number),
    );
  const way = (/** @type {string} */ text, /** @type {() => void} */ click, main = false) =>
    el("button", { type: "button", class: main ? "main" : "", text, on: { click } });
  return el(
    "p",
    { class: "row" },
    next && found.to_bill_minor > 0 && way(`Bill: ${SEEN[next.event] ?? next.event}`, () => stage(here, next), true),
    found.to_bill_minor > 0 && way("Bill a sum", () => part(here)),
    ...approved.map((one) => way(`Bill variation ${one.number}`, () => plain(here, "variation", one.number))),
    found.to_bill_minor > 0 && way("Final bill", () => plain(here, "final")),
    found.held_minor > 0 && way("Ask for money held back", () => plain(here, "retention")),
    found.bills.length > 0 && way("Credit note", () => credit(here)),
  );
}

/** @param {Here} here @param {import("./account.js").Stage} next */
async function stage({ step }, next) {
  const on = dayBox(today()),
    words = textBox();
  const body = [asked("Date of the bill", on), asked("What else to say on it", words)];
  if (!(await confirmed(`Bill payment ${next.number}: ${SEEN[next.event] ?? next.event}`, body, "Make the bill")))
    return;
  await step(`bill: ${SEEN[next.event] ?? next.event}`, {
    step: "stage",
    number: next.number,
    on: on.value,
    words: words.value.trim(),
  });
}

/** @param {Here} here @param {string} kind @param {number} [number] */
async function plain({ step }, kind, number) {
  const on = dayBox(today()),
    words = textBox();
  const body = [asked("Date of the bill", on), asked("What else to say on it", words)];
  if (!(await confirmed(KINDS[kind] ?? kind, body, "Make the bill"))) return;
  await step(`bill: ${(KINDS[kind] ?? kind).toLowerCase()}`, {
    step: kind,
    number,
    on: on.value,
    words: words.value.trim(),
  });
}

/** A box for money, empty or with a sum. @param {string} currency @param {number|null} minor */
const moneyBox = (currency, minor = null) =>
  textBox({
    type: "number",
    step: String(1 / minorPerMajor(currency)),
    inputmode: "decimal",
    value: minor === null ? "" : String(minor / minorPerMajor(currency)),
  });

/** @param {Here} here */
async function part({ found, step }) {
  const on = dayBox(today()),
    sum = moneyBox(found.currency),
    words = textBox();
  const left = `left to bill: ${money(found.to_bill_minor, found.currency)}`;
  const body = [asked(`Sum with tax (${left})`, sum), asked("What for", words), asked("Date of the bill", on)];
  if (!(await confirmed("Bill a sum", body, "Make the bill"))) return;
  const gross_minor = toMinor(sum.value, found.currency);
  await step("bill: a sum", { step: "part", gross_minor, on: on.value, words: words.value.trim() });
}

/** @param {Here} here */
async function credit({ found, step }) {
  const bills = found.bills.filter((one) => one.kind !== "credit" && (one.sums ?? []).length),
    which = choiceBox(bills.map((one) => [String(one.number), `bill ${one.number}`])),
    sum = moneyBox(found.currency),
    why = textBox(),
    on = dayBox(today());
  const body = [
    asked("Of which bill", which),
    asked("Sum with tax; empty for all that is left of it", sum),
    asked("Why", why),
    asked("Date of the credit note", on),
  ];
  if (!(await confirmed("Credit note", body, "Make the credit note"))) return;
  await step("credit note", {
    step: "credit",
    number: Number(which.value),
    gross_minor: sum.value === "" ? null : toMinor(sum.value, found.currency),
    on: on.value,
    words: why.value.trim(),
  });
}

/** @param {Here} here */
function received({ state, found }) {
  const go = async () => {
    const owing = Math.max(found.owing_minor, 0),
      sum = moneyBox(found.currency, owing || null),
      on = dayBox(today()),
      bill = choiceBox([["", "not said"], ...found.bills.map((one) => [String(one.number), `bill ${one.number}`])]),
      note = textBox();
    const body = [asked("How much came in", sum), asked("On", on), asked("For", bill), asked("Note", note)];
    if (!(await confirmed("Money came in", body, "Record it")) || sum.value === "") return;
    state.change("money received", (doc) => {
      const one = { on: on.value, amount_minor: toMinor(sum.value, found.currency), note: note.value.trim() };
      doc.received = [...(doc.received ?? []), bill.value ? { ...one, bill: Number(bill.value) } : one];
    });
  };
  return el(
    "p",
    { class: "row" },
    el("button", { type: "button", class: "main", text: "Money came in", on: { click: go } }),
  );
}

/** @param {Here} here @returns {Node[]} */
function settling({ state, found, write }) {
  const open = found.to_settle.filter((one) => !(state.doc.settled ?? []).some((each) => each.number === one.number));
  if (!open.length) return [];
  const settle = async (/** @type {import("./account.js").ToSettle} */ one) => {
    const byRate = one.kind === "rate",
      box = byRate ? textBox({ type: "number", min: 0, step: "any", inputmode: "decimal" }) : moneyBox(found.currency),
      on = dayBox(today()),
      note = textBox();
    const what = byRate ? `How much was found, in ${one.unit}` : "What the goods cost, before tax";
    const body = [asked(what, box), asked("On", on), asked("How it was measured, or which receipt", note)];
    if (!(await confirmed(one.name, body, "Settle it")) || box.value === "") return;
    const how = byRate ? { amount: Number(box.value) } : { cost_minor: toMinor(box.value, found.currency) };
    state.change(`settled: ${one.name}`, (doc) => {
      doc.settled = [...(doc.settled ?? []), { number: one.number, on: on.value, ...how, note: note.value.trim() }];
    });
  };
  return [
    el("h3", { text: "Sums to settle" }),
    ...open.map((one) =>
      el(
        "p",
        { class: "row" },
        el("span", { text: `${one.name}: ${write(one.net_minor)} before tax in the quotation` }),
        el("button", { type: "button", text: `Settle sum ${one.number}`, on: { click: () => settle(one) } }),
      ),
    ),
  ];
}
