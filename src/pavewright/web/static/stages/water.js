// @ts-check
import { form, group, items } from "../form/form.js";
import { fact, facts, table } from "../form/results.js";
import { stormPart } from "../look/storm.js";
import { plain, spoken } from "../lib/words.js";

/** @param {any} state @param {any} _say @param {{overlay: import("../look/overlay.js").Overlay}} wishes */
export function results(state, _say, wishes) {
  const { water } = state.plan, out = [facts(fact("Rain", `${plain(water.rain.value, 1)} mm/h`), fact("All of it", `${plain(water.total_l_s, 2)} l/s`, water.catchments.map((/** @type {any} */ part) => part.working), state.sources))];
  out.push(table([{ head: "From" }, { head: "To" }, { head: "Area", number: true }, { head: "Flow", number: true }, { head: "Finally to" }], water.catchments.map((/** @type {any} */ part) => [part.area, `${part.to} (${spoken(part.kind).toLowerCase()})`, `${plain(part.area_m2, 1)} m²`, `${plain(part.flow_l_s, 2)} l/s`, part.outfall ?? "–"]), "Where it runs"));
  if (water.storm?.told) out.push(facts(fact("A storm", `${plain(water.storm.depth_mm, 1)} mm in ${plain(water.storm.minutes)} min`)));
  for (const drain of water.drains) out.push(facts(fact(drain.drain, `${plain(drain.flow_l_s, 2)} of ${plain(drain.takes_l_s, 2)} l/s`, [drain.working], state.sources)));
  out.push(stormPart(state, wishes.overlay));
  return out;
}
/** @param {any} state */
export const inputs = (state) => [group("Where it finally goes", [items(state, ["site", "outfalls"], { start: () => ({ name: "Outfall", kind: "unknown", confirmed: false }) })], { open: true }), group("Gullies and channels", [items(state, ["site", "gullies"]), items(state, ["site", "channels"])]), group("Rain of the place", [form(state, ["site"], { only: ["rain"] })])];
