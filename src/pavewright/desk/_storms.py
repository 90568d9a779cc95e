"""A storm over a plan, and its drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import rulebook
from pavewright.drawing import film_plan, to_svg
from pavewright.papers import written_where
from pavewright.water import run_storm

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.pipeline import Plan
    from pavewright.water import AreaStorm


def run_storm_on(
    made: Plan,
    rain_mm_per_h: float | None = None,
    rain_min: float = 10.0,
    cell_mm: float = 100.0,
    report: Callable[[str], None] | None = None,
) -> tuple[AreaStorm, ...]:
    """Return what a storm does on every area of a plan.

    Raises:
        StormRefusedError: rain or cells are not what they can be.
    """
    rules = rulebook.load(made.edition)
    return run_storm(made.survey, made.levels, rules, rain_mm_per_h, rain_min, cell_mm, report)


def film_drawing(made: Plan, storms: tuple[AreaStorm, ...]) -> str:
    """Return the plan of a storm as SVG."""
    with written_where(made):
        return to_svg(film_plan(made, storms))
