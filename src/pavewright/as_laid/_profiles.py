"""Rows of readings along which a straight edge is rolled."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pavewright.as_laid._bays import bay_under
from pavewright.as_laid._regimes import held
from pavewright.as_laid._types_surface import ProfileAsLaid
from pavewright.as_laid._verdicts import Verdict
from pavewright.as_laid.flatness import rolled_edge, rows_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.as_laid._bays import Bay
    from pavewright.as_laid._regimes import Regime
    from pavewright.as_laid._types import ReadingCheck


def profiles_of(
    area: str,
    bays: Sequence[Bay],
    readings: Sequence[ReadingCheck],
    sd_mm: float,
    regime: Regime,
    beside_mm: float,
) -> tuple[ProfileAsLaid, ...]:
    """Return what a straight edge shows along every row of readings of a bay; none where the regime has no edge.

    Args:
        area: Name of the area.
        bays: Its bays: no edge is laid over a fold or a movement joint.
        readings: Readings on it.
        sd_mm: Standard deviation of one reading. [mm]
        regime: What it is held to.
        beside_mm: How far a reading may stand beside its row. [mm]
    """
    edge = regime.edge_mm
    if edge is None:
        return ()
    found = []
    for bay in bays:
        own = [each for each in readings if bay_under(bays, each.at) == bay.number]
        if len(own) < _ENOUGH:
            continue
        for row in rows_of(np.array([each.at for each in own]), beside_mm):
            profile = _profile(area, bay.number, [own[number] for number in row], sd_mm, regime, edge)
            if profile is not None:
                found.append(profile)
    return tuple(found)


_ENOUGH = 3


def _profile(
    area: str, bay: int, row: list[ReadingCheck], sd_mm: float, regime: Regime, edge_mm: float
) -> ProfileAsLaid | None:
    places = np.array([each.at for each in row])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(places, axis=0).T))])
    rolled = rolled_edge(along, np.array([each.found_mm for each in row]), edge_mm)
    if rolled is None:
        return None
    contacts = None if rolled.contacts is None else (row[rolled.contacts[0]].label, row[rolled.contacts[1]].label)
    apart = math.inf if rolled.contacts is None else float(along[rolled.contacts[1]] - along[rolled.contacts[0]])
    limit = regime.gap_limit(edge_mm, min(apart, edge_mm), None)
    sd = sd_mm * rolled.reading_share
    verdict = held(rolled.gap_mm, limit, sd)
    if verdict is Verdict.PASSES and not rolled.sees_between:
        verdict = Verdict.INCONCLUSIVE
    return ProfileAsLaid(
        area=area,
        bay=bay,
        labels=tuple(each.label for each in row),
        places=tuple(each.at for each in row),
        off_mm=tuple(each.deviation_mm for each in row),
        edge_mm=edge_mm,
        gap_mm=rolled.gap_mm,
        gap_sd_mm=sd,
        contacts=contacts,
        lowest=None if rolled.lowest is None else row[rolled.lowest].label,
        widest_mm=rolled.widest_mm,
        sees_between=rolled.sees_between,
        limit=limit,
        verdict=verdict,
    )
