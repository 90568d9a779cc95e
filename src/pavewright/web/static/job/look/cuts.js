// @ts-check
/**
 * The cut plan, one unit at a time: its pieces, the saw lines in their order, what is left over; linked with the plan
 * both ways.
 */
import { el, say, svg } from "../../lib/dom.js";
import { group } from "../form/form.js";
import { plain } from "../../lib/words.js";
import { cutOf } from "../plan/pieces.js";
import { shapePath } from "../plan/paths.js";
import { pieceWords } from "./playback.js";

const CLOSE_MM = 3;

/** Turn a point about the origin. @param {number[]} at @param {number} turn radians */
const turned = ([x, y], turn) => [x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn)];

/** Shift rings so that their box starts at zero; its size comes with them. @param {number[][][]} rings */
function boxed(rings) {
  const xs = rings[0].map((at) => at[0]),
    ys = rings[0].map((at) => at[1]),
    x = Math.min(...xs),
    y = Math.min(...ys);
  return {
    rings: rings.map((ring) => ring.map((at) => [at[0] - x, at[1] - y])),
    along_mm: Math.max(...xs) - x,
    across_mm: Math.max(...ys) - y,
  };
}

/**
 * The true outline of a piece on the unit that it is cut from; its box where the two do not agree.
 * @param {plan.PlacedPart} part
 * @param {plan.Piece|undefined} piece
 * @param {number} bearing_deg
 */
export function outlineOnUnit(part, piece, bearing_deg) {
  const box = [
    [0, 0],
    [part.along_mm, 0],
    [part.along_mm, part.across_mm],
    [0, part.across_mm],
  ];
  const put = (/** @type {number[][][]} */ rings) =>
    rings.map((ring) => ring.map(([x, y]) => [x + part.x_mm, y + part.y_mm]));
  if (!piece) return put([box]);
  const turn = ((bearing_deg - 90 - piece.turn_deg + 90 * part.quarter_turns) * Math.PI) / 180;
  const found = boxed(
    [piece.shape.outer, ...piece.shape.holes].map((ring) => ring.map((/** @type {number[]} */ at) => turned(at, turn))),
  );
  const fits =
    Math.abs(found.along_mm - part.along_mm) < CLOSE_MM && Math.abs(found.across_mm - part.across_mm) < CLOSE_MM;
  return put(fits ? found.rings : [box]);
}

/**
 * A sawn unit as a drawing, seen from above.
 * @param {plan.SawnUnit} unit
 * @param {plan.LaidArea} area
 * @param {number} done how many cuts are made
 */
