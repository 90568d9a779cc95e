"""Proposals in words: what each does otherwise, why one is recommended, what is not tried."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import BaseRule, Bedding, Folding, Hand, Pattern
from pavewright.pipeline import base_rule_words, bedding_words
from pavewright.proposals._aim import Aim
from pavewright.proposals._to_try import Limit
from pavewright.proposals._types import Gain, Recommended, Refused, Win
from pavewright.proposals._variations import VariationFacts, VariationKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

_FOLDED = {
    Folding.ONE_PLANE: "in one plane",
    Folding.TO_HOUSE: "in two planes to the house line",
    Folding.VALLEY: "to a valley",
    Folding.CROSSED_VALLEY: "to a valley crossed by another",
    Folding.TO_GULLY: "to the gully",
    Folding.RIDGE: "from a ridge",
    Folding.MITRE: "along a mitre",
    Folding.STEPPED: "in steps",
    Folding.CHEAPEST: "in the cheapest way that drains",
}
_TURNED = {90.0: "a quarter turn clockwise", 180.0: "the other way", 270.0: "a quarter turn anticlockwise"}
_HALF = 0.45


def variation_words(facts: VariationFacts, start: Mapping[str, float | str] | None = None) -> str:
    """Return what a variation does, in a few words.

    Args:
        facts: What it is.
        start: The fields of the start that was found for it. [deg and mm, as the names say]
    """
    return _SAID[facts.kind](facts) + ("" if start is None else _start(start))


def _start(fields: Mapping[str, float | str]) -> str:
    """Return where a start lies; empty where the best one is the one that is drawn."""
    said = []
    turn = fields.get("turn_deg")
    if turn is not None:
        said.append(f"courses at {turn:g}°")
    moved = []
    for field, way in (("shift_along_mm", "along"), ("shift_across_mm", "across")):
        if field in fields:
            moved.append(f"{fields[field]:.0f} mm {way}")
    if moved:
        said.append(f"shifted {' and '.join(moved)}")
    if "start_corner" in fields:
        said.append("from the mirrored corner")
    return f": {', '.join(said)}" if said else ""


def _pattern(facts: VariationFacts) -> str:
    by = "" if facts.value is None else " by a half" if facts.value > _HALF else " by a third"
    return f"{facts.area} laid in {Pattern(facts.option).traits.words}{by}"


def _edge(facts: VariationFacts) -> str:
    out_mm = facts.value or 0.0
    return (
        f"side {facts.name}–{facts.other} of {facts.area} {abs(out_mm):g} mm further {'out' if out_mm > 0.0 else 'in'}"
    )


def _build_up(facts: VariationFacts) -> str:
    rule = BaseRule(facts.rule)
    own = "" if rule is BaseRule.OWN else f", {base_rule_words(rule)}"
    return f"{facts.area} on {bedding_words(Bedding(facts.option))}{own}"


def _courses(facts: VariationFacts) -> str:
    count = int(facts.value or 0)
    return f"border of {facts.area} in {count} course{'' if count == 1 else 's'}"


def _hand(facts: VariationFacts) -> str:
    side = "left" if Hand(facts.option) is Hand.LEFT else "right"
    return f"cross fall of {facts.area} to the {side}, looking downhill"


_SAID: dict[VariationKind, Callable[[VariationFacts], str]] = {
    VariationKind.UNIT: lambda facts: f"{facts.area} in {facts.name} instead of {facts.other}",
    VariationKind.PATTERN: _pattern,
    VariationKind.JOINT: lambda facts: f"joints of {facts.area} {facts.value:g} mm instead of {facts.was:g} mm",
    VariationKind.BORDER_COURSES: _courses,
    VariationKind.BORDER_KIND: lambda facts: f"border of {facts.area} as {facts.option}s",
    VariationKind.BORDER_CORNER: lambda facts: f"corners of the border of {facts.area} {facts.option}",
    VariationKind.BORDER_STRETCH: lambda facts: (
        f"joints of the border of {facts.area} {'stretched to whole units' if facts.value else 'not stretched'}"
    ),
    VariationKind.START: lambda facts: f"pattern of {facts.area} begun at another place",
    VariationKind.DIRECTION: lambda facts: f"courses of {facts.area} turned, and begun where that cuts least",
    VariationKind.FALL: lambda facts: (
        f"{facts.area} falls {_TURNED[facts.value or 0.0]} of what is drawn"
        if facts.value != 180.0  # noqa: PLR2004 - half a turn
        else f"{facts.area} falls the other way"
    ),
    VariationKind.CROSS_TO: _hand,
    VariationKind.NO_CROSS_FALL: lambda facts: f"{facts.area} without a cross fall",
    VariationKind.FOLDING: lambda facts: (
        f"{facts.area} folded {_FOLDED[Folding(facts.option)]}"
        if Folding(facts.option) is not Folding.ONE_PLANE
        else f"{facts.area} in one plane, without folds"
    ),
    VariationKind.GULLY_CHOSEN: lambda facts: f"{facts.area} folded to gully {facts.name} instead of {facts.other}",
    VariationKind.EDGE: _edge,
    VariationKind.BUILD_UP: _build_up,
    VariationKind.WITHOUT_GULLY: lambda facts: f"without gully {facts.name}, which is not built yet",
    VariationKind.WITHOUT_CHANNEL: lambda facts: f"without channel {facts.name}, which is not built yet",
}
_AIMS = {
    Aim.PRICE: "price",
    Aim.CUTS: "cut pieces",
    Aim.DAYS: "days",
    Aim.CARBON: "carbon",
    Aim.CLEARANCE: "clearance below the damp-proof course",
}


def aim_words(aim: Aim) -> str:
    """Return the name of an aim.

    Args:
        aim: What matters.
    """
    return _AIMS[aim]


def win_words(best: Recommended, planned: int, currency: str) -> str:
    """Return why a proposal is recommended, in a sentence or two.

    Args:
        best: What is recommended.
        planned: How many whole plans were made.
        currency: Money of the job.
    """
    if best.win is Win.AS_DRAWN:
        return (
            f"The job as drawn stays the best: of {planned} whole plans none is better in one thing that you chose "
            f"and no worse in the rest."
        )
    said = _listed([_gain(each, currency) for each in best.gains])
    if best.stops_ended:
        said = _listed([f"ends {_count(best.stops_ended, 'stop')} of the job as drawn", *filter(None, [said])])
    same = f", and is no worse in {_listed([_AIMS[aim] for aim in best.same])}" if best.same else ""
    if best.win is Win.ALONE:
        why = f"Of {planned} whole plans no other one on the list is better without being worse in something you chose."
    else:
        others = "1 other" if best.rivals == 1 else f"{best.rivals} others"
        why = f"On the list {others} lose nothing you chose either; this one gains most, all you chose weighed alike."
    looked = ""
    if best.new_checks:
        kinds = "kind of thing" if best.new_checks == 1 else "kinds of things"
        looked = f" It brings {best.new_checks} {kinds} to look at that the job as drawn does not have."
    return f"It {said}{same}. {why}{looked}"


def _gain(found: Gain, currency: str) -> str:
    """Return what is gained in one aim; what is certain stands here alone."""
    less = abs(found.was - found.now)
    match found.aim:
        case Aim.PRICE:
            return f"costs {units.minor_to_text(round(less), currency)} less"
        case Aim.CUTS:
            return f"has {_count(round(less), 'cut piece')} fewer"
        case Aim.DAYS:
            return f"takes {_count(round(less), 'day')} less"
        case Aim.CARBON:
            return f"buys about {less:.0f} kg less carbon"
        case Aim.CLEARANCE:
            return f"lies {less:.0f} mm lower below the damp-proof course"


def refused_words(why: Refused, count: int) -> str:
    """Return why some plans are not compared.

    Args:
        why: The reason.
        count: How many they are.
    """
    one = count == 1
    match why:
        case Refused.NO_PLAN:
            return f"{count} {'does' if one else 'do'} not go together, or make{'s' if one else ''} no plan"
        case Refused.LESS_KNOWN:
            return f"{count} {'leaves' if one else 'leave'} something unknown that the job as drawn knows"
        case Refused.NEW_STOP:
            return f"{count} {'brings' if one else 'bring'} a stop that the job as drawn does not have"


def limit_words(limit: Limit) -> str:
    """Return what is not tried, in a sentence.

    Args:
        limit: What it is.
    """
    return _LIMITS[limit]


_LIMITS = {
    Limit.TWO_GULLIES: "An area is folded to one gully; folds to two gullies at once are not designed.",
    Limit.NO_NEW_DRAINS: "No gully and no channel is put where the job has none.",
    Limit.MIXED_STARTS: "Mixed sizes and rings keep the start that is drawn.",
    Limit.ONE_SIZE: "No other size of the same material stands in the job or in the firm's list.",
    Limit.NO_FREEDOM: "No side is moved: none has a freedom that can be used.",
    Limit.ACCEPTED: "This job is accepted: what changes now is a variation to agree with the customer.",
}


def _count(number: int, one: str) -> str:
    return f"{number} {one}{'' if number == 1 else 's'}"


def _listed(words: Iterable[str]) -> str:
    """Return words with commas, and before the last one."""
    every = list(words)
    return every[0] if len(every) == 1 else f"{', '.join(every[:-1])} and {every[-1]}" if every else ""
