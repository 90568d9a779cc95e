// @ts-check
/** The paving units of the firm's book, for a job to choose among; their prices stay in the book. */

/** What stays with the book: a job that leaves it out takes it from there. */
const KEPT = new Set([
  ...["pack_price_minor", "priced_on", "supplier", "supplier_code", "supplier_kind", "min_packs", "carriage_minor"],
  ...["lead_days", "in_yard", "also_cut_from", "measured_lengths_mm", "measured_widths_mm"],
]);

/** The units of the book; none where nobody has signal or a book. @returns {Promise<any[]>} */
export async function bookUnits() {
  try {
    const answer = await fetch("/api/firm/units");
    return answer.ok ? (await answer.json()).units : [];
  } catch {
    return [];
  }
}

/** A unit of the book as a job has it. @param {any} unit */
export const ofTheBook = (unit) =>
  structuredClone(Object.fromEntries(Object.entries(unit).filter(([name]) => !KEPT.has(name))));
