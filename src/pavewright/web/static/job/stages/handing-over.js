// @ts-check
/** The record of a handover: dates, batches, what was measured before it was covered, keys, units left over. */
import { el } from "../../lib/dom.js";
import { following } from "../form/following.js";
import { form, group, items } from "../form/form.js";
import { plain } from "../../lib/words.js";

/** @param {JobState} state */
export const handingOver = (state) =>
  group("Handing over", [
    el("p", {
      class: "quiet",
      text: "The handover, under Papers, is what the customer keeps. What is left out here is left blank there.",
    }),
    following(
      state,
      (doc) => Boolean(doc.handed_over),
      () => (state.doc.handed_over ? record(state) : [beginning(state)]),
    ),
  ]);

/** @param {JobState} state */
const beginning = (state) =>
  el("button", {
    type: "button",
    text: "Begin the record of the handover",
    on: {
      click: () =>
        state.change("record of the handover begun", (doc) => {
          doc.handed_over = {};
        }),
    },
  });

/** @param {JobState} state */
function record(state) {
  const part = (/** @type {string} */ name) => ["handed_over", name];
  return [
    form(state, ["handed_over"], {
      only: ["completed_on", "handed_on", "handed_by", "handed_to", "warranty_until"],
      names: { handed_on: "Handed over on", handed_by: "Handed over by", handed_to: "Taken over by" },
    }),
    items(state, part("batches"), {
      names: { "": "Batches" },
      add: "batch",
      start: (/** @type {any} */ doc) => ({ unit: doc.units[0]?.name ?? null }),
      row: (one) => `${one.unit ?? (one.product || "not said of what")}: ${one.batch || "batch not known"}`,
    }),
    items(state, part("buried"), {
      names: { "": "Before it was covered" },
      add: "thing measured before it was covered",
      row: (one) =>
        `${one.name}: ${typeof one.depth_mm === "number" ? `${plain(one.depth_mm)} mm down` : "depth not read"}`,
    }),
    items(state, part("cover_keys"), {
      names: { "": "Keys of covers" },
      add: "keys of a cover",
      start: (/** @type {any} */ doc) => ({ cover: doc.site?.covers?.[0]?.name ?? "" }),
      row: (one) => `${one.cover}: ${typeof one.count === "number" ? `${one.count} handed over` : "not counted"}`,
    }),
    items(state, part("spares"), {
      names: { "": "Units left over" },
      add: "count of a unit",
      start: (/** @type {any} */ doc) => ({ unit: doc.units[0]?.name ?? "", count: 0 }),
      row: (one) => `${one.unit}: ${one.count} counted`,
    }),
    form(state, ["handed_over"], { only: ["notes"] }),
  ];
}
