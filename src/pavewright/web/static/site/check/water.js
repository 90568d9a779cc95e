// @ts-check
/** Water on finished paving: what the readings foretell, where to read next, a hose test, gratings. */
import { el } from "../../lib/dom.js";
import { plain } from "../../lib/words.js";
import { source } from "../sources.js";
import { verdict } from "../../lib/kernel.js";
import { keepChange, touches } from "../changes.js";
import { padFor, picker, set, tabs, undoLine, words } from "../parts.js";
import { areaChosen, freeName, placeOn, tick, today, told, wordBox } from "./shared.js";

/** @typedef {import("../parts.js").Here} Here */

const MARKS = /** @type {Record<string, string>} */ ({ stands: "≈", undecided: "?", clears: "✓", unknown: "–" });

/** @param {Here} here @returns {Node[]} */
export function water(here) {
  const part = /** @type {plan.LaidOnSite|null} */ (here.view?.parts?.laid ?? null),
    panel = { hose, drains }[/** @type {string} */ (here.ui.checkWater)] ?? foretold;
  return [
    tabs(
      "Which",
      [
        ["foretold", "By readings"],
        ["hose", "Hose test"],
        ["drains", "Gratings"],
      ],
      here.ui.checkWater ?? "foretold",
      (checkWater) => set(here, { checkWater, typed: "", checkAt: null }),
    ),
    ...panel(here, part),
  ];
}

/** @param {Here} here @param {plan.LaidOnSite|null} part @returns {Node[]} */
function foretold(here, part) {
  const areas = part?.water?.standing ?? [],
    taken = (here.doc.as_laid?.readings ?? []).filter((one) => typeof one.level_mm === "number").length,
    went = areas.reduce((sum, one) => sum + one.readings, 0);
  if (!areas.length)
    return [
      el("p", {
        text: part?.is_read
          ? "Standing water is being worked out …"
          : "What readings foretell comes once levels as laid are sent. A hose test needs no readings.",
      }),
    ];
  return [
    taken > went || here.queue.unsent
      ? el("p", { role: "status", text: `This goes by ${went} readings. Newer ones count once they are sent.` })
      : el("span"),
    ...areas.flatMap((area) => ofArea(here, area)),
  ];
}

/** @param {Here} here @param {plan.StandingOnSite} area */
const ofArea = (here, area) => [
  el("h2", { text: `${MARKS[area.state]} ${area.area}: ${area.face}` }),
  el("p", { text: area.told }),
  area.ponds.length
    ? el(
        "ul",
        { class: "plain-list" },
        ...area.ponds.map((one) => el("li", { text: `Pond ${one.number}: ${one.told} deep if it stands` })),
      )
    : el("span"),
  area.next_places.length ? el("h3", { text: "Read next" }) : el("span"),
  el(
    "div",
    { class: "words" },
    ...area.next_places.map((one) =>
      el("button", {
        type: "button",
        text: `${one.label}: decides ${one.told}`,
        on: {
          click: () =>
            set(here, {
              checking: "laid",
              place: { label: one.label, area: area.area, at: one.at },
              mapOpen: true,
              typed: "",
            }),
        },
      }),
    ),
  ),
  el(
    "details",
    { class: "group" },
    el("summary", { text: "What it rests on" }),
    el("ul", { class: "inside" }, ...area.cautions.map((text) => el("li", { text }))),
  ),
];

// ---- hose test

/** @param {Here} here @returns {Node[]} */
function hose(here) {
  const { ui, doc } = here,
    areas = (doc.areas ?? []).map((one) => one.name),
    area = areaChosen(here),
    tests = doc.hose_tests ?? [],
    open = tests.find((one) => one.name === ui.checkHose);
  if (!open)
    return [
      areas.length > 1 ? picker("Area", areas, area, (checkArea) => set(here, { checkArea })) : el("span"),
      tick(here, "The whole area was wetted", "checkWet"),
      el("p", { class: "ask", text: "How many minutes after the water was turned off?" }),
      words(
        "Minutes after",
        [
          ["10", "10 min"],
          ["30", "30 min"],
          ["60", "60 min"],
        ],
        ui.checkAfter ?? "30",
        (checkAfter) => set(here, { checkAfter }),
      ),
      wordBox(here, "Seen by", "checkBy"),
      el("button", { type: "button", class: "main pad-keep", text: "Begin", on: { click: () => begin(here, area) } }),
      ...tests.slice(-5).map((one) =>
        el("button", {
          type: "button",
          class: "tall",
          text: `${one.name}, ${one.area}, ${one.date}: ${one.marks?.length ?? 0} places`,
          on: { click: () => set(here, { checkHose: one.name }) },
        }),
      ),
      undoLine(here, (one) => touches(one, "hose_tests")),
    ];
  const marks = open.marks ?? [],
    wet = marks.filter((one) => one.depth_mm > 0).length;
  return [
    el(
      "p",
      { class: "glance", role: "status" },
      el("b", { text: `${open.name}: ${marks.length} places` }),
      `; ${wet} wet`,
    ),
    placeOn(here, marks),
    padFor(
      here,
      "Depth of the water by a rule, 0 where it is dry",
      here.ui.checkAt ? "Save it" : "Tap the place first",
      (value) => mark(here, open.name, Math.abs(Math.round(value * 10) / 10)),
      Boolean(here.ui.checkAt),
    ),
    undoLine(here, (one) => touches(one, "hose_tests")),
    el(
      "div",
      { class: "words pair" },
      el("button", {
        type: "button",
        text: open.all_seen ? "✓ Looked at all of it" : "I looked at all of it",
        "aria-pressed": String(Boolean(open.all_seen)),
        on: { click: () => changed(here, open.name, { all_seen: !open.all_seen }, "looked at all of it") },
      }),
      el("button", { type: "button", text: "Done", on: { click: () => set(here, { checkHose: "", checkAt: null }) } }),
    ),
  ];
}

