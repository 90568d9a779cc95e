// @ts-check
/** The section at a door or wall, as wide as its box. */
import { el, say, svg } from "../../lib/dom.js";
import { chainPart } from "./chain.js";
import { bandWords, fall, level, plain } from "../../lib/words.js";
import { inside, surfaceLevel, triangleLevel } from "../../lib/kernel.js";

const RUN_MM = 2400;

/**
 * @typedef {{
 *   area: string, surface: plan.FoldedSurface, run_mm: number, point: (run_mm: number) => number[]
 * }} Cut where a section runs: from the wall outwards
 * @typedef {{name: string, wall: plan.PlanWall, door: plan.PlanOpening|null, at: number[], cut: Cut}} Place
 */

/** Places where a section can be cut: doors first, then the middle of walls. @param {Plan} plan */
export function placesToCut(plan) {
  const found = [];
  for (const wall of plan.survey.site.walls)
    for (const door of wall.openings)
      found.push({ name: `${door.name}, ${wall.name}`, wall, door, at: middle(door.start, door.end) });
  for (const wall of plan.survey.site.walls)
    found.push({ name: `Wall ${wall.name}`, wall, door: null, at: middle(wall.start, wall.end) });
  return found.flatMap((place) => {
    const cut = cutAt(plan, place.wall, place.at);
    return cut ? [{ ...place, cut }] : [];
  });
}

/** The level of the ground at a place; null outside what was read. @param {Plan} plan @param {number[]} at */
const groundLevel = (plan, at) => (plan.survey.ground ? triangleLevel(plan.survey.ground, at) : null);

/** @param {number[]} a @param {number[]} b */
const middle = (a, b) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

/**
 * The area that meets a wall at a place, and the way square to the wall into it.
 * @param {Plan} plan
 * @param {plan.PlanWall} wall
 * @param {number[]} at
 * @returns {Cut|null}
 */
function cutAt(plan, wall, at) {
  const length = Math.hypot(wall.end[0] - wall.start[0], wall.end[1] - wall.start[1]) || 1;
  const square = [-(wall.end[1] - wall.start[1]) / length, (wall.end[0] - wall.start[0]) / length];
  for (const side of [1, -1])
    for (const area of plan.survey.site.areas) {
      const way = [square[0] * side, square[1] * side],
        rings = [area.gross.outer, ...area.gross.holes],
        point = (/** @type {number} */ run) => [at[0] + way[0] * run, at[1] + way[1] * run];
      if (!inside(point(120), rings)) continue;
      let run = 120;
      while (run < RUN_MM && inside(point(run + 20), rings)) run += 20;
      const finished = plan.levels.areas.find((one) => one.area === area.area.name);
      if (finished) return { area: finished.area, surface: finished.surface, point, run_mm: run };
    }
  return null;
}

/**
 * Keep words apart: places from the top down, each at least so far under the last.
 * @param {number[]} wanted
 * @param {number} apart
 * @param {number} lowest
 */
export function apartFrom(wanted, apart, lowest) {
  const order = wanted.map((at, index) => ({ at, index })).sort((a, b) => a.at - b.at),
    out = wanted.slice();
  let last = -Infinity;
  for (const one of order) {
    last = Math.max(one.at, last + apart);
    out[one.index] = last;
  }
  let over = last - lowest;
  for (const one of [...order].reverse()) {
    if (over <= 0) break;
    out[one.index] = Math.min(out[one.index], lowest);
    lowest -= apart;
    over = out[one.index] - lowest;
  }
  return out;
}

