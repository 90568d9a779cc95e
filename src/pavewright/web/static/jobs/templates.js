// @ts-check
/** Templates: jobs to begin from, with units, prices, crew and terms of the firm and nothing of a house. */
import { ask, el, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { day, messageOf } from "../lib/words.js";

/** @param {any} job */
export async function keepTemplate(job) {
  const name = el("input", { type: "text", maxlength: 60, value: job.title.slice(0, 60) });
  const way = await ask(
    "Keep as a template",
    [
      el("p", { text: "Slabs, prices, crew and terms go along. Nothing of the house does." }),
      el("label", { class: "field" }, el("span", { class: "name", text: "Its name" }), name),
    ],
    [
      { label: "Keep", value: "keep", main: true },
      { label: "Leave it", value: "" },
    ],
  );
  if (way !== "keep" || !name.value.trim()) return;
  try {
    await call("POST", "/api/templates", { job: job.id, name: name.value.trim() });
    tell("Kept. It stands under Show: Templates.");
  } catch (problem) {
    tell(messageOf(problem));
  }
}

/** Show the templates. @param {HTMLElement} place @param {(asked: Record<string, any>) => any} begin */
export async function showTemplates(place, begin) {
  const { templates } = await call("GET", "/api/templates");
  const drawn = () => showTemplates(place, begin);
  place.replaceChildren(
    templates.length
      ? el("ul", { class: "device-list" }, ...templates.map((/** @type {any} */ one) => line(one, begin, drawn)))
      : el("p", { class: "quiet", text: "No templates yet. A job becomes one by its button Template." }),
  );
}

/** @param {any} one @param {(asked: Record<string, any>) => any} begin @param {() => void} drawn */
function line(one, begin, drawn) {
  const remove = async () => {
    const way = await ask(
      `Delete the template ${one.name}?`,
      [el("p", { text: "Jobs that began from it stay as they are." })],
      [
        { label: "Keep it", value: "", main: true },
        { label: "Delete", value: "delete" },
      ],
    );
    if (way !== "delete") return;
    await call("DELETE", `/api/templates/${one.id}`).catch((problem) => tell(messageOf(problem)));
    drawn();
  };
  return el(
    "li",
    { class: "sheet row" },
    el(
      "span",
      { class: "grow" },
      el("b", { text: one.name }),
      el("span", { class: "quiet", text: ` kept ${day(one.made)}` }),
    ),
    el("button", {
      type: "button",
      class: "main",
      text: "Begin a job",
      "aria-label": `Begin a job from ${one.name}`,
      on: { click: () => begin({ template: one.id, title: one.name }) },
    }),
    el("button", {
      type: "button",
      text: "Delete",
      "aria-label": `Delete the template ${one.name}`,
      on: { click: remove },
    }),
  );
}
