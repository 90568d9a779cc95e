// @ts-check
/** A part of a stage that the server answers: asked when it opens, and when the job changes while it is open. */
import { call } from "../../lib/api.js";
import { el } from "../../lib/dom.js";
import { messageOf } from "../../lib/words.js";
import { group } from "../form/form.js";

/**
 * Make such a part. An answer that a later question has overtaken is not shown.
 * @param {JobState} state @param {string} title
 * @param {{address: string, waiting: string, kept: {open: boolean},
 *   shown: (found: any, again: () => Promise<void>) => Node[]}} how
 *   where it is asked; what is said until the first answer; whether it is open, kept between drawings; what is shown
 */
export function askedPart(state, title, { address, waiting, kept, shown }) {
  const box = el("div", { role: "status" }),
    part = group(title, [box], { open: kept.open });
  let asked = 0;
  const ask = async () => {
    const mine = ++asked;
    try {
      const found = await call("POST", address, JSON.stringify(state.doc));
      if (mine === asked) box.replaceChildren(...shown(found, ask));
    } catch (problem) {
      if (mine === asked) box.replaceChildren(el("p", { text: messageOf(problem) }));
    }
  };
  const begin = () => {
    if (!box.childElementCount) box.replaceChildren(el("p", { class: "quiet", text: waiting }));
    ask();
  };
  const follow = () => {
    if (!part.isConnected) state.removeEventListener("document", follow);
    else if (part.open) begin();
  };
  part.addEventListener("toggle", () => {
    if (part.isConnected) kept.open = part.open;
    if (part.open) begin();
  });
  state.addEventListener("document", follow);
  return part;
}