export function unitDrawing(unit, area, done) {
  const { length_mm: long, width_mm: wide } = unit,
    pad = long * 0.09,
    pieces = cutOf(area);
  const size = Math.max(long, wide),
    flip = (/** @type {number[][][]} */ rings) =>
      shapePath({
        outer: rings[0].map(([x, y]) => [x, wide - y]),
        holes: rings.slice(1).map((ring) => ring.map(([x, y]) => [x, wide - y])),
      });
  const node = svg("svg", {
    class: "cut-unit",
    viewBox: `${-pad} ${-pad} ${long + 2 * pad} ${wide + 2 * pad}`,
    role: "img",
    "aria-label":
      `Unit ${unit.number}, ` +
      `${unit.unit}${unit.left_over_of ? `, left over from ${unit.left_over_of}` : ""}, ${plain(long)} × ` +
      `${plain(wide)} mm, gives pieces ${unit.parts.map((part) => part.piece).join(", ")}`,
  });
  const id = `rest-${area.area.replace(/\W/g, "")}-${unit.number}`;
  node.append(
    svg(
      "defs",
      {},
      svg(
        "pattern",
        { id, width: size / 26, height: size / 26, patternUnits: "userSpaceOnUse" },
        svg("path", { d: `M0 ${size / 26}L${size / 26} 0`, stroke: "currentColor", "stroke-width": size / 380 }),
      ),
    ),
    svg("rect", {
      x: 0,
      y: 0,
      width: long,
      height: wide,
      fill: `url(#${id})`,
      stroke: "currentColor",
      "stroke-width": size / 160,
    }),
  );
  const paired = new Map(
    unit.pairs.flatMap((pair) =>
      pair.pieces.map((number, index) => /** @type {const} */ ([number, pair.outlines[index]])),
    ),
  );
  for (const part of unit.parts) {
    const rings = paired.has(part.piece)
      ? [paired.get(part.piece) ?? []]
      : outlineOnUnit(part, pieces.get(part.piece), area.bearing_deg);
    const middle = [part.x_mm + part.along_mm / 2, wide - part.y_mm - part.across_mm / 2];
    node.append(
      svg("path", {
        d: flip(rings),
        class: "cut-part",
        fill: "var(--sheet)",
        stroke: "currentColor",
        "stroke-width": size / 220,
        "fill-rule": "evenodd",
      }),
    );
    const letters = Math.min(size / 11, part.along_mm * 0.42, part.across_mm * 0.5);
    node.append(
      svg("text", {
        x: middle[0],
        y: middle[1],
        "font-size": letters.toFixed(0),
        "text-anchor": "middle",
        dy: "0.1em",
        "font-weight": 700,
        fill: "currentColor",
        text: String(part.piece),
      }),
    );
    if (part.across_mm > size / 8 && part.along_mm > size / 3.6)
      node.append(
        svg("text", {
          x: middle[0],
          y: middle[1] + letters * 0.85,
          "font-size": (size / 22).toFixed(0),
          "text-anchor": "middle",
          fill: "currentColor",
          text: `${plain(part.along_mm)} × ${plain(part.across_mm)}`,
        }),
      );
  }
  for (const cut of unit.cuts) {
    const ends = cut.lengthwise
      ? [
          [cut.start_mm, wide - cut.at_mm],
          [cut.end_mm, wide - cut.at_mm],
        ]
      : [
          [cut.at_mm, wide - cut.start_mm],
          [cut.at_mm, wide - cut.end_mm],
        ];
    const made = cut.number <= done,
      next = cut.number === done + 1,
      at = ends[0];
    node.append(
      svg("path", {
        d: `M${ends[0].join(" ")}L${ends[1].join(" ")}`,
        class: next ? "cut-next" : "cut-line",
        stroke: made ? "currentColor" : "var(--act)",
        "stroke-width": next ? size / 60 : size / 130,
        "stroke-dasharray": made ? null : `${size / 30} ${size / 60}`,
      }),
      svg("circle", {
        cx: at[0],
        cy: at[1],
        r: size / 26,
        fill: next ? "var(--act)" : "var(--sheet)",
        stroke: "var(--act)",
        "stroke-width": size / 200,
      }),
      svg("text", {
        x: at[0],
        y: at[1],
        dy: "0.35em",
        "text-anchor": "middle",
        "font-size": (size / 20).toFixed(0),
        "font-weight": 750,
        fill: next ? "var(--act-ink)" : "currentColor",
        text: String(cut.number),
      }),
    );
  }
  for (const pair of unit.pairs)
    node.append(
      svg("path", {
        d: `M${pair.start[0]} ${wide - pair.start[1]}L${pair.end[0]} ${wide - pair.end[1]}`,
        stroke: "var(--act)",
        "stroke-width": size / 130,
        "stroke-dasharray": `${size / 60} ${size / 60}`,
      }),
    );
  return node;
}

/** A cut in words. @param {plan.SawCut} cut @param {plan.SawnUnit} unit */
export function cutWords(cut, unit) {
  const side = cut.lengthwise ? "from the near long side" : "from the left end";
  return (
    `Cut ${cut.number}: ${cut.trim ? "trim the edge" : `set the fence to ${plain(cut.at_mm, 1)} mm ${side}`}, ` +
    `run ${plain(cut.end_mm - cut.start_mm)} mm ${cut.lengthwise ? "along" : "across"} the ${plain(unit.length_mm)} ` +
    `× ${plain(unit.width_mm)} unit.`
  );
}

