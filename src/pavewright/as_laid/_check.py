"""Readings on finished paving checked against the plan."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.as_laid import _words as words
from pavewright.as_laid._area import check_area, walls_unread
from pavewright.as_laid._bays import with_movement
from pavewright.as_laid._by_hand import gaps_as_laid, joints_as_laid, lips_as_laid
from pavewright.as_laid._codes import Code
from pavewright.as_laid._figures import figures
from pavewright.as_laid._findings import area_findings
from pavewright.as_laid._findings_surface import surface_findings
from pavewright.as_laid._findings_water import water_findings
from pavewright.as_laid._hoses import hoses_as_laid
from pavewright.as_laid._judged import judged
from pavewright.as_laid._promises import promised
from pavewright.as_laid._regimes import regime as regime_of
from pavewright.as_laid._types import AreaAsLaid, AsLaidReport
from pavewright.as_laid._types_judged import Ground, Reason
from pavewright.as_laid._verdicts import TRUSTED, Verdict
from pavewright.as_laid._visits import visits_since
from pavewright.as_laid.standing import drains_found, grating_figures
from pavewright.findings import Finding, Severity, in_order
from pavewright.job import AsLaid, Fault, JobInvalid

if TYPE_CHECKING:
    from pavewright.as_laid._figures import AsLaidFigures
    from pavewright.as_laid._regimes import Regime
    from pavewright.as_laid._types import ReadingCheck
    from pavewright.geometry import XY
    from pavewright.job import AsLaidReading, Job
    from pavewright.laying import LayingPlan
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey

_PLACE = "–"
"""A place without a name."""
_OUTSIDE_MM = 50.0
"""A staff set on the last slab may stand this far past the drawn edge. [mm]"""


def check(
    job: Job, survey: Survey, levels: Levels, rules: Rulebook, laying: LayingPlan | None = None
) -> AsLaidReport | None:
    """Return the readings as laid against the plan; None where the job has none.

    Args:
        job: The job.
        survey: Its survey.
        levels: Its finished levels.
        rules: The rulebook.
        laying: Where its units lie, from which its movement joints come; None where that is not known: then an area is
            cut into bays by its folds alone.

    Raises:
        JobInvalid: a reading names an area that is not there, or the job a regime that is not.
    """
    taken = _taken(job)
    if taken is None:
        return None
    regime = regime_of(job, rules)
    empty = [each for each in taken.readings if each.level_mm is None]
    names = [area.name for area in survey.site.areas]
    _refuse_strangers(taken, names)
    read = figures(job.tolerance, rules)
    held = promised(levels, read)
    areas: list[AreaAsLaid] = []
    findings = _outside(taken, survey) + _not_read(empty)
    for name in names:
        own: list[AsLaidReading] = [
            reading for reading in taken.readings if reading.area == name and reading.level_mm is not None
        ]
        if not own:
            findings.append(_unread(name))
            continue
        joints = _joints(laying, name)
        one = check_area(levels.area(name), own, taken.reading_sd_mm, held, survey, read, regime, joints)
        areas.append(one)
        findings += area_findings(one, survey.site.area(name).shape.area_m2, taken.reading_sd_mm, read)
    unread = _listed(taken, names)
    for one in areas:
        walls = walls_unread(levels.area(one.area), one.walls)
        if walls:
            said = words.dpc_unread(walls, read.near_wall_mm)
            findings.append(Finding(Code.DPC_UNREAD, Severity.CHECK, f"area {one.area}", said))
            unread.append(Reason(one.area, Ground.CLEARANCE_UNREAD, walls, Verdict.INCONCLUSIVE))
    return judged(_reported(job, taken, regime, rules, read, areas, findings), survey, unread)


def _listed(taken: AsLaid, areas: list[str]) -> list[Reason]:
    """Return what was to be read of each area and was not: places, gaps, steps and joints without a figure."""
    found = []
    for area in areas:
        places = [each.label or _PLACE for each in taken.readings if each.area == area and each.level_mm is None]
        names = (*places, *(name for name, own in taken.not_read if own == area))
        if names:
            found.append(Reason(area, Ground.PLACE_UNREAD, names, Verdict.INCONCLUSIVE))
    return found


def _taken(job: Job) -> AsLaid | None:
    """Return what was read; None where nothing was. A hose test or a grating needs no level."""
    taken = job.as_laid
    if taken is not None and (taken.readings or taken.gaps or taken.lips or taken.joints):
        return taken
    dates = [*(each.date for each in job.hose_tests), *(each.date for each in job.drain_marks)]
    if not dates:
        return None
    return AsLaid(date=min(dates)) if taken is None else taken


def _refuse_strangers(taken: AsLaid, names: list[str]) -> None:
    """Refuse readings on areas that are not there.

    Raises:
        JobInvalid: there are such readings.
    """
    faults = [
        Fault(f"as_laid.readings.{number}.area", f"There is no area {reading.area}: name the area that was read on.")
        for number, reading in enumerate(taken.readings)
        if reading.area not in names
    ]
    if faults:
        raise JobInvalid(tuple(faults))


def _reported(
    job: Job,
    taken: AsLaid,
    regime: Regime,
    rules: Rulebook,
    read: AsLaidFigures,
    areas: list[AreaAsLaid],
    findings: list[Finding],
) -> AsLaidReport:
    """Return areas with what was read by hand and on later visits; verdicts of areas and the whole are still open."""
    visits = visits_since(taken, _numbered(taken, areas))
    since = [replace(area, bays=with_movement(area.bays, visits)) for area in areas]
    gaps, lips = gaps_as_laid(taken, regime, read), lips_as_laid(job, taken, regime, read)
    by_joint = joints_as_laid(job, taken, regime, read)
    hoses, gratings = hoses_as_laid(job, rules), drains_found(job, rules)
    noticed = [*findings, *surface_findings(since, gaps, lips, by_joint, visits, regime, read)]
    noticed += water_findings(hoses, gratings, grating_figures(rules))
    return AsLaidReport(
        areas=tuple(since),
        regime=regime,
        gaps=gaps,
        lips=lips,
        joints=by_joint,
        visits=visits,
        hoses=hoses,
        gratings=gratings,
        reasons=(),
        is_water_judged=False,
        verdict=Verdict.INCONCLUSIVE,
        limits=words.limits(TRUSTED * taken.reading_sd_mm, read),
        findings=in_order(noticed),
    )


def _joints(laying: LayingPlan | None, area: str) -> tuple[tuple[XY, XY], ...]:
    """Return the movement joints that run across an area."""
    laid = () if laying is None else laying.areas
    return tuple(ends for each in laid if each.area == area for ends in each.movement.placed)


def _numbered(taken: AsLaid, areas: list[AreaAsLaid]) -> dict[int, tuple[ReadingCheck, str, int]]:
    """Return by the number of a reading as laid what was found, its area and its bay."""
    of_area: dict[str, list[int]] = {}
    for number, reading in enumerate(taken.readings):
        if reading.level_mm is not None:
            of_area.setdefault(reading.area, []).append(number)
    return {
        number: (each, area.area, _bay_of(area, each))
        for area in areas
        for number, each in zip(of_area[area.area], area.readings, strict=True)
    }


def _bay_of(area: AreaAsLaid, reading: ReadingCheck) -> int:
    return next(bay.number for bay in area.bays if reading.at in bay.read_at)


def _outside(taken: AsLaid, survey: Survey) -> list[Finding]:
    found = []
    for number, reading in enumerate(taken.readings, start=1):
        at = reading.x_mm, reading.y_mm
        if not survey.site.area(reading.area).gross.contains(at, slack_mm=_OUTSIDE_MM):
            label = reading.label or f"R{number}"
            message = words.outside(label, reading.area)
            found.append(Finding(Code.OUTSIDE, Severity.CHECK, f"area {reading.area}, {label}", message, at_mm=at))
    return found


def _not_read(empty: list[AsLaidReading]) -> list[Finding]:
    """Return what is said of places at which a reading was meant to be taken and was not."""
    if not empty:
        return []
    return [Finding(Code.NOT_READ, Severity.CHECK, "readings as laid", words.not_read(empty))]


def _unread(name: str) -> Finding:
    return Finding(Code.UNREAD, Severity.NOTE, f"area {name}", words.unread(name))
