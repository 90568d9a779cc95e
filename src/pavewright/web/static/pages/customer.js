// @ts-check
/** What the customer sees: the sheets of the customer pack, as the server hands them out. */
import { el, find } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { day } from "../lib/words.js";

const id = location.pathname.split("/")[2], room = find("#sheets");
find("#back").setAttribute("href", `/jobs/${id}#papers`);
find("#print").addEventListener("click", () => print());

/** @param {any} block */
function drawn(block) {
  if (block.kind === "heading") return el("h3", { text: block.text });
  if (block.kind === "list") return el(block.numbered ? "ol" : "ul", {}, ...block.items.map((/** @type {string} */ words) => el("li", { text: words })));
  if (block.kind === "facts") return el("dl", { class: "pairs" }, ...block.pairs.flatMap((/** @type {string[]} */ [name, value]) => [el("dt", { text: name }), el("dd", { text: value })]));
  if (block.kind === "lines") return el("div", { class: "lines" }, ...block.labels.map((/** @type {string} */ words) => el("span", { text: words })));
  if (block.kind === "table") return el("div", { class: "scroll", tabindex: "0" }, el("table", {}, el("thead", {}, el("tr", {}, ...block.columns.map((/** @type {any} */ column) => el("th", { scope: "col", text: column.head })))), el("tbody", {}, ...block.rows.map((/** @type {string[]} */ row) => el("tr", {}, ...row.map((cell) => el("td", { text: cell })))))));
  if (block.kind === "drawing") {
    const image = /** @type {HTMLImageElement} */ (document.createElement("img"));
    image.src = URL.createObjectURL(new Blob([block.svg], { type: "image/svg+xml" }));
    image.alt = block.alt;
    image.className = "paper";
    return image;
  }
  return el("p", { class: block.kind === "small" ? "quiet" : "", text: block.text ?? "" });
}

try {
  const told = await call("GET", `/api/jobs/${id}/customer`);
  document.title = `${told.title} – ${told.contractor}`;
  room.replaceChildren(el("h1", { text: told.title }), el("p", { class: "quiet", text: [told.contractor, told.client, told.address, `revision ${told.revision}, ${day(told.date)}`].filter(Boolean).join(" · ") }),
    ...told.sheets.map((/** @type {any} */ sheet) => el("section", { class: "sheet" }, el("h2", { text: sheet.title }), ...sheet.blocks.map(drawn))));
} catch (problem) { room.replaceChildren(el("p", { role: "alert", text: /** @type {any} */ (problem).message })); }
