// @ts-check
/** The range of a price in words: both ends where they hold, else that they are lower ends, or that it is not known. */
import { counted, money } from "./words.js";

/**
 * @param {Pick<plan.Cost, "low_minor"|"high_minor"|"range_kind"|"assumed"|"gaps">} cost
 * @param {string} currency
 */
export function rangeWords(cost, currency) {
  if (cost.range_kind === "not_known")
    return "Range not known: work has no price, or nobody said what goes on the cost.";
  const gaps = cost.gaps.length,
    left = cost.assumed.filter((one) => one.low_minor === null).length,
    least = cost.range_kind === "lower" ? "at least " : "",
    ends = `${least}${money(cost.low_minor, currency)} to ${money(cost.high_minor, currency)}`;
  const without = [
    ...(gaps ? [`${counted(gaps, "thing is", "things are")} not in the price`] : []),
    ...(left ? [`${counted(left, "assumed fact is", "assumed facts are")} not in the range`] : []),
  ];
  return `Range ${[ends, ...without].join("; ")}.`;
}
