// @ts-check
/** Where the job is agreed with the customer: it decides whether a notice on cancelling goes with the quotation. */
import { el } from "../../lib/dom.js";
import { button } from "../parts.js";

/** @typedef {import("../frame.js").Walk} Walk */

/** @type {[string, string][]} */
const PLACES = [
  ["home", "At the customer's home"],
  ["distance", "By post, telephone or internet"],
  ["premises", "At our own premises"],
];

/** @param {Walk} here @returns {Node[]} */
export function agreedPart(here) {
  const place = here.doc.agreement?.place,
    said = PLACES.find(([key]) => key === place);
  if (said)
    return [
      el("p", { class: "quiet", text: `Agreed: ${said[1].toLowerCase()}.` }),
      button("Ask again where it is agreed", () => keep(here, null)),
    ];
  return [
    el("p", { class: "question", text: "Where do you agree this job with the customer?" }),
    el("p", { class: "quiet", text: "It decides whether a notice on cancelling goes with the quotation." }),
    ...PLACES.map(([key, text]) => button(text, () => keep(here, key))),
  ];
}

/** @param {Walk} here @param {string|null} place */
function keep(here, place) {
  return here.change("Where the job is agreed", (draft) => {
    draft.agreement ??= {};
    if (place === null) delete draft.agreement.place;
    else draft.agreement.place = place;
  });
}

/**
 * The notice that was made with the quotation.
 * @param {number} task @param {{name: string}[]} files
 * @returns {Node[]}
 */
export const noticePart = (task, files) =>
  files
    .filter((file) => file.name === "cancellation.pdf")
    .map((file) =>
      el("a", {
        class: "button tall",
        href: `/api/long-tasks/${task}/papers/${file.name}?show=1`,
        target: "_blank",
        rel: "noopener",
        text: "Open the notice on cancelling",
      }),
    );
