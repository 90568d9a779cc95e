// @ts-check
/** What came and what left: deliveries by one touch, tickets of waste. */
import { el } from "../../lib/dom.js";
import { day as dayWords } from "../../lib/words.js";
import { picker, set, words } from "../parts.js";
import { today } from "../this-phone.js";
import { dayOf, line, numberIn, write } from "./parts.js";

/** @typedef {import("../parts.js").Here} Here */

const WASTE = /** @type {[doc.WasteKind, string][]} */ ([
  ["soil", "Soil"],
  ["rubble", "Rubble"],
  ["mixed", "Mixed"],
  ["green", "Green"],
  ["other", "Other"],
]);

/** @param {Here} here @returns {Node[]} */
export function came(here) {
  return [
    el("h2", { class: "low", text: "Came" }),
    ...deliveries(here),
    el("h2", { class: "low", text: "Left" }),
    ...waste(here),
  ];
}

/** @param {Here} here */
function deliveries(here) {
  const expected = here.view?.parts?.day?.deliveries ?? [],
    there = new Set((here.doc.site_days ?? []).flatMap((one) => (one.delivered ?? []).map((each) => each.product))),
    left = expected.filter((one) => one.items.some((item) => !there.has(item.product))),
    areas = (here.doc.areas ?? []).map((one) => one.name);
  const mine = dayOf(here)?.delivered ?? [],
    at = Math.min(here.ui.dayCame ?? mine.length - 1, mine.length - 1),
    one = mine[at];
  const change = (/** @type {string} */ note, /** @type {(item: doc.DeliveredBatch) => void} */ act) =>
    write(here, note, (day) => {
      const found = day.delivered?.[at];
      if (found) act(found);
    });
  return [
    ...left.slice(0, 3).map((each) =>
      el("button", {
        type: "button",
        class: "day-came",
        text:
          `It came: ${each.items.map((item) => item.words).join("; ")}` +
          `${each.supplier ? `, from ${each.supplier}` : ""} (planned ${dayWords(each.on)})`,
        on: {
          click: () => {
            here.ui.dayCame = mine.length;
            write(here, `Came: ${each.items.map((item) => item.product).join("; ")}`, (day) => {
              const items = each.items
                .filter((item) => !there.has(item.product))
                .map((item) => ({
                  product: item.product.slice(0, 200),
                  delivered_on: today(),
                  ...(item.unit ? { unit: item.unit } : {}),
                }));
              day.delivered = [...(day.delivered ?? []), ...items];
            });
          },
        },
      }),
    ),
    line("Something else came", "", (product) => {
      if (!product) return;
      here.ui.dayCame = mine.length;
      write(here, `Came: ${product}`, (day) => {
        day.delivered = [...(day.delivered ?? []), { product, delivered_on: today() }];
      });
    }),
    ...(one
      ? [
          mine.length > 1
            ? picker(
                "Labels and tickets of",
                mine.map((_, place) => String(place)),
                String(at),
                (place) => set(here, { dayCame: Number(place) }),
                { spoken: (place) => mine[Number(place)]?.product ?? "" },
              )
            : el("p", { class: "name", text: one.product ?? "" }),
          el(
            "div",
            { class: "side-by-side" },
            line("Batch on the label", one.batch ?? "", (batch) => {
              change(`Batch ${batch}`, (item) => {
                item.batch = batch;
              });
            }),
            line("Ticket", one.ticket ?? "", (ticket) => {
              change(`Ticket ${ticket}`, (item) => {
                item.ticket = ticket;
              });
            }),
          ),
          areas.length > 1
            ? picker(
                "For",
                areas,
                one.area ?? "",
                (area) =>
                  change(`For ${area}`, (item) => {
                    item.area = area;
                  }),
                { none: "nobody noted" },
              )
            : el("span"),
        ]
      : []),
  ];
}

/** @param {Here} here */
function waste(here) {
  const mine = dayOf(here)?.waste ?? [],
    one = mine.at(-1);
  const change = (/** @type {string} */ note, /** @type {(item: doc.WasteTicket) => void} */ act) =>
    write(here, note, (day) => {
      const found = day.waste?.at(-1);
      if (found) act(found);
    });
  const amount = (/** @type {"volume_m3"|"mass_tonnes"} */ field, /** @type {string} */ typed) => {
    const value = numberIn(typed);
    if (typed && (value === null || !(value > 0))) return here.say("Write a number over zero, as on the ticket.");
    change(`Left: ${typed}`, (item) => {
      if (value === null) delete item[field];
      else item[field] = value;
    });
  };
  return [
    words("A load left: what is it?", WASTE, "", (what) =>
      write(here, `A load left: ${what}`, (day) => {
        day.waste = [...(day.waste ?? []), { what: /** @type {doc.WasteKind} */ (what) }];
      }),
    ),
    ...(one
      ? [
          el("p", {
            class: "name",
            text: `Load ${mine.length} of today: ${WASTE.find(([key]) => key === (one.what ?? "soil"))?.[1]}`,
          }),
          el(
            "div",
            { class: "side-by-side" },
            line("Ticket", one.ticket ?? "", (ticket) => {
              change(`Ticket ${ticket}`, (item) => {
                item.ticket = ticket;
              });
            }),
            line("Carrier", one.carrier ?? "", (carrier) => {
              change(`Carrier ${carrier}`, (item) => {
                item.carrier = carrier;
              });
            }),
          ),
          el(
            "div",
            { class: "side-by-side" },
            line("Loose", String(one.volume_m3 ?? ""), (typed) => amount("volume_m3", typed), {
              unit: "m³",
              number: true,
            }),
            line("Weighed", String(one.mass_tonnes ?? ""), (typed) => amount("mass_tonnes", typed), {
              unit: "t",
              number: true,
            }),
          ),
          line("Where it went", one.went_to ?? "", (to) => {
            change(`Went to ${to}`, (item) => {
              item.went_to = to;
            });
          }),
        ]
      : []),
  ];
}
