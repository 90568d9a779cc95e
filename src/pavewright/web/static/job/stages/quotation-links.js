// @ts-check
/** Links that open the quotation to the customer: made, copied, withdrawn; what he asked and what he accepted. */
import { ask, el, say, svg, tell } from "../../lib/dom.js";
import { call } from "../../lib/api.js";
import { group } from "../form/form.js";
import { counted, fullDay, messageOf, moment, money } from "../../lib/words.js";

/** @typedef {{id: string, at: string, words: string, answer: string|null, answered: string|null}} Question */

const STATES = /** @type {Record<string, string>} */ ({
  open: "open",
  over: "its last day is over",
  withdrawn: "withdrawn",
  accepted: "accepted",
});
const REACHED = /** @type {Record<string, string>} */ ({
  anywhere: "Opens from anywhere.",
  network: "Opens in the network of this machine only, while it is on.",
  here:
    "Opens on this machine only. To let customers in, start pavewright serve with --customers-port and " +
    "--customers-address, or with --on-network.",
});

/** @param {JobState} state */
export function quotationLinks(state) {
  const list = el("div"),
    told = el("p", { class: "quiet", role: "status" }),
    last = el("input", { type: "date", id: "link-last" }),
    others = el("input", { type: "checkbox", checked: true });
  const count = el("b");
  const load = async () => {
    try {
      const found = await call("GET", `/api/jobs/${state.id}/quotations`);
      list.replaceChildren(...found.links.map((/** @type {any} */ one) => card(state, one, load)));
      const waiting = found.links.flatMap((/** @type {any} */ one) => one.questions).filter(isOpen).length;
      say(count, waiting ? ` – ${counted(waiting, "question waits", "questions wait")} for an answer` : "");
      if (!found.links.length) list.append(el("p", { class: "quiet", text: "No link was made yet." }));
    } catch (problem) {
      list.replaceChildren(el("p", { role: "alert", text: messageOf(problem) }));
    }
  };
  const make = el("button", { type: "button", class: "main", text: "Make a link" });
  make.addEventListener("click", async () => {
    make.disabled = true;
    say(told, "The quotation is made and frozen …");
    try {
      const asked = { last: last.value, withdraw_others: others.checked },
        made = await call("POST", `/api/jobs/${state.id}/quotations`, asked);
      say(told, `Made, of revision ${made.link.rev}.`);
      await load();
      await hand(made, state.doc?.identity?.title ?? "");
    } catch (problem) {
      say(told, messageOf(problem));
    }
    make.disabled = false;
  });
  const box = group("Quotation on the customer's phone", [
    el("p", {
      text:
        "A private link opens this job as it stands now: drawings, price, options to tick, questions, accepting. " +
        "What it shows is frozen when it is made; nothing of cost, margin or suppliers is in it.",
    }),
    el(
      "div",
      { class: "row" },
      el("label", { class: "field", for: "link-last" }, "Last day (left empty: as long as the price holds)", last),
      el("label", { class: "field tick" }, others, "Withdraw earlier links of this job"),
      make,
    ),
    told,
    list,
  ]);
  box.querySelector("summary")?.append(count);
  load();
  return box;
}

/** @param {Question} one */
const isOpen = (one) => !one.answer;

/** Show the address of a new link: it can be read this once. @param {any} made @param {string} title */
async function hand(made, title) {
  const code = el("img", { alt: "Code of the link", width: 240, height: 240, class: "pair-code" }),
    address = el("p", { class: "pair-address" }),
    reach = el("p", { class: "quiet" }),
    told = el("p", { class: "quiet", role: "status" });
  let way = made.ways[0];
  const show = (/** @type {any} */ one) => {
    way = one;
    code.src = one.code;
    say(address, one.address);
    say(reach, REACHED[one.from] ?? "");
  };
  show(way);
  const copy = el("button", { type: "button", class: "main", text: "Copy" });
  copy.addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(way.address);
      say(told, "Copied.");
    } catch {
      getSelection()?.selectAllChildren(address);
      say(told, "Marked: copy it with the keys of this device.");
    }
  });
  const share = el("button", { type: "button", text: "Share" });
  share.hidden = !("share" in navigator);
  share.addEventListener("click", () => navigator.share({ title, url: way.address }).catch(() => {}));
  const other = made.ways
    .slice(made.ways.length > 1 ? 0 : 1)
    .map((/** @type {any} */ one) =>
      el("button", { type: "button", text: new URL(one.address).host, on: { click: () => show(one) } }),
    );
  await ask(
    "The link for the customer",
    [
      el("p", { text: "Send it now: this address is shown this once, and only its digest is kept here." }),
      code,
      address,
      reach,
      el("div", { class: "row" }, copy, share, ...other),
      told,
    ],
    [{ label: "Done", value: "", main: true }],
  );
}

