// @ts-check
/** What the schema of a job document says of a place in it. */

/** @type {any} */ let schema = null;

/** @param {string} [from] of which document; a page has forms of one */
export async function loadSchema(from = "/api/schema") {
  schema ??= await (await fetch(from)).json();
  return schema;
}

/** Resolve references and "this or nothing". @param {any} node */
export function resolved(node) {
  let found = node,
    optional = false;
  for (;;) {
    if (found.$ref)
      found = {
        ...schema.$defs[found.$ref.split("/").pop()],
        ...(found.description ? { description: found.description } : {}),
        ...("default" in found ? { default: found.default } : {}),
      };
    else if (found.anyOf && found.anyOf.some((/** @type {any} */ each) => each.type === "null")) {
      optional = true;
      const rest = found.anyOf.filter((/** @type {any} */ each) => each.type !== "null");
      found = {
        ...(rest.length === 1 ? rest[0] : { anyOf: rest }),
        description: found.description,
        default: found.default,
      };
    } else if (found.allOf?.length === 1)
      found = { ...found.allOf[0], description: found.description, default: found.default };
    else break;
  }
  return { ...found, optional };
}

/** The schema of a place of the document. @param {(string|number)[]} path */
export function schemaAt(path) {
  let node = resolved(schema);
  for (const step of path)
    node = resolved(typeof step === "number" ? (node.items ?? node.prefixItems[step]) : node.properties[step]);
  return node;
}

const POINT_FIELDS = new Set([
  "point",
  "start",
  "end",
  "line_from",
  "line_to",
  "base_from",
  "base_to",
  "origin",
  "level_at",
  "corner",
  "circle_at",
  "at",
  "first",
  "second",
  "over",
  "through",
  "centre",
]);

/** What a name field refers to. @param {JobState} state @param {string} field @param {(string|number)[]} path */
export function namesFor(state, field, path) {
  const doc = state.doc,
    name = (/** @type {any[]} */ list) => (list ?? []).map((each) => each.name);
  const inside = String(path[0]) + "." + String(path[1] ?? "");
  if (field === "unit" || path.includes("course_units") || path.includes("also_cut_from")) return name(doc.units);
  if (field === "away_from") return name(doc.site?.walls ?? []);
  if (field === "outfall") return name(doc.site?.outfalls ?? []);
  if (field === "gully") return name(doc.site?.gullies ?? []);
  if (field === "cover") return name(doc.site?.covers ?? []);
  if (["area", "upper_area", "lower_area"].includes(field)) return name(doc.areas);
  if (
    POINT_FIELDS.has(field) ||
    path.includes("along") ||
    path.includes("beyond") ||
    path.includes("ground_points") ||
    path.includes("break_lines") ||
    path.includes("ground_gaps") ||
    (inside === "site.services" && field === "points")
  )
    return pointNames(doc);
  return null;
}

/** Every named point of a document. @param {JobDocument} doc @returns {string[]} */
export function pointNames(doc) {
  const m = doc.measurements ?? {},
    found = new Set();
  for (const point of m.points ?? []) found.add(point.name);
  for (const tape of m.tape_plan?.tapes ?? []) {
    found.add(tape.start);
    found.add(tape.end);
  }
  for (const point of m.offsets ?? []) found.add(point.name);
  for (const point of m.sketch ?? []) found.add(point.name);
  return [...found].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
}

/** Names of the areas, on which parts of forms hang. @param {JobDocument} doc */
export const areaNames = (doc) => (doc.areas ?? []).map((area) => area.name);

/** Whether a field takes a level or the name of a point whose level it is. @param {any} node */
export function takesLevelOrPoint(node) {
  const kinds = (node.anyOf ?? []).map((/** @type {any} */ each) => each.type);
  return kinds.includes("number") && kinds.includes("string");
}

/**
 * What kind of length a field takes; null where it takes none.
 * @param {any} node
 * @returns {import("../../lib/lengths.js").LengthKind|null}
 */
export function lengthKind(node) {
  return node.length ?? (node.anyOf ?? []).find((/** @type {any} */ each) => each.length)?.length ?? null;
}

/**
 * The middle of the levels that a document states, mm; null where it states none.
 * @param {any} doc
 * @returns {number|null}
 */
export function levelsMiddle(doc) {
  /** @type {number[]} */ const found = [];
  const look = (/** @type {any} */ part) => {
    for (const [name, value] of Object.entries(part ?? {})) {
      if (typeof value === "number" && name.endsWith("level_mm")) found.push(value);
      else if (value && typeof value === "object") look(value);
    }
  };
  for (const part of [doc?.measurements, doc?.site, doc?.areas]) look(part);
  return found.sort((one, other) => one - other)[Math.floor(found.length / 2)] ?? null;
}

/** A value with everything that must be there. @param {any} node @returns {any} */
export function blank(node) {
  const found = resolved(node);
  if (found.type === "object") {
    /** @type {any} */ const made = {};
    // a length that nobody measured stays empty and is asked for
    for (const name of found.required ?? [])
      if (!(name.endsWith("_mm") && resolved(found.properties[name]).type === "number"))
        made[name] = blank(found.properties[name]);
    return made;
  }
  if ("default" in found && found.default !== undefined) return found.default;
  if (found.enum) return found.enum[0];
  if (found.pattern && /^\^\(/.test(found.pattern)) return found.pattern.slice(2, -2).split("|")[0];
  if (found.type === "number" || found.type === "integer")
    return Math.max(found.minimum ?? 0, (found.exclusiveMinimum ?? -1) >= 0 ? 100 : 0);
  if (found.type === "array")
    return Array.from({ length: found.minItems ?? 0 }, () => blank(found.items ?? found.prefixItems[0]));
  if (found.type === "boolean") return false;
  return found.format === "date" ? new Date().toISOString().slice(0, 10) : "";
}
