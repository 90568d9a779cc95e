// @ts-check
/** Gullies and channels: where, how high, whether they run, where they lead, and what is to drain to them. */
import { el } from "../../lib/dom.js";
import { drainWays, withChanges } from "../../lib/drain-ways.js";
import { level } from "../../lib/words.js";
import { tabs, words } from "../../site/parts.js";
import { lengthPart } from "../figures.js";
import { levelPart } from "../level-part.js";
import { inSite, stateOf, thingPanel, thingSketch } from "../things.js";
import { LEADS, OUTFALL, leadTo } from "./outfalls.js";
import { placedPoints } from "./services.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "gullies",
  name = "Gullies",
  why = "Where the water goes, and whether it goes away.",
  question = "Which gullies and downpipes are there, and what do they serve?";

/** @param {"gullies"|"channels"} list @param {string} word @returns {import("../things.js").Question[]} */
const drainQuestions = (list, word) => [
  {
    key: "runs",
    skip: "Not tested",
    ask: (one) => `Pour a bucket into ${one.name}. Does it run away?`,
    when: (one) => one.state !== "new" && (one.runs === undefined || one.runs === null),
    draw: (_here, _one, answer) => [
      words(
        "Does it run",
        [
          ["yes", "It runs"],
          ["no", "It stands"],
        ],
        "",
        (value) => answer((mine) => (mine.runs = value === "yes")),
      ),
    ],
  },
  {
    key: "leads",
    skip: "Later",
    ask: (one) => `Where does ${one.name} lead?`,
    when: (one) => !one.outfall,
    draw: (here, _one, answer) => [
      words(
        "Where it leads",
        [
          ...(here.doc.site?.outfalls ?? []).map((/** @type {any} */ one) => [JSON.stringify(one.name), one.name]),
          ...LEADS,
        ],
        "",
        (value) => answer((mine, draft) => leadTo(draft, mine, value)),
      ),
    ],
  },
  {
    key: "takes",
    skip: "Later",
    ask: (one) => `What is to drain to ${one.name}?`,
    when: (one) => one.takes_paving === undefined || one.takes_paving === null,
    draw: (here, one, answer) => takesPart(here, list, word, one, answer),
  },
];

/** @type {import("../things.js").Kind} */
const GULLY = {
  word: "gully",
  stem: "Gully",
  place: "point",
  touch: "Touch where the gully is.",
  ...inSite("gullies"),
  add: (draft, { point }, named) => {
    ((draft.site ??= {}).gullies ??= []).push({ name: named, point });
  },
  required: [],
  questions: [
    {
      key: "new",
      skip: null,
      ask: (one) => `Is ${one.name} there already?`,
      when: (one) => !one.state,
      draw: (_here, _one, answer) => [
        words(
          "There already",
          [
            ["existing", "It is there"],
            ["new", "It will be new"],
          ],
          "",
          (value) => answer((mine) => (mine.state = value)),
        ),
      ],
    },
    {
      key: "grating",
      when: (one) => one.state === "existing" && (one.grating_level_mm === undefined || one.grating_level_mm === null),
      draw: (here, one, answer) =>
        levelPart(here, {
          point: one.point,
          on: "gully",
          what: `the grating of ${one.name}`,
          number: true,
          put: (draft, value, assumed) => {
            const mine = draft.site.gullies.find((/** @type {any} */ each) => each.name === one.name);
            mine.grating_level_mm = value;
            if (assumed) mine.assumed = assumed;
          },
          after: () => answer(null),
        }),
    },
    {
      key: "invert",
      ask: (one) => `From the grating of ${one.name} down to its outlet`,
      when: (one) =>
        typeof one.grating_level_mm === "number" && (one.invert_level_mm === undefined || one.invert_level_mm === null),
      draw: (here, _one, answer) =>
        lengthPart(here, {
          label: "Depth to the outlet",
          low_mm: 20,
          high_mm: 3000,
          onKeep: (mm) => answer((mine) => (mine.invert_level_mm = mine.grating_level_mm - mm)),
        }),
    },
    ...drainQuestions("gullies", "gully"),
  ],
  told: (one) => told(one, one.grating_level_mm),
};

/** @type {import("../things.js").Kind} */
const CHANNEL = {
  word: "channel",
  stem: "Channel",
  place: "ends",
  touch: "Touch one end of the channel, then the other.",
  first: false,
  ...inSite("channels"),
  add: (draft, { touches, state: now }, named) => {
    const [start, end] = placedPoints(draft, touches, "Channel end");
    ((draft.site ??= {}).channels ??= []).push({ name: named, start, end, state: now });
  },
  required: [
    {
      key: "new",
      skip: null,
      ask: () => "Is the channel there already?",
      draw: (_here, _one, answer) => [
        words(
          "There already",
          [
            ["existing", "It is there"],
            ["new", "It will be new"],
          ],
          "",
          (value) => answer((held) => (held.state = value)),
        ),
      ],
    },
  ],
  questions: drainQuestions("channels", "channel"),
  told: (one) => told(one, null),
};

