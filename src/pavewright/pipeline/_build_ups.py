"""Other build-ups that a job could have: each is planned with the whole job, by a changed document."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.buildup import BaseCase, ground_bearing, permeable_regime, regimes, rules_for_base
from pavewright.findings import FieldChange, Severity
from pavewright.job import BaseRule, Bedding, JobInvalid, PermeableBase, UnitKind, WaterTable, changed
from pavewright.pipeline import _build_up_words as words
from pavewright.pipeline._build_up_figures import (
    figures_of,
    gaps_of,
    house_mm,
    in_one_only,
    not_known_of,
    of_ground,
    without_mass,
)
from pavewright.pipeline._build_up_types import (
    Alternative,
    BuildUpChoice,
    BuildUpFigures,
    GroundTaken,
    NotKnown,
    NotKnownKind,
)
from pavewright.pipeline._plan import plan_rooms
from pavewright.pipeline._types import Room
from pavewright.water import CLAY, stone_for

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.findings import Finding
    from pavewright.job import Area
    from pavewright.pipeline._types import Plan, PlanSoFar
    from pavewright.rules import Rulebook
    from pavewright.water import StoneNeed

FOR_BUILD_UPS = (Room.BUILD_UPS, Room.EARTHWORKS)
"""The rooms without which no build-up is compared."""
_PRICED = (Room.COST, Room.PROGRAMME)


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
    if made.with_rooms(FOR_BUILD_UPS) is None:
        missing = getattr(made, "why_not", lambda _: ())(FOR_BUILD_UPS)
        return BuildUpChoice(None, (), (), missing, getattr(made, "faults", ()))
    now = plan_rooms(made.job, rules, _PRICED)
    kept: list[Alternative] = []
    refused: list[Alternative] = []
    for number in range(len(now.job.areas)):
        here = _Compared(now, rules, number)
        kept.append(here.chosen())
        others = tuple(here.others())
        for place, (bedding, rule) in enumerate(others, 1):
            tell(f"another build-up of {here.area.name}, {place} of {len(others)}")
            found = here.planned(bedding, rule)
            (refused if found.faults or here.is_stopped(found) else kept).append(found)
        for found in here.permeable():
            planned = found.bedding is not None
            (refused if planned and (found.faults or here.is_stopped(found)) else kept).append(found)
    ground = now.job.site.ground
    taken = GroundTaken(ground.soil, ground_bearing(ground, rules), ground.cbr_percent is not None, ground.water_table)
    return BuildUpChoice(taken, tuple(kept), tuple(refused), (), ())


def build_ups_to_try(
    now: PlanSoFar, rules: Rulebook, number: int
) -> tuple[tuple[Bedding, BaseRule, tuple[FieldChange, ...]], ...]:
    """Return the other build-ups of an area with what each changes in the document; none of them is planned.

    Args:
        now: The plan of the job with its build-ups and its dig.
        rules: Its rulebook.
        number: Place of the area in the job.
    """
    if not now.has(FOR_BUILD_UPS):
        return ()
    here = _Compared(now, rules, number)
    return tuple((bedding, rule, tuple(here.changes_to(bedding, rule))) for bedding, rule in here.all_others())


class _Compared:
    """The build-ups of one area, held against the plan as it is."""

    def __init__(self, now: PlanSoFar, rules: Rulebook, number: int) -> None:
        """Begin with an area by its place in the job."""
        self._now, self._rules, self._number = now, rules, number
        self.area: Area = now.job.areas[number]
        self._known = {_identity(each) for each in now.findings}
        self._cbr = ground_bearing(now.job.site.ground, rules)
        self._house_mm = house_mm(now, self.area.name)

    def _case(self, bedding: Bedding) -> BaseCase:
        """Return what a rule goes by on a bed; a design is for the bed that the area has, and for no other."""
        unit, mine = self._now.job.unit(self.area.laying.unit), self.area.laying.bedding
        design = self.area.base_design if bedding is mine else None
        return BaseCase(self.area.use, bedding, unit.kind, self._cbr, design, self._stored())

    def _stored(self) -> float:
        """Return the open stone as entered for what it stores. [mm]."""
        return 0.0 if self.area.permeable is None else self.area.permeable.stone_mm or 0.0

    def others(self) -> Iterator[tuple[Bedding, BaseRule]]:
        """Give how else the units could be carried, and whose rule gives the base: each base once."""
        mine, rule = self.area.laying.bedding, self.area.base_rule
        bases = rules_for_base(self._case(mine), self._rules)
        seen = {(mine, bases.get(rule, bases[BaseRule.OWN]))}
        for bedding in Bedding:
            for each, base in rules_for_base(self._case(bedding), self._rules).items():
                if (bedding, base) not in seen and each is not BaseRule.PERMEABLE:
                    seen.add((bedding, base))
                    yield bedding, each

    def all_others(self) -> Iterator[tuple[Bedding, BaseRule]]:
        """Give how else the units could be carried, permeable paving among it where enough is known of it."""
        yield from self.others()
        if self.area.base_rule is not BaseRule.PERMEABLE and not tuple(self._asked()):
            yield Bedding.SAND_ON_SUB_BASE, BaseRule.PERMEABLE

    def chosen(self) -> Alternative:
        """Return the build-up that the job has."""
        rule = self.area.base_rule
        speaks = rule in rules_for_base(self._case(self.area.laying.bedding), self._rules)
        return self._alternative(self._now, self.area.laying.bedding, rule if speaks else BaseRule.OWN, ())

    def planned(self, bedding: Bedding, rule: BaseRule) -> Alternative:
        """Return an alternative, planned; one that makes no job says why."""
        changes = tuple(self.changes_to(bedding, rule))
        try:
            other = plan_rooms(changed(self._now.job, changes), self._rules, _PRICED)
        except JobInvalid as invalid:
            return replace(self._bare(bedding, rule), changes=changes, faults=invalid.faults)
        return self._alternative(other, bedding, rule, changes)

    def changes_to(self, bedding: Bedding, rule: BaseRule) -> Iterator[FieldChange]:
        """Give what an alternative changes in the document; zones lie on the bed of their area."""
        at = f"areas.{self._number}"
        if bedding is not self.area.laying.bedding:
            yield FieldChange(f"{at}.laying.bedding", bedding.value)
            for zone in range(len(self.area.zones)):
                yield FieldChange(f"{at}.zones.{zone}.laying.bedding", bedding.value)
        if rule is not self.area.base_rule:
            yield FieldChange(f"{at}.base_rule", rule.value)
        need = self._stone() if rule is BaseRule.PERMEABLE else None
        if need is not None and need.thickness_mm > (self._bearing() or 0.0):
            yield FieldChange(f"{at}.permeable.stone_mm", need.thickness_mm)

    def is_stopped(self, found: Alternative) -> bool:
        """Return whether an alternative brings a stop, or is not planned as far as the job is."""
        as_far = found.figures.dig_m3 is not None or figures_of(self._now, self.area.name, self._rules).dig_m3 is None
        return not as_far or any(each.severity is Severity.STOP for each in found.findings)

    def _alternative(
        self, made: PlanSoFar, bedding: Bedding, rule: BaseRule, changes: tuple[FieldChange, ...]
    ) -> Alternative:
        figures, other = figures_of(made, self.area.name, self._rules), bool(changes)
        stops = [each for each in made.findings if each.severity is Severity.STOP]
        still = {_identity(each) for each in stops}
        return replace(
            self._bare(bedding, rule),
            chosen=not other,
            changes=changes,
            figures=figures,
            gaps=gaps_of(made),
            in_one_price_only=in_one_only(made, self._now),
            no_mass=tuple(without_mass(made)),
            regimes=regimes(rule, self._case(bedding), self._rules),
            findings=self._noticed(made, other=other),
            stays=tuple(each for each in stops if other and _identity(each) in self._known),
            ends=tuple(
                each for each in self._now.findings if each.severity is Severity.STOP and _identity(each) not in still
            ),
            not_known=(
                *not_known_of(made, figures),
                *self._of_joints(bedding),
                *of_ground(made, self.area, figures.build_up_mm, self._rules),
            ),
        )

    def _of_joints(self, bedding: Bedding) -> Iterator[NotKnown]:
        """Say where an alternative goes from sand to mortar, or back, with the joints as they are."""
        sand = Bedding.SAND_ON_SUB_BASE
        if (bedding is sand) is not (self.area.laying.bedding is sand):
            yield NotKnown(NotKnownKind.JOINTS, words.joints(self.area.laying.joint_mm))

    def _bare(self, bedding: Bedding | None, rule: BaseRule) -> Alternative:
        return Alternative(self._number, self.area.name, bedding, rule, BuildUpFigures(), self._house_mm)

    def permeable(self) -> Iterator[Alternative]:
        """Give permeable paving, planned where enough is known, else with what has to be known first."""
        if self.area.base_rule is BaseRule.PERMEABLE and self.chosen().regimes[0].rule is BaseRule.PERMEABLE:
            return
        asked = tuple(self._asked())
        if not asked:
            yield self.planned(Bedding.SAND_ON_SUB_BASE, BaseRule.PERMEABLE)
            return
        ground = of_ground(self._now, self.area, None, self._rules)
        yield replace(
            self._bare(None, BaseRule.OWN),
            regimes=(permeable_regime(self._rules),),
            not_known=(*asked, *self._beside(), *ground),
        )

    def _bearing(self) -> float | None:
        """Return the open stone by the rule for bearing, or as entered; None where it says nothing of this. [mm]."""
        parts = rules_for_base(self._case(Bedding.SAND_ON_SUB_BASE), self._rules).get(BaseRule.PERMEABLE)
        return None if parts is None else max(thick for _, thick in parts)

    def _stone(self) -> StoneNeed | None:
        """Return the thinnest open stone that holds the storms; None where that is not known, or none does."""
        now = self._now
        if now.water is None or now.levels is None:
            return None
        paved, finished = now.survey.site.area(self.area.name), now.levels.area(self.area.name)
        return stone_for(paved, finished, now.job.site.rain, now.water.catchments, self._rules)

    def _can_store(self) -> bool:
        """Return whether what the stone stores can be calculated: the rain is known, and the surface has one fall."""
        rain, levels = self._now.job.site.rain, self._now.levels
        return rain is not None and levels is not None and levels.area(self.area.name).surface.is_plane

    def _noticed(self, made: PlanSoFar, *, other: bool) -> tuple[Finding, ...]:
        """Return stops and checks: of the chosen build-up all stops and its own checks, of another what it brings."""
        seen = [each for each in made.findings if each.severity is not Severity.NOTE]
        if other:
            return tuple(each for each in seen if _identity(each) not in self._known)
        here = {f"area {self.area.name}", "ground"}
        return tuple(each for each in seen if each.severity is Severity.STOP or each.place in here)

    def _asked(self) -> Iterator[NotKnown]:
        """Ask what permeable paving has to know before it is planned; none of it is ever taken as fine."""
        entered = self.area.permeable or PermeableBase()
        if not self._can_store() or self._now.water is None:
            yield NotKnown(NotKnownKind.STORAGE, words.STORAGE)
        if entered.infiltration_m_per_s is None:
            yield NotKnown(NotKnownKind.INFILTRATION, words.INFILTRATION)
        if entered.sealed_m2 is None:
            yield NotKnown(NotKnownKind.SEALED_GROUND, words.SEALED)
        if self._now.job.unit(self.area.laying.unit).kind is not UnitKind.BLOCK:
            yield NotKnown(NotKnownKind.PERMEABLE_UNIT, words.ONLY_BLOCKS)
        elif self._bearing() is None:
            limit = self._rules.figure("buildup.permeable_from_cbr_percent")
            yield NotKnown(NotKnownKind.WEAK_GROUND, words.weak_ground(self._cbr, limit))

    def _beside(self) -> Iterator[NotKnown]:
        """Give what would be a finding of the plan if there were one."""
        ground = self._now.job.site.ground
        if ground.soil in CLAY:
            yield NotKnown(NotKnownKind.CLAY, words.CLAY)
        if ground.water_table is WaterTable.HIGH:
            yield NotKnown(NotKnownKind.WATER_HIGH, words.WATER_HIGH)
        if (self.area.permeable or PermeableBase()).lets_through is None:
            yield NotKnown(NotKnownKind.PERMEABLE_UNIT, words.PERMEABLE_UNIT)
        if self._house_mm is None:
            yield NotKnown(NotKnownKind.HOUSE_DISTANCE, words.HOUSE_DISTANCE)
        else:
            limit = self._rules.figure("water.soakaway_from_building_m")
            yield NotKnown(NotKnownKind.HOUSE_NEAR, words.house_near(self._house_mm, limit))
        limit = self._rules.figure("buildup.permeable_from_cbr_percent")
        if self._cbr < limit.value and self._bearing() is not None:
            yield NotKnown(NotKnownKind.WEAK_GROUND, words.weak_ground(self._cbr, limit))


def _identity(finding: Finding) -> tuple[str, str, Severity]:
    """Return by what a finding is known again: a check that becomes a stop is another."""
    return finding.code, finding.place, finding.severity
