"""What leaves the site: loose volume, mass, loads and barrows, each as a range."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.earthworks._types import Spread
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.earthworks._figures import SoilFigures
    from pavewright.earthworks._types import TopsoilAllowance
    from pavewright.job import Disposal, Soil
    from pavewright.rules import Figure


def loose_m3(in_ground_m3: float, bulking_percent: float) -> float:
    """Return the loose volume of soil. [m³].

    Source: definition, loose = in the ground · (1 + bulking)
    """
    return in_ground_m3 * (1.0 + bulking_percent / 100.0)


def compacted_m3(in_ground_m3: float, shrink_percent: float) -> float:
    """Return the volume that soil fills, compacted. [m³].

    Source: definition, compacted = in the ground · (1 − shrink)
    """
    return in_ground_m3 * (1.0 - shrink_percent / 100.0)


def loads_exact(volume_m3: float, mass_t: float, load_m3: float, payload_t: float | None) -> tuple[float, float]:
    """Return loads by volume and by payload, not rounded; none by payload where none is known.

    Args:
        volume_m3: Loose volume. [m³]
        mass_t: Mass. [t]
        load_m3: Volume of a load. [m³]
        payload_t: Payload of a load. [t]

    Source: definition
    """
    return volume_m3 / load_m3, mass_t / payload_t if payload_t else 0.0


def whole(exact: float) -> float:
    """Return so many, rounded up; a whole number but for rounding of the arithmetic stays.

    Args:
        exact: How many by the sum. [-]
    """
    return float(math.ceil(exact - 1e-9))


def loose(away: Mapping[Soil, float], known: SoilFigures) -> tuple[Spread, tuple[Working, ...]]:
    """Return the loose volume of soils. [m³].

    Args:
        away: What leaves of each soil, in the ground. [m³]
        known: How soils swell and weigh.

    """
    parts, workings = [], []
    for soil, away_m3 in away.items():
        low, high = known.bulking[soil]
        likely = (low.value + high.value) / 2.0
        spread = Spread(*(loose_m3(away_m3, percent) for percent in (low.value, likely, high.value)))
        parts.append(spread)
        of = f" {soil.value.replace('_', ' ')}" if len(away) > 1 else ""
        workings.append(
            Working(
                f"loose{of} = {away_m3:.2f} × (1 + {low.value:g} to {high.value:g} %)",
                spread.likely,
                "m³",
                (low, high),
                f"{spread.low:.1f} to {spread.high:.1f}: sources disagree on bulking",
            )
        )
    return _summed(parts), tuple(workings)


def mass(away: Mapping[Soil, float], known: SoilFigures) -> tuple[Spread, tuple[Working, ...]]:
    """Return the mass of soils. [t].

    Args:
        away: What leaves of each soil, in the ground. [m³]
        known: How soils swell and weigh.
    """
    parts, workings = [], []
    for soil, away_m3 in away.items():
        low, high = known.in_ground[soil]
        likely = (low.value + high.value) / 2.0
        parts.append(Spread(away_m3 * low.value, away_m3 * likely, away_m3 * high.value))
        of = f" of {soil.value.replace('_', ' ')}" if len(away) > 1 else ""
        words = f"mass{of} = {away_m3:.2f} × {low.value:g} to {high.value:g}"
        note = "in the ground, whatever its loose volume"
        workings.append(Working(words, parts[-1].likely, "t", (low, high), note))
    return _summed(parts), tuple(workings)


def _summed(parts: Sequence[Spread]) -> Spread:
    return Spread(sum(p.low for p in parts), sum(p.likely for p in parts), sum(p.high for p in parts))


def loads(volume: Spread, tonnes: Spread, disposal: Disposal) -> tuple[Spread, Working]:
    """Return whole loads: by volume or by payload, whichever is more."""

    def count(volume_m3: float, mass_t: float) -> float:
        return whole(max(loads_exact(volume_m3, mass_t, disposal.volume_m3, disposal.payload_tonnes)))

    spread = Spread(count(volume.low, tonnes.low), count(volume.likely, tonnes.likely), count(volume.high, tonnes.high))
    by_volume, by_mass = loads_exact(volume.likely, tonnes.likely, disposal.volume_m3, disposal.payload_tonnes)
    governs = "payload" if by_mass > by_volume else "volume"
    payload = "" if disposal.payload_tonnes is None else f", {tonnes.likely:.1f} t / {disposal.payload_tonnes:g} t"
    words = f"loads = {volume.likely:.1f} m³ / {disposal.volume_m3:g} m³{payload}"
    return spread, Working(words, spread.likely, "loads", (), f"rounded up; {governs} governs")


def barrows(volume: Spread, figure: Figure) -> tuple[Spread, Working]:
    """Return barrows of loose soil."""
    small, large = figure.low or figure.value, figure.high or figure.value
    spread = Spread(
        *(whole(v / b) for v, b in ((volume.low, large), (volume.likely, figure.value), (volume.high, small)))
    )
    return spread, Working(f"barrows = {volume.likely:.1f} / {figure.value:g}", spread.likely, "barrows", (figure,))


def more_loads(
    volume: Spread,
    tonnes: Spread,
    soil: Soil,
    allowances: Sequence[TopsoilAllowance],
    disposal: Disposal | None,
    known: SoilFigures,
) -> Spread | None:
    """Return the loads that topsoil of unknown depth adds; None where it adds nothing or no disposal is priced.

    Args:
        volume: What leaves anyhow, loose. [m³]
        tonnes: Its mass. [t]
        soil: The class by which the topsoil bulks and weighs.
        allowances: What it may add.
        disposal: What a load holds.
        known: How soils swell and weigh.
    """
    if disposal is None or not allowances:
        return None
    dug = [sum(getattr(each.dig_m3, end) for each in allowances) for end in ("low", "likely", "high")]
    more = [(loose({soil: m3}, known)[0], mass({soil: m3}, known)[0]) for m3 in dug]
    swollen = Spread(more[0][0].low, more[1][0].likely, more[2][0].high)
    heavy = Spread(more[0][1].low, more[1][1].likely, more[2][1].high)
    before, _ = loads(volume, tonnes, disposal)
    after, _ = loads(_summed([volume, swollen]), _summed([tonnes, heavy]), disposal)
    return Spread(after.low - before.low, after.likely - before.likely, after.high - before.high)
