// @ts-check
/** Signing in and joining with a passkey, and help with a password; without scripts the form beside it does. */
import { find, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { makePasskey, usePasskey, withPasskeys } from "./passkey.js";
import { helped } from "./password-field.js";

const form = /** @type {HTMLFormElement | null} */ (document.querySelector("#form"));

/** @param {string} name */
const typed = (name) => String((form && new FormData(form).get(name)) ?? "");

/** @param {() => Promise<string>} act gives the address to go on to */
const go = (act) => async () => {
  try {
    location.assign(await act());
  } catch (problem) {
    tell(messageOf(problem));
  }
};

const signIn = go(async () => {
  const credential = await usePasskey(await call("POST", "/api/sign-in/passkey/asked", {}));
  return (await call("POST", "/api/sign-in/passkey", { credential, to: typed("to") || "/" })).to;
});

const join = go(async () => {
  const who = { name: typed("name"), sign_in: typed("sign_in") },
    path = `/api${location.pathname}/passkey`;
  const credential = await makePasskey(await call("POST", `${path}/asked`, who));
  return (await call("POST", path, { ...who, credential })).to;
});

const password = /** @type {HTMLInputElement | null} */ (form?.elements.namedItem("password") ?? null);
if (password) password.closest("label")?.after(helped(password, () => typed("sign_in") || typed("known_as")));

if (withPasskeys() && document.querySelector("#by-passkey")) {
  find("#by-passkey").hidden = false;
  document.querySelector("#use-passkey")?.addEventListener("click", signIn);
  document.querySelector("#make-passkey")?.addEventListener("click", join);
}
