// @ts-check
/** The jobs by place, without a map: how many there are in each, what is due there, and the jobs when it is opened. */
import { el, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { counted, messageOf } from "../lib/words.js";
import { line } from "./due.js";
import { byPlace } from "./grouping.js";
import { query } from "./filters.js";

/**
 * @param {HTMLElement} list where they stand
 * @param {(jobs: any[]) => HTMLElement} listOf draws jobs
 */
export async function showPlaces(list, listOf) {
  const [{ places }, told] = await Promise.all([call("GET", "/api/places"), call("GET", "/api/due")]);
  const found = byPlace(places, told.due);
  list.replaceChildren(
    found.length
      ? el("div", { class: "places" }, ...found.map((one) => group(one, listOf)))
      : el("p", { class: "quiet", text: "No job has a place yet: it is taken from the address of a job." }),
  );
}

/** @param {ReturnType<typeof byPlace>[0]} one @param {(jobs: any[]) => HTMLElement} listOf */
function group(one, listOf) {
  const jobs = el("div", {}, el("p", { class: "quiet", text: "asking for them …" }));
  const box = /** @type {HTMLDetailsElement} */ (
    el(
      "details",
      { class: "place sheet" },
      el(
        "summary",
        {},
        el("b", { text: one.name }),
        el("span", { text: ` ${counted(one.jobs, "job", "jobs")}${one.due ? `, ▲ ${one.due} due` : ""}` }),
      ),
      one.dues.length ? el("ul", { class: "dues" }, ...one.dues.map(line)) : "",
      jobs,
    )
  );
  box.addEventListener("toggle", async () => {
    if (!box.open) return;
    try {
      const told = await call("GET", `/api/jobs?${query({}, { words: "" })}&place=${encodeURIComponent(one.place)}`);
      const more = told.total - told.jobs.length;
      jobs.replaceChildren(
        listOf(told.jobs),
        more > 0 ? el("p", { class: "quiet", text: `and ${more} more: find them by Filter, Place.` }) : "",
      );
    } catch (problem) {
      tell(messageOf(problem));
    }
  });
  return box;
}
