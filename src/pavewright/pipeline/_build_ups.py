"""Other build-ups that a job could have: each is planned with the whole job, by a changed document."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely.geometry import LineString

from pavewright import units
from pavewright.buildup import ground_bearing, permeable_regime, regimes
from pavewright.findings import FieldChange, Severity
from pavewright.job import Bedding, JobInvalid, WaterTable, changed
from pavewright.pipeline import _build_up_words as words
from pavewright.pipeline._build_up_types import Alternative, BuildUpChoice, BuildUpFigures, NotKnown, NotKnownKind
from pavewright.pipeline._carbon import carbon_of
from pavewright.pipeline._plan import plan_rooms
from pavewright.pipeline._types import Room
from pavewright.quantities import ItemKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.findings import Finding
    from pavewright.pipeline._types import Plan, PlanSoFar
    from pavewright.quantities import ItemKey
    from pavewright.rules import Rulebook

FOR_BUILD_UPS = (Room.BUILD_UPS, Room.EARTHWORKS)
"""The rooms without which no build-up is compared."""
_SPOIL = frozenset({ItemKind.SPOIL, ItemKind.PIT_SPOIL, ItemKind.PROVISIONAL_SPOIL})


def build_up_choice(
    made: Plan | PlanSoFar, rules: Rulebook, report: Callable[[str], None] | None = None
) -> BuildUpChoice:
    """Return the build-ups that a job could have, each planned with the whole job.

    Args:
        made: The plan of the job.
        rules: Its rulebook.
        report: Takes what is being done; may raise to stop the work.
    """
    tell = report or (lambda _: None)
    as_far = made if made.with_rooms(FOR_BUILD_UPS) is not None else None
    if as_far is None:
        return _nothing(made)
    now = plan_rooms(made.job, rules, (Room.COST, Room.PROGRAMME))
    kept: list[Alternative] = []
    refused: list[Alternative] = []
    for number, area in enumerate(made.job.areas):
        here = _Compared(now, rules, number)
        kept.append(here.alternative(now, area.laying.bedding, ()))
        for bedding in Bedding:
            if bedding is area.laying.bedding:
                continue
            tell(f"another build-up of {area.name}")
            found = here.planned(bedding)
            (refused if found.faults or here.is_stopped(found) else kept).append(found)
        kept.append(here.permeable())
    return BuildUpChoice(tuple(kept), tuple(refused), (), ())


def _nothing(made: Plan | PlanSoFar) -> BuildUpChoice:
    """Return that nothing is compared, and why."""
    missing = getattr(made, "why_not", lambda _: ())(FOR_BUILD_UPS)
    return BuildUpChoice((), (), missing, getattr(made, "faults", ()))


class _Compared:
    """The build-ups of one area, held against the plan as it is."""

    def __init__(self, now: PlanSoFar, rules: Rulebook, number: int) -> None:
        """Begin with an area by its place in the job."""
        self._now, self._rules, self._number = now, rules, number
        self._area = now.job.areas[number]
        self._known = {(each.code, each.place) for each in now.findings}
        self._cbr = ground_bearing(now.job.site.ground, rules)
        self._house_mm = _house_mm(now, self._area.name)

    def planned(self, bedding: Bedding) -> Alternative:
        """Return an alternative, planned; one that makes no job says why."""
        changes = (FieldChange(f"areas.{self._number}.laying.bedding", bedding.value),)
        try:
            other = plan_rooms(changed(self._now.job, changes), self._rules, (Room.COST, Room.PROGRAMME))
        except JobInvalid as invalid:
            return self._bare(bedding, changes, invalid)
        return self.alternative(other, bedding, changes)

    def is_stopped(self, found: Alternative) -> bool:
        """Return whether an alternative brings a stop, or is not planned as far as the job is."""
        return found.figures.dig_m3 is None or any(each.severity is Severity.STOP for each in found.findings)

    def alternative(self, made: PlanSoFar, bedding: Bedding, changes: tuple[FieldChange, ...]) -> Alternative:
        """Return an alternative of which the plan is made."""
        layers = () if made.build_ups is None else made.build_ups.area(self._area.name).layers
        found = regimes(self._area.use, bedding, self._cbr, layers, self._rules) if layers else ()
        figures = _figures(made, self._area.name, self._rules)
        return Alternative(
            number=self._number,
            area=self._area.name,
            bedding=bedding,
            chosen=not changes,
            changes=changes,
            figures=figures,
            gaps=() if made.cost is None else made.cost.gaps,
            no_mass=tuple(_without_mass(made)),
            regimes=found,
            house_mm=self._house_mm,
            findings=self._noticed(made, chosen=not changes),
            not_known=(*_not_known(made, figures), *_of_ground(made)),
        )

    def permeable(self) -> Alternative:
        """Return permeable paving: nothing is planned of it, and what has to be known first is asked."""
        return Alternative(
            number=self._number,
            area=self._area.name,
            bedding=None,
            chosen=False,
            changes=(),
            figures=BuildUpFigures(),
            gaps=(),
            no_mass=(),
            regimes=(permeable_regime(self._rules),),
            house_mm=self._house_mm,
            findings=(),
            not_known=(*self._asked(), *_of_ground(self._now)),
        )

    def _bare(self, bedding: Bedding, changes: tuple[FieldChange, ...], invalid: JobInvalid) -> Alternative:
        return Alternative(
            number=self._number,
            area=self._area.name,
            bedding=bedding,
            chosen=False,
            changes=changes,
            figures=BuildUpFigures(),
            gaps=(),
            no_mass=(),
            regimes=(),
            house_mm=self._house_mm,
            findings=(),
            not_known=(),
            faults=invalid.faults,
        )

    def _noticed(self, made: PlanSoFar, *, chosen: bool) -> tuple[Finding, ...]:
        """Return stops and checks: of the chosen build-up those of this area, of another what it brings."""
        seen = [each for each in made.findings if each.severity is not Severity.NOTE]
        if chosen:
            return tuple(each for each in seen if each.place == f"area {self._area.name}")
        return tuple(each for each in seen if (each.code, each.place) not in self._known)

    def _asked(self) -> Iterator[NotKnown]:
        """Ask what permeable paving has to know first; none of it is ever taken as fine."""
        yield NotKnown(NotKnownKind.STORAGE, words.STORAGE)
        yield NotKnown(NotKnownKind.INFILTRATION, words.INFILTRATION)
        yield NotKnown(NotKnownKind.PERMEABLE_UNIT, words.PERMEABLE_UNIT)
        if self._house_mm is None:
            yield NotKnown(NotKnownKind.HOUSE_DISTANCE, words.HOUSE_DISTANCE)
        else:
            limit = self._rules.figure("water.soakaway_from_building_m")
            yield NotKnown(NotKnownKind.HOUSE_NEAR, words.house_near(self._house_mm, limit))
        limit = self._rules.figure("buildup.permeable_from_cbr_percent")
        if self._cbr < limit.value:
            yield NotKnown(NotKnownKind.WEAK_GROUND, words.weak_ground(self._cbr, limit))


def _figures(made: PlanSoFar, area: str, rules: Rulebook) -> BuildUpFigures:
    """Return what a plan comes to, as far as it is made."""
    if made.build_ups is None or made.earthworks is None:
        return BuildUpFigures()
    dug = next(each for each in made.earthworks.areas if each.area == area)
    quantities = made.quantities
    cost = made.cost if made.cost is not None and made.cost.lines else None
    return BuildUpFigures(
        build_up_mm=made.build_ups.area(area).total_mm,
        dig_mm=dug.mean_depth_mm,
        dig_m3=made.earthworks.cut_m3,
        total_minor=None if cost is None else cost.total_minor,
        mass_t=None if quantities is None else _mass_t(made),
        days=None if made.programme is None else made.programme.site_days,
        carbon=None if quantities is None else carbon_of(made.job, quantities, rules),
    )


def _mass_t(made: PlanSoFar) -> float | None:
    """Return the mass of what is brought, of what has one; None where nothing has. [t]."""
    items = () if made.quantities is None else made.quantities.items
    known = [each.kg for each in items if each.key.bought and each.key.kind not in _SPOIL and each.kg is not None]
    return sum(known) / units.KG_PER_TONNE if known else None


def _without_mass(made: PlanSoFar) -> Iterator[tuple[ItemKey, str]]:
    for each in () if made.quantities is None else made.quantities.items:
        if each.key.bought and each.key.kind not in _SPOIL and each.kg is None:
            yield each.key, each.description


def _not_known(made: PlanSoFar, figures: BuildUpFigures) -> Iterator[NotKnown]:
    """Give the word of each figure that is not known."""
    if figures.total_minor is None:
        yield NotKnown(NotKnownKind.PRICE, words.reason(words.PRICE, made.why_not((Room.COST,))))
    if figures.days is None:
        yield NotKnown(NotKnownKind.DAYS, words.reason(words.DAYS, made.why_not((Room.PROGRAMME,))))
    if figures.mass_t is None:
        yield NotKnown(NotKnownKind.MASS, words.MASS)
    if figures.carbon is None or figures.carbon.total is None:
        yield NotKnown(NotKnownKind.CARBON, words.CARBON)


def _of_ground(made: PlanSoFar) -> Iterator[NotKnown]:
    """Give what is assumed or not known of the ground."""
    ground = made.job.site.ground
    if ground.assumed is not None:
        yield NotKnown(NotKnownKind.SOIL_ASSUMED, words.SOIL_ASSUMED)
    if ground.cbr_percent is None:
        yield NotKnown(NotKnownKind.BEARING_NOT_MEASURED, words.BEARING_NOT_MEASURED)
    if ground.water_table is WaterTable.UNKNOWN:
        yield NotKnown(NotKnownKind.WATER_TABLE, words.WATER_TABLE)
    yield NotKnown(NotKnownKind.FROST, words.FROST)


def _house_mm(made: PlanSoFar, area: str) -> float | None:
    """Return how far the nearest measured wall of the house is from an area; None where none is measured. [mm]."""
    paved = next((each.gross.polygon for each in made.survey.site.areas if each.name == area), None)
    walls = [LineString([each.start, each.end]) for each in made.survey.site.walls if each.is_house]
    if paved is None or not walls:
        return None
    return min(float(paved.distance(wall)) for wall in walls)
