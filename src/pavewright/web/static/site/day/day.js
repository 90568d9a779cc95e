// @ts-check
/** Today: the log of the day, each part by as few touches as it takes; what is touched is kept at once. */
import { el } from "../../lib/dom.js";
import { counted, day as dayWords } from "../../lib/words.js";
import { touches } from "../changes.js";
import { set, tabs, undoLine } from "../parts.js";
import { today } from "../this-phone.js";
import { bays } from "./bays.js";
import { came } from "./came.js";
import { hours } from "./hours.js";
import { notes, weather } from "./rest.js";
import { dayOf, inHours } from "./parts.js";

/** @typedef {import("../parts.js").Here} Here */

const PARTS = /** @type {[string, string][]} */ ([
  ["hours", "Hours"],
  ["bays", "Plan"],
  ["came", "Loads"],
  ["weather", "Weather"],
  ["notes", "Notes"],
]);
const PANELS = { hours, bays, came, weather, notes };

/** @param {Here} here @returns {Node[]} */
export function dayPanel(here) {
  const key = here.ui.dayPart in PANELS ? here.ui.dayPart : "hours",
    inside = PANELS[/** @type {"hours"} */ (key)](here);
  return [
    el("p", { class: "glance", role: "status" }, el("b", { text: dayWords(today()) }), `: ${summary(here)}`),
    tabs("Part of the log", PARTS, key, (dayPart) => set(here, { dayPart })),
    ...inside,
    undoLine(here, (one) => touches(one, "site_days")),
  ];
}

/** What stands in the logs of today, of all phones. @param {Here} here */
export function summary(here) {
  const logs = (here.doc.site_days ?? []).filter((one) => one.date === today());
  if (!logs.length) return "nothing logged yet";
  const people = new Set(logs.flatMap((one) => (one.present ?? []).map((each) => each.name))),
    booked = logs.flatMap((one) => one.worked ?? []).reduce((sum, each) => sum + each.person_h, 0),
    other = logs.length > 1 || !dayOf(here) ? `, ${counted(logs.length, "log")}` : "";
  return `${counted(people.size, "person", "people")}, ${inHours(booked)} booked${other}`;
}
