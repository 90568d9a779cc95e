// @ts-check
/** Where a figure comes from, in one sentence. */
import { el } from "../lib/dom.js";
import { STATUS } from "../lib/results.js";
import { plain } from "../lib/words.js";

/** What is no source of its own, but what the trade does. */
const PRACTICE = "common_practice";

/** @typedef {import("./parts.js").Here} Here */

/** The source and how far to trust it, without an end. @param {Here} here @param {plan.Figure} figure */
export function from(here, figure) {
  const titles = here.view?.sources ?? {},
    status = STATUS[figure.status] ?? "",
    place = figure.place;
  if (figure.source === PRACTICE) return [status, place].filter(Boolean).join(", ");
  const title = titles[figure.source] ?? figure.source.replaceAll("_", " ");
  return [[title, place].filter(Boolean).join(", "), status].filter(Boolean).join("; ");
}

/**
 * A limit with where it comes from, as one sentence.
 * @param {Here} here @param {string} limit @param {plan.Figure} figure
 */
export const limitFrom = (here, limit, figure) => `${limit}: ${from(here, figure)}.`;

/** A figure with where it comes from, as one sentence. @param {Here} here @param {plan.Figure} figure */
export function source(here, figure) {
  const unit = figure.unit && figure.unit !== "-" ? ` ${figure.unit}` : "",
    label = figure.label.charAt(0).toUpperCase() + figure.label.slice(1);
  return el("p", { class: "source", text: limitFrom(here, `${label}, ${plain(figure.value, 1)}${unit}`, figure) });
}
