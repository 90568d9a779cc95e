// @ts-check
/** Revisions of a job: what differs from now, and bringing one back. */
import { ask, el } from "../../lib/dom.js";
import { call } from "../../lib/api.js";
import { differences, differenceTable, outcomeOf, sideBySide } from "../differences.js";
import { group } from "../form/form.js";
import { table } from "../../lib/results.js";
import { moment, messageOf } from "../../lib/words.js";

/** @typedef {{rev: number, at: string, note: string, who: string}} Revision */

/** @param {JobState} state @param {any} one */
async function compare(state, one) {
  const body = el("div", { role: "status" }, el("p", { class: "quiet", text: "working it out …" }));
  const old = (await call("GET", `/api/jobs/${state.id}/revisions/${one.rev}`)).document,
    now = structuredClone(state.doc);
  if (!old) throw new Error(`Revision ${one.rev} cannot be read.`);
  const found = differences(old, now);
  Promise.all([outcomeOf(old), outcomeOf(now ?? {})]).then(
    ([then, told]) =>
      body.replaceChildren(
        el("h3", { text: "Price and quantities" }),
        sideBySide([
          { name: `Revision ${one.rev}`, told: then },
          { name: "Now", told },
        ]),
      ),
    (problem) => body.replaceChildren(el("p", { text: problem.message })),
  );
  const drawn = el("div", { class: "drawing", "aria-label": `Drawing of what changed since revision ${one.rev}` });
  changesInto(drawn, old, now);
  const way = await ask(
    `Revision ${one.rev} and now`,
    [
      el("p", { text: one.note }),
      found.length ? differenceTable(found, ["Then", "Now"]) : el("p", { text: "Nothing differs." }),
      body,
      drawn,
    ],
    [
      { label: "Close", value: "", main: true },
      { label: `Bring back revision ${one.rev}`, value: "back" },
    ],
  );
  if (way === "back") state.put(`revision ${one.rev} brought back`, old);
}

/**
 * A numbered cloud round every change, on the plan as it is now.
 * @param {HTMLElement} box @param {any} before @param {any} after
 */
async function changesInto(box, before, after) {
  try {
    const text = await call("POST", "/api/changes", JSON.stringify({ before, after }));
    if (!text) return;
    const image = /** @type {HTMLImageElement} */ (document.createElement("img"));
    image.src = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
    image.alt = box.getAttribute("aria-label") ?? "";
    image.className = "paper";
    box.replaceChildren(image);
  } catch (problem) {
    box.replaceChildren(el("p", { text: messageOf(problem) }));
  }
}

/** The revisions of a job, asked for when they are opened. @param {JobState} state */
export function revisions(state) {
  const list = el("div");
  const load = async () => {
    try {
      const { revisions } = await call("GET", `/api/jobs/${state.id}/revisions`);
      list.replaceChildren(
        table(
          [{ head: "No.", number: true }, { head: "When" }, { head: "What was done" }, { head: "Who" }, { head: "" }],
          revisions.slice(0, 100).map((/** @type {Revision} */ one) => [
            String(one.rev),
            moment(one.at),
            one.note,
            one.who,
            one.rev === state.rev && state.doc
              ? "now"
              : el("button", {
                  type: "button",
                  class: "small",
                  text: "Compare",
                  "aria-label": `Compare revision ${one.rev} with now`,
                  on: {
                    click: () =>
                      compare(state, one).catch((problem) =>
                        list.prepend(el("p", { role: "alert", text: problem.message })),
                      ),
                  },
                }),
          ]),
          "Revisions",
        ),
      );
    } catch (problem) {
      list.replaceChildren(el("p", { role: "alert", text: messageOf(problem) }));
    }
  };
  const box = /** @type {HTMLDetailsElement} */ (group("Revisions of this job", [list]));
  box.addEventListener("toggle", () => {
    if (box.open) load();
  });
  return box;
}
