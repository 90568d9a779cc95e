// @ts-check
/** Quick sums: one form for each registered sum, worked out by the server while typing. */
import { el, find, tell } from "../lib/dom.js";
import { listenForKeys } from "../lib/keys.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { picture } from "./pictures.js";
import { sumField } from "./field.js";
import { filled, name, read, unit, written } from "./values.js";

const list = find("#list"),
  words = find("#words"),
  count = find("#count"),
  page = find("#sums"),
  box = find("#sum");
const TYPING_MS = 200;
/** @type {any[]} */ let all = [];
/** @type {any} */ let now = null;
/** @type {Record<string, string>} */ let texts = {};
let asked = 0,
  typing = 0;

/** Names of the sums that fit what is looked for, the best first; null where nothing is. */
let fitting = /** @type {string[]|null} */ (null);
let lookedFor = 0;

async function look() {
  const mine = (lookedFor += 1),
    looked = words.value.trim();
  if (!looked) fitting = null;
  else
    try {
      const told = await call("GET", `/api/search?words=${encodeURIComponent(looked)}`);
      if (mine !== lookedFor) return;
      fitting = told.sums.map((/** @type {any} */ one) => one.name);
    } catch (problem) {
      count.textContent = messageOf(problem);
      return;
    }
  drawList();
}

/** @param {any} sum */
const link = (sum) =>
  el(
    "li",
    {},
    el("a", {
      href: `/sums?sum=${sum.name}`,
      "aria-current": sum === now ? "page" : null,
      text: title(sum),
      on: {
        click: (/** @type {MouseEvent} */ event) => {
          if (event.ctrlKey || event.metaKey || event.shiftKey) return;
          event.preventDefault();
          history.pushState(null, "", `/sums?sum=${sum.name}`);
          open();
          box.focus({ preventScroll: true });
          window.scrollTo(0, 0);
        },
      },
    }),
  );

function drawList() {
  const found = fitting ? fitting.flatMap((name) => all.find((sum) => sum.name === name) ?? []) : all;
  count.textContent = found.length
    ? `${found.length} of ${all.length} sums`
    : "No sum has to do with this. Try another word, such as slope, sand, skip or steps.";
  if (fitting) return list.replaceChildren(el("ul", {}, ...found.map(link)));
  list.replaceChildren(
    ...[...new Set(found.map((sum) => sum.group))].flatMap((group) => [
      el("h2", { class: "low", text: group }),
      el("ul", {}, ...found.filter((sum) => sum.group === group).map(link)),
    ]),
  );
}
/** @param {any} sum */
const title = (sum) => {
  const short = sum.title.replace(/^Find /, "");
  return short.charAt(0).toUpperCase() + short.slice(1);
};

/** Show what the address says. */
function open() {
  const told = new URLSearchParams(location.search);
  now = all.find((sum) => sum.name === told.get("sum")) ?? null;
  page.classList.toggle("chosen", now !== null);
  document.title = `${now ? title(now) : "Sums"} – pavewright`;
  drawList();
  if (!now) {
    box.replaceChildren(
      el("h2", { text: "Choose a sum" }),
      el("p", {
        text:
          "Every sum shows its formula and where it comes from. The address holds what you put in: keep or send " +
          "it.",
      }),
    );
    return;
  }
  texts = Object.fromEntries(
    now.inputs.map((/** @type {any} */ input) => [input.name, told.get(input.name) ?? first(input)]),
  );
  drawSum();
}
/** @param {any} input */
const first = (input) =>
  input.default === null
    ? input.kind === "word"
      ? (input.choices[0] ?? "")
      : ""
    : Array.isArray(input.default)
      ? input.default.join(", ")
      : String(input.default);

function drawSum() {
  const answers = el("div", { id: "answers", "aria-live": "polite" });
  box.replaceChildren(
    el("a", { class: "button only-narrow", href: "/sums", text: "‹ All sums" }),
    el("h2", { text: title(now) }),
    el(
      "form",
      { class: "fields", on: { submit: (/** @type {Event} */ event) => event.preventDefault() } },
      ...now.inputs.map(field),
    ),
    answers,
    el("p", { class: "formula", text: now.formula }),
    el("p", { class: "source", text: `Source: ${now.source}` }),
    el("button", {
      type: "button",
      text: "Copy the address with these numbers",
      on: {
        click: async () => {
          try {
            await navigator.clipboard.writeText(location.href);
            tell("Copied.");
          } catch {
            tell("The browser does not allow it: copy it from the address line.");
          }
        },
      },
    }),
  );
  work();
}

