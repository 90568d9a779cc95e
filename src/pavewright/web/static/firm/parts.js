// @ts-check
/** The parts of the book beside its prices. */
import { ApiProblem, call } from "../lib/api.js";
import { ask, el, tell } from "../lib/dom.js";
import { messageOf, money, plain, spoken } from "../lib/words.js";
import { table } from "../lib/results.js";
import { form, items } from "../job/form/form.js";
import { listen } from "../job/form/inputs.js";
import { resolved, schemaAt } from "../job/form/schema.js";

/** @typedef {import("./state.js").FirmState} FirmState */

/** Words of several lines that are one value of the book. @param {FirmState} state @param {string} title
 * @param {() => string} now @param {(doc: any, words: string) => void} set */
export function words(state, title, now, set) {
  const box = el("textarea", { value: now(), rows: 4 });
  box.addEventListener("change", () => state.change(title, (doc) => set(doc, box.value)));
  const field = el("label", { class: "field wide" }, el("span", { class: "name", text: title }), box);
  listen(state, field, "document", () => {
    if (document.activeElement !== box) box.value = now();
  });
  return field;
}

/** @param {FirmState} given */
export function firm(given) {
  const state = /** @type {any} */ (given);
  const lines = words(
    given,
    "Letterhead, below the name",
    () => (state.doc.firm?.lines ?? []).join("\n"),
    (doc, text) => {
      const found = text.split("\n").map((line) => line.trim());
      doc.firm = { ...doc.firm, lines: found.filter(Boolean).slice(0, 8) };
    },
  );
  return [
    el("p", { class: "quiet", text: "This stands on what the customer gets." }),
    form(state, ["firm"], { hide: ["lines", "logo"] }),
    lines,
    logo(given),
    form(state, [], { only: ["currency", "locality", "region", "measure", "invented"] }),
    el(
      "p",
      { class: "row" },
      el("a", { class: "button", href: "/api/firm/document.json", download: "firm.json", text: "Export the book" }),
      takes("Bring in a book", ".json,application/json", (file) => bringIn(given, file)),
    ),
  ];
}

/** A button that opens a choice of files. @param {string} label @param {string} accept
 * @param {(file: File) => any} take */
export function takes(label, accept, take) {
  const input = el("input", { type: "file", accept, hidden: true, "aria-label": label });
  input.addEventListener("change", async () => {
    const file = input.files?.[0];
    if (file) await take(file);
    input.value = "";
  });
  return el("span", {}, el("button", { type: "button", text: label, on: { click: () => input.click() } }), input);
}

/** @param {FirmState} state @param {File} file */
async function bringIn(state, file) {
  try {
    const document = JSON.parse(await file.text());
    const told = await call("POST", "/api/firm/check", { document });
    if (told.faults.length) return tell(told.faults[0].message);
    const way = await ask(
      "Put this book in the place of the present one?",
      [el("p", { text: "The present one stays among the revisions." })],
      [
        { label: "Leave it", value: "" },
        { label: "Put it in", value: "yes", main: true },
      ],
    );
    if (way !== "yes") return;
    const saved = await call("PUT", "/api/firm", { rev: state.rev, document, note: "brought in" });
    state.replaced({ rev: saved.rev, document });
    dispatchEvent(new Event("hashchange"));
  } catch (problem) {
    tell(problem instanceof ApiProblem ? messageOf(problem) : "This file is no book of a firm.");
  }
}

