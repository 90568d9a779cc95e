// @ts-check
/** A way of laying the job as an option that the customer may tick: what of the document it has otherwise. */

/** @typedef {{path: string, number?: number, text?: string, answer?: boolean}} Change */

/** As many changes as one option may hold. */
const MOST_CHANGES = 20;

/** @param {unknown} value */
const isNothing = (value) =>
  value === undefined ||
  value === null ||
  value === "" ||
  (typeof value === "object" && !Object.keys(/** @type {object} */ (value)).length);

/**
 * What a value is changed to, field by field; null where that is not said by single fields: something is taken out.
 * @param {any} now @param {any} other @param {string} [path] @returns {Change[]|null}
 */
export function changesBetween(now, other, path = "") {
  if (JSON.stringify(now) === JSON.stringify(other) || (isNothing(now) && isNothing(other))) return [];
  if (isNothing(other)) return null;
  if (typeof other === "number") return [{ path, number: other }];
  if (typeof other === "boolean") return [{ path, answer: other }];
  if (typeof other === "string") return [{ path, text: other }];
  const before = isNothing(now) ? {} : now;
  if (typeof before !== "object" || (Array.isArray(before) && Array.isArray(other) && before.length > other.length))
    return null;
  /** @type {Change[]} */ const found = [];
  for (const name of new Set([...Object.keys(before), ...Object.keys(other)])) {
    const part = changesBetween(before[name], other[name], path ? `${path}.${name}` : name);
    if (!part) return null;
    found.push(...part);
  }
  return found;
}

/** An option of the customer's: what it changes; null where it cannot be one. @param {any} now @param {any} other */
export function offerOf(now, other) {
  const changes = changesBetween(now, other);
  return changes && changes.length > 0 && changes.length <= MOST_CHANGES ? changes : null;
}

/**
 * Put an option among those for the customer, in place of one of its name.
 * @param {any} doc @param {string} name @param {Change[]} changes
 */
export function putOffer(doc, name, changes) {
  doc.terms ??= {};
  takeOffer(doc, name);
  doc.terms.options = [...(doc.terms.options ?? []), { name, changes }];
}

/** @param {any} doc @param {string} name */
export function takeOffer(doc, name) {
  const left = (doc.terms?.options ?? []).filter((/** @type {any} */ one) => one.name !== name);
  if (doc.terms?.options) doc.terms.options = left;
}

/** @param {any} doc @param {string} name @returns {boolean} */
export const isOffered = (doc, name) => (doc.terms?.options ?? []).some((/** @type {any} */ one) => one.name === name);
