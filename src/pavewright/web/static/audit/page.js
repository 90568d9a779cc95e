// @ts-check
/** Who did what in the firm, the last first; nobody can change it. */
import { el, find } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { tag } from "../lib/writing.js";
import { doneWords, ROLE_WORDS } from "../people/people-words.js";

const main = find("#main"),
  list = el("ul", { class: "done-list", "aria-label": "What was done" }),
  more = el("button", { type: "button", text: "Earlier", hidden: true });
let before = "";

/** @param {string} at */
const when = (at) => new Date(at).toLocaleString(tag(), { dateStyle: "medium", timeStyle: "short" });

/** @param {any} each */
function line(each) {
  const role = each.facts.role ? ` (${ROLE_WORDS[each.facts.role] ?? each.facts.role})` : "",
    whom = each.whom && each.whom !== each.who ? `: ${each.whom}` : "";
  const told = [each.who || "Nobody signed in", each.of_firm ? "" : "of no firm", when(each.at), each.address];
  return el(
    "li",
    {},
    el("b", { text: `${doneWords(each.code)}${whom}${role}` }),
    el("p", { class: "quiet", text: told.filter(Boolean).join(" · ") }),
  );
}

async function show() {
  const told = await call("GET", `/api/audit${before ? `?before=${before}` : ""}`);
  list.append(...told.entries.map(line));
  before = String(told.entries.at(-1)?.number ?? "");
  more.hidden = !told.more;
  if (!list.children.length) main.replaceChildren(el("p", { text: "Nothing was noted yet." }));
}

const told = (/** @type {unknown} */ problem) =>
  main.replaceChildren(el("p", { role: "alert", text: messageOf(problem) }));

more.addEventListener("click", () => show().catch(told));
main.replaceChildren(list, el("p", { class: "row" }, more));
show().catch(told);
