// @ts-check
/** Prices, one after another; what is skipped is a named gap of the price, never zero. */
import { el } from "../../lib/dom.js";
import { day, money, moneyPlaces, plain, spoken, toMinor } from "../../lib/words.js";
import { chips, figurePad } from "../figures.js";
import { lastJob } from "../last-job.js";
import { button } from "../parts.js";
import { plannedOnce } from "../planned.js";

/** @typedef {import("../frame.js").Walk} Walk */
/**
 * @typedef {{key: string, name: string, ask: string, unit: string, usual?: [string, number][],
 *   coins?: boolean, known: (doc: any) => any, put: (draft: any, value: number) => void}} Price
 */

export const key = "price",
  name = "Price",
  why = "What is left out is named in the price, never taken for nothing.",
  question = "Which prices hold?",
  /** @type {("none"|"could_not_see")[]} */ answers = [];

/**
 * What the common beds take, and how it is sold; the plan says the rest.
 * @type {Record<string, [string, number, string]>}
 */
const SOLD = {
  sub_base: ["Sub-base, bulk bag of 850 kg", 850, "kg"],
  ballast: ["Ballast, bulk bag of 850 kg", 850, "kg"],
  cement: ["Cement, bag of 25 kg", 25, "kg"],
  sharp_sand: ["Sharp sand, bulk bag of 850 kg", 850, "kg"],
  soft_sand: ["Soft sand, bag of 25 kg", 25, "kg"],
  joint_sand: ["Joint sand, bag of 20 kg", 20, "kg"],
  plasticiser: ["Plasticiser, 5 litres", 5, "litre"],
  geotextile: ["Geotextile, square metre", 1, "m2"],
  capping: ["Capping, tonne", 1000, "kg"],
  open_stone: ["Open stone 4 to 20 mm, tonne", 1000, "kg"],
  grit: ["Clean grit 2 to 6.3 mm, bulk bag of 850 kg", 850, "kg"],
  blinding_sand: ["Blinding sand, bulk bag of 850 kg", 850, "kg"],
  bond_coat: ["Bond coat, bag of 15 kg", 15, "kg"],
  pipe: ["Pipe, metre", 1, "m"],
  channel: ["Channel, metre", 1, "m"],
  edging: ["Edging, metre", 1, "m"],
  kerb: ["Kerb, metre", 1, "m"],
  pipe_gravel: ["Pipe gravel, bulk bag of 850 kg", 850, "kg"],
};
/** How others are sold, by the unit of the plan; by the piece else. @type {Record<string, [string, number, string]>} */
const BY_UNIT = { kg: ["tonne", 1000, "kg"], m: ["metre", 1, "m"], "m²": ["square metre", 1, "m2"] };
/** What is asked where no plan says it yet. @type {Record<string, string[]>} */
const NEEDS = {
  mortar_on_concrete: ["cement", "ballast", "sharp_sand"],
  mortar_on_sub_base: ["sub_base", "cement", "sharp_sand"],
  sand_on_sub_base: ["sub_base", "sharp_sand", "joint_sand"],
};
const given = (/** @type {any} */ value) => value !== undefined && value !== null;
const rates = (/** @type {any} */ draft) => (draft.rates ??= {});

/** @type {Price[]} */
const FIRST = [
  {
    key: "labour",
    name: "One person, an hour",
    ask: "What does one person cost for an hour?",
    unit: "an hour",
    coins: true,
    known: (doc) => doc.rates?.labour_minor_per_hour,
    put: (draft, value) => (rates(draft).labour_minor_per_hour = value),
  },
  {
    key: "people",
    name: "People",
    ask: "How many of you work on it?",
    unit: "people",
    usual: [1, 2, 3, 4].map((each) => [String(each), each]),
    known: (doc) => doc.crew?.people,
    put: (draft, value) => ((draft.crew ??= {}).people = value),
  },
  {
    key: "start",
    name: "Start",
    ask: "In how many weeks may it start?",
    unit: "weeks",
    usual: [2, 4, 6, 8].map((each) => [`${each} weeks`, each]),
    known: (doc) => doc.calendar?.start,
    put: (draft, value) => ((draft.calendar ??= {}).start = mondayIn(value)),
  },
];
/** @type {Price[]} */
const LAST = [
  percent("overhead", "Overhead on the cost?", "overhead_percent", [0, 5, 10, 15]),
  percent("margin", "Margin that the price leaves?", "margin_percent", [10, 15, 20, 25]),
  percent("tax", "Tax on the price?", "tax_percent", [0, 5, 20]),
];

