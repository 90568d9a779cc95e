// @ts-check
/** What drains to a gully, channel or outfall: how much now, and the choices, each with what it changes. */
import { call } from "./api.js";
import { el } from "./dom.js";
import { messageOf, plain } from "./words.js";

/** @typedef {"gully"|"channel"|"outfall"} Drain */
/** @typedef {{path: string, value: any}} FieldChange */
/**
 * @typedef {{
 *   words: string, changes: FieldChange[], answer: boolean, drains: {reaches_m2: number, whole_m2: number}|null,
 *   levels: {area: string, corner: string, was_mm: number, now_mm: number}[], stops: string[]
 * }} Choice
 */

/** Put the changes of an option into a document. @param {any} doc @param {FieldChange[]} changes */
export function withChanges(doc, changes) {
  for (const change of changes) {
    const steps = change.path.split(".").map((step) => (/^\d+$/.test(step) ? Number(step) : step));
    let here = doc;
    steps.slice(0, -1).forEach((step, index) => {
      here[step] ??= typeof steps[index + 1] === "number" ? [] : {};
      here = here[step];
    });
    here[/** @type {string} */ (steps.at(-1))] = change.value;
  }
}

/** @param {{reaches_m2: number, whole_m2: number}} drains @param {string} [what] */
const reaching = (drains, what = "it") =>
  `${plain(drains.reaches_m2, 1)} of ${plain(drains.whole_m2, 1)} m² reach ${what}`;

/**
 * Ask the server; what it answers is drawn as a short line and a list of choices, none where it knows too little.
 * @param {any} doc @param {Drain} kind @param {string} name
 * @param {(choice: Choice) => void} take
 * @param {{answers?: boolean}} [wishes] whether answers that build nothing are among them
 * @returns {Promise<{parts: Node[], choices: number}>}
 */
export async function drainWays(doc, kind, name, take, wishes = {}) {
  let told;
  try {
    const where = `/api/drains?${new URLSearchParams({ kind, name })}`;
    told = await call("POST", where, JSON.stringify(doc));
  } catch (problem) {
    return { parts: [el("p", { text: messageOf(problem) })], choices: 0 };
  }
  if (told.faults.length)
    return {
      parts: [
        el("p", { text: "How much reaches it is shown once the levels are known." }),
        el("p", { class: "quiet", text: told.faults[0].message }),
      ],
      choices: 0,
    };
  const now = told.drains
    ? el("p", { text: `As the paving falls now, ${reaching(told.drains)}.` })
    : el("p", { text: "It stands beside no paving, so that no paving drains to it." });
  const parts = told.choices
    .filter((/** @type {Choice} */ choice) => wishes.answers !== false || !choice.answer)
    .map((/** @type {Choice} */ choice) => choicePart(choice, kind === "outfall" ? name : "a drain", take));
  return { parts: [now, ...parts], choices: parts.length };
}

/** @param {Choice} choice @param {string} what @param {(choice: Choice) => void} take */
function choicePart(choice, what, take) {
  return el(
    "button",
    {
      type: "button",
      class: "choice",
      disabled: !choice.changes.length,
      on: { click: () => take(choice) },
    },
    el("b", { text: choice.words }),
    ...changesOf(choice, what).map((text) => el("span", { text })),
  );
}

/** What a choice changes, in lines. @param {Choice} choice @param {string} what */
function changesOf(choice, what) {
  const out = choice.drains ? [`Then ${reaching(choice.drains, what)}.`] : [];
  if (choice.drains) out.push(levelsOf(choice.levels));
  return [...out, ...choice.stops.map((words) => `■ It brings a stop: ${words}`)];
}

const MAX_CORNERS = 4;

/** @param {Choice["levels"]} levels */
function levelsOf(levels) {
  if (!levels.length) return "Levels at the corners stay as they are.";
  const far = [...levels].sort((one, two) => Math.abs(two.now_mm - two.was_mm) - Math.abs(one.now_mm - one.was_mm));
  const said = far.slice(0, MAX_CORNERS).map((one) => {
    const by = one.now_mm - one.was_mm;
    return `${one.corner} ${plain(Math.abs(by))} mm ${by < 0 ? "lower" : "higher"}`;
  });
  return `Levels: ${said.join(", ")}${far.length > MAX_CORNERS ? `, ${far.length - MAX_CORNERS} more` : ""}.`;
}
