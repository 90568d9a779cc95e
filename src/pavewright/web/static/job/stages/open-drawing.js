// @ts-check
/** A drawing of the job in a tab of its own, sized in millimetres of paper. */
import { call } from "../../lib/api.js";
import { el, say } from "../../lib/dom.js";
import { messageOf } from "../../lib/words.js";

/**
 * @param {{doc: any}} state @param {string} key @param {string} words
 * @param {HTMLElement} told where it is said that there is none, or where it can be got instead
 */
export async function openDrawing(state, key, words, told) {
  told.textContent = "";
  const tab = window.open("", "_blank");
  try {
    const drawn = await call("POST", `/api/drawings/${key}`, JSON.stringify(state.doc));
    if (!drawn) {
      tab?.close();
      say(told, `This job has no drawing “${words}”.`);
      return;
    }
    const address = URL.createObjectURL(new Blob([drawn], { type: "image/svg+xml" }));
    if (tab) tab.location.href = address;
    else
      told.replaceChildren(el("a", { class: "button", href: address, download: `${key}.svg`, text: `Get ${words}` }));
  } catch (problem) {
    tab?.close();
    say(told, messageOf(problem));
  }
}
