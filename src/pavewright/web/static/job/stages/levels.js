// @ts-check
import { el, say } from "../../lib/dom.js";
import { form, group, items } from "../form/form.js";
import { following } from "../form/following.js";
import { areaNames } from "../form/schema.js";
import { fact, facts, table } from "../../lib/results.js";
import { made } from "../so-far.js";
import { sectionPart } from "../look/section.js";
import { formPart } from "../look/later.js";
import { solidPart } from "../look/solid.js";
import { fall, level, mm, money, plain, spoken, messageOf } from "../../lib/words.js";

/** @param {Planned} state @param {any} _say @param {{tryWay: (finding: Finding, index: number) => void}} wishes */
export function results(state, _say, wishes) {
  const { levels } = state.plan,
    /** @type {Node[]} */ out = [];
  for (const area of levels.areas) {
    const all = [...area.corners, ...area.spots].map((spot) => spot.level_mm);
    const falls = area.surface.facets.map((facet) => Math.hypot(facet.plane.slope_x, facet.plane.slope_y));
    out.push(
      el("h3", { text: area.area }),
      facts(
        fact("Steepest fall", fall(Math.max(...falls)), area.workings, state.sources),
        fact("Highest", level(Math.max(...all))),
        fact("Lowest", level(Math.min(...all))),
        ...area.clearances.map((one) =>
          fact(`Below DPC, ${one.wall}`, mm(Math.min(one.at_start_mm, one.at_end_mm)), [one.working], state.sources),
        ),
        ...area.doors.map((one) => fact(`Step at ${one.opening}`, one.text)),
      ),
      el("p", { class: "quiet", text: `Height fixed by: ${area.fixed_by}` }),
    );
  }
  for (const flight of levels.steps)
    out.push(
      facts(
        fact(flight.name, `${flight.risers} risers of ${plain(flight.riser_mm)} mm`, [flight.working], state.sources),
      ),
    );
  const section = el("div", { class: "drawing", "aria-label": "Section at the house wall" });
  if (made(state.plan, ["build_ups"]))
    out.push(group("Section at the door", [sectionPart(state, wishes)], { open: true }));
  if (made(state.plan, ["laying"])) out.push(solidPart(state));
  const paper = group("Section to scale, as on paper", [section]);
  paper.addEventListener("toggle", () => {
    if (paper.open && !section.childElementCount) drawInto(state, "section", section);
  });
  if (made(state.plan, ["build_ups"])) out.push(paper);
  for (const study of levels.studies) out.push(ways(state, study));
  return out;
}

/** Every option to fold an area, with its cost, to be tried. @param {Planned} state @param {plan.FoldStudy} study */
function ways(state, study) {
  const number = state.doc.areas.findIndex((area) => area.name === study.area);
  return group(
    `Options to fold ${study.area}`,
    [
      table(
        [{ head: "Option" }, { head: "Cost of cut and fill", number: true }, { head: "Result" }, { head: "" }],
        study.options.map((option, index) => [
          `${index === study.chosen ? "✓ " : ""}${option.words}`,
          option.cost_minor === null ? "" : money(option.cost_minor, state.doc.identity.currency ?? "GBP"),
          option.verdict,
          option.accepted && index !== study.chosen
            ? el("button", {
                type: "button",
                class: "small",
                text: "Try it",
                on: {
                  click: () =>
                    state.change(`folded: ${spoken(option.kind)}`, (doc) => {
                      doc.areas[number].fall = { ...(doc.areas[number].fall ?? {}), folding: option.kind };
                    }),
                },
              })
            : "",
        ]),
        "Options to fold",
      ),
    ],
    { open: true },
  );
}

/**
 * Put a drawing of the program into a box, as it stands on paper.
 * @param {Planned} state
 * @param {string} name
 * @param {HTMLElement} box
 */
export async function drawInto(state, name, box) {
  say(box, "drawing …");
  try {
    const text = await state.drawing(name);
    if (!text) {
      say(box, "There is nothing to draw yet.");
      return;
    }
    const image = /** @type {HTMLImageElement} */ (document.createElement("img"));
    image.src = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
    image.alt = box.getAttribute("aria-label") ?? name;
    image.className = "paper";
    box.replaceChildren(image);
  } catch (problem) {
    say(box, messageOf(problem));
  }
}

/** @param {JobState} state */
export function inputs(state) {
  return [
    following(state, areaNames, () =>
      (state.doc.areas ?? []).map((area, index, all) =>
        formPart(all.length, `Fall of ${area.name}`, () => [form(state, ["areas", index, "fall"])], {
          open: index === 0,
        }),
      ),
    ),
    group("Steps", [
      items(state, ["steps"], {
        start: (/** @type {JobDocument} */ doc) => ({
          name: `Steps ${(doc.steps?.length ?? 0) + 1}`,
          upper_area: doc.areas[0].name,
          lower_area: doc.areas[1]?.name ?? doc.areas[0].name,
          corner: doc.areas[0].outline[0].point,
        }),
      }),
    ]),
    group("Edges to meet", [items(state, ["site", "tie_ins"])]),
    group("Prices of changes", [form(state, ["rates"], { only: ["cut_price_minor", "fill_price_minor", "changes"] })]),
  ];
}
