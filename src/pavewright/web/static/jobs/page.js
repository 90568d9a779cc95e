// @ts-check
/** The list of jobs: how far each one is, what it costs, what is next. */
import { ask, el, find, svg, tell } from "../lib/dom.js";
import { call, makeOnce } from "../lib/api.js";
import { STAGES } from "../lib/lists.js";
import { day, money, spoken, squareMetres, messageOf } from "../lib/words.js";

const list = find("#list"),
  told = find("#told"),
  words = find("#words"),
  archive = find("#archived"),
  file = find("#file");
const SOON_MS = 1200,
  FILE_MAX = 5_000_000;
let archived = false,
  asked = 0,
  again = 0,
  waits = 0;

async function load() {
  const mine = (asked += 1);
  clearTimeout(again);
  try {
    const { jobs } = await call(
      "GET",
      `/api/jobs?words=${encodeURIComponent(words.value)}&archived=${archived ? 1 : 0}`,
    );
    if (mine !== asked) return;
    draw(jobs);
    // lines of the list are worked out beside everything else and come a little later
    if (jobs.some((/** @type {any} */ job) => !job.fresh) && waits < 100) {
      waits += 1;
      again = setTimeout(load, SOON_MS);
    } else waits = 0;
  } catch (problem) {
    told.textContent = messageOf(problem);
    again = setTimeout(load, 5000);
  }
}

/** @param {any[]} jobs */
function draw(jobs) {
  const held = /** @type {any} */ (document.activeElement)?.dataset?.key;
  if (!jobs.length) {
    told.textContent = words.value ? "No job has these words." : archived ? "Nothing is archived." : "";
    list.replaceChildren(...(words.value || archived ? [] : newcomer()));
    return;
  }
  told.textContent = `${jobs.length} ${jobs.length === 1 ? "job" : "jobs"}${archived ? " in the archive" : ""}`;
  list.replaceChildren(el("ul", { class: "jobs" }, ...jobs.map(card)));
  if (held) list.querySelector(`[data-key="${held}"]`)?.focus();
}

function newcomer() {
  return [
    el("h2", { text: "No jobs yet" }),
    el(
      "ol",
      {},
      el("li", { text: "Measure: tapes and staff readings give the shape and the ground." }),
      el("li", { text: "Plan: choose the slabs and where water goes; levels, cuts, dig and price follow." }),
      el("li", { text: "Lay and check: print the papers, then read the staff again over what is laid." }),
    ),
    el(
      "div",
      { class: "begin" },
      el(
        "button",
        { type: "button", class: "main", on: { click: fresh } },
        "Begin a job of your own",
        el("span", { text: "A plain rectangle, to be changed into what is there" }),
      ),
      el(
        "button",
        { type: "button", on: { click: () => begin({ start_from: "demo" }) } },
        "Look at the example",
        el("span", { text: "An invented terrace, with everything filled in" }),
      ),
    ),
  ];
}

/** @param {any} job */
function card(job) {
  const sum = job.summary,
    act = (/** @type {string} */ label, /** @type {() => void} */ click) =>
      el("button", {
        type: "button",
        class: "small",
        text: label,
        "aria-label": `${label}: ${job.title}`,
        data: { key: `${job.id}-${label}` },
        on: { click },
      });
  return el(
    "li",
    { class: "job-card" },
    picture(sum),
    el(
      "div",
      {},
      el(
        "h2",
        { class: "low" },
        el("a", {
          href: `/jobs/${job.id}${sum?.stage ? `#${sum.stage}` : ""}`,
          data: { key: job.id },
          text: job.title,
        }),
      ),
      el("p", {
        class: "quiet",
        text: `${changed(job.changed)}${sum?.area_m2 ? `, ${squareMetres(sum.area_m2)}` : ""}`,
      }),
      sum?.stage
        ? el(
            "p",
            {},
            "Stage: ",
            el("strong", { text: STAGES.find((one) => one.key === sum.stage)?.name ?? spoken(sum.stage) }),
          )
        : null,
    ),
    el("div", { class: "wide" }, ...body(job)),
    el(
      "div",
      { class: "row wide" },
      act("Copy", () => begin({ copy_of: job.id })),
      el("a", {
        class: "button small",
        href: `/api/jobs/${job.id}/document.json`,
        download: `job-${job.id}.json`,
        "aria-label": `Export: ${job.title}`,
        text: "Export",
      }),
      act(archived ? "Restore" : "Archive", () => putAway(job, !archived)),
    ),
  );
}

