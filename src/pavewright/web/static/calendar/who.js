// @ts-check
/** When people work and are away, their feeds, the machines of the firm, closed days. */
import { ask, el, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { said } from "./days.js";
import { changed, entry, state } from "./state.js";

const WEEK = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
const SKILLS = ["layer", "groundworker", "labourer", "driver", "drainage", "any"];
const MACHINES = ["excavator", "dumper", "plate", "mixer", "saw", "splitter", "breaker", "laser"];

/** @param {string} words @param {Record<string, any>} props */
const field = (words, props) =>
  el("label", { class: "field" }, el("span", { class: "name", text: words }), el("input", props));

/** @param {string[]} words @param {(word: string, number: number) => boolean} on @param {string} legend */
function ticks(words, on, legend) {
  const boxes = words.map((word, number) => el("input", { type: "checkbox", value: word, checked: on(word, number) }));
  const set = el("fieldset", { class: "crew-weekdays" }, el("legend", { text: legend }));
  boxes.forEach((box, number) => set.append(el("label", {}, box, words[number])));
  return { set, boxes };
}

/** @param {any} person */
export async function openPerson(person) {
  const own = (state.told.document.people ?? []).find((/** @type {any} */ each) => each.id === person.id) ?? {};
  const days = ticks(WEEK, (_, number) => (own.weekdays ?? [0, 1, 2, 3, 4]).includes(number), "Works on");
  const skills = ticks(SKILLS, (word) => (own.skills ?? []).includes(word), "Can also do");
  const first = field("Away from", { type: "date" }),
    last = field("Until", { type: "date" });
  const away = el(
    "ul",
    { class: "crew-list" },
    ...(own.away ?? []).map((/** @type {any} */ each, /** @type {number} */ number) =>
      el(
        "li",
        {},
        el(
          "label",
          { class: "row" },
          el("input", { type: "checkbox", checked: true, value: String(number) }),
          `${said(each.first)} – ${said(each.last)}`,
        ),
      ),
    ),
  );
  const way = await ask(
    person.name,
    [days.set, skills.set, el("h3", { text: "Away" }), away, first, last],
    [
      { label: "Close", value: "" },
      { label: "Feed for a phone", value: "feed" },
      { label: "Keep", value: "keep", main: true },
    ],
  );
  if (way === "feed") return openFeeds(person);
  if (way !== "keep") return;
  const value = (/** @type {HTMLElement} */ label) =>
    /** @type {HTMLInputElement} */ (label.querySelector("input")).value;
  const kept = [...away.querySelectorAll("input")].flatMap((box, number) => (box.checked ? [own.away[number]] : []));
  if (value(first)) kept.push({ first: value(first), last: value(last) || value(first) });
  await changed((document) => {
    const found = entry(document, "people", "id", person.id);
    found.weekdays = days.boxes.flatMap((box, number) => (box.checked ? [number] : []));
    found.skills = skills.boxes.flatMap((box) => (box.checked ? [box.value] : []));
    found.away = kept;
  }, "days of a person");
}

/** @param {any} person */
async function openFeeds(person) {
  try {
    const { feeds } = await call("GET", "/api/calendar/feeds");
    const own = feeds.filter((/** @type {any} */ each) => each.person === person.id);
    const way = await ask(
      `Feeds of ${person.name}`,
      [
        el("p", {
          text: "A feed shows where, when and what on the calendar of a phone. Whoever has its address reads it.",
        }),
        el("p", { text: own.length ? `${own.length} made.` : "None is made." }),
      ],
      [
        { label: "Close", value: "" },
        ...(own.length ? [{ label: "Withdraw all", value: "withdraw" }] : []),
        { label: "Make one", value: "make", main: true },
      ],
    );
    if (way === "withdraw") for (const each of own) await call("DELETE", `/api/calendar/feeds/${each.id}`);
    if (way !== "make") return;
    const made = await call("POST", "/api/calendar/feeds", { person: person.id });
    const address = el("p", { class: "crew-address", text: location.origin + made.path });
    await ask("Its address, shown once", [address], [{ label: "Done", value: "", main: true }]);
  } catch (problem) {
    tell(messageOf(problem));
  }
}

export async function openFirm() {
  const document = state.told.document;
  const counts = MACHINES.map((kind) => {
    const own = (document.plant ?? []).find((/** @type {any} */ each) => each.kind === kind);
    return field(kind, { type: "number", min: 0, max: 100, inputmode: "numeric", value: own?.count ?? "" });
  });
  const closed = el("textarea", { rows: 4, "aria-label": "Closed days", value: (document.closed ?? []).join("\n") });
  const body = [
    el("p", { class: "quiet", text: "How many the firm has; empty where it does not matter." }),
    ...counts,
    el("label", { class: "field" }, el("span", { class: "name", text: "Closed days, one a line: 2027-12-25" }), closed),
  ];
  const way = await ask("Machines and closed days", body, [
    { label: "Close", value: "" },
    { label: "Keep", value: "keep", main: true },
  ]);
  if (way !== "keep") return;
  await changed((changing) => {
    changing.plant = MACHINES.flatMap((kind, number) => {
      const typed = /** @type {HTMLInputElement} */ (counts[number].querySelector("input")).value;
      return typed === "" ? [] : [{ kind, count: Number(typed) }];
    });
    changing.closed = closed.value.split(/\s+/).filter(Boolean);
  }, "machines and closed days");
}
