// @ts-check
/** A slope by a phone or a level that is turned end for end, with what it can judge and what it cannot. */
import { el } from "../../lib/dom.js";
import { plain } from "../../lib/words.js";
import { keepChange, touches } from "../changes.js";
import { picker, set, undoLine, words } from "../parts.js";
import { today } from "../this-phone.js";
import { readSlope } from "./sensor.js";
import { degreesOf, judged, perMetre, turnedSlope } from "./slope.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {{first_deg: number, turned_deg: number}} Pair */
/** @typedef {"phone"|"digital_level"|"bubble"} Tool */

const TOOLS = /** @type {[string, string][]} */ ([
  ["phone", "This phone"],
  ["digital_level", "Digital level"],
  ["bubble", "Bubble"],
]);
const UNITS = /** @type {[string, string][]} */ ([
  ["deg", "degrees"],
  ["percent", "%"],
  ["mm", "mm in 1 m"],
]);
const ASKED = [1, 3, 5, 10, 20];
const NONE = {
  secure: "No secure connection: this browser gives no slope. Type what a digital level shows.",
  sensor: "This phone gives no slope here. Type what a digital level shows.",
  refused: "The browser was not allowed to read the slope: allow it, or type what a digital level shows.",
};
const VERDICTS = {
  pass: ["✓ within it", "pass"],
  fail: ["✕ not within it", "fail"],
  unsure: ["? too near to tell", "unsure"],
  too_coarse: ["? too coarse to judge this", "unsure"],
};
const STEEPEST_DEG = 45;
/** Whether the sensor is being read. */
let reading = false;

/** @param {Here} here @returns {Node[]} */
export function levelPanel(here) {
  const part = here.view?.parts?.picture;
  if (!part)
    return [
      el("p", { class: "quiet", text: "What a level is trusted to comes with the job: open it once with signal." }),
    ];
  const ui = here.ui,
    tool = /** @type {Tool} */ (ui.slopeTool ?? "phone"),
    pairs = /** @type {Pair[]} */ (ui.slopePairs ?? []);
  const out = [
    words("With what", TOOLS, tool, (next) => set(here, { slopeTool: next, slopePairs: [], slopeFirst: null })),
    el("p", { class: "ask", text: askOf(tool, ui.slopeFirst ?? null) }),
    arrow(ui.slopeFirst !== null && ui.slopeFirst !== undefined),
    ...(tool === "phone" ? [sensorButton(here, part)] : typed(here)),
  ];
  if (pairs.length) out.push(...found(here, part, tool, pairs));
  out.push(
    undoLine(
      here,
      (one) => touches(one, "phone_slopes"),
      () => "Slope kept",
    ),
  );
  return out;
}

/** @param {Tool} tool @param {number|null} first */
function askOf(tool, first) {
  const what = tool === "phone" ? "the phone on its back" : tool === "bubble" ? "the bubble" : "the level";
  return first === null
    ? `Lay ${what} on a straightedge, its top end along the arrow.`
    : "Turn it end for end on the same spot and read again.";
}

/** Which way the top end points. @param {boolean} turned */
const arrow = (turned) =>
  el("p", { class: "way", "aria-hidden": "true", text: turned ? "far end ──────── ◀ top" : "top ▶ ──────── far end" });

/** @param {Here} here @param {any} part */
function sensorButton(here, part) {
  const first = here.ui.slopeFirst ?? null;
  return el("button", {
    type: "button",
    class: "main pad-keep",
    text: reading ? "Reading … keep still" : first === null ? "Read" : "Read turned round",
    disabled: reading,
    on: {
      click: async () => {
        reading = true;
        here.redraw();
        const read = await readSlope();
        reading = false;
        if ("none" in read) {
          here.redraw();
          return here.say(NONE[read.none]);
        }
        if (read.scatter_deg > part.still.value || Math.abs(read.slope_deg) > STEEPEST_DEG) {
          here.redraw();
          return here.say("It did not lie still, or not on its back. Read again.");
        }
        taken(here, Math.round(read.slope_deg * 1000) / 1000);
      },
    },
  });
}

/** @param {Here} here @param {number} deg */
function taken(here, deg) {
  const first = here.ui.slopeFirst ?? null;
  if (first === null) return set(here, { slopeFirst: deg, slopeTyped: "" });
  const pair = { first_deg: first, turned_deg: deg };
  return set(here, { slopeFirst: null, slopeTyped: "", slopePairs: [...(here.ui.slopePairs ?? []), pair] });
}

/** @param {string} text @param {string} unit */
export function degreesTyped(text, unit) {
  const number = Number(text.trim().replace("−", "-").replace(",", "."));
  if (!text.trim() || !Number.isFinite(number)) return null;
  const deg = unit === "deg" ? number : degreesOf(unit === "percent" ? number * 10 : number);
  return Math.abs(deg) <= STEEPEST_DEG ? deg : null;
}