/** @param {any} job */
function body(job) {
  const sum = job.summary;
  if (!sum) return [el("p", { class: "quiet", text: "working it out …" })];
  const out = [];
  if (sum.total_minor !== undefined)
    out.push(
      el(
        "p",
        {},
        el("span", { class: "price", text: money(sum.total_minor, sum.currency) }),
        ` with tax, from ${money(sum.low_minor, sum.currency)} to ${money(sum.high_minor, sum.currency)}`,
      ),
    );
  if (sum.invented) out.push(el("p", { class: "quiet", text: "Invented prices: not to be quoted." }));
  out.push(el("p", {}, el("strong", { text: "Next: " }), sum.next ?? ""));
  const signs = el("p", { class: "signs" });
  if (sum.stops)
    signs.append(el("span", { class: "stop", text: `■ ${sum.stops} ${sum.stops === 1 ? "stop" : "stops"}` }));
  if (sum.checks) signs.append(el("span", { class: "check", text: `▲ ${sum.checks} to check` }));
  if (!sum.stops && !sum.checks) signs.append(el("span", { class: "good", text: "✓ nothing to check" }));
  out.push(signs);
  if (!job.fresh) out.push(el("p", { class: "quiet", text: "as of before the last change, working it out anew …" }));
  return out;
}

/** A small plan: areas and walls. @param {any} sum */
function picture(sum) {
  const rings = sum?.outlines ?? [],
    walls = sum?.walls ?? [],
    all = rings.flat();
  const box = svg("svg", { class: "small-plan", "aria-hidden": "true", preserveAspectRatio: "xMidYMid meet" });
  if (!all.length) {
    box.setAttribute("viewBox", "0 0 10 10");
    return box;
  }
  const east = all.map((/** @type {number[]} */ at) => at[0]),
    north = all.map((/** @type {number[]} */ at) => -at[1]);
  const low = [Math.min(...east), Math.min(...north)],
    size = [Math.max(...east) - low[0], Math.max(...north) - low[1]],
    rim = 0.08 * Math.max(...size, 1);
  box.setAttribute("viewBox", `${low[0] - rim} ${low[1] - rim} ${size[0] + 2 * rim} ${size[1] + 2 * rim}`);
  for (const ring of rings)
    box.append(
      svg("path", {
        d: `M${ring.map((/** @type {number[]} */ at) => `${at[0]} ${-at[1]}`).join("L")}Z`,
        fill: "var(--slab-cut)",
        stroke: "currentColor",
        "stroke-width": 1.5,
        "vector-effect": "non-scaling-stroke",
      }),
    );
  for (const [start, end] of walls)
    box.append(
      svg("path", {
        d: `M${start[0]} ${-start[1]}L${end[0]} ${-end[1]}`,
        stroke: "currentColor",
        "stroke-width": 4,
        "vector-effect": "non-scaling-stroke",
      }),
    );
  return box;
}

/** @param {string} iso */
const changed = (iso) =>
  `changed ${new Date(iso).toLocaleDateString("en-GB", { day: "numeric", month: "short", year: "numeric" })}`;

