"""The rooms one after the other, each where those that it leans on are made and nothing that it needs is missing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar

from pavewright.as_laid import check
from pavewright.bedding import report
from pavewright.buildup import build_up, depth_under
from pavewright.cost import labour, price
from pavewright.earthworks import dig
from pavewright.hold_points import Made, hold_points
from pavewright.job import JobInvalid
from pavewright.laying import lay
from pavewright.levels import finished_levels
from pavewright.pipeline._site_days import site_days
from pavewright.pipeline._types import Room, needs_of
from pavewright.programme import brought_on, hires_as_entered, schedule
from pavewright.quantities import take_off, take_off_units, with_days
from pavewright.setting_out import AtHand, set_out
from pavewright.survey import survey_so_far
from pavewright.water import drain

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Mapping

    from pavewright.as_laid import AsLaidReport
    from pavewright.bedding import BeddingReport
    from pavewright.buildup import BuildUps
    from pavewright.cost import Cost, LabourTask
    from pavewright.earthworks import Earthworks
    from pavewright.findings import Finding
    from pavewright.hold_points import HoldPoints
    from pavewright.job import Fault, Job
    from pavewright.laying import LaidBefore, LayingPlan
    from pavewright.levels import Levels
    from pavewright.programme import Programme
    from pavewright.quantities import Quantities
    from pavewright.rules import Rulebook
    from pavewright.setting_out import SettingOut
    from pavewright.survey import Survey, SurveyFaults
    from pavewright.water import Water

_T = TypeVar("_T")


@dataclass
class Rooms:
    """What is made so far of a job, room by room.

    Attributes:
        job: The job.
        rules: The rulebook.
        before: What was laid for the same plan.
        options: Whether other ways of laying are tried.
        survey: What was measured; the first room, and always made.
        survey_faults: What of it contradicts itself.
        faults: Faults of each room that could not be made for them.
    """

    job: Job
    rules: Rulebook
    before: LaidBefore
    options: bool
    survey: Survey
    survey_faults: SurveyFaults
    faults: dict[Room, tuple[Fault, ...]]
    levels: Levels | None = None
    laying: LayingPlan | None = None
    build_ups: BuildUps | None = None
    earthworks: Earthworks | None = None
    water: Water | None = None
    quantities: Quantities | None = None
    labour: tuple[LabourTask, ...] | None = None
    programme: Programme | None = None
    cost: Cost | None = None
    setting_out: SettingOut | None = None
    hold_points: HoldPoints | None = None
    bedding: BeddingReport | None = None
    as_laid: AsLaidReport | None = None

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the rooms noticed."""
        return tuple(
            finding
            for room in Room
            if room is not Room.LABOUR and getattr(self, room.value) is not None
            for finding in getattr(self, room.value).findings
        )


def _made(room: _T | None) -> _T:
    """Return a room that is made: the runner asks for a room only where those that it leans on are there."""
    assert room is not None  # noqa: S101 - a need that stands in no table is a bug
    return room


def _levels(here: Rooms) -> Levels:
    under = depth_under(here.job, here.rules) if here.job.site.ground.is_known else {}
    return finished_levels(here.job, here.survey, here.rules, under)


def _laying(here: Rooms) -> LayingPlan:
    return lay(here.job, here.survey, here.rules, here.levels, options=here.options, before=here.before)


def _build_ups(here: Rooms) -> BuildUps:
    return build_up(here.job, here.survey, _made(here.levels), here.rules)


def _earthworks(here: Rooms) -> Earthworks:
    return dig(here.job, here.survey, _made(here.build_ups), here.rules, here.laying)


def _water(here: Rooms) -> Water:
    return drain(here.job, here.survey, _made(here.levels), here.rules)


def _quantities(here: Rooms) -> Quantities:
    """Measure everything, or the units alone where nothing is known of what lies under them."""
    laying, levels, water = _made(here.laying), here.levels, here.water
    if levels is None or here.build_ups is None or here.earthworks is None or water is None:
        return take_off_units(here.job, laying, here.rules)
    return take_off(here.job, here.survey, levels, laying, here.build_ups, here.earthworks, water, here.rules)


def _labour(here: Rooms) -> tuple[LabourTask, ...]:
    laying, build_ups, earthworks = _made(here.laying), _made(here.build_ups), _made(here.earthworks)
    return labour(
        here.job, here.survey, laying, build_ups, earthworks, _made(here.water), _made(here.quantities), here.rules
    )


