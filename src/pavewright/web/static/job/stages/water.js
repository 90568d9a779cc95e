// @ts-check
import { form, group, items } from "../form/form.js";
import { fact, facts, table } from "../../lib/results.js";
import { stormPart } from "../look/storm.js";
import { plain, spoken } from "../../lib/words.js";

/** What lies past an edge, in words. @type {Record<string, string>} */
const BEYOND = {
  own_paving: "own paving",
  own_ground: "own ground",
  neighbour: "the neighbour",
  highway: "road or footway",
  not_known: "not known",
};

/** @param {Planned} state @param {any} _say @param {{overlay: import("../look/overlay.js").Overlay}} wishes */
export function results(state, _say, wishes) {
  const { water } = state.plan,
    /** @type {Node[]} */ out = [
      facts(
        fact("Rain", `${plain(water.rain.value, 1)} mm/h`),
        fact(
          "All of it",
          `${plain(water.total_l_s, 2)} l/s`,
          water.catchments.map((part) => part.working),
          state.sources,
        ),
      ),
    ];
  out.push(
    table(
      [
        { head: "From" },
        { head: "To" },
        { head: "Area", number: true },
        { head: "From others", number: true },
        { head: "Flow", number: true },
        { head: "Finally to" },
      ],
      water.catchments.map((part) => [
        part.area,
        `${part.to} (${spoken(part.kind).toLowerCase()})`,
        `${plain(part.area_m2, 1)} m²`,
        part.from_others_m2 > 0.05 ? `${plain(part.from_others_m2, 1)} m²` : "",
        `${plain(part.whole_l_s, 2)} l/s`,
        part.outfall ??
          (part.beyond && BEYOND[part.beyond]) ??
          (part.kind === "next_area" ? "next area" : "nowhere named"),
      ]),
      "Where it runs",
    ),
  );
  if (water.storm?.reported)
    out.push(facts(fact("A storm", `${plain(water.storm.depth_mm, 1)} mm in ${plain(water.storm.minutes)} min`)));
  for (const drain of water.drains)
    out.push(
      facts(
        fact(
          drain.drain,
          `${plain(drain.flow_l_s, 2)} of ${plain(drain.takes_l_s, 2)} l/s`,
          [drain.working],
          state.sources,
        ),
      ),
    );
  for (const pit of water.soakaways)
    out.push(
      facts(
        fact(
          `${pit.outfall}${pit.size.proposed ? ", proposed" : ""}`,
          `${[pit.size.length_mm, pit.size.width_mm, pit.size.depth_mm].map((size) => plain(size)).join(" × ")} mm: ` +
            pit.verdict,
          [pit.working],
          state.sources,
        ),
      ),
    );
  out.push(stormPart(state, wishes.overlay));
  return out;
}
/** @param {Planned} state */
export const inputs = (state) => [
  group(
    "Where it finally goes",
    [items(state, ["site", "outfalls"], { start: () => ({ name: "Outfall", kind: "unknown", confirmed: false }) })],
    { open: true },
  ),
  group("Gullies and channels", [items(state, ["site", "gullies"]), items(state, ["site", "channels"])]),
  group("Rain of the place", [form(state, ["site"], { only: ["rain"] })]),
];
