// @ts-check
/** Papers one by one by whom they are for, all of them in one file, drawings to scale, revisions. */
import { openDrawing } from "./open-drawing.js";
import { forPrograms } from "./for-programs.js";
import { paperCard } from "./paper-card.js";
import { quotationLinks } from "./quotation-links.js";
import { revisions } from "./revisions.js";
import { el, say } from "../../lib/dom.js";
import { call, longTask } from "../../lib/api.js";
import { HIDDEN, hidesMoney } from "../../lib/hidden.js";
import { DRAWINGS, ofMoney, PAPERS } from "../../lib/lists.js";
import { group } from "../form/form.js";
import { table } from "../../lib/results.js";
import { plain, messageOf, wasStopped } from "../../lib/words.js";

/** Who may be handed a paper, in words; what is on no list stays inside. @type {Record<string, string>} */
const READERS = { customer: "For the customer", crew: "For the crew", inside: "Stays inside: shows cost" };
const DRAWN = "Drawings";

/** @param {string} file @returns {[string, string]} who may be handed it, and what it is */
function kindOf(file) {
  const kind = PAPERS.find((one) => one.name === file);
  return kind ? [READERS[kind.reader], kind.words] : [file.endsWith(".svg") ? DRAWN : READERS.inside, file];
}

/** @param {JobState} state */
export function results(state) {
  return [
    warning(state),
    el("p", {
      text: "Each paper is made when you ask for it, of the job as it is then. Look at it before you hand it on.",
    }),
    ...Object.entries(READERS).map(([reader, words]) => readers(state, reader, words)),
    ...(hidesMoney() ? [] : whole(state)),
    ...forPrograms(state),
    drawings(state),
  ];
}

/** What holds the money of the job too. @param {JobState} state */
const whole = (state) => [
  el("h3", { text: "All papers at once" }),
  ...everything(state),
  el("div", { class: "row" }, el("a", { class: "button", href: `/jobs/${state.id}/record`, text: "Record" })),
];

/** The papers that somebody may be handed. @param {JobState} state @param {string} reader @param {string} words */
function readers(state, reader, words) {
  const keys = [...new Set(PAPERS.filter((one) => one.reader === reader).map((one) => one.key))].filter(
      (key) => !HIDDEN.papers.includes(key),
    ),
    list = el(
      "ul",
      { class: "papers" },
      ...keys.map((key) =>
        paperCard(
          state,
          PAPERS.filter((one) => one.key === key),
        ),
      ),
    );
  const seen = el("a", {
    class: "button",
    href: `/jobs/${state.id}/customer`,
    target: "_blank",
    rel: "noopener",
    text: "What the customer sees",
  });
  const quotes = reader === "customer" && !hidesMoney();
  return el(
    "div",
    { hidden: !keys.length },
    el("h3", { text: words }),
    list,
    quotes ? el("div", { class: "row" }, seen) : null,
    quotes ? quotationLinks(state) : null,
  );
}

/** The whole pack. @param {JobState} state */
function everything(state) {
  const list = el("div"),
    told = el("p", { class: "quiet", role: "status" });
  const make = el("button", { type: "button", class: "main", text: "Make the papers" }),
    halt = el("button", { type: "button", text: "Stop", hidden: true });
  make.addEventListener("click", async () => {
    const stop = new AbortController();
    halt.onclick = () => stop.abort();
    make.hidden = true;
    halt.hidden = false;
    try {
      const name = await longTask(
        { verb: "pack", job: state.id, document: JSON.stringify(state.doc) },
        (words) => {
          say(told, `${words} …`);
        },
        stop.signal,
      );
      const { files } = await call("GET", `/api/long-tasks/${name}/papers`);
      say(told, "Ready.");
      list.replaceChildren(...made(name, files));
    } catch (problem) {
      say(told, wasStopped(problem) ? "Stopped." : messageOf(problem));
    }
    make.hidden = false;
    halt.hidden = true;
  });
  return [el("div", { class: "row" }, make, halt), told, list];
}

