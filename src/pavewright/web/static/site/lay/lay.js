// @ts-check
/** Laying slab by slab: the corners of one unit, where to tap it, and the next. */
import { el, find } from "../../lib/dom.js";
import { mm, plain } from "../../lib/words.js";
import { keepChange, touches } from "../changes.js";
import { glance, picker, set, undoLine } from "../parts.js";
import { noPlan } from "../pegs.js";
import { today } from "../this-phone.js";
import { speak } from "./aloud.js";
import { bags } from "./bags.js";
import { afresh, draftOf, next, put, staffDatum } from "./draft.js";
import { slabPicture } from "./picture.js";
import { aloudSwitch, pad, rocking, ways } from "./read.js";
import { adviceTold, lipTold, stands } from "./told.js";
import { LETTERS, besideIt, judged, left, lies, middle, overByPercent, readOf, sdOf, standing } from "./units.js";

/** @typedef {import("../parts.js").Here} Here */
/** @typedef {import("./draft.js").Draft} Draft */

/** What is said under the button at the start. @param {Here} here */
export function laySays(here) {
  const laying = here.view?.parts?.laying;
  if (!laying) return "";
  const done = laying.areas.reduce((sum, area) => {
    const read = readOf(laying, area, here.doc.units_read ?? []);
    return sum + [...read.values()].filter(lies).length;
  }, 0);
  return done ? `${done} pieces laid` : "";
}

/** @param {Here} here @returns {Node[]} */
export function lay(here) {
  const laying = here.view?.parts?.laying,
    { ui } = here;
  if (!laying) return [noPlan(here.view)];
  const area = laying.areas.find((each) => each.area === ui.layArea) ?? laying.areas[0],
    out = /** @type {Node[]} */ (laying.areas.length > 1 ? [areaPicker(here, laying.areas, area.area)] : []);
  if (!area.one_by_one)
    return [
      ...out,
      el("p", {
        class: "ask",
        text:
          area.pieces > 0
            ? "These units are small or very many: they are laid, pressed in together and read as paving. See Check."
            : "Nothing is laid here yet.",
      }),
      bags(here, laying, area, 0),
    ];
  const read = readOf(laying, area, here.doc.units_read ?? []),
    open = left(area, read),
    unit = area.units.find((each) => each.piece === ui.layPiece) ?? open[0] ?? area.units[0],
    draft = draftOf(here, unit);
  const done = area.units.length - open.length;
  out.push(
    glance(done, area.units.length, "laid", open[0] ? `piece ${open[0].piece}` : ""),
    stepper(here, area, unit, read.get(unit.piece)),
  );
  const datum = draft.way === "staff" ? staffDatum(here) : null;
  if (datum?.ask) return [...out, ways(here, draft, unit), ...datum.ask];
  const over = draft.way === "percent" ? overByPercent(unit, draft) : draft.corners,
    sd = sdOf(laying, draft.way, unit),
    told = judged(laying, area, unit, read, { over, sd, rocks: draft.rocks || null, bed_mm: draft.bed });
  const act = adviceTold(told.advice, over, draft.rocks),
    lips = told.lips.map((lip) => lipTold(lip, laying.trusted_sd));
  const active = next(draft, unit),
    reading = active.corner !== null && draft.corners[active.corner] === null && draft.way !== "percent";
  out.push(
    slabPicture(unit, {
      over,
      active: draft.way === "percent" ? null : active.corner,
      tap: reading ? null : told.advice.tap,
      wanted: (corner) => (datum ? mm(datum.height - unit.wanted_mm[corner] - told.aims[corner]) : "read it"),
      beside: besideIt(area, read, unit.piece).map(([seam, , other]) => [other, seam[seam[0] === unit.piece ? 1 : 5]]),
      pick: (corner) => put(here, unit, { ...draft, at: String(corner) }),
    }),
    pad(here, unit, draft, active, datum && { ...datum, aims: told.aims }),
    adviceCard(act, told, lips),
    buttons(here, area, unit, draft, { over, sd, act }),
    ways(here, draft, unit),
    rocking(here, draft, unit),
    aloudSwitch(here, act),
    undoLine(here, (one) => touches(one, "units_read")),
    bags(here, laying, area, lastLaid(area, read)),
  );
  return out;
}

/** @param {plan.AreaToLay} area @param {Map<number, any>} read */
const lastLaid = (area, read) =>
  area.units.reduce((last, unit) => (lies(read.get(unit.piece)) ? Math.max(last, unit.piece) : last), 0);

