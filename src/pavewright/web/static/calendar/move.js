// @ts-check
/** A stretch: where it stands, moved to another day with what breaks and what it costs, pinned. */
import { ask, el, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf, money } from "../lib/words.js";
import { said, workingDay } from "./days.js";
import { changed, entry, jobOf, personName, state } from "./state.js";

/** What a move costs against how it stands, as far as it is known. @param {any} before @param {any} after */
export function costWords(before, after) {
  if (!before || !after) return [];
  /** @type {[string, string][]} */ const parts = [
    ["late_days", "days late"],
    ["idle_days", "idle days of people"],
    ["hires_unpriced", "hires without a price"],
    ["travel_min", "minutes on the way, where entered"],
    ["place_changes", "changes of place from one day to the next"],
  ];
  const found = parts.flatMap(([name, words]) =>
    after[name] === before[name] ? [] : [`${words}: ${before[name]} → ${after[name]}`],
  );
  if (after.rain_days !== before.rain_days)
    found.push(`days that rain is likely to take: ${before.rain_days.toFixed(1)} → ${after.rain_days.toFixed(1)}`);
  const sum = (/** @type {any} */ cost, /** @type {string} */ currency) =>
    (cost.sums ?? []).find((/** @type {any} */ each) => each.currency === currency)?.known_minor ?? 0;
  const currencies = [...(before.sums ?? []), ...(after.sums ?? [])].map((each) => each.currency);
  for (const currency of [...new Set(currencies)].sort()) {
    const known = sum(after, currency) - sum(before, currency);
    const amount = currency ? money(Math.abs(known), currency) : `${Math.abs(known)} minor units, currency not known`;
    if (known) found.push(`hire and idle hands, as far as priced: ${known > 0 ? "+" : "−"}${amount}`);
  }
  if (!found.length) found.push("It costs nothing more that is known.");
  if (after.idle_unpriced) found.push(`${after.idle_unpriced} idle days have no price: they are not in it.`);
  const ways = after.travel_unknown?.length;
  if (ways) found.push(`The way to ${ways} ${ways === 1 ? "job" : "jobs"} is not entered: it is not counted.`);
  const places = after.place_unknown?.length;
  const dry = after.weather_unknown?.length;
  if (dry) found.push(`The weather of ${dry} ${dry === 1 ? "job" : "jobs"} is not known: rain is not counted there.`);
  if (places) found.push(`The place of ${places} ${places === 1 ? "job is" : "jobs are"} not known.`);
  return found;
}

/** As many as fit a screen; how many more there are is said. */
const SHOWN = 6;

/** The same thing on several days is said once, with how many days more. @param {any[]} broken */
function grouped(broken) {
  /** @type {Map<string, {one: any, days: number, others: string}>} */ const found = new Map();
  for (const one of broken) {
    const key = [one.kind, one.job, one.stretch, one.person, one.machine, one.skill, one.other_job].join(" ");
    const known = found.get(key);
    if (!known) found.set(key, { one, days: 0, others: "" });
    else {
      known.days += 1;
      known.others = ` And ${known.days} more ${known.days === 1 ? "day" : "days"}.`;
    }
  }
  return [...found.values()];
}

/** @param {any[]} broken @param {string} title */
export function breakList(broken, title) {
  if (!broken.length) return null;
  const alike = grouped(broken),
    shown = alike.slice(0, SHOWN),
    more = alike.length - shown.length;
  return el(
    "div",
    {},
    el("h3", { text: title }),
    el(
      "ul",
      { class: "crew-list" },
      ...shown.map((each) =>
        el(
          "li",
          { class: `finding ${each.one.soft ? "check" : "stop"}` },
          el("span", { class: "word", text: each.one.soft ? "▲ LOOK " : "■ BREAKS " }),
          `${jobOf(each.one.job).title}, part ${each.one.stretch + 1}: ${each.one.words}${each.others}`,
        ),
      ),
    ),
    more ? el("p", { text: `and ${more} more` }) : null,
  );
}

/** What a move does: what goes along, what breaks, what holds again, what it costs. @param {any} told */
export function consequences(told) {
  const words = [told.shift_words, told.sent_words].filter(Boolean);
  return [
    ...words.map((text) => el("p", { class: "crew-says", text })),
    breakList(told.broken, "This breaks") ?? el("p", { text: "✓ Nothing breaks." }),
    ...[breakList(told.mended, "This holds again")].filter((one) => one !== null),
    el("ul", {}, ...costWords(told.before, told.after).map((text) => el("li", { text }))),
  ];
}

/**
 * Show what a move breaks and costs, and keep it where that is said.
 * @param {string} job @param {number} stretch @param {string} to
 * @param {{comes?: string[]}} [people] who is sent instead of everybody who is
 */
