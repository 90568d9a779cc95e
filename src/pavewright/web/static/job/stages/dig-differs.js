// @ts-check
/** The dig differs: what was found goes into plan, price and days in one step, with what it adds shown beside it. */
import { call } from "../../lib/api.js";
import { el, say } from "../../lib/dom.js";
import { applied } from "../../lib/operations.js";
import { table } from "../../lib/results.js";
import { day, messageOf, money, plain } from "../../lib/words.js";
import { group } from "../form/form.js";
import { asked, choiceBox, confirmed, dayBox, textBox, today } from "./account-accept.js";
import { measured } from "./account-variations.js";

const KINDS = /** @type {[string, string][]} */ ([
  ["deeper", "all of it goes deeper"],
  ["soft_spot", "a soft spot"],
  ["concrete", "buried concrete"],
  ["drain", "a drain that nobody knew"],
]);
const KIND = /** @type {Record<string, string>} */ (Object.fromEntries(KINDS));
const DEPTH = /** @type {Record<string, string>} */ ({
  deeper: "How much deeper, mm",
  soft_spot: "How deep below formation, mm",
  concrete: "How thick, mm",
  drain: "How deep below formation it is dug free, mm",
});

/** What the last step added, until something else is drawn. @type {any} */
let added = null;

/** @param {JobState} state */
export function digDiffersPart(state) {
  const box = el("div", {}),
    part = group("The dig differs", [box], { open: (state.doc.dig_found ?? []).length > 0 });
  box.append(...shown(state));
  const follow = () => {
    if (!part.isConnected) state.removeEventListener("document", follow);
    else box.replaceChildren(...shown(state));
  };
  state.addEventListener("document", follow);
  return part;
}

/** @param {JobState} state @returns {Node[]} */
function shown(state) {
  const told = el("p", { class: "quiet", role: "status" }),
    found = state.doc.dig_found ?? [],
    accepted = Boolean(state.doc.accepted);
  const entered = new Set((state.doc.variations ?? []).map((/** @type {any} */ one) => one.name)),
    open = accepted ? found.filter((/** @type {any} */ one) => !entered.has(one.name)) : [],
    here = added && added.job === state.id && found.some((/** @type {any} */ one) => one.name === added.name);
  return [
    el("p", {
      text: accepted
        ? "One step gives the new plan, price and days, and a variation slip to sign; undo takes all of it back. Who " +
          "pays stands in the contract: the program does not know it."
        : "One step gives the new plan, price and days; undo takes all of it back. Nothing is accepted yet, so the " +
          "quotation changes with it.",
    }),
    el("button", {
      type: "button",
      class: "main",
      text: "The dig differs",
      on: { click: () => enter(state, told) },
    }),
    told,
    ...(here ? comparison(state, added) : []),
    ...(found.length ? [finds(state, found)] : []),
    ...open.map((/** @type {any} */ one) => unbilled(state, one, told)),
  ];
}

/** @param {JobState} state @param {any[]} found */
function finds(state, found) {
  const size = (/** @type {any} */ one) =>
    one.kind === "drain"
      ? `${plain((one.length_mm ?? 0) / 1000, 2)} m`
      : one.area_m2
        ? `${plain(one.area_m2, 2)} m²`
        : one.outline?.length
          ? "as drawn"
          : "all of it";
  return table(
    [
      { head: "Found" },
      { head: "What it is" },
      { head: "In" },
      { head: "Size", number: true },
      { head: "Deep, mm", number: true },
      { head: "On" },
      { head: "" },
    ],
    found.map((one) => [
      one.name,
      KIND[one.kind] ?? one.kind,
      one.area,
      size(one),
      plain(one.depth_mm),
      day(one.found_on),
      el("button", {
        type: "button",
        text: "Take out",
        "aria-label": `Take ${one.name} out of the job`,
        on: {
          click: () =>
            state.change(`${one.name} taken out`, (doc) => {
              doc.dig_found = doc.dig_found?.filter((/** @type {any} */ each) => each.name !== one.name);
              // its variation goes with it while nobody has decided on it
              doc.variations = doc.variations?.filter(
                (/** @type {any} */ each) => each.name !== one.name || (each.state ?? "proposed") !== "proposed",
              );
            }),
        },
      }),
    ]),
    "what the dig found",
  );
}

/** A find that a phone wrote into an accepted job: its variation is made here. */
function unbilled(/** @type {JobState} */ state, /** @type {any} */ one, /** @type {HTMLElement} */ told) {
  return el(
    "p",
    { class: "row" },
    el("span", { text: `${one.name} is in the plan and in no variation.` }),
    el("button", {
      type: "button",
      text: `Make the variation of ${one.name}`,
      on: { click: () => run(state, told, { step: "dig_find", find: one.name, on: today() }, one.name) },
    }),
  );
}

