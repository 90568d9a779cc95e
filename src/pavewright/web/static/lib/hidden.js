// @ts-check
/** What of a job is not for whoever looks: asked of the server once, remembered for where it does not answer. */

const KEPT = "pavewright.hidden",
  PATIENT_ms = 5000;

/** @typedef {{stages: string[], fields: string[], rates: string[], papers: string[], acts: string[]}} Hidden */

/**
 * Keys of stages, names of fields, those of the rates, keys of papers, rights that are not had; empty until `hidden`
 * was asked.
 */
export const HIDDEN = /** @type {Hidden} */ ({ stages: [], fields: [], rates: [], papers: [], acts: [] });

/** Whether money is not for whoever looks. */
export const hidesMoney = () => HIDDEN.stages.includes("price");

/** @type {Promise<Hidden>|null} */ let asked = null;

/** Ask once for all parts of a page; nothing is hidden where it was never told. @returns {Promise<Hidden>} */
export const hidden = () => (asked ??= found().then((told) => Object.assign(HIDDEN, told)));

/** @returns {Promise<Partial<Hidden>>} */
async function found() {
  try {
    const answer = await fetch("/api/pages", { cache: "no-store", signal: AbortSignal.timeout(PATIENT_ms) });
    if (answer.ok) {
      const told = (await answer.json()).hidden;
      keep(told);
      return told;
    }
  } catch {
    /* then what was told before holds */
  }
  return before();
}

/** @param {Hidden} told */
function keep(told) {
  try {
    localStorage.setItem(KEPT, JSON.stringify(told));
  } catch {
    /* it is asked again the next time */
  }
}

/** @returns {Partial<Hidden>} */
function before() {
  try {
    return JSON.parse(localStorage.getItem(KEPT) ?? "{}");
  } catch {
    return {};
  }
}