/** @param {Planned} state @param {plan.LaidArea} area @param {import("./overlay.js").Overlay} overlay */
export function cutPlan(state, area, overlay) {
  const units = area.sawn,
    owner = `cuts ${area.area}`;
  if (!units.length) return group(`Cut plan of ${area.area}`, [el("p", { text: "Nothing is sawn here." })]);
  let index = 0,
    done = 0;
  const picture = el("div", { class: "cut-picture" }),
    told = el("p", { role: "status", class: "look-told" }),
    list = el("ol", { class: "cut-pieces" });
  const which = el("select", { "aria-label": `Unit to saw of ${area.area}` });
  const choices = () =>
    units.map((unit, place) =>
      el("option", {
        value: String(place),
        text:
          `Unit ${unit.number}, ${unit.left_over_of ? "left over" : unit.unit}: pieces ` +
          `${unit.parts.map((part) => part.piece).join(", ")}`,
      }),
    );
  const show = () => {
    const unit = units[index],
      pieces = cutOf(area),
      mine = new Set(unit.parts.map((part) => part.piece));
    which.value = String(index);
    picture.replaceChildren(unitDrawing(unit, area, done));
    const next = unit.cuts[done],
      rest =
        unit.length_mm * unit.width_mm -
        unit.parts.reduce((/** @type {number} */ sum, part) => sum + (pieces.get(part.piece)?.area_m2 ?? 0) * 1e6, 0);
    say(
      told,
      unit.cuts.length === 0
        ? `Unit ${unit.number} of ${units.length}: no square cut; trim to the outline.`
        : next
          ? `Unit ${unit.number} of ${units.length}. ${cutWords(next, unit)}`
          : `Unit ${unit.number} of ${units.length}: square cuts are ` +
            `done${unit.pairs.length ? "; saw the sloping cut now" : ""}. Left over: ` +
            `${plain((100 * rest) / (unit.length_mm * unit.width_mm))} %.`,
    );
    list.replaceChildren(...unit.parts.map((part) => el("li", { text: pieceWords(pieces.get(part.piece)) })));
    draw(mine);
  };
  const draw = (/** @type {Set<number>} */ mine) => {
    const { ground, signs } = overlay.take(owner);
    signs.replaceChildren();
    ground.replaceChildren(
      ...[...cutOf(area).values()].map((piece) =>
        svg("path", {
          d: shapePath(piece.shape),
          class: "look-pick",
          "data-piece": piece.number,
          fill: mine.has(piece.number) ? "var(--act)" : "var(--slab-cut)",
          "fill-opacity": mine.has(piece.number) ? 0.55 : 0.25,
          stroke: "var(--act)",
          "stroke-width": mine.has(piece.number) ? 3.5 : 1,
          "vector-effect": "non-scaling-stroke",
          "fill-rule": "evenodd",
          on: { pointerdown: () => choose(piece.number) },
        }),
      ),
    );
    for (const number of mine) {
      const ring = cutOf(area).get(number)?.shape.outer ?? [];
      if (ring.length)
        overlay.sign(
          [
            ring.reduce((sum, at) => sum + at[0], 0) / ring.length,
            ring.reduce((sum, at) => sum + at[1], 0) / ring.length,
          ],
          svg("text", {
            y: 5,
            "text-anchor": "middle",
            "font-size": 15,
            "font-weight": 800,
            fill: "currentColor",
            stroke: "var(--sheet)",
            "stroke-width": 4,
            "paint-order": "stroke",
            text: String(number),
          }),
        );
    }
  };
  /** A piece pointed at on the plan brings the unit that it is cut from. @param {number} number */
  const choose = (number) => {
    const found = units.findIndex((unit) => unit.parts.some((part) => part.piece === number));
    if (found >= 0) {
      index = found;
      done = 0;
      show();
    }
  };
  const step = (/** @type {number} */ way) => {
    done += way;
    if (done > units[index].cuts.length) {
      if (index < units.length - 1) {
        index += 1;
        done = 0;
      } else done = units[index].cuts.length;
    }
    if (done < 0) {
      if (index > 0) {
        index -= 1;
        done = units[index].cuts.length;
      } else done = 0;
    }
    show();
  };
  which.addEventListener("change", () => {
    index = Number(which.value);
    done = 0;
    show();
  });
  const box = group(`Cut plan of ${area.area}`, [
    el("p", {
      class: "quiet",
      text:
        "Seen from above. Numbers in rings are the cuts in their order, hatched is left over. A cut piece " +
        "pointed at on the plan brings its unit.",
    }),
    which,
    el(
      "div",
      { class: "row cut-steps" },
      el("button", { type: "button", class: "step", text: "◀ Back", on: { click: () => step(-1) } }),
      el("button", { type: "button", class: "step main", text: "Next cut ▶", on: { click: () => step(1) } }),
    ),
    told,
    picture,
    list,
  ]);
  box.addEventListener("toggle", () => {
    if (box.open) {
      if (!which.options.length) which.replaceChildren(...choices());
      show();
    } else if (overlay.owner === owner) overlay.clear();
  });
  void state;
  return box;
}
