// @ts-check
/** What is read by hand on finished paving: gaps under a straight edge, steps between units, joints. */
import { el } from "../../lib/dom.js";
import { plain } from "../../lib/words.js";
import { source } from "../sources.js";
import { verdict } from "../../lib/kernel.js";
import { keepChange, touches } from "../changes.js";
import { padFor, picker, set, undoLine, words } from "../parts.js";
import { areaChosen, freeName, laidOf, placed, placeOn, told } from "./shared.js";

/** @typedef {import("../parts.js").Here} Here */

const KINDS = /** @type {[string, string][]} */ ([
  ["gaps", "Gap under an edge"],
  ["lips", "Step between units"],
  ["joints", "Joint"],
]);
const LETTERS = /** @type {Record<string, string>} */ ({ gaps: "G", lips: "S", joints: "J" });

/** @param {Here} here @returns {Node[]} */
export function byHand(here) {
  const part = /** @type {plan.LaidOnSite|null} */ (here.view?.parts?.laid ?? null),
    { ui, doc } = here,
    kind = ui.checkKind ?? "gaps",
    areas = (doc.areas ?? []).map((one) => one.name),
    area = areaChosen(here);
  if (!area) return [el("p", { text: "The job has no area yet." })];
  const edges = edgesOf(part),
    edge = edges.find(([key]) => key === ui.checkEdge)?.[0] ?? edges.at(-1)?.[0] ?? "2000";
  const had = /** @type {any[]} */ (/** @type {any} */ (doc.as_laid)?.[kind] ?? []);
  const field = kind === "gaps" ? "gap_mm" : kind === "lips" ? "lip_mm" : "width_mm";
  const label = kind === "gaps" ? "Largest gap, mm" : kind === "lips" ? "Step, mm" : "Width of the joint, mm";
  return [
    last(here, part, kind, had.at(-1)),
    words("What is read", KINDS, kind, (checkKind) => set(here, { checkKind, typed: "" })),
    areas.length > 1 ? picker("Area", areas, area, (checkArea) => set(here, { checkArea })) : el("span"),
    kind === "gaps" ? words("Straight edge", edges, edge, (checkEdge) => set(here, { checkEdge })) : el("span"),
    placeOn(
      here,
      had.filter((one) => one.x_mm !== undefined),
    ),
    padFor(here, label, "Save it", async (value) => {
      const name = freeName(LETTERS[kind], had),
        entry = /** @type {Record<string, any>} */ ({
          name,
          area,
          [field]: Math.abs(Math.round(value * 10) / 10),
          ...(kind === "gaps" ? { edge_mm: Number(edge) } : {}),
          ...placed(here),
        });
      const kept = await keepChange(
        here,
        (draft) => {
          const laid = laidOf(draft);
          laid[kind] = [...(laid[kind] ?? []), entry];
        },
        `${name}: ${plain(Number(entry[field]), 1)} mm`,
      );
      if (kept) set(here, { checkAt: null, typed: "" });
    }),
    undoLine(here, (one) => touches(one, "as_laid")),
    kind === "gaps"
      ? el("p", {
          class: "quiet",
          text: "Lay the edge on the paving. Read the gap between its two contacts with a wedge.",
        })
      : el("span"),
    list(kind, had, field),
  ];
}

/** @param {plan.LaidOnSite|null} part @returns {[string, string][]} */
const edgesOf = (part) =>
  (part?.edges.length ? part.edges.map((one) => one.edge_mm) : [2000, 3000]).map((edge) => [
    String(edge),
    `${plain(edge / 1000, 1)} m`,
  ]);

/**
 * The last reading against what it is held to, at once.
 * @param {Here} here @param {plan.LaidOnSite|null} part @param {string} kind @param {any} one
 */
function last(here, part, kind, one) {
  if (!part || !one || kind === "joints") return el("span");
  const sd = kind === "gaps" ? part.wedge_sd.value : part.gauge_sd.value,
    limit = kind === "gaps" ? (part.edges.find((each) => each.edge_mm === one.edge_mm)?.gap ?? null) : part.step,
    found = kind === "gaps" ? one.gap_mm : one.lip_mm;
  if (typeof found !== "number") return el("span");
  const what = `${one.name}, ${plain(found, 1)} mm`;
  if (!limit)
    return el("p", { role: "status", text: `${what}: kept. What it is held to comes with the working screen.` });
  return el(
    "div",
    {},
    told(
      verdict(found, limit.value, 2 * sd),
      what,
      `${plain(limit.value, 1)} mm is allowed; the reading is ± ${plain(2 * sd, 1)} mm.`,
    ),
    source(here, limit),
  );
}

/** @param {number|null|undefined} found */
const wasRead = (found) => (found === null || found === undefined ? "not read" : `${plain(found, 1)} mm`);

/** @param {string} kind @param {any[]} had @param {string} field */
const list = (kind, had, field) =>
  had.length
    ? el(
        "details",
        { class: "group" },
        el("summary", { text: had.length === 1 ? "The one reading" : `All ${had.length} readings` }),
        el(
          "ul",
          { class: "plain-list inside" },
          ...had.map((one) =>
            el("li", {
              text:
                `${one.name}, ${one.area}: ${wasRead(one[field])}` +
                (kind === "gaps" ? ` under ${plain(one.edge_mm / 1000, 1)} m` : ""),
            }),
          ),
        ),
      )
    : el("span");
