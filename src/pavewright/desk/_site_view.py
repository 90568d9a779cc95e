"""What is needed on site of a plan: outlines, heights, pegs, where to read, and the limits of what is read."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypedDict

from pavewright.as_laid import TRUSTED, promises, reading_places
from pavewright.desk._plain import plain
from pavewright.desk._site_parts import SiteParts, site_parts
from pavewright.job import AsLaid
from pavewright.levels import Levels
from pavewright.papers import PlanPart, plan_parts

if TYPE_CHECKING:
    from pavewright.as_laid import Promises
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Figure, Rulebook


class GridPlace(TypedDict):
    """A place of the grid on which the finished paving is read."""

    label: str
    area: str
    at: tuple[float, float]
    planned_mm: float


class WallStretch(TypedDict):
    """A stretch of paving at a damp-proof course, with what is promised there and what laying may take off it."""

    area: str
    wall: str
    start: tuple[float, float]
    end: tuple[float, float]
    clear_at_start_mm: float
    clear_at_end_mm: float
    promised_mm: float
    tolerance_mm: float


class SiteFigures(TypedDict):
    """What a phone takes along beside the rooms of the plan: where to read, and the limits of what is read."""

    title: str
    job: str
    invented: bool
    as_laid: None
    grid: list[GridPlace]
    reading_sd_mm: float
    trusted_sd: float
    level_limit: Figure
    walls: list[WallStretch]
    near_wall_mm: float
    misclosure_per_setup: Figure
    parts: SiteParts
    sources: dict[str, str]


_KEPT = (PlanPart.SURVEY, PlanPart.LEVELS, PlanPart.SETTING_OUT, PlanPart.FINDINGS, PlanPart.MISSING)
"""Rooms that a phone takes along, as far as they are made."""


def site_view(plan: PlanSoFar, rules: Rulebook) -> dict[str, Any]:
    """Return what a phone keeps of a plan as far as it goes, under the names that the plan has for it."""
    kept = plan_parts(plan, _KEPT)
    kept["survey"].pop("ground", None)
    taken = plan.job.as_laid
    levels = plan.levels if plan.levels is not None else Levels((), (), ())
    held = promises(plan.job, levels, rules)
    figures: dict[str, Any] = {
        "title": plan.job.identity.title,
        "job": plan.job.identity.job,
        "invented": plan.job.identity.invented,
        "as_laid": None,
        "grid": [plain(place) for place in reading_places(plan.survey, levels, rules)],
        "reading_sd_mm": AsLaid.model_fields["reading_sd_mm"].default if taken is None else taken.reading_sd_mm,
        "trusted_sd": TRUSTED,
        "level_limit": plain(held.level),
        "walls": _walls(levels, held),
        "near_wall_mm": rules.value("as_laid.near_wall_mm"),
        "misclosure_per_setup": plain(rules.figure("survey.misclosure_per_setup_mm")),
        "parts": site_parts(plan, rules),
    }
    figures["sources"] = {key: rules.sources[key].title for key in sorted(_sources(figures)) if key in rules.sources}
    assert figures.keys() == SiteFigures.__annotations__.keys()  # noqa: S101 - the scripts have their types from there
    return kept | figures


def _sources(told: object) -> set[str]:
    """Return the keys of the sources of every figure among plain values: a phone keeps the titles of these alone."""
    if isinstance(told, list):
        return {key for each in told for key in _sources(each)}
    if not isinstance(told, dict):
        return set()
    own = {told["source"]} if "status" in told and isinstance(told.get("source"), str) else set()
    return own | {key for each in told.values() for key in _sources(each)}


def _walls(levels: Levels, held: Promises) -> list[dict[str, Any]]:
    """Return every stretch of paving at a damp-proof course, with what is promised there and where it is passed."""
    promised = {each.wall: each for each in held.walls}
    return [
        {
            "area": area.area,
            "wall": met.wall,
            "start": list(met.start),
            "end": list(met.end),
            "clear_at_start_mm": met.at_start_mm,
            "clear_at_end_mm": met.at_end_mm,
            "promised_mm": promised[met.wall].promised_mm,
            "tolerance_mm": promised[met.wall].tolerance_mm,
        }
        for area in levels.areas
        for met in area.clearances
    ]
