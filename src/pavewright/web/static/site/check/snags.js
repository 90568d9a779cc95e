// @ts-check
/** Snags: what is still to be put right, where, by whom and until when. */
import { el } from "../../lib/dom.js";
import { keepChange, touches } from "../changes.js";
import { picker, set, undoLine } from "../parts.js";
import { areaChosen, freeName, placed, placeOn, today, wordBox } from "./shared.js";

/** @typedef {import("../parts.js").Here} Here */

const KINDS = /** @type {Record<string, string>} */ ({
  level: "Level",
  standing_water: "Standing water",
  lip: "Step between units",
  gap: "Gap under an edge",
  joint: "Joint",
  rocking: "Rocks",
  chipped: "Chipped",
  stained: "Stained",
  drain: "Drain",
  edge: "Edge",
  other: "Other",
});
const STATES = /** @type {Record<string, string>} */ ({ open: "○ Open", done: "✓ Done", left: "= Agreed to stay" });

/** @param {Here} here @returns {Node[]} */
export function snags(here) {
  const list = here.doc.snags ?? [],
    open = list.filter((one) => (one.state ?? "open") === "open");
  if (here.ui.checkSnag) return fresh(here);
  return [
    el("p", { class: "glance", role: "status" }, el("b", { text: `${open.length} open` }), ` of ${list.length}`),
    el("button", {
      type: "button",
      class: "main pad-keep",
      text: "Add a snag",
      on: { click: () => set(here, { checkSnag: true }) },
    }),
    undoLine(here, (one) => touches(one, "snags")),
    ...open.map((one) => openOne(here, one)),
    closed(list.filter((one) => (one.state ?? "open") !== "open")),
  ];
}

/** @param {Here} here @returns {Node[]} */
function fresh(here) {
  const kind = KINDS[here.ui.checkSnagKind] ? here.ui.checkSnagKind : "standing_water",
    areas = (here.doc.areas ?? []).map((one) => one.name);
  return [
    picker("What is wrong", Object.keys(KINDS), kind, (checkSnagKind) => set(here, { checkSnagKind }), {
      spoken: (key) => KINDS[key],
    }),
    areas.length > 1 ? picker("Area", areas, areaChosen(here), (checkArea) => set(here, { checkArea })) : el("span"),
    placeOn(here),
    wordBox(here, "In a few words", "checkWhat"),
    wordBox(here, "Who sees to it", "checkOwner"),
    wordBox(here, "Until", "checkDue", "date"),
    el(
      "div",
      { class: "words pair" },
      el("button", { type: "button", class: "main", text: "Save it", on: { click: () => add(here, kind) } }),
      el("button", { type: "button", text: "Back", on: { click: () => set(here, { checkSnag: false }) } }),
    ),
  ];
}

/** @param {Here} here @param {string} kind */
async function add(here, kind) {
  const { ui } = here,
    name = freeName("S", here.doc.snags ?? []),
    area = areaChosen(here);
  const entry = {
    name,
    kind,
    what: (ui.checkWhat ?? "").trim(),
    ...(area ? { area } : {}),
    ...placed(here),
    found_on: today(),
    owner: (ui.checkOwner ?? "").trim(),
    ...(ui.checkDue ? { due: ui.checkDue } : {}),
  };
  const kept = await keepChange(
    here,
    (draft) => {
      draft.snags = [...(draft.snags ?? []), /** @type {any} */ (entry)];
    },
    `Snag ${name}: ${KINDS[kind]}`,
  );
  if (kept) set(here, { checkSnag: false, checkWhat: "", checkAt: null });
}

/** @param {Here} here @param {doc.Snag} one */
const openOne = (here, one) =>
  el(
    "div",
    { class: "finding" },
    el("p", { class: "big", text: `${one.name}: ${KINDS[one.kind]}` }),
    one.what ? el("p", { text: one.what }) : null,
    el("p", {
      class: "quiet",
      text: `${one.owner || "Nobody sees to it yet"}${one.due ? `, until ${one.due}` : ", no day agreed"}`,
    }),
    el(
      "div",
      { class: "words pair" },
      el("button", { type: "button", text: "Put right", on: { click: () => close(here, one.name, "done") } }),
      el("button", { type: "button", text: "Agreed to stay", on: { click: () => close(here, one.name, "left") } }),
    ),
  );

/** @param {Here} here @param {string} name @param {"done"|"left"} state */
const close = (here, name, state) =>
  keepChange(
    here,
    (draft) => {
      draft.snags = (draft.snags ?? []).map((one) => (one.name === name ? { ...one, state, closed_on: today() } : one));
    },
    `${name}: ${STATES[state].slice(2).toLowerCase()}`,
  );

/** @param {doc.Snag[]} list */
const closed = (list) =>
  list.length
    ? el(
        "details",
        { class: "group" },
        el("summary", { text: `${list.length} closed` }),
        el(
          "ul",
          { class: "plain-list inside" },
          ...list.map((one) =>
            el("li", {
              text: `${one.name}, ${KINDS[one.kind]}: ${STATES[one.state ?? "open"]} ${one.closed_on ?? ""}`,
            }),
          ),
        ),
      )
    : el("span");
