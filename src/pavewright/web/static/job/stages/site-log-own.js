// @ts-check
/** What finished tasks say of the firm's own outputs, taken into its book by a touch. */
import { call, freshId } from "../../lib/api.js";
import { el, say } from "../../lib/dom.js";
import { table } from "../../lib/results.js";
import { counted, messageOf, plain, spoken } from "../../lib/words.js";

/** @typedef {import("./site-log.js").Own} Own */
/** @typedef {import("./site-log.js").Told} Told */

const WHY_NOT = /** @type {Record<string, string>} */ ({
  not_done: "not done yet: no half task counts",
  in_book: "✓ the book holds it",
});

/** @param {Told} found @param {() => void} again @returns {Node[]} */
export function ownHours(found, again) {
  if (!found.own.length) return [];
  const told = el("p", { class: "quiet", role: "status" });
  return [
    el("h3", { text: "Own outputs" }),
    table(
      [
        { head: "Work" },
        { head: "Done", number: true },
        { head: "Hours", number: true },
        { head: "Own, h each", number: true },
        { head: "Planned, h each", number: true },
        { head: "The book would say, h each" },
        { head: "" },
      ],
      found.own.map((one) => [
        one.words.join("; "),
        plain(one.amount, 2),
        plain(one.person_h, 1),
        plain(one.hours_each, 2),
        plain(one.planned_each, 2),
        one.learnt
          ? `${plain(one.learnt.hours_each, 2)}, spread ${plain(one.learnt.sd_hours, 2)}; ` +
            counted(one.learnt.jobs, "job")
          : WHY_NOT[one.why_not ?? ""],
        one.entry
          ? el("button", {
              type: "button",
              text: "Take into the book",
              "aria-label": `Take into the book: ${spoken(one.kind)}`,
              on: { click: () => take(one, told, again) },
            })
          : "",
      ]),
      "Own outputs",
    ),
    told,
  ];
}

/**
 * Put hours into the firm's book, onto whatever others changed meanwhile.
 * @param {Own} one @param {HTMLElement} told @param {() => void} again
 */
async function take(one, told, again) {
  say(told, "Saving …");
  try {
    for (let turn = 0; turn < 3; turn += 1) {
      const { rev, document } = await call("GET", "/api/firm");
      const past = document.past ?? [],
        there = past.some(
          (/** @type {any} */ each) =>
            each.job === one.entry.job &&
            each.kind === one.entry.kind &&
            (each.pattern ?? null) === (one.entry.pattern ?? null),
        );
      if (there) break;
      try {
        const note = `hours of ${one.entry.job}`.slice(0, 200);
        await call("PUT", "/api/firm", {
          rev,
          document: { ...document, past: [...past, one.entry] },
          note,
          key: freshId(),
        });
        break;
      } catch (problem) {
        if (/** @type {any} */ (problem).status !== 409 || turn === 2) throw problem;
      }
    }
    say(told, "The firm's book holds it: the next jobs are planned with it.");
    again();
  } catch (problem) {
    say(told, messageOf(problem));
  }
}
