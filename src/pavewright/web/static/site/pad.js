// @ts-check
/** A number pad for gloves: big keys, the unit always shown, lengths as people write them. */
import { el, say } from "../lib/dom.js";
import { lengthTyped } from "../lib/lengths.js";
import { lengthHere, lengthUnit } from "../lib/lengths-here.js";
import { isImperial } from "../lib/writing.js";
import { plain } from "../lib/words.js";

const KEYS = [
  ["1", "1"],
  ["2", "2"],
  ["3", "3"],
  ["⌫", "back"],
  ["4", "4"],
  ["5", "5"],
  ["6", "6"],
  ["m", " m"],
  ["7", "7"],
  ["8", "8"],
  ["9", "9"],
  ["ft", " ft "],
  [".", "."],
  ["0", "0"],
  ["½ ¼", "part"],
  ["in", " in"],
];
const PARTS = [
  "1/2",
  "1/4",
  "3/4",
  "1/8",
  "3/8",
  "5/8",
  "7/8",
  ...[1, 3, 5, 7, 9, 11, 13, 15].map((part) => `${part}/16`),
];
const SPOKEN = /** @type {Record<string, string>} */ ({
  back: "Delete the last figure",
  " m": "metres",
  " ft ": "feet",
  " in": "inches",
  part: "Parts of an inch: a half first, press again for the next",
  ".": "point",
});

/** @typedef {import("../lib/lengths.js").LengthKind} LengthKind */

/**
 * What a typed text may mean. Where nobody says what kind of length it is, a whole number is millimetres and one with
 * three decimals metres; any other with a point is asked.
 * @param {string} typed
 * @param {LengthKind|null} [kind]
 * @param {boolean} [metric] whether bare figures are metric wherever the job is, as in a file
 */
export function read(typed, kind = null, metric = false) {
  const text = typed.trim();
  if (kind || (isImperial() && !metric)) return lengthHere(text, kind ?? "place");
  if (/^[-−]?\d+$/.test(text)) return { value: Number(text.replace("−", "-")), choices: [], bare: true };
  if (/^[-−]?\d{1,2}\.\d{3}$/.test(text)) return lengthTyped(`${text} m`);
  return lengthTyped(text, "place");
}

/**
 * What a typed length means; null where it is none or unclear.
 * @param {string} typed
 * @param {LengthKind|null} [kind]
 * @param {boolean} [metric]
 */
export const meant = (typed, kind = null, metric = false) => read(typed, kind, metric).value;

/**
 * @param {{
 *   typed: string, label: string, keep: string, can?: boolean, kind?: LengthKind|null,
 *   onType: (typed: string) => void, onKeep: (value_mm: number) => void
 * }} wishes
 */
export function pad(wishes) {
  let typed = wishes.typed;
  const shown = el("input", {
    class: "pad-shown",
    type: "text",
    inputmode: "none",
    autocomplete: "off",
    "aria-label": wishes.label,
    value: typed,
  });
  const told = el("span", { class: "pad-told", role: "status" }),
    asks = el("div", { class: "pad-asks", hidden: true }),
    keep = el("button", { type: "button", class: "main pad-keep", text: wishes.keep, on: { click: () => done() } });
  const tell = () => {
    const { value, choices, bare } = read(typed, wishes.kind);
    say(
      told,
      typed.trim() === ""
        ? lengthUnit()
        : choices.length
          ? "?"
          : value === null
            ? "not a length"
            : bare && !typed.includes(".")
              ? "mm"
              : `= ${plain(value, Number.isInteger(value) ? 0 : 1)} mm`,
    );
    asks.hidden = choices.length === 0;
    asks.replaceChildren(
      ...choices.map(({ text }) =>
        el("button", {
          type: "button",
          text: choices.length > 1 ? text : `${text}: yes`,
          on: { click: () => put(text) },
        }),
      ),
    );
    keep.disabled = value === null || wishes.can === false;
  };
  const put = (/** @type {string} */ next) => {
    typed = next.slice(0, 24);
    shown.value = typed;
    wishes.onType(typed);
    tell();
  };
  const done = () => {
    const value = meant(typed, wishes.kind);
    if (value === null || wishes.can === false) return;
    put("");
    wishes.onKeep(value);
  };
  shown.addEventListener("input", () => {
    typed = shown.value;
    wishes.onType(typed);
    tell();
  });
  shown.addEventListener("keydown", (event) => {
    if (event.key === "Enter") {
      event.preventDefault();
      done();
    }
  });
  const press = (/** @type {string} */ sign) => {
    if (sign === "back")
      put(
        typed
          .trimEnd()
          .replace(/(ft|in|\d+\/\d+|.)$/, "")
          .replace(/ +$/, typed.includes("ft") ? " " : ""),
      );
    else if (sign === "part") {
      const now = /(\d+\/\d+) *$/.exec(typed);
      put(
        now
          ? typed.replace(/\d+\/\d+ *$/, PARTS[(PARTS.indexOf(now[1]) + 1) % PARTS.length])
          : `${typed.trimEnd()} ${PARTS[0]}`.trimStart(),
      );
    } else put((typed + sign).replace(/ {2,}/g, " ").trimStart());
  };
  const keys = el(
    "div",
    { class: "pad-keys" },
    ...KEYS.map(([face, sign]) =>
      el("button", {
        type: "button",
        class: /^\d$/.test(face) ? "" : "pad-word",
        text: face,
        "aria-label": SPOKEN[sign] ?? face,
        on: { click: () => press(sign) },
      }),
    ),
  );
  tell();
  return el("div", { class: "pad" }, el("div", { class: "pad-line" }, shown, told), asks, keys, keep);
}