/** A number typed in: what any level shows. @param {Here} here @returns {HTMLElement[]} */
function typed(here) {
  const unit = here.ui.slopeUnit ?? "percent",
    first = here.ui.slopeFirst ?? null;
  const input = el("input", {
    type: "text",
    class: "pad-shown",
    inputmode: "text",
    autocomplete: "off",
    value: here.ui.slopeTyped ?? "",
    "aria-label": first === null ? "What it shows" : "What it shows turned round",
  });
  const button = el("button", {
    type: "button",
    class: "main pad-keep",
    text: first === null ? "Take it" : "Take it, turned round",
    on: {
      click: () => {
        const deg = degreesTyped(input.value, unit);
        if (deg !== null) taken(here, deg);
      },
    },
  });
  const tell = () => {
    button.disabled = degreesTyped(input.value, unit) === null;
  };
  input.addEventListener("input", () => {
    here.ui.slopeTyped = input.value;
    here.remember();
    tell();
  });
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && !button.disabled) button.click();
  });
  tell();
  const minus = el("button", {
    type: "button",
    class: "sign",
    text: "±",
    "aria-label": "Higher or lower at its top end",
    on: {
      click: () => {
        input.value = /^[-−]/.test(input.value) ? input.value.slice(1) : `-${input.value}`;
        input.dispatchEvent(new Event("input"));
      },
    },
  });
  return [
    words("Unit", UNITS, unit, (next) => set(here, { slopeUnit: next })),
    el("p", { class: "quiet", text: "Minus where its top end is lower." }),
    el("div", { class: "pad-line" }, minus, input),
    button,
  ];
}

/** @param {number} value */
const signed = (value, figures = 2) => `${value > 0 ? "+" : ""}${plain(value, figures)}`;

/** Slopes that may be wanted: level, and what each area is planned to fall. @param {Here} here */
function wantedSlopes(here) {
  /** @type {Map<string, number>} */ const found = new Map([["level", 0]]);
  for (const area of here.view?.levels?.areas ?? [])
    for (const { plane } of area.surface.facets) {
      const fall = 1000 * Math.hypot(plane.slope_x, plane.slope_y);
      if (fall > 0) found.set(`fall of ${area.area}, ${plain(fall, 1)} mm in 1 m`, -fall);
    }
  return found;
}

/** @param {Here} here @param {any} part @param {Tool} tool @param {Pair[]} pairs @returns {HTMLElement[]} */
function found(here, part, tool, pairs) {
  const sd = { phone: part.phone_sd, digital_level: part.digital_sd, bubble: part.bubble_sd }[tool].value,
    slope = turnedSlope(pairs, sd, part.trusted_sd, part.confidence.value),
    rise = perMetre(slope.slope_deg),
    band = (perMetre(slope.slope_deg + slope.band_deg) - perMetre(slope.slope_deg - slope.band_deg)) / 2;
  const wanted = wantedSlopes(here),
    chosen = wanted.has(here.ui.slopeWanted) ? here.ui.slopeWanted : "level",
    within = Number(here.ui.slopeWithin ?? 5),
    { verdict, off_mm } = judged(slope, wanted.get(chosen) ?? 0, within, 1000, part.judge_share.value),
    [says, look] = VERDICTS[verdict];
  /** @type {HTMLElement[]} */ const out = [
    el(
      "div",
      { class: "peg", role: "status" },
      el("p", { class: "peg-string" }, el("b", { text: `${signed(rise, 1)} mm in 1 m` }), ` ± ${plain(band, 1)}`),
      el("p", {
        text:
          `${signed(slope.slope_deg)}°. The far end is ${rise > 0 ? "higher" : rise < 0 ? "lower" : "level"}. ` +
          `The tool itself is off by ${signed(slope.error_deg)}°: taken out.`,
      }),
      el("p", { class: "quiet", text: scatterWords(slope, part) }),
    ),
  ];
  if (Math.abs(slope.error_deg) > part.error_max.value)
    out.push(
      el("p", { class: "finding check", text: "The tool is far off: set it before it is used without turning." }),
    );
  out.push(
    picker("Wanted towards the far end", [...wanted.keys()], chosen, (name) => set(here, { slopeWanted: name })),
    words(
      "May be off in 1 m by",
      ASKED.map((each) => [String(each), `${each} mm`]),
      String(within),
      (next) => set(here, { slopeWithin: Number(next) }),
    ),
    el(
      "p",
      { class: `finding verdict ${look}`, role: "status" },
      el("b", { class: "big", text: says }),
      verdict === "too_coarse"
        ? ` It is trusted to ± ${plain(band, 1)} mm in 1 m. Use a staff or a straightedge.`
        : ` Off by ${signed(off_mm, 1)} mm in 1 m, ± ${plain(band, 1)}; ${within} mm may be.`,
    ),
    el(
      "div",
      { class: "row" },
      el("button", {
        type: "button",
        class: "main fill",
        text: "Keep in the job",
        on: { click: () => keepSlope(here, tool, pairs) },
      }),
      el("button", {
        type: "button",
        text: "Start again",
        on: { click: () => set(here, { slopePairs: [], slopeFirst: null, slopeTyped: "" }) },
      }),
    ),
  );
  return out;
}

/** @param {import("./slope.js").Turned} slope @param {any} part */
function scatterWords(slope, part) {
  const left = part.pairs.value - slope.pairs;
  if (slope.scatter_deg === null) return `One pair: nothing shows its scatter. Read ${left} more, turned each time.`;
  const shows = `${slope.pairs} pairs, scatter ${plain(slope.scatter_deg, 3)}°.`;
  return left > 0 ? `${shows} Read ${left} more.` : shows;
}

/** @param {Here} here @param {Tool} tool @param {Pair[]} pairs */
async function keepSlope(here, tool, pairs) {
  const had = new Set((here.doc.phone_slopes ?? []).map((one) => one.name));
  let number = had.size + 1;
  while (had.has(`Slope ${number}`)) number += 1;
  const name = `Slope ${number}`;
  const kept = await keepChange(
    here,
    (draft) => {
      (draft.phone_slopes ??= []).push({ name, tool, pairs, read_on: today() });
    },
    `${name} kept`,
  );
  if (kept) set(here, { slopePairs: [], slopeFirst: null, slopeTyped: "" });
}
