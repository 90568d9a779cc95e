// @ts-check
/** The register of variations: found by comparing, made of a deeper dig, approved or refused. */
import { call } from "../../lib/api.js";
import { el, say } from "../../lib/dom.js";
import { table } from "../../lib/results.js";
import { counted, day, messageOf, plain } from "../../lib/words.js";
import { asked, choiceBox, confirmed, dayBox, textBox, today } from "./account-accept.js";

/** @typedef {import("./account.js").Here} Here */

const STATES = /** @type {Record<string, string>} */ ({
  proposed: "not decided",
  approved: "approved",
  refused: "refused",
});
const CAUSES = /** @type {[string, string][]} */ ([
  ["asked", "the customer asked for it"],
  ["ground", "the ground is not as expected"],
  ["hidden", "something hidden was found"],
  ["design", "the design changes"],
  ["rule", "a rule asks for it"],
  ["other", "another reason"],
]);
const UNITS = /** @type {Record<string, [string, string, number]>} */ ({
  dig_depth: ["formation below the surface", "mm", 0],
  level: ["finished level in the middle", "mm", 0],
  dig: ["dug", "m³", 1],
  fill: ["filled", "m³", 1],
  stone: ["stone", "t", 1],
  paved: ["paved", "m²", 2],
  loads: ["loads away", "", 0],
});

/** @param {Here} here @returns {Node[]} */
export function variationsPart(here) {
  const { found } = here;
  return [
    el("h3", { text: "Variations" }),
    ...(found.variations.length ? [register(here)] : [el("p", { text: "No variation yet." })]),
    ...found.variations.filter((one) => one.state === "proposed").map((one) => deciding(here, one)),
    ...(found.accepted ? [ways(here)] : []),
  ];
}

/** @param {any} one */
const grossOf = (one) =>
  (one.sums ?? []).reduce(
    (/** @type {number} */ sum, /** @type {any} */ part) => sum + part.net_minor + part.tax_minor,
    0,
  );

/** @param {Here} here */
function register({ found, write }) {
  return table(
    [
      { head: "No.", number: true },
      { head: "What" },
      { head: "More or less" },
      { head: "Days", number: true },
      { head: "With tax", number: true },
      { head: "State" },
    ],
    found.variations.map((one) => [
      String(one.number),
      one.name,
      (one.measures ?? []).map(measured).join("; ") || "nothing measured",
      one.days === undefined ? "not known" : plain(one.days),
      write(grossOf(one)),
      one.decided_on ? `${STATES[one.state]} ${day(one.decided_on)}` : (STATES[one.state] ?? ""),
    ]),
    "register of variations",
  );
}

/** A measure that a variation changes, in words. @param {any} measure */
export function measured({ kind, where, before, after }) {
  const [words, unit, places] = UNITS[kind] ?? [kind, "", 0],
    more = (after ?? 0) - (before ?? 0);
  return `${where ? `${where}: ` : ""}${words} ${more > 0 ? "+" : "−"}${plain(Math.abs(more), places)} ${unit}`.trim();
}

/** @param {Here} here @param {any} one */
function deciding({ state, write }, one) {
  const decide = async (/** @type {string} */ to, /** @type {string} */ title) => {
    const by = textBox({ value: state.doc.identity.client ?? "" }),
      on = dayBox(today());
    /** @type {Node[]} */ const body = [asked("Who decided", by), asked("On", on)];
    if (to === "refused")
      body.push(
        el("p", { text: "The plan still holds the change: take it back there, or bring back an earlier job." }),
      );
    if (!(await confirmed(title, body, "Record it"))) return;
    state.change(`variation ${one.number} ${STATES[to]}`, (doc) => {
      const mine = doc.variations.find((/** @type {any} */ each) => each.number === one.number);
      Object.assign(mine, { state: to, decided_on: on.value, decided_by: by.value.trim() });
    });
  };
  const title = `Variation ${one.number}: ${one.name}, ${write(grossOf(one))}`;
  return el(
    "p",
    { class: "row" },
    el("span", { text: title }),
    el("button", {
      type: "button",
      class: "main",
      text: `Variation ${one.number} is signed`,
      on: { click: () => decide("approved", `${title}: approved`) },
    }),
    el("button", {
      type: "button",
      text: `Variation ${one.number} is refused`,
      on: { click: () => decide("refused", `${title}: refused`) },
    }),
  );
}

/** @param {Here} here */
function ways(here) {
  return el(
    "p",
    { class: "row" },
    el("button", { type: "button", text: "Compare with what was agreed", on: { click: () => compare(here) } }),
    el("button", { type: "button", text: "Dig deeper", on: { click: () => digDeeper(here) } }),
  );
}

/** What a person says of a variation. */
function head() {
  const name = textBox({ required: true }),
    cause = choiceBox(CAUSES),
    reason = /** @type {HTMLTextAreaElement} */ (el("textarea", { maxlength: 2000 })),
    by = textBox(),
    on = dayBox(today());
  return {
    body: [
      asked("What changes, in a few words", name),
      asked("Why", cause),
      asked("What was found, or asked for", reason),
      asked("Who asked for it", by),
      asked("On", on),
    ],
    cause,
    name,
    said: () => ({
      name: name.value.trim(),
      cause: cause.value,
      reason: reason.value.trim(),
      asked_by: by.value.trim(),
      on: on.value,
    }),
  };
}

/**
 * The revision with which the job as it is is compared: of the last variation that stands, else of the quotation.
 * @param {Here["found"]} found
 */
const baseOf = (found) =>
  [...found.variations].reverse().find((one) => one.state !== "refused" && one.stored_revision)?.stored_revision ??
  found.accepted?.stored_revision;

/** @param {Here} here */
async function compare({ state, found, told, step }) {
  const rev = baseOf(found);
  if (!rev) {
    say(told, "It is not known which revision of the job was accepted: enter the variation by the command line.");
    return;
  }
  if (state.saving !== "saved" || state.saveRunning) {
    say(told, "The last change is still being kept: try again in a moment.");
    return;
  }
  const said = head();
  if (!(await confirmed("What changed since it was agreed", said.body, "Compare, and enter it"))) return;
  try {
    const { document } = await call("GET", `/api/jobs/${state.id}/revisions/${rev}`);
    const before = typeof document === "string" ? document : JSON.stringify(document);
    await step(`variation: ${said.name.value.trim()}`, {
      step: "vary",
      before,
      stored_revision: state.rev,
      ...said.said(),
    });
  } catch (problem) {
    say(told, messageOf(problem));
  }
}

/** @param {Here} here */
async function digDeeper({ state, step }) {
  const areas = (state.doc.areas ?? []).map((/** @type {any} */ one) => [one.name, one.name]),
    area = choiceBox(areas),
    deeper = textBox({ type: "number", min: 1, max: 3000, inputmode: "numeric", value: "100" }),
    said = head();
  said.name.value = "Dig deeper";
  said.cause.value = "ground";
  const body = [asked("In which area", area), asked("How much deeper, in mm", deeper), ...said.body];
  if (!(await confirmed(`Dig deeper (${counted(areas.length, "area")})`, body, "Plan it, and enter it"))) return;
  await step(`variation: ${said.name.value.trim()}`, {
    step: "dig_deeper",
    area: area.value,
    deeper_mm: Number(deeper.value),
    stored_revision: state.rev,
    ...said.said(),
  });
}
