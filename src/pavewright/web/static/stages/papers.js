// @ts-check
import { el } from "../lib/dom.js";
import { call, errand } from "../lib/api.js";
import { group } from "../form/form.js";
import { table } from "../form/results.js";
import { moment, plain } from "../lib/words.js";

const NAMES = /** @type {Record<string, string>} */ ({ "job-pack.pdf": "Job pack, for the crew", "customer-pack.pdf": "Customer pack, without cost", "cost-sheet.pdf": "Cost sheet, stays inside", "drawings.dxf": "Drawings for CAD", "quantities.xlsx": "Order list", "set-out-points.csv": "Points to set out", "programme.ics": "Programme for the calendar", "plan.json": "Everything, for machines" });

/** @param {any} state */
export function results(state) {
  const list = el("div"), told = el("p", { class: "quiet", role: "status" });
  const make = el("button", { type: "button", class: "main", text: "Make the papers" }), halt = el("button", { type: "button", text: "Stop", hidden: true });
  make.addEventListener("click", async () => {
    const stop = new AbortController();
    halt.onclick = () => stop.abort();
    make.hidden = true;
    halt.hidden = false;
    try {
      const name = await errand({ verb: "pack", document: JSON.stringify(state.doc) }, (words) => { told.textContent = `${words} …`; }, stop.signal);
      const { files } = await call("GET", `/api/errands/${name}/papers`);
      told.textContent = "Ready.";
      const link = (/** @type {string} */ file, /** @type {string} */ words) => el("a", { class: "button", href: `/api/errands/${name}/papers/${file}`, download: file.endsWith(".svg") ? null : file.split("/").pop(), target: file.endsWith(".svg") ? "_blank" : null, text: words });
      list.replaceChildren(el("div", { class: "row" }, link("all.zip", "All papers in one file")), table([{ head: "Paper" }, { head: "kB", number: true }, { head: "" }], files.map((/** @type {any} */ file) => [NAMES[file.name] ?? file.name, plain(file.bytes / 1000), link(file.name, file.name.endsWith(".svg") ? "Open" : "Get")]), "Papers"));
    } catch (problem) { told.textContent = /** @type {any} */ (problem).name === "AbortError" ? "Stopped." : /** @type {any} */ (problem).message; }
    make.hidden = false;
    halt.hidden = true;
  });
  const stops = state.plan.findings.filter((/** @type {any} */ one) => one.severity === "stop").length;
  return [stops ? el("p", { class: "finding stop", text: `■ ${stops} ${stops === 1 ? "finding says" : "findings say"} stop: the first page says so too.` }) : null,
    el("div", { class: "row" }, make, halt, el("a", { class: "button", href: `/jobs/${state.id}/customer`, text: "Customer view" })), told, list].filter(Boolean);
}

/** @param {any} state */
export function inputs(state) {
  const list = el("div");
  const load = async () => {
    const { revisions } = await call("GET", `/api/jobs/${state.id}/revisions`);
    list.replaceChildren(table([{ head: "No.", number: true }, { head: "When" }, { head: "What was done" }, { head: "" }], revisions.slice(0, 100).map((/** @type {any} */ one) => [String(one.rev), moment(one.at), one.note, one.rev === state.rev ? "now" : el("button", { type: "button", class: "small", text: "Bring back", on: { click: async () => { const old = await call("GET", `/api/jobs/${state.id}/revisions/${one.rev}`); state.put(`revision ${one.rev} brought back`, old.document); } } })]), "Revisions"));
  };
  const box = /** @type {HTMLDetailsElement} */ (group("Revisions of this job", [list]));
  box.addEventListener("toggle", () => { if (box.open) load(); });
  return [box, group("The document", [el("a", { class: "button", href: `/api/jobs/${state.id}/document.json`, text: "Get the job document" })])];
}
