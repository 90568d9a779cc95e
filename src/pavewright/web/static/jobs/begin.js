// @ts-check
/** Beginning a job: from nothing, like another one, as a copy, from a file; and the welcome of a newcomer. */
import { ask, el, tell } from "../lib/dom.js";
import { call, makeOnce } from "../lib/api.js";
import { day, messageOf } from "../lib/words.js";

const FILE_MAX = 5_000_000;

/** A screen as narrow as a phone: there a new job is walked round, not typed. */
const inTheHand = () => matchMedia("(max-width: 600px), (max-height: 520px) and (pointer: coarse)").matches;

/** @param {Record<string, any>} asked @returns {Promise<string|null>} its name, null where none was made */
export async function begin(asked) {
  try {
    const { id } = await makeOnce("/api/jobs", asked);
    if (!asked.copy_of) location.assign(`/jobs/${id}${asked.title && inTheHand() ? "/walk" : ""}`);
    return id;
  } catch (problem) {
    tell(messageOf(problem));
    return null;
  }
}

/**
 * Ask what a new job is called, and whose prices it takes.
 * @param {{id: string, title: string}[]} others jobs that it may be like
 * @param {string} [like] the one that it is like
 */
export async function fresh(others, like = "") {
  if (!like && inTheHand()) return void (await begin({ title: `New job, ${day(new Date().toISOString())}` }));
  const title = el("input", { type: "text", maxlength: 200, value: "", placeholder: "Patio at 12 Mill Lane" }),
    choice = el(
      "select",
      {},
      el("option", { value: "", text: "nothing: I put them in" }),
      ...others.map((one) => el("option", { value: one.id, selected: one.id === like, text: one.title.slice(0, 60) })),
    );
  title.addEventListener("keydown", (event) => {
    if (event.key === "Enter") /** @type {any} */ (title.closest("dialog"))?.close("make");
  });
  const way = await ask(
    like ? "Like this job, other house" : "New job",
    [
      el("label", { class: "field" }, el("span", { class: "name", text: "What is the job called?" }), title),
      others.length
        ? el("label", { class: "field" }, el("span", { class: "name", text: "Slabs, prices and crew from" }), choice)
        : el("p", { class: "quiet", text: "It begins empty: what you measure goes in." }),
    ],
    [
      { label: "Begin", value: "make", main: true },
      { label: "Not now", value: "" },
    ],
  );
  if (way !== "make") return;
  await begin({ title: title.value.trim() || "New job", ...(choice.value ? { like: choice.value } : {}) });
}

/** Three steps, and where to begin: what somebody sees who has no job of his own yet. @param {() => void} start */
export function welcome(start) {
  return el(
    "section",
    { class: "welcome sheet", "aria-labelledby": "welcome-title" },
    el("h2", { id: "welcome-title", text: "From the first visit to the finished paving" }),
    el(
      "ol",
      { class: "three-steps" },
      el("li", {}, el("b", { text: "Measure. " }), "Walk round the house with phone, tape and staff."),
      el(
        "li",
        {},
        el("b", { text: "Plan. " }),
        "Choose slabs and where water goes; levels, cuts, dig and price follow.",
      ),
      el(
        "li",
        {},
        el("b", { text: "Lay and check. " }),
        "Work from the papers, then read the staff over what is laid.",
      ),
    ),
    el(
      "div",
      { class: "begin" },
      el("button", { type: "button", class: "main", text: "Begin a job of your own", on: { click: start } }),
      el("button", {
        type: "button",
        text: "Look at the example",
        on: { click: () => begin({ start_from: "demo" }) },
      }),
    ),
  );
}

/** @param {File|undefined} given */
export async function bringIn(given) {
  if (!given) return;
  if (given.size > FILE_MAX) return tell("This file is longer than any job.");
  const text = await given.text();
  let value;
  try {
    value = JSON.parse(text);
  } catch {
    value = null;
  }
  if (!value || typeof value !== "object" || Array.isArray(value)) {
    await ask(
      "This is not a job document",
      [
        el("p", {
          text: `${given.name} holds no job. Choose a file that was exported from a job; its name ends in .json.`,
        }),
      ],
      [{ label: "Close", value: "", main: true }],
    );
    return;
  }
  try {
    const { faults } = await call("POST", "/api/outcome", text);
    if (faults.length) {
      const way = await ask(
        "This file makes no plan yet",
        [
          el("p", { text: "It can be kept as a draft and fixed. What is wrong with it:" }),
          el("ul", {}, ...faults.slice(0, 15).map((/** @type {any} */ fault) => el("li", { text: fault.message }))),
        ],
        [
          { label: "Keep as a draft", value: "keep" },
          { label: "Leave it", value: "", main: true },
        ],
      );
      if (way !== "keep") return;
    }
    await begin({ document: text });
  } catch (problem) {
    tell(messageOf(problem));
  }
}
