"""Sums of volumes and loads."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.earthworks._loads import compacted_m3, loads_exact, loose_m3, whole
from pavewright.earthworks._sums_grid import GRID_SUM
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_TWO = 2


def end_area_volume(areas_m2: tuple[float, ...], spacing_mm: float) -> dict[str, Value]:
    """Return the volume between cross-sections at equal spacing, by end areas and, for an odd number, by Simpson.

    Valid for: Simpson's rule where areas change smoothly from section to section, each section measured as it is.
    Source: definition
    """
    if len(areas_m2) < _TWO or min(areas_m2) < 0.0 or spacing_mm <= 0.0:
        message = "Give two sections or more, none less than zero, and the distance between them."
        raise SumRefusedError(message)
    spacing = units.mm_to_m(spacing_mm)
    trapeziums = spacing * (sum(areas_m2) - (areas_m2[0] + areas_m2[-1]) / 2.0)
    simpson = (spacing * _simpson(areas_m2),) if len(areas_m2) % _TWO else ()
    return {
        "end_area_m3": trapeziums,
        "simpson_m3": simpson,
        "caution": _caution(areas_m2, trapeziums / spacing),
    }


def _simpson(areas_m2: tuple[float, ...]) -> float:
    """Return the integral of an odd number of areas over a spacing of one."""
    inner = 4.0 * sum(areas_m2[1:-1:2]) + 2.0 * sum(areas_m2[2:-1:2])
    return (areas_m2[0] + inner + areas_m2[-1]) / 3.0


_APART = 0.02
"""Rules that differ by more than this part of the volume do not see a smooth profile. [-]"""


def _caution(areas_m2: tuple[float, ...], trapeziums: float) -> str:
    """Return what has to be known before a volume is relied on.

    Simpson's rule begun one section later, with the outer bays by end areas, gives the same on a smooth profile.
    """
    if len(areas_m2) % _TWO == 0:
        return "an even number of sections: Simpson's rule needs an odd one, so only end areas are given"
    pairs = zip(areas_m2[::2], areas_m2[1::2], areas_m2[2::2], strict=False)
    if all(math.isclose(middle, (first + last) / 2.0, rel_tol=1e-3) for first, middle, last in pairs):
        return (
            "every middle section is the mean of its neighbours: if it was worked out so, Simpson's rule adds nothing; "
            "measure the middle section"
        )
    found = [trapeziums, _simpson(areas_m2)]
    if len(areas_m2) > _TWO + 1:
        outer = (areas_m2[0] + areas_m2[1] + areas_m2[-2] + areas_m2[-1]) / 2.0
        found.append(outer + _simpson(areas_m2[1:-1]))
    spread = (max(found) - min(found)) / max(*found, 1e-9)
    if spread <= _APART:
        return "none"
    return (
        f"the rules differ by {100.0 * spread:.0f} %: the profile has a kink, where Simpson's rule does not hold. "
        f"Take end "
        f"areas from kink to kink, or a section half way between"
    )


def prismoidal_volume(first_m2: float, middle_m2: float, last_m2: float, length_mm: float) -> dict[str, Value]:
    """Return the volume of a prismoid, the middle section from mean dimensions and not from the mean of the areas.

    Source: definition, V = L/6·(A1 + 4Am + A2)
    """
    if min(first_m2, middle_m2, last_m2) < 0.0 or length_mm <= 0.0:
        message = "Sections are not less than zero and the length is more than zero."
        raise SumRefusedError(message)
    length = units.mm_to_m(length_mm)
    volume = length / 6.0 * (first_m2 + 4.0 * middle_m2 + last_m2)
    by_ends = length * (first_m2 + last_m2) / 2.0
    return {"volume_m3": volume, "end_area_m3": by_ends, "correction_m3": by_ends - volume}


def bank_section(top_width_mm: float, depth_mm: float, side_slope: float) -> dict[str, Value]:
    """Return the area of a level section with sloping sides.

    Source: definition, A = h·(b + m·h)
    """
    if min(top_width_mm, depth_mm, side_slope) < 0.0:
        message = "Width, depth and slope are not less than zero."
        raise SumRefusedError(message)
    return {"area_m2": units.mm2_to_m2(depth_mm * (top_width_mm + side_slope * depth_mm))}


def bulking_and_loads(
    in_ground_m3: float,
    bulking_percent: float,
    load_m3: float,
    in_ground_t_per_m3: float,
    payload_t: float,
    shrinkage_percent: float = 0.0,
) -> dict[str, Value]:
    """Return loose volume, what it fills compacted, mass and loads: by volume or by payload, whichever is more.

    Source: definition, loose = in the ground · (1 + bulking)
    """
    if in_ground_m3 < 0.0 or bulking_percent < 0.0 or load_m3 <= 0.0 or min(in_ground_t_per_m3, payload_t) < 0.0:
        message = "Volumes and masses are not less than zero, and a load holds something."
        raise SumRefusedError(message)
    if not 0.0 <= shrinkage_percent < 100.0:  # noqa: PLR2004 - per cent
        message = "Shrinkage is a loss in volume: zero or more, and less than all of it."
        raise SumRefusedError(message)
    loose = loose_m3(in_ground_m3, bulking_percent)
    tonnes = in_ground_m3 * in_ground_t_per_m3
    by_volume, by_mass = loads_exact(loose, tonnes, load_m3, payload_t)
    return {
        "loose_m3": loose,
        "compacted_m3": compacted_m3(in_ground_m3, shrinkage_percent),
        "tonnes": tonnes,
        "loads_exact": max(by_volume, by_mass),
        "loads": whole(max(by_volume, by_mass)),
        "governed_by": "payload" if by_mass > by_volume else "volume",
    }


def swell_and_shrink(bank_density: float, loose_density: float, compacted_density: float) -> dict[str, Value]:
    """Return swell, load factor and shrinkage from three densities in any one unit.

    Source: definition
    """
    if min(bank_density, loose_density, compacted_density) <= 0.0:
        message = "All three densities are more than zero."
        raise SumRefusedError(message)
    return {
        "swell_percent": 100.0 * (bank_density / loose_density - 1.0),
        "load_factor": loose_density / bank_density,
        "shrinkage_percent": 100.0 * (1.0 - bank_density / compacted_density),
        "shrinkage_factor": bank_density / compacted_density,
    }


SUMS: tuple[Sum, ...] = (
    GRID_SUM,
    Sum(
        "end-area-volume",
        "Find the volume between cross-sections at equal spacing",
        (
            Quantity(
                "areas_m2",
                "m2",
                "areas of the sections in order, each as measured there, never the mean of its neighbours",
                kind="numbers",
            ),
            Quantity("spacing_mm", "mm", "distance between sections"),
        ),
        (
            Quantity("end_area_m3", "m3", "by end areas"),
            Quantity("simpson_m3", "m3", "by Simpson's rule; empty where the number of sections is even", "numbers"),
            Quantity("caution", "", "what has to be known before it is relied on", kind="word"),
        ),
        "V = L·(A1 + A2) / 2; V = L/3·(A1 + 4A2 + A3)",
        "definition",
        end_area_volume,
    ),
    Sum(
        "prismoidal-volume",
        "Find the volume of a prismoid from three sections",
        (
            Quantity("first_m2", "m2", "area at one end"),
            Quantity("middle_m2", "m2", "area half way, from mean dimensions"),
            Quantity("last_m2", "m2", "area at the other end"),
            Quantity("length_mm", "mm", "length"),
        ),
        (
            Quantity("volume_m3", "m3", "volume"),
            Quantity("end_area_m3", "m3", "what end areas alone would give"),
            Quantity("correction_m3", "m3", "prismoidal correction, taken off the end-area volume"),
        ),
        "V = L/6·(A1 + 4Am + A2)",
        "definition",
        prismoidal_volume,
    ),
    Sum(
        "bank-section",
        "Find the area of a level section with sloping sides",
        (
            Quantity("top_width_mm", "mm", "width at formation"),
            Quantity("depth_mm", "mm", "height or depth"),
            Quantity("side_slope", "", "run of the side for a rise of one"),
        ),
        (Quantity("area_m2", "m2", "area of the section"),),
        "A = h·(b + m·h)",
        "definition",
        bank_section,
    ),
    Sum(
        "bulking-and-loads",
        "Find the loose volume of a dig and the loads that take it away",
        (
            Quantity("in_ground_m3", "m3", "volume in the ground"),
            Quantity("bulking_percent", "%", "gain in volume when dug"),
            Quantity("load_m3", "m3", "what a skip or lorry holds"),
            Quantity("in_ground_t_per_m3", "t/m³", "mass in the ground", default=0.0),
            Quantity("payload_t", "t", "what it may carry; nothing means no limit", default=0.0),
            Quantity("shrinkage_percent", "%", "loss in volume from the ground to compacted", default=0.0),
        ),
        (
            Quantity("loose_m3", "m3", "loose volume"),
            Quantity("compacted_m3", "m3", "what it fills when compacted"),
            Quantity("tonnes", "t", "mass"),
            Quantity("loads_exact", "", "loads before rounding up"),
            Quantity("loads", "", "whole loads"),
            Quantity("governed_by", "", "volume or payload", kind="word"),
        ),
        "loose = in the ground · (1 + bulking); compacted = in the ground · (1 − shrinkage)",
        "definition",
        bulking_and_loads,
    ),
    Sum(
        "swell-and-shrink",
        "Find swell and shrinkage of soil from its densities",
        (
            Quantity("bank_density", "", "in the ground, any unit"),
            Quantity("loose_density", "", "loose, same unit"),
            Quantity("compacted_density", "", "compacted, same unit"),
        ),
        (
            Quantity("swell_percent", "%", "gain in volume from the ground to loose"),
            Quantity("load_factor", "", "in the ground over loose"),
            Quantity("shrinkage_percent", "%", "loss in volume from the ground to compacted"),
            Quantity("shrinkage_factor", "", "compacted over in the ground"),
        ),
        "swell = bank / loose − 1; shrinkage = 1 − bank / compacted",
        "definition",
        swell_and_shrink,
    ),
)
