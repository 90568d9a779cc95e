// @ts-check
/**
 * Options: ways of laying the same job, kept by name and put side by side.
 *
 * An option is a revision whose note begins with `option: `. What is taken from it is how the areas are laid (areas,
 * steps, units); measurements, rates and everything else stay as they are now, and the comparison is made on them.
 */
import { messageOf } from "../../lib/words.js";
import { ask, el, say, tell } from "../../lib/dom.js";
import { call } from "../../lib/api.js";
import { group } from "../form/form.js";
import { outcomeOf, sideBySide } from "../differences.js";
import { isOffered, offerOf, putOffer, takeOffer } from "./offering.js";

const SIGN = "option: ",
  MOST = 4,
  TAKEN = ["areas", "steps", "units"];

/** The job of now, laid as another one. @param {any} now @param {any} other */
export const laidAs = (now, other) => ({
  ...structuredClone(now),
  ...Object.fromEntries(TAKEN.filter((part) => part in other).map((part) => [part, structuredClone(other[part])])),
});

/** @param {Planned} state */
async function keep(state) {
  const name = el("input", { type: "text", maxlength: 60, placeholder: "large slabs, two falls" });
  const way = await ask(
    "Keep this as an option",
    [el("label", { class: "field" }, el("span", { class: "name", text: "What is it called?" }), name)],
    [
      { label: "Keep it", value: "keep", main: true },
      { label: "Not now", value: "" },
    ],
  );
  if (way !== "keep" || !name.value.trim()) return false;
  if (state.saving !== "saved" || state.saveRunning) {
    tell("The last change is still being kept: try again in a moment.");
    return false;
  }
  if (await state.keepAs(`${SIGN}${name.value.trim()}`)) return true;
  tell(`The option is not kept yet. ${state.problem}`);
  return false;
}

/** The options of a job, the last of each name, at most four. @param {Planned} state @returns {Promise<any[]>} */
async function kept(state) {
  const { revisions } = await call("GET", `/api/jobs/${state.id}/revisions`),
    found = new Map();
  for (const one of revisions) if (one.note.startsWith(SIGN) && !found.has(one.note)) found.set(one.note, one);
  const all = await Promise.all(
    [...found.values()].slice(0, MOST).map(async (one) => ({
      name: one.note.slice(SIGN.length),
      document: (await call("GET", `/api/jobs/${state.id}/revisions/${one.rev}`)).document,
    })),
  );
  return all.filter((one) => one.document);
}

/** @param {Planned} state @param {{name: string, document: any}} one */
const takeIt = (state, one) =>
  el("button", {
    type: "button",
    class: "small",
    text: "Take this one",
    "aria-label": `Take this one: ${one.name}`,
    on: {
      click: () => {
        state.put(`option taken: ${one.name}`, laidAs(state.doc, one.document));
        tell(`Laid as ${one.name}.`, { label: "Undo", act: () => state.undo() });
      },
    },
  });

/** Let the customer tick it, or no longer. @param {Planned} state @param {{name: string, document: any}} one */
function offerIt(state, one) {
  const words = () => (isOffered(state.doc, one.name) ? "No longer offer it" : "Offer to the customer"),
    button = el("button", { type: "button", class: "small" });
  const name = () => {
    button.textContent = words();
    button.setAttribute("aria-label", `${words()}: ${one.name}`);
  };
  button.addEventListener("click", () => {
    const undo = { label: "Undo", act: () => [state.undo(), name()] };
    if (isOffered(state.doc, one.name)) {
      state.change(`no longer offered: ${one.name}`, (doc) => takeOffer(doc, one.name));
      tell(`${one.name} is no longer offered.`, undo);
    } else {
      const changes = offerOf(state.doc, laidAs(state.doc, one.document));
      if (!changes) {
        tell(`${one.name} changes nothing now, or too much for one box to tick: give the customer a price of its own.`);
        return;
      }
      state.change(`offered to the customer: ${one.name}`, (doc) => putOffer(doc, one.name, changes));
      tell(`${one.name} stands on the customer's price with a box to tick, once the plan is made.`, undo);
    }
    name();
  });
  name();
  return button;
}

/** @param {Planned} state */
export function options(state) {
  const told = el("p", { class: "quiet", role: "status" }),
    list = el("div");
  const show = async () => {
    say(told, "working it out …");
    try {
      const now = structuredClone(state.doc),
        found = await kept(state);
      if (!found.length) {
        say(told, "No option is kept yet. Lay the job one way, keep it, change it, keep that too.");
        list.replaceChildren();
        return;
      }
      /** @type {{name: string, told: any, below?: Node|null}[]} */ const columns = [
        { name: "As it is now", told: await outcomeOf(now) },
      ];
      for (const one of found) {
        const other = laidAs(now, one.document);
        columns.push({
          name: one.name,
          told: await outcomeOf(other),
          below: el("div", { class: "row" }, takeIt(state, one), offerIt(state, one)),
        });
      }
      told.textContent = "";
      list.replaceChildren(sideBySide(columns));
    } catch (problem) {
      say(told, messageOf(problem));
    }
  };
  return group("Options side by side", [
    el("p", { text: `Up to ${MOST} ways of laying the job as it is measured now.` }),
    el(
      "div",
      { class: "row" },
      el("button", {
        type: "button",
        text: "Keep this as an option",
        on: {
          click: async () => {
            if (await keep(state)) show();
          },
        },
      }),
      el("button", { type: "button", class: "main", text: "Compare", on: { click: show } }),
    ),
    told,
    list,
  ]);
}
