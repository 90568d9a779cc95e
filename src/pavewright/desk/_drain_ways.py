"""What drains to a gully, channel or outfall now, and what each option of draining paving to it changes."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright.buildup import depth_under
from pavewright.desk._plain import plain
from pavewright.findings import OptionKind, Severity
from pavewright.job import JobInvalid, changed
from pavewright.levels import TakerKind, finished_levels
from pavewright.survey import survey
from pavewright.water import Code, drain, share_of, ways_to_connect, ways_to_drain

if TYPE_CHECKING:
    from pavewright.findings import Option
    from pavewright.job import Job
    from pavewright.levels import Levels
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey
    from pavewright.water import Water

_SAME_MM = 0.5
"""Levels that differ by less are one on the screen. [mm]"""


class Asked(StrEnum):
    """What is asked about."""

    GULLY = "gully"
    CHANNEL = "channel"
    OUTFALL = "outfall"


@dataclass(frozen=True)
class _Looked:
    """A job as far as its water."""

    job: Job
    survey: Survey
    levels: Levels
    water: Water

    @property
    def corners(self) -> dict[tuple[str, str], float]:
        """Finished level of every corner. [mm]."""
        return {(area.area, spot.label): spot.level_mm for area in self.levels.areas for spot in area.corners}

    @property
    def stops(self) -> dict[tuple[str, str], str]:
        """What stops the job in levels and water: code and place, and what is said."""
        found = (*self.survey.findings, *self.levels.findings, *self.water.findings)
        return {(each.code, each.place): each.message for each in found if each.severity is Severity.STOP}


def drain_ways(job: Job, rules: Rulebook, kind: Asked, name: str) -> dict[str, Any]:
    """Return how much drains to a thing now and what each option changes: levels, area drained, stops.

    Raises:
        JobInvalid: readings that make no plan, or nothing that fixes an area's height.
    """
    now = _look(job, rules)
    return {
        "drains": _drains(now, kind, name),
        "choices": [
            made
            for option in _options(now, kind, name)
            if (made := _choice(option, now, rules, kind, name)) is not None
        ],
    }


def _look(job: Job, rules: Rulebook) -> _Looked:
    measured = survey(job, rules)
    levels = finished_levels(job, measured, rules, depth_under(job, rules))
    return _Looked(job, measured, levels, drain(job, measured, levels, rules))


def _options(now: _Looked, kind: Asked, name: str) -> tuple[Option, ...]:
    if kind is Asked.OUTFALL:
        outfall = next((each for each in now.job.site.outfalls if each.name == name), None)
        return () if outfall is None else ways_to_connect(outfall, now.job)
    share = share_of(now.water, TakerKind(kind.value), name)
    return () if share is None else ways_to_drain(share, now.water.catchments, now.job, now.survey, now.levels)


def _drains(looked: _Looked, kind: Asked, name: str) -> dict[str, Any] | None:
    """Return the paving that reaches a thing and all of it beside; None for a drain that stands at no area."""
    if kind is Asked.OUTFALL:
        whole = sum(area.gross.area_m2 for area in looked.survey.site.areas)
        reaches = sum(each.whole_m2 for each in looked.water.catchments if each.outfall == name)
        return {"reaches_m2": reaches, "whole_m2": whole}
    share = share_of(looked.water, TakerKind(kind.value), name)
    return None if share is None else {"reaches_m2": share.reaches_m2, "whole_m2": share.whole_m2}


def _drained(then: _Looked, now: _Looked, kind: Asked, name: str) -> dict[str, Any] | None:
    """Return the paving beside a drain that reaches any drain; None for one that stands at no area."""
    share = share_of(now.water, TakerKind(kind.value), name)
    if share is None:
        return None
    drains = {TakerKind.GULLY, TakerKind.CHANNEL}
    taken = (each for each in then.water.catchments if each.area in share.areas and each.kind in drains)
    return {"reaches_m2": sum(each.area_m2 for each in taken), "whole_m2": share.whole_m2}


def _choice(option: Option, now: _Looked, rules: Rulebook, kind: Asked, name: str) -> dict[str, Any] | None:
    """Return an option with what comes of it; None where it makes no plan or the thing stays dry.

    Nothing comes of one that is an answer only.
    """
    reported = {
        "words": option.words,
        "changes": plain(option.changes),
        "answer": option.facts.kind is OptionKind.ANSWER,
        "drains": None,
        "levels": [],
        "stops": [],
    }
    if not option.changes or reported["answer"]:
        return reported
    try:
        then = _look(changed(now.job, option.changes), rules)
    except JobInvalid:
        return None
    if any((each.code, each.place) == (Code.DRAINS_NOTHING, f"{kind} {name}") for each in then.water.findings):
        return None
    before, after = now.corners, then.corners
    reported["drains"] = _drains(then, kind, name) if kind is Asked.OUTFALL else _drained(then, now, kind, name)
    reported["levels"] = [
        {"area": area, "corner": corner, "was_mm": before[area, corner], "now_mm": level}
        for (area, corner), level in after.items()
        if (area, corner) in before and abs(level - before[area, corner]) >= _SAME_MM
    ]
    reported["stops"] = [message for key, message in then.stops.items() if key not in now.stops]
    return reported
