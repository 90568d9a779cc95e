"""What does not agree between the plant on hire and the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost._codes import Code
from pavewright.cost._plant import has_mixer
from pavewright.findings import Finding, Severity, worded
from pavewright.job import PlantKind
from pavewright.quantities import ItemKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.cost._types import Hire
    from pavewright.job import Job
    from pavewright.quantities import Quantities

_MIXED = frozenset({ItemKind.CONCRETE_BASE, ItemKind.EDGE_CONCRETE, ItemKind.MORTAR_BED, ItemKind.POINTING})


def hire_findings(job: Job, quantities: Quantities, hires: tuple[Hire, ...]) -> tuple[Finding, ...]:
    """Return mixing without a mixer, hires shorter than the programme needs them, and diggers that nobody uses."""
    return (*_by_hand(job, quantities), *_too_short(job, hires), *_idle_digger(job))


def _by_hand(job: Job, quantities: Quantities) -> Iterator[Finding]:
    mixed = [item for item in quantities.items if item.key.kind in _MIXED]
    if not mixed or has_mixer(job):
        return
    words = (
        f"{sum(item.gross for item in mixed):.2f} m³ of mortar and concrete are mixed by hand: no mixer is on hire and "
        "the crew has none of its own. The base is priced at the output of hand mixing; outputs of edges, beds and "
        "joints do not say how their mortar is mixed."
    )
    ways = ("Hire a mixer: list it under rates.plant.", "Say that the crew has one: crew.own_mixer.")
    yield Finding(Code.MIXED_BY_HAND, Severity.CHECK, "price", words, options=worded(ways))


def _too_short(job: Job, hires: tuple[Hire, ...]) -> Iterator[Finding]:
    for hire in hires:
        name = job.rates.plant[hire.key.number].name or hire.key.kind.value.capitalize()
        if hire.entered and hire.days < hire.wanted_days:
            words = f"{name} is hired for {hire.days:g} days; the programme needs it on {hire.wanted_days}."
            ways = ("Hire it for longer.", "Leave days out: the programme then gives them.")
            yield Finding(
                Code.HIRE_TOO_SHORT,
                Severity.CHECK,
                "price",
                words,
                hire.days,
                hire.wanted_days,
                "days",
                options=worded(ways),
            )
        elif not hire.entered and not hire.wanted_days:
            words = f"{name} is on hire and no work of the programme needs it: no day of it is in the price."
            ways = ("Enter its days.", "Leave it out.")
            yield Finding(Code.HIRE_NOT_NEEDED, Severity.CHECK, "price", words, 0.0, 0.0, "days", options=worded(ways))


def _idle_digger(job: Job) -> Iterator[Finding]:
    if job.crew.machine_dig or all(hire.key is not PlantKind.EXCAVATOR for hire in job.rates.plant):
        return
    words = "An excavator is on hire and the dig is priced by hand: both are in the price."
    ways = ("Say that a machine digs: crew.machine_dig.", "Leave the excavator out.")
    yield Finding(Code.DIGGER_NOT_USED, Severity.CHECK, "price", words, options=worded(ways))
