// @ts-check
/** What is left of the walk round: asked one by one, by touch where a few words answer it. */
import { el } from "../../lib/dom.js";
import { ASKED as QUESTION, USUAL } from "../../lib/walk-questions.js";
import { words } from "../../site/parts.js";
import { button } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "questions",
  name = "Questions",
  why = "What is not seen becomes an assumption of the quotation.",
  question = "Footings, the ground next door, standing water, the run of the drain, and who needs a level way";

/** Each with the answers that one touch gives. @type {[string, string[]][]} */
const ASKED = /** @type {const} */ (["footings", "next_door", "standing_water", "drain_run", "level_way"]).map(
  (key) => [QUESTION[key], USUAL[key]],
);

/** @param {Walk} here @param {string} asked */
const said = (here, asked) =>
  (here.doc.site?.walk_round ?? []).find((/** @type {any} */ one) => one.question === asked);

/** @param {Walk} here */
export const state = (here) => (ASKED.every(([asked]) => said(here, asked)) ? "done" : "open");

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const open = ASKED.find(([asked]) => asked === here.ui.asked) ?? ASKED.find(([asked]) => !said(here, asked));
  if (!open)
    return [
      el("p", { class: "question", text: "All asked" }),
      ...ASKED.map(([asked]) => button(`${asked} ${told(said(here, asked))}`, () => here.set({ asked }))),
    ];
  const [asked, usual] = open,
    field = el("input", {
      type: "text",
      maxlength: "300",
      "aria-label": "What was seen",
      placeholder: "or in your own words",
      value: here.ui.text ?? "",
    });
  field.addEventListener("input", () => {
    here.ui.text = field.value;
    here.remember();
  });
  field.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && field.value.trim()) keep(here, asked, "value", field.value.trim());
  });
  const left = ASKED.filter(([each]) => !said(here, each)).length;
  return [
    el("p", { class: "question", text: asked }),
    words(
      "Answer",
      usual.map((each) => [each, each]),
      said(here, asked)?.value ?? "",
      (value) => keep(here, asked, "value", value),
    ),
    el(
      "div",
      { class: "row" },
      field,
      button("Save answer", () => field.value.trim() && keep(here, asked, "value", field.value.trim())),
    ),
    el(
      "div",
      { class: "row" },
      button("None", () => keep(here, asked, "none")),
      button("Could not see it", () => keep(here, asked, "could_not_see")),
    ),
    el("p", { class: "quiet", text: left > 1 ? `${left - 1} more after this.` : "The last one." }),
  ];
}

/** @param {any} one */
const told = (one) => (one ? one.value || one.answer.replaceAll("_", " ") : "");

/** @param {Walk} here @param {string} asked @param {string} answer @param {string} [value] */
async function keep(here, asked, answer, value = "") {
  const kept = await here.change(asked, (draft) => {
    const list = ((draft.site ??= {}).walk_round ??= []),
      at = list.findIndex((/** @type {any} */ one) => one.question === asked),
      entry = { question: asked, answer, value };
    if (at < 0) list.push(entry);
    else list[at] = { ...list[at], ...entry };
  });
  if (!kept) return;
  here.set({ asked: "", text: "" });
  if (state(here) === "done") here.next();
}
