// @ts-check
/** A clash of levels as a stair of heights, with its options. */
import { el, svg } from "../../lib/dom.js";
import { level, plain } from "../../lib/words.js";
import { SIGN } from "../../lib/results.js";

/**
 * The links of a chain that lead to a level.
 * @param {Finding} finding
 * @returns {{words: string, level_mm: number}[]}
 */
const levelsOf = (finding) =>
  finding.chain.flatMap(({ words, level_mm }) => (level_mm === null ? [] : [{ words, level_mm }]));

/**
 * A clash as a stair of heights, and the options beside it.
 * @param {Finding} finding
 * @param {number} width
 * @param {(finding: Finding, index: number) => void} tryWay
 */
export function chainPart(finding, width, tryWay) {
  const known = levelsOf(finding);
  const box = el(
    "div",
    { class: `finding ${finding.severity}` },
    el("p", {}, el("span", { class: "word", text: SIGN[finding.severity] }), el("span", { text: finding.message })),
  );
  if (known.length) box.append(stair(known, finding, Math.min(width - 40, 640)));
  box.append(el("ol", {}, ...finding.chain.map((step) => el("li", { text: step.words }))));
  if (finding.options.length)
    box.append(
      el("p", { text: "Options:" }),
      el(
        "ol",
        { class: "chain-ways" },
        ...finding.options.map(({ words, changes }, index) =>
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

/** @param {{words: string, level_mm: number}[]} known @param {Finding} finding @param {number} width */
function stair(known, finding, width) {
  const apart = finding.value === null || finding.limit === null ? null : { from: finding.value, to: finding.limit },
    all = [...known.map((step) => step.level_mm), ...(apart ? [apart.from, apart.to] : [])];
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
  if (apart) {
    const x = X(known.length - 0.45),
      from = Y(apart.from),
      to = Y(apart.to);
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
        text: `${plain(Math.abs(apart.from - apart.to))} mm apart`,
      }),
    );
  }
  return node;
}