/** @param {any} one @param {number|null|undefined} at_mm */
const told = (one, at_mm) =>
  [
    one.state === "new" ? "new" : typeof at_mm === "number" ? level(at_mm) : "",
    one.runs === true ? "runs" : one.runs === false ? "■ stands" : one.state === "new" ? "" : "not tested",
    one.outfall ? `to ${one.outfall}` : "leads nowhere yet",
    one.takes_paving === false ? "not the paving" : "",
  ]
    .filter(Boolean)
    .join(", ");

// ---- what drains to it

/** Answers of the server, once for each document. @type {WeakMap<object, Map<string, Promise<any>>>} */
const asked = new WeakMap();

/**
 * @param {Walk} here @param {"gullies"|"channels"} list @param {string} word @param {any} one
 * @param {import("../things.js").Answer} answer @returns {Node[]}
 */
function takesPart(here, list, word, one, answer) {
  const box = el("div", { class: "tall-list" }, ...plainChoices(here, list, one, answer)),
    of = asked.get(here.doc) ?? new Map();
  asked.set(here.doc, of);
  const take = (/** @type {any} */ choice) =>
    answer(
      (mine, draft) => {
        withChanges(draft, choice.changes);
        if (!choice.answer) mine.takes_paving = true;
      },
      choice.words.slice(0, 150),
    );
  if (navigator.onLine) {
    if (!of.has(one.name)) of.set(one.name, drainWays(here.doc, /** @type {any} */ (word), one.name, take));
    of.get(one.name)?.then((/** @type {any} */ told_) => {
      if (told_.choices && box.isConnected) box.replaceChildren(...told_.parts, falls(answer));
    });
  }
  return [box];
}

/** @param {import("../things.js").Answer} answer */
const falls = (answer) =>
  el("button", {
    type: "button",
    class: "tall",
    text: "The paving, as it falls",
    on: { click: () => answer((mine) => (mine.takes_paving = true)) },
  });

/**
 * The choices without signal: what each changes is shown once the plan is made.
 * @param {Walk} here @param {"gullies"|"channels"} list @param {any} one @param {import("../things.js").Answer} answer
 */
function plainChoices(here, list, one, answer) {
  const area = areaOf(here, one),
    choice = (/** @type {string} */ text, /** @type {(mine: any, draft: any) => void} */ act) =>
      el("button", { type: "button", class: "tall", text, on: { click: () => answer(act) } });
  return [
    area >= 0
      ? choice("The paving: fold it to it", (mine, draft) => {
          mine.takes_paving = true;
          const fall = (draft.areas[area].fall ??= {});
          fall.folding = list === "gullies" ? "crossed_valley" : "valley";
          if (list === "gullies") fall.gully = one.name;
        })
      : null,
    falls(answer),
    choice("Not the paving: a downpipe or a sink", (mine) => (mine.takes_paving = false)),
  ].filter((each) => each !== null);
}

/**
 * The area in which a drain stands, by its place on the sketch; the first where that is not known.
 * @param {Walk} here
 * @param {any} one
 */
function areaOf(here, one) {
  const at = here.places.at.get(one.point ?? one.start);
  if (!at) return here.doc.areas?.length ? 0 : -1;
  const inside = (/** @type {any} */ area) => {
    const ring = area.outline.map((/** @type {any} */ corner) => here.places.at.get(corner.point)).filter(Boolean);
    let odd = false;
    ring.forEach((/** @type {number[]} */ from, /** @type {number} */ index) => {
      const to = ring[(index + 1) % ring.length];
      if (
        from[1] > at[1] !== to[1] > at[1] &&
        at[0] < ((to[0] - from[0]) * (at[1] - from[1])) / (to[1] - from[1]) + from[0]
      )
        odd = !odd;
    });
    return odd;
  };
  return (here.doc.areas ?? []).findIndex(inside);
}

// ---- the step

const KINDS = { gully: GULLY, channel: CHANNEL, outfall: OUTFALL };

/** @param {Walk} here */
const kindOf = (here) => KINDS[/** @type {"gully"} */ (here.ui.kind)] ?? GULLY;

/** @param {Walk} here */
export const state = (here) => {
  const drains = stateOf(GULLY, CHANNEL)(here);
  return drains === "done" || (here.doc.site?.outfalls ?? []).length ? "done" : "open";
};

/** @param {Walk} here */
export const sketch = (here) => thingSketch(kindOf(here), here);

/** @param {Walk} here @returns {Node[]} */
export function draw(here) {
  const busy = here.ui.held || here.ui.one || here.ui.placing?.point;
  return [
    ...(busy
      ? []
      : [
          tabs(
            "What it is",
            [
              ["gully", "Gully"],
              ["channel", "Channel"],
              ["outfall", "Where water goes"],
            ],
            here.ui.kind ?? "gully",
            (kind) => here.set({ kind, held: null, one: "", placing: null, adding: false, touches: [] }),
          ),
        ]),
    ...thingPanel(kindOf(here), here),
  ];
}
