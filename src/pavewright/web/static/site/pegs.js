// @ts-check
/** Heights of pegs to set. */
import { el } from "../lib/dom.js";
import { level, mm, plain } from "../lib/words.js";
import { glance, picker, set } from "./parts.js";

/** @typedef {import("./parts.js").Here} Here */

/** @param {Here} here */
export function pegs(here) {
  const out = here.view?.setting_out;
  if (!out?.pegs.length) return [noPlan(here.view)];
  const set_pegs = new Set(here.ui.pegs ?? []),
    left = out.pegs.filter((peg) => !set_pegs.has(peg.name));
  const peg = out.pegs.find((one) => one.name === here.ui.peg) ?? left[0] ?? out.pegs[0],
    index = out.pegs.indexOf(peg);
  const go = (/** @type {number} */ step) =>
    set(here, { peg: out.pegs[(index + step + out.pegs.length) % out.pegs.length].name });
  return [
    glance(out.pegs.length - left.length, out.pegs.length, "pegs set", left.find((one) => one !== peg)?.name ?? ""),
    picker(
      "Peg",
      out.pegs.map((one) => one.name),
      peg.name,
      (name) => set(here, { peg: name }),
      { spoken: (name) => `${set_pegs.has(name) ? "✓ " : ""}${name}` },
    ),
    el("p", { class: "ask", text: out.services_words }),
    el(
      "div",
      { class: "peg" },
      peg.no_pin ? el("p", { class: "ask", role: "alert" }, el("b", { text: "NO PIN: " }), peg.no_pin.words) : "",
      el("p", { class: "quiet", text: `${peg.from_corner} (${peg.stands})` }),
      peg.role === "base"
        ? el("p", {
            class: "peg-string",
            text: "Pin of the base line: everything is measured from it; it carries no string.",
          })
        : el("p", { class: "peg-string" }, "String at ", el("b", { text: level(peg.string_level_mm) })),
      peg.role === "base"
        ? ""
        : el(
            "table",
            {},
            el("caption", { class: "unseen", text: `Heights at ${peg.name}` }),
            el(
              "thead",
              {},
              el(
                "tr",
                {},
                el("th", { scope: "col", text: "Down from the string to" }),
                el("th", { scope: "col", class: "number", text: "mm" }),
                el("th", { scope: "col", class: "number", text: "Level" }),
              ),
            ),
            el(
              "tbody",
              {},
              ...peg.heights.map((one) =>
                el(
                  "tr",
                  {},
                  el("th", { scope: "row", text: one.layer }),
                  el("td", { class: "number key", text: plain(one.down_from_string_mm) }),
                  el("td", { class: "number", text: level(one.level_mm) }),
                ),
              ),
            ),
          ),
    ),
    el("button", {
      type: "button",
      class: "main pad-keep",
      text: set_pegs.has(peg.name) ? "Mark as not set" : `${peg.name} is set`,
      on: {
        click: () => {
          if (set_pegs.has(peg.name)) set_pegs.delete(peg.name);
          else set_pegs.add(peg.name);
          const next = out.pegs.find((one) => !set_pegs.has(one.name)) ?? peg;
          set(here, { pegs: [...set_pegs], peg: set_pegs.has(peg.name) ? next.name : peg.name });
        },
      },
    }),
    el(
      "div",
      { class: "row" },
      el("button", { type: "button", text: "◂ Before", on: { click: () => go(-1) } }),
      el("button", { type: "button", text: "Next ▸", on: { click: () => go(1) } }),
    ),
    el(
      "details",
      { class: "group" },
      el("summary", { text: "Tapes to check" }),
      el(
        "div",
        { class: "inside" },
        el(
          "ul",
          { class: "plain-list" },
          ...out.checks.map((one) => el("li", {}, `${one.name}: `, el("b", { text: mm(one.expected_mm) }))),
        ),
      ),
    ),
  ];
}

/** That there are no heights yet, and what to measure next. @param {SiteView|null} view */
export function noPlan(view) {
  const next = view?.missing?.[0]?.words ?? "Look at the working screen for what is wrong.";
  return el("p", { class: "ask", text: `No heights are known yet. Next: ${next}` });
}