/** @param {FirmState} state */
function logo(state) {
  const box = el("div", { class: "field wide" });
  const draw = () => {
    const now = state.doc.firm?.logo;
    const set = (/** @type {any} */ value) =>
      state.change("logo", (doc) => {
        doc.firm = { ...doc.firm, logo: value };
        if (!value) delete doc.firm.logo;
      });
    box.replaceChildren(
      el("span", { class: "name", text: "Logo" }),
      now ? el("img", { class: "logo-now", alt: "Logo", src: `data:image/${now.kind};base64,${now.base64}` }) : "",
      el(
        "p",
        { class: "row" },
        takes(now ? "Another logo" : "Add a logo", "image/png,image/jpeg", async (file) => {
          if (file.size > 5_000_000) return tell("That picture is larger than 5 MB: save a smaller one.");
          const made = await call("POST", "/api/firm/logo", file).catch((problem) => tell(messageOf(problem)));
          if (made) set(made);
        }),
        now ? el("button", { type: "button", text: "Delete the logo", on: { click: () => set(null) } }) : null,
      ),
    );
  };
  draw();
  listen(state, box, "document", draw);
  return box;
}

/** @param {FirmState} given */
export function people(given) {
  const state = /** @type {any} */ (given);
  return [
    el("p", { class: "quiet", text: "What an hour costs, all included: wage, holidays, insurance, pension." }),
    items(state, ["people"], {
      names: { "": "People" },
      add: "person",
      row: (one) =>
        `${one.name || "no name yet"}, ${spoken(one.skill ?? "any")}: ` +
        (typeof one.cost_minor_per_hour === "number"
          ? `${money(one.cost_minor_per_hour, state.doc.currency)} an hour`
          : "cost not known"),
    }),
    el("h3", { text: "The usual crew" }),
    form(state, ["crew"], { hide: ["outputs"] }),
  ];
}

/** @param {FirmState} given */
export const outputs = (given) => [
  el("p", { class: "quiet", text: "How long your own people take, in place of what the rulebook says." }),
  items(/** @type {any} */ (given), ["outputs"], { names: { "": "Own outputs" }, add: "output" }),
];

/** @param {FirmState} given */
export function past(given) {
  const box = el("div"),
    hours = (/** @type {number} */ value) => `${plain(value, 2)} h`;
  const draw = () => {
    const lines = given.learnt.map((/** @type {any} */ one) => [
      [spoken(one.kind), one.pattern && spoken(one.pattern)].filter(Boolean).join(", "),
      String(one.jobs),
      hours(one.own_hours),
      hours(one.book_hours),
      one.said ? "your own output stands" : `${hours(one.hours_each)} ± ${hours(one.error_hours)}`,
    ]);
    const heads = ["What", "Jobs", "They took", "Rulebook", "Taken for the next job"];
    box.replaceChildren(
      ...(lines.length
        ? [
            el("p", {
              class: "quiet",
              text: "Few jobs weigh little beside the rulebook, and so do jobs that differ much.",
            }),
            table(
              heads.map((head) => ({ head })),
              lines,
              "Outputs learned",
            ),
          ]
        : []),
    );
  };
  draw();
  listen(/** @type {any} */ (given), box, "plan", draw);
  return [
    el("p", { class: "quiet", text: "Hours that finished jobs took: own outputs are learned from them." }),
    items(/** @type {any} */ (given), ["past"], {
      names: { "": "Past jobs" },
      add: "job",
      row: (one) =>
        `${one.job || "no name yet"}, ${spoken(one.kind ?? "")}: ${one.amount ?? "?"} in ${one.person_hours ?? "?"} h`,
    }),
    box,
  ];
}

/** @param {FirmState} state */
export function texts(state) {
  /** @type {string[]} */ const keys = resolved(schemaAt(["texts"]).items).properties.key
    ? resolved(resolved(schemaAt(["texts"]).items).properties.key).enum
    : [];
  const now = (/** @type {string} */ key) =>
    (state.doc.texts ?? []).find((/** @type {any} */ one) => one.key === key)?.words ?? "";
  return [
    el("p", { class: "quiet", text: "Words of your own on the customer’s papers. What is empty is left out." }),
    ...keys.map((key) =>
      words(
        state,
        spoken(key),
        () => now(key),
        (doc, text) => {
          const others = (doc.texts ?? []).filter((/** @type {any} */ one) => one.key !== key);
          doc.texts = text.trim() ? [...others, { key, words: text.trim() }] : others;
        },
      ),
    ),
  ];
}