/** @param {any} input */
const field = (input) =>
  sumField(input, texts[input.name], (text, soon) => {
    texts[input.name] = text;
    keepAddress();
    clearTimeout(typing);
    typing = setTimeout(work, soon ? 0 : TYPING_MS);
  });

/** @param {any} value @param {any} output */
const withUnit = (value, output) =>
  typeof value === "number" || Array.isArray(value) ? `${written(value)} ${unit(output)}`.trim() : written(value);

/** The address holds what is typed, at once: a reload loses none of it. */
function keepAddress() {
  const address = new URLSearchParams({ sum: now.name });
  for (const input of now.inputs) if (texts[input.name] !== first(input)) address.set(input.name, texts[input.name]);
  history.replaceState(null, "", `/sums?${address}`);
}

async function work() {
  const mine = (asked += 1),
    target = find("#answers"),
    sum = now;
  /** @type {Record<string, any>} */ const given = {};
  const faulty = (/** @type {string} */ text) => target.replaceChildren(el("p", { class: "quiet", text }));
  keepAddress();
  try {
    for (const input of sum.inputs) {
      const value = read(input, texts[input.name] ?? "");
      if (value !== undefined) given[input.name] = value;
    }
    const missing = sum.inputs.filter(
      (/** @type {any} */ input) => input.default === null && !input.may_be_left && given[input.name] === undefined,
    );
    if (missing.length)
      return faulty(
        `Still to give: ${missing.map((/** @type {any} */ input) => name(input).toLowerCase()).join(", ")}.`,
      );
    const { answers: found, taken } = await call("POST", "/api/sums", { name: sum.name, given });
    if (mine === asked)
      target.replaceChildren(
        ...told(
          sum,
          { ...given, ...Object.fromEntries(taken.map((/** @type {any} */ one) => [one.name, one.value])) },
          found,
        ),
        ...fromRules(sum, taken),
      );
  } catch (problem) {
    if (mine === asked)
      target.replaceChildren(el("p", { class: "finding check", text: `▲ ${sentence(messageOf(problem))}` }));
  }
}
/** Names of fields in a sentence become words. @param {string} text */
const sentence = (text) =>
  now.inputs.reduce(
    (/** @type {string} */ so_far, /** @type {any} */ input) =>
      so_far.replaceAll(new RegExp(`\\b${input.name}\\b`, "g"), name(input).toLowerCase()),
    text,
  );

/** @param {any} sum @param {Record<string, any>} given @param {Record<string, any>} found */
function told(sum, given, found) {
  const drawn = picture(sum.name, { ...given, ...found }),
    put = filled(sum, given);
  const used = sum.inputs
    .map((/** @type {any} */ input) =>
      `${name(input)} ${written(given[input.name] ?? input.default)} ${unit(input)}`.trim(),
    )
    .join(" · ");
  return [
    el(
      "div",
      { class: "answers" },
      ...sum.outputs.map((/** @type {any} */ output) =>
        el(
          "div",
          { class: Array.isArray(found[output.name]) ? "long" : null },
          el("span", { class: "fact-name", text: name(output) }),
          el("span", {
            class: "fact-value",
            text: withUnit(found[output.name], output),
          }),
          el("span", { class: "source", text: output.meaning }),
        ),
      ),
    ),
    ...(drawn ? [drawn] : []),
    el("p", { class: "formula", text: put ? `With the numbers: ${put}` : `Given: ${used}` }),
  ];
}

/** What nobody gave and the rulebook has, with its source. @param {any} sum @param {any[]} taken @returns {Node[]} */
function fromRules(sum, taken) {
  if (!taken.length) return [];
  const of = (/** @type {any} */ one) => sum.inputs.find((/** @type {any} */ input) => input.name === one.name);
  return [
    el("h3", { text: "Taken from the rulebook" }),
    el(
      "ul",
      { class: "plain-list" },
      ...taken.map((one) =>
        el(
          "li",
          {},
          `${name(of(one))}: ${written(one.value)} ${unit(of(one))} `,
          el("span", { class: "source", text: one.from }),
        ),
      ),
    ),
  ];
}

let looking = 0;
words.addEventListener("input", () => {
  clearTimeout(looking);
  looking = setTimeout(look, 120);
});
listenForKeys([]);
window.addEventListener("popstate", open);
try {
  all = (await call("GET", "/api/sums")).sums;
  open();
} catch (problem) {
  box.replaceChildren(el("p", { role: "alert", text: messageOf(problem) }));
}