/** What takes the spoil away: a skip, where nobody said otherwise. @param {any} doc @returns {Price} */
function disposal(doc) {
  const { kind = "skip", volume_m3 = 6 } = doc.rates?.disposal ?? {},
    face = `${spoken(kind)} of ${plain(volume_m3, Number.isInteger(volume_m3) ? 0 : 1)} m³`;
  return {
    key: "skip",
    name: `${face}, tipped`,
    ask: `What does a ${face.toLowerCase()} cost, tipped?`,
    unit: "a load",
    coins: true,
    known: (now) => now.rates?.disposal?.load_price_minor,
    put: (draft, value) =>
      (rates(draft).disposal = { kind, volume_m3, ...(draft.rates.disposal ?? {}), load_price_minor: value }),
  };
}

/** @param {string} named @param {string} ask @param {string} field @param {number[]} usual @returns {Price} */
function percent(named, ask, field, usual) {
  return {
    key: named,
    name: named.charAt(0).toUpperCase() + named.slice(1),
    ask,
    unit: "%",
    usual: usual.map((each) => [`${each} %`, each]),
    known: (doc) => doc.rates?.[field],
    put: (draft, value) => (rates(draft)[field] = value),
  };
}

/** @param {any} doc @param {string} kind @param {string} amount @param {string} [unit] @returns {Price} */
function material(doc, kind, amount, unit = "each") {
  const [word, by, measure] = BY_UNIT[unit] ?? ["one", 1, "each"],
    [usual, pack_amount, pack_unit] = SOLD[kind] ?? [`${spoken(kind)}, ${word}`, by, measure],
    own = (doc.rates?.materials ?? []).find((/** @type {any} */ one) => one.key === kind),
    face = own ? own.name || `${spoken(kind)}, ${plain(own.pack_amount)} ${own.pack_unit}` : usual;
  return {
    key: `material ${kind}`,
    name: face,
    ask: `${face}: price before tax?${amount ? ` The job takes ${amount}.` : ""}`,
    unit: "a pack",
    coins: true,
    known: (doc) =>
      (doc.rates?.materials ?? []).find((/** @type {any} */ one) => one.key === kind && given(one.pack_price_minor)),
    put: (draft, value) => {
      const list = (rates(draft).materials ??= []),
        mine = list.find((/** @type {any} */ one) => one.key === kind);
      if (mine) mine.pack_price_minor = value;
      else list.push({ key: kind, name: face, pack_amount, pack_unit, pack_price_minor: value });
    },
  };
}

/** The Monday so many weeks on. @param {number} weeks */
function mondayIn(weeks) {
  const monday = new Date();
  monday.setDate(monday.getDate() + 7 * weeks + ((8 - monday.getDay()) % 7));
  const two = (/** @type {number} */ part) => String(part).padStart(2, "0");
  return `${monday.getFullYear()}-${two(monday.getMonth() + 1)}-${two(monday.getDate())}`;
}

/** Units that are laid and have no price. @param {Walk} here @returns {Price[]} */
const unitPrices = (here) =>
  (here.doc.units ?? [])
    .filter((/** @type {any} */ unit) =>
      (here.doc.areas ?? []).some((/** @type {any} */ area) => area.laying?.unit === unit.name),
    )
    .map((/** @type {any} */ unit) => ({
      key: `unit ${unit.name}`,
      name: `${unit.name}, a pack of ${unit.per_pack}`,
      ask: `${unit.name}: a pack of ${unit.per_pack}, before tax?`,
      unit: "a pack",
      coins: true,
      known: (/** @type {any} */ doc) =>
        doc.units.find((/** @type {any} */ one) => one.name === unit.name)?.pack_price_minor,
      put: (/** @type {any} */ draft, /** @type {number} */ value) => {
        draft.units.find((/** @type {any} */ one) => one.name === unit.name).pack_price_minor = value;
      },
    }));

/** Materials without a price: as the plan says, else what the bed takes. @param {Walk} here */
function materials(here) {
  const planned = /** @type {any} */ (here).planned,
    gaps = (planned?.cost?.gaps ?? [])
      .filter((/** @type {any} */ gap) => gap.reason === "no_price" && gap.item?.startsWith("material."))
      .map((/** @type {any} */ gap) => [gap.item.slice("material.".length), String(gap.words).split(": ").at(-1)]);
  const items = (planned?.quantities?.items ?? []).filter((/** @type {any} */ one) => one.key.startsWith("material.")),
    unitOf = new Map(items.map((/** @type {any} */ one) => [one.key.slice("material.".length), one.unit]));
  const asked = new Map(gaps); // without any price there are no gaps yet, but what the job takes is known
  for (const kind of unitOf.keys()) if (!asked.has(kind)) asked.set(kind, "");
  for (const area of here.doc.areas ?? [])
    for (const kind of NEEDS[area.laying?.bedding] ?? []) if (!asked.has(kind)) asked.set(kind, "");
  return [...asked].map(([kind, amount]) => material(here.doc, kind, amount, unitOf.get(kind)));
}

