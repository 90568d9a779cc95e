// @ts-check
/** Help with a password: a button that shows what is typed, and beside a new one how soon somebody would guess it. */
import { el } from "../lib/dom.js";
import { call } from "../lib/api.js";

const QUIET_MS = 350,
  /** Marks beside the words, so that nothing hangs on a colour. */
  MARKS = /** @type {Record<string, string>} */ ({ weak: "○○○", fair: "●●○", strong: "●●●" });

/**
 * @param {HTMLInputElement} input its `autocomplete` says whether a password is new
 * @param {() => string} signIn the name to sign in by, as far as it is typed
 * @returns {HTMLElement} to stand behind it
 */
export function helped(input, signIn) {
  const show = el("button", { type: "button", text: "Show", "aria-pressed": "false" }),
    said = el("span", { class: "strength", role: "status" }),
    isNew = input.autocomplete === "new-password";
  show.addEventListener("click", () => {
    const shown = input.type === "password";
    input.type = shown ? "text" : "password";
    show.setAttribute("aria-pressed", String(shown));
  });
  if (isNew) tellStrength(input, signIn, said);
  return el("div", { class: "row help-with-password" }, show, isNew ? said : null);
}

/** @param {HTMLInputElement} input @param {() => string} signIn @param {HTMLElement} said */
function tellStrength(input, signIn, said) {
  let waits = 0,
    asked = 0;
  const tell = async () => {
    const number = ++asked,
      password = input.value;
    if (!password) return said.replaceChildren();
    try {
      const told = await call("POST", "/api/password-strength", { password, sign_in: signIn().slice(0, 60) });
      if (number === asked) said.textContent = `${MARKS[told.strength] ?? ""} ${told.said}`;
    } catch {
      said.replaceChildren(); // the server says so anyhow when it is sent
    }
  };
  input.addEventListener("input", () => {
    clearTimeout(waits);
    waits = setTimeout(tell, QUIET_MS);
  });
}
