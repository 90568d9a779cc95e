"""What leaves the site: loose volume, mass, loads and barrows, each as a range."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.earthworks._types import Spread
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.job import Disposal, Soil
    from pavewright.rules import Rulebook


def loose(away_m3: float, soil: Soil, rules: Rulebook) -> tuple[Spread, Working]:
    """Return the loose volume of soil. [m³].

    Source: definition, loose = in the ground · (1 + bulking)
    """
    table = rules.table("earthworks.bulking")
    low, high = table.figure(soil.value, "low_percent"), table.figure(soil.value, "high_percent")
    likely = (low.value + high.value) / 2.0
    spread = Spread(*(away_m3 * (1.0 + percent / 100.0) for percent in (low.value, likely, high.value)))
    working = Working(
        f"loose = {away_m3:.2f} × (1 + {low.value:g} to {high.value:g} %)",
        spread.likely,
        "m³",
        (low, high),
        f"{spread.low:.1f} to {spread.high:.1f}: sources disagree on bulking",
    )
    return spread, working


def mass(away_m3: float, soil: Soil, rules: Rulebook) -> tuple[Spread, Working]:
    """Return the mass of soil. [t]."""
    table = rules.table("earthworks.in_ground_t_per_m3")
    low, high = table.figure(soil.value, "low"), table.figure(soil.value, "high")
    likely = (low.value + high.value) / 2.0
    spread = Spread(away_m3 * low.value, away_m3 * likely, away_m3 * high.value)
    words = f"mass = {away_m3:.2f} × {low.value:g} to {high.value:g}"
    return spread, Working(words, spread.likely, "t", (low, high), "in the ground, whatever its loose volume")


def loads(volume: Spread, tonnes: Spread, disposal: Disposal) -> tuple[Spread, Working]:
    """Return whole loads: by volume or by payload, whichever is more."""

    def count(volume_m3: float, mass_t: float) -> float:
        by_volume = math.ceil(volume_m3 / disposal.volume_m3 - 1e-9)
        if disposal.payload_tonnes is None:
            return float(by_volume)
        return float(max(by_volume, math.ceil(mass_t / disposal.payload_tonnes - 1e-9)))

    spread = Spread(count(volume.low, tonnes.low), count(volume.likely, tonnes.likely), count(volume.high, tonnes.high))
    by_volume = volume.likely / disposal.volume_m3
    by_mass = 0.0 if disposal.payload_tonnes is None else tonnes.likely / disposal.payload_tonnes
    governs = "payload" if by_mass > by_volume else "volume"
    payload = "" if disposal.payload_tonnes is None else f", {tonnes.likely:.1f} t / {disposal.payload_tonnes:g} t"
    words = f"loads = {volume.likely:.1f} m³ / {disposal.volume_m3:g} m³{payload}"
    return spread, Working(words, spread.likely, "loads", (), f"rounded up; {governs} governs")


def barrows(volume: Spread, rules: Rulebook) -> tuple[Spread, Working]:
    """Return barrows of loose soil."""
    figure = rules.figure("earthworks.barrow_m3")
    small, large = figure.low or figure.value, figure.high or figure.value
    spread = Spread(
        *(
            float(math.ceil(v / b - 1e-9))
            for v, b in ((volume.low, large), (volume.likely, figure.value), (volume.high, small))
        )
    )
    return spread, Working(f"barrows = {volume.likely:.1f} / {figure.value:g}", spread.likely, "barrows", (figure,))