def _programme(here: Rooms) -> Programme | None:
    return schedule(here.job, _made(here.labour), here.rules, _made(here.quantities).items)


def _as_sold(here: Rooms) -> Programme | None:
    """Return the programme that a price goes by: of a quoted job, as if nothing were done yet, or it moved each day."""
    job = here.job
    if here.programme is None or job.quoted is None or not job.done:
        return here.programme
    undone = job.model_copy(update={"done": ()})
    return schedule(undone, _made(here.labour), here.rules, _made(here.quantities).items)


def _cost(here: Rooms) -> Cost:
    sold = _as_sold(here)
    hires = hires_as_entered(here.job) if sold is None else sold.hires
    here.quantities = with_days(here.job, _made(here.quantities), site_days(here.job, here.labour, sold), here.rules)
    laying, earthworks, quantities = _made(here.laying), _made(here.earthworks), _made(here.quantities)
    brought = {} if sold is None else brought_on(sold)
    return price(here.job, laying, earthworks, quantities, _made(here.labour), hires, brought, here.rules)


def _setting_out(here: Rooms) -> SettingOut:
    said = AtHand(here.job.tools, here.job.strings_set, here.job.set_ups)
    return set_out(here.survey, _made(here.levels), _made(here.build_ups), here.rules, said)


def _hold_points(here: Rooms) -> HoldPoints:
    made = Made(
        here.survey, _made(here.levels), _made(here.build_ups), _made(here.setting_out), here.laying, here.earthworks,
        here.water, here.labour, here.quantities, here.cost,
    )  # fmt: skip
    return hold_points(here.job, made, here.rules)


def _bedding(here: Rooms) -> BeddingReport | None:
    levels, laying, build_ups = _made(here.levels), _made(here.laying), _made(here.build_ups)
    return report(here.job, here.survey, levels, laying, build_ups, _made(here.quantities), here.rules)


def _as_laid(here: Rooms) -> AsLaidReport | None:
    return check(here.job, here.survey, _made(here.levels), here.rules, here.laying)


_MAKE: Mapping[Room, Callable[[Rooms], Any]] = {
    Room.LEVELS: _levels,
    Room.LAYING: _laying,
    Room.BUILD_UPS: _build_ups,
    Room.EARTHWORKS: _earthworks,
    Room.WATER: _water,
    Room.QUANTITIES: _quantities,
    Room.LABOUR: _labour,
    Room.PROGRAMME: _programme,
    Room.COST: _cost,
    Room.SETTING_OUT: _setting_out,
    Room.HOLD_POINTS: _hold_points,
    Room.BEDDING: _bedding,
    Room.AS_LAID: _as_laid,
}
"""How each room is made, in their order; the survey comes before them."""
_SAID = {
    Room.SURVEY: "survey",
    Room.LEVELS: "levels",
    Room.LAYING: "laying",
    Room.BUILD_UPS: "build-up and dig",
    Room.WATER: "water",
    Room.QUANTITIES: "quantities and cost",
    Room.SETTING_OUT: "setting out",
}
"""What a progress line says before a room is made."""
FOR_A_PRICE = frozenset(Room) - {Room.SETTING_OUT, Room.HOLD_POINTS, Room.BEDDING, Room.AS_LAID}
"""The rooms by which an option is judged."""


def surveyed(job: Job, rules: Rulebook, before: LaidBefore, tell: Callable[[str], None], *, options: bool) -> Rooms:
    """Return the rooms of a job with its survey made, and no other."""
    tell(_SAID[Room.SURVEY])
    found, faults = survey_so_far(job, rules)
    return Rooms(job, rules, before, options, found, faults, {})


def make_rooms(
    here: Rooms, without: Collection[Room], tell: Callable[[str], None], rooms: Collection[Room] = tuple(Room)
) -> None:
    """Make every room that is not made yet and for which those that it leans on are there.

    Args:
        here: Rooms with a survey; the others are put in.
        without: Rooms for which something is missing.
        tell: Takes the name of each stage before it starts; may raise to stop the work.
        rooms: Rooms that are asked for.
    """
    for room, make in _MAKE.items():
        if room not in rooms or room in without or getattr(here, room.value) is not None:
            continue
        if any(getattr(here, each.value) is None for each in needs_of(room, here.job)):
            continue
        if room in _SAID:
            tell(_SAID[room])
        try:
            setattr(here, room.value, make(here))
        except JobInvalid as invalid:
            here.faults[room] = invalid.faults
