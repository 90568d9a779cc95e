"""Soakaways checked against the storms of the place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.sums import Working
from pavewright.water import _words_drains as words
from pavewright.water._codes import Code
from pavewright.water._types import SoakawayCheck
from pavewright.water._types_parts import PitVerdict
from pavewright.water.ground._pit_size import size_of
from pavewright.water.ground._pit_tests import rate_of
from pavewright.water.ground._sized_pit import Demand, held
from pavewright.water.rain import storms

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.job import Outfall, Rain, Site, Soakaway
    from pavewright.rules import Figure
    from pavewright.water._figures import WaterFigures
    from pavewright.water._types_parts import PitSize


def check_soakaways(
    site: Site, reaching_m2: Mapping[str, float], figures: WaterFigures
) -> tuple[tuple[SoakawayCheck, ...], list[Finding]]:
    """Return every soakaway of known or proposed size checked against its storms, and what is noticed.

    Args:
        site: Outfalls and rain of the place.
        reaching_m2: Paving whose water reaches each outfall in the end, by its name. [m²]
        figures: The figures of water.
    """
    checks: list[SoakawayCheck] = []
    findings: list[Finding] = []
    for outfall in site.outfalls:
        area = reaching_m2.get(outfall.name, 0.0)
        if outfall.soakaway is None or area <= 0.0:
            continue
        if site.rain is None:
            findings.append(_no_rain(outfall))
            continue
        size = size_of(outfall, area, site.rain, figures)
        if size is None:
            findings.append(_no_size(outfall, area, figures))
            continue
        check = _check(outfall.soakaway, size, area, site.rain, figures)
        checks.append(check)
        findings += _findings(outfall, check, figures)
    return tuple(checks), findings


def _no_rain(outfall: Outfall) -> Finding:
    place, said = f"outfall {outfall.name}", words.rain_not_given(outfall.name)
    return Finding(Code.RAIN_NOT_GIVEN, Severity.CHECK, place, said)


def _no_size(outfall: Outfall, area_m2: float, figures: WaterFigures) -> Finding:
    """Say that no size can be proposed, and why."""
    tight = figures.min_infiltration_m_per_s
    rate = rate_of(outfall.soakaway)[0] if outfall.soakaway is not None else tight.value
    if rate < tight.value:
        return _too_tight(outfall.name, rate, tight)
    longest = figures.soakaway_longest_mm
    said, options = words.no_size(outfall.name, area_m2, longest.value)
    place = f"outfall {outfall.name}"
    return Finding(Code.SOAKAWAY_NOT_SIZED, Severity.STOP, place, said, figure=longest, options=options)


def _check(pit: Soakaway, size: PitSize, area_m2: float, rain: Rain, figures: WaterFigures) -> SoakawayCheck:
    falling = storms(rain, figures.storms)
    rate, record = rate_of(pit)
    demand = Demand(area_m2, rate, falling, figures.half_empty_h.value)
    found = held((size.length_mm, size.width_mm, size.depth_mm), size.void_percent, demand)
    required, governing = found.balance.required_m3, found.balance.governing_min
    return SoakawayCheck(
        outfall=size.outfall,
        area_m2=area_m2,
        required_m3=required,
        available_m3=found.available_m3,
        governing_min=governing,
        half_empty_hours=found.balance.half_empty_min / units.MINUTES_PER_HOUR,
        working=Working(
            f"storage = {area_m2:.2f} m² × {dict(falling)[governing]:.1f} mm − {found.sides_m2:.2f} m² × {rate:.3g} "
            f"m/s × {governing:g} min",
            required,
            "m³",
            () if rain.depths else figures.storms.hour_and_ten_years(),
            f"the {governing:g} min storm of {rain.years:g} years governs, climate {rain.climate_percent:g} % added",
        ),
        verdict=found.verdict,
        size=size,
        test=record,
    )


def _findings(outfall: Outfall, check: SoakawayCheck, figures: WaterFigures) -> list[Finding]:
    place = f"outfall {outfall.name}"
    found = _of_its_size(check, place)
    holds, wants = check.available_m3, check.required_m3
    if wants > holds:
        said, options = words.soakaway_too_small(check)
        code = Code.SOAKAWAY_TOO_SMALL
        found.append(Finding(code, Severity.STOP, place, said, holds, wants, "m³", options=options))
    slow, takes_h = figures.half_empty_h, check.half_empty_hours
    if takes_h > slow.value:
        said = words.soakaway_slow(check)
        found.append(Finding(Code.SOAKAWAY_SLOW, Severity.CHECK, place, said, takes_h, slow.value, "h", slow))
    limit, area_m2 = figures.area_for_one_soakaway_m2, check.area_m2
    if area_m2 > limit.value:
        said, code = words.soakaway_takes_too_much(check, limit), Code.SOAKAWAY_TAKES_TOO_MUCH
        found.append(Finding(code, Severity.CHECK, place, said, area_m2, limit.value, "m²", limit))
    tight = figures.min_infiltration_m_per_s
    rate = rate_of(outfall.soakaway)[0] if outfall.soakaway is not None else tight.value
    found += _seldom(outfall.name, check, figures)
    if rate < tight.value:
        found.append(_too_tight(outfall.name, rate, tight))
    return found


def _of_its_size(check: SoakawayCheck, place: str) -> list[Finding]:
    """Say that a size is proposed, and that the worst storm may not be among those given."""
    found = []
    if check.size.proposed:
        said = words.size_proposed(check.size, check.area_m2)
        found.append(Finding(Code.SOAKAWAY_PROPOSED, Severity.NOTE, place, said))
    if check.verdict is PitVerdict.FOR_THESE_STORMS:
        said, options = words.for_these_storms(check)
        found.append(Finding(Code.SOAKAWAY_FOR_THESE_STORMS, Severity.CHECK, place, said, options=options))
    return found


def _too_tight(name: str, rate: float, tight: Figure) -> Finding:
    said, options = words.too_tight(name, rate)
    place, code = f"outfall {name}", Code.GROUND_TOO_TIGHT
    return Finding(code, Severity.STOP, place, said, rate, tight.value, "m/s", tight, options=options)


def _seldom(name: str, check: SoakawayCheck, figures: WaterFigures) -> list[Finding]:
    """Return a finding where a trial pit was filled too seldom."""
    fills = figures.pit_fills
    if check.test is None or len(check.test.times_min) >= fills.value:
        return []
    times = len(check.test.times_min)
    said, place = words.filled_too_seldom(name, times, fills), f"outfall {name}"
    return [Finding(Code.PIT_FILLED_TOO_SELDOM, Severity.CHECK, place, said, float(times), fills.value, "", fills)]
