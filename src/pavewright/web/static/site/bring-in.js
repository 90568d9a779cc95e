// @ts-check
/** Saving readings as a file, and bringing such a file in: each reading counts once, however often it is brought in. */
import { messageOf } from "../lib/words.js";
import { el, tell } from "../lib/dom.js";
import { delivery } from "./reading.js";

/** @typedef {{id: string, state: "kept"|"repeated"|"refused", message: string}} Result of one delivery */

export const FORMAT = "pavewright.deliveries";

/** @param {string} job @param {import("./reading.js").Waiting[]} list */
export function fileOf(job, list) {
  const ready = list.filter((one) => one.state !== "held" && one.kind !== "photo").map(delivery);
  return JSON.stringify({ format: FORMAT, version: 1, job, deliveries: ready }, null, 1);
}

/** Hand a file to the user. @param {string} name @param {string} text */
export function save(name, text) {
  const link = el("a", { href: URL.createObjectURL(new Blob([text], { type: "application/json" })), download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

/** What the last file did; it stays while the panel is drawn anew. @type {string[]} */
let lastly = [];

/**
 * A button that brings a file of readings into a job.
 * @param {string} job @param {(told: {kept: number, repeated: number, refused: number}) => void} done
 */
export function bringIn(job, done) {
  const out = el("div", { role: "status" });
  const say = (/** @type {string[]} */ words) => {
    lastly = words;
    out.replaceChildren(...words.map((one) => el("p", { text: one })));
  };
  say(lastly);
  const input = el("input", { type: "file", accept: "application/json,.json", class: "unseen", id: "bring-in-file" });
  input.addEventListener("change", async () => {
    const file = input.files?.[0];
    if (!file) return;
    try {
      const told = await bring(job, await file.text());
      say([words(told), ...told.messages]);
      done(told);
    } catch (problem) {
      say([messageOf(problem)]);
      tell(messageOf(problem));
    }
    input.value = "";
  });
  return el(
    "div",
    { class: "bring-in" },
    el("label", { class: "button", for: "bring-in-file", text: "Bring in a file of readings" }),
    input,
    out,
  );
}

/** @param {{kept: number, repeated: number, refused: number}} told */
const words = (told) =>
  `${told.kept} brought in${told.repeated ? `, ${told.repeated} were there already` : ""}` +
  (told.refused ? `, ${told.refused} refused:` : ".");

/**
 * @param {string} job
 * @param {string} text
 * @returns {Promise<{kept: number, repeated: number, refused: number, messages: string[]}>}
 */
async function bring(job, text) {
  let file;
  try {
    file = JSON.parse(text);
  } catch {
    throw new Error("That is not a file of readings: choose the one that was saved on site.");
  }
  if (file?.format !== FORMAT || !Array.isArray(file.deliveries))
    throw new Error("That is not a file of readings: choose the one that was saved on site.");
  let answer, told;
  try {
    answer = await fetch(`/api/jobs/${job}/deliveries`, {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ job: file.job, deliveries: file.deliveries }),
    });
    told = await answer.json();
  } catch {
    throw new Error("The server does not answer. Bring the file in again when it does: nothing is doubled.");
  }
  if (!answer.ok) throw new Error(told.message);
  const count = (/** @type {string} */ state) =>
    told.results.filter((/** @type {Result} */ one) => one.state === state).length;
  return {
    kept: count("kept"),
    repeated: count("repeated"),
    refused: count("refused"),
    messages: told.results
      .filter((/** @type {Result} */ one) => one.state === "refused")
      .map((/** @type {Result} */ one) => one.message),
  };
}