/** The section as a drawing as wide as its box. @param {Plan} plan @param {Place} place @param {number} width */
export function sectionDrawing(plan, place, width) {
  const { cut, wall } = place,
    sill_mm = place.door?.threshold_level_mm ?? null,
    high = 400,
    { surface } = cut;
  const layers = plan.build_ups.areas.find((area) => area.area === cut.area)?.layers ?? [];
  const total = layers.reduce((/** @type {number} */ sum, layer) => sum + layer.thickness_mm, 0);
  const near = surfaceLevel(surface, cut.point(0)),
    far = surfaceLevel(surface, cut.point(cut.run_mm));
  const ground = Array.from({ length: 13 }, (_, step) => [
    (cut.run_mm * step) / 12,
    groundLevel(plan, cut.point((cut.run_mm * step) / 12)),
  ]).flatMap(([run, at]) => (run === null || at === null ? [] : [[run, at]]));
  const tops = [near, far, wall.dpc_level_mm, sill_mm, ...ground.map((one) => one[1])].filter(
      (one) => one !== null && one !== undefined,
    ),
    bottoms = [near - total, far - total, ...ground.map((one) => one[1])];
  const top = Math.max(...tops) + 60,
    low = Math.min(...bottoms) - 30,
    k = (high - 50) / (top - low),
    wide = width < 520 ? 122 : 186,
    left = width < 520 ? 134 : 146,
    kx = (width - left - wide) / cut.run_mm;
  const X = (/** @type {number} */ run) => left + run * kx,
    Y = (/** @type {number} */ at) => 24 + (top - at) * k,
    right = X(cut.run_mm);
  const node = svg("svg", {
    class: "look-section",
    width,
    height: high,
    viewBox: `0 0 ${width} ${high}`,
    role: "img",
    "aria-label": sectionWords(plan, place),
  });
  const line = (/** @type {string} */ d, /** @type {Record<string, any>} */ more = {}) =>
    node.append(svg("path", { d, fill: "none", stroke: "currentColor", "stroke-width": 1.4, ...more }));
  const write = (
    /** @type {string} */ words,
    /** @type {number} */ x,
    /** @type {number} */ y,
    /** @type {Record<string, any>} */ more = {},
  ) =>
    node.append(
      svg("text", {
        x,
        y,
        "font-size": 13,
        fill: "currentColor",
        stroke: "var(--sheet)",
        "stroke-width": 3.5,
        "paint-order": "stroke",
        text: words,
        ...more,
      }),
    );
  node.append(
    svg(
      "defs",
      {},
      svg(
        "pattern",
        { id: "wall-hatch", width: 9, height: 9, patternUnits: "userSpaceOnUse" },
        svg("path", { d: "M0 9L9 0", stroke: "currentColor", "stroke-width": 0.9, opacity: 0.7 }),
      ),
    ),
  );
  // the wall, open above the threshold where a door is
  const threshold = sill_mm === null ? 0 : Y(sill_mm);
  node.append(
    svg("rect", {
      x: left - 40,
      y: sill_mm === null ? 6 : threshold,
      width: 40,
      height: high - 10 - (sill_mm === null ? 6 : threshold),
      fill: "url(#wall-hatch)",
      stroke: "currentColor",
      "stroke-width": 1.8,
    }),
  );
  // layers from the top down, each with its own line
  let depth = 0;
  /** @type {{y: number, words: string}[]} */ const bands = [];
  layers.forEach((layer, index) => {
    const y = [near, far].map((at) => [Y(at - depth), Y(at - depth - layer.thickness_mm)]);
    node.append(
      svg("path", {
        d: `M${left} ${y[0][0]}L${right} ${y[1][0]}L${right} ${y[1][1]}L${left} ${y[0][1]}Z`,
        fill: ["var(--slab)", "var(--slab-cut)", "var(--note-soft)", "var(--check-soft)"][index % 4],
        stroke: "currentColor",
        "stroke-width": index ? 1 : 2,
      }),
    );
    bands.push({ y: (y[1][0] + y[1][1]) / 2, words: bandWords(layer) });
    depth += layer.thickness_mm;
  });
  line(`M${left} ${Y(near - depth)}L${right} ${Y(far - depth)}`, { "stroke-width": 2.2, "stroke-dasharray": "10 4" });
  bands.push({ y: Y(far - depth) + 5, words: `dug to ${level(far - depth)}` });
  bands.unshift({ y: Y(far) - 6, words: `paving ${level(far)}` });
  if (ground.length > 1) {
    line(
      `M${ground
        .map(([run, at]) => `${X(/** @type {number} */ (run)).toFixed(1)} ${Y(/** @type {number} */ (at)).toFixed(1)}`)
        .join("L")}`,
      { "stroke-width": 2, "stroke-dasharray": "3 4", stroke: "var(--good)" },
    );
    bands.push({ y: Y(/** @type {number} */ (ground[ground.length - 1][1])), words: "ground now" });
  }
  const small = width < 520 ? 12 : 13,
    most = Math.floor((wide - 8) / (small * 0.56));
  apartFrom(
    bands.map((band) => band.y + 4),
    17,
    high - 8,
  ).forEach((y, index) =>
    write(
      bands[index].words.length > most ? `${bands[index].words.slice(0, most - 1)}…` : bands[index].words,
      right + 6,
      y,
      { "font-size": small },
    ),
  );
  // levels at the wall
  const marks = [{ y: Y(near), words: level(near) }];
  if (wall.dpc_level_mm !== null) {
    line(`M${left - 46} ${Y(wall.dpc_level_mm)}H${left + 6}`, { "stroke-width": 4.5 });
    marks.push({ y: Y(wall.dpc_level_mm), words: `DPC ${level(wall.dpc_level_mm)}` });
  }
  if (sill_mm !== null) {
    line(`M${left - 46} ${threshold}H${left + 3}`, { "stroke-width": 2.6 });
    marks.push({ y: threshold, words: `sill ${level(sill_mm)}` });
  }
  const words = apartFrom(
    marks.map((mark) => mark.y - 3),
    17,
    high - 8,
  );
  marks.forEach((mark, index) =>
    write(mark.words, left - 50, words[index], { "font-weight": 650, "font-size": small, "text-anchor": "end" }),
  );
  // differences
  const drop = (
    /** @type {number} */ from,
    /** @type {number} */ x,
    /** @type {string} */ name,
    /** @type {number} */ share,
  ) => {
    if (from <= near) return;
    line(`M${x} ${Y(from)}V${Y(near)}M${x - 4} ${Y(from)}h8M${x - 4} ${Y(near)}h8`);
    write(`${plain(from - near)} ${name}`, x + 6, Y(from) + share * (Y(near) - Y(from)) + 4, {
      "font-weight": 650,
      "font-size": small,
    });
  };
  if (wall.dpc_level_mm !== null) drop(wall.dpc_level_mm, left + 14, "below DPC", 0.3);
  if (sill_mm !== null) drop(sill_mm, left + 44, "step", 0.62);
  write(`${fall((near - far) / cut.run_mm)} ${near >= far ? "away from" : "towards"} the wall`, right, high - 10, {
    "text-anchor": "end",
    "font-size": small,
  });
  write(`Heights ×${plain(k / kx, 1)} of lengths. ${plain(cut.run_mm / 1000, 1)} m shown.`, width - 6, 14, {
    "font-size": 12,
    "text-anchor": "end",
  });
  return node;
}

