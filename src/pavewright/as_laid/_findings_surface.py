"""What is noticed about the surface as laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import _words_surface as words
from pavewright.as_laid._codes import Code
from pavewright.as_laid._types_surface import BayState, MovedVerdict
from pavewright.as_laid._verdicts import TRUSTED, Verdict
from pavewright.as_laid.movement import DatumState
from pavewright.findings import Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.as_laid._figures import AsLaidFigures
    from pavewright.as_laid._regimes import Limit, Regime
    from pavewright.as_laid._types import AreaAsLaid
    from pavewright.as_laid._types_surface import (
        BayAsLaid,
        GapAsLaid,
        JointAsLaid,
        LipAsLaid,
        ProfileAsLaid,
        VisitMoved,
    )


def surface_findings(
    areas: Sequence[AreaAsLaid],
    gaps: Sequence[GapAsLaid],
    lips: Sequence[LipAsLaid],
    joints: Sequence[JointAsLaid],
    visits: Sequence[VisitMoved],
    regime: Regime,
    figures: AsLaidFigures,
) -> list[Finding]:
    """Return findings on bays, edges, lips, joints and movement."""
    found = [noticed for area in areas for bay in area.bays for noticed in _bay(area, bay, figures)]
    found += [_profile(each, regime) for area in areas for each in area.profiles if each.verdict is Verdict.FAILS]
    found += [_gap(each, regime) for each in gaps if each.verdict is Verdict.FAILS]
    found += _lips(lips, regime)
    found += [_joint(each, regime) for each in joints if each.verdict is Verdict.FAILS]
    for visit in visits:
        found += _datum(visit)
        found += _moved(visit)
    return found


def _place(area: str, name: str = "") -> str:
    return f"area {area}, {name}" if name else f"area {area}"


def _bay(area: AreaAsLaid, bay: BayAsLaid, figures: AsLaidFigures) -> list[Finding]:
    found = []
    place = _place(bay.area, f"bay {bay.number}")
    fit = bay.fit
    if fit is not None and bay.out:
        read = {each.label: each for each in area.readings}
        off = [read[label].found_mm - fit.plane.level_at(read[label].at) for label in bay.out]
        worst = max(off, key=abs)
        at = read[bay.out[off.index(worst)]].at
        message = words.out_of_plane(bay, worst)
        found.append(Finding(Code.OUT_OF_PLANE, Severity.NOTE, place, message, worst, unit="mm", at_mm=at))
    if bay.is_plane_off and fit is not None and bay.farthest_mm is not None:
        message, options = words.off_design(bay, fit.plane.fall, bay.farthest_mm)
        level = figures.level
        found.append(
            Finding(
                Code.BAY_OFF_DESIGN, Severity.CHECK, place, message, bay.farthest_mm, level.value, "mm", level,
                options=options, at_mm=bay.farthest_at,
            )
        )  # fmt: skip
    if BayState.FLAT_BY_DESIGN in bay.states:
        least = units.one_in_n_to_fall(figures.min_fall.value)
        message = words.flat_by_design(bay, least)
        found.append(
            Finding(Code.FLAT_BY_DESIGN, Severity.NOTE, place, message, bay.planned_fall, least, "-", figures.min_fall)
        )
    return found


def _held(code: Code, place: str, message: str, found_mm: float, limit: Limit) -> Finding:
    most = limit.max_mm if limit.max_mm is not None else limit.min_mm
    return Finding(code, Severity.CHECK, place, message, found_mm, most, "mm", limit.figure)


def _profile(row: ProfileAsLaid, regime: Regime) -> Finding:
    place = _place(row.area, row.lowest or row.labels[0])
    return _held(Code.PROFILE, place, words.profile(row, regime), row.gap_mm, row.limit)


def _gap(read: GapAsLaid, regime: Regime) -> Finding:
    return _held(Code.GAP, _place(read.area, read.name), words.gap(read, regime), read.gap_mm, read.limit)


def _lips(lips: Sequence[LipAsLaid], regime: Regime) -> list[Finding]:
    found = []
    for read in (each for each in lips if each.verdict is Verdict.FAILS):
        message, options = words.lip(read, regime)
        place = _place(read.area, read.name)
        limit = read.limit.max_mm
        figure = read.limit.figure
        found.append(
            Finding(Code.LIP, Severity.CHECK, place, message, read.lip_mm, limit, "mm", figure, options=options)
        )
    unsure = [each for each in lips if each.by_staff and each.verdict is Verdict.INCONCLUSIVE]
    if unsure:
        sure = TRUSTED * max(each.sd_mm for each in unsure)
        message = words.by_staff(unsure, sure)
        found.append(Finding(Code.BY_STAFF, Severity.NOTE, _place(unsure[0].area), message, sure, unit="mm"))
    return found


def _joint(read: JointAsLaid, regime: Regime) -> Finding:
    message = words.joint(read, regime)
    return Finding(Code.JOINT, Severity.CHECK, _place(read.area, read.name), message, read.width_mm, unit="mm")


def _datum(visit: VisitMoved) -> list[Finding]:
    """Return what is noticed of the marks by which a visit is compared."""
    datum = visit.datum
    place = "later visit"
    found = []
    if datum.state is DatumState.NONE:
        message = words.datum(Code.NO_DATUM, (), visit.date)
        found.append(Finding(Code.NO_DATUM, Severity.CHECK, place, message))
    if datum.state is DatumState.UNSURE:
        message = words.datum(Code.DATUM_UNSURE, datum.marks, visit.date)
        found.append(Finding(Code.DATUM_UNSURE, Severity.CHECK, place, message))
    if datum.apart:
        message = words.datum(Code.MARK_MOVED, datum.apart, visit.date)
        found.append(Finding(Code.MARK_MOVED, Severity.CHECK, place, message))
    return found


def _moved(visit: VisitMoved) -> list[Finding]:
    """Return which bays moved, and which places beside."""
    found = []
    for bay in (each for each in visit.bays if each.verdict is MovedVerdict.MOVED):
        message = words.bay_moved(bay, visit.date, TRUSTED * bay.sd_mm)
        place = _place(bay.area, f"bay {bay.number}")
        found.append(Finding(Code.BAY_MOVED, Severity.CHECK, place, message, bay.mean_mm, unit="mm"))
    moved = [each for each in visit.places if each.verdict is MovedVerdict.MOVED]
    if moved:
        message = words.places_moved(moved, visit.date, TRUSTED * visit.together.sd_mm)
        worst = max(moved, key=lambda each: abs(each.moved_mm))
        place = _place(worst.area, worst.label)
        found.append(
            Finding(Code.PLACE_MOVED, Severity.CHECK, place, message, worst.moved_mm, unit="mm", at_mm=worst.at)
        )
    return found
