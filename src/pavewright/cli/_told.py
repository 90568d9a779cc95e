"""A plan as lines of text: headline figures, then findings with their options."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import Verdict, reason_in_words
from pavewright.findings import Severity
from pavewright.papers import findings_of, price_text, range_text, without_dig
from pavewright.pipeline import MissingCode, Room
from pavewright.water import ends_at, runs_to
from pavewright.writing import day_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.earthworks import Spread
    from pavewright.findings import Finding
    from pavewright.laying import AreaStarts, Choice, LaidArea
    from pavewright.levels import FinishedArea, Levels
    from pavewright.pipeline import Plan, PlanSoFar
    from pavewright.water import AreaStorm, Band

_WIDE = 100


_TOLD_M2 = 0.05
"""A part of the paving smaller than this is not shown. [m²]"""


def plan_lines(made: PlanSoFar) -> Iterator[str]:
    """Give a plan line by line, as far as it goes, then what is missing next."""
    who = made.job.identity
    invented = "  (invented example)" if who.invented else ""
    yield f"{who.job}  {who.title}  revision {who.revision}, {day_text(who.date)}{invented}"
    yield ""
    yield from _surface_lines(made)
    yield from _ground_lines(made)
    yield from _soakaway_lines(made)
    yield from _money_lines(made)
    yield from _missing_lines(made)
    yield ""
    yield from finding_lines(findings_of(made))


def _missing_lines(made: PlanSoFar) -> Iterator[str]:
    """Give what is missing: what to do next, and what follows."""
    if not made.missing:
        return
    first, *more = made.missing
    yield from _filled("Next       ", first.words)
    if more:
        kinds = dict.fromkeys(each.code.value.replace("_", " ") for each in more)
        yield from _filled("Then       ", ", ".join(kinds))


def _surface_lines(made: PlanSoFar) -> Iterator[str]:
    for area in made.survey.site.areas:
        yield f"{area.name}"
        if made.laying is None:
            yield f"  shape     {area.laid_m2:.1f} m²"
        if made.levels is not None:
            yield from _level_lines(made.levels.area(area.name))
        if made.laying is not None:
            yield from _laying_lines(made.laying.area(area.name))
        if made.build_ups is not None:
            layers = made.build_ups.area(area.name)
            reported = " + ".join(
                f"{layer.name} {layer.thickness_mm:.0f}" if layer.thickness_mm else layer.name
                for layer in layers.layers
            )
            yield f"  build-up  {reported} = {layers.total_mm:.0f} mm"
    yield from _not_laid(made)
    for name in made.survey.dpc_not_read:
        yield f"Wall {name}: damp-proof course not read, so clearance below it is not known"
    if made.levels is not None:
        yield from _ways_lines(made.levels, made.job.identity.currency)
    for steps in made.levels.steps if made.levels is not None else ():
        yield steps.name
        yield f"  steps     {steps.risers} risers of {steps.riser_mm:.0f} mm, going {steps.going_mm:.0f} mm"


def _not_laid(made: PlanSoFar) -> Iterator[str]:
    """Give the areas whose pack has no layout."""
    for each in made.missing:
        if each.code is MissingCode.LAYOUT:
            yield from _filled("Not laid   ", each.words)


def _level_lines(area: FinishedArea) -> Iterator[str]:
    yield (
        f"  levels    {area.falls_text}, {units.metres_text(area.highest_mm)} down to "
        f"{units.metres_text(area.lowest_mm)}; {area.fixed_by}"
    )
    for wall in dict.fromkeys(clearance.wall for clearance in area.clearances):
        least = min(clearance.min_mm for clearance in area.clearances if clearance.wall == wall)
        yield f"  wall      {wall}: {least:.0f} mm below the damp-proof course, min"
    for door in area.doors:
        yield f"  door      {door.opening}: step down {door.text}"


def _laying_lines(laid: LaidArea) -> Iterator[str]:
    names = ", ".join(count.unit for count in laid.by_unit)
    yield (
        f"  laying    {laid.paved_m2 + laid.joint_m2:.1f} m²: {laid.whole} whole and {laid.cut} cut pieces of "
        f"{names}, {laid.slivers} sliver{'' if laid.slivers == 1 else 's'}; "
        f"{laid.units_with_offcuts} needed with offcuts used again "
        f"({laid.units_each_cut_new} without)"
    )


def _ways_lines(levels: Levels, currency: str) -> Iterator[str]:
    """Give the ways to fold each area that were compared, the chosen one marked."""
    for compared in levels.studies:
        if len(compared.options) > 1:
            yield f"{compared.area}: options to fold it"
        for number, option in enumerate(compared.options if len(compared.options) > 1 else ()):
            mark = "→" if number == compared.chosen else " "
            cost = option.cost_minor
            price = "" if cost is None else f"{units.minor_to_text(round(cost), currency)} earthwork; "
            yield f"  {mark} {option.words}: {price}{option.verdict}"


def _ground_lines(made: PlanSoFar) -> Iterator[str]:
    works = made.earthworks
    if works is not None and works.areas:
        loads = ""
        if works.loads is not None:
            loads = f", {_band(works.loads, 0)} {'load' if works.loads.high == 1 else 'loads'} by {works.load_kind}"
        yield (
            f"Dig         {works.cut_m3:.1f} m³ in the ground, fill {works.fill_m3:.1f} m³; away "
            f"{works.loose_m3.low:.1f} to {works.loose_m3.high:.1f} m³ loose{loads}"
        )
    elif works is not None:
        yield "Dig         not known: there are no spot levels of the ground"
    catchments = made.water.catchments if made.water is not None else ()
    for caught in (each for each in catchments if each.area_m2 >= _TOLD_M2):
        yield (
            f"Water       {caught.area}: {caught.area_m2:.1f} m²{_from_others(caught.from_others_m2)}, "
            f"{caught.whole_l_s:.2f} l/s to {runs_to(caught)} ({ends_at(caught)})"
        )


def _from_others(area_m2: float) -> str:
    return f" and {area_m2:.1f} m² from other areas" if area_m2 >= _TOLD_M2 else ""


def storm_lines(storms: tuple[AreaStorm, ...]) -> Iterator[str]:
    """Give what a storm does on each area."""
    for one in storms:
        yield f"{one.area}: {one.rain_mm_per_h:g} mm/h for {one.rain_min:g} min, cells of {one.grid.cell_mm:g} mm"
        for leaving in one.outlets:
            flow = _band(leaving.peak_l_s, 2)
            yield f"  {leaving.outlet}: {flow} l/s max, {_band(leaving.litres, 0)} l"
        yield f"  deepest {_band(one.deepest_mm, 0)} mm, by how rough the paving is"
        yield f"  nine tenths gone {_band(one.clears_s, 0)} s after the rain stops"
        for words in one.cautions:
            yield f"  Caution: {words}"


def starts_lines(found: tuple[AreaStarts, ...]) -> Iterator[str]:
    """Give the starts of each area: as it is now, then each choice with the fields that bring it about."""
    for area in found:
        yield area.area
        yield f"  now       {_counts(area.now)}"
        for number, choice in enumerate(area.choices, start=1):
            yield f"  {number}.        {_counts(choice)}"
            yield f"            {', '.join(choice.best_at)}"
            fields = ", ".join(
                f"{name} {value:g}" if isinstance(value, float) else f"{name} {value}" for name, value in choice.fields
            )
            yield f"            {fields or 'as it is now'}"
        yield from _filled("   ", area.words)


def _counts(choice: Choice) -> str:
    """Return what a start comes to."""
    smallest = "" if choice.smallest_mm is None else f", smallest {choice.smallest_mm:.0f} mm"
    return (
        f"{choice.cut} cut pieces, {choice.slivers} slivers{smallest}, {choice.notched} notched; {choice.saw_m:.1f} m "
        f"sawn; {choice.units_with_offcuts} units; edges uneven by {choice.uneven_mm:.0f} mm"
    )


def _band(band: Band | Spread, digits: int) -> str:
    """Return a band in words, one figure where both ends are written alike."""
    low, high = f"{band.low:.{digits}f}", f"{band.high:.{digits}f}"
    return low if low == high else f"{low} to {high}"


def _soakaway_lines(made: PlanSoFar) -> Iterator[str]:
    for check in made.water.soakaways if made.water is not None else ():
        yield (
            f"Soakaway    {check.outfall}: {check.size.length_mm:g} × {check.size.width_mm:g} × "
            f"{check.size.depth_mm:g} mm{' proposed' if check.size.proposed else ''}; {check.area_m2:.1f} m² need "
            f"{check.required_m3:.2f} m³, it holds {check.available_m3:.2f} m³; half empty after "
            f"{check.half_empty_hours:.1f} h: {check.verdict.value}"
        )


_NO_FAULT = "no fault read; standing water is judged on the sheet As laid"
"""A plan alone never says that paving passes: its chance of standing water is worked out for sheets and screens."""


def _money_lines(made: PlanSoFar) -> Iterator[str]:
    priced = made.with_rooms((Room.COST,))
    if priced is not None:
        yield f"Price       {price_text(priced)}{f' ({range_text(priced)})' if priced.cost.prime_minor else ''}"
    dated = made.with_rooms((Room.PROGRAMME,))
    if dated is not None:
        yield from _date_lines(dated)
    elif made.labour is not None:
        yield f"Work        {sum(task.person_hours for task in made.labour):.0f} hours of one person; no dates yet"
    if made.as_laid is not None:
        readings = [reading for area in made.as_laid.areas for reading in area.readings]
        failed = sum(reading.verdict is Verdict.FAILS for reading in readings)
        found = made.as_laid.verdict
        words = _NO_FAULT if found is Verdict.PASSES else found.words
        yield f"As laid     {words}: {len(readings)} readings, {failed} out of tolerance"
        yield from (f"            {each.area}: {reason_in_words(each)}" for each in made.as_laid.reasons)


def _date_lines(made: Plan) -> Iterator[str]:
    programme = made.programme
    days = f"{programme.site_days} days on site{without_dig(made)}"
    ready = f", to drive on {day_text(programme.car_ready)}" if programme.car_ready else ""
    yield (
        f"Programme   {day_text(programme.start)} to {day_text(programme.finish)}, {days}; to "
        f"walk on {day_text(programme.foot_ready)}{ready}"
    )


def finding_lines(findings: tuple[Finding, ...]) -> Iterator[str]:
    """Give findings line by line, stop first, with the chain of levels and numbered options."""
    count = {severity: sum(finding.severity is severity for finding in findings) for severity in Severity}
    yield (
        f"Findings    {count[Severity.STOP]} stop, {count[Severity.CHECK]} check, {count[Severity.NOTE]} note"
        if findings
        else "Findings    none"
    )
    for finding in findings:
        yield from _filled(f"{finding.severity.value.upper():6}", f"{finding.message}  [{finding.place}]")
        for sentence in finding.chain_words:
            yield from _filled("        ·", sentence)
        for number, way in enumerate(finding.option_words, start=1):
            yield from _filled(f"        {number}.", way)


def _filled(head: str, words: str) -> list[str]:
    return textwrap.wrap(
        words, _WIDE, initial_indent=f"{head} ", subsequent_indent=" " * (len(head) + 1), break_long_words=False
    )