/** Said while the papers that were made stay on the screen, as the plan changes. @param {JobState} state */
function warning(state) {
  const box = el("div");
  const draw = () => {
    if (box.dataset.used && !box.isConnected) return state.removeEventListener("plan", draw);
    box.dataset.used = "yes";
    box.replaceChildren(...stopsOf(state));
  };
  draw();
  state.addEventListener("plan", draw);
  return box;
}

/** What stops the work, and apart from it what only keeps a price from being sent. @param {JobState} state */
function stopsOf(state) {
  const stops = (state.plan?.findings ?? []).filter((one) => one.severity === "stop"),
    work = stops.filter((one) => !ofMoney(one)),
    money = stops.filter(ofMoney);
  return [
    ...stopBox("Papers of this job would send a crew to something that does not work. Fix this first:", work),
    ...stopBox(
      work.length
        ? "The price cannot be sent either before this is settled:"
        : "The papers for the crew can go; no price may be sent before this is settled:",
      money,
    ),
  ];
}

/** @param {string} words @param {Finding[]} stops */
function stopBox(words, stops) {
  if (!stops.length) return [];
  return [
    el(
      "div",
      { class: "finding stop", role: "alert" },
      el("p", {}, el("span", { class: "word", text: "■ STOP" }), el("span", { text: words })),
      el("ul", {}, ...stops.slice(0, 6).map((one) => el("li", { text: one.message }))),
    ),
  ];
}

/** @param {string} name @param {any[]} files */
function made(name, files) {
  const of = kindOf;
  const get = (/** @type {string} */ file, /** @type {string} */ words) =>
    el("a", {
      class: "button",
      href: `/api/long-tasks/${name}/papers/${file}`,
      download: file.split("/").pop(),
      "aria-label": `${words}: ${of(file)[1]}`,
      text: words,
    });
  const look = (/** @type {string} */ file) =>
    /\.(pdf|svg)$/.test(file)
      ? el("a", {
          class: "button",
          href: `/api/long-tasks/${name}/papers/${file}${file.endsWith(".pdf") ? "?show=1" : ""}`,
          target: "_blank",
          rel: "noopener",
          "aria-label": `Look at ${of(file)[1]}, in a new tab`,
          text: "Look",
        })
      : "";
  const kinds = [...Object.values(READERS), DRAWN].filter((kind) => files.some((file) => of(file.name)[0] === kind));
  return [
    el("div", { class: "row" }, get("all.zip", "All papers in one file")),
    el("p", { class: "quiet", text: "The file of all papers holds the cost sheet too: do not hand it on." }),
    ...kinds.flatMap((kind) => [
      el("h3", { text: kind }),
      table(
        [{ head: "Paper" }, { head: "kB", number: true }, { head: "" }],
        files
          .filter((file) => of(file.name)[0] === kind)
          .map((file) => [
            of(file.name)[1],
            plain(file.bytes / 1000),
            el("span", { class: "row" }, look(file.name), get(file.name, "Get")),
          ]),
        kind,
      ),
    ]),
  ];
}

/** Each drawing in a tab of its own, sized in millimetres of paper. @param {JobState} state */
function drawings(state) {
  const told = el("p", { class: "quiet", role: "status" });
  const open = (/** @type {string} */ key, /** @type {string} */ words) => openDrawing(state, key, words, told);
  return group("Drawings to scale", [
    el("p", {
      text:
        "Each opens by itself, in millimetres of paper. Print at 100 %, not fitted to the page, then lay a rule " +
        "on the scale bar.",
    }),
    el(
      "div",
      { class: "row" },
      ...[...DRAWINGS.map((one) => /** @type {[string, string]} */ ([one.key, one.words]))].map(([key, words]) =>
        el("button", { type: "button", text: words, on: { click: () => open(key, words) } }),
      ),
    ),
    told,
  ]);
}

/** @param {JobState} state */
export function inputs(state) {
  return [
    revisions(state),
    ...(hidesMoney()
      ? []
      : [
          group("The document", [
            el("a", { class: "button", href: `/api/jobs/${state.id}/document.json`, text: "Get the job document" }),
          ]),
        ]),
  ];
}
