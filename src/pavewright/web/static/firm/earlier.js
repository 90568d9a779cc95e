// @ts-check
/** Earlier revisions of the book: what differs from now, and one of them brought back. */
import { call } from "../lib/api.js";
import { ask, el, tell } from "../lib/dom.js";
import { counted, messageOf, moment, plain } from "../lib/words.js";
import { table } from "../lib/results.js";
import { differenceTable, differences } from "../job/differences.js";
import { listen } from "../job/form/inputs.js";

/** @typedef {import("./state.js").FirmState} FirmState */
/** @typedef {{rev: number, at: string, note: string}} Revision */

const SHOWN = 120,
  ROWS = 80;

/** @param {FirmState} given */
export function earlier(given) {
  const list = el("div", { role: "status" }, el("p", { class: "quiet", text: "Asking …" }));
  let known = -1;
  const load = async () => {
    if (known === given.rev) return;
    known = given.rev;
    try {
      const { revisions } = await call("GET", "/api/firm/revisions");
      list.replaceChildren(...shown(given, revisions));
    } catch (problem) {
      list.replaceChildren(el("p", { class: "unknown", text: messageOf(problem) }));
    }
  };
  load();
  listen(/** @type {any} */ (given), list, "kept", load);
  return [
    el("p", {
      class: "quiet",
      text:
        "The last fifty changes are kept; of older ones the last of each day, and after a year the last of each " +
        "month. A quoted job keeps its prices whatever becomes of the book.",
    }),
    list,
  ];
}

/** @param {FirmState} state @param {Revision[]} revisions */
function shown(state, revisions) {
  if (!revisions.length) return [el("p", { text: "Nothing is kept yet." })];
  const rows = revisions.slice(0, SHOWN).map((one) => [
    String(one.rev),
    moment(one.at),
    one.note || "–",
    one.rev === state.rev
      ? "now"
      : el("button", {
          type: "button",
          class: "small",
          text: "Compare",
          "aria-label": `Compare revision ${one.rev} with now`,
          on: { click: () => compare(state, one).catch((problem) => tell(messageOf(problem))) },
        }),
  ]);
  const heads = [{ head: "No.", number: true }, { head: "When" }, { head: "What was done" }, { head: "" }];
  return [
    table(heads, rows, "Earlier books"),
    revisions.length > SHOWN ? el("p", { text: `and ${plain(revisions.length - SHOWN)} older ones` }) : null,
  ].filter((one) => one !== null);
}

/** @param {FirmState} state @param {Revision} one */
async function compare(state, one) {
  const old = (await call("GET", `/api/firm/revisions/${one.rev}`)).document,
    found = differences(old, state.doc);
  const way = await ask(
    `Revision ${one.rev} and now`,
    [
      el("p", { text: [moment(one.at), one.note].filter(Boolean).join(": ") }),
      el("p", { text: found.length ? counted(found.length, "difference") : "Nothing differs." }),
      ...(found.length ? [differenceTable(found.slice(0, ROWS), ["Then", "Now"])] : []),
      ...(found.length > ROWS ? [el("p", { text: `and ${plain(found.length - ROWS)} more` })] : []),
    ],
    [
      { label: "Close", value: "", main: true },
      { label: `Bring back revision ${one.rev}`, value: "back" },
    ],
  );
  if (way !== "back") return;
  state.change(`revision ${one.rev} brought back`, (doc) => {
    for (const name of Object.keys(doc)) delete doc[name];
    Object.assign(doc, structuredClone(old));
  });
  tell(`Revision ${one.rev} stands again. Undo puts back what was there.`);
}
