"""What leaves the site: loose volume, mass, loads and barrows, each as a range."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.earthworks._types import Spread
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.earthworks._types import TopsoilAllowance
    from pavewright.job import Disposal
    from pavewright.rules import Rulebook


def loose(away: Mapping[str, float], rules: Rulebook) -> tuple[Spread, tuple[Working, ...]]:
    """Return the loose volume of soils. [m³].

    Args:
        away: What leaves of each soil, in the ground. [m³]
        rules: The rulebook.

    Source: definition, loose = in the ground · (1 + bulking)
    """
    table = rules.table("earthworks.bulking")
    parts, workings = [], []
    for soil, away_m3 in away.items():
        low, high = table.figure(soil, "low_percent"), table.figure(soil, "high_percent")
        likely = (low.value + high.value) / 2.0
        spread = Spread(*(away_m3 * (1.0 + percent / 100.0) for percent in (low.value, likely, high.value)))
        parts.append(spread)
        of = f" {soil.replace('_', ' ')}" if len(away) > 1 else ""
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


def mass(away: Mapping[str, float], rules: Rulebook) -> tuple[Spread, tuple[Working, ...]]:
    """Return the mass of soils. [t].

    Args:
        away: What leaves of each soil, in the ground. [m³]
        rules: The rulebook.
    """
    table = rules.table("earthworks.in_ground_t_per_m3")
    parts, workings = [], []
    for soil, away_m3 in away.items():
        low, high = table.figure(soil, "low"), table.figure(soil, "high")
        likely = (low.value + high.value) / 2.0
        parts.append(Spread(away_m3 * low.value, away_m3 * likely, away_m3 * high.value))
        of = f" of {soil.replace('_', ' ')}" if len(away) > 1 else ""
        words = f"mass{of} = {away_m3:.2f} × {low.value:g} to {high.value:g}"
        note = "in the ground, whatever its loose volume"
        workings.append(Working(words, parts[-1].likely, "t", (low, high), note))
    return _summed(parts), tuple(workings)


def _summed(parts: Sequence[Spread]) -> Spread:
    return Spread(sum(p.low for p in parts), sum(p.likely for p in parts), sum(p.high for p in parts))


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


def more_loads(
    volume: Spread,
    tonnes: Spread,
    soil: str,
    allowances: Sequence[TopsoilAllowance],
    disposal: Disposal | None,
    rules: Rulebook,
) -> Spread | None:
    """Return the loads that topsoil of unknown depth adds; None where it adds nothing or no disposal is priced.

    Args:
        volume: What leaves anyhow, loose. [m³]
        tonnes: Its mass. [t]
        soil: The class by which the topsoil bulks and weighs.
        allowances: What it may add.
        disposal: What a load holds.
        rules: The rulebook.
    """
    if disposal is None or not allowances:
        return None
    dug = [sum(getattr(each.dig_m3, end) for each in allowances) for end in ("low", "likely", "high")]
    more = [(loose({soil: m3}, rules)[0], mass({soil: m3}, rules)[0]) for m3 in dug]
    swollen = Spread(more[0][0].low, more[1][0].likely, more[2][0].high)
    heavy = Spread(more[0][1].low, more[1][1].likely, more[2][1].high)
    before, _ = loads(volume, tonnes, disposal)
    after, _ = loads(_summed([volume, swollen]), _summed([tonnes, heavy]), disposal)
    return Spread(after.low - before.low, after.likely - before.likely, after.high - before.high)
