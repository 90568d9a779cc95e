"""Sand, ballast and stone that are bought loose: how much of it a volume takes, dry or damp."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import MaterialKind
from pavewright.quantities._mixes import damp

if TYPE_CHECKING:
    from pavewright.job import Job, Material, Mixes
    from pavewright.rules import Figure

_BULKS = frozenset({MaterialKind.SHARP_SAND, MaterialKind.SOFT_SAND})
"""What gains volume when it is damp; ballast and stone gain little, and jointing sand comes dry."""


@dataclass(frozen=True, slots=True)
class LooseNeed:
    """What a volume takes of something loose.

    Attributes:
        words: The sum in words.
        kg: Its mass as it is bought. [kg]
        figures: Figures of the rulebook in it.
        spread: Ends of its range over the likely amount. [-]
    """

    words: str
    kg: float
    figures: tuple[Figure, ...]
    spread: tuple[float, float]


def loose_need(job: Job, key: MaterialKind, said: str, volume_m3: float, figure: Figure) -> LooseNeed:
    """Return the mass of something loose, as the job says that it is bought and batched.

    A density of its own is that of what is delivered, damp where it is damp; the rulebook's is of dry sand.

    Args:
        job: The job.
        key: Which material.
        said: What the volume is of, in words.
        volume_m3: Volume wanted, loose and dry. [m³]
        figure: Its loose density by the rulebook.
    """
    own = next((m.bulk_kg_per_m3 for m in job.rates.materials if m.key == key and m.bulk_kg_per_m3), None)
    bulking, moisture = _damp_percents(key, job.mixes)
    found = damp(volume_m3, figure.value, bulking, moisture)
    if own is not None:
        more = f" × {1.0 + bulking / units.ALL_PERCENT:g} damp" if bulking else ""
        return LooseNeed(f"{said}{more} × {own:g} kg/m³", found.m3 * own, (), (1.0, 1.0))
    wet = f" × {1.0 + moisture / units.ALL_PERCENT:g} with its water" if moisture else ""
    low = 1.0 if figure.low is None else figure.low / figure.value
    high = 1.0 if figure.high is None else figure.high / figure.value
    return LooseNeed(f"{said} × {figure.value:g} kg/m³{wet}", found.kg, (figure,), (low, high))


def _damp_percents(key: MaterialKind, mixes: Mixes) -> tuple[float, float]:
    """Return gain in volume and water of a material; nothing where it is taken as dry. [%]."""
    if key not in _BULKS:
        return 0.0, 0.0
    return mixes.sand_bulking_percent or 0.0, mixes.sand_moisture_percent or 0.0


def delivered_kg_per_m3(key: MaterialKind, priced: Material, dry_kg_per_m3: float, mixes: Mixes) -> float:
    """Return the density by which a load of so many cubic metres is counted: the job's own, else as damp as it is.

    Args:
        key: Which material.
        priced: The material as it is bought.
        dry_kg_per_m3: Its density by the rulebook. [kg/m³]
        mixes: How the sand is.
    """
    return priced.bulk_kg_per_m3 or damp(1.0, dry_kg_per_m3, *_damp_percents(key, mixes)).kg_per_m3


def compacted(volume_m3: float, said: str, mixes: Mixes) -> tuple[float, str]:
    """Return the loose sand of a laying course, and how that is said.

    Args:
        volume_m3: The course as it lies. [m³]
        said: What it is, in words.
        mixes: How far it is compacted.
    """
    if not mixes.bed_compaction_percent:
        return volume_m3, said
    more = 1.0 + mixes.bed_compaction_percent / units.ALL_PERCENT
    return volume_m3 * more, f"{said} × {more:g} spread loose"
