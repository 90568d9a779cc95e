"""The figures of laying, read from the rulebook once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job import SizeClass, UnitKind
from pavewright.rules import read_figures

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class SizeTolerance:
    """What the sizes of units of a class may be off, either way.

    Attributes:
        short_mm: For sizes up to the limit of short ones. [mm]
        long_mm: For longer ones. [mm]
        short_to_mm: Limit of short ones. [mm]
        valid_to_mm: Nothing is said of longer ones. [mm]
        words: Where it is from.
    """

    short_mm: float
    long_mm: float
    short_to_mm: float
    valid_to_mm: float
    words: str


@dataclass(frozen=True, slots=True)
class MixFigures:
    """Packs and rules of mixed sizes; a field is the figure of its name in the rulebook, with its unit there."""

    longest_joint_mm: Figure
    pack_off_part: Figure
    pack_module_off_mm: Figure
    mix_band_cells: Figure
    mix_band_share: Figure
    mix_band_more_units: Figure
    mix_bay_m2: Figure
    mix_cell_min_part: Figure


@dataclass(frozen=True, slots=True)
class LayingFigures:
    """All figures of this room; a field is the figure of its name in the rulebook, with its unit there.

    Attributes:
        min_width: Narrowest piece, arm or web by kind of unit. [mm]
        size_tolerance: By class.
        step_between_units: Greatest step between two units. [mm]
        mixed: Of mixed sizes.
    """

    units_to_measure: Figure
    growth_per_joint: Figure
    kerf_mm: Figure
    sliver_mm: Figure
    min_part_wheels: Figure
    absorbed_mm: Figure
    one_person_kg: Figure
    left_over_min_mm: Figure
    movement_apart_m: Figure
    min_width: Mapping[UnitKind, Figure]
    size_tolerance: Mapping[SizeClass, SizeTolerance]
    step_between_units: Figure
    mixed: MixFigures


def figures(rules: Rulebook) -> LayingFigures:
    """Return the figures of this room from an edition."""
    widths = rules.table("laying.min_width_mm")
    return read_figures(
        LayingFigures,
        rules,
        "laying",
        min_width={kind: widths.figure(kind, "width_mm") for kind in UnitKind},
        size_tolerance=_tolerances(rules),
        step_between_units=rules.figure("as_laid.step_between_units_mm"),
        mixed=mix_figures(rules),
    )


def mix_figures(rules: Rulebook) -> MixFigures:
    """Return the figures of mixed sizes from an edition."""
    return read_figures(MixFigures, rules, "laying")


def _tolerances(rules: Rulebook) -> dict[SizeClass, SizeTolerance]:
    return {
        SizeClass(row.key): SizeTolerance(
            row.value("short_mm"),
            row.value("long_mm"),
            row.value("short_to_mm"),
            row.value("valid_to_mm"),
            f"{rules.sources[row.source].title}, {row.place} – {row.status.words}",
        )
        for row in rules.table("laying.size_tolerance_mm").rows
    }
