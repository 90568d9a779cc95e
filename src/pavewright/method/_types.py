"""What the method room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.method._vibration import REFERENCE_H, points

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.cost import HireKey
    from pavewright.earthworks import Spread
    from pavewright.job import PlantKind
    from pavewright.method._figures import MethodFigures
    from pavewright.quantities import ItemKey
    from pavewright.rules import Figure
    from pavewright.sums import Working


class LiftWay(StrEnum):
    """How something is lifted, by its weight alone."""

    ONE = "one"
    TWO = "two"
    AID = "aid"
    NOT_KNOWN = "not_known"


@dataclass(frozen=True, slots=True)
class Lifted:
    """Something that is lifted on this job.

    Attributes:
        key: The item or the machine.
        description: In words.
        each: What one of it is, in words ("bag of 25 kg").
        kg: What one weighs; None where it is not known. [kg]
        count: How many of them; None where they are not counted. [-]
        way: How it is lifted, by its weight alone.
    """

    key: ItemKey | HireKey
    description: str
    each: str
    kg: float | None
    count: float | None
    way: LiftWay


@dataclass(frozen=True, slots=True)
class LiftPlan:
    """What is lifted, and the guideline weights by which it is sorted.

    Attributes:
        things: What is lifted, heaviest first, what is not known at the end.
        one_kg: Guideline weight for one person.
        two_kg: The sum behind that for two.
    """

    things: tuple[Lifted, ...]
    one_kg: Figure
    two_kg: Working


@dataclass(frozen=True, slots=True)
class LiftRate:
    """How often units are lifted on the day on which most are laid.

    Attributes:
        on: The day.
        pieces: Pieces laid on it. [-]
        kg: Their mass. [kg]
        heaviest_kg: The heaviest piece of the areas laid then. [kg]
        people: Hands on it. [-]
        lifts: Lifts that these pieces take from the pack to the bed: low, likely, high.
        per_person_h: Lifts of each person in an hour, at the likely number. [1/h]
        one_kg: The sum behind the guideline weight for one person at that rate.
    """

    on: dt.date
    pieces: float
    kg: float
    heaviest_kg: float
    people: int
    lifts: Spread
    per_person_h: Working
    one_kg: Working


@dataclass(frozen=True, slots=True)
class Dust:
    """How long the blade is in the stone.

    Attributes:
        cuts: Pieces to cut, those along folds too.
        saw_m: Length of all saw cuts. [m]
        minutes: The blade in the stone, over the whole job. [min]
        days: Days on which the programme cuts; 0 where it has no dates for it.
        busiest_min: On the day on which most is cut; all of it where no dates are known. [min]
        water_l: Water on the blade over the whole job, at the flow of the rulebook. [l]
        working: The sum behind the minutes.
        water: The sum behind the water.
    """

    cuts: int
    saw_m: float
    minutes: Spread
    days: int
    busiest_min: Spread
    water_l: float
    working: Working
    water: Working


class ToolVerdict(StrEnum):
    """How a day with one tool stands to the values of the rulebook; nothing of it says that the day is safe."""

    NOT_KNOWN = "not_known"
    OVER_LIMIT = "over_limit"
    OVER_ACTION = "over_action"
    BELOW_ACTION = "below_action"


@dataclass(frozen=True, slots=True)
class ToolUse:
    """A tool that shakes hands or deafens, in one person's hands on the day on which it is used most.

    Attributes:
        kind: Which tool.
        key: Place of it among the plant; None where none is listed and the work needs one all the same.
        minutes: How long it is used on that day; None where nobody can say. [min]
        bound: Whether those minutes are an upper bound: the whole time of the work that it serves.
        vibration_m_per_s2: At the hands, as entered; None where it is not known. [m/s²]
        points: Points of exposure at those minutes; None where either is not known.
        to_action_min: How long it may run alone to the action value; None where its vibration is not known. [min]
        to_limit_min: How long to the limit. [min]
        vibration: How the day stands by it.
        noise_db: At the ear, as entered; None where it is not known. [dB(A)]
        noise_day_db: Exposure of the day by this tool alone; None where it is not known. [dB(A)]
        noise: How the day stands by it, without hearing protection.
        workings: The sums behind the points and the noise.
    """

    kind: PlantKind
    key: HireKey | None
    minutes: Spread | None
    bound: bool
    vibration_m_per_s2: float | None
    points: Spread | None
    to_action_min: float | None
    to_limit_min: float | None
    vibration: ToolVerdict
    noise_db: float | None
    noise_day_db: float | None
    noise: ToolVerdict
    workings: tuple[Working, ...]


@dataclass(frozen=True, slots=True)
class PublicEdge:
    """A footway or a road beside the work.

    Attributes:
        name: Its name on the plan.
        away_mm: From it to the dig, in plan. [mm]
        near: Whether that is near enough to be fenced off.
    """

    name: str
    away_mm: float
    near: bool


@dataclass(frozen=True, slots=True)
class Method:
    """What the work does to people, and how near it comes to what hurts them.

    Attributes:
        lifts: What is lifted.
        rate: How often units are lifted; None where no dates are known, or nothing is laid.
        dust: How long a saw is in the stone; None where nothing is cut.
        tools: Tools that shake hands or deafen.
        public: Footways and roads on the plan, nearest first; empty where none is entered.
        public_known: Whether somebody entered what lies beyond the site at all.
        cement_kg: Cement and cement-based bond coat that are ordered. [kg]
        wet_mixes: Whether mortar or concrete is laid.
        figures: The figures by which all of it is judged.
    """

    lifts: LiftPlan
    rate: LiftRate | None
    dust: Dust | None
    tools: tuple[ToolUse, ...]
    public: tuple[PublicEdge, ...]
    public_known: bool
    cement_kg: float
    wet_mixes: bool
    figures: MethodFigures

    @property
    def limit_points(self) -> float:
        """Points of a day at the limit value of vibration, where the action value has a hundred. [-]."""
        known = self.figures
        return points(known.vibration_limit_m_per_s2.value, REFERENCE_H, known.vibration_action_m_per_s2.value)

    @property
    def points_together(self) -> float | None:
        """Points at the longest times where one person works all tools on one day; None where one is not known."""
        scored = [each.points.high for each in self.tools if each.points is not None]
        return sum(scored) if scored and len(scored) == len(self.tools) else None