/** @param {Here} here @param {string} area */
async function begin(here, area) {
  const had = here.doc.hose_tests ?? [],
    name = freeName("H", had),
    entry = {
      name,
      area,
      date: today(),
      seen_by: (here.ui.checkBy ?? "").trim(),
      after_min: Number(here.ui.checkAfter ?? "30"),
      all_wet: Boolean(here.ui.checkWet),
      marks: [],
    };
  const kept = await keepChange(
    here,
    (draft) => {
      draft.hose_tests = [...(draft.hose_tests ?? []), /** @type {any} */ (entry)];
    },
    `Hose test ${name} on ${area}`,
  );
  if (kept) set(here, { checkHose: name, checkMap: true });
}

/** @param {Here} here @param {string} test @param {number} depth_mm */
async function mark(here, test, depth_mm) {
  const [x_mm, y_mm] = here.ui.checkAt,
    had = here.doc.hose_tests?.find((one) => one.name === test)?.marks ?? [],
    name = freeName("W", had);
  const kept = await changed(
    here,
    test,
    { marks: [...had, { name, x_mm, y_mm, depth_mm }] },
    `${name}: ${depth_mm ? `${plain(depth_mm, 1)} mm stood` : "dry"}`,
  );
  if (kept) set(here, { checkAt: null, typed: "" });
}

/** @param {Here} here @param {string} test @param {any} changes @param {string} note */
const changed = (here, test, changes, note) =>
  keepChange(
    here,
    (draft) => {
      draft.hose_tests = (draft.hose_tests ?? []).map((one) => (one.name === test ? { ...one, ...changes } : one));
    },
    `${test}: ${note}`,
  );

// ---- gratings

/** @param {Here} here @param {plan.LaidOnSite|null} part @returns {Node[]} */
function drains(here, part) {
  const names = [...(here.doc.site?.channels ?? []), ...(here.doc.site?.gullies ?? [])].map((one) => one.name),
    drain = names.includes(here.ui.checkDrain) ? here.ui.checkDrain : (names[0] ?? "");
  if (!drain) return [el("p", { text: "The job has no channel and no gully." })];
  const had = here.doc.drain_marks ?? [],
    way = here.ui.checkWay ?? "";
  return [
    lastDrain(here, part, had.at(-1)),
    picker("Drain", names, drain, (checkDrain) => set(here, { checkDrain })),
    words(
      "Which way",
      [
        ["above", "▲ Paving above the grating"],
        ["below", "▼ Paving below it"],
      ],
      way,
      (checkWay) => set(here, { checkWay }),
    ),
    padFor(
      here,
      "How far, mm",
      way ? "Save it" : "Choose above or below",
      async (value) => {
        const name = freeName("D", had),
          above_mm = (way === "below" ? -1 : 1) * Math.abs(Math.round(value * 10) / 10);
        const kept = await keepChange(
          here,
          (draft) => {
            draft.drain_marks = [...(draft.drain_marks ?? []), { name, drain, date: today(), above_mm }];
          },
          `${name}, ${drain}: ${plain(above_mm, 1)} mm`,
        );
        if (kept) set(here, { typed: "", checkWay: "" });
      },
      Boolean(way),
    ),
    undoLine(here, (one) => touches(one, "drain_marks")),
    el("p", { class: "quiet", text: "Lay a straight edge over the paving and measure down to the grating." }),
  ];
}

/** @param {Here} here @param {plan.LaidOnSite|null} part @param {any} one */
function lastDrain(here, part, one) {
  if (!part || !one) return el("span");
  const low = part.above_min.value,
    high = part.above_max.value,
    middle = (low + high) / 2,
    found = verdict(one.above_mm - middle, (high - low) / 2, 2 * part.rule_sd.value);
  return el(
    "div",
    {},
    told(
      found,
      `${one.drain}, ${plain(Math.abs(one.above_mm), 1)} mm ${one.above_mm < 0 ? "below" : "above"}`,
      `${plain(low)} to ${plain(high)} mm above the grating is allowed; ` +
        `the rule is ± ${plain(2 * part.rule_sd.value, 1)} mm.`,
    ),
    source(here, part.above_max),
  );
}