export async function moveTo(job, stretch, to, people = {}) {
  const asked = { rev: state.told.rev, job, stretch, to, ...people };
  let told;
  try {
    told = await call("POST", "/api/calendar/move", asked);
  } catch (problem) {
    tell(messageOf(problem));
    return;
  }
  if (!told.shifts.length && !told.sent_days) return tell("It stands there already.");
  const way = await ask(`Move ${jobOf(job).title}?`, consequences(told), [
    { label: "Move", value: "move", main: true },
    { label: "Put back", value: "" },
  ]);
  if (way !== "move") return;
  const before = state.told.document;
  try {
    await call("POST", "/api/calendar/move", { ...asked, keep: true });
    state.undo.push(before);
  } catch (problem) {
    tell(messageOf(problem));
  }
  await state.load();
}

/** @param {any} booking */
export async function openStretch(booking) {
  const job = jobOf(booking.job),
    first = booking.days[0].on,
    length = booking.days.length;
  const day = el("input", { type: "date", value: first, "aria-label": "First day" });
  const crew = [...new Set(booking.days.flatMap((/** @type {any} */ each) => each.crew ?? []))];
  const facts = [
    el("p", { text: `${job.address || "No address"}` }),
    el("p", { text: `Part ${booking.stretch + 1}: ${length} ${length === 1 ? "day" : "days"} from ${said(first)}` }),
    // whoever may send people sees them as ticks below
    state.told.may_change ? null : el("p", { text: crew.map(personName).join(", ") || "Nobody is sent." }),
    job.weather_known ? null : el("p", { class: "quiet", text: "No weather is known for this job." }),
    el("p", {}, el("a", { class: "button", href: `/jobs/${booking.job}#programme`, text: "Open the job" })),
  ].filter((one) => one !== null);
  if (!state.told.may_change) {
    await ask(job.title, facts, [{ label: "Close", value: "" }]);
    return;
  }
  const people = state.told.people.map((/** @type {any} */ one) =>
    el("input", { type: "checkbox", value: one.id, checked: crew.includes(one.id) }),
  );
  const hands = (job.stretches[booking.stretch] ?? []).map((/** @type {any} */ each) => each.hands);
  const [few, many] = [Math.min(...hands), Math.max(...hands)];
  const takes = hands.length ? `: it takes ${few === many ? few : `${few} to ${many}`} a day` : "";
  const sent = el("fieldset", { class: "crew-weekdays" }, el("legend", { text: `Who goes${takes}` }));
  for (const box of people) sent.append(el("label", {}, box, personName(box.value)));
  const way = await ask(
    job.title,
    [...facts, el("label", { class: "field" }, el("span", { class: "name", text: "First day" }), day), sent],
    [
      { label: "Close", value: "" },
      { label: booking.pinned ? "Unpin" : "Pin it here", value: "pin" },
      { label: "A day earlier", value: "-1" },
      { label: "A day later", value: "1" },
      { label: "A week later", value: "7" },
      { label: "Send these people", value: "people" },
      { label: "To that day", value: "day", main: true },
    ],
  );
  if (way === "pin") await pin(booking);
  else if (way === "day") await moveTo(booking.job, booking.stretch, day.value);
  else if (way === "people") {
    const comes = people.flatMap((/** @type {HTMLInputElement} */ box) => (box.checked ? [box.value] : []));
    await moveTo(booking.job, booking.stretch, first, { comes });
  } else if (way) await moveTo(booking.job, booking.stretch, workingDay(first, Number(way)));
}

/** @param {any} booking */
const pin = (booking) =>
  changed(
    (document) => {
      const found = document.bookings.find(
        (/** @type {any} */ each) => each.job === booking.job && each.stretch === booking.stretch,
      );
      found.pinned = !booking.pinned;
    },
    booking.pinned ? "unpinned" : "pinned",
  );

/** What is said of the dates of a job. @param {string} id */
export async function openJob(id) {
  const own = (state.told.document.jobs ?? []).find((/** @type {any} */ each) => each.job === id) ?? {};
  const field = (/** @type {string} */ name, /** @type {string} */ words) =>
    el(
      "label",
      { class: "field" },
      el("span", { class: "name", text: words }),
      el("input", { type: "date", name, value: own[name] ?? "" }),
    );
  const fields = [field("earliest", "Not before"), field("promised", "Promised by")];
  const way_min = el("input", { type: "number", min: 0, max: 600, inputmode: "numeric", value: own.travel_min ?? "" });
  const pencil = el("input", { type: "checkbox", checked: own.pencilled === true });
  const body = [
    ...fields,
    el(
      "label",
      { class: "field" },
      el("span", { class: "name", text: "Way there, minutes (empty where not known)" }),
      way_min,
    ),
    el(
      "label",
      { class: "field tick" },
      pencil,
      el("span", { class: "name", text: "Pencil it in before it is accepted" }),
    ),
  ];
  const way = await ask(jobOf(id).title, body, [
    { label: "Close", value: "" },
    { label: "Keep", value: "keep", main: true },
  ]);
  if (way !== "keep") return;
  await changed((document) => {
    const found = entry(document, "jobs", "job", id);
    for (const each of fields) {
      const input = /** @type {HTMLInputElement} */ (each.querySelector("input"));
      if (input.value) found[input.name] = input.value;
      else delete found[input.name];
    }
    if (way_min.value === "") delete found.travel_min;
    else found.travel_min = Number(way_min.value);
    found.pencilled = pencil.checked;
  }, "dates of a job");
}
