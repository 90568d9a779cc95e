"""Soakaways held against the storms of the place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity, worded
from pavewright.sums import Working
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
    """Return every soakaway of known or proposed size held against its storms, and what is noticed.

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
    words = (
        f"{outfall.name} cannot be held against its storms, the rain of the place is not given: enter site.rain, the "
        "five-year hour and its ratio to two days, from a map or a rainfall service."
    )
    return Finding(Code.RAIN_NOT_GIVEN, Severity.CHECK, f"outfall {outfall.name}", words)


def _no_size(outfall: Outfall, area_m2: float, figures: WaterFigures) -> Finding:
    """Say that no size can be proposed, and why."""
    tight = figures.min_infiltration_m_per_s
    rate = rate_of(outfall.soakaway)[0] if outfall.soakaway is not None else tight.value
    if rate < tight.value:
        return _too_tight(outfall.name, rate, tight)
    longest = figures.soakaway_longest_mm
    words = (
        f"No size of {outfall.name} up to {units.mm_to_m(longest.value):g} m holds the water of {area_m2:.1f} m² and "
        "is half empty in time."
    )
    ways = ("Lead part of the paving elsewhere.", "Find another outfall.", "Test the ground elsewhere.")
    place = f"outfall {outfall.name}"
    return Finding(Code.SOAKAWAY_NOT_SIZED, Severity.STOP, place, words, figure=longest, options=worded(ways))


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
    found = _size_told(check, place)
    short = check.required_m3 - check.available_m3
    if short > 0.0:
        words = (
            f"{outfall.name} holds {check.available_m3:.2f} m³; {check.area_m2:.1f} m² of paving want "
            f"{check.required_m3:.2f} m³ in the {check.governing_min:g} min storm: {short:.2f} m³ short."
        )
        ways: tuple[str, ...] = (
            "Make it longer: length adds storage and side alike.",
            "Fill it with crates in place of stone.",
            "Lead part of the paving to a border or a second soakaway.",
        )
        found.append(
            Finding(
                Code.SOAKAWAY_TOO_SMALL,
                Severity.STOP,
                place,
                words,
                check.available_m3,
                check.required_m3,
                "m³",
                options=worded(ways),
            )
        )
    slow = figures.half_empty_h
    if check.half_empty_hours > slow.value:
        words = f"{outfall.name} takes {check.half_empty_hours:.0f} h to half empty; the next storm may find it full."
        found.append(
            Finding(Code.SOAKAWAY_SLOW, Severity.CHECK, place, words, check.half_empty_hours, slow.value, "h", slow)
        )
    most = figures.area_for_one_soakaway_m2
    if check.area_m2 > most.value:
        words = f"{check.area_m2:.0f} m² drain to {outfall.name}; {most.label}: {most.value:g} m²."
        found.append(
            Finding(Code.SOAKAWAY_TAKES_TOO_MUCH, Severity.CHECK, place, words, check.area_m2, most.value, "m²", most)
        )
    tight = figures.min_infiltration_m_per_s
    rate = rate_of(outfall.soakaway)[0] if outfall.soakaway is not None else tight.value
    found += _seldom(outfall.name, check, figures)
    if rate < tight.value:
        found.append(_too_tight(outfall.name, rate, tight))
    return found


def _size_told(check: SoakawayCheck, place: str) -> list[Finding]:
    """Say that a size is proposed, and that the worst storm may not be among those given."""
    found = []
    size = check.size
    if size.proposed:
        words = (
            f"{check.outfall} has no size of its own: {size.length_mm:g} × {size.width_mm:g} mm, {size.depth_mm:g} mm "
            f"below the inlet, is proposed for the {check.area_m2:.1f} m² that reach it."
        )
        found.append(Finding(Code.SOAKAWAY_PROPOSED, Severity.NOTE, place, words))
    if check.verdict is PitVerdict.FOR_THESE_STORMS:
        words = (
            f"{check.outfall} is enough for the storms that are given only: the {check.governing_min:g} min storm "
            "wants most, and durations close to it on both sides are not there. Another storm may want more."
        )
        ways = ("Enter depths of rain for shorter and longer storms.",)
        found.append(Finding(Code.SOAKAWAY_FOR_THESE_STORMS, Severity.CHECK, place, words, options=worded(ways)))
    return found


def _too_tight(name: str, rate: float, tight: Figure) -> Finding:
    words = f"The ground at {name} takes {rate:.1e} m/s: too tight for a soakaway."
    ways = ("Find another outfall.", "Test deeper or elsewhere.")
    place = f"outfall {name}"
    return Finding(
        Code.GROUND_TOO_TIGHT, Severity.STOP, place, words, rate, tight.value, "m/s", tight, options=worded(ways)
    )


def _seldom(name: str, check: SoakawayCheck, figures: WaterFigures) -> list[Finding]:
    """Return a finding where a trial pit was filled too seldom."""
    fills = figures.pit_fills
    if check.test is None or len(check.test.times_min) >= fills.value:
        return []
    times = len(check.test.times_min)
    words = f"The trial pit at {name} was filled {times} times: fill it {fills.value:g} times."
    place = f"outfall {name}"
    return [Finding(Code.PIT_FILLED_TOO_SELDOM, Severity.CHECK, place, words, float(times), fills.value, "", fills)]
