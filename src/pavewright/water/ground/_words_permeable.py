"""Sentences on paving that lets water through into the ground, in one place: facts in, words and options out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import worded

if TYPE_CHECKING:
    from pavewright.findings import Option
    from pavewright.rules import Figure
    from pavewright.water.ground._open_stone import StoneNeed

Said = tuple[str, tuple["Option", ...]]
"""What is said, and what can be done."""
_SEAL = "Lay it sealed and lead the water to an outfall."


def clay(area: str) -> Said:
    """Say that clay takes no water."""
    words = f"{area} is permeable on clay: clay takes hardly any water and grows soft under it."
    return words, worded((_SEAL, "Ask for a design with an outlet under the stone."))


def water_table(area: str) -> Said:
    """Say that water stands high in the ground."""
    words = f"{area} is permeable where ground water stands high: what should soak away has nowhere to go."
    return words, worded((_SEAL,))


def water_table_unknown(area: str) -> Said:
    """Say that nobody looked at the ground water."""
    words = (
        f"{area} is permeable and nobody has looked how the ground water stands: where it is high, nothing soaks away."
    )
    return words, worded(("Dig a trial hole in a wet season.",))


def not_tested(area: str) -> Said:
    """Say that no rate is known."""
    words = (
        f"{area} is permeable and how fast water goes into the ground under it was not tested. A test of a soakaway "
        "elsewhere does not answer this."
    )
    return words, worded(("Dig a pit to formation there, fill it three times and enter the slowest rate.", _SEAL))


def tight(area: str, rate: float, limit: Figure) -> Said:
    """Say that the ground takes too little.

    Args:
        area: Its name.
        rate: Of its formation. [m/s]
        limit: Below that it is too tight.
    """
    words = f"{area} is permeable and its ground takes {rate:.2g} m/s: below {limit.value:.2g} m/s it is too tight."
    return words, worded((_SEAL, "Ask for a design with an outlet under the stone."))


def rain(area: str) -> Said:
    """Say that no storm is known."""
    words = f"{area} is permeable and the rain of the place is not given: what its stone has to store is not known."
    return words, worded(("Enter the rain of the place.",))


def folded(area: str) -> Said:
    """Say that a folded area is not worked out."""
    words = f"{area} is permeable and folded: what its stone stores on several falls is not worked out."
    return words, worded(("Give it one fall.", "Ask for a design."))


def steep(area: str, percent: float, limit: Figure) -> Said:
    """Say that it is too steep.

    Args:
        area: Its name.
        percent: How steep it falls. [%]
        limit: The steepest.
    """
    words = (
        f"{area} is permeable and falls {percent:.1f} %: over {limit.value:g} % water runs off it, and what goes in "
        "comes out at the low end."
    )
    return words, worded((_SEAL, "Ask for a design with barriers across the fall."))


def sealed_unknown(area: str) -> Said:
    """Say that nobody said what else drains on to it."""
    words = f"{area} is permeable and what roofs and sealed ground drain on to it was not said."
    return words, worded(("Enter their area, zero where there are none.",))


def sealed(area: str, ratio: float, limit: Figure) -> Said:
    """Say that too much drains on to it.

    Args:
        area: Its name.
        ratio: What drains on to it over its own area. [-]
        limit: The greatest.
    """
    words = (
        f"{area} is permeable and {ratio:.1f} times its own area drains on to it: more than {limit.value:g} times "
        "clogs its joints and fills its stone."
    )
    return words, worded(("Lead roofs and other paving elsewhere.",))


def too_shallow(area: str, need: StoneNeed) -> Said:
    """Say that the stone does not hold the storm."""
    words = (
        f"The open stone of {area}, {need.thickness_mm:g} mm, does not hold its storm of {need.governing_min:g} min: "
        f"{need.wanted_mm:.0f} mm over the whole area are wanted, and {need.counted_mm:.0f} mm count on this fall."
    )
    return words, worded(("Enter thicker stone.", "Lead other water elsewhere.", _SEAL))


def slow(area: str, need: StoneNeed, limit: Figure) -> Said:
    """Say that it empties too slowly. [h]."""
    words = (
        f"The open stone of {area} is half empty {need.half_empty_h:.0f} h after its storm, over {limit.value:g} h: "
        "the next storm may find it full."
    )
    return words, worded(("Ask for a design with an outlet under the stone.",))


def for_these_storms(area: str, need: StoneNeed) -> Said:
    """Say that a worse storm may not be among those given."""
    words = (
        f"The open stone of {area} holds the storms that are given; one nearer to {need.governing_min:g} min may be "
        "worse."
    )
    return words, worded(("Enter storms on both sides of it.",))


def units_refused(area: str) -> Said:
    """Say that the units let no water through."""
    return f"{area} is permeable and its units with their joints let no rain through.", worded(("Choose other units.",))


def units_unknown(area: str) -> Said:
    """Say that nobody asked the maker."""
    words = (
        f"{area} is permeable and whether its units with their joints let the rain through is not known: the maker "
        "says it, and how wide the joints are and what fills them. They are planned as entered, filled with grit."
    )
    return words, worded(("Ask the maker.",))


def house(area: str, distance_mm: float | None, limit: Figure) -> Said:
    """Say that water in the ground may harm a footing. [mm]."""
    where = (
        f"the house stands {units.mm_to_m(distance_mm):.2f} m from it"
        if distance_mm is not None
        else "how near the house stands was not measured"
    )
    words = (
        f"{area} is permeable and {where}. A soakaway keeps {limit.value:g} m from a building; what water in the "
        "ground may do to the footing here is for an engineer to say."
    )
    return words, worded(("Ask an engineer.", "Line the stone beside the house and lead its water away."))


def run_off(area: str, need: StoneNeed | None) -> Said:
    """Say what is counted of its water."""
    stores = (
        ""
        if need is None
        else f" Its stone counts as {need.counted_mm:.0f} mm; its storm of {need.governing_min:g} min wants "
        f"{need.wanted_mm:.0f} mm."
    )
    words = (
        f"The rain on {area} is counted twice, on the safe side: as stored under it, and as run-off to where its "
        f"surface falls, for the day its joints are clogged.{stores}"
    )
    return words, ()
