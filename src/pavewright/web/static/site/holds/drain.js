// @ts-check
/** A drain while it lies open: inverts at both ends, the length between them, and a test. */
import { el } from "../../lib/dom.js";
import { mm, plain } from "../../lib/words.js";
import { STATUS } from "../../lib/results.js";
import { keepChange, touches } from "../changes.js";
import { undoLine, words } from "../parts.js";
import { box, forget } from "./boxes.js";
import { fallRead } from "./hold-kernel.js";
import { there } from "./told.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {plan.HoldOnSite} One */

const FALLS = /** @type {Record<string, string>} */ ({
  pass: "enough",
  fail: "too little",
  unsure: "too near to the smallest to decide",
});
/** @param {plan.InvertOnSite} end */
const plannedAt = (end) => `${end.name} ${plain((end.level_mm ?? 0) / 1000, 3)} m`;

/**
 * How a drain stands: open, pass, fail, unsure or begun.
 * @param {plan.HoldsOnSite} part @param {One} one @param {any} check
 */
export function drainState(part, one, check) {
  if (!check) return "open";
  const fall = fallOf(part, one, check)?.verdict ?? null,
    test = testOf(part, check.test);
  if (fall === "fail" || test === "fail") return "fail";
  if (fall === null || test === null) return "part";
  return fall === "unsure" || test === "unsure" ? "unsure" : "pass";
}

/** @param {plan.HoldsOnSite} part @param {One} one @param {any} check */
function fallOf(part, one, check) {
  const read = (check?.readings ?? []).filter((/** @type {any} */ each) => typeof each.level_mm === "number");
  if (read.length < 2) return null;
  const [head, foot] = [read[0], read.at(-1)],
    run = check.run_mm ?? Math.hypot(head.x_mm - foot.x_mm, head.y_mm - foot.y_mm);
  if (!run || one.min_fall === null) return null;
  return fallRead(head.level_mm, foot.level_mm, run, check.sd_mm ?? part.reading_sd_mm, one.min_fall, part.trusted);
}

/** @param {plan.HoldsOnSite} part @param {any} test @returns {"pass"|"fail"|"unsure"|null} */
function testOf(part, test) {
  if (!test) return null;
  if (test.kind === "seen_running") return test.seen_running === undefined ? null : test.seen_running ? "pass" : "fail";
  if (test.kind !== "air" || test.drop_mm === undefined) return null;
  if (test.drop_mm > part.air_drop_mm.value) return "fail";
  const whole = (test.minutes ?? 0) >= part.air_minutes.value && (test.start_gauge_mm ?? 0) >= part.air_start_mm.value;
  return whole ? "pass" : "unsure";
}

/** @param {Here} here @param {plan.HoldsOnSite} part @param {One} one @param {any} check @returns {Node[]} */
export function drainPart(here, part, one, check) {
  const out = [...fallPart(here, part, one, check)];
  const kept = check?.test?.kind ?? here.ui.holdsTest ?? "air";
  const kind = here.ui.holdsTest ?? kept;
  out.push(
    words(
      "Test",
      [
        ["air", "Air test"],
        ["seen_running", "Water seen running"],
      ],
      kind,
      (holdsTest) => {
        here.ui.holdsTest = holdsTest;
        here.remember();
        here.redraw();
      },
    ),
  );
  out.push(...(kind === "air" ? airPart(here, part, one, check) : runningPart(here, one)));
  out.push(undoLine(here, (each) => touches(each, "hold_checks")));
  return out;
}

/** @param {Here} here @param {One} one @param {(look: any) => void} act @param {string} note */
const change = (here, one, act, note) => {
  forget(here);
  return keepChange(
    here,
    (draft) => {
      draft.hold_checks = [...(draft.hold_checks ?? [])];
      let now = draft.hold_checks.filter((/** @type {any} */ each) => each.drain === one.drain).at(-1);
      if (!now) {
        now = /** @type {any} */ ({
          name: `Drain ${one.drain}`.slice(0, 50),
          kind: "drain",
          drain: one.drain,
          date: new Date().toISOString().slice(0, 10),
          readings: [],
        });
        draft.hold_checks.push(/** @type {any} */ (now));
      }
      act(now);
    },
    note,
  );
};

