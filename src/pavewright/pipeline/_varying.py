"""A variation found by comparing two plans: the job as accepted, or as last varied, and the job as it is now."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost import RangeKind, added_shares
from pavewright.job import MaterialKind
from pavewright.job.agreed import DrawnArea, DrawnCorner, DrawnLayer, TaxedSum, VariationMeasure, VariationMeasureKind
from pavewright.pipeline._accepting import taxed_sum
from pavewright.pipeline._days_later import days_later
from pavewright.quantities import Measure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.cost import Cost
    from pavewright.geometry import XY
    from pavewright.pipeline._types import Plan, PlanSoFar

_MAX_CORNERS = 200
_STONE = frozenset({MaterialKind.SUB_BASE, MaterialKind.CAPPING})


class NotVaried(StrEnum):
    """Why no variation is found."""

    NO_PRICE_BEFORE = "no_price_before"
    NO_PRICE_NOW = "no_price_now"
    SAME = "same"
    OTHER_MONEY = "other_money"


class NotVariedError(Exception):
    """No variation is found.

    Attributes:
        why: Why not.
    """

    def __init__(self, why: NotVaried) -> None:
        """Take the reason."""
        self.why = why
        super().__init__(why.value)


@dataclass(frozen=True, slots=True)
class Varied:
    """What one plan adds to another.

    Attributes:
        sums: What it adds to the price, by the way in which it is taxed; less than zero where it saves.
        days: How many working days later the job is done; None where one of the two has no dates. [days]
        measures: What it makes more or less of.
        before: The areas that change, before.
        after: The same areas after.
        gaps: How many things more have no price: the sum is then too low.
    """

    sums: tuple[TaxedSum, ...]
    days: int | None
    measures: tuple[VariationMeasure, ...]
    before: tuple[DrawnArea, ...]
    after: tuple[DrawnArea, ...]
    gaps: int


def varied(before: Plan | PlanSoFar, after: Plan | PlanSoFar) -> Varied:
    """Return what the plan of a job as it is adds to its plan as it was.

    Args:
        before: The plan of the job as it was accepted, or with the last variation.
        after: The plan of the job as it is, with the same prices.

    Raises:
        NotVariedError: one of the two has no price, they are in other money, or nothing differs.
    """
    old, new = _priced(before.cost, NotVaried.NO_PRICE_BEFORE), _priced(after.cost, NotVaried.NO_PRICE_NOW)
    if before.job.identity.currency != after.job.identity.currency:
        raise NotVariedError(NotVaried.OTHER_MONEY)
    sums = tuple(map(taxed_sum, added_shares(old, new)))
    measures = tuple(_measures(before, after))
    drawn = [(one, other) for one, other in _areas(before, after) if one != other]
    if not sums and not measures and not drawn:
        raise NotVariedError(NotVaried.SAME)
    had = {(gap.scope, gap.reason, gap.item) for gap in old.gaps}
    return Varied(
        sums=sums,
        days=days_later(before.job.calendar, before.programme, after.programme),
        measures=measures,
        before=tuple(one for one, _ in drawn),
        after=tuple(other for _, other in drawn),
        gaps=sum((gap.scope, gap.reason, gap.item) not in had for gap in new.gaps),
    )


def _priced(cost: Cost | None, why: NotVaried) -> Cost:
    if cost is None or not cost.lines or cost.range_kind is RangeKind.NOT_KNOWN:
        raise NotVariedError(why)
    return cost


def _names(before: Plan | PlanSoFar, after: Plan | PlanSoFar) -> tuple[str, ...]:
    """Return the names of all areas of both, those of the first first."""
    return tuple(dict.fromkeys(area.name for made in (before, after) for area in made.job.areas))


def _measures(before: Plan | PlanSoFar, after: Plan | PlanSoFar) -> Iterator[VariationMeasure]:
    """Give what differs by more than a slip shows, area by area and then of the whole job."""
    kind = VariationMeasureKind
    for name in _names(before, after):
        yield from _differing(kind.DIG_DEPTH, name, _depth(before, name), _depth(after, name))
        place = _middle(before, name)
        yield from _differing(kind.LEVEL, name, _level(before, name, place), _level(after, name, place))
        yield from _differing(kind.PAVED, name, _paved(before, name), _paved(after, name))
    both = before, after
    dug = [None if made.earthworks is None else made.earthworks.cut_m3 for made in both]
    filled = [None if made.earthworks is None else made.earthworks.fill_m3 for made in both]
    yield from _differing(kind.DIG, "", dug[0], dug[1])
    yield from _differing(kind.FILL, "", filled[0], filled[1])
    yield from _differing(kind.STONE, "", _stone(before), _stone(after))
    yield from _differing(kind.LOADS, "", _loads(before), _loads(after))


def _differing(
    kind: VariationMeasureKind, where: str, old: float | None, new: float | None
) -> Iterator[VariationMeasure]:
    """Give a measure before and after, rounded as a slip shows it, where the two are not the same then."""
    one, other = (None if each is None else round(each, kind.decimals) for each in (old, new))
    if one != other:
        yield VariationMeasure(kind=kind, where=where, before=one, after=other)


def _depth(made: Plan | PlanSoFar, name: str) -> float | None:
    """Return how deep formation lies below the finished surface. [mm]."""
    found = () if made.build_ups is None else made.build_ups.areas
    return next((each.total_mm for each in found if each.area == name), None)


def _loads(made: Plan | PlanSoFar) -> float | None:
    """Return how many loads leave, as is likely."""
    dug = made.earthworks
    return None if dug is None or dug.loads is None else dug.loads.likely


def _stone(made: Plan | PlanSoFar) -> float | None:
    """Return how much stone goes under the paving; None where none is measured. [t]."""
    items = () if made.quantities is None else made.quantities.items
    found = [each.net for each in items if each.key.material in _STONE and each.unit is Measure.KG]
    return sum(found) / units.KG_PER_TONNE if found else None


def _middle(made: Plan | PlanSoFar, name: str) -> XY | None:
    """Return the middle of an area, at which its levels are compared: corners may move."""
    return next((each.shape.centre_mm for each in made.survey.site.areas if each.name == name), None)


def _level(made: Plan | PlanSoFar, name: str, place: XY | None) -> float | None:
    """Return the finished level of an area at a place. [mm]."""
    if made.levels is None or place is None:
        return None
    return next((each.surface.level_at(place) for each in made.levels.areas if each.area == name), None)


def _paved(made: Plan | PlanSoFar, name: str) -> float | None:
    """Return how much is paved in an area. [m²]."""
    return next((each.laid_m2 for each in made.survey.site.areas if each.name == name), None)


def _areas(before: Plan | PlanSoFar, after: Plan | PlanSoFar) -> Iterator[tuple[DrawnArea, DrawnArea]]:
    for name in _names(before, after):
        yield _drawn(before, name), _drawn(after, name)


def _drawn(made: Plan | PlanSoFar, name: str) -> DrawnArea:
    """Return an area as drawn on a slip: no outline where there is none, or where it has too many corners."""
    shape = next((each.shape for each in made.survey.site.areas if each.name == name), None)
    built = next((each for each in (made.build_ups.areas if made.build_ups else ()) if each.area == name), None)
    layers = () if built is None else built.layers
    ring = () if shape is None or len(shape.outer) > _MAX_CORNERS else shape.outer
    return DrawnArea(
        name=name,
        corners=tuple(_corner(made, name, place) for place in ring),
        layers=tuple(
            DrawnLayer(name=each.name, material=each.material.value, thickness_mm=each.thickness_mm)
            for each in layers
            if each.thickness_mm > 0.0
        ),
    )


def _corner(made: Plan | PlanSoFar, name: str, place: XY) -> DrawnCorner:
    found = () if made.levels is None else made.levels.areas
    area = next((each for each in found if each.area == name), None)
    level = None if area is None else round(area.surface.level_at(place), 1)
    return DrawnCorner(x_mm=round(place[0], 1), y_mm=round(place[1], 1), finished_mm=level)
