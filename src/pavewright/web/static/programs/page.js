// @ts-check
/** Other programs: tokens by which they come in, and addresses that are told when something happens. */
import { ask, el, find, tell } from "../lib/dom.js";
import { listenForKeys } from "../lib/keys.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { tag } from "../lib/writing.js";

const main = find("#main");

/** @param {string | null} at @param {string} none */
const day = (at, none) => (at ? new Date(at).toLocaleString(tag(), { dateStyle: "medium", timeStyle: "short" }) : none);

/** @param {string} words @param {string} type @param {string} [value] */
function field(words, type, value = "") {
  const input = el("input", { type, value, required: "" });
  return { input, row: el("label", { class: "field" }, el("span", { text: words }), input) };
}

/** A list of things to tick. @param {string[]} names */
function choices(names) {
  const boxes = names.map((name) => el("input", { type: "checkbox", value: name }));
  const rows = boxes.map((box, number) =>
    el("label", { class: "programs-choice" }, box, el("span", { text: names[number].replaceAll("_", " ") })),
  );
  return { rows, chosen: () => boxes.filter((box) => box.checked).map((box) => box.value) };
}

/** What is shown once. @param {string} title @param {string} secret */
const once = (title, secret) =>
  ask(
    title,
    [
      el("p", { text: "Copy it now: it is not shown again." }),
      el("code", { class: "programs-secret", tabindex: "0", text: secret }),
    ],
    [{ label: "I have it", value: "done", main: true }],
  );

/** @param {() => Promise<any>} work */
async function done(work) {
  try {
    await work();
  } catch (problem) {
    tell(messageOf(problem));
  }
  await load();
}

/** @param {string} title @param {string} words */
const sure = async (title, words) =>
  (await ask(
    title,
    [el("p", { text: words })],
    [
      { label: "Keep it", value: "keep" },
      { label: "Go on", value: "go", main: true },
    ],
  )) === "go";

/** @param {any} told */
function tokens(told) {
  if (!told.scopes.length)
    return [
      el("h2", { text: "Tokens" }),
      el("p", {
        text: "Nobody signs in here yet: programs of this machine come in as they are. Tokens belong to people.",
      }),
    ];
  const name = field("For which program", "text"),
    days = field("Days until it ends", "number", "365"),
    scopes = choices(told.scopes);
  const form = el(
    "form",
    {},
    name.row,
    days.row,
    el("fieldset", {}, el("legend", { text: "What it may do" }), ...scopes.rows),
    el("button", { class: "main", text: "Make a token" }),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void done(async () => {
      const asked = { name: name.input.value, days: Number(days.input.value), scopes: scopes.chosen() };
      await once("The token", (await call("POST", "/api/tokens", asked)).token);
    });
  });
  return [
    el("h2", { text: "Tokens" }),
    el("ul", { class: "programs-list" }, ...told.tokens.map(tokenRow)),
    el("details", {}, el("summary", { text: "New token" }), form),
  ];
}

/** @param {any} one */
function tokenRow(one) {
  const withdraw = async () => {
    if (await sure(`Withdraw ${one.name}?`, "The program that has it comes in no more."))
      await done(() => call("DELETE", `/api/tokens/${one.id}`));
  };
  return el(
    "li",
    {},
    el("b", { text: one.name }),
    el("p", { class: "quiet", text: one.scopes.join(", ").replaceAll("_", " ") }),
    el("p", { class: "quiet", text: `Used ${day(one.used, "never")}; ends ${day(one.expires, "never")}` }),
    el("button", { type: "button", "aria-label": `Withdraw ${one.name}`, text: "Withdraw", on: { click: withdraw } }),
  );
}

/** @param {any} told */
function hooks(told) {
  const name = field("Whose address", "text"),
    address = field("Address (https)", "url"),
    events = choices(told.events);
  const form = el(
    "form",
    {},
    name.row,
    address.row,
    el("fieldset", {}, el("legend", { text: "Told of" }), ...events.rows),
    el("button", { class: "main", text: "Enter it" }),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void done(async () => {
      const asked = { name: name.input.value, address: address.input.value, events: events.chosen() };
      await once("Its secret", (await call("POST", "/api/hooks", asked)).secret);
    });
  });
  return [
    el("h2", { text: "Addresses that get messages" }),
    el("ul", { class: "programs-list" }, ...told.hooks.map(hookRow)),
    el("details", {}, el("summary", { text: "New address" }), form),
  ];
}

/** @param {any} one */
function hookRow(one) {
  const list = el("ul", { class: "programs-list" });
  const show = async () => {
    const { messages } = await call("GET", `/api/hooks/${one.id}/messages`);
    list.replaceChildren(...messages.map((/** @type {any} */ each) => messageRow(one, each, show)));
    if (!messages.length) list.append(el("li", { text: "Nothing yet." }));
  };
  const shown = el("details", {}, el("summary", { text: "What was told" }), list);
  shown.addEventListener("toggle", () => {
    if (shown.open) show().catch((problem) => tell(messageOf(problem)));
  });
  const rotate = () =>
    done(async () => once("The new secret", (await call("POST", `/api/hooks/${one.id}/secret`, {})).secret));
  const remove = async () => {
    if (await sure(`Delete ${one.name}?`, "What is still to be told to it is deleted too."))
      await done(() => call("DELETE", `/api/hooks/${one.id}`));
  };
  return el(
    "li",
    {},
    el("b", { text: one.name }),
    el("p", { text: one.address }),
    el("p", { class: "quiet", text: one.events.join(", ") }),
    el(
      "div",
      { class: "row" },
      one.rotating
        ? el("button", {
            type: "button",
            text: "Drop the secret before",
            on: { click: () => done(() => call("DELETE", `/api/hooks/${one.id}/secret/before`)) },
          })
        : el("button", { type: "button", text: "New secret", on: { click: rotate } }),
      el("button", { type: "button", "aria-label": `Delete ${one.name}`, text: "Delete", on: { click: remove } }),
    ),
    shown,
  );
}

/** @type {Record<string, string>} */
const STATES = { waiting: "… waiting", delivered: "✓ delivered", given_up: "✗ given up" };

/** @param {any} hook @param {any} one @param {() => Promise<void>} show */
function messageRow(hook, one, show) {
  const again = async () => {
    await call("POST", `/api/hooks/${hook.id}/messages/${one.id}/again`, {}).catch((problem) =>
      tell(messageOf(problem)),
    );
    await show();
  };
  return el(
    "li",
    {},
    el("span", { text: `${STATES[one.state]}: ${one.event}, ${day(one.made, "")}` }),
    el("p", { class: "quiet", text: `${one.tries} tries; ${one.told || "not tried yet"}` }),
    el("button", { type: "button", text: "Tell it again", on: { click: again } }),
  );
}

async function load() {
  try {
    const [mine, others] = await Promise.all([call("GET", "/api/tokens"), call("GET", "/api/hooks")]);
    main.replaceChildren(
      ...tokens(mine),
      ...hooks(others),
      el("p", {}, el("a", { class: "button", href: "/api/docs", text: "Every way in" })),
    );
  } catch (problem) {
    main.replaceChildren(el("p", { role: "alert", text: messageOf(problem) }));
  }
}

listenForKeys([]);
void load();
