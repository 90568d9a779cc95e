// @ts-check
/** The walk round: what was seen, or not. */
import { el } from "../lib/dom.js";
import { ON_SITE } from "../lib/walk-questions.js";
import { glance, keep, set, words } from "./parts.js";
import { standing } from "./reading.js";

/** @typedef {import("./parts.js").Here} Here */

const ANSWERS = /** @type {[string, string][]} */ ([
  ["value", "I saw it"],
  ["none", "None"],
  ["could_not_see", "Could not see"],
]);

/** @param {Here} here */
export function walkPanel(here) {
  const given = new Map();
  for (const one of here.doc.site?.walk_round ?? []) given.set(one.question, one);
  for (const one of standing(here.queue.list, "walk_round")) given.set(one.question, one);
  const all = [...new Set([...given.keys(), ...ON_SITE])],
    left = all.filter((question) => !given.has(question));
  const question = here.ui.question && all.includes(here.ui.question) ? here.ui.question : (left[0] ?? all[0]),
    now = given.get(question);
  const index = all.indexOf(question),
    answer = here.ui.answer || now?.answer || "";
  const seen = el("textarea", {
    maxlength: "500",
    "aria-label": "What was seen",
    placeholder: "What was seen, in a few words",
  });
  seen.value = here.ui.seen ?? now?.value ?? "";
  seen.addEventListener("input", () => {
    here.ui.seen = seen.value;
    here.remember();
  });
  const go = (/** @type {string} */ to) => set(here, { question: to, answer: "", seen: undefined });
  return [
    glance(all.length - left.length, all.length, "answers", ""),
    el("p", { class: "question", text: question }),
    now
      ? el("p", {
          class: "quiet",
          text: `Answered: ${
            { value: now.value, none: "none", could_not_see: "could not see; it is taken as given until seen" }[
              /** @type {"none"} */ (now.answer)
            ]
          }`,
        })
      : el("span"),
    words("Answer", ANSWERS, answer, (value) => set(here, { answer: value })),
    answer === "value" ? seen : el("span"),
    el("button", {
      type: "button",
      class: "main pad-keep",
      text: "Save answer",
      disabled: !answer,
      on: {
        click: async () => {
          if (answer === "value" && !seen.value.trim())
            return here.say("Write what was seen, or choose none or could not see.");
          const entry = { question, answer, ...(answer === "value" ? { value: seen.value.trim() } : {}) };
          if (await keep(here, "walk_round", entry))
            go(left.find((one) => one !== question) ?? all[(index + 1) % all.length]);
        },
      },
    }),
    el(
      "div",
      { class: "row" },
      el("button", {
        type: "button",
        text: "◂ Before",
        on: { click: () => go(all[(index + all.length - 1) % all.length]) },
      }),
      el("button", { type: "button", text: "Next ▸", on: { click: () => go(all[(index + 1) % all.length]) } }),
    ),
  ];
}
