"""What does not agree between the plant on hire and the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost import _words as words
from pavewright.cost._codes import Code
from pavewright.cost._plant import has_mixer
from pavewright.findings import Finding, Severity
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
    said, options = words.mixed_by_hand(sum(item.gross for item in mixed))
    yield Finding(Code.MIXED_BY_HAND, Severity.CHECK, "price", said, options=options)


def _too_short(job: Job, hires: tuple[Hire, ...]) -> Iterator[Finding]:
    for hire in hires:
        entry = job.rates.plant[hire.key.number]
        name = entry.name or hire.key.kind.value.capitalize()
        held = max(hire.held_days, hire.wanted_days)
        if hire.entered and hire.days < held:
            said, options = words.hire_too_short(name, hire.days, hire.wanted_days, held)
            code, place = Code.HIRE_TOO_SHORT, "price"
            yield Finding(code, Severity.CHECK, place, said, hire.days, held, "days", options=options)
        elif not hire.entered and not hire.wanted_days and not entry.owned:
            said, options = words.hire_not_needed(name)
            yield Finding(Code.HIRE_NOT_NEEDED, Severity.CHECK, "price", said, 0.0, 0.0, "days", options=options)


def _idle_digger(job: Job) -> Iterator[Finding]:
    hired = any(hire.key is PlantKind.EXCAVATOR and not hire.owned for hire in job.rates.plant)
    if job.crew.machine_dig or not hired:
        return
    said, options = words.digger_not_used()
    yield Finding(Code.DIGGER_NOT_USED, Severity.CHECK, "price", said, options=options)
