// @ts-check
/** Quick sums: every calculation by itself, with its units, its formula and where it comes from. The address keeps the inputs. */
import { el, find } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { labelled, lengthFrom, plain, spoken, unitSign } from "../lib/words.js";
import { PICTURES } from "./sum-pictures.js";

const list = find("#list"), words = find("#words"), sheet = find("#sum");
/** @type {any[]} */ let sums = [];
/** @type {any} */ let chosen = null;

function drawList() {
  const wanted = words.value.toLowerCase().split(/\s+/).filter(Boolean);
  const fits = (/** @type {any} */ sum) => wanted.every((/** @type {string} */ word) => `${sum.name} ${sum.title} ${sum.subject}`.toLowerCase().includes(word));
  const groups = new Map();
  for (const sum of sums.filter(fits)) groups.set(sum.subject, [...(groups.get(sum.subject) ?? []), sum]);
  list.replaceChildren(...[...groups].map(([subject, mine]) => el("details", { class: "group", open: wanted.length > 0 || mine.includes(chosen) }, el("summary", { text: subject }),
    el("div", { class: "inside items" }, ...mine.map((/** @type {any} */ sum) => el("a", { class: "button wrap", href: `#${sum.name}`, "aria-current": sum === chosen ? "true" : null, text: sum.title }))))));
  if (!groups.size) list.replaceChildren(el("p", { text: "No sum has these words." }));
}

/** @param {string} name */
const title = (name) => labelled(name).name;

function drawSum() {
  const [name, query] = location.hash.slice(1).split("?"), given = new URLSearchParams(query ?? "");
  chosen = sums.find((sum) => sum.name === name) ?? null;
  drawList();
  document.body.classList.remove("chosen");
  if (!chosen) { sheet.replaceChildren(el("h2", { text: "Choose a sum" }), el("p", { class: "quiet", text: `${sums.length} sums, each with its source. A level is in millimetres above the datum of the job.` })); return; }
  document.body.classList.add("chosen");
  document.title = `${chosen.title} – pavewright`;
  const answers = el("div", { role: "status", "aria-live": "polite" }), picture = el("div", { class: "sum-picture" });
  const inputs = new Map(chosen.inputs.map((/** @type {any} */ quantity) => [quantity.name, inputFor(quantity, given.get(quantity.name))]));
  const fields = el("div", { class: "fields" }, ...chosen.inputs.map((/** @type {any} */ quantity) => {
    const input = inputs.get(quantity.name);
    input.id = `in-${quantity.name}`;
    return el("div", { class: "field" }, el("label", { class: "name", for: input.id, text: title(quantity.name) }), el("span", { class: "with-unit" }, input, quantity.unit ? el("span", { class: "unit", text: unitSign(quantity.unit) }) : null), el("span", { class: "hint", text: `${quantity.meaning}${quantity.kind.endsWith("s") ? "; several, separated by commas" : ""}` }));
  }));
  sheet.replaceChildren(el("h2", { text: chosen.title }), fields, answers, picture, el("h3", { text: "How it is worked out" }), el("p", { class: "sum-line", text: chosen.formula }), el("p", { class: "source", text: `Source: ${chosen.source}` }));
  let turn = 0, waiting = 0;
  const work = async () => {
    const mine = (turn += 1), sum = chosen, read = readAll(sum, inputs);
    history.replaceState(null, "", `#${sum.name}?${new URLSearchParams([...inputs].map(([key, input]) => [key, input.value]).filter(([, value]) => value)).toString()}`);
    if (read.missing.length) { answers.replaceChildren(el("p", { class: "quiet", text: `Still to give: ${read.missing.map(title).join(", ").toLowerCase()}.` })); picture.replaceChildren(); return; }
    try {
      const found = await call("POST", "/api/sums", { name: sum.name, given: read.given });
      if (mine !== turn || sum !== chosen) return;
      answers.replaceChildren(el("h3", { text: "Comes to" }), el("dl", { class: "answers" }, ...sum.outputs.flatMap((/** @type {any} */ quantity) => [el("dt", { text: spoken(quantity.meaning) }), el("dd", {}, el("span", { class: Array.isArray(found[quantity.name]) ? "number" : "big", text: told(found[quantity.name]) }), ` ${unitSign(quantity.unit)}`)])),
        el("p", { class: "quiet", text: `With ${sum.inputs.map((/** @type {any} */ quantity) => `${title(quantity.name).toLowerCase()} ${told(read.given[quantity.name])}${quantity.unit ? ` ${unitSign(quantity.unit)}` : ""}`).join(", ")}.` }));
      picture.replaceChildren(...(PICTURES[sum.name] ? [PICTURES[sum.name](read.given, found)] : []));
    } catch (problem) {
      if (mine !== turn) return;
      answers.replaceChildren(el("p", { class: "finding stop", text: /** @type {any} */ (problem).message }));
      picture.replaceChildren();
    }
  };
  fields.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(work, 160); });
  work();
}

/** @param {any} quantity @param {string|null} given */
function inputFor(quantity, given) {
  const now = given ?? (quantity.default === null ? "" : Array.isArray(quantity.default) ? quantity.default.join(", ") : String(quantity.default));
  if (quantity.choices.length) { const box = el("select", {}, ...quantity.choices.map((/** @type {string} */ word) => el("option", { value: word, text: spoken(word) }))); /** @type {any} */ (box).value = now; return box; }
  return el("input", { type: "text", inputmode: quantity.kind === "number" ? "decimal" : null, autocomplete: "off", value: now });
}

/** @param {any} sum @param {Map<string, any>} inputs */
function readAll(sum, inputs) {
  /** @type {Record<string, any>} */ const given = {};
  const missing = [];
  for (const quantity of sum.inputs) {
    const text = inputs.get(quantity.name).value.trim();
    if (text === "" ) { if (quantity.default === null) missing.push(quantity.name); else given[quantity.name] = quantity.default; continue; }
    const number = (/** @type {string} */ word) => { const value = quantity.name.endsWith("_mm") ? lengthFrom(word) : Number(word.replace("−", "-")); return value === null || !Number.isFinite(value) ? word : value; };
    const cells = text.split(/[,;]/).map((/** @type {string} */ cell) => cell.trim());
    given[quantity.name] = quantity.kind === "number" ? number(text.replace(",", ".")) : quantity.kind === "numbers" ? cells.map(number) : quantity.kind === "words" ? cells : text;
  }
  return { given, missing };
}

/** @param {any} value @returns {string} */
function told(value) {
  if (Array.isArray(value)) return value.map(told).join(", ");
  if (typeof value !== "number") return String(value);
  const size = Math.abs(value);
  if (size !== 0 && (size < 0.001 || size >= 1e7)) return value.toPrecision(4);
  return plain(value, Number.isInteger(value) ? 0 : size >= 1000 ? 0 : size >= 100 ? 1 : size >= 1 ? 2 : 4);
}

window.addEventListener("hashchange", () => { drawSum(); if (chosen) sheet.focus({ preventScroll: false }); });
let typing = 0;
words.addEventListener("input", () => { clearTimeout(typing); typing = setTimeout(drawList, 120); });
({ sums } = await call("GET", "/api/sums"));
drawSum();
