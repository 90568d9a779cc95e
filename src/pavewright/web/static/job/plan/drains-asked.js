// @ts-check
/** A gully, channel or outfall that is added asks at once what drains to it. The question never holds up the plan. */
import { el, tell } from "../../lib/dom.js";
import { drainWays, withChanges } from "../../lib/drain-ways.js";

/** @typedef {import("../../lib/drain-ways.js").Drain} Drain */

/** @type {[Drain, string, (one: any) => boolean][]} */
const LISTS = [
  ["gully", "gullies", (one) => Boolean(one.point)],
  ["channel", "channels", (one) => Boolean(one.start && one.end)],
  ["outfall", "outfalls", () => true],
];

/** Everything that has its place, as kind and name. @param {any} doc @returns {Map<string, [Drain, string]>} */
function placed(doc) {
  const found = new Map();
  for (const [kind, list, ready] of LISTS)
    for (const one of doc?.site?.[list] ?? [])
      if (one.name && ready(one)) found.set(JSON.stringify([kind, one.name]), [kind, one.name]);
  return found;
}

/** How many there are: a new name where nothing was added is a thing renamed. @param {any} doc */
const counts = (doc) => LISTS.reduce((sum, [, list, ready]) => sum + (doc?.site?.[list] ?? []).filter(ready).length, 0);

/** Ask whenever a thing is added by hand; what comes from others or by undo is left alone. @param {any} state */
export function askWhatDrains(state) {
  let before = placed(state.doc),
    had = counts(state.doc),
    done = state.past.length;
  state.addEventListener("document", () => {
    const now = placed(state.doc),
      fresh = [...now].filter(([key]) => !before.has(key)).map(([, one]) => one),
      byHand = state.past.length > done && counts(state.doc) === had + 1;
    before = now;
    had = counts(state.doc);
    done = state.past.length;
    if (byHand && fresh.length === 1) question(state, ...fresh[0]);
  });
}

/** @param {any} state @param {Drain} kind @param {string} name */
async function question(state, kind, name) {
  document.querySelector(".drains-asked")?.remove();
  const body = el("div", { class: "inside", role: "status" }, el("p", { class: "quiet", text: "working it out …" }));
  const box = el(
    "section",
    { class: "drains-asked", role: "dialog", "aria-label": `What drains to ${name}?` },
    el("h3", { text: `What drains to ${name}?` }),
    body,
    el("button", { type: "button", text: "Leave it as it is", on: { click: () => box.remove() } }),
  );
  box.addEventListener("keydown", (event) => {
    if (event.key === "Escape") box.remove();
  });
  document.body.append(box);
  const { parts } = await drainWays(state.doc, kind, name, (choice) => {
    state.change(`${name}: ${choice.words}`.slice(0, 190), (/** @type {any} */ doc) =>
      withChanges(doc, choice.changes),
    );
    tell("Done. The plan follows.", { label: "Undo", act: () => state.undo() });
    box.remove();
  });
  body.replaceChildren(...parts);
}
