"""What is carried, how far and by what: spoil out, materials in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost import _words as words
from pavewright.cost._codes import Code
from pavewright.findings import Finding, Severity
from pavewright.job import PlantKind
from pavewright.quantities import Gap, GapReason, ItemKind, ScopeKey, ScopeKind

if TYPE_CHECKING:
    from pavewright.cost._figures import CostFigures
    from pavewright.job import Job
    from pavewright.quantities import Item, Quantities
    from pavewright.rules import Figure


class Carrier(StrEnum):
    """What carries."""

    BARROW = "barrow"
    DUMPER = "dumper"


@dataclass(frozen=True, slots=True)
class Haul:
    """The way between the work and the lorry.

    Attributes:
        carrier: What carries along it.
        length_mm: How far; None where nobody has said. [mm]
        output: Hours for each loose or solid cubic metre over the length for which it holds.
        times: Length of the way over that length. [-]
    """

    carrier: Carrier
    length_mm: float | None
    output: Figure
    times: float


_STAYS = frozenset(
    {ItemKind.SPOIL, ItemKind.DIG, ItemKind.PROVISIONAL_SPOIL, ItemKind.PROVISIONAL_STONE, ItemKind.PIT_SPOIL}
)


def haul(job: Job, figures: CostFigures) -> Haul:
    """Return the way in and out: by dumper where one is on hire and fits the narrowest place, else by barrow."""
    hired = any(hire.key is PlantKind.DUMPER for hire in job.rates.plant)
    width, wide = job.site.access_width_mm, figures.power_barrow_width_mm.value
    by_dumper = hired and width is not None and width >= wide
    length = job.site.carry_mm
    reference = figures.wheel_reference_m.value
    return Haul(
        Carrier.DUMPER if by_dumper else Carrier.BARROW,
        length,
        figures.power_barrow_h_per_m3 if by_dumper else figures.wheel_h_per_m3,
        units.mm_to_m(length) / reference if length is not None else 0.0,
    )


def mass_kg(item: Item, figures: CostFigures) -> float:
    """Return what an item weighs that comes from the lorry; nothing for what is dug, or has no mass that is known."""
    if item.key.kind in _STAYS:
        return 0.0
    if item.kg is not None:
        return item.kg
    each_kg = figures.each_kg.get(item.key.material) if item.key.material is not None else None
    return item.ordered_amount * each_kg if each_kg is not None else 0.0


def carried_kg(quantities: Quantities, figures: CostFigures) -> float:
    """Return the mass of all that is bought and carried in. [kg]."""
    return sum(mass_kg(item, figures) for item in quantities.items)


def haul_gaps(job: Job, quantities: Quantities, figures: CostFigures) -> tuple[Gap, ...]:
    """Return that carrying is not in the price where nobody has said how far it is."""
    kg = carried_kg(quantities, figures)
    if job.site.carry_mm is not None or kg <= 0.0:
        return ()
    gap = (
        f"Carrying {kg / units.KG_PER_TONNE:.1f} t of materials in, and the spoil out: how far it is from the lorry to "
        f"the work is not known"
    )
    return (Gap((ScopeKey(ScopeKind.CARRYING),), GapReason.NOT_KNOWN, gap),)


def haul_findings(job: Job, quantities: Quantities, figures: CostFigures) -> list[Finding]:
    """Return what is not known of the way in, and a machine that does not fit it."""
    found, place = [], "the way in"
    kg = carried_kg(quantities, figures)
    tonnes = kg / units.KG_PER_TONNE
    if job.site.carry_mm is None and kg > 0.0:
        said, options = words.carry_unknown(tonnes)
        found.append(Finding(Code.CARRY_UNKNOWN, Severity.CHECK, place, said, options=options))
    wide, width = figures.power_barrow_width_mm, job.site.access_width_mm
    if not any(hire.key is PlantKind.DUMPER for hire in job.rates.plant):
        return found
    if width is None:
        said, options = words.dumper_way_unknown()
        found.append(Finding(Code.DUMPER_WAY_UNKNOWN, Severity.CHECK, place, said, figure=wide, options=options))
    elif width < wide.value:
        code = Code.DUMPER_DOES_NOT_FIT
        said, options = words.dumper_does_not_fit(width, wide)
        found.append(Finding(code, Severity.CHECK, place, said, width, wide.value, "mm", wide, options=options))
    return found
