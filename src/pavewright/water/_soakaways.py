"""Soakaways held against the storms of the place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Severity
from pavewright.sums import Working
from pavewright.water._storms import storms
from pavewright.water._sums_infiltration import trial_pit_fills
from pavewright.water._sums_soakaways import soakaway_pit
from pavewright.water._types import PitRecord, SoakawayCheck

if TYPE_CHECKING:
    from pavewright.job import Outfall, Rain, Site, Soakaway
    from pavewright.rules import Rulebook
    from pavewright.water._types import Catchment


def check_soakaways(
    site: Site, caught: tuple[Catchment, ...], rules: Rulebook
) -> tuple[tuple[SoakawayCheck, ...], list[Finding]]:
    """Return every soakaway with its size held against its storms, and what is noticed."""
    checks: list[SoakawayCheck] = []
    findings: list[Finding] = []
    for outfall in site.outfalls:
        area = sum(each.area_m2 for each in caught if each.outfall == outfall.name)
        if outfall.soakaway is None or area <= 0.0:
            continue
        if site.rain is None:
            words = (
                f"{outfall.name} has a size but the rain of the place is not given: enter site.rain, the five-year "
                f"hour and its ratio to two days, from a map or a rainfall service."
            )
            findings.append(Finding("water.rain_not_given", Severity.CHECK, f"outfall {outfall.name}", words))
            continue
        check = _check(outfall.name, outfall.soakaway, area, site.rain, rules)
        checks.append(check)
        findings += _findings(outfall, check, rules)
    return tuple(checks), findings


def rate_of(pit: Soakaway) -> tuple[float, PitRecord | None]:
    """Return the rate at which the ground takes water, and the record of the test if there is one. [m/s]."""
    test = pit.pit_test
    if test is None:
        return pit.infiltration_m_per_s or 0.0, None
    answers = trial_pit_fills(test.length_mm, test.width_mm, test.depth_mm, test.times_min)
    rates = answers["rates_m_per_s"]
    each = tuple(float(rate) for rate in rates) if isinstance(rates, tuple) else ()
    size = f"{test.length_mm:g} × {test.width_mm:g} mm, {test.depth_mm:g} mm of water"
    working = Working(
        f"f = {_number(answers['volume_m3']):.4f} m³ / ({_number(answers['wetted_m2']):.3f} m² × "
        f"{max(test.times_min):g} min)",
        min(each),
        "m/s",
        (),
        "water of the middle half over sides to half depth and base; slowest fill",
    )
    return min(each), PitRecord(size, test.date, test.times_min, each, working)


def _check(name: str, pit: Soakaway, area_m2: float, rain: Rain, rules: Rulebook) -> SoakawayCheck:
    falling = storms(rain, rules)
    rate, record = rate_of(pit)
    answers = soakaway_pit(
        pit.length_mm,
        pit.width_mm,
        pit.depth_mm,
        pit.void_percent,
        area_m2,
        rate,
        tuple(minutes for minutes, _ in falling),
        tuple(depth for _, depth in falling),
    )
    required, governing = _number(answers["required_m3"]), _number(answers["governing_min"])
    depth = dict(falling)[governing]
    sides = _number(answers["sides_m2"])
    z1, z2 = rules.table("water.z1"), rules.table("water.z2")
    tables = (z1.figure(z1.rows[0].key, "min_60"), z2.figure(z2.rows[0].key, "years_10"))
    figures = () if rain.depths else tables
    return SoakawayCheck(
        outfall=name,
        area_m2=area_m2,
        required_m3=required,
        available_m3=_number(answers["available_m3"]),
        governing_min=governing,
        half_empty_hours=_number(answers["half_empty_min"]) / units.MINUTES_PER_HOUR,
        working=Working(
            f"storage = {area_m2:.2f} m² × {depth:.1f} mm − {sides:.2f} m² × {rate:.3g} m/s × {governing:g} min",
            required,
            "m³",
            figures,
            f"the {governing:g} min storm of {rain.years:g} years governs, climate {rain.climate_percent:g} % added",
        ),
        test=record,
    )


def _number(value: object) -> float:
    return float(value) if isinstance(value, int | float) else 0.0


def _findings(outfall: Outfall, check: SoakawayCheck, rules: Rulebook) -> list[Finding]:
    place = f"outfall {outfall.name}"
    found = []
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
                "water.soakaway_too_small",
                Severity.STOP,
                place,
                words,
                check.available_m3,
                check.required_m3,
                "m³",
                ways_out=ways,
            )
        )
    slow = rules.figure("water.half_empty_h")
    if check.half_empty_hours > slow.value:
        words = f"{outfall.name} takes {check.half_empty_hours:.0f} h to half empty; the next storm may find it full."
        found.append(
            Finding("water.soakaway_slow", Severity.CHECK, place, words, check.half_empty_hours, slow.value, "h", slow)
        )
    most = rules.figure("water.area_for_one_soakaway_m2")
    if check.area_m2 > most.value:
        words = f"{check.area_m2:.0f} m² drain to {outfall.name}; {most.label}: {most.value:g} m²."
        found.append(
            Finding(
                "water.soakaway_takes_too_much", Severity.CHECK, place, words, check.area_m2, most.value, "m²", most
            )
        )
    tight = rules.figure("water.least_infiltration_m_per_s")
    rate = rate_of(outfall.soakaway)[0] if outfall.soakaway is not None else tight.value
    found += _seldom(outfall.name, check, rules)
    if rate < tight.value:
        words = f"The ground at {outfall.name} takes {rate:.1e} m/s: too tight for a soakaway."
        ways = ("Find another outfall.", "Test deeper or elsewhere.")
        found.append(
            Finding(
                "water.ground_too_tight", Severity.STOP, place, words, rate, tight.value, "m/s", tight, ways_out=ways
            )
        )
    return found


def _seldom(name: str, check: SoakawayCheck, rules: Rulebook) -> list[Finding]:
    """Return a finding where a trial pit was filled too seldom."""
    fills = rules.figure("water.pit_fills")
    if check.test is None or len(check.test.times_min) >= fills.value:
        return []
    times = len(check.test.times_min)
    words = f"The trial pit at {name} was filled {times} times: fill it {fills.value:g} times."
    place = f"outfall {name}"
    return [Finding("water.pit_filled_too_seldom", Severity.CHECK, place, words, float(times), fills.value, "", fills)]
