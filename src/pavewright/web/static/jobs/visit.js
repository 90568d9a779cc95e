// @ts-check
/** A visit promised to a customer: its day, its time, who goes and a note, kept in the job. */
import { ask, el, tell } from "../lib/dom.js";
import { call, freshId } from "../lib/api.js";
import { between } from "../lib/operations.js";
import { day, messageOf } from "../lib/words.js";
import { withVisit } from "./grouping.js";

const KINDS = { look: "to look at it", measure: "to measure", talk: "to talk it over", later: "to look at it later" };

/** Ask for a visit and keep it. @param {any} job @param {() => any} load draws the list again */
export async function promiseVisit(job, load) {
  const on = el("input", { type: "date", required: true }),
    time = el("input", { type: "time" }),
    kind = el("select", {}, ...Object.entries(KINDS).map(([value, text]) => el("option", { value, text }))),
    by = el("input", { type: "text", maxlength: 60 }),
    note = el("input", { type: "text", maxlength: 200 });
  const field = (/** @type {string} */ name, /** @type {HTMLElement} */ input) =>
    el("label", { class: "field" }, el("span", { class: "name", text: name }), input);
  const way = await ask(
    `Promise a visit: ${job.title}`,
    [
      field("Day", on),
      field("Time, where one was agreed", time),
      field("What for", kind),
      field("Who goes", by),
      field("Note", note),
    ],
    [
      { label: "Keep", value: "keep", main: true },
      { label: "Leave it", value: "" },
    ],
  );
  if (way !== "keep") return;
  if (!on.value) return tell("Say the day of the visit: nothing was kept.");
  try {
    const kept = await call("GET", `/api/jobs/${job.id}`);
    if (!kept.document) throw new Error("This job cannot be read as it was kept: open it first.");
    const given = { kind: kind.value, on: on.value, time: time.value, by: by.value, note: note.value };
    await call("POST", `/api/jobs/${job.id}/operations`, {
      key: freshId(),
      rev: kept.rev,
      operations: between(kept.document, withVisit(kept.document, given)),
      note: "visit promised",
    });
    tell(`Visit kept for ${day(on.value)}.`);
  } catch (problem) {
    tell(messageOf(problem));
  }
  load();
}
