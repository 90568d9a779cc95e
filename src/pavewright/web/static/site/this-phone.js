// @ts-check
/** What a phone knows of itself: its name, the day, and how a reading begins to wait. */
import { freshId } from "../lib/api.js";

/** The name of this browser: what it sends one after the other belongs together. */
export function phoneName() {
  try {
    const name = localStorage.getItem("pavewright.phone") ?? freshId();
    localStorage.setItem("pavewright.phone", name);
    return name;
  } catch {
    return ""; // then each delivery stands alone
  }
}

/** The day, as a job writes it. */
export function today() {
  const now = new Date();
  const two = (/** @type {number} */ part) => String(part).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/**
 * A reading that waits to be sent.
 * @param {string} job
 * @param {number} base the revision of the job that the page shows
 * @returns {import("./reading.js").Waiting}
 */
export const freshRecord = (job, base) => ({
  ...{ id: freshId(), job, kind: "", entries: [], date: today(), tried: 0, base, from: phoneName() },
  state: "waiting",
});
