// @ts-check
/** Layers of what stands on the site and what is set out and noticed there. */
import { svg } from "../../lib/dom.js";
import { level, plain } from "../../lib/words.js";
import { pathOf } from "./paths.js";
import { placesOf } from "./outline.js";
import { behind, mid, sign, text, thin } from "./signs.js";

/** What the page gives beside the plan. @type {{photos: {id: string, note: string, place: number[]|null}[]}} */
export const given = { photos: [] };

/** @type {Record<string, import("./signs.js").Layer>} */
export const ON_SITE = {
  pegs: {
    name: "Pegs and strings",
    on: false,
    draw(to) {
      const pegs = new Map(to.plan.setting_out.pegs.map((peg) => [peg.name, peg]));
      for (const line of to.plan.setting_out.strings) {
        const ends = [pegs.get(line.start), pegs.get(line.end)];
        if (ends[0] && ends[1])
          to.ground.append(
            svg("path", {
              d: pathOf([ends[0].at, ends[1].at], false),
              ...thin,
              "stroke-width": line.carries_fall ? 2.2 : 1.2,
              "stroke-dasharray": line.carries_fall ? null : "6 4",
            }),
          );
      }
      for (const peg of to.plan.setting_out.pegs) {
        if (peg.no_pin)
          sign(
            to,
            peg.at,
            svg("circle", { r: 8, fill: "var(--sheet)", stroke: "currentColor", "stroke-width": 2.2 }),
            svg("path", {
              d: "M-5.6 -5.6L5.6 5.6M-5.6 5.6L5.6 -5.6",
              fill: "none",
              stroke: "currentColor",
              "stroke-width": 2.2,
            }),
            text(`${peg.name.replace("Peg ", "")} NO PIN`, { y: -12, "font-size": 12, "font-weight": 650 }),
          );
        else
          sign(
            to,
            peg.at,
            svg("path", { d: "M-5 -5H5V5H-5Z", fill: "var(--sheet)", stroke: "currentColor", "stroke-width": 1.8 }),
            text(peg.name.replace("Peg ", ""), { y: -10, "font-size": 12 }),
          );
      }
    },
  },
  site: {
    name: "Walls, drains, covers",
    on: true,
    draw(to) {
      const site = to.plan.survey.site;
      for (const wall of site.walls) {
        to.ground.append(
          svg("path", {
            d: pathOf([wall.start, wall.end], false),
            ...thin,
            stroke: "var(--wall)",
            "data-line": "wall",
            "stroke-width": 6,
          }),
        );
        for (const opening of wall.openings) {
          to.ground.append(
            svg("path", {
              d: pathOf([opening.start, opening.end], false),
              fill: "none",
              stroke: "var(--sheet)",
              "stroke-width": 3.5,
              "vector-effect": "non-scaling-stroke",
            }),
          );
          sign(to, mid(opening.start, opening.end), text(opening.name, { y: 19, "font-size": 12 }));
        }
        for (const brick of wall.air_bricks)
          sign(
            to,
            brick.at,
            svg("path", {
              d: "M-6 -4H6V4H-6ZM-2 -4V4M2 -4V4",
              fill: "var(--sheet)",
              stroke: "currentColor",
              "stroke-width": 1.4,
            }),
          );
        const words = text(
          wall.dpc_level_mm === null
            ? wall.is_house
              ? `${wall.name}, DPC not read`
              : wall.name
            : `${wall.name}, DPC ${level(wall.dpc_level_mm)}`,
          { y: 4, "font-size": 12, "font-weight": 650 },
        );
        sign(to, mid(wall.start, wall.end), svg("g", { transform: behind(wall, to) }, words));
      }
      for (const line of site.channels) {
        to.ground.append(
          svg("path", {
            d: pathOf([line.start, line.end], false),
            ...thin,
            stroke: "var(--water)",
            "stroke-width": 5,
            "stroke-dasharray": "4 3",
          }),
        );
        sign(to, mid(line.start, line.end), text(line.name, { y: -9, "font-size": 12 }));
      }
      for (const one of site.gullies)
        sign(
          to,
          one.at,
          svg("path", {
            d: "M-8 -8H8V8H-8ZM-8 -8L8 8M8 -8L-8 8",
            fill: "var(--sheet)",
            stroke: "var(--water)",
            "stroke-width": 2,
          }),
          text(one.gully.name, { y: 23, "font-size": 12 }),
        );
      for (const one of site.covers) {
        to.ground.append(
          svg("path", {
            d: pathOf(one.outline),
            fill: "var(--sheet)",
            stroke: "currentColor",
            "stroke-width": 2,
            "vector-effect": "non-scaling-stroke",
          }),
        );
        sign(to, one.at, text(one.cover.name, { y: 5, "font-size": 12 }));
      }
      for (const one of site.obstacles)
        to.ground.append(
          svg("path", {
            d: pathOf(one.outline),
            fill: "var(--wall)",
            stroke: "currentColor",
            "stroke-width": 1.5,
            "vector-effect": "non-scaling-stroke",
          }),
        );
      for (const one of site.trees)
        sign(
          to,
          one.at,
          svg("circle", { r: 11, ...thin, "stroke-width": 1.6, "stroke-dasharray": "5 3" }),
          svg("circle", { r: 3, fill: "currentColor" }),
          text(one.tree.name, { y: 26, "font-size": 12 }),
        );
      for (const one of site.boundaries) {
        to.ground.append(
          svg("path", {
            d: pathOf([one.start, one.end], false),
            ...thin,
            "data-line": "boundary",
            "stroke-width": 2,
            "stroke-dasharray": "14 4 2 4",
          }),
        );
        sign(to, mid(one.start, one.end), text(one.name, { y: -8, "font-size": 12 }));
      }
      for (const one of site.tie_ins)
        to.ground.append(svg("path", { d: pathOf([one.start, one.end], false), ...thin, "stroke-width": 3 }));
    },
  },
  tapes: {
    name: "Tapes",
    on: false,
    draw(to) {
      const tapes = to.plan.survey.tapes,
        at = placesOf(to.plan);
      if (!tapes) return;
      const line = (
        /** @type {string} */ from,
        /** @type {string} */ end,
        /** @type {Record<string, string|number>} */ pen,
      ) => {
        const [one, other] = [at.get(from), at.get(end)];
        if (one && other) to.ground.append(svg("path", { d: pathOf([one, other], false), ...thin, ...pen }));
      };
      for (const one of tapes.residuals) line(one.start, one.end, { "stroke-width": 1.2, "stroke-dasharray": "1 4" });
      for (const one of tapes.suspects) {
        for (const [from, end] of one.alike.length ? one.alike : [[one.start, one.end]])
          line(from, end, { "stroke-width": 3.5, stroke: "var(--stop)" });
        if (one.slip_mm !== null)
          sign(
            to,
            mid(at.get(one.start) ?? [], at.get(one.end) ?? []),
            text(`${plain(Math.abs(one.slip_mm))} too ${one.slip_mm > 0 ? "long" : "short"}?`, {
              "data-rank": 0,
              y: -8,
              "font-size": 13,
              "font-weight": 700,
              fill: "var(--stop)",
            }),
          );
      }
      const more = tapes.next_tape;
      if (more) {
        line(more.start, more.end, { "stroke-width": 2.2, "stroke-dasharray": "12 4 2 4", stroke: "var(--act)" });
        sign(
          to,
          mid(at.get(more.start) ?? [], at.get(more.end) ?? []),
          text("tape next", { y: -8, "font-size": 12, fill: "var(--act)" }),
        );
      }
    },
  },
  services: {
    name: "Services",
    on: true,
    draw(to) {
      for (const one of to.plan.survey.site.services) {
        to.ground.append(
          svg("path", {
            d: pathOf(one.points, false),
            ...thin,
            "stroke-width": 2.2,
            "stroke-dasharray": "10 4 2 4 2 4",
            stroke: "var(--stop)",
          }),
        );
        sign(
          to,
          one.points[Math.floor(one.points.length / 2)],
          text(`${one.service.name} (${one.service.kind})`, { y: -9, "font-size": 12, fill: "var(--stop)" }),
        );
      }
    },
  },
  asLaid: {
    name: "As laid",
    on: false,
    draw(to) {
      for (const area of to.plan.as_laid?.areas ?? [])
        for (const one of area.readings) {
          const mark =
            { pass: "M-5 0L-1 4L6 -5", fail: "M-5 -5L5 5M5 -5L-5 5", unsure: "M-5 0H5" }[
              /** @type {"pass"} */ (one.verdict)
            ] ?? "M-5 0H5";
          sign(
            to,
            one.at,
            svg("path", {
              d: mark,
              ...thin,
              "stroke-width": 2.4,
              stroke: one.verdict === "fail" ? "var(--stop)" : "currentColor",
            }),
            text(`${one.deviation_mm > 0 ? "+" : ""}${plain(one.deviation_mm)}`, { y: 17, "font-size": 11.5 }),
          );
        }
    },
  },
  photos: {
    name: "Photos",
    on: false,
    draw(to) {
      for (const one of given.photos)
        if (one.place)
          sign(
            to,
            one.place,
            svg("path", {
              d: "M-11 -8H-5L-3 -12H3L5 -8H11V8H-11ZM0 -4.5A4.5 4.5 0 1 0 0 4.5A4.5 4.5 0 1 0 0 -4.5Z",
              fill: "var(--act)",
              stroke: "var(--sheet)",
              "stroke-width": 1.5,
              "fill-rule": "evenodd",
            }),
            svg("title", { text: one.note || "Photo" }),
          );
    },
  },
  findings: {
    name: "Findings",
    on: true,
    draw(to) {
      for (const one of to.plan.findings)
        if (one.at_mm && one.severity !== "note") {
          const stop = one.severity === "stop";
          sign(
            to,
            one.at_mm,
            svg("path", {
              d: stop ? "M-9 -9H9V9H-9Z" : "M0 -11L10 8H-10Z",
              fill: stop ? "var(--stop)" : "var(--check)",
              stroke: "var(--sheet)",
              "stroke-width": 1.5,
            }),
            svg("text", {
              y: 5,
              "data-rank": 0,
              "text-anchor": "middle",
              "font-size": 13,
              "font-weight": 800,
              fill: "var(--sheet)",
              text: "!",
            }),
            svg("title", { text: one.message }),
          );
        }
    },
  },
};
