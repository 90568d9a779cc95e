// @ts-check
/** How one reading, change or photo goes to the server, and what its answer means for it. */
import { delivery } from "./reading.js";

/** @typedef {import("./reading.js").Waiting} Waiting */

/**
 * Send one that waits to the server. Told is its revision, why it was refused, or that sending stops for now.
 * @param {string} job @param {Waiting} one
 * @returns {Promise<{stop?: string, words?: string, rev?: number, refused?: string}>}
 */
export async function send(job, one) {
  const path = `/api/jobs/${job}`,
    late = AbortSignal.timeout(one.image ? 60000 : 20000);
  let answer, told;
  try {
    if (one.image) {
      const asked = new URLSearchParams({ id: one.id, note: one.note ?? "" });
      if (one.place) {
        asked.set("x_mm", String(one.place[0]));
        asked.set("y_mm", String(one.place[1]));
      }
      answer = await fetch(`${path}/photos?${asked}`, {
        method: "POST",
        body: one.image,
        headers: { "Content-Type": "image/jpeg" },
        signal: late,
      });
    } else
      answer = await fetch(`${path}/deliveries`, {
        method: "POST",
        body: JSON.stringify(delivery(one)),
        headers: { "Content-Type": "application/json" },
        signal: late,
      });
    told = await answer.json();
  } catch {
    return { stop: "no answer" };
  }
  if (answer.ok) return { rev: told.rev ?? 0 };
  // a fault of the server or of the way there is no fault of the reading: it waits
  return [400, 404, 409, 413, 415, 422].includes(answer.status)
    ? { refused: told.message ?? "The server refuses it." }
    : { stop: "no answer", words: told.message };
}
