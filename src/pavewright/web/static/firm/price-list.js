// @ts-check
/** A supplier's price list brought in: how it is read, what it would change, and only then taken. */
import { call } from "../lib/api.js";
import { el, tell } from "../lib/dom.js";
import { placed } from "../lib/cards.js";
import { counted, messageOf, money, plain } from "../lib/words.js";
import { LISTS, choice, named, readAs } from "./list-how.js";
import { asNumbers, notes, pavingUnits, whatLinesAre } from "./list-lines.js";
import { takes } from "./parts.js";

/** @typedef {import("./state.js").FirmState} FirmState */

const SHOWN = 40,
  FILE_MAX = 20_000_000;
const KINDS = /** @type {Record<string, string>} */ ({
  new: "new",
  price: "price changes",
  pack: "pack or name changes",
  same: "the same price",
  other_pack: "sold in another pack: not taken",
  not_listed: "not in this list: stays as it is",
});
const today = () => new Date().toLocaleDateString("sv-SE");

/** @param {FirmState} state @param {() => void} taken */
export function bringing(state, taken) {
  const box = el("div");
  const idle = () =>
    box.replaceChildren(
      el(
        "p",
        { class: "row" },
        takes("Bring in a price list", ".csv,.txt,.xlsx,text/csv", (file) => {
          if (file.size > FILE_MAX) return tell("That file is larger than 20 MB.");
          return new Bringing(state, file, box, idle, taken).begin();
        }),
        el("span", { class: "quiet", text: "CSV or XLSX. You see what it changes before it is taken." }),
      ),
    );
  idle();
  return box;
}

class Bringing {
  /** @param {FirmState} state @param {File} file @param {HTMLElement} box @param {() => void} idle
   * @param {() => void} taken */
  constructor(state, file, box, idle, taken) {
    this.state = state;
    this.file = file;
    this.room = box;
    /** How a person wants it read. @type {Record<string, any>} */ this.said = {};
    /** What lines are; null as suggested. @type {Record<string, string>|null} */ this.uses = null;
    /** Lines that are paving units, and what is said of them. @type {Record<string, any>} */ this.units = {};
    this.of = "goods";
    /** What was last asked of paving units. */ this.looked = "";
    /** @type {any} */ this.told = null;
    this.turn = 0;
    this.done = { idle, taken };
    const suppliers = (state.doc.price_lists ?? []).map((/** @type {any} */ one) => one.supplier);
    this.supplier = el("input", {
      maxlength: 60,
      list: "suppliers",
      autocomplete: "off",
      value: suppliers.at(-1) ?? "",
    });
    this.on = el("input", { type: "date", value: today() });
    this.answer = el("div", { role: "status" });
    this.names = el(
      "datalist",
      { id: "suppliers" },
      ...suppliers.map((/** @type {string} */ name) => el("option", { value: name })),
    );
  }

  begin() {
    for (const input of [this.supplier, this.on])
      input.addEventListener("change", () => {
        if (this.supplier.value.trim() !== this.told?.supplier) this.forget();
        if (this.supplier.value.trim() !== this.told?.supplier || this.on.value !== this.told?.on) this.look();
      });
    const of = choice(LISTS, this.of, (now) => {
      this.of = now;
      this.forget();
      this.look();
    });
    this.room.replaceChildren(
      el(
        "section",
        { class: "bring", "aria-label": "Price list" },
        el("h3", { text: this.file.name }),
        el(
          "div",
          { class: "fields" },
          named("Whose price list is it?", this.supplier),
          named("What does it list?", of),
          named("Prices of which day?", this.on),
          this.names,
        ),
        this.answer,
        el("p", {}, el("button", { type: "button", text: "Leave it", on: { click: this.done.idle } })),
      ),
    );
    this.look();
    this.supplier.focus();
  }

  forget() {
    this.said = {};
    this.uses = null;
    this.units = {};
  }

  get asked() {
    const uses = this.uses === null ? {} : { uses: this.uses };
    return {
      supplier: this.supplier.value.trim(),
      on: this.on.value,
      of: this.of,
      units: asNumbers(this.units),
      ...this.said,
      ...uses,
    };
  }

  /** @param {string} path @param {Record<string, any>} asked */
  send(path, asked) {
    return call("POST", `${path}?asked=${encodeURIComponent(JSON.stringify(asked))}`, this.file);
  }

  async look() {
    const turn = (this.turn += 1);
    this.looked = JSON.stringify(asNumbers(this.units));
    if (!this.asked.supplier || !this.asked.on) {
      this.answer.replaceChildren(el("p", { text: "Say whose price list it is, and of which day." }));
      return;
    }
    if (!this.told) this.answer.replaceChildren(el("p", { class: "quiet", text: "Reading …" }));
    try {
      const told = await this.send("/api/firm/prices", this.asked);
      if (turn !== this.turn) return;
      this.told = told;
      this.draw();
    } catch (problem) {
      if (turn === this.turn) this.answer.replaceChildren(el("p", { class: "unknown", text: messageOf(problem) }));
    }
  }

