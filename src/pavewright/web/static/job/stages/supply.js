// @ts-check
/** What has to be ordered by when and comes on which day: materials, plant on hire, spoil. */
import { el } from "../../lib/dom.js";
import { table } from "../../lib/results.js";
import { day, plain } from "../../lib/words.js";

/** Parts of the stage: nothing where nothing comes. @param {Planned} state */
export function supply(state) {
  const { programme, job } = state.plan,
    hired = programme.hires.filter((one) => one.on);
  return [
    ...(programme.deliveries.length
      ? [
          el("h3", { text: "Orders and deliveries" }),
          table(
            [{ head: "Order by" }, { head: "There on" }, { head: "What" }, { head: "Of whom" }, { head: "Lead time" }],
            programme.deliveries.map((one) => [
              one.begun ? "there" : one.order_by ? day(one.order_by) : "not known",
              day(one.on),
              one.items.map((item) => `${item.ordered_words}: ${item.description}`).join("; "),
              one.supplier || "–",
              leadWords(one),
            ]),
            "Orders and deliveries",
          ),
          el("p", { class: "quiet", text: roomWords(job.arrangements?.drop_space_m2 ?? null, programme.deliveries) }),
        ]
      : []),
    ...(hired.length
      ? [
          el("h3", { text: "Plant on hire" }),
          table(
            [
              { head: "Machine" },
              { head: "Order by" },
              { head: "From" },
              { head: "Call off at the end of" },
              { head: "Paid until" },
              { head: "Needed on" },
            ],
            hired.map((one) => [
              plantName(state, one),
              one.order_by ? day(one.order_by) : "not known",
              one.on ? day(one.on) : "–",
              one.off ? day(one.off) : "–",
              one.paid_until ? day(one.paid_until) : "–",
              `${plain(one.wanted_days)} of ${plain(one.held_days)} days`,
            ]),
            "Plant on hire",
          ),
        ]
      : []),
    ...(programme.loads.length
      ? [
          el("h3", { text: "Spoil" }),
          table(
            [{ head: "Order by" }, { head: "On" }, { head: "What" }],
            programme.loads.map((one) => [one.order_by ? day(one.order_by) : "not known", day(one.on), loadWords(one)]),
            "Days on which spoil leaves",
          ),
        ]
      : []),
  ];
}

/** What happens on a day on which spoil leaves. @param {plan.LoadDay} one */
export const loadWords = (one) => LOAD_WORDS[one.kind](one);

/** @type {Record<plan.LoadDay["kind"], (one: plan.LoadDay) => string>} */
const LOAD_WORDS = {
  skip_comes: (one) => `Skip comes (likely ${one.of} in all)`,
  skip_changed: (one) => `Skip ${one.number} of ${one.of} is full: changed`,
  skip_goes: (one) => `Skip ${one.number} of ${one.of} goes`,
  load_leaves: (one) => `Load ${one.number} of ${one.of} leaves`,
};

/** @param {plan.Delivery} one */
function leadWords(one) {
  if (one.lead_days === null) return "not known: ask";
  const days = `${one.lead_days} working day${one.lead_days === 1 ? "" : "s"}`;
  return one.lead_known ? days : `${days} or more: not every item has one`;
}

/** @param {number|null} room @param {plan.Delivery[]} deliveries */
const roomWords = (room, deliveries) =>
  "Room where lorries set down: " +
  (room === null ? "not known, ask for it (Quantities, what is arranged)" : `${plain(room)} m²`) +
  (deliveries.every((one) => one.kg_known) ? ". " : "; what has no mass is not counted. ") +
  "Order days are counted back from Monday to Friday, days off of the job left out: ask the supplier for his own.";

/** @param {Planned} state @param {plan.Hire} hire */
export function plantName(state, hire) {
  const number = Number(hire.key.slice(hire.key.lastIndexOf(".") + 1)) - 1,
    entry = state.plan.job.rates.plant[number];
  return entry?.name || (entry ? entry.key.replaceAll("_", " ") : hire.key);
}
