// @ts-check
/** Who else has the job open, and who changed it: said in a few words, for the head of the page. Pure. */

/** @typedef {{name: string, stage?: string, own: boolean}} Other somebody else, or another screen of one's own */

/** @param {Other} one */
const named = (one) =>
  one.own ? (one.name ? "you on another screen" : "another screen") : one.name || "another screen";

/** @param {string[]} words each once, and how often where it is there more than once */
function counted(words) {
  const many = new Map();
  for (const one of words) many.set(one, (many.get(one) ?? 0) + 1);
  return [...many].map(([word, times]) => (times > 1 ? `${word} (${times})` : word)).join(", ");
}

/** What stands before their names. */
export const ALSO_HERE = "Also here: ";

/**
 * Who else is here: people with the stages that they look at.
 * @param {Other[]} here @param {(stage: string) => string} stageName
 */
export function hereWords(here, stageName) {
  if (!here.length) return "";
  /** @type {Map<string, Set<string>>} */ const stages = new Map();
  /** @type {string[]} */ const screens = [];
  for (const one of here) {
    const name = named(one),
      stage = one.stage ? stageName(one.stage) : "";
    if (!one.name || one.own) screens.push(name);
    else if (stage) stages.set(name, (stages.get(name) ?? new Set()).add(stage));
    else stages.set(name, stages.get(name) ?? new Set());
  }
  const people = [...stages].map(([name, at]) => (at.size ? `${name} (${[...at].join(", ")})` : name));
  return [...people, counted(screens)].filter(Boolean).join(", ");
}

/** Who changed the job, each once. @param {Other[]} by */
export function changedWords(by) {
  const names = [
    ...new Set(by.map((one) => (one.name && !one.own ? `by ${one.name}` : `${one.name ? "by " : "on "}${named(one)}`))),
  ];
  return names.length ? `Changed ${names.join(", ")}` : "";
}