/** @param {JobState} state @param {any} link @param {() => Promise<void>} load */
function card(state, link, load) {
  const head = `Revision ${link.rev}, ${STATES[link.state] ?? link.state}`,
    seen = link.opened ? `First opened ${moment(link.opened)}, last ${moment(link.seen)}.` : "Not opened yet.",
    facts = [`Made ${moment(link.made)}. Open until ${fullDay(link.expires)}. ${seen}`];
  if (link.withdrawn) facts.push(`Withdrawn ${moment(link.withdrawn)}.`);
  return el(
    "section",
    { class: "quotation-link", "aria-label": head },
    el("h3", { text: head }),
    ...facts.map((text) => el("p", { class: "quiet", text })),
    ...(link.acceptance ? [accepted(link)] : []),
    ...(link.acceptance && !link.written ? [unwritten(state, link, load)] : []),
    ...(link.changed_since && !link.withdrawn
      ? [
          el(
            "p",
            { class: "finding check" },
            el("span", { class: "word", text: "▲ CHANGED" }),
            link.acceptance
              ? `The job was changed since: what was accepted is revision ${link.rev}.`
              : `The job was changed since: this link still shows revision ${link.rev}.`,
          ),
        ]
      : []),
    ...link.questions.map((/** @type {Question} */ one) => question(state, one, load)),
    el(
      "div",
      { class: "row" },
      el("a", {
        class: "button small",
        href: `/api/jobs/${state.id}/quotations/${link.id}/quotation.pdf`,
        text: "Get the PDF that the customer has",
      }),
      ...(link.withdrawn
        ? []
        : [
            el("button", {
              type: "button",
              class: "small",
              text: "Withdraw",
              "aria-label": `Withdraw the link to revision ${link.rev}`,
              on: { click: () => withdraw(state, link, load) },
            }),
          ]),
    ),
    el("p", { class: "quiet digest", text: `SHA-256 of the PDF: ${link.pdf_sha256}` }),
  );
}

/** @param {any} link */
function accepted(link) {
  const { accepted: what, at, pdf_sha256: digest } = link.acceptance,
    drawing = svg("svg", { viewBox: "0 0 600 200", role: "img", "aria-label": "Drawn signature", class: "signed" });
  drawing.append(svg("path", { d: what.drawn }));
  return el(
    "div",
    { class: "finding note" },
    el("p", {}, el("span", { class: "word", text: "✔ ACCEPTED" }), `by ${what.name}, received ${moment(at)}`),
    el("p", {}, "To pay, with tax: ", el("b", { text: money(what.total_minor, what.currency) })),
    el("p", { text: `Options taken: ${what.names.join(", ") || "none"}. Date beside the name: ${fullDay(what.on)}.` }),
    what.drawn ? drawing : el("p", { text: `Signed by typing: ${what.typed}` }),
    el("p", { class: "quiet digest", text: `SHA-256 of the PDF that was accepted: ${digest}` }),
  );
}

/**
 * What was accepted is kept, but the job does not know it yet.
 * @param {JobState} state @param {any} link @param {() => Promise<void>} load
 */
function unwritten(state, link, load) {
  const again = el("button", { type: "button", text: "Write it into the job" });
  again.addEventListener("click", async () => {
    try {
      await call("POST", `/api/jobs/${state.id}/quotations/${link.id}/written`, {});
      await load();
    } catch (problem) {
      tell(messageOf(problem));
    }
  });
  return el(
    "div",
    { class: "finding check" },
    el(
      "p",
      {},
      el("span", { class: "word", text: "▲ NOT IN THE JOB" }),
      "The account of this job does not know it yet.",
    ),
    el("div", { class: "row" }, again),
  );
}

/** @param {JobState} state @param {Question} one @param {() => Promise<void>} load */
function question(state, one, load) {
  const words = el("textarea", { rows: 2, maxlength: 2000, "aria-label": `Answer to: ${one.words.slice(0, 60)}` });
  words.value = one.answer ?? "";
  const send = el("button", { type: "button", text: one.answer ? "Change the answer" : "Answer" });
  send.addEventListener("click", async () => {
    try {
      await call("POST", `/api/jobs/${state.id}/questions/${one.id}`, { answer: words.value });
      await load();
    } catch (problem) {
      tell(messageOf(problem));
    }
  });
  return el(
    "div",
    { class: one.answer ? "finding note" : "finding check" },
    el("p", {}, el("span", { class: "word", text: one.answer ? "QUESTION" : "▲ QUESTION" }), moment(one.at)),
    el("p", { class: "lines", text: one.words }),
    words,
    el("div", { class: "row" }, send),
  );
}

/** @param {JobState} state @param {any} link @param {() => Promise<void>} load */
async function withdraw(state, link, load) {
  const way = await ask(
    "Withdraw this link?",
    [
      el("p", {
        text: link.acceptance
          ? "The customer can no longer read his copy by it. What he accepted stays kept here."
          : "It opens nothing from then on. That cannot be undone; a new link can be made.",
      }),
    ],
    [
      { label: "Leave it", value: "" },
      { label: "Withdraw", value: "yes", main: true },
    ],
  );
  if (way !== "yes") return;
  try {
    await call("DELETE", `/api/jobs/${state.id}/quotations/${link.id}`);
  } catch (problem) {
    tell(messageOf(problem));
  }
  await load();
}
