// @ts-check
/**
 * What this browser keeps of a job until the server has it. A browser that keeps nothing says so and never stops a
 * save.
 */

/**
 * @typedef {{key: string, rev: number, note: string, document?: any}} Sent a save without an answer; its document where
 *   it is not the last one
 * @typedef {{rev: number, document: any, sent?: Sent|null}} Unsent
 */

/** @param {string} name @param {Unsent} unsent @returns {boolean} whether it is kept */
export function keep(name, unsent) {
  try {
    localStorage.setItem(name, JSON.stringify(unsent));
    return true;
  } catch {
    return false;
  }
}

/** @param {string} name @returns {Unsent|null} */
export function kept(name) {
  try {
    const found = JSON.parse(localStorage.getItem(name) ?? "null");
    return found &&
      typeof found === "object" &&
      typeof found.rev === "number" &&
      found.document &&
      typeof found.document === "object"
      ? found
      : null;
  } catch {
    return null;
  }
}

/** @param {string} name */
export function forget(name) {
  try {
    localStorage.removeItem(name);
  } catch {
    /* nothing is kept there */
  }
}
