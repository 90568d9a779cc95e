// @ts-check
/** What goes on every job: labour, plant, disposal, margin, tax and rounding. */
import { el } from "../lib/dom.js";
import { form, items } from "../job/form/form.js";
import { schemaAt } from "../job/form/schema.js";

const ELSEWHERE = ["materials", "catalogue", "plant", "labour", "changes", "tax_lines", "assemblies"];

/** @param {import("./state.js").FirmState} given */
export function rates(given) {
  const state = /** @type {any} */ (given),
    known = schemaAt(["rates"]).properties;
  const lists = /** @type {[string, string, string][]} */ ([
    ["labour", "An hour by skill", "skill"],
    ["plant", "Plant", "machine"],
    ["tax_lines", "Lines with a tax of their own", "line"],
    ["changes", "Prices of changes of level", "change"],
  ]).filter(([name]) => known[name]);
  return [
    el("p", { text: "A job that leaves one of these out takes it from here. What stands nowhere stays not known." }),
    form(state, ["rates"], { hide: ELSEWHERE }),
    ...lists.map(([name, title, add]) => items(state, ["rates", name], { names: { "": title }, add })),
  ];
}
