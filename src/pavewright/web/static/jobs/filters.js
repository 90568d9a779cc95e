// @ts-check
/** Which jobs are shown: by state, place, person, money owing, prices that lapse; and views that are kept by name. */
import { ask, el, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";

/** @typedef {Record<string, string>} Filters */

/** What is asked of the server. @param {Filters} filters @param {Record<string, string>} more */
export function query(filters, more) {
  const asked = new URLSearchParams();
  for (const [name, value] of Object.entries({ ...filters, ...more }))
    if (value || name === "words") asked.set(name, value);
  return asked.toString();
}

/**
 * The big buttons of the states, each with how many jobs there are in it.
 * @param {any} told the answer of the server
 * @param {string} chosen
 * @param {(state: string) => void} choose
 */
export function stateButtons(told, chosen, choose) {
  const counts = told.states,
    names = { ...told.order.states, unsaid: "Not worked out" };
  const all = Object.values(counts).reduce((sum, count) => Number(sum) + Number(count), 0);
  const shown = Object.entries(names).filter(([state]) => counts[state] || state === chosen);
  return [["", "All"], ...shown].map(([state, name]) =>
    el("button", {
      type: "button",
      "aria-pressed": String(state === chosen),
      data: { key: `state-${state}` },
      text: `${name} ${state ? (counts[state] ?? 0) : all}`,
      on: { click: () => choose(state) },
    }),
  );
}

/** Ask for the other filters. @param {Filters} filters @param {boolean} money @returns {Promise<Filters|null>} */
export async function askFilters(filters, money) {
  const { places } = await call("GET", "/api/places");
  const place = el(
      "select",
      {},
      el("option", { value: "", text: "every place" }),
      ...places
        .filter((/** @type {any} */ one) => one.place)
        .map((/** @type {any} */ one) =>
          el("option", { value: one.place, selected: one.place === filters.place, text: `${one.place} (${one.jobs})` }),
        ),
    ),
    person = el("input", { type: "text", maxlength: 60, value: filters.person ?? "" }),
    owing = el("input", { type: "checkbox", checked: filters.owing === "1" }),
    lapsing = el("input", { type: "checkbox", checked: filters.lapsing === "1" });
  const way = await ask(
    "Show only",
    [
      el("label", { class: "field" }, el("span", { class: "name", text: "Place" }), place),
      el("label", { class: "field" }, el("span", { class: "name", text: "Person" }), person),
      ...(money ? [el("label", { class: "tick" }, owing, "Money owing")] : []),
      el("label", { class: "tick" }, lapsing, "Price lapses within a week"),
    ],
    [
      { label: "Show", value: "show", main: true },
      { label: "Leave it", value: "" },
    ],
  );
  if (way !== "show") return null;
  return {
    ...filters,
    place: place.value,
    person: person.value.trim(),
    owing: owing.checked ? "1" : "",
    lapsing: lapsing.checked ? "1" : "",
  };
}

/** How many of the other filters are set. @param {Filters} filters */
export const filtered = (filters) => ["place", "person", "owing", "lapsing"].filter((name) => filters[name]).length;

/** Keep the filters under a name. @param {Filters} filters */
export async function keepView(filters) {
  const name = el("input", { type: "text", maxlength: 60 });
  const way = await ask(
    "Keep this view",
    [el("label", { class: "field" }, el("span", { class: "name", text: "Its name" }), name)],
    [
      { label: "Keep", value: "keep", main: true },
      { label: "Leave it", value: "" },
    ],
  );
  if (way !== "keep" || !name.value.trim()) return false;
  const body = Object.fromEntries(Object.entries(filters).filter(([, value]) => value));
  try {
    await call("POST", "/api/views", { ...body, name: name.value.trim() });
    return true;
  } catch (problem) {
    tell(messageOf(problem));
    return false;
  }
}
