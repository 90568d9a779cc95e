"""The words of standing water, hose tests and gratings, in one place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid.standing._seen import HoseOutcome
from pavewright.as_laid.standing._types import WaterState, WhyUnknown
from pavewright.writing import Catalogue, Sentence

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.as_laid.standing._types import AreaStanding, Pond, Span

STATES: Mapping[WaterState, str] = {
    WaterState.STANDS: "stands",
    WaterState.UNDECIDED: "not decided",
    WaterState.CLEARS: "clears",
    WaterState.UNKNOWN: "not known",
}
"""What the readings say of standing water."""
WHY: Mapping[WhyUnknown, str] = {
    WhyUnknown.FEW_READINGS: "fewer than five readings",
    WhyUnknown.NO_WAY_OUT: "no drain and no free edge is known by which water leaves",
    WhyUnknown.CONTRADICT: "two readings are at one place, or all are in one line",
}
"""Why nothing can be said."""
OUTCOMES: Mapping[HoseOutcome, str] = {
    HoseOutcome.STOOD_AS_TOLD: "stood, as the readings say",
    HoseOutcome.STOOD_NOT_TOLD: "STOOD, though the readings do not say so",
    HoseOutcome.DRY_AS_TOLD: "dry, as the readings say",
    HoseOutcome.DRY_THOUGH_TOLD: "dry, though the readings say it may stand",
    HoseOutcome.NOT_LOOKED_AT: "not looked at",
}
"""What a hose test says beside the readings."""


@dataclass(frozen=True, slots=True)
class StandingWords(Catalogue):
    """Sentences on standing water."""

    stands: Sentence = Sentence("Water stands: the chance is {chance} that it is somewhere deeper than {depth} mm.")
    undecided: Sentence = Sentence(
        "Not decided: the chance is {chance} that water stands somewhere deeper than {depth} mm."
    )
    wide: Sentence = Sentence(
        "Not decided: the chance is {chance} that water stands deeper than {depth} mm, but places lie up to {far} m "
        "from a reading, and a dip may hide there."
    )
    clears: Sentence = Sentence("It clears: the chance is {chance} that water stands anywhere deeper than {depth} mm.")
    unknown: Sentence = Sentence("Not known: {why}.")
    amount: Sentence = Sentence("{litres} l on {area} m²")
    read_next: Sentence = Sentence("Read next, what decides most first: {places}.")
    nothing_next: str = "No further reading would decide much."
    limits: Sentence = Sentence(
        "Water shallower than {depth} mm is not looked for: readings with a standard deviation of {sd} mm do not "
        "show it."
    )
    simulated: Sentence = Sentence(
        "Between {readings} readings the paving was simulated {runs} times, uneven by {low} to {high} mm (standard "
        "deviation) and with single dips as are common. Shown is the share of simulations in which water stands."
    )
    assumed: str = (
        "How uneven paving is between readings, and how often it has a single dip, is common practice and was not "
        "measured here. More readings take its place."
    )
    hose_decides: str = "A hose test shows what readings cannot: wet the whole area, and look after 30 minutes."


WORDS = StandingWords()
"""Sentences on standing water."""


def percent(chance: float) -> str:
    """Return a chance as it is told: never more certain than the simulations are.

    Args:
        chance: A chance. [-]

    >>> [percent(chance) for chance in (0.0, 0.004, 0.155, 0.999, 1.0)]
    ['under 1 %', 'under 1 %', '16 %', 'over 99 %', 'over 99 %']
    """
    hundred = 100.0 * chance
    if hundred < _LEAST:
        return f"under {_LEAST:.0f} %"
    most = 100.0 - _LEAST
    return f"over {most:.0f} %" if hundred > most else f"{hundred:.0f} %"


_LEAST = 1.0
"""Two hundred simulations say no more exactly. [%]"""


def area_in_words(area: AreaStanding) -> str:
    """Say whether water stands on an area."""
    if area.why is not None:
        return WORDS.unknown(why=WHY[area.why])
    chance, depth = percent(area.chance), f"{area.counted_mm:g}"
    if area.state is WaterState.UNDECIDED and not area.ponds:
        return WORDS.wide(chance=chance, depth=depth, far=f"{units.mm_to_m(area.farthest_mm):.1f}")
    sentence = {
        WaterState.STANDS: WORDS.stands,
        WaterState.UNDECIDED: WORDS.undecided,
        WaterState.CLEARS: WORDS.clears,
    }[area.state]
    return sentence(chance=chance, depth=depth)


def next_in_words(area: AreaStanding) -> str:
    """Say where to read next."""
    if not area.next_places:
        return WORDS.nothing_next
    places = ", ".join(f"{each.label} ({percent(each.decides)})" for each in area.next_places)
    return WORDS.read_next(places=places)


def cautions(area: AreaStanding, reading_sd_mm: float) -> tuple[str, ...]:
    """Say what the chances rest on.

    Args:
        area: What stands on an area.
        reading_sd_mm: Standard deviation of a reading. [mm]
    """
    told = [WORDS.limits(depth=f"{area.counted_mm:g}", sd=f"{reading_sd_mm:g}")]
    if area.unevenness is not None:
        rough = area.unevenness.sd_mm
        told.append(
            WORDS.simulated(
                readings=str(area.readings), runs=str(area.runs), low=f"{rough.low:.1f}", high=f"{rough.high:.1f}"
            )
        )
    return (*told, WORDS.assumed, WORDS.hose_decides)


def span_in_words(span: Span, places: int = 0) -> str:
    """Return a span as it is told.

    Args:
        span: What is told. [in its own unit]
        places: Decimals. [-]
    """
    low, high = f"{span.low:.{places}f}", f"{span.high:.{places}f}"
    return low if low == high else f"{low} to {high}"


def pond_mark(pond: Pond) -> str:
    """Return the label of a pond on a drawing."""
    return f"{pond.number}: {percent(pond.chance)}"
