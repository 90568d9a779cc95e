// @ts-check
/** Where water finally goes: drains, soakaways, borders, and whether somebody saw it run. */
import { words } from "../../site/parts.js";
import { inSite } from "../things.js";

/** @typedef {import("../frame.js").Walk} Walk */

/** Kinds of outfall to which a drain leads. @type {[string, string][]} */
export const LEADS = [
  ["surface_water_sewer", "Surface-water drain"],
  ["combined_sewer", "Foul or combined drain"],
  ["soakaway", "Soakaway"],
  ["watercourse", "Ditch or stream"],
  ["unknown", "Nobody knows"],
];

/** @type {[string, string][]} */
const KINDS = [["border", "A border"], ["lawn", "The lawn"], ...LEADS];

/** @param {any} draft @param {string} stem */
function freshName(draft, stem) {
  const taken = new Set((draft.site?.outfalls ?? []).map((/** @type {any} */ one) => one.name));
  if (!taken.has(stem)) return stem;
  for (let number = 2; ; number += 1) if (!taken.has(`${stem} ${number}`)) return `${stem} ${number}`;
}

/**
 * Lead a drain to an outfall: one by its name, or a new one of a kind. What ran when it was tried is seen.
 * @param {any} draft @param {any} drain @param {string} value the kind, or the name as JSON
 */
export function leadTo(draft, drain, value) {
  const kind = LEADS.find(([each]) => each === value),
    list = ((draft.site ??= {}).outfalls ??= []);
  const named = kind ? freshName(draft, kind[0] === "unknown" ? `Drain of ${drain.name}` : kind[1]) : JSON.parse(value);
  if (kind) list.push({ name: named, kind: kind[0], confirmed: false });
  drain.outfall = named;
  if (drain.runs === true) list.find((/** @type {any} */ one) => one.name === named).confirmed = true;
}

/** @type {import("../things.js").Kind} */
export const OUTFALL = {
  word: "place where water goes",
  stem: "Outfall",
  place: "none",
  touch: "",
  first: false,
  ...inSite("outfalls"),
  add: (draft, { kind }, _named) => {
    const face = KINDS.find(([each]) => each === kind)?.[1] ?? "Outfall";
    const named = freshName(
      draft,
      face.replace(/^(A|The) /, "").replace(/^./, (letter) => letter.toUpperCase()),
    );
    ((draft.site ??= {}).outfalls ??= []).push({ name: named, kind, confirmed: false });
    return named;
  },
  required: [
    {
      key: "kind",
      skip: null,
      ask: () => "Where can the water go?",
      draw: (_here, _one, answer) => [words("Where", KINDS, "", (kind) => answer((held) => (held.kind = kind)))],
    },
  ],
  questions: [
    {
      key: "seen",
      skip: "Not tested",
      ask: (one) => `Did you see ${one.name} take water?`,
      when: (one) => !one.confirmed,
      draw: (_here, _one, answer) => [
        words("Seen", [["yes", "Yes: a bucket ran away"]], "", () => answer((mine) => (mine.confirmed = true))),
      ],
    },
  ],
  told: (one) => (one.confirmed ? "seen to take water" : "not tested"),
};
