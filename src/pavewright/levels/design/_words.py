"""The sentences of the findings on a design, in one place."""

from __future__ import annotations

from pavewright import units


def direction_chosen(area: str, main: float, cross: float, why: str, bearing_deg: float) -> str:
    """Say which way an area is laid where the job does not say it.

    Args:
        area: Name of the area.
        main: Main fall. [rise over run]
        cross: Cross fall, to the right looking downhill. [rise over run]
        why: Why it falls that way.
        bearing_deg: Direction of the main fall. [deg]
    """
    side = f", and {units.fall_text(cross)} to the {'right' if cross > 0 else 'left'} looking downhill" if cross else ""
    return (
        f"The job does not say which way {area} falls. It is laid {units.fall_text(main)} {why} (bearing "
        f"{bearing_deg:.0f} degrees){side}."
    )


def rounded_flatter(area: str, number: int, designed: float, strung: float, twist_mm: float) -> str:
    """Say that printed levels give a plane less than its least fall.

    Args:
        area: Name of the area.
        number: Number of the plane.
        designed: Its fall as designed. [rise over run]
        strung: Its fall by the printed levels. [rise over run]
        twist_mm: How far a corner stands off. [mm]
    """
    return (
        f"Plane {number} of {area} is designed at {units.fall_text(designed)}; the levels in whole "
        f"millimetres give it {units.fall_text(strung)}, with up to {twist_mm:.1f} mm of twist. Stretch the "
        f"strings along its two long edges and sight across."
    )


def fold_in_another_way() -> str:
    """Propose that all ways to fold an area are compared."""
    return "Fold it in another way: cheapest compares them all."
