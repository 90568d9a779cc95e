// @ts-check
/** The finished work as files for other programs: a building model, and map features in metres of the site grid. */
import { el, say } from "../../lib/dom.js";
import { call } from "../../lib/api.js";
import { messageOf } from "../../lib/words.js";

/** @type {[string, string, string][]} what is asked, the name of the file, and what stands on the button */
const FILES = [
  ["ifc", "finished-work.ifc", "Building model (IFC)"],
  ["geojson?local=1", "finished-work.geojson", "Map of the site (GeoJSON, local metres)"],
];

/** @param {JobState} state */
export function forPrograms(state) {
  const told = el("p", { class: "quiet", role: "status" });
  const buttons = FILES.map(([asked, name, words]) => {
    const button = el("button", { type: "button", text: words });
    button.addEventListener("click", async () => {
      button.disabled = true;
      say(told, "Working …");
      try {
        keep(await call("POST", `/api/exchange/${asked}`, JSON.stringify(state.doc)), name);
        say(told, "Ready.");
      } catch (problem) {
        say(told, messageOf(problem));
      }
      button.disabled = false;
    });
    return button;
  });
  return [el("h3", { text: "For other programs" }), el("div", { class: "row" }, ...buttons), told];
}

/** @param {any} content text, or what JSON holds @param {string} name */
function keep(content, name) {
  const text = typeof content === "string" ? content : JSON.stringify(content);
  const link = el("a", { href: URL.createObjectURL(new Blob([text])), download: name });
  link.click();
  URL.revokeObjectURL(link.href);
}
