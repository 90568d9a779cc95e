"""The figures of laying unit by unit, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.buildup import LayerMaterial
from pavewright.job.on_site import CornerWay

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class BeddingFigures:
    """Every figure of the room.

    Attributes:
        share_percent: Part of what a corner stands proud that is tapped before it is read again.
        gives_percent: How far a bed may give beyond what was meant.
        at_once: The most that a corner is tapped before it is read again.
        tap_from: Smallest step that is tapped.
        proud: How far a slab is set proud on a fresh bed.
        most: The most that a slab is tapped down.
        step: Step between neighbouring units.
        read_by: Standard deviation of a reading, by the tool; of a slope in percent, by the digital level.
        thinnest: Thinnest bed by what it is made of.
        batch_spread: Standard deviation of the mortar from one bag.
        bed_off: By how much the mean of a bed may be off.
        unit_by_unit: Smallest unit that is tapped and read by itself.
    """

    share_percent: Figure
    gives_percent: Figure
    at_once: Figure
    tap_from: Figure
    proud: Figure
    most: Figure
    step: Figure
    read_by: Mapping[CornerWay, Figure]
    thinnest: Mapping[LayerMaterial, Figure]
    batch_spread: Figure
    bed_off: Figure
    unit_by_unit: Figure

    def limits(self, thinnest_mm: float) -> Limits:
        """Return the limits by which one unit is judged, on a bed of which the thinnest is known. [mm]."""
        return Limits(
            share_percent=self.share_percent.value,
            gives_percent=self.gives_percent.value,
            at_once_mm=self.at_once.value,
            tap_from_mm=self.tap_from.value,
            proud_mm=self.proud.value,
            most_mm=self.most.value,
            step_mm=self.step.value,
            thinnest_mm=thinnest_mm,
        )


@dataclass(frozen=True, slots=True)
class Limits:
    """The limits by which one unit is judged.

    Attributes:
        share_percent: Part of what a corner stands proud that is tapped before it is read again. [%]
        gives_percent: How far any corner may go down beyond what was meant, of the largest step meant. [%]
        at_once_mm: The most that a corner is tapped before it is read again. [mm]
        tap_from_mm: Smallest step that is tapped. [mm]
        proud_mm: How far a slab is set proud on a fresh bed. [mm]
        most_mm: The most that a slab is tapped down. [mm]
        step_mm: Step between neighbouring units that is allowed. [mm]
        thinnest_mm: Thinnest bed. [mm]
    """

    share_percent: float
    gives_percent: float
    at_once_mm: float
    tap_from_mm: float
    proud_mm: float
    most_mm: float
    step_mm: float
    thinnest_mm: float


def figures(rules: Rulebook) -> BeddingFigures:
    """Return the figures of one edition."""
    figure = rules.figure
    loose = figure("bedding.thinnest_loose_mm")
    return BeddingFigures(
        share_percent=figure("bedding.tap_share_percent"),
        gives_percent=figure("bedding.bed_gives_percent"),
        at_once=figure("bedding.tap_at_once_mm"),
        tap_from=figure("bedding.tap_from_mm"),
        proud=figure("bedding.set_proud_mm"),
        most=figure("bedding.tap_down_most_mm"),
        step=figure("as_laid.step_between_units_mm"),
        read_by={
            CornerWay.WEDGE: figure("bedding.read_by_wedge_mm"),
            CornerWay.STRING: figure("bedding.read_by_string_mm"),
            CornerWay.STAFF: figure("bedding.read_by_staff_mm"),
            CornerWay.PERCENT: figure("bedding.read_by_percent"),
        },
        thinnest={
            LayerMaterial.MORTAR: figure("bedding.thinnest_mortar_mm"),
            LayerMaterial.SAND: loose,
            LayerMaterial.GRIT: loose,
        },
        batch_spread=figure("bedding.batch_spread_percent"),
        bed_off=figure("bedding.bed_off_mm"),
        unit_by_unit=figure("bedding.unit_by_unit_m2"),
    )
