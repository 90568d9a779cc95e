// @ts-check
/**
 * The panels that have a tab: those used last, each at the place that it had.
 * @param {string[]} had the tabs as they are @param {string[]} lately the panels, the one used last first
 * @param {string} now the panel that is opened
 */
export function tabsInUse(had, lately, now) {
  if (had.includes(now)) return had;
  const oldest = [...had].sort((one, other) => age(lately, other) - age(lately, one))[0];
  return had.map((one) => (one === oldest ? now : one));
}

/** @param {string[]} lately @param {string} key */
const age = (lately, key) => (lately.includes(key) ? lately.indexOf(key) : lately.length);
