// @ts-check
/** The section at a door or wall, and a clash of levels as a stair of heights with its ways out. */
import { el, svg } from "../../lib/dom.js";
import { fall, level, plain } from "../../lib/words.js";
import { inside } from "./contours.js";

const RUN_MM = 2400;
const SIGN = /** @type {Record<string, string>} */ ({ stop: "■ STOP", check: "▲ CHECK", note: "● NOTE" });

/** Places where a section can be cut: doors first, then the middle of walls. @param {any} plan */
export function placesToCut(plan) {
  const found = [];
  for (const wall of plan.survey.site.walls)
    for (const door of wall.openings)
      found.push({ name: `${door.name}, ${wall.name}`, wall, door, at: middle(door.start, door.end) });
  for (const wall of plan.survey.site.walls)
    found.push({ name: `Wall ${wall.name}`, wall, door: null, at: middle(wall.start, wall.end) });
  return found.map((place) => ({ ...place, cut: cutAt(plan, place) })).filter((place) => place.cut);
}

/** @param {number[]} a @param {number[]} b */
const middle = (a, b) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

/**
 * The area that meets a wall at a place, and the way square to the wall into it.
 * @param {any} plan
 * @param {any} place
 */
function cutAt(plan, { wall, at }) {
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
      return { area: area.area.name, point, run_mm: run };
    }
  return null;
}

/** The level of a folded surface at a place. @param {any} surface @param {number[]} at */
export function levelAt(surface, [x, y]) {
  const facet = surface.facets.find((/** @type {any} */ one) => inside([x, y], [one.outline])) ?? surface.facets[0],
    plane = facet.plane;
  return plane.level_mm + plane.slope_x * (x - plane.origin_mm[0]) + plane.slope_y * (y - plane.origin_mm[1]);
}

