"""What a bed takes: bags of cement or barrows of sand to a square metre, and what so many used say of its thickness."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import TRUSTED
from pavewright.buildup import LayerKey, LayerMaterial
from pavewright.quantities import bed_cement_kg_per_m3, layer_volumes, mix_gear

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps
    from pavewright.job import Mixes
    from pavewright.laying import LaidArea
    from pavewright.quantities import LayerVolume, Quantities
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey


class Counted(StrEnum):
    """What is counted against the area laid."""

    BAG = "bag"
    BARROW = "barrow"


@dataclass(frozen=True, slots=True)
class BedUse:
    """What the bed of an area takes as planned.

    Attributes:
        area: Name of the area.
        counted: What is counted: bags of cement, or barrows of loose sand.
        thickness_mm: Bed planned. [mm]
        per_m2: So many to a square metre laid, joints included; None where nobody said how much more loose sand it
            takes than it measures. [1/m²]
        each: What one holds, in kilograms of cement or in litres of sand. [kg or l]
        volume_m3: The whole bed. [m³]
    """

    area: str
    counted: Counted
    thickness_mm: float
    per_m2: float | None
    each: float
    volume_m3: float


def bed_of(laid: LaidArea, survey: Survey, build_ups: BuildUps) -> LayerVolume | None:
    """Return the bed of an area with its volume, the same as it is measured for the order list; None without one."""
    area, up = survey.site.area(laid.area), build_ups.area(laid.area)
    found = layer_volumes(area, up, laid.under_steps_m2)
    return next((each for each in found if each.layer.key is LayerKey.BED), None)


def bed_use(
    laid: LaidArea, survey: Survey, build_ups: BuildUps, quantities: Quantities, mixes: Mixes, rules: Rulebook
) -> BedUse | None:
    """Return what the bed of an area takes; None where it has no bed or nothing is laid on it."""
    bed = bed_of(laid, survey, build_ups)
    all_m2 = laid.paved_m2 + laid.joint_m2
    if bed is None or not laid.pieces or all_m2 <= 0.0:
        return None
    thick = bed.layer.thickness_mm
    if bed.layer.material is LayerMaterial.MORTAR:
        bag = mix_gear(quantities, rules).bag_kg
        per_m2 = bed.volume_m3 * bed_cement_kg_per_m3(rules) / bag / all_m2
        return BedUse(laid.area, Counted.BAG, thick, per_m2, bag, bed.volume_m3)
    barrow_l = rules.value("earthworks.barrow_m3") * units.LITRES_PER_M3
    more = mixes.bed_compaction_percent
    loose = None
    if more is not None:
        loose_l = bed.volume_m3 * (1.0 + more / units.ALL_PERCENT) * units.LITRES_PER_M3
        loose = loose_l / barrow_l / all_m2
    return BedUse(laid.area, Counted.BARROW, thick, loose, barrow_l, bed.volume_m3)


class BedRuns(StrEnum):
    """What bags used against area laid say of a bed."""

    THICK = "thick"
    THIN = "thin"
    AS_PLANNED = "as_planned"
    TOO_EARLY = "too_early"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class BedSoFar:
    """What bags used so far say of the mean thickness of a bed.

    Attributes:
        runs: Thick, thin, as planned, too early to say, or unknown.
        mean_mm: The likeliest; None where it is unknown. [mm]
        low_mm: Thinnest that fits what was used; None where it is unknown. [mm]
        high_mm: Thickest that fits it; None where it is unknown. [mm]
        more_low: Bags beyond those planned that the rest takes at this rate, at the least; None where unknown. [-]
        more_high: The same at the most; None where unknown. [-]
        shows_from_m2: Area laid from which a bed twice as far off as is let pass shows; None where unknown. [m²]
    """

    runs: BedRuns
    mean_mm: float | None = None
    low_mm: float | None = None
    high_mm: float | None = None
    more_low: float | None = None
    more_high: float | None = None
    shows_from_m2: float | None = None


@dataclass(frozen=True, slots=True)
class BedPlanned:
    """A bed as planned, and how well bags tell of it.

    Attributes:
        per_m2: Bags or barrows to a square metre; None where that is unknown. [1/m²]
        planned_mm: Its thickness. [mm]
        all_m2: Area that is laid on it in all. [m²]
        spread_percent: Standard deviation of what one bag makes. [%]
        off_mm: By how much its mean may be off before work stops to look. [mm]
    """

    per_m2: float | None
    planned_mm: float
    all_m2: float
    spread_percent: float
    off_mm: float


def bed_so_far(opened: float, left_part: float | None, laid_m2: float, bed: BedPlanned) -> BedSoFar:
    """Return what bags used against area laid say of the bed.

    The last bag is open: where nobody looked how much of it is left, anything from none to all of it went in. What a
    bag makes differs from bag to bag, and less on the mean of many. What those two leave open is the range.

    Args:
        opened: Bags or barrows opened so far. [-]
        left_part: Part of the last one that is left; None where nobody looked. [-]
        laid_m2: Area laid with them. [m²]
        bed: The bed as planned.

    Valid for: a bed mixed as on the mix card; what is lost is lost at the rate that the plan counts.
    Source: definition

    >>> bed = BedPlanned(1.0, 40.0, 30.0, 10.0, 5.0)
    >>> bed_so_far(13.0, 0.0, 10.0, bed).runs.value, bed_so_far(2.0, None, 1.0, bed).runs.value
    ('thick', 'too_early')
    """
    if bed.per_m2 is None or bed.per_m2 <= 0.0 or laid_m2 <= 0.0:
        return BedSoFar(BedRuns.UNKNOWN)
    none_left, all_left = (0.0, 1.0) if left_part is None else (left_part, left_part)
    planned = laid_m2 * bed.per_m2
    spread = _spread(bed, max(opened, 1.0))
    low = max(opened - all_left, 0.0) / planned * (1.0 - spread)
    high = max(opened - none_left, 0.0) / planned * (1.0 + spread)
    mean = max(opened - (none_left + all_left) / 2.0, 0.0) / planned
    rest = max(bed.all_m2 - laid_m2, 0.0) * bed.per_m2
    return BedSoFar(
        _runs(low, mean, high, bed.off_mm / bed.planned_mm),
        bed.planned_mm * mean,
        bed.planned_mm * low,
        bed.planned_mm * high,
        rest * (low - 1.0),
        rest * (high - 1.0),
        shows_from_m2(bed, looked=left_part is not None),
    )


def _spread(bed: BedPlanned, bags: float) -> float:
    """Return how far the mean of so many bags may be off, as far as readings are trusted. [-]."""
    return min(TRUSTED * bed.spread_percent / units.ALL_PERCENT / math.sqrt(bags), 1.0)


def _runs(low: float, mean: float, high: float, off: float) -> BedRuns:
    """Return what a range of thickness over that planned says; off is what may pass. [-]."""
    if low > 1.0 and mean >= 1.0 + off:
        return BedRuns.THICK
    if high < 1.0 and mean <= 1.0 - off:
        return BedRuns.THIN
    return BedRuns.AS_PLANNED if low >= 1.0 - off and high <= 1.0 + off else BedRuns.TOO_EARLY


def shows_from_m2(bed: BedPlanned, *, looked: bool) -> float | None:
    """Return the area laid from which a bed shows that is too thick by twice what may pass; None where none does.

    Args:
        bed: The bed as planned.
        looked: Whether somebody looks how much of the last bag is left.
    """
    if bed.per_m2 is None or bed.per_m2 <= 0.0:
        return None
    ratio = 1.0 + 2.0 * bed.off_mm / bed.planned_mm
    for bags in range(1, _MANY):
        left = 0.0 if looked else 1.0
        if (1.0 - left / bags) * (1.0 - _spread(bed, bags)) * ratio > 1.0:
            return bags / (ratio * bed.per_m2)
    return None


_MANY = 1000
"""After so many bags nothing more is learnt. [-]"""
