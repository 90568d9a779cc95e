// @ts-check
/** One job in the list: a small plan, how far it is, what it costs, what is next. */
import { el, svg } from "../lib/dom.js";
import { STAGES } from "../lib/lists.js";
import { counted, money, spoken, squareMetres } from "../lib/words.js";
import { tag } from "../lib/writing.js";

/** @typedef {{label: string, act: () => void}} Act what can be done with a job */

/** @param {any} job @param {Act[]} acts @param {() => void} state asks how far it is */
export function card(job, acts, state) {
  const sum = job.summary;
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
      job.standing
        ? el("button", {
            type: "button",
            class: "small state-of",
            text: job.standing.by_hand ? `${job.standing.words} (by hand)` : job.standing.words,
            title: job.standing.reason,
            "aria-label": `State: ${job.standing.words}. ${job.title}`,
            data: { key: `${job.id}-state` },
            on: { click: state },
          })
        : null,
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
      ...acts.map((one) =>
        el("button", {
          type: "button",
          class: "small",
          text: one.label,
          "aria-label": `${one.label}: ${job.title}`,
          data: { key: `${job.id}-${one.label}` },
          on: { click: one.act },
        }),
      ),
    ),
  );
}

/** @param {any} job */
function body(job) {
  const sum = job.summary;
  if (!sum) return [el("p", { class: "quiet", text: "working it out …" })];
  const out = [];
  if (typeof sum.total_minor === "number")
    out.push(
      el(
        "p",
        {},
        el("span", { class: "price", text: sum.price_words ?? money(sum.total_minor, sum.currency) }),
        sum.range_words ? `, ${sum.range_words}` : "",
      ),
    );
  if (sum.invented) out.push(el("p", { class: "quiet", text: "Invented prices: not to be quoted." }));
  out.push(el("p", {}, el("strong", { text: "Next: " }), sum.next ?? ""));
  const signs = el("p", { class: "signs" });
  if (sum.stops)
    signs.append(el("span", { class: "stop", text: `■ ${sum.stops} ${sum.stops === 1 ? "stop" : "stops"}` }));
  if (sum.checks) signs.append(el("span", { class: "check", text: `▲ ${sum.checks} to check` }));
  // a job of which something is not known yet was not looked at as a whole: nothing is said of it
  if (sum.whole && sum.stops === 0 && sum.checks === 0)
    signs.append(el("span", { class: "good", text: "✓ nothing to check" }));
  if (job.owing_minor)
    signs.append(el("span", { class: "check", text: `▲ ${money(job.owing_minor, sum.currency)} owing` }));
  if (job.accepted) signs.append(el("span", { class: "good", text: "✔ accepted by the customer" }));
  if (job.questions) {
    const words = counted(job.questions, "question of the customer", "questions of the customer");
    signs.append(el("a", { class: "check", href: `/jobs/${job.id}#papers`, text: `▲ ${words}` }));
  }
  if (signs.childNodes.length) out.push(signs);
  if (!job.fresh) out.push(el("p", { class: "quiet", text: "as of before the last change, working it out anew …" }));
  return out;
}

/** A small plan: areas and walls. @param {any} sum */
function picture(sum) {
  const rings = sum?.outlines ?? [],
    walls = sum?.walls ?? [],
    all = [...rings.flat(), ...walls.flat()];
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
  `changed ${new Date(iso).toLocaleDateString(tag(), { day: "numeric", month: "short", year: "numeric" })}`;
