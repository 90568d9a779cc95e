// @ts-check
/** Large keys for small numbers, with gloves: a figure, then the one of two buttons that also saves it. */
import { el, say } from "../../lib/dom.js";
import { isImperial } from "../../lib/writing.js";
import { plain } from "../../lib/words.js";

const SIXTEENTH_MM = 25.4 / 16,
  HALF = "½";

/** What one step of the keys is. [mm] */
export const stepMm = () => (isImperial() ? SIXTEENTH_MM : 1);
export const stepUnit = () => (isImperial() ? "1/16 in" : "mm");

/** What was typed; null where it is no number. @param {string} typed */
export function figure(typed) {
  const text = typed.replace(HALF, ".5").replace(/^\./, "0.");
  return /^\d{1,3}(\.\d{0,2})?$/.test(text) ? Number(text) : null;
}

/**
 * @param {{
 *   typed: string, label: string, unit: string, point: "half"|"point", ask: string,
 *   ways: {face: string, sign: number}[], zero?: string,
 *   onType: (typed: string) => void, onKeep: (value: number) => void
 * }} wishes ways are the two buttons that save; zero is the face of the button that saves none, where there is one
 */
export function keysPad(wishes) {
  let { typed } = wishes;
  const shown = el("output", { class: "lay-shown", "aria-label": wishes.label, "aria-live": "polite" }),
    sign = wishes.point === "half" ? HALF : ".";
  const ways = wishes.ways.map(({ face, sign: way }) =>
    el("button", { type: "button", class: "main lay-way", on: { click: () => keep(way) } }, el("b", { text: face })),
  );
  const tell = () => {
    const value = figure(typed);
    say(shown, `${typed || "–"} ${wishes.unit}`);
    for (const way of ways) way.disabled = value === null;
  };
  const put = (/** @type {string} */ next) => {
    if (next && figure(next) === null) return;
    typed = next;
    wishes.onType(typed);
    tell();
  };
  const keep = (/** @type {number} */ way) => {
    const value = figure(typed);
    if (value === null) return;
    put("");
    wishes.onKeep(value * way);
  };
  const key = (/** @type {string} */ face, /** @type {() => void} */ act, spoken = face) =>
    el("button", { type: "button", text: face, "aria-label": spoken, on: { click: act } });
  const keys = el(
    "div",
    { class: "lay-keys", role: "group", "aria-label": `${wishes.label}: figures` },
    ..."123456789".split("").map((each) => key(each, () => put(typed + each))),
    key(
      sign,
      () =>
        sign === HALF ? !typed.includes(HALF) && put(typed + HALF) : !typed.includes(".") && put(`${typed || 0}.`),
      sign === HALF ? "and a half" : "point",
    ),
    key("0", () => put(typed + "0")),
    key("⌫", () => put(typed.slice(0, -1)), "Delete the last figure"),
  );
  const box = el(
    "div",
    { class: "lay-pad" },
    el("div", { class: "lay-line" }, el("span", { class: "ask", text: wishes.ask }), shown),
    keys,
    el(
      "div",
      { class: "lay-ways" },
      ...ways,
      wishes.zero
        ? el("button", {
            type: "button",
            class: "lay-way",
            text: wishes.zero,
            on: {
              click: () => {
                put("");
                wishes.onKeep(0);
              },
            },
          })
        : null,
    ),
  );
  box.addEventListener("keydown", (event) => {
    if (/^\d$/.test(event.key)) put(typed + event.key);
    else if (event.key === "Backspace") put(typed.slice(0, -1));
    else if (event.key === "." || event.key === ",") put(typed + sign);
    else return;
    event.preventDefault();
  });
  tell();
  return box;
}

/** A number of steps in words, halves as they are said. @param {number} value_mm @param {boolean} [unit] */
export function small(value_mm, unit = true) {
  const steps = Math.round((Math.abs(value_mm) / stepMm()) * 2) / 2,
    whole = Math.floor(steps);
  return `${whole || steps === 0 ? plain(whole) : ""}${steps > whole ? HALF : ""}${unit ? ` ${stepUnit()}` : ""}`;
}
