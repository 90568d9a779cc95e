// @ts-check
/** The firm's book: who the firm is, its prices, people, overhead, outputs, texts and past jobs. */
import { el, find } from "../lib/dom.js";
import { listenForKeys } from "../lib/keys.js";
import { messageOf } from "../lib/words.js";
import { loadSchema } from "../job/form/schema.js";
import { FirmState } from "./state.js";
import { earlier } from "./earlier.js";
import { overhead } from "./overhead.js";
import { firm, outputs, past, people, texts } from "./parts.js";
import { prices } from "./prices.js";
import { rates } from "./rates.js";

/** @type {[string, string, (state: FirmState) => Node[]][]} */
const PARTS = [
  ["firm", "Firm", firm],
  ["prices", "Prices", prices],
  ["rates", "Rates and tax", rates],
  ["people", "People", people],
  ["overhead", "Overhead", overhead],
  ["outputs", "Outputs", outputs],
  ["texts", "Texts", texts],
  ["past", "Past jobs", past],
  ["earlier", "Earlier books", earlier],
];
const state = new FirmState(),
  room = find("#part"),
  nav = find("#parts"),
  saved = find("#saved"),
  trouble = find("#trouble"),
  undo = find("#undo");

function show() {
  const asked = location.hash.slice(1),
    [key, title, make] = PARTS.find(([name]) => name === asked) ?? PARTS[0];
  nav.replaceChildren(
    ...PARTS.map(([name, words]) =>
      el("a", { href: `#${name}`, text: words, "aria-current": name === key ? "page" : null }),
    ),
  );
  room.setAttribute("aria-label", title);
  room.replaceChildren(el("h2", { text: title }), ...make(state));
}

function kept() {
  saved.textContent = state.trouble ? "Not kept" : state.unsaved ? "Keeping …" : state.rev ? "Kept" : "";
  undo.disabled = !state.past.length;
  trouble.hidden = !state.trouble;
  trouble.textContent = state.trouble;
}

state.addEventListener("kept", kept);
undo.addEventListener("click", () => {
  state.undo();
  show();
});
addEventListener("hashchange", () => {
  if (!state.doc) return;
  show();
  scrollTo(0, 0);
});
addEventListener("beforeunload", (event) => {
  if (state.doc && state.trouble && state.unsaved) event.preventDefault();
});
listenForKeys([]);
try {
  await loadSchema("/api/firm/schema");
  await state.open();
  show();
  kept();
} catch (problem) {
  room.replaceChildren(
    el("p", { text: messageOf(problem) }),
    el("button", { type: "button", text: "Try again", on: { click: () => location.reload() } }),
  );
}
