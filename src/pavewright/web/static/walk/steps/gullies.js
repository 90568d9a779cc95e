// @ts-check
/** Gullies and channels: where, how high, whether they run, where they lead, and what is to drain to them. */
import { level } from "../../lib/words.js";
import { ASKED } from "../../lib/walk-questions.js";
import { tabs, words } from "../../site/parts.js";
import { lengthPart } from "../figures.js";
import { levelPart } from "../level-part.js";
import { takesPart } from "../takes.js";
import { inSite, stateOf, thingPanel, thingSketch } from "../things.js";
import { LEADS, OUTFALL, leadTo } from "./outfalls.js";
import { placedPoints } from "./services.js";

/** @typedef {import("../frame.js").Walk} Walk */

export const key = "gullies",
  name = "Gullies",
  why = "Where the water goes, and whether it goes away.",
  question = ASKED.gullies;

/** @param {"gullies"|"channels"} list @param {string} word @returns {import("../things.js").Question[]} */
const drainQuestions = (list, word) => [
  {
    key: "runs",
    skip: "Not tested",
    ask: (one) => `Pour a bucket into ${one.name}. Does it run away?`,
    can: (one) => one.state !== "new",
    when: (one) => one.runs === undefined || one.runs === null,
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
      can: (one) => one.state === "existing",
      when: (one) => one.grating_level_mm === undefined || one.grating_level_mm === null,
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
      can: (one) => typeof one.grating_level_mm === "number",
      when: (one) => one.invert_level_mm === undefined || one.invert_level_mm === null,
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
