"""Sentences on the surface as laid: bays, edges, lips, joints and movement."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid._codes import Code
from pavewright.as_laid._regimes import NotHeld
from pavewright.as_laid._types_surface import BayState, MovedVerdict
from pavewright.as_laid._words import FINDINGS
from pavewright.findings import worded
from pavewright.writing import Catalogue, Sentence, day_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from pavewright.as_laid._regimes import Limit, Regime
    from pavewright.as_laid._types_surface import (
        BayAsLaid,
        BayMoved,
        GapAsLaid,
        JointAsLaid,
        LipAsLaid,
        PlaceMoved,
        ProfileAsLaid,
    )
    from pavewright.findings import Option

STATES: Mapping[BayState, str] = {
    BayState.AS_DESIGNED: "as designed",
    BayState.FLAT_BY_DESIGN: "flat by design",
    BayState.OFF_DESIGN: "built off design",
    BayState.MOVED_SINCE: "moved since",
    BayState.UNKNOWN: "not known",
}
"""What a bay is."""
MOVED: Mapping[MovedVerdict, str] = {
    MovedVerdict.MOVED: "moved",
    MovedVerdict.NOT_SEEN: "no movement seen",
    MovedVerdict.UNKNOWN: "not known",
}
"""What a later visit says."""
WHY: Mapping[NotHeld, str] = {
    NotHeld.NO_RULE: "the regime has no limit for it",
    NotHeld.JOINT_NOT_READ: "the joint was not read",
    NotHeld.FILL_NOT_NOTED: "how the joint is filled was not noted",
    NotHeld.WARP_NOT_MEASURED: "the warp of the units was not measured",
    NotHeld.UNIT_NOT_KNOWN: "the size of the unit is not known",
    NotHeld.CONTACTS_NOT_MEASURED: "how far apart the edge touched was not measured",
}
"""Why a limit is not known."""
_HIGH, _LOW = "high", "low"
_UP, _DOWN = "up", "down"


class _Parts(Catalogue):
    bay: Sentence = Sentence("Bay {number} of {area}")
    known_limit: Sentence = Sentence("{limit}")
    from_to: Sentence = Sentence("{low} to {high} ({why})")
    from_on: Sentence = Sentence("{low} or more ({why})")
    not_read: str = "not read"


_PARTS = _Parts()


def bay_name(bay: BayAsLaid | BayMoved) -> str:
    """Return what a bay is called."""
    return _PARTS.bay(number=str(bay.number), area=bay.area)


def limit_text(limit: Limit) -> str:
    """Return a limit with what is not known of it."""
    if limit.min_mm is None:
        return WHY[NotHeld.NO_RULE]
    low = _tenths(limit.min_mm)
    if limit.why is None:
        return _PARTS.known_limit(limit=low)
    if limit.max_mm is None:
        return _PARTS.from_on(low=low, why=WHY[limit.why])
    return _PARTS.from_to(low=low, high=_tenths(limit.max_mm), why=WHY[limit.why])


def _tenths(length_mm: float) -> str:
    return f"{length_mm:.1f} mm"


def _way(off_mm: float) -> str:
    return _HIGH if off_mm > 0 else _LOW


def out_of_plane(bay: BayAsLaid, worst_mm: float) -> str:
    """Say which readings the others contradict.

    Args:
        bay: The bay.
        worst_mm: How far the worst lies off the plane of the others. [mm]
    """
    return FINDINGS[Code.OUT_OF_PLANE](
        labels=", ".join(bay.out), bay=bay_name(bay), off=_tenths(abs(worst_mm)), way=_way(worst_mm)
    )


def off_design(bay: BayAsLaid, fall: float, off_mm: float) -> tuple[str, tuple[Option, ...]]:
    """Say that a bay was built off its design.

    Args:
        bay: The bay.
        fall: Fall found. [rise over run]
        off_mm: How far its worst corner lies off the plan. [mm]
    """
    words = FINDINGS[Code.BAY_OFF_DESIGN](
        bay=bay_name(bay),
        found=units.fall_text(fall),
        planned=units.fall_text(bay.planned_fall),
        off=_tenths(abs(off_mm)),
        way=_way(off_mm),
    )
    return words, worded(("Read it again.", "Lift and relay the bay.", "Agree in writing to leave it."))


def flat_by_design(bay: BayAsLaid, min_fall: float) -> str:
    """Say that a bay was designed flat.

    Args:
        bay: The bay.
        min_fall: Flattest fall that clears. [rise over run]
    """
    return FINDINGS[Code.FLAT_BY_DESIGN](
        bay=bay_name(bay), planned=units.fall_text(bay.planned_fall), least=units.fall_text(min_fall)
    )


def profile(row: ProfileAsLaid, regime: Regime) -> str:
    """Say what gap the readings of a row show."""
    return FINDINGS[Code.PROFILE](
        edge=f"{units.mm_to_m(row.edge_mm):g}",
        first=row.labels[0],
        last=row.labels[-1],
        gap=_tenths(row.gap_mm),
        at=row.lowest or row.labels[0],
        limit=limit_text(row.limit),
        regime=regime.label,
    )


def gap(read: GapAsLaid, regime: Regime) -> str:
    """Say that a gap under a straight edge is too large."""
    return FINDINGS[Code.GAP](
        name=read.name,
        gap=_tenths(read.gap_mm),
        edge=f"{units.mm_to_m(read.edge_mm):g}",
        limit=limit_text(read.limit),
        regime=regime.label,
    )


def lip(read: LipAsLaid, regime: Regime) -> tuple[str, tuple[Option, ...]]:
    """Say that a lip is too high."""
    words = FINDINGS[Code.LIP](
        name=read.name, lip=_tenths(read.lip_mm), limit=limit_text(read.limit), regime=regime.label
    )
    return words, worded(("Lift and relay one of the two units.", "Agree in writing to leave it."))


def by_staff(lips: list[LipAsLaid], sure_mm: float) -> str:
    """Say that lips were read with a staff, which cannot decide on them.

    Args:
        lips: The lips that it leaves open.
        sure_mm: How far a lip is known by it. [mm]
    """
    return FINDINGS[Code.BY_STAFF](
        names=", ".join(each.name for each in lips), sure=_tenths(sure_mm), limit=limit_text(lips[0].limit)
    )


def joint(read: JointAsLaid, regime: Regime) -> str:
    """Say that a joint is outside what is allowed."""
    return FINDINGS[Code.JOINT](
        name=read.name,
        width=_PARTS.not_read if read.width_mm is None else _tenths(read.width_mm),
        recess=_PARTS.not_read if read.recess_mm is None else _tenths(read.recess_mm),
        regime=regime.label,
    )


def bay_moved(bay: BayMoved, date: dt.date, sure_mm: float) -> str:
    """Say that a bay moved.

    Args:
        bay: The bay.
        date: Day of the visit.
        sure_mm: How far its movement is known. [mm]
    """
    return FINDINGS[Code.BAY_MOVED](
        bay=bay_name(bay),
        moved=_tenths(abs(bay.mean_mm)),
        way=_UP if bay.mean_mm > 0 else _DOWN,
        date=day_text(date),
        sure=_tenths(sure_mm),
    )


def places_moved(places: list[PlaceMoved], date: dt.date, sure_mm: float) -> str:
    """Say which places moved.

    Args:
        places: The places.
        date: Day of the visit.
        sure_mm: How far a movement is known. [mm]
    """
    worst = max(places, key=lambda each: abs(each.moved_mm))
    return FINDINGS[Code.PLACE_MOVED](
        places=", ".join(each.label for each in places),
        moved=_tenths(abs(worst.moved_mm)),
        way=_UP if worst.moved_mm > 0 else _DOWN,
        date=day_text(date),
        sure=_tenths(sure_mm),
    )


def datum(code: Code, marks: tuple[str, ...], date: dt.date) -> str:
    """Say what is wrong with the marks by which two visits are compared."""
    if code is Code.NO_DATUM:
        return FINDINGS[code](date=day_text(date))
    return FINDINGS[code](date=day_text(date), marks=", ".join(marks))
