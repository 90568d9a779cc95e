// @ts-check
/** What weather does to the programme: when it ends with its chance, and how long each bay hardens. */
import { el } from "../../lib/dom.js";
import { bars } from "../../lib/charts.js";
import { fact, facts, table } from "../../lib/results.js";
import { day, moment, monthName, plain } from "../../lib/words.js";
import { weatherFile } from "./weather-file.js";

/** Parts of the stage; where no weather is entered, how to have them. @param {Planned} state */
export function weather(state) {
  const { programme } = state.plan,
    found = programme.chance,
    cures = programme.cures.filter((cure) => cure.time.regimes.length);
  if (!found && !cures.length)
    return [
      el("p", {
        class: "quiet",
        text:
          "Fixed times of hardening, and no chance of the finish: enter wet, frosty and hot days and the mean " +
          "temperature of each month under Bad weather by month, or a temperature of a bay.",
      }),
      weatherFile(state),
    ];
  return [...(found ? finish(found) : []), ...(cures.length ? clocks(cures) : []), weatherFile(state)];
}

/** @param {number} chance */
const percent = (chance) => `${plain(100 * chance)} of 100`;

/** @param {plan.FinishChance} found */
function finish(found) {
  const near = found.spread.filter((one) => one.chance > 0.02 && one.chance < 0.995).slice(0, 24),
    months = found.unknown_months.map(monthName).join(", ");
  return [
    el("h3", { text: "When the work ends, with its chance" }),
    facts(
      ...found.ends.map((one) => fact(percent(one.chance), day(one.on))),
      fact(`As planned, ${day(found.planned.on)}`, percent(found.planned.chance)),
    ),
    bars(
      "Chance that the work has ended by a day",
      near.map((one) => ({ label: day(one.on), value: 100 * one.chance })),
      (value) => `${plain(value)} %`,
    ),
    el("p", {
      class: "quiet",
      text:
        `Bad days as entered by month, outputs within their ranges, the order of work kept: ${plain(found.draws)} ` +
        `draws, ${plain(found.mean_lost_days, 1)} working days lost in the mean.` +
        (months ? ` Not all is known of ${months}: what is not known stops no day here.` : "") +
        " A chance of 90 is no promise.",
    }),
  ];
}

/** @param {plan.BayCure[]} cures */
function clocks(cures) {
  return [
    el("h3", { text: "How long each bay hardens" }),
    table(
      [
        { head: "Bay" },
        { head: "From" },
        { head: "Hours", number: true },
        { head: "Rule", number: true },
        { head: "What each way says, the longest decides" },
      ],
      cures.map((cure) => [
        cure.description,
        moment(cure.begins),
        plain(cure.time.hours),
        plain(cure.time.rule.value),
        cure.time.regimes
          .map((one) => `${one.figure.label} ${one.hours === null ? "no end" : `${plain(one.hours)} h`}`)
          .join("; ") + (cure.time.known ? "" : "; not all months have a temperature"),
      ]),
      "How long each bay hardens",
    ),
    el("p", {
      class: "quiet",
      text:
        "Nothing is shorter than the rule. Temperatures are means as entered: read a thermometer before you load a " +
        "slab.",
    }),
  ];
}
