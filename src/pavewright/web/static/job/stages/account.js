// @ts-check
/** What was agreed with the customer: the accepted price, variations, bills, payments, and what is owing. */
import { call } from "../../lib/api.js";
import { el, say } from "../../lib/dom.js";
import { applied } from "../../lib/operations.js";
import { fact, facts, findings, table } from "../../lib/results.js";
import { counted, day, messageOf, money } from "../../lib/words.js";
import { acceptWays } from "./account-accept.js";
import { askedPart } from "./asked-part.js";
import { billsPart } from "./account-bills.js";
import { variationsPart } from "./account-variations.js";

/** @typedef {{kind: string, number: number, name: string, net_minor: number, tax_minor: number, gross_minor: number,
 *   working: any}} Agreed */
/** @typedef {{number: number, name: string, kind: string, unit: string, net_minor: number}} ToSettle */
/** @typedef {{number: number, event: string, percent: number|null, amount_minor: number|null,
 *   bills: number[]}} Stage */
/** @typedef {{accepted: any, currency: string, tax_name: string, agreed: Agreed[], proposed: Agreed[],
 *   unsettled: ToSettle[], to_settle: ToSettle[], kinds: Record<string, number>, agreed_minor: number,
 *   billed_minor: number, to_bill_minor: number, held_minor: number, due_minor: number, paid_minor: number,
 *   owing_minor: number, is_final: boolean, variations: any[], bills: any[], received: any[], stages: Stage[],
 *   workings: Record<string, any>, findings: any[]}} Account */

/**
 * What a part of the account is shown with.
 * @typedef {{state: JobState, found: Account, write: (minor: number) => string, told: HTMLElement,
 *   step: (label: string, asked: Record<string, any>, doc?: any) => Promise<boolean>}} Here
 */

/** Kept between drawings: a change of the job draws the stage anew, and nobody opens it twice. */
const kept = { open: false };
const KINDS = /** @type {[string, string][]} */ ([
  ["quotation", "Quotation"],
  ["option", "Options"],
  ["settled", "Sums settled"],
  ["variation", "Variations"],
]);

/** @param {JobState} state */
export const accountPart = (state) =>
  askedPart(state, "Agreed: variations, bills, payments", {
    address: "/api/account",
    waiting: "working it out …",
    kept,
    shown: (found) => shown(state, found),
  });

/** @param {JobState} state @param {Account} found @returns {Node[]} */
function shown(state, found) {
  const write = (/** @type {number} */ minor) => money(minor, found.currency),
    told = el("p", { class: "quiet", role: "status" });
  const step = async (
    /** @type {string} */ label,
    /** @type {Record<string, any>} */ asked,
    /** @type {any} */ doc,
  ) => {
    say(told, "Working it out …");
    try {
      const document = doc ?? state.doc;
      const body = `${JSON.stringify(asked)}\n${JSON.stringify(document)}`;
      const { operations } = await call("POST", "/api/account/step", body);
      say(told, "");
      state.put(label, applied(document, operations).doc);
      return true;
    } catch (problem) {
      say(told, messageOf(problem));
      return false;
    }
  };
  const here = { state, found, write, told, step };
  if (!found.accepted && !found.variations.length && !found.bills.length)
    return [
      el("p", {
        text: "Nothing is agreed yet. Once the customer accepts, the sums of the quotation stay as they are.",
      }),
      ...acceptWays(here),
      told,
    ];
  return [
    ...headline(here),
    told,
    findings(found.findings),
    ...(found.accepted ? [] : acceptWays(here)),
    agreedTable(here),
    ...variationsPart(here),
    ...billsPart(here),
  ];
}

/** @param {Here} here @returns {Node[]} */
function headline({ found, write }) {
  const { accepted, workings } = found;
  return [
    ...(accepted ? [el("p", { text: `Accepted by ${accepted.by} on ${day(accepted.at.slice(0, 10))}.` })] : []),
    facts(
      fact("Agreed", write(found.agreed_minor), [workings.agreed]),
      fact("Billed", write(found.billed_minor), [workings.billed]),
      fact("Left to bill", write(found.to_bill_minor), [workings.to_bill]),
      ...(found.held_minor ? [fact("Held back", write(found.held_minor))] : []),
      fact("Received", write(found.paid_minor)),
      fact("Owing", write(found.owing_minor), [workings.owing]),
    ),
    el("p", {
      text: found.is_final
        ? "This is the final account: all is decided, settled and billed."
        : `Not final: ${openWords(found)}.`,
    }),
  ];
}

/** @param {Account} found */
function openWords(found) {
  const said = [];
  if (found.proposed.length)
    said.push(`${counted(found.proposed.length, "variation is", "variations are")} not decided`);
  if (found.unsettled.length) said.push(`${counted(found.unsettled.length, "sum is", "sums are")} not settled`);
  if (found.to_bill_minor) said.push("not all is billed");
  return said.join(", ") || "nothing was accepted yet";
}

/** @param {Here} here */
function agreedTable({ found, write }) {
  const name = (/** @type {Agreed} */ line) =>
    line.kind === "quotation" ? "Quotation" : `${KINDS.find(([key]) => key === line.kind)?.[1]}: ${line.name}`;
  return table(
    [
      { head: "What was agreed" },
      { head: "Before tax", number: true },
      { head: found.tax_name, number: true },
      { head: "With tax", number: true },
    ],
    [
      ...found.agreed.map((line) => [
        name(line),
        write(line.net_minor),
        write(line.tax_minor),
        write(line.gross_minor),
      ]),
      ["Agreed in all", "", "", write(found.agreed_minor)],
    ],
    "what was agreed",
  );
}