/** @param {JobState} state @param {HTMLElement} told */
async function enter(state, told) {
  if (state.saving !== "saved" || state.saveRunning) {
    say(told, "The last change is still being kept: try again in a moment.");
    return;
  }
  const areas = (state.doc.areas ?? []).map((/** @type {any} */ one) => [one.name, one.name]),
    kind = choiceBox(KINDS),
    area = choiceBox(areas),
    name = textBox({ required: true, value: "Soft spot" }),
    size = textBox({ type: "number", min: 0, step: "any", inputmode: "decimal" }),
    depth = textBox({ type: "number", min: 1, max: 5000, inputmode: "numeric", value: "300" }),
    anew = /** @type {HTMLInputElement} */ (el("input", { type: "checkbox" })),
    reason = /** @type {HTMLTextAreaElement} */ (el("textarea", { maxlength: 2000 })),
    by = textBox(),
    on = dayBox(today());
  kind.value = "soft_spot";
  const sizeName = el("span", { class: "name" }),
    depthName = el("span", { class: "name" });
  const sized = el("label", { class: "field" }, sizeName, size),
    anewField = el("label", { class: "field tick" }, anew, el("span", { text: "this length is laid anew" }));
  const follow = () => {
    sized.hidden = kind.value === "deeper";
    anewField.hidden = kind.value !== "drain";
    sizeName.textContent = kind.value === "drain" ? "How long it is in the dig, m" : "How much of the ground, m²";
    depthName.textContent = DEPTH[kind.value];
    name.value =
      { deeper: "Dig deeper", soft_spot: "Soft spot", concrete: "Buried concrete", drain: "Drain" }[kind.value] ?? "";
  };
  kind.addEventListener("change", follow);
  follow();
  const body = [
    asked("What was found", kind),
    asked("In which area", area),
    asked("In a few words", name),
    sized,
    el("label", { class: "field" }, depthName, depth),
    anewField,
    asked("What was seen", reason),
    asked("Who found it", by),
    asked("On", on),
  ];
  if (!(await confirmed("The dig differs", body, "Plan it, and enter it"))) return;
  const value = Number(size.value);
  await run(
    state,
    told,
    {
      step: "dig_differs",
      kind: kind.value,
      area: area.value,
      name: name.value.trim(),
      depth_mm: Number(depth.value),
      ...(kind.value === "drain" ? { length_mm: value * 1000, new_pipe: anew.checked } : {}),
      ...(["soft_spot", "concrete"].includes(kind.value) && value > 0 ? { area_m2: value } : {}),
      reason: reason.value.trim(),
      asked_by: by.value.trim(),
      on: on.value,
      stored_revision: state.rev,
    },
    name.value.trim(),
  );
}

/** @param {JobState} state @param {HTMLElement} told @param {Record<string, any>} question @param {string} name */
async function run(state, told, question, name) {
  say(told, "Planning the job as it was and as it is …");
  try {
    const document = state.doc;
    const { operations, variation, is_agreed_work } = await call(
      "POST",
      "/api/account/step",
      `${JSON.stringify(question)}\n${JSON.stringify(document)}`,
    );
    added = { job: state.id, name, variation, is_agreed_work };
    say(told, "");
    state.put(`the dig differs: ${name}`, applied(document, operations).doc);
  } catch (problem) {
    say(told, messageOf(problem));
  }
}

/** What the last find adds. @param {JobState} state @param {any} last @returns {Node[]} */
function comparison(state, { name, variation, is_agreed_work }) {
  if (!variation) return [el("p", { text: `${name} is in the plan. The job has no price yet to compare.` })];
  const currency = state.doc.identity.currency ?? "GBP",
    sum = (/** @type {"net_minor"|"tax_minor"} */ part) =>
      (variation.sums ?? []).reduce((/** @type {number} */ all, /** @type {any} */ one) => all + one[part], 0),
    signed = (/** @type {number} */ minor) => `${minor > 0 ? "+" : ""}${money(minor, currency)}`;
  const days =
    variation.days === undefined || variation.days === null
      ? "not known"
      : `${variation.days > 0 ? "+" : ""}${plain(variation.days)}`;
  return [
    table(
      [{ head: `What ${name} adds` }, { head: "", number: true }],
      [
        ["Before tax", signed(sum("net_minor"))],
        ["With tax", signed(sum("net_minor") + sum("tax_minor"))],
        ["Working days", days],
        ...(variation.measures ?? []).map((/** @type {any} */ one) => [measured(one), ""]),
      ],
      `what ${name} adds`,
    ),
    variation.gaps ? el("p", { text: "Something of it has no price: the sum is too low." }) : null,
    is_agreed_work
      ? el("p", {
          text: `It stands as variation ${variation.number} in the register, not decided. Its slip is under Papers.`,
        })
      : null,
  ].filter((one) => one !== null);
}
