// @ts-check
/**
 * A table whose rows become cards where it is wider than its place: each cell then stands under the head of its column,
 * so that nothing is out of sight at any width.
 */

import { el } from "./dom.js";

/** @type {WeakMap<Element, HTMLTableElement>} */ const tables = new WeakMap();

const watch = new ResizeObserver((entries) => {
  const known = entries.flatMap(({ target }) => {
    const table = tables.get(target);
    return table && target.clientWidth ? [{ box: target, table }] : [];
  });
  // all are laid out as tables first, then measured, then turned: the page is laid out twice and no more
  for (const { table } of known) table.classList.remove("as-cards");
  const wide = known.filter(({ box, table }) => table.offsetWidth > box.clientWidth + 1);
  for (const { table } of wide) table.classList.add("as-cards");
});

/**
 * Let a table turn into cards. Called again after its rows were made anew.
 * @param {HTMLTableElement} table @param {HTMLElement} [box] its place; without one it is the table's own
 */
export function cards(table, box) {
  const heads = [...table.querySelectorAll("thead tr:last-child > *")].map((one) => one.textContent ?? "");
  table.setAttribute("role", "table");
  for (const part of table.querySelectorAll("thead, tbody")) part.setAttribute("role", "rowgroup");
  for (const head of table.querySelectorAll("thead th")) head.setAttribute("role", "columnheader");
  for (const row of table.querySelectorAll("tr")) row.setAttribute("role", "row");
  for (const row of table.querySelectorAll("tbody > tr"))
    [...row.children].forEach((cell, index) => {
      cell.setAttribute("role", cell.tagName === "TH" ? "rowheader" : "cell");
      if (row.children.length === heads.length && heads[index] && !cell.hasAttribute("data-head"))
        cell.setAttribute("data-head", heads[index]);
    });
  const place = box ?? table.parentElement;
  if (place && tables.get(place) !== table) {
    tables.set(place, table);
    watch.observe(place);
  }
  return table;
}

/**
 * A table in a place of its own, with a name for those who listen.
 * @param {string} name @param {HTMLTableElement} table @param {...(Node|null)} more what stands below it
 */
export function placed(name, table, ...more) {
  const box = el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": name }, table, ...more);
  cards(table, box);
  return box;
}