/** @param {Record<string, any>} asked */
async function begin(asked) {
  try {
    const { walk: _walk, ...wanted } = asked,
      { id } = await makeOnce("/api/jobs", wanted);
    if (asked.copy_of) {
      tell("Copied.", { label: "Open the copy", act: () => location.assign(`/jobs/${id}`) });
      load();
    } else location.assign(`/jobs/${id}${asked.walk ? "/walk" : ""}`);
  } catch (problem) {
    tell(messageOf(problem));
  }
}

/** A screen as narrow as a phone: there a new job is walked round, not typed. */
const inTheHand = () => matchMedia("(max-width: 600px), (max-height: 520px) and (pointer: coarse)").matches;

async function fresh() {
  if (inTheHand()) return begin({ title: `New job, ${day(new Date().toISOString())}`, walk: true });
  const title = el("input", { type: "text", maxlength: 200, value: "", placeholder: "Patio at 12 Mill Lane" });
  title.addEventListener("keydown", (event) => {
    if (event.key === "Enter") /** @type {any} */ (title.closest("dialog"))?.close("make");
  });
  const way = await ask(
    "New job",
    [el("label", { class: "field" }, el("span", { class: "name", text: "What is the job called?" }), title)],
    [
      { label: "Begin", value: "make", main: true },
      { label: "Not now", value: "" },
    ],
  );
  if (way === "make") begin({ title: title.value.trim() || "New job" });
}

/** @param {any} job @param {boolean} away */
async function putAway(job, away) {
  try {
    await call("POST", `/api/jobs/${job.id}/archived`, { archived: away });
    tell(away ? `${job.title} is in the archive.` : `${job.title} is back in the list.`, {
      label: "Undo",
      act: () => call("POST", `/api/jobs/${job.id}/archived`, { archived: !away }).then(load),
    });
  } catch (problem) {
    tell(messageOf(problem));
  }
  load();
}

/** @param {File|undefined} given */
async function bringIn(given) {
  if (!given) return;
  if (given.size > FILE_MAX) return tell("This file is longer than any job.");
  const text = await given.text();
  let value;
  try {
    value = JSON.parse(text);
  } catch {
    value = null;
  }
  if (!value || typeof value !== "object" || Array.isArray(value)) {
    await ask(
      "This is not a job document",
      [
        el("p", {
          text: `${given.name} holds no job. Choose a file that was exported from a job; its name ends in .json.`,
        }),
      ],
      [{ label: "Close", value: "", main: true }],
    );
    return;
  }
  try {
    const { faults } = await call("POST", "/api/outcome", text);
    if (faults.length) {
      const way = await ask(
        "This file makes no plan yet",
        [
          el("p", { text: "It can be kept as a draft and fixed. What is wrong with it:" }),
          el("ul", {}, ...faults.slice(0, 15).map((/** @type {any} */ fault) => el("li", { text: fault.message }))),
        ],
        [
          { label: "Keep as a draft", value: "keep" },
          { label: "Leave it", value: "", main: true },
        ],
      );
      if (way !== "keep") return;
    }
    begin({ document: text });
  } catch (problem) {
    tell(messageOf(problem));
  }
}

let typing = 0;
words.addEventListener("input", () => {
  clearTimeout(typing);
  typing = setTimeout(load, 150);
});
find("#new").addEventListener("click", fresh);
find("#demo").addEventListener("click", () => begin({ start_from: "demo" }));
find("#bring").addEventListener("click", () => file.click());
file.addEventListener("change", async () => {
  await bringIn(file.files[0]);
  file.value = "";
});
archive.addEventListener("click", () => {
  archived = !archived;
  archive.setAttribute("aria-pressed", String(archived));
  load();
});
document.addEventListener("dragover", (event) => {
  event.preventDefault();
  document.body.classList.add("dropping");
});
document.addEventListener("dragleave", (event) => {
  if (!event.relatedTarget) document.body.classList.remove("dropping");
});
document.addEventListener("drop", (event) => {
  event.preventDefault();
  document.body.classList.remove("dropping");
  bringIn(event.dataTransfer?.files[0]);
});
load();
