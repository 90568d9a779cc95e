// @ts-check
/** What a customer may see of a job. The server sends nothing else. */
import { el, find } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { moneyParts } from "../lib/money-parts.js";
import { table } from "../lib/results.js";
import { day, metres, money, squareMetres, messageOf } from "../lib/words.js";
import { setWriting } from "../lib/writing.js";

const id = location.pathname.split("/")[2],
  main = find("#main");
find("#back").setAttribute("href", `/jobs/${id}#papers`);
find("#print").addEventListener("click", () => window.print());

/** @param {string[]} words */
const points = (words) => el("ul", {}, ...words.map((one) => el("li", { text: one })));
/** A part of the sheet; nothing of a part of which nothing is known. @param {string} title @param {...Node} inside */
const part = (title, ...inside) =>
  inside.some((one) => one.textContent || one instanceof HTMLImageElement)
    ? [el("h2", { text: title }), ...inside]
    : [];
/** A drawing as an image: what is inside it can do nothing. @param {string} drawing @param {string} words */
const picture = (drawing, words) =>
  drawing
    ? el(
        "figure",
        {},
        el("img", { src: URL.createObjectURL(new Blob([drawing], { type: "image/svg+xml" })), alt: words }),
        el("figcaption", { text: words }),
      )
    : el("span");

/** The price in the words of the paper; what is known of it, where there is no paper yet. @param {any} job */
function price(job) {
  const write = (/** @type {number|null} */ minor) => (minor === null ? "not known yet" : money(minor, job.currency)),
    rows = job.money?.price ?? [
      ["Before tax", write(job.before_tax_minor)],
      [job.tax, write(job.tax_minor)],
      ["To pay", write(job.to_pay_minor)],
    ],
    [last] = rows.slice(-1);
  return [
    table([{ head: "" }, { head: "Amount", number: true }], rows.slice(0, -1), "Price"),
    el("p", {}, `${last[0]} `, el("span", { class: "pay", text: last[1] })),
    ...(job.money ? [points(job.money.statements)] : []),
  ];
}

/** @param {any} job */
function sheet(job) {
  setWriting(job, job.kept);
  document.title = `${job.title} – for the customer`;
  return [
    el("h1", { text: job.title }),
    el("p", { text: [job.client, job.address].filter(Boolean).join(", ") }),
    el("p", {
      class: "quiet",
      text: [job.contractor, job.job, job.date ? day(job.date) : ""].filter(Boolean).join(" · "),
    }),
    ...(job.invented
      ? [el("p", {}, el("strong", { text: "This is an invented example: names and prices are invented." }))]
      : []),
    ...part("What is done", points(job.scope), picture(job.pictures.laying, "The paving as it will lie")),
    ...part(
      "Sizes",
      points(
        job.areas.map(
          (/** @type {any} */ area) =>
            `${area.name}: ${squareMetres(area.area_m2)}, ${metres(area.across_mm)} × ${metres(area.deep_mm)} at ` +
            `its widest${area.falls ? `, falls ${area.falls}` : ""}.`,
        ),
      ),
    ),
    ...part(
      "What lies under it",
      ...job.areas
        .filter((/** @type {any} */ area) => area.layers.length)
        .flatMap((/** @type {any} */ area) => [
          el("p", { text: `${area.name}, from the top down:` }),
          points(area.layers),
        ]),
    ),
    ...part(
      "Levels",
      points(job.areas.flatMap((/** @type {any} */ area) => area.doors)),
      picture(
        job.pictures.levels,
        "Finished levels, in metres above the job's own mark; arrows show which way water runs",
      ),
    ),
    ...part("When", points(job.when)),
    el("div", { class: "together" }, ...part("Price", ...price(job))),
    ...(job.money ? moneyParts(job.money).flatMap(([title, ...inside]) => part(title, ...inside)) : []),
    ...part("Taken as given", points(job.assumed)),
    ...part("Not in the price", points(job.not_included)),
    ...part("What is promised", points(job.promised)),
    ...part("Please mind", points(job.cautions)),
    el("p", { class: "quiet", text: job.right_to_cancel }),
    el(
      "div",
      { class: "sign-lines" },
      ...["Agreed (customer)", "Date", "For the contractor", "Date"].map((words) => el("span", { text: words })),
    ),
  ];
}

try {
  const job = await call("GET", `/api/jobs/${id}/customer`);
  // on paper the margin of every page says it again
  main.replaceChildren(
    ...(job.not_ready ? [el("p", { class: "not-ready", text: job.not_ready })] : []),
    el("div", {}, ...sheet(job)),
  );
} catch (problem) {
  main.replaceChildren(
    el("h1", { text: "There is nothing to show yet" }),
    el("p", { role: "alert", text: messageOf(problem) }),
    el("a", { class: "button", href: `/jobs/${id}`, text: "To the job" }),
  );
}