  draw() {
    const { told } = this,
      currency = this.state.doc.currency ?? "GBP",
      uses = this.uses ?? told.suggested,
      taken = told.of === "goods" ? told.lines.length : Object.keys(uses).length,
      ready = taken > 0 && told.asked.length === 0,
      kept = focusIn(this.answer);
    this.answer.replaceChildren(
      ...told.asked.map((/** @type {string} */ text) => el("p", { class: "unknown", text: `▲ ${text}` })),
      readAs(told, told.asked.length > 0 || !told.lines.length || Object.keys(this.said).length > 0, (more) => {
        this.said = { ...this.said, ...more };
        this.look();
      }),
      this.counts(),
      this.changes(),
      ...this.bad(),
      ...notes(told),
      ...whatLinesAre(told, uses, currency, (now) => {
        this.uses = now;
        this.look();
      }),
      ...pavingUnits(told, this.units, (now, ask = true) => {
        this.units = now;
        if (ask && JSON.stringify(asNumbers(now)) !== this.looked) this.look();
      }),
      el(
        "p",
        {},
        el("button", {
          type: "button",
          class: "main",
          disabled: !ready,
          text: `Take ${counted(taken, "price")}`,
          on: { click: () => this.take() },
        }),
      ),
    );
    focusAgain(this.answer, kept);
  }

  counts() {
    /** @type {Map<string, number>} */ const found = new Map();
    for (const one of this.told.changes) found.set(one.kind, (found.get(one.kind) ?? 0) + 1);
    const words = [...found].map(([kind, count]) => `${plain(count)} ${KINDS[kind]}`);
    if (this.told.bad.length) words.push(`${counted(this.told.bad.length, "row")} not taken`);
    if (this.told.headings.length) words.push(`${counted(this.told.headings.length, "heading")}`);
    return el("ul", { class: "counts" }, ...words.map((text) => el("li", { text })));
  }

  changes() {
    const write = (/** @type {number|null} */ minor) =>
        minor === null ? "–" : money(minor, this.state.doc.currency ?? "GBP"),
      found = this.told.changes.filter((/** @type {any} */ one) => one.kind !== "same" && one.kind !== "new"),
      lines = found.length ? found : this.told.changes.filter((/** @type {any} */ one) => one.kind === "new"),
      rows = lines
        .slice(0, SHOWN)
        .map((/** @type {any} */ one) =>
          el(
            "tr",
            {},
            ...[one.name, KINDS[one.kind], write(one.was_minor), write(one.now_minor)].map((text) =>
              el("td", { text }),
            ),
          ),
        );
    if (!rows.length) return el("div");
    const head = el(
      "tr",
      {},
      ...["What", "Change", "Until now", "From now on"].map((text) => el("th", { scope: "col", text })),
    );
    return el(
      "details",
      { class: "group", open: found.length > 0 },
      el("summary", { text: `What changes (${plain(lines.length)})` }),
      el(
        "div",
        { class: "inside" },
        placed("Changes", el("table", {}, el("thead", {}, head), el("tbody", {}, ...rows))),
        lines.length > SHOWN ? el("p", { text: `and ${plain(lines.length - SHOWN)} more` }) : null,
      ),
    );
  }

  bad() {
    if (!this.told.bad.length) return [];
    const rows = this.told.bad
      .slice(0, SHOWN)
      .map((/** @type {any} */ one) => el("li", { text: `Row ${one.row}: ${one.words}` }));
    return [
      el(
        "details",
        { class: "group", open: true },
        el("summary", { text: `Not taken (${plain(this.told.bad.length)})` }),
        el(
          "div",
          { class: "inside" },
          el("ul", {}, ...rows),
          this.told.bad.length > SHOWN ? el("p", { text: `and ${plain(this.told.bad.length - SHOWN)} more` }) : null,
        ),
      ),
    ];
  }

  async take() {
    try {
      if (this.state.unsaved) await this.state.save();
      const told = await this.send("/api/firm/prices/take", {
        ...this.asked,
        uses: this.uses ?? this.told.suggested,
        rev: this.state.rev,
      });
      this.state.replaced(told);
      this.done.idle();
      this.done.taken();
      tell(`${counted(told.lines, "price")} taken.`);
    } catch (problem) {
      tell(messageOf(problem));
      this.look();
    }
  }
}

/** Which control of a box has the focus, by its place. @param {HTMLElement} box */
function focusIn(box) {
  return [...box.querySelectorAll("input, select, button, summary")].indexOf(
    /** @type {any} */ (document.activeElement),
  );
}

/** Give the focus back to who had it before a box was drawn anew. @param {HTMLElement} box @param {number} place */
function focusAgain(box, place) {
  if (place < 0) return;
  const all = /** @type {HTMLElement[]} */ ([...box.querySelectorAll("input, select, button, summary")]);
  all[Math.min(place, all.length - 1)]?.focus({ preventScroll: true });
}
