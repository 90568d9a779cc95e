"""Concrete that is broken out of the dig: how it bulks and what it weighs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.earthworks._loads import loose_m3
from pavewright.earthworks._types import Spread
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.earthworks._figures import SoilFigures


def broken_away(broken_m3: float, known: SoilFigures) -> tuple[Spread, Spread, tuple[Working, ...]]:
    """Return concrete that is broken out: loose [m³], its mass [t], and the sums; nothing where there is none.

    Args:
        broken_m3: Concrete in the ground. [m³]
        known: How it bulks and weighs.
    """
    nothing = Spread(0.0, 0.0, 0.0)
    if broken_m3 <= 0.0:
        return nothing, nothing, ()
    gain, mass = known.broken, known.concrete
    loose = Spread(*(loose_m3(broken_m3, each) for each in _ends(gain.low, gain.value, gain.high)))
    tonnes = Spread(*(broken_m3 * each for each in _ends(mass.low, mass.value, mass.high)))
    said = f"broken concrete = {broken_m3:.2f} × (1 + {gain.value:g} %)"
    weighs = f"mass of broken concrete = {broken_m3:.2f} × {mass.value:g}"
    return loose, tonnes, (Working(said, loose.likely, "m³", (gain,)), Working(weighs, tonnes.likely, "t", (mass,)))


def _ends(low: float | None, likely: float, high: float | None) -> tuple[float, float, float]:
    return (likely if low is None else low, likely, likely if high is None else high)


def added(one: Spread, other: Spread) -> Spread:
    """Return two ranges together."""
    return Spread(one.low + other.low, one.likely + other.likely, one.high + other.high)
