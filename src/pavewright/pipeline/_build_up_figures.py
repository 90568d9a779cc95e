"""What a build-up comes to, and what is not known of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString

from pavewright import units
from pavewright.job import Soil, Use, WaterTable
from pavewright.pipeline import _build_up_words as words
from pavewright.pipeline._build_up_types import BuildUpFigures, NotKnown, NotKnownKind
from pavewright.pipeline._carbon import carbon_of
from pavewright.pipeline._types import Room
from pavewright.quantities import ItemKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.earthworks import AreaDig
    from pavewright.job import Area
    from pavewright.pipeline._types import PlanSoFar
    from pavewright.quantities import Gap, GapReason, ItemKey, ScopeKey
    from pavewright.rules import Rulebook

    GapIdentity = tuple[tuple[ScopeKey, ...], GapReason, ItemKey | None]

_SPOIL = frozenset({ItemKind.SPOIL, ItemKind.PIT_SPOIL, ItemKind.PROVISIONAL_SPOIL})


def figures_of(made: PlanSoFar, area: str, rules: Rulebook) -> BuildUpFigures:
    """Return what a plan comes to, as far as it is made."""
    if made.build_ups is None or made.earthworks is None:
        return BuildUpFigures()
    dug = next((each for each in made.earthworks.areas if each.area == area), None)
    quantities = made.quantities
    cost = made.cost if made.cost is not None and made.cost.lines else None
    return BuildUpFigures(
        build_up_mm=made.build_ups.area(area).total_mm,
        dig_mm=None if dug is None else _mean_depth_mm(dug),
        dig_m3=None if dug is None else made.earthworks.cut_m3,
        fill_m3=None if dug is None else made.earthworks.fill_m3,
        total_minor=None if cost is None else cost.total_minor,
        mass_t=None if quantities is None else _mass_t(made),
        days=None if made.programme is None else made.programme.site_days,
        carbon=None if quantities is None else carbon_of(quantities, rules),
    )


def _mean_depth_mm(dug: AreaDig) -> float | None:
    """Return the mean depth of what is dug over the area that is dug; fill is not set off against it. [mm]."""
    return units.m_to_mm(dug.volumes.cut_m3 / dug.dig_m2) if dug.dig_m2 > 0.0 else None


def _mass_t(made: PlanSoFar) -> float | None:
    """Return the mass of what is brought, of what has one; None where nothing has. [t]."""
    items = () if made.quantities is None else made.quantities.items
    known = [each.kg for each in items if each.key.bought and each.key.kind not in _SPOIL and each.kg is not None]
    return sum(known) / units.KG_PER_TONNE if known else None


def without_mass(made: PlanSoFar) -> Iterator[tuple[ItemKey, str]]:
    """Give what is bought and has no mass that is known."""
    for each in () if made.quantities is None else made.quantities.items:
        if each.key.bought and each.key.kind not in _SPOIL and each.kg is None:
            yield each.key, each.description


def gaps_of(made: PlanSoFar) -> tuple[Gap, ...]:
    """Return what is not in the price of a plan."""
    return () if made.cost is None else made.cost.gaps


def in_one_only(made: PlanSoFar, now: PlanSoFar) -> tuple[Gap, ...]:
    """Return what keeps two prices apart: it is in neither, and the two plans take different amounts of it."""
    here, there = _unpriced(made), _unpriced(now)
    differ = [each for each in {**here, **there} if here.get(each) != there.get(each)]
    return tuple((here.get(each) or there[each])[0] for each in differ)


def _unpriced(made: PlanSoFar) -> dict[GapIdentity, tuple[Gap, float | None]]:
    """Return what is not in the price of a plan, with how much of it is needed where that is known."""
    needed = {} if made.quantities is None else {each.key: each.net for each in made.quantities.items}
    return {
        (gap.scope, gap.reason, gap.item): (gap, None if gap.item is None else needed.get(gap.item))
        for gap in gaps_of(made)
    }


def not_known_of(made: PlanSoFar, figures: BuildUpFigures) -> Iterator[NotKnown]:
    """Give the word of each figure that is not known."""
    if figures.dig_m3 is None:
        yield NotKnown(NotKnownKind.DIG, words.DIG)
    if figures.total_minor is None:
        yield NotKnown(NotKnownKind.PRICE, words.reason(words.PRICE, made.why_not((Room.COST,))))
    if figures.days is None:
        yield NotKnown(NotKnownKind.DAYS, words.reason(words.DAYS, made.why_not((Room.PROGRAMME,))))
    if figures.mass_t is None:
        yield NotKnown(NotKnownKind.MASS, words.MASS)
    if figures.carbon is None or figures.carbon.total is None:
        yield NotKnown(NotKnownKind.CARBON, words.CARBON)


def of_ground(made: PlanSoFar, area: Area, build_up_mm: float | None, rules: Rulebook) -> Iterator[NotKnown]:
    """Give what is assumed or not known of the ground, and what the frost asks."""
    ground = made.job.site.ground
    if ground.soil is Soil.UNKNOWN and ground.cbr_percent is None and ground.assumed is None:
        yield NotKnown(NotKnownKind.SOIL_UNKNOWN, words.SOIL_UNKNOWN)
    if ground.assumed is not None:
        yield NotKnown(NotKnownKind.SOIL_ASSUMED, words.SOIL_ASSUMED)
    if ground.cbr_percent is None:
        yield NotKnown(NotKnownKind.BEARING_NOT_MEASURED, words.BEARING_NOT_MEASURED)
    if ground.water_table is WaterTable.UNKNOWN:
        yield NotKnown(NotKnownKind.WATER_TABLE, words.WATER_TABLE)
    limit = rules.figure("buildup.frost_free_road_mm")
    beside = build_up_mm is not None and area.use is not Use.FOOT and build_up_mm < limit.value
    yield NotKnown(NotKnownKind.FROST, words.frost(build_up_mm or 0.0, limit) if beside else words.FROST)


def house_mm(made: PlanSoFar, area: str) -> float | None:
    """Return how far the nearest measured wall of the house is from an area; None where none is measured. [mm]."""
    paved = next((each.gross.polygon for each in made.survey.site.areas if each.name == area), None)
    walls = [LineString([each.start, each.end]) for each in made.survey.site.walls if each.is_house]
    if paved is None or not walls:
        return None
    return min(float(paved.distance(wall)) for wall in walls)
