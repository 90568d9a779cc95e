// @ts-check
/** The list of jobs: what each is, how far it is, what it costs, what to do next. */
import { ask, el, find, svg, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { moment, money, plain } from "../lib/words.js";

const STAGE = /** @type {Record<string, string>} */ ({ measure: "Measure", levels: "Levels", paving: "Paving", ground: "Ground", water: "Water", price: "Price", papers: "Papers", check: "Check" });
const list = find("#jobs"), told = find("#told"), words = find("#words"), archived = find("#archived");
let turn = 0;

async function load() {
  const mine = (turn += 1);
  try {
    const { jobs } = await call("GET", `/api/jobs?words=${encodeURIComponent(words.value)}${archived.checked ? "&archived=1" : ""}`);
    if (mine !== turn) return;
    draw(jobs);
    if (jobs.some((/** @type {any} */ job) => !job.fresh)) setTimeout(() => { if (mine === turn) load(); }, 900);
  } catch (problem) { told.textContent = /** @type {any} */ (problem).message; }
}

/** @param {any[]} jobs */
function draw(jobs) {
  const held = /** @type {any} */ (document.activeElement)?.dataset?.key;
  told.textContent = jobs.length ? "" : archived.checked ? "Nothing is archived." : words.value ? "No job has these words." : "";
  list.replaceChildren(...(jobs.length || words.value || archived.checked ? jobs.map(card) : [welcome()]));
  if (held) /** @type {any} */ (list.querySelector(`[data-key="${held}"]`))?.focus();
}

function welcome() {
  return el("li", { class: "sheet" }, el("h2", { text: "How a job goes" }), el("ol", {}, el("li", { text: "Measure: shape by tapes, levels by staff, what stands there." }), el("li", { text: "The plan follows: falls, slabs, dig, water, price. What clashes is said in millimetres." }), el("li", { text: "Papers for the crew and for the customer; readings as laid prove the work." })));
}

/** @param {any} job */
function card(job) {
  const sum = job.summary, at = sum ? STAGE[sum.stage] ?? sum.stage : "";
  const price = sum?.total_minor === undefined ? "" : `${money(sum.total_minor, sum.currency)}${sum.invented ? ", prices invented" : ""}`;
  const counts = sum ? [sum.stops ? `■ ${sum.stops} stop` : "", sum.checks ? `▲ ${sum.checks} to check` : ""].filter(Boolean).join("  ") : "";
  const button = (/** @type {string} */ name, /** @type {() => void} */ act) => el("button", { type: "button", class: "small", text: name, "aria-label": `${name}: ${job.title}`, "data-key": `${name}${job.id}`, on: { click: act } });
  return el("li", { class: "sheet job" },
    el("a", { class: "job-plan", href: `/jobs/${job.id}`, tabindex: "-1", "aria-hidden": "true" }, little(sum)),
    el("div", { class: "job-words" },
      el("h2", {}, el("a", { href: `/jobs/${job.id}${sum ? `#${sum.stage}` : ""}`, text: job.title, "data-key": `open${job.id}` })),
      el("p", { class: "job-facts" }, el("span", { text: at }), el("span", { text: sum?.area_m2 ? `${plain(sum.area_m2, 1)} m²` : "" }), el("b", { text: price }), el("span", { text: sum?.low_minor ? `${money(sum.low_minor, sum.currency)} to ${money(sum.high_minor, sum.currency)}` : "" }), el("span", { text: counts })),
      el("p", {}, el("span", { class: "quiet", text: "Next: " }), sum ? sum.next : "being worked out …", job.fresh || !sum ? null : el("span", { class: "quiet", text: " (before the last change)" })),
      el("p", { class: "quiet", text: `changed ${moment(job.changed)}` }),
      el("div", { class: "row" },
        button("Copy", async () => { const made = await call("POST", "/api/jobs", { copy_of: job.id }); location.href = `/jobs/${made.id}`; }),
        button(job.archived ? "Bring back" : "Archive", async () => {
          await call("POST", `/api/jobs/${job.id}/archived`, { archived: !job.archived });
          tell(job.archived ? "Back in the list." : "Archived.", { label: "Undo", act: async () => { await call("POST", `/api/jobs/${job.id}/archived`, { archived: job.archived }); load(); } });
          load();
        }),
        el("a", { class: "button", href: `/api/jobs/${job.id}/document.json`, "aria-label": `Get the document: ${job.title}`, text: "Document" }),
        el("a", { class: "button", href: `/jobs/${job.id}/site`, "aria-label": `On site: ${job.title}`, text: "On site" }))));
}

/** The plan of a job, small. @param {any} sum */
function little(sum) {
  const rings = sum?.outlines ?? [];
  if (!rings.length) return svg("svg", { viewBox: "0 0 100 80" });
  const all = [...rings.flat(), ...(sum.walls ?? []).flat()], xs = all.map((at) => at[0]), ys = all.map((at) => at[1]);
  const [x1, x2, y1, y2] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)], size = Math.max((x2 - x1) / 88, (y2 - y1) / 68, 1);
  const put = (/** @type {number[]} */ [x, y]) => `${(50 + (x - (x1 + x2) / 2) / size).toFixed(1)} ${(40 - (y - (y1 + y2) / 2) / size).toFixed(1)}`;
  return svg("svg", { viewBox: "0 0 100 80" },
    ...rings.map((/** @type {number[][]} */ ring) => svg("path", { d: `M${ring.map(put).join("L")}Z`, fill: "var(--slab)", stroke: "currentColor", "stroke-width": 1.4 })),
    ...(sum.walls ?? []).map((/** @type {number[][]} */ wall) => svg("path", { d: `M${wall.map(put).join("L")}`, fill: "none", stroke: "var(--wall)", "stroke-width": 4 })));
}

/** @param {Record<string, any>} asked */
async function make(asked) {
  const made = await call("POST", "/api/jobs", asked);
  location.href = `/jobs/${made.id}#measure`;
}

find("#new").addEventListener("click", async () => {
  const input = /** @type {HTMLInputElement} */ (el("input", { type: "text", id: "title", maxlength: "120", autocomplete: "off" }));
  const way = await ask("New job", [el("div", { class: "field" }, el("label", { class: "name", for: "title", text: "What do you call it?" }), input), el("p", { class: "quiet", text: "It begins as a rectangle behind a house wall with invented prices. Change everything." })], [{ label: "Begin", value: "yes", main: true }, { label: "Not now", value: "" }]);
  if (way) await make({ title: input.value });
});
find("#demo").addEventListener("click", () => make({ start_from: "demo" }));
find("#bring").addEventListener("click", () => find("#file").click());
find("#file").addEventListener("change", (/** @type {any} */ event) => { bring(event.target.files[0]); event.target.value = ""; });
document.addEventListener("dragover", (event) => event.preventDefault());
document.addEventListener("drop", (event) => { event.preventDefault(); const file = event.dataTransfer?.files[0]; if (file) bring(file); });

/** @param {File} [file] */
async function bring(file) {
  if (!file) return;
  if (file.size > 5_000_000) { told.textContent = `${file.name} is longer than any job document.`; return; }
  const text = await file.text();
  try {
    const doc = JSON.parse(text);
    if (!doc || typeof doc !== "object" || Array.isArray(doc)) throw new Error("no object");
  } catch { told.textContent = `${file.name} is no job document: it is not a JSON object.`; return; }
  const { faults } = await call("POST", "/api/plan", text);
  if (faults.length) {
    const way = await ask("This makes no plan yet", [el("ul", {}, ...faults.slice(0, 8).map((/** @type {any} */ fault) => el("li", { text: fault.message }))), faults.length > 8 ? el("p", { text: `and ${faults.length - 8} more` }) : null].filter(Boolean), [{ label: "Keep it as a draft", value: "yes", main: true }, { label: "Leave it", value: "" }]);
    if (!way) return;
  }
  await make({ document: text });
}

let typing = 0;
words.addEventListener("input", () => { clearTimeout(typing); typing = setTimeout(load, 180); });
archived.addEventListener("change", load);
load();
