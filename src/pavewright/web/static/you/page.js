// @ts-check
/** What somebody looks after himself: password, passkeys, codes of a phone, signed-in devices, which firm. */
import { ask, el, find, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { tag } from "../lib/writing.js";
import { makePasskey, withPasskeys } from "../sign-in/passkey.js";
import { helped } from "../sign-in/password-field.js";
import { ROLE_WORDS } from "../people/people-words.js";

const main = find("#main");

/** @param {string} at */
const when = (at) => new Date(at).toLocaleString(tag(), { dateStyle: "medium", timeStyle: "short" });

/** @param {() => Promise<any>} act */
const doing = (act) => async () => {
  try {
    await act();
    await show();
  } catch (problem) {
    tell(messageOf(problem));
  }
};

/** @param {string} text @param {() => Promise<any>} act @param {string} [kind] */
const button = (text, act, kind = "") => el("button", { type: "button", class: kind, text, on: { click: doing(act) } });

/** @param {string} name @param {Record<string, any>} props */
function asked(name, props) {
  const input = el("input", props);
  return { input, field: el("label", { class: "field" }, el("span", { class: "name", text: name }), input) };
}

/** The password that somebody has now; nothing is asked who has none. @param {any} you @param {string} title */
async function proof(you, title) {
  if (!you.has_password) return "";
  const now = asked("Password that you have now", { type: "password", autocomplete: "current-password" });
  const chosen = await ask(
    title,
    [now.field],
    [
      { label: "Go on", value: "go", main: true },
      { label: "Cancel", value: "cancel" },
    ],
  );
  return chosen === "go" ? now.input.value : null;
}

/** @param {any} you */
async function password(you) {
  const now = asked("Password that you have now", { type: "password", autocomplete: "current-password" }),
    next = asked("New password, at least 12 characters", { type: "password", autocomplete: "new-password" });
  const chosen = await ask(
    "Choose a new password",
    [you.has_password ? now.field : el("span"), next.field, helped(next.input, () => you.sign_in)],
    [
      { label: "Keep it", value: "keep", main: true },
      { label: "Cancel", value: "cancel" },
    ],
  );
  if (chosen !== "keep") return;
  await call("POST", "/api/you/password", { now: now.input.value, password: next.input.value });
  tell("Kept. Your other devices are signed out.");
}

async function addPasskey() {
  const name = asked("Name of this passkey", { maxlength: 60, placeholder: "such as crew phone" });
  const chosen = await ask(
    "Add a passkey",
    [name.field],
    [
      { label: "Add", value: "add", main: true },
      { label: "Cancel", value: "cancel" },
    ],
  );
  if (chosen !== "add") return;
  const credential = await makePasskey(await call("POST", "/api/you/passkeys/asked", {}));
  await call("POST", "/api/you/passkeys", { credential, name: name.input.value });
}

/** @param {any} you */
async function codes(you) {
  const now = await proof(you, "Set up codes of your phone");
  if (now === null) return;
  const begun = await call("POST", "/api/you/codes/begun", { now }),
    code = asked("Code that the phone shows", { inputmode: "numeric", autocomplete: "one-time-code" });
  const chosen = await ask(
    "Scan this with the program that makes codes",
    [
      el("img", { src: begun.code, alt: "Code to scan", width: 240, height: 240 }),
      el("p", {}, "Or type it: ", el("b", { text: begun.secret })),
      code.field,
    ],
    [
      { label: "Ask for codes", value: "keep", main: true },
      { label: "Cancel", value: "cancel" },
    ],
  );
  if (chosen !== "keep") return;
  const made = await call("POST", "/api/you/codes", { code: code.input.value });
  await ask(
    "Write these down",
    [
      el("p", { text: "Each signs you in once when the phone is lost. Nobody can show them again." }),
      el("ul", {}, ...made.codes.map((/** @type {string} */ each) => el("li", {}, el("code", { text: each })))),
    ],
    [{ label: "Done", value: "done", main: true }],
  );
}

/** @param {any} you */
async function noCodes(you) {
  const now = await proof(you, "Turn codes off");
  if (now !== null) await call("DELETE", "/api/you/codes", { now });
}

/** @param {any} you */
const firms = (you) =>
  you.firms.length > 1
    ? el(
        "section",
        { class: "sheet" },
        el("h2", { text: "Firms" }),
        ...you.firms.map((/** @type {any} */ each) =>
          el(
            "p",
            { class: "row" },
            el("span", { class: "fill", text: `${each.name || "First firm"} · ${ROLE_WORDS[each.role]}` }),
            each.id === you.firm
              ? el("b", { text: "✓ you work here now" })
              : button("Work here", () => call("POST", "/api/you/firm", { firm: each.id })),
          ),
        ),
      )
    : null;

/** @param {any} you */
const passkeys = (you) =>
  el(
    "section",
    { class: "sheet" },
    el("h2", { text: "Passkeys" }),
    ...you.passkeys.map((/** @type {any} */ each) =>
      el(
        "p",
        { class: "row" },
        el("span", { text: `${each.name} · ${each.used ? `used ${when(each.used)}` : "not used yet"}` }),
        button("Delete", () => call("DELETE", `/api/you/passkeys/${each.id}`)),
      ),
    ),
    withPasskeys()
      ? button("Add a passkey", addPasskey, you.passkeys.length ? "" : "main")
      : el("p", {
          class: "quiet",
          text: "Passkeys need a name and a secure connection: open this machine as localhost, or with a certificate.",
        }),
  );

/** @param {any} you */
const secrets = (you) =>
  el(
    "section",
    { class: "sheet" },
    el("h2", { text: "Password and codes" }),
    el(
      "p",
      { class: "row" },
      button(you.has_password ? "Change the password" : "Set a password", () => password(you)),
    ),
    you.has_codes
      ? el(
          "p",
          { class: "row" },
          el("span", { text: `Codes are asked. ${you.codes_left} on paper are left.` }),
          button("Turn codes off", () => noCodes(you)),
        )
      : el(
          "p",
          { class: "row" },
          button("Set up codes of your phone", () => codes(you)),
        ),
  );

/** @param {any} each */
const deviceWords = (each) =>
  [
    each.this ? `${each.device} (this one)` : each.device,
    `since ${when(each.begun)}`,
    `last seen ${when(each.seen)}`,
  ].join(" · ");

/** @param {any} you */
const devices = (you) =>
  el(
    "section",
    { class: "sheet" },
    el("h2", { text: "Signed-in devices" }),
    ...you.devices.map((/** @type {any} */ each) =>
      el(
        "p",
        { class: "row" },
        el("span", { text: deviceWords(each) }),
        each.this ? null : button("Sign out", () => call("DELETE", `/api/you/devices/${each.id}`)),
      ),
    ),
    you.devices.length > 1 ? button("Sign out all others", () => call("DELETE", "/api/you/devices")) : null,
  );

async function signOut() {
  try {
    await call("POST", "/sign-out", {});
    location.assign("/sign-in");
  } catch (problem) {
    tell(messageOf(problem));
  }
}

async function show() {
  const you = await call("GET", "/api/you");
  if (!you.signed_in) {
    main.replaceChildren(
      el("p", { text: "Nobody signs in here yet." }),
      el("p", {}, el("a", { class: "button main", href: "/people", text: "Enter the first owner" })),
    );
    return;
  }
  const leave = el("button", { type: "button", text: "Sign out", on: { click: signOut } });
  const parts = [
    el("p", { class: "big", text: you.name }),
    el("p", { text: `${ROLE_WORDS[you.role]} · signs in as ${you.sign_in}` }),
    el("p", { class: "row" }, leave),
    firms(you),
    passkeys(you),
    secrets(you),
    devices(you),
  ];
  main.replaceChildren(...parts.filter((part) => part !== null));
}

show().catch((problem) => main.replaceChildren(el("p", { role: "alert", text: messageOf(problem) })));
