// @ts-check
/** Bringing a backup back. */
import { ask, el, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";

const count = (/** @type {number} */ n, /** @type {string} */ word) => `${n} ${word}${n === 1 ? "" : "s"}`;

/** @param {File|undefined} given @param {() => void} done */
export async function restore(given, done) {
  if (!given) return;
  const way = await ask(
    "Bring this backup back?",
    [
      el("p", { text: `${given.name} takes the place of all jobs that are here now.` }),
      el("p", {
        text: "What is here now is kept in a file beside it, and nothing is lost. Let nobody work meanwhile.",
      }),
    ],
    [
      { label: "Leave it", value: "", main: true },
      { label: "Bring it back", value: "restore" },
    ],
  );
  if (way !== "restore") return;
  tell("Bringing it back …");
  try {
    const told = await call("POST", "/api/restore", given);
    await ask(
      "The backup is back",
      [
        el("p", {
          text: `${count(told.jobs, "job")}, ${count(told.revisions, "revision")} and ${count(told.photos, "photo")}.`,
        }),
        el("p", { text: `What was here before is in ${told.aside}, beside the file of the jobs.` }),
      ],
      [{ label: "Close", value: "", main: true }],
    );
    done();
  } catch (problem) {
    tell(messageOf(problem));
  }
}
