"""What the pipeline hands on: a whole plan, or a plan as far as what is known, with what is missing."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.job import Folding

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.as_laid import AsLaidReport
    from pavewright.bedding import BeddingReport
    from pavewright.buildup import BuildUps
    from pavewright.cost import Cost, LabourTask
    from pavewright.earthworks import Earthworks
    from pavewright.findings import Finding
    from pavewright.firm import BookUsed
    from pavewright.hold_points import HoldPoints
    from pavewright.job import Fault, Job
    from pavewright.laying import LayingPlan
    from pavewright.levels import Levels
    from pavewright.pipeline._offered_types import Offered
    from pavewright.programme import Programme
    from pavewright.quantities import Quantities
    from pavewright.setting_out import SettingOut
    from pavewright.survey import Survey
    from pavewright.water import Water


@dataclass(frozen=True)
class Plan:
    """Everything that follows from a job and a rulebook.

    Attributes:
        job: The job document.
        edition: Edition of the rulebook.
        survey: What was measured, adjusted.
        levels: Finished levels.
        laying: Every unit with its place.
        build_ups: Layers and formation.
        earthworks: Cut, fill and what leaves.
        water: Where water runs.
        quantities: Measured items.
        cost: From cost to price.
        programme: Tasks with dates.
        setting_out: Pegs, strings and tapes.
        hold_points: Where work stops until somebody has looked, and what was read there.
        bedding: Units and bags read while they are laid; None where there are none.
        as_laid: Readings checked against the plan; None where there are none.
        findings: What every room noticed, stop first.
        book: What it takes from the firm's book; None where there is none.
        offered: Options for the customer, each as a difference to the price.
    """

    job: Job
    edition: str
    survey: Survey
    levels: Levels
    laying: LayingPlan
    build_ups: BuildUps
    earthworks: Earthworks
    water: Water
    quantities: Quantities
    cost: Cost
    programme: Programme
    setting_out: SettingOut
    hold_points: HoldPoints
    bedding: BeddingReport | None
    as_laid: AsLaidReport | None
    findings: tuple[Finding, ...]
    book: BookUsed | None = None
    offered: tuple[Offered, ...] = ()

    @property
    def whole(self) -> Plan:
        """The plan itself: who takes a plan as far as it goes takes a whole one too."""
        return self

    def with_rooms(self, _rooms: Iterable[Room]) -> Plan:
        """Return the plan itself: it has every room."""
        return self


class Room(StrEnum):
    """A room of the plan, by the name of its field."""

    SURVEY = "survey"
    LEVELS = "levels"
    LAYING = "laying"
    BUILD_UPS = "build_ups"
    EARTHWORKS = "earthworks"
    WATER = "water"
    QUANTITIES = "quantities"
    LABOUR = "labour"
    COST = "cost"
    PROGRAMME = "programme"
    SETTING_OUT = "setting_out"
    HOLD_POINTS = "hold_points"
    BEDDING = "bedding"
    AS_LAID = "as_laid"


class MissingCode(StrEnum):
    """What a job does not know, in the order in which one goes round a house and then sits down to price it."""

    READINGS = "readings"
    SHAPE = "shape"
    TAPE = "tape"
    SIDE = "side"
    AREA = "area"
    HEIGHT = "height"
    DPC = "dpc"
    THRESHOLD = "threshold"
    AIR_BRICK = "air_brick"
    COVER = "cover"
    EDGE = "edge"
    OUTFALL = "outfall"
    GROUND = "ground"
    SOIL = "soil"
    TOPSOIL = "topsoil"
    CARRY = "carry"
    FALL = "fall"
    UNIT = "unit"
    LAYOUT = "layout"
    LABOUR_PRICE = "labour_price"
    PRICES = "prices"
    OVERHEAD = "overhead"
    MARGIN = "margin"
    TAX = "tax"
    PEOPLE = "people"
    START = "start"


@dataclass(frozen=True, slots=True)
class Missing:
    """Something that the job does not know, or readings that contradict each other.

    Attributes:
        code: What it is.
        place: Name of the point, area, wall, door, cover, edge or outfall; empty where it belongs to the whole job.
        path: Where it stands in the job document; empty where it has no place there yet.
        stage: Key of the stage at which it is filled in.
        words: What to measure, see or enter, in a sentence.
        rooms: Rooms that are not made while it is missing; none where they are made and say that it is not known.
    """

    code: MissingCode
    place: str
    path: str
    stage: str
    words: str
    rooms: tuple[Room, ...] = ()


@dataclass(frozen=True)
class PlanSoFar:
    """A plan as far as what is known: each room, or None where too little is known for it.

    Attributes:
        job: The job document.
        edition: Edition of the rulebook.
        survey: What was measured, adjusted; places that could not be found are left out of it.
        levels: Finished levels.
        laying: Every unit with its place.
        build_ups: Layers and formation.
        earthworks: Cut, fill and what leaves.
        water: Where water runs.
        quantities: Measured items; units alone where nothing is known of what lies under them, and its gaps say so.
        labour: Work in hours.
        programme: Tasks with dates.
        cost: From cost to price.
        setting_out: Pegs, strings and tapes.
        hold_points: Where work stops until somebody has looked, and what was read there.
        bedding: Units and bags read while they are laid; None also where there are none.
        as_laid: Readings checked against the plan; None also where there are none.
        findings: What every room noticed, stop first.
        missing: What is not known, what to measure next first.
        faults: Readings that contradict each other, of the first room that they stop.
        book: What it takes from the firm's book; None where there is none.
        offered: Options for the customer, each as a difference to the price.
    """

    job: Job
    edition: str
    survey: Survey
    levels: Levels | None
    laying: LayingPlan | None
    build_ups: BuildUps | None
    earthworks: Earthworks | None
    water: Water | None
    quantities: Quantities | None
    labour: tuple[LabourTask, ...] | None
    programme: Programme | None
    cost: Cost | None
    setting_out: SettingOut | None
    hold_points: HoldPoints | None
    bedding: BeddingReport | None
    as_laid: AsLaidReport | None
    findings: tuple[Finding, ...]
    missing: tuple[Missing, ...]
    faults: tuple[Fault, ...]
    book: BookUsed | None = None
    offered: tuple[Offered, ...] = ()

    def has(self, rooms: Iterable[Room]) -> bool:
        """Return whether all of some rooms are made."""
        return all(getattr(self, room.value) is not None for room in rooms)

    @property
    def whole(self) -> Plan | None:
        """The plan with every room; None where a room is not made."""
        return self.with_rooms(WHOLE)

    def with_rooms(self, rooms: Iterable[Room]) -> Plan | None:
        """Return the plan for who asks for some rooms only, and for no others; None where one of them is not made."""
        if not self.has(rooms):
            return None
        made = {name: getattr(self, name) for name in Plan.__dataclass_fields__}
        return Plan(**made)

    def why_not(self, rooms: Iterable[Room]) -> tuple[Missing, ...]:
        """Return what is missing for rooms that are not made, what to do first first."""
        wanted = {room for asked in rooms for room in (asked, *leans_on(asked, self.job))}
        return tuple(each for each in self.missing if wanted.intersection(each.rooms))


NEEDS: dict[Room, tuple[Room, ...]] = {
    Room.SURVEY: (),
    Room.LEVELS: (Room.SURVEY,),
    Room.LAYING: (Room.SURVEY,),
    Room.BUILD_UPS: (Room.LEVELS,),
    Room.EARTHWORKS: (Room.BUILD_UPS, Room.LAYING),
    Room.WATER: (Room.LEVELS,),
    Room.QUANTITIES: (Room.LAYING,),
    Room.LABOUR: (Room.QUANTITIES, Room.EARTHWORKS, Room.WATER),
    Room.PROGRAMME: (Room.LABOUR,),
    Room.COST: (Room.LABOUR,),
    Room.SETTING_OUT: (Room.BUILD_UPS,),
    Room.HOLD_POINTS: (Room.SETTING_OUT,),
    Room.BEDDING: (Room.LAYING, Room.BUILD_UPS, Room.QUANTITIES),
    Room.AS_LAID: (Room.LEVELS,),
}
"""The rooms that each room leans on, in the order in which they are made."""
WHOLE = tuple(room for room in Room if room not in (Room.BEDDING, Room.AS_LAID))
"""The rooms of a whole plan; readings as laid come later."""


def needs_of(room: Room, job: Job | None = None) -> tuple[Room, ...]:
    """Return the rooms that a room leans on in any job, or in one: units cut to folds or steps wait for the levels."""
    waits = job is not None and room is Room.LAYING and is_cut_to_levels(job)
    return (*NEEDS[room], Room.LEVELS) if waits else NEEDS[room]


def is_cut_to_levels(job: Job) -> bool:
    """Return whether folds or flights of steps take part of the paving, so that its units hang on its levels."""
    return bool(job.steps) or any(area.fall.folding is not Folding.ONE_PLANE for area in job.areas)


def leans_on(room: Room, job: Job | None = None) -> tuple[Room, ...]:
    """Return all rooms that a room leans on, near and far."""
    return tuple(each for near in needs_of(room, job) for each in (near, *leans_on(near, job)))
