// @ts-check
/** Operations between two documents, in the form in which they are stored; by whole items of lists. */

const same = (/** @type {any} */ one, /** @type {any} */ other) => JSON.stringify(one) === JSON.stringify(other);
const isList = Array.isArray,
  isPart = (/** @type {any} */ value) => value !== null && typeof value === "object" && !isList(value);

/** @param {any} before @param {any} after @param {any[]} [at] @returns {any[]} */
export function between(before, after, at = []) {
  if (same(before, after)) return [];
  if (isPart(before) && isPart(after))
    return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((name) =>
      between(before[name], after[name], [...at, name]),
    );
  if (isList(before) && isList(after) && [...before, ...after].every(isPart)) return lists(before, after, at);
  return [
    { op: "set", at, ...(before === undefined ? {} : { was: before }), ...(after === undefined ? {} : { to: after }) },
  ];
}

/** @param {any[]} before @param {any[]} after @param {any[]} at */
function lists(before, after, at) {
  const named = [...before, ...after].every((one) => typeof one.name === "string"),
    same_ = (/** @type {any} */ one, /** @type {any} */ other) => (named ? one.name === other.name : same(one, other));
  const gone = before.filter((one) => !after.some((other) => same_(one, other))),
    came = after.filter((one) => !before.some((other) => same_(one, other)));
  const changed = named
    ? before.flatMap((one) => {
        const other = after.find((each) => each.name === one.name);
        return other ? between(one, other, [...at, { name: one.name }]) : [];
      })
    : [];
  return [
    ...gone.map((item) => ({ op: "remove", at, item })),
    ...changed,
    ...came.map((item) => ({ op: "add", at, item })),
  ];
}

/** @param {any} doc @param {any[]} operations */
export function applied(doc, operations) {
  const next = structuredClone(doc);
  for (const one of operations) {
    const last = one.at.at(-1);
    let owner = next;
    for (const step of one.at.slice(0, -1)) {
      if (typeof step === "string") owner = owner[step] ??= {};
      else owner = owner.find((/** @type {any} */ each) => (step.is ? same(each, step.is) : each.name === step.name));
      if (!owner) break;
    }
    if (!owner) continue;
    if (one.op === "set") {
      if ("to" in one) owner[last] = one.to;
      else delete owner[last];
    } else if (one.op === "add") (owner[last] ??= []).push(one.item);
    else {
      const at = (owner[last] ?? []).findIndex((/** @type {any} */ each) => same(each, one.item));
      if (at >= 0) owner[last].splice(at, 1);
    }
  }
  return { doc: next, clashes: [] };
}

/** @param {any[]} operations */
export const inverse = (operations) =>
  operations.toReversed().map((one) => {
    if (one.op === "set") {
      const { was, to, ...rest } = one;
      return { ...rest, ...("to" in one ? { was: to } : {}), ...("was" in one ? { to: was } : {}) };
    }
    return { ...one, op: one.op === "add" ? "remove" : "add" };
  });