/** @param {Here} here @param {plan.AreaToLay[]} areas @param {string} name */
const areaPicker = (here, areas, name) =>
  picker(
    "Area",
    areas.map((each) => each.area),
    name,
    (layArea) => set(here, { layArea, layPiece: undefined, layDraft: null }),
  );

// ---- parts of the panel

/** @param {Here} here @param {plan.AreaToLay} area @param {plan.UnitToLay} unit @param {any} read */
function stepper(here, area, unit, read) {
  const index = area.units.indexOf(unit),
    go = (/** @type {number} */ step) => {
      const { piece } = area.units[(index + step + area.units.length) % area.units.length];
      set(here, { layPiece: piece, layDraft: null, layTyped: "" });
    };
  const state = standing(read);
  return el(
    "div",
    { class: "lay-step" },
    el("button", { type: "button", text: "◀", "aria-label": "The piece before", on: { click: () => go(-1) } }),
    el(
      "p",
      {},
      el("b", { text: `Piece ${unit.piece}${state}` }),
      el("span", { class: "quiet", text: `${unit.unit}${unit.cut ? ", cut" : ""}, course ${unit.course}` }),
    ),
    el("button", { type: "button", text: "▶", "aria-label": "The next piece", on: { click: () => go(1) } }),
  );
}

/** @param {{head: string, lines: string[], mood: string}} act @param {any} told @param {string[]} lips */
function adviceCard(act, told, lips) {
  const aims = told.aims.flatMap((/** @type {number} */ aim, /** @type {number} */ corner) =>
    Math.abs(aim) < 0.25 ? [] : [`${LETTERS[corner]} aims ${stands(aim)}, to what lies beside it.`],
  );
  const twist = told.advice.plane?.twist ?? null;
  return el(
    "div",
    { class: `finding verdict ${act.mood}`, role: "status" },
    el("p", { class: "big", text: act.head }),
    ...[...act.lines, ...aims].map((text) => el("p", { text })),
    lips.length ? el("ul", { class: "plain-list lay-lips" }, ...lips.map((text) => el("li", { text }))) : null,
    twist !== null && Math.abs(twist) >= 0.5
      ? el("p", {
          class: "quiet",
          text: `Twist ${plain(Math.abs(twist), 1)} mm: four corners are no plane, no tap takes it out.`,
        })
      : null,
  );
}

/**
 * @param {Here} here @param {plan.AreaToLay} area @param {plan.UnitToLay} unit @param {Draft} draft
 * @param {{over: (number|null)[], sd: number, act: {head: string}}} now
 */
function buttons(here, area, unit, draft, now) {
  const save = async (/** @type {string} */ state) => {
    const [x, y] = middle(unit),
      corners = now.over.flatMap((over, corner) =>
        over === null
          ? []
          : [{ corner: LETTERS[corner], level_mm: Math.round((unit.wanted_mm[corner] + over) * 10) / 10 }],
      );
    const item = {
      ...{
        area: area.area,
        piece: unit.piece,
        x_mm: Math.round(x),
        y_mm: Math.round(y),
        corners,
        state,
        date: today(),
      },
      ...(corners.length ? { way: draft.way, sd_mm: Math.round(now.sd * 100) / 100 } : {}),
      ...(draft.rocks ? { rocks: draft.rocks } : {}),
      ...(draft.bed === null ? {} : { bed_mm: draft.bed }),
    };
    const note = `Piece ${unit.piece} ${state === "laid" ? "laid" : "to bed again"}`;
    if (!(await keepChange(here, [{ op: "add", at: ["units_read"], item }], note))) return;
    set(here, { layPiece: undefined, layDraft: null, layTyped: "" });
    find("#panel").scrollTop = 0;
    if (here.ui.layAloud) speak(note);
  };
  const again = now.over.some((over) => over !== null);
  return el(
    "div",
    { class: "lay-acts" },
    el("button", { type: "button", class: "main", text: "✓ Laid", on: { click: () => save("laid") } }),
    el("button", {
      type: "button",
      text: "Tapped: read again",
      disabled: !again,
      on: {
        click: () => put(here, unit, afresh(draft)),
      },
    }),
    el("button", { type: "button", text: "✕ To bed again", on: { click: () => save("to_re_bed") } }),
  );
}
