// @ts-check
/** How far a job is: setting its state by hand, and going back to what follows from the job. */
import { ask, el, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";

/** @param {any} job @param {any} order the words of states @returns {Promise<boolean>} whether it was changed */
export async function setState(job, order) {
  const here = job.standing;
  const state = el(
      "select",
      {},
      el("option", { value: "", text: "what follows from the job", selected: !here?.by_hand }),
      ...Object.entries(order.states).map(([value, text]) =>
        el("option", { value, text, selected: Boolean(here?.by_hand) && here.state === value }),
      ),
    ),
    why = el(
      "select",
      {},
      el("option", { value: "", text: "not said" }),
      ...Object.entries(order.not_taken).map(([value, text]) => el("option", { value, text })),
    ),
    whyField = el("label", { class: "field" }, el("span", { class: "name", text: "Why it is not done" }), why);
  const ends = () => (whyField.hidden = !["lost", "declined"].includes(state.value));
  state.addEventListener("change", ends);
  ends();
  const way = await ask(
    `How far is ${job.title}?`,
    [
      ...(here ? [el("p", { text: `${here.words}. ${here.reason}` })] : []),
      el("label", { class: "field" }, el("span", { class: "name", text: "State" }), state),
      whyField,
    ],
    [
      { label: "Set", value: "set", main: true },
      { label: "Leave it", value: "" },
    ],
  );
  if (way !== "set") return false;
  try {
    await call("POST", `/api/jobs/${job.id}/state`, { state: state.value, why: whyField.hidden ? "" : why.value });
    return true;
  } catch (problem) {
    tell(messageOf(problem));
    return false;
  }
}