/** The level of the ground; null outside what was read. @param {any} ground @param {number[]} at */
export function groundAt(ground, [x, y]) {
  for (const triangle of ground?.triangles ?? []) {
    const [a, b, c] = triangle.map((/** @type {number} */ index) => ground.points[index]);
    const size = (b[1] - c[1]) * (a[0] - c[0]) + (c[0] - b[0]) * (a[1] - c[1]);
    if (!size) continue;
    const u = ((b[1] - c[1]) * (x - c[0]) + (c[0] - b[0]) * (y - c[1])) / size,
      v = ((c[1] - a[1]) * (x - c[0]) + (a[0] - c[0]) * (y - c[1])) / size;
    if (u >= -1e-9 && v >= -1e-9 && u + v <= 1 + 1e-9) return u * a[2] + v * b[2] + (1 - u - v) * c[2];
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

/** The section as a drawing as wide as its box. @param {any} plan @param {any} place @param {number} width */
export function sectionDrawing(plan, place, width) {
  const { cut, wall } = place,
    door = place.door?.threshold_level_mm == null ? null : place.door,
    high = 400,
    surface = plan.levels.areas.find((/** @type {any} */ area) => area.area === cut.area).surface;
  const layers = plan.build_ups.areas.find((/** @type {any} */ area) => area.area === cut.area)?.layers ?? [];
  const total = layers.reduce((/** @type {number} */ sum, /** @type {any} */ layer) => sum + layer.thickness_mm, 0);
  const near = levelAt(surface, cut.point(0)),
    far = levelAt(surface, cut.point(cut.run_mm));
  const ground = Array.from({ length: 13 }, (_, step) => [
    (cut.run_mm * step) / 12,
    groundAt(plan.survey.ground, cut.point((cut.run_mm * step) / 12)),
  ]).filter((one) => one[1] !== null);
  const tops = [near, far, wall.dpc_level_mm, door?.threshold_level_mm, ...ground.map((one) => one[1])].filter(
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
  const threshold = door ? Y(door.threshold_level_mm) : 0;
  node.append(
    svg("rect", {
      x: left - 40,
      y: door ? threshold : 6,
      width: 40,
      height: high - 10 - (door ? threshold : 6),
      fill: "url(#wall-hatch)",
      stroke: "currentColor",
      "stroke-width": 1.8,
    }),
  );
  // layers from the top down, each with its own line
  let depth = 0;
  const bands = [];
  layers.forEach((/** @type {any} */ layer, /** @type {number} */ index) => {
    const y = [near, far].map((at) => [Y(at - depth), Y(at - depth - layer.thickness_mm)]);
    node.append(
      svg("path", {
        d: `M${left} ${y[0][0]}L${right} ${y[1][0]}L${right} ${y[1][1]}L${left} ${y[0][1]}Z`,
        fill: ["var(--slab)", "var(--slab-cut)", "var(--note-soft)", "var(--check-soft)"][index % 4],
        stroke: "currentColor",
        "stroke-width": index ? 1 : 2,
      }),
    );
    bands.push({ y: (y[1][0] + y[1][1]) / 2, words: `${plain(layer.thickness_mm)} ${layer.name.split(/[,(]/)[0]}` });
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
  if (door) {
    line(`M${left - 46} ${threshold}H${left + 3}`, { "stroke-width": 2.6 });
    marks.push({ y: threshold, words: `sill ${level(door.threshold_level_mm)}` });
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
  if (door) drop(door.threshold_level_mm, left + 44, "step", 0.62);
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

/** The same in words. @param {any} plan @param {any} place */
export function sectionWords(plan, { cut, wall, door }) {
  const surface = plan.levels.areas.find((/** @type {any} */ area) => area.area === cut.area).surface,
    near = levelAt(surface, cut.point(0)),
    far = levelAt(surface, cut.point(cut.run_mm));
  const layers = plan.build_ups.areas.find((/** @type {any} */ area) => area.area === cut.area)?.layers ?? [],
    total = layers.reduce((/** @type {number} */ sum, /** @type {any} */ layer) => sum + layer.thickness_mm, 0);
  return (
    [
      `${cut.area} at the wall ${level(near)}`,
      wall.dpc_level_mm === null
        ? wall.is_house
          ? "damp-proof course not read, clearance below it not checked"
          : ""
        : `${plain(wall.dpc_level_mm - near)} mm below the DPC at ${level(wall.dpc_level_mm)}`,
      door && door.threshold_level_mm === null
        ? `threshold of ${door.name} not read`
        : door
          ? `a step of ${plain(door.threshold_level_mm - near)} mm below the threshold at ` +
            `${level(door.threshold_level_mm)}`
          : "",
      `${level(far)} ${plain(cut.run_mm / 1000, 1)} m out`,
      `build-up ${plain(total)} mm, formation ${level(near - total)} at the wall`,
    ]
      .filter(Boolean)
      .join(", ") + "."
  );
}

/**
 * The level that a sentence of a chain tells: the last one in metres that is no length ("2.900 m").
 * @param {string} words
 */
export function levelIn(words) {
  const found = [...words.matchAll(/(-?\d+\.\d{3})(?!\d)(?! m\b)/g)];
  return found.length ? Number(found[found.length - 1][1]) * 1000 : null;
}

/**
 * A clash as a stair of heights, and the ways out beside it.
 * @param {any} finding
 * @param {number} width
 * @param {(finding: any, index: number) => void} tryWay
 */
export function chainPart(finding, width, tryWay) {
  const steps = finding.chain.map((/** @type {string} */ words) => ({ words, level_mm: levelIn(words) })),
    known = steps.filter((/** @type {any} */ step) => step.level_mm !== null);
  const box = el(
    "div",
    { class: `finding ${finding.severity}` },
    el("p", {}, el("span", { class: "word", text: SIGN[finding.severity] }), el("span", { text: finding.message })),
  );
  if (known.length) box.append(stair(known, finding, Math.min(width - 40, 640)));
  box.append(el("ol", {}, ...steps.map((/** @type {any} */ step) => el("li", { text: step.words }))));
  if (finding.options.length)
    box.append(
      el("p", { text: "Options:" }),
      el(
        "ol",
        { class: "chain-ways" },
        ...finding.options.map(
          (/** @type {{words: string, changes: unknown[]}} */ { words, changes }, /** @type {number} */ index) =>
            el(
              "li",
              {},
              el("span", { text: `${words} ` }),
              changes.length
                ? el("button", { type: "button", text: "Try it", on: { click: () => tryWay(finding, index) } })
                : null,
            ),
        ),
      ),
    );
  return box;
}

/** @param {{words: string, level_mm: number}[]} known @param {any} finding @param {number} width */
function stair(known, finding, width) {
  const all = known.map((step) => step.level_mm);
  if (
    finding.unit === "mm" &&
    finding.value !== null &&
    finding.limit !== null &&
    Math.abs(finding.value - all[0]) < 2000
  )
    all.push(finding.value, finding.limit);
  const high = 190,
    top = Math.max(...all),
    low = Math.min(...all),
    k = (high - 70) / Math.max(top - low, 20),
    X = (/** @type {number} */ index) => (width * index) / known.length,
    Y = (/** @type {number} */ at) => 34 + (top - at) * k;
  const node = svg("svg", {
    class: "look-stair",
    width,
    height: high,
    viewBox: `0 0 ${width} ${high}`,
    role: "img",
    "aria-label": `Levels in turn: ${known.map((step) => level(step.level_mm)).join(", then ")}`,
  });
  known.forEach((step, index) => {
    const y = Y(step.level_mm),
      next = known[index + 1];
    node.append(
      svg("path", {
        d: `M${X(index)} ${y}H${X(index + 1)}${next ? `V${Y(next.level_mm)}` : ""}`,
        fill: "none",
        stroke: "currentColor",
        "stroke-width": 3,
      }),
      svg("text", {
        x: X(index) + 4,
        y: y - 7,
        "font-size": 14,
        "font-weight": 750,
        fill: "currentColor",
        text: `${index + 1}. ${level(step.level_mm)}`,
      }),
    );
    if (next) {
      const by = next.level_mm - step.level_mm;
      if (Math.abs(by) >= 0.5)
        node.append(
          svg("text", {
            x: X(index + 1) + 5,
            y: (y + Y(next.level_mm)) / 2 + 13,
            "font-size": 12.5,
            fill: "currentColor",
            stroke: "var(--sheet)",
            "stroke-width": 3,
            "paint-order": "stroke",
            text: `${by > 0 ? "+" : "−"}${plain(Math.abs(by))}`,
          }),
        );
    }
  });
  if (all.length > known.length) {
    const x = X(known.length - 0.45),
      from = Y(finding.value),
      to = Y(finding.limit);
    node.append(
      svg("path", {
        d: `M${x} ${from}V${to}M${x - 5} ${from}h10M${x - 5} ${to}h10`,
        stroke: "var(--stop)",
        "stroke-width": 2.5,
        "stroke-dasharray": "5 3",
      }),
      svg("text", {
        x: x + 8,
        y: high - 10,
        "font-size": 14,
        "font-weight": 750,
        fill: "var(--stop)",
        "text-anchor": "end",
        text: `${plain(Math.abs(finding.value - finding.limit))} mm apart`,
      }),
    );
  }
  return node;
}

/** The whole part of the stage. @param {any} state @param {{tryWay: (finding: any, index: number) => void}} wishes */
export function sectionPart(state, wishes) {
  const { plan } = state,
    places = placesToCut(plan),
    clashes = plan.findings.filter((/** @type {any} */ one) => one.code.startsWith("levels.") && one.chain.length);
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
  const select = /** @type {HTMLSelectElement} */ (
    el(
      "select",
      { "aria-label": "Where the section is cut" },
      ...places.map((place, index) => el("option", { value: String(index), text: place.name })),
    )
  );
  select.value = String(chosen);
  const draw = () => {
    const place = places[Number(select.value)],
      width = Math.max(290, Math.min(900, holder.clientWidth || 480));
    holder.replaceChildren(sectionDrawing(plan, place, width));
    told.textContent = sectionWords(plan, place);
    chains.replaceChildren(...clashes.map((/** @type {any} */ one) => chainPart(one, width, wishes.tryWay)));
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
