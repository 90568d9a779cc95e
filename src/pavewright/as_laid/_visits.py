"""Later visits: the same places read again, against the day as laid."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.as_laid._types_surface import BayMoved, MovedVerdict, PlaceMoved, VisitMoved
from pavewright.as_laid.movement import RISK, DatumState, datum_between, moved_since

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.as_laid._types import ReadingCheck
    from pavewright.as_laid.movement import Datum
    from pavewright.job import AsLaid
    from pavewright.job.on_site import FixedMark, LaterVisit

_Read = tuple["ReadingCheck", str, int]
"""A reading as laid, its area and its bay."""


def visits_since(taken: AsLaid, read: Mapping[int, _Read]) -> tuple[VisitMoved, ...]:
    """Return every later visit against the day as laid, the first visit first.

    Args:
        taken: Readings as laid, with the later visits.
        read: By the number of a reading as laid: what was found, its area and the number of its bay.
    """
    visits = sorted(taken.later_visits, key=lambda each: each.date)
    return tuple(_visit(taken, each, read) for each in visits)


def _levels(marks: tuple[FixedMark, ...]) -> dict[str, float]:
    return {each.name: each.level_mm for each in marks if each.level_mm is not None}


def _visit(taken: AsLaid, visit: LaterVisit, read: Mapping[int, _Read]) -> VisitMoved:
    sd = math.hypot(taken.reading_sd_mm, visit.reading_sd_mm)
    datum = datum_between(_levels(taken.marks), _levels(visit.marks), sd)
    again = [
        (read[number], each.level_mm)
        for each, numbers in zip(visit.read_again, taken.read_again(visit), strict=True)
        for number in numbers
        if each.level_mm is not None and number in read
    ]
    rises = np.array([level - first.found_mm for (first, _, _), level in again])
    together = moved_since(rises, sd, datum, RISK / 2.0)
    places = tuple(
        PlaceMoved(
            label=first.label,
            area=area,
            at=first.at,
            moved_mm=moved,
            sd_mm=together.sd_mm,
            t=t,
            verdict=_verdict(datum, moved=abs(t) > together.each_limit),
        )
        for ((first, area, _), _), moved, t in zip(again, together.moved_mm, together.t, strict=True)
    )
    anything = together.is_more_than_scatter or any(each.verdict is MovedVerdict.MOVED for each in places)
    return VisitMoved(
        date=visit.date,
        days=(visit.date - taken.date).days,
        datum=datum,
        together=together,
        places=places,
        bays=_bays(again, places, rises, sd, datum),
        verdict=_verdict(datum, moved=anything) if places else MovedVerdict.UNKNOWN,
    )


def _verdict(datum: Datum, *, moved: bool) -> MovedVerdict:
    """Return a verdict: where marks contradict each other nobody can tell; with none, only what moved is told."""
    if datum.state is DatumState.UNSURE:
        return MovedVerdict.UNKNOWN
    if moved:
        return MovedVerdict.MOVED
    return MovedVerdict.NOT_SEEN if datum.state is DatumState.HELD else MovedVerdict.UNKNOWN


def _bays(
    again: list[tuple[_Read, float]],
    places: tuple[PlaceMoved, ...],
    rises: np.ndarray,
    sd_mm: float,
    datum: Datum,
) -> tuple[BayMoved, ...]:
    """Return each bay of which places were read again: moved where one of them did, or all of them together."""
    keys = [(area, bay) for (_, area, bay), _ in again]
    found = []
    for key in dict.fromkeys(keys):
        own = [number for number, each in enumerate(keys) if each == key]
        mean = sum(places[number].moved_mm for number in own) / len(own)
        joint = moved_since(rises[own], sd_mm, datum, RISK / 2.0 / len(set(keys)))
        moved = any(places[number].verdict is MovedVerdict.MOVED for number in own)
        found.append(
            BayMoved(
                area=key[0],
                number=key[1],
                places=len(own),
                mean_mm=mean,
                sd_mm=math.hypot(sd_mm / math.sqrt(len(own)), datum.shift_sd_mm),
                verdict=_verdict(datum, moved=moved or joint.is_more_than_scatter),
            )
        )
    return tuple(found)
