// @ts-check
/** One paper: made when it is asked for, looked at page by page or as plain text, kept, shared. */
import { el, say } from "../../lib/dom.js";
import { call, longTask } from "../../lib/api.js";
import { messageOf, wasStopped } from "../../lib/words.js";

/** @typedef {import("../../lib/lists.js").Paper} Paper */
/** @typedef {{name: string, bytes: number}} File_ */

/**
 * A paper with what it needs first, or what makes it; two files of one matter are one paper.
 * @param {JobState} state
 * @param {Paper[]} files
 */
export function paperCard(state, files) {
  const [paper] = files,
    names = files.map((one) => one.name).join(", ");
  const body = el("div", { class: "paper-body" }),
    card = el(
      "li",
      { class: "paper-card" },
      el("h4", { text: paper.words }),
      el("p", { class: "quiet", text: names }),
      body,
    );
  let was = "";
  const draw = () => {
    if (card.dataset.used && !card.isConnected) return state.removeEventListener("plan", draw);
    card.dataset.used = "yes";
    const why = missing(state, files),
      now = JSON.stringify(why.map((one) => one.words));
    if (card.dataset.made) return changed(card);
    if (now === was) return;
    was = now;
    body.replaceChildren(...(why.length ? reasons(why) : maker(state, paper, card)));
  };
  draw();
  state.addEventListener("plan", draw);
  return card;
}

/** What is missing for every file of a paper. @param {JobState} state @param {Paper[]} files */
function missing(state, files) {
  const plan = state.plan;
  if (!plan || plan.job === null) return [];
  const blocking = plan.missing.filter((one) => one.rooms.length);
  const why = files.map((file) =>
    file.needs.every((room) => /** @type {any} */ (plan)[room] !== null)
      ? []
      : blocking.filter((one) => one.rooms.some((room) => file.leans_on.includes(room))),
  );
  return why.every((one) => one.length) ? why[0] : [];
}

/** @param {plan.Missing[]} why */
const reasons = (why) => [
  el("p", { text: "Not yet. First:" }),
  el("ul", {}, ...why.slice(0, 4).map((one) => el("li", {}, el("a", { href: `#${one.stage}`, text: one.words })))),
];

/** @param {HTMLElement} card */
function changed(card) {
  const told = card.querySelector("[role=status]");
  if (told) say(told, "The job has changed since this was made: make it again.");
}

/** @param {JobState} state @param {Paper} paper @param {HTMLElement} card @returns {Node[]} */
function maker(state, paper, card) {
  const told = el("p", { class: "quiet", role: "status" }),
    list = el("div"),
    make = el("button", { type: "button", text: "Make", "aria-label": `Make: ${paper.words}` }),
    halt = el("button", { type: "button", text: "Stop", "aria-label": `Stop: ${paper.words}`, hidden: true });
  make.addEventListener("click", async () => {
    const stop = new AbortController();
    halt.onclick = () => stop.abort();
    make.hidden = true;
    halt.hidden = false;
    say(told, "asked for …");
    try {
      const asked = { verb: "paper", paper: paper.key, job: state.id, document: JSON.stringify(state.doc) },
        name = await longTask(asked, (words) => say(told, `${words} …`), stop.signal),
        { files } = await call("GET", `/api/long-tasks/${name}/papers`);
      say(told, "Ready.");
      card.dataset.made = "yes";
      say(make, "Make again");
      list.replaceChildren(...looked(paper, `/api/long-tasks/${name}/papers`, files));
    } catch (problem) {
      say(told, wasStopped(problem) ? "Stopped." : messageOf(problem));
    }
    make.hidden = false;
    halt.hidden = true;
  });
  return [el("div", { class: "row" }, make, halt), told, list];
}

/**
 * What was made: to keep, to open, to share, to look at.
 * @param {Paper} paper @param {string} at @param {File_[]} files
 */
function looked(paper, at, files) {
  const pages = files.filter((one) => one.name.endsWith(".png")),
    texts = files.filter((one) => one.name.endsWith(".txt")),
    kept = files.filter((one) => !pages.includes(one) && !texts.includes(one) && !one.name.endsWith(".svg"));
  return [
    ...kept.map((one) => el("div", { class: "row" }, ...keep(at, one.name))),
    ...texts.map((one) => asText(at, one.name)),
    ...(pages.length ? [asPages(paper, at, pages)] : []),
  ];
}

/** @param {string} at @param {string} file @returns {Node[]} */
function keep(at, file) {
  const get = el("a", { class: "button main", href: `${at}/${file}`, download: file, text: `Get ${file}` });
  if (!file.endsWith(".pdf")) return [get];
  const open = el("a", {
    class: "button",
    href: `${at}/${file}?show=1`,
    target: "_blank",
    rel: "noopener",
    "aria-label": `Open ${file}, in a new tab`,
    text: "Open",
  });
  return [
    get,
    open,
    ...share(`Share ${file}`, async () => {
      const content = await (await fetch(`${at}/${file}`)).blob();
      return { files: [new File([content], file, { type: "application/pdf" })] };
    }),
  ];
}

/**
 * A button that hands something to another program of the phone; none where a browser cannot.
 * @param {string} words @param {() => Promise<ShareData>} what
 */
function share(words, what) {
  if (typeof navigator.share !== "function") return [];
  const told = el("span", { class: "quiet", role: "status" }),
    one = el("button", { type: "button", text: "Share", "aria-label": words });
  one.addEventListener("click", async () => {
    try {
      await navigator.share(await what());
    } catch (problem) {
      if (!wasStopped(problem)) say(told, "This browser did not share it: get the file and share that.");
    }
  });
  return [one, told];
}

/** The paper as plain text, to read out or to send as a message. @param {string} at @param {string} file */
function asText(at, file) {
  const words = el("pre", { class: "twin", tabindex: "0", "aria-label": `${file}, as plain text` }),
    told = el("span", { class: "quiet", role: "status" }),
    copy = el("button", { type: "button", text: "Copy the text" });
  copy.addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(words.textContent ?? "");
      say(told, "Copied.");
    } catch {
      getSelection()?.selectAllChildren(words);
      say(told, "Marked: copy it from here.");
    }
  });
  const get = el("a", { class: "button", href: `${at}/${file}`, download: file, text: `Get ${file}` }),
    box = el(
      "details",
      {},
      el("summary", { text: "As plain text" }),
      el(
        "div",
        { class: "row" },
        copy,
        get,
        ...share(`Share ${file}`, async () => ({ text: words.textContent ?? "" })),
        told,
      ),
      words,
    );
  box.addEventListener("toggle", async () => {
    if (box.open && !words.textContent) words.textContent = await (await fetch(`${at}/${file}`)).text();
  });
  return box;
}

/** Every page as a picture, one under the other. @param {Paper} paper @param {string} at @param {File_[]} pages */
function asPages(paper, at, pages) {
  const pictures = pages.map((one, place) =>
    el("img", {
      src: `${at}/${one.name}`,
      alt: `${paper.words}, page ${place + 1} of ${pages.length}; its words are in the plain text`,
      loading: "lazy",
    }),
  );
  const box = el(
    "div",
    { class: "pages", tabindex: "0", role: "group", "aria-label": `Pages of ${paper.words}` },
    ...pictures,
  );
  const larger = el("button", { type: "button", text: "Larger", "aria-pressed": "false" });
  larger.addEventListener("click", () => {
    const large = box.classList.toggle("large");
    larger.setAttribute("aria-pressed", String(large));
  });
  return el("details", { open: true }, el("summary", { text: `Pages: ${pages.length}` }), larger, box);
}