/** Every price that is asked. @param {Walk} here */
export const all = (here) => [...FIRST, ...unitPrices(here), ...materials(here), disposal(here.doc), ...LAST];

/** @param {Walk} here */
const open = (here) => {
  const skipped = new Set(here.ui.skipped ?? []);
  return all(here).filter((one) => !given(one.known(here.doc)) && !skipped.has(one.key));
};

/** @param {Walk} here */
export const state = (here) => (given(here.doc.rates?.labour_minor_per_hour) ? "done" : "open");

let plannedFor = ""; // what is built, as it was when the plan was asked

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const built = JSON.stringify({ ...here.doc, rates: 0, crew: 0, calendar: 0 });
  if (!(/** @type {any} */ (here).planned) || built !== plannedFor) plannedOnce(here); // what is laid hangs on no price
  plannedFor = built;
  const left = open(here),
    now = left[0];
  if (!now) return summary(here);
  const next = () => {
    here.set({ typed: "" });
    if (!open(here).length) here.next();
  };
  const keep = async (/** @type {number} */ value) => {
    const kept = await here.change(now.ask, (draft) =>
      now.put(draft, now.coins ? toMinor(value, here.doc.identity?.currency ?? "GBP") : value),
    );
    if (kept) next();
  };
  return [
    el("p", { class: "question", text: now.ask }),
    lastButton(here),
    ...(now.usual
      ? [
          chips(
            "Usual",
            now.usual.map(([face, value]) => [face, () => keep(value)]),
          ),
        ]
      : []),
    figurePad(here, {
      label: now.ask,
      keep: "Save",
      unit: now.coins ? `${here.doc.identity?.currency ?? ""} ${now.unit}` : now.unit,
      low: 0,
      high: now.unit === "%" ? 99 : undefined,
      whole: ["people", "start"].includes(now.key),
      places: now.coins ? moneyPlaces(here.doc.identity?.currency ?? "GBP") : 2,
      onKeep: keep,
    }),
    button(`Left out of the price by name${left.length > 1 ? `, ${left.length - 1} more` : ""}`, () => {
      here.set({ skipped: [...(here.ui.skipped ?? []), now.key] });
      next();
    }),
  ];
}

/** @param {Walk} here */
function lastButton(here) {
  const box = el("div");
  if (here.ui.copied) return box;
  lastJob(here).then((last) => {
    if (!last || here.ui.copied) return;
    box.append(
      button(`Take the prices of ${last.title}`, async () => {
        const kept = await here.change(`Prices of ${last.title}`, (draft) => {
          draft.rates = { ...structuredClone(last.rates), ...stated(draft.rates) };
          draft.crew = { ...structuredClone(last.crew), ...stated(draft.crew) };
        });
        if (kept) here.set({ copied: last.title, typed: "" });
      }),
    );
  });
  return box;
}

/** What this job says itself; it goes before what is copied. @param {any} part */
const stated = (part) =>
  Object.fromEntries(
    Object.entries(part ?? {}).filter(([, value]) => given(value) && !(Array.isArray(value) && value.length === 0)),
  );

/** @param {Walk} here */
function summary(here) {
  const { currency = "GBP" } = here.doc.identity ?? {},
    skipped = all(here).filter((one) => !given(one.known(here.doc)));
  const lines = all(here).filter((one) => given(one.known(here.doc)));
  return [
    el("p", { class: "question", text: skipped.length ? `${skipped.length} left out of the price` : "All priced" }),
    here.ui.copied ? el("p", { class: "quiet", text: `Prices taken from ${here.ui.copied}.` }) : el("span"),
    ...skipped.map((one) =>
      button(`${one.name}: not in the price`, () =>
        here.set({ skipped: (here.ui.skipped ?? []).filter((/** @type {string} */ each) => each !== one.key) }),
      ),
    ),
    el(
      "ul",
      { class: "plain-list", tabindex: "0", "aria-label": "Prices" },
      ...lines.map((one) => el("li", { text: `${one.name}: ${value(one, here.doc, currency)}` })),
    ),
  ];
}

/** @param {Price} one @param {any} doc @param {string} currency */
function value(one, doc, currency) {
  const known = one.known(doc),
    figure = typeof known === "object" ? known.pack_price_minor : known;
  if (one.key === "start") return day(figure);
  return one.coins ? money(figure, currency) : `${figure}${one.unit === "%" ? " %" : ""}`;
}
