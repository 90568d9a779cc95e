"""What work takes beside what is drawn: the list of the rulebook, with what the user changed, added or switched off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job import Condition, Driver, PackUnit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Assembly, Job, MaterialKind
    from pavewright.rules import Assembled, Figure, Rulebook


@dataclass(frozen=True, slots=True)
class Listed:
    """One assembly as it holds for a job.

    Attributes:
        key: Its key.
        name: What is bought, in words.
        item: Which item of a catalogue.
        material: Which material, where it is one of the rates.
        per: What the amount is counted by; None where a user has not said.
        unit: Unit of the amount; None where a user has not said.
        amount: Likely amount for one; None where a user has not said. [in ``unit``]
        low: Lower end. [in ``unit``]
        high: Upper end. [in ``unit``]
        lost_percent: Lost beside it. [%]
        when: On what it hangs.
        figures: The figure of the rulebook; nothing where the amount is the user's own.
        note: Where the amount is from, where it is the user's own.
    """

    key: str
    name: str
    item: str
    material: MaterialKind | None
    per: Driver | None
    unit: PackUnit | None
    amount: float | None
    low: float
    high: float
    lost_percent: float
    when: Condition
    figures: tuple[Figure, ...]
    note: str


def listed(job: Job, rules: Rulebook) -> Iterator[Listed]:
    """Give the assemblies that hold for a job: the rulebook's in its order, then the user's own; none switched off."""
    own = {each.key: each for each in job.rates.assemblies}
    for key, standard in rules.assemblies.items():
        mine = own.pop(key, None)
        off = standard.off if mine is None or mine.off is None else mine.off
        if not off:
            yield _standard(standard, mine, rules.figure(standard.figure))
    yield from (_own(each) for each in own.values() if not each.off)


def _standard(standard: Assembled, mine: Assembly | None, figure: Figure) -> Listed:
    """Return an assembly of the rulebook, changed where the user said so."""
    found = Listed(
        key=standard.key,
        name=standard.name,
        item=standard.key,
        material=None,
        per=Driver(standard.per),
        unit=PackUnit(standard.unit),
        amount=figure.value,
        low=figure.value if figure.low is None else figure.low,
        high=figure.value if figure.high is None else figure.high,
        lost_percent=0.0,
        when=Condition(standard.when) if standard.when else Condition.ALWAYS,
        figures=(figure,),
        note="",
    )
    return found if mine is None else _own(mine, found)


def _own(mine: Assembly, standard: Listed | None = None) -> Listed:
    """Return an assembly of the user's own; what he leaves out stays as the rulebook has it."""
    amount, low, high, note = mine.amount, mine.low, mine.high, mine.source or "own book"
    figures: tuple[Figure, ...] = ()
    if amount is None and standard is not None:
        amount, figures, note = standard.amount, standard.figures, standard.note
        low, high = standard.low if low is None else low, standard.high if high is None else high
    likely = 0.0 if amount is None else amount
    return Listed(
        key=mine.key,
        name=mine.name or (standard.name if standard is not None else mine.key.replace("_", " ").capitalize()),
        item=mine.item or mine.key,
        material=mine.material,
        per=mine.per or (standard.per if standard is not None else None),
        unit=mine.unit or (standard.unit if standard is not None else None),
        amount=amount,
        low=min(likely if low is None else low, likely),
        high=max(likely if high is None else high, likely),
        lost_percent=mine.lost_percent or 0.0,
        when=mine.when or (standard.when if standard is not None else Condition.ALWAYS),
        figures=figures,
        note=note,
    )