/** @param {Here} here @param {plan.HoldsOnSite} part @param {One} one @param {any} check @returns {Node[]} */
function fallPart(here, part, one, check) {
  const at = one.places[0]?.at ?? [0, 0],
    end = one.places[1]?.at ?? at,
    read = check?.readings ?? [],
    head = box(here, "Invert at the head, m", read[0] ? read[0].level_mm / 1000 : "", `${one.key} head`),
    foot = box(here, "Invert at the foot, m", read.length > 1 ? read.at(-1).level_mm / 1000 : "", `${one.key} foot`),
    run = box(here, "Length of pipe, m", check?.run_mm ? check.run_mm / 1000 : "", `${one.key} run`);
  const save = async () => {
    const [up, down, long] = [head.number, foot.number, run.number];
    if (up === undefined || down === undefined || !long || long <= 0)
      return here.say("Give both inverts and the length of the pipe.");
    await change(
      here,
      one,
      (look) => {
        look.run_mm = long * 1000;
        look.readings = [
          { label: "head", x_mm: at[0], y_mm: at[1], level_mm: up * 1000 },
          { label: "foot", x_mm: end[0], y_mm: end[1], level_mm: down * 1000 },
        ];
      },
      `Fall of ${one.drain}`,
    );
  };
  const found = fallOf(part, one, check),
    planned = one.inverts.filter((each) => each.level_mm !== null);
  return there(
    planned.length
      ? el("p", {
          class: "quiet",
          text: `Planned: ${planned.map(plannedAt).join(", ")}`,
        })
      : el("p", { class: "quiet", text: "No inverts are planned." }),
    el("div", { class: "side-by-side" }, head.field, foot.field),
    run.field,
    el("button", { type: "button", class: "pad-keep", text: "Save the fall", on: { click: save } }),
    found
      ? el("p", {
          class: "ask",
          role: "status",
          text: `Fall ${found.fall > 0 ? `1 in ${plain(1 / found.fall)}` : "none: it rises"}: ${FALLS[found.verdict]}`,
        })
      : "",
    one.min_fall === null
      ? el("p", { class: "quiet", text: "No smallest fall is known for this pipe." })
      : el("p", { class: "quiet", text: `Smallest fall 1 in ${plain(1 / one.min_fall)}.` }),
  );
}

/** @param {Here} here @param {plan.HoldsOnSite} part @param {One} one @param {any} check @returns {Node[]} */
function airPart(here, part, one, check) {
  const had = check?.test?.kind === "air" ? check.test : {},
    start = box(here, "Gauge at the start, mm", had.start_gauge_mm ?? part.air_start_mm.value, `${one.key} start`),
    drop = box(here, "The gauge fell by, mm", had.drop_mm, `${one.key} drop`),
    minutes = box(here, "Watched for, minutes", had.minutes ?? part.air_minutes.value, `${one.key} minutes`);
  const save = async () => {
    const [from, by, long] = [start.number, drop.number, minutes.number];
    if (from === undefined || by === undefined || !long) return here.say("Fill in the three boxes of the test.");
    const test = { kind: /** @type {const} */ ("air"), start_gauge_mm: from, drop_mm: by, minutes: long };
    await change(here, one, (look) => (look.test = test), `Air test of ${one.drain}: fell ${mm(by)}`);
  };
  const held = testOf(part, check?.test);
  return there(
    el("div", { class: "side-by-side" }, start.field, drop.field),
    minutes.field,
    el("button", { type: "button", class: "pad-keep", text: "Save the test", on: { click: save } }),
    held
      ? el("p", {
          class: "ask",
          role: "status",
          text: held === "pass" ? "✓ It holds." : held === "fail" ? "✕ It leaks." : "? Too short to decide.",
        })
      : "",
    el("p", {
      class: "source",
      text:
        `At most ${plain(part.air_drop_mm.value)} mm in ${plain(part.air_minutes.value)} minutes from ` +
        `${plain(part.air_start_mm.value)} mm (${STATUS[part.air_drop_mm.status] ?? ""}): ask who inspects.`,
    }),
  );
}

/** @param {Here} here @param {One} one @returns {Node[]} */
function runningPart(here, one) {
  const put = (/** @type {boolean} */ seen) =>
    change(
      here,
      one,
      (look) => (look.test = { kind: "seen_running", seen_running: seen }),
      `${one.drain}: water ${seen ? "came out" : "did not come out"}`,
    );
  return [
    el("p", { class: "ask", text: "Pour water in at the head: does all of it come out at the foot?" }),
    el(
      "div",
      { class: "words pair" },
      el("button", { type: "button", text: "It came out", on: { click: () => put(true) } }),
      el("button", { type: "button", text: "It did not", on: { click: () => put(false) } }),
    ),
    el("p", { class: "quiet", text: "This shows that it runs, not that it is tight." }),
  ];
}
