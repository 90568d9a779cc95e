// @ts-check
/** The line under a field: how it is measured with a small picture, else what it means. */
import { el } from "../../lib/dom.js";
import { howOf, howPicture } from "../../lib/how.js";

/** @param {(string|number)[]} path @param {string} hint what the document says of the field */
export function hintLine(path, hint) {
  const how = howOf(path);
  if (!how) return hint ? el("span", { class: "hint", text: hint }) : null;
  const [picture, words] = how;
  return el("span", { class: "hint how" }, howPicture(picture), el("span", { class: "how-words", text: words }));
}