/** @param {plan.PlanOpening} door @param {number} near_mm level of the paving at it */
const stepWords = ({ name, threshold_level_mm: sill_mm }, near_mm) =>
  sill_mm === null
    ? `threshold of ${name} not read`
    : `a step of ${plain(sill_mm - near_mm)} mm below the threshold at ${level(sill_mm)}`;

/** The same in words. @param {Plan} plan @param {Place} place */
export function sectionWords(plan, { cut, wall, door }) {
  const { surface } = cut,
    near = surfaceLevel(surface, cut.point(0)),
    far = surfaceLevel(surface, cut.point(cut.run_mm));
  const layers = plan.build_ups.areas.find((area) => area.area === cut.area)?.layers ?? [],
    total = layers.reduce((/** @type {number} */ sum, layer) => sum + layer.thickness_mm, 0);
  return (
    [
      `${cut.area} at the wall ${level(near)}`,
      wall.dpc_level_mm === null
        ? wall.is_house
          ? "damp-proof course not read, clearance below it not checked"
          : ""
        : `${plain(wall.dpc_level_mm - near)} mm below the DPC at ${level(wall.dpc_level_mm)}`,
      door ? stepWords(door, near) : "",
      `${level(far)} ${plain(cut.run_mm / 1000, 1)} m out`,
      `build-up ${plain(total)} mm, formation ${level(near - total)} at the wall`,
    ]
      .filter(Boolean)
      .join(", ") + "."
  );
}

/**
 * The whole part of the stage.
 * @param {Planned} state
 * @param {{tryWay: (finding: Finding, index: number) => void}} wishes
 */
export function sectionPart(state, wishes) {
  const { plan } = state,
    places = placesToCut(plan),
    clashes = plan.findings.filter((one) => one.chain.length);
  if (!places.length)
    return el("p", { class: "quiet", text: "No wall meets the paving: there is no section to draw." });
  const holder = el("div", { class: "look-holder" }),
    chains = el("div"),
    told = el("p", { class: "look-told" });
  const key = `pavewright.section.${state.id}`,
    kept = sessionStorage.getItem(key),
    chosen = Math.max(
      0,
      places.findIndex((place) => place.name === kept),
    );
  const select = el(
    "select",
    { "aria-label": "Where the section is cut" },
    ...places.map((place, index) => el("option", { value: String(index), text: place.name })),
  );
  select.value = String(chosen);
  const draw = () => {
    const place = places[Number(select.value)],
      width = Math.max(290, Math.min(900, holder.clientWidth || 480));
    holder.replaceChildren(sectionDrawing(plan, place, width));
    say(told, sectionWords(plan, place));
    chains.replaceChildren(...clashes.map((one) => chainPart(one, width, wishes.tryWay)));
  };
  select.addEventListener("change", () => {
    sessionStorage.setItem(key, places[Number(select.value)].name);
    draw();
  });
  let last = 0;
  new ResizeObserver(() => {
    if (holder.isConnected && Math.abs(holder.clientWidth - last) > 8) {
      last = holder.clientWidth;
      draw();
    }
  }).observe(holder);
  draw();
  return el(
    "div",
    {},
    el("label", { class: "field" }, el("span", { class: "name", text: "Cut at" }), select),
    holder,
    told,
    chains,
  );
}
