"""Sums of laying unit by unit: where a tap sinks what, what corner readings say, what bags say of a bed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid import TRUSTED
from pavewright.bedding._bed_use import BedPlanned, bed_so_far
from pavewright.bedding._corners import by_percent, plane_part
from pavewright.bedding._plate import moved_by, plate, sink
from pavewright.bedding._taps import Care, best_tap
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

if TYPE_CHECKING:
    from pavewright.geometry import XY

_CORNERS = 4


def _rectangle(slab_length_mm: float, slab_width_mm: float) -> tuple[XY, ...]:
    if min(slab_length_mm, slab_width_mm) <= 0.0:
        message = "A slab is longer and wider than zero: measure both sides."
        raise SumRefusedError(message)
    a, b = slab_length_mm / 2.0, slab_width_mm / 2.0
    return (-a, -b), (a, -b), (a, b), (-a, b)


def _four(proud_mm: tuple[float, ...]) -> tuple[float, ...]:
    if len(proud_mm) != _CORNERS:
        message = "Give four corners, in order round the slab."
        raise SumRefusedError(message)
    return proud_mm


def tap_sinks(
    slab_length_mm: float, slab_width_mm: float, tap_along_mm: float, tap_across_mm: float, down_mm: float
) -> dict[str, Value]:
    """Return how far the corners of a slab sink for a tap, free, and with those held that would rise.

    Source: common_practice
    """
    corners = _rectangle(slab_length_mm, slab_width_mm)
    tap = tap_along_mm, tap_across_mm
    if abs(tap[0]) > slab_length_mm / 2.0 or abs(tap[1]) > slab_width_mm / 2.0:
        message = "The mallet misses the slab: measure from its middle."
        raise SumRefusedError(message)
    slab = plate(corners)
    free = [sink(slab, tap, corner) for corner in corners]
    held, on = moved_by(slab, tap)
    return {
        "free_mm": tuple(round(down_mm * each, 9) for each in free),
        "held_mm": tuple(round(down_mm * each, 9) for each in held),
        "held_corners": tuple(float(each + 1) for each in on),
    }


def corners_of_slab(
    slab_length_mm: float, slab_width_mm: float, proud_mm: tuple[float, ...], sd_mm: float
) -> dict[str, Value]:
    """Return the plane in the four corners of a slab and the twist that is left over.

    Source: common_practice
    """
    found = plane_part(_rectangle(slab_length_mm, slab_width_mm), _four(proud_mm), sd_mm)
    assert found is not None  # noqa: S101 - four corners carry a plane
    assert found.twist_mm is not None  # noqa: S101 - and leave a twist
    assert found.twist_sd_mm is not None  # noqa: S101
    return {"plane_mm": found.over_mm, "twist_mm": found.twist_mm, "twist_sd_mm": found.twist_sd_mm}


def where_to_tap(
    slab_length_mm: float,
    slab_width_mm: float,
    proud_mm: tuple[float, ...],
    sd_mm: float,
    share_percent: float,
    gives_percent: float,
    at_once_mm: float,
    step_limit_mm: float,
) -> dict[str, Value]:
    """Return where to tap a slab next, and how far its corners should go down before they are read again.

    Source: common_practice
    """
    corners = _rectangle(slab_length_mm, slab_width_mm)
    found = plane_part(corners, _four(proud_mm), sd_mm)
    assert found is not None  # noqa: S101 - four corners carry a plane
    care = Care(TRUSTED, share_percent, gives_percent, at_once_mm, (step_limit_mm,) * _CORNERS)
    tap = best_tap(plate(corners), found.over_mm, found.sd_mm, care)
    if tap is None:
        message = "No tap is safe with these readings: a corner may come too low. Read it again, or lift the slab."
        raise SumRefusedError(message)
    return {
        "place": tap.place.value,
        "along_from_middle_mm": tap.at[0],
        "across_from_middle_mm": tap.at[1],
        "down_mm": tap.down_mm,
        "held_corners": tuple(float(each + 1) for each in tap.held),
    }


def slope_by_percent(length_mm: float, percent: float) -> dict[str, Value]:
    """Return how far the far end of a slab lies below its near end, by the percent of a digital level.

    Source: definition
    """
    if length_mm <= 0.0:
        message = "The level lies along some length: measure it."
        raise SumRefusedError(message)
    return {"lower_mm": by_percent(length_mm, percent)}


def bed_by_bags(
    opened: float,
    left_part: float,
    laid_m2: float,
    all_m2: float,
    bags_per_m2: float,
    planned_mm: float,
    spread_percent: float,
    off_mm: float,
) -> dict[str, Value]:
    """Return what bags used against area laid say of the thickness of a bed.

    Source: definition
    """
    if min(opened, left_part, spread_percent) < 0.0 or left_part > 1.0:
        message = "Bags are not fewer than zero, and of the last one no more is left than all of it."
        raise SumRefusedError(message)
    if min(laid_m2, bags_per_m2, planned_mm, off_mm) <= 0.0 or all_m2 < laid_m2:
        message = "What is laid is more than zero and no more than all of it; bed and bags are more than zero."
        raise SumRefusedError(message)
    found = bed_so_far(opened, left_part, laid_m2, BedPlanned(bags_per_m2, planned_mm, all_m2, spread_percent, off_mm))
    mean, low, high = found.mean_mm, found.low_mm, found.high_mm
    assert mean is not None  # noqa: S101 - known, since all that it needs is
    assert low is not None  # noqa: S101
    assert high is not None  # noqa: S101
    assert found.more_low is not None  # noqa: S101
    assert found.more_high is not None  # noqa: S101
    return {
        "runs": found.runs.value.replace("_", " "),
        "mean_mm": mean,
        "low_mm": low,
        "high_mm": high,
        "more_low": found.more_low,
        "more_high": found.more_high,
    }


_SLAB = (
    Quantity("slab_length_mm", "mm", "length of the slab"),
    Quantity("slab_width_mm", "mm", "width of the slab"),
)
_READ = (
    Quantity("proud_mm", "mm", "each corner over what is wanted, in order round the slab", kind="numbers"),
    Quantity("sd_mm", "mm", "standard deviation of one reading", figure="bedding.read_by_wedge_mm"),
)
SUMS: tuple[Sum, ...] = (
    Sum(
        "tap-sinks",
        "Find how far each corner of a slab sinks for a tap",
        (
            *_SLAB,
            Quantity("tap_along_mm", "mm", "the tap from the middle, along"),
            Quantity("tap_across_mm", "mm", "the tap from the middle, across"),
            Quantity("down_mm", "mm", "how far the middle sinks, nobody standing on it"),
        ),
        (
            Quantity("free_mm", "mm", "each corner, nobody standing on it", kind="numbers"),
            Quantity("held_mm", "mm", "each corner, the same tap, those held that would rise", kind="numbers"),
            Quantity("held_corners", "", "numbers of the corners held", kind="numbers"),
        ),
        "sink = middle · (1 + 12·x·X/a² + 12·y·Y/b²)",
        "common practice",
        tap_sinks,
    ),
    Sum(
        "corners-of-slab",
        "Find the plane and the twist in the four corners of a slab",
        (*_SLAB, *_READ),
        (
            Quantity("plane_mm", "mm", "the plane in them, at each corner", kind="numbers"),
            Quantity("twist_mm", "mm", "what is left over, up at the first corner and down at the next"),
            Quantity("twist_sd_mm", "mm", "standard deviation of the twist"),
        ),
        "twist = (z1 − z2 + z3 − z4) / 4",
        "common practice",
        corners_of_slab,
    ),
    Sum(
        "where-to-tap",
        "Find where to tap a slab down, and by how much",
        (
            *_SLAB,
            *_READ,
            Quantity("share_percent", "%", "part that is tapped at once", figure="bedding.tap_share_percent"),
            Quantity("gives_percent", "%", "what the bed may give beyond", figure="bedding.bed_gives_percent"),
            Quantity("at_once_mm", "mm", "the most before it is read again", figure="bedding.tap_at_once_mm"),
            Quantity(
                "step_limit_mm", "mm", "step to a neighbour that is allowed", figure="as_laid.step_between_units_mm"
            ),
        ),
        (
            Quantity("place", "", "towards a corner, a side, or at the middle", kind="word"),
            Quantity("along_from_middle_mm", "mm", "the place from the middle, along"),
            Quantity("across_from_middle_mm", "mm", "the place from the middle, across"),
            Quantity("down_mm", "mm", "how far each corner should go down", kind="numbers"),
            Quantity("held_corners", "", "numbers of the corners to hold", kind="numbers"),
        ),
        "midway between the middle and a corner or a side; the far corner held",
        "common practice",
        where_to_tap,
    ),
    Sum(
        "slope-by-percent",
        "Find how far a slab falls by the percent of a digital level",
        (
            Quantity("length_mm", "mm", "length of the slab along the level"),
            Quantity("percent", "%", "what the level shows, falling"),
        ),
        (Quantity("lower_mm", "mm", "far end below the near end"),),
        "lower = length · percent / 100",
        "definition",
        slope_by_percent,
    ),
    Sum(
        "bed-by-bags",
        "Find whether a bed runs thick by the bags used",
        (
            Quantity("opened", "", "bags opened so far"),
            Quantity("left_part", "", "part of the last one that is left"),
            Quantity("laid_m2", "m²", "area laid with them"),
            Quantity("all_m2", "m²", "area of all"),
            Quantity("bags_per_m2", "", "bags to a square metre as planned"),
            Quantity("planned_mm", "mm", "bed planned"),
            Quantity("spread_percent", "%", "spread from bag to bag", figure="bedding.batch_spread_percent"),
            Quantity("off_mm", "mm", "what the bed may be off", figure="bedding.bed_off_mm"),
        ),
        (
            Quantity("runs", "", "thick, thin, as planned, or too early to say", kind="word"),
            Quantity("mean_mm", "mm", "likeliest mean bed"),
            Quantity("low_mm", "mm", "thinnest that fits"),
            Quantity("high_mm", "mm", "thickest that fits"),
            Quantity("more_low", "", "bags more than planned for the rest, at the least"),
            Quantity("more_high", "", "the same at the most"),
        ),
        "bed = planned · (opened − left) / (laid · bags per m²), ± 2 · spread / √bags",
        "definition",
        bed_by_bags,
    ),
)
"""Sums of this room."""
