// @ts-check
/** The laying order played back on the plan, piece by piece or course by course. */
import { el, say, svg } from "../../lib/dom.js";
import { group } from "../form/form.js";
import { counted, plain } from "../../lib/words.js";
import { piecesOf } from "../plan/pieces.js";
import { shapePath } from "../plan/paths.js";

const EVERY_MS = 180;

/** What a cut piece is beside its size. @param {plan.Piece} piece */
export const shapeWords = (piece) => `${piece.notched ? ", notched" : ""}${piece.curved ? ", curved" : ""}`;

/** What a piece is, in words. @param {plan.Piece|undefined} piece */
export function pieceWords(piece) {
  if (!piece) return "A piece that is no longer laid";
  const size = `${plain(piece.along_mm)} × ${plain(piece.across_mm)} mm`;
  return (
    `Piece ${piece.number}, course ${piece.course}, place ${piece.place}: ${piece.unit}, ` +
    `${piece.kind === "whole" ? "whole" : `cut to ${size}${shapeWords(piece)}`}.`
  );
}

/** @param {Planned} state @param {plan.LaidArea} area @param {import("./overlay.js").Overlay} overlay */
export function playback(state, area, overlay) {
  const count = piecesOf(area).count;
  if (!count) return group(`Laying order of ${area.area}`, [el("p", { text: "There is no piece to lay yet." })]);
  let now = 0,
    timer = 0;
  /** @type {plan.Piece[]} */ let pieces = [];
  /** @type {string[]} */ let paths = [];
  const told = el("p", { role: "status", class: "look-told" });
  const slider = el("input", {
    type: "range",
    min: 0,
    max: count,
    step: 1,
    value: "0",
    "aria-label": `Pieces laid of ${area.area}`,
  });
  const play = el("button", { type: "button", class: "main", text: "▶ Play" });
  const halt = () => {
    clearInterval(timer);
    timer = 0;
    say(play, "▶ Play");
  };
  /** @param {number} to */
  const show = (to) => {
    now = Math.max(0, Math.min(pieces.length, to));
    slider.value = String(now);
    const { ground } = overlay.take(`order ${area.area}`);
    ground.replaceChildren(
      svg("path", {
        class: "look-waits",
        d: paths.slice(now).join(""),
        fill: "var(--sheet)",
        stroke: "var(--line)",
        "stroke-width": 0.8,
        "vector-effect": "non-scaling-stroke",
        "fill-rule": "evenodd",
      }),
      svg("path", {
        class: "look-laid",
        d: paths.slice(0, now).join(""),
        fill: "var(--slab)",
        stroke: "var(--line-strong)",
        "stroke-width": 1,
        "vector-effect": "non-scaling-stroke",
        "fill-rule": "evenodd",
      }),
    );
    if (now)
      ground.append(
        svg("path", {
          class: "look-now",
          d: paths[now - 1],
          fill: "var(--act-soft)",
          stroke: "var(--act)",
          "stroke-width": 3.5,
          "vector-effect": "non-scaling-stroke",
        }),
      );
    say(
      told,
      now
        ? `${now} of ${pieces.length}. ${pieceWords(pieces[now - 1])}`
        : `Nothing laid. ${counted(pieces.length, "piece")} to lay.`,
    );
  };
  slider.addEventListener("input", () => {
    halt();
    show(Number(slider.value));
  });
  play.addEventListener("click", () => {
    if (timer) {
      halt();
      return;
    }
    if (now === pieces.length) show(0);
    say(play, "❚❚ Pause");
    timer = setInterval(() => {
      if (!play.isConnected || now === pieces.length || overlay.owner !== `order ${area.area}`) {
        halt();
        return;
      }
      show(now + 1);
    }, EVERY_MS);
    show(now + 1);
  });
  /** @param {number} way */
  const course = (way) => {
    halt();
    let to = now;
    if (way > 0) {
      const which = pieces[Math.min(now, pieces.length - 1)].course;
      while (to < pieces.length && pieces[to].course === which) to += 1;
    } else {
      if (to > 0) {
        const which = pieces[to - 1].course;
        while (to > 0 && pieces[to - 1].course === which) to -= 1;
      }
    }
    show(to);
  };
  const button = (/** @type {string} */ text, /** @type {string} */ name, /** @type {() => void} */ act) =>
    el("button", { type: "button", text, "aria-label": name, on: { click: act } });
  const box = group(`Laying order of ${area.area}`, [
    el("p", { class: "quiet", text: "Played on the plan, in the order of the numbers." }),
    el(
      "div",
      { class: "row" },
      play,
      button("− course", "One course back", () => course(-1)),
      button("−1", "One piece back", () => {
        halt();
        show(now - 1);
      }),
      button("+1", "One piece on", () => {
        halt();
        show(now + 1);
      }),
      button("+ course", "One course on", () => course(1)),
    ),
    slider,
    told,
  ]);
  box.addEventListener("toggle", () => {
    if (box.open) {
      if (!pieces.length) {
        pieces = [...area.pieces].sort((a, b) => a.number - b.number);
        paths = pieces.map((piece) => shapePath(piece.shape));
      }
      show(now);
    } else {
      halt();
      if (overlay.owner === `order ${area.area}`) overlay.clear();
    }
  });
  void state;
  return box;
}
