"""What is to be paved, and with what."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Joint, Length, Millimetres, Name, Offset, Part, Text
from pavewright.job._base_rule import BaseDesign, BaseRule, PermeableBase
from pavewright.job._edges import EdgeSide
from pavewright.job._measured import Hand
from pavewright.job._mixed_pack import MixedPack
from pavewright.job._pattern_traits import Pattern


class Use(StrEnum):
    """What runs on the paving."""

    FOOT = "foot"
    CAR = "car"
    LIGHT_VAN = "light_van"


class Position(StrEnum):
    """Where the paving lies about the house: fronts have rules of their own."""

    FRONT = "front"
    SIDE = "side"
    REAR = "rear"


class Bedding(StrEnum):
    """How units are carried."""

    MORTAR_ON_CONCRETE = "mortar_on_concrete"
    MORTAR_ON_SUB_BASE = "mortar_on_sub_base"
    SAND_ON_SUB_BASE = "sand_on_sub_base"


class BorderKind(StrEnum):
    """How units stand in a border: length square to the side (soldiers, headers) or along it (stretchers, sailors)."""

    SOLDIER = "soldier"
    STRETCHER = "stretcher"


class BorderCorner(StrEnum):
    """How a border turns a corner: cut to the mitre, or one side run through and the next butted against it."""

    MITRED = "mitred"
    BUTTED = "butted"


class StartCorner(StrEnum):
    """Where laying starts, seen along the courses: near or far course, left or right end."""

    NEAR_LEFT = "near_left"
    NEAR_RIGHT = "near_right"
    FAR_LEFT = "far_left"
    FAR_RIGHT = "far_right"


class Folding(StrEnum):
    """How a surface is folded into planes."""

    ONE_PLANE = "one_plane"
    TO_HOUSE = "to_house"
    VALLEY = "valley"
    CROSSED_VALLEY = "crossed_valley"
    TO_GULLY = "to_gully"
    RIDGE = "ridge"
    MITRE = "mitre"
    STEPPED = "stepped"
    CHEAPEST = "cheapest"


class OutlineCorner(Part):
    """A corner of an outline and the side that leaves it for the next corner.

    An outline may be written either way round, clockwise or anticlockwise; it closes by itself. What names a side by the
    corner from which it leaves (edges, steps) names another side once the outline is turned round.
    """

    point: Name
    rise_mm: Offset = Field(
        0.0,
        description="Rise of an arc at mid-chord of the side leaving this corner: positive bulges out of the area, "
        "negative into it; zero is straight. [mm]",
    )
    through: Name | None = Field(None, description="A point of the arc to the next corner, instead of its rise.")
    centre: Name | None = Field(
        None, description="Centre of the arc to the next corner, the shorter way round, instead of its rise."
    )
    curve: Name | None = Field(
        None, description="Name of the measured curve that the side to the next corner follows, instead of its rise."
    )

    @property
    def is_curved(self) -> bool:
        """Whether the side to the next corner is an arc or a measured curve."""
        return bool(self.rise_mm) or any(each is not None for each in (self.through, self.centre, self.curve))


class FallWish(Part):
    """How the surface is to fall, if the user fixes it.

    Give the direction of the main fall either as a bearing or as "away from" a wall; a cross fall runs square to it,
    positive to the right looking downhill.
    """

    away_from: Name | None = Field(None, description="Wall from which the surface falls, square to it.")
    bearing_deg: Annotated[float, Field(ge=0.0, lt=360.0)] | None = Field(
        None, description="Direction of the main fall, degrees clockwise from the y axis. [deg]"
    )
    one_in: Annotated[float, Field(ge=5.0, le=1000.0)] | None = Field(
        None, description="n of 1 in n for the main fall; the rulebook's where none is given. [1 in n]"
    )
    cross_one_in: Annotated[float, Field(ge=5.0, le=1000.0)] | None = Field(
        None, description="n of 1 in n for the cross fall. [1 in n]"
    )
    cross_to: Hand = Field(Hand.RIGHT, description="To which side the cross fall runs, looking downhill.")
    folding: Folding = Field(
        Folding.ONE_PLANE,
        description="How the surface is folded: one plane with the falls asked for, or planes whose levels are designed, "
        "each falling one_in or steeper. cheapest tries every folding and takes the cheapest one that drains.",
    )
    gully: Name | None = Field(
        None, description="Gully to which the folds lead; else the first one that stands in the area."
    )
    steepest_one_in: Annotated[float, Field(ge=5.0, le=1000.0)] | None = Field(
        None, description="n of 1 in n that no folded plane may be steeper than; else the rulebook's. [1 in n]"
    )
    valley_one_in: Annotated[float, Field(ge=5.0, le=1000.0)] | None = Field(
        None, description="n of 1 in n for the smallest fall along a valley; else the rulebook's. [1 in n]"
    )
    level_at: Name | None = Field(None, description="Point at which the finished level is fixed by the user.")
    level_mm: Millimetres | None = Field(None, description="Finished level at that point. [mm]")


class Border(Part):
    """Courses that run round the outline, the pattern inside them."""

    kind: BorderKind = BorderKind.SOLDIER
    courses: Annotated[int, Field(ge=1, le=5)] = Field(1, description="How many courses run round.")
    unit: Name | None = Field(None, description="Unit of the border; else the unit of the area.")
    corner: BorderCorner = BorderCorner.MITRED
    tapered: bool = Field(
        default=False,
        description="Whether units round a curve are cut to a taper, so that their joints stay as wide as they are asked "
        "for from end to end.",
    )
    stretch_joints: bool = Field(
        default=False,
        description="Whether joints along a straight side are made a little wider or narrower, within what the unit takes, "
        "so that the side ends in a whole unit.",
    )


class Laying(Part):
    """How units are laid."""

    unit: Name | None = Field(None, description="Unit that is laid; left out while none is chosen.")
    pattern: Pattern = Pattern.STACK
    border: Border | None = Field(None, description="Border round the outline; none where it is left out.")
    course_units: Annotated[tuple[Name, ...], Field(max_length=8)] = Field(
        (),
        description="Units of coursed laying besides the unit of the area: every course takes one of them. "
        "Of mixed laying, the other units of the pack.",
    )
    pack: MixedPack | None = Field(None, description="What one pack holds, for mixed laying.")
    mix: Annotated[int, Field(ge=0, le=9999)] = Field(
        0,
        description="Which of the possible mixes of coursed or mixed laying; the same number always gives the same mix.",
    )
    stagger: Annotated[float, Field(ge=0.0, lt=1.0)] = Field(
        0.5, description="Shift of each course against the last in running bond, as a part of a unit and joint. [-]"
    )
    along: Annotated[tuple[Name, Name], Field(min_length=2, max_length=2)] | None = Field(
        None, description="Two points along which the courses run; else bearing_deg holds."
    )
    bearing_deg: Annotated[float, Field(ge=0.0, lt=360.0)] = Field(
        90.0, description="Direction in which the courses run, degrees clockwise from the y axis. [deg]"
    )
    turn_deg: Annotated[float, Field(ge=-180.0, le=180.0)] = Field(
        0.0, description="Turn of the courses against that direction, clockwise; 45 lays diagonally. [deg]"
    )
    joint_mm: Annotated[Joint, Field(le=50.0)] = Field(10.0, description="Width of the joints. [mm]")
    origin: Name | None = Field(
        None, description="Point at which a unit has its corner; else the starting corner of the area."
    )
    centre_radius_mm: Length | None = Field(
        None,
        description="Of rings about their origin: from the centre to the inner side of the first ring; else the smallest at "
        "which a unit keeps its joints. What lies inside is laid straight. [mm]",
    )
    shift_along_mm: Offset = Field(0.0, description="Shift of the first unit along the courses. [mm]")
    shift_across_mm: Offset = Field(0.0, description="Shift of the first unit across the courses. [mm]")
    start_corner: StartCorner = StartCorner.NEAR_LEFT
    bedding: Bedding = Bedding.MORTAR_ON_CONCRETE
    factory_edges: bool = Field(
        default=False,
        description="Whether edges that lie in joints keep the edge that the unit was made with, so that sawn edges come "
        "to lie at the outline only; it costs units, and how many is shown.",
    )
    split_corners: bool = Field(
        default=False,
        description="Whether a piece with an inner corner is laid as two with a joint at the corner, so that no cut stops "
        "inside a unit; pieces stay in one where splitting them would leave a sliver.",
    )
    fill_narrow: bool = Field(
        default=False,
        description="Whether pieces, or arms of pieces, that are too narrow to be cut and laid are left out and their "
        "room is filled with mortar.",
    )
    wall_joint_mm: Joint = Field(0.0, description="Gap kept between units and the outline of the area. [mm]")

    @property
    def laid_units(self) -> tuple[str, ...]:
        """Names of its units, that of the area first; nothing while none is chosen."""
        return () if self.unit is None else (self.unit, *self.course_units)


class Zone(Part):
    """A part of an area that is laid in its own way: an inlay, or all that lies beyond a line.

    Give its outline, or a circle, or a line. It lies on the surface and the bed of its area.
    """

    name: Name
    outline: Annotated[tuple[OutlineCorner, ...], Field(max_length=2000)] = Field((), description="Its corners.")
    circle_at: Name | None = Field(None, description="Centre of a round one.")
    radius_mm: Length | None = Field(None, description="Of a round one. [mm]")
    beyond: Annotated[tuple[Name, Name], Field(min_length=2, max_length=2)] | None = Field(
        None, description="Two points of a line: what lies to its left, looking from the first to the second."
    )
    laying: Laying


class GroundCover(StrEnum):
    """What the ground bears before the job."""

    GARDEN = "garden"
    PATH = "path"
    PAVING = "paving"


class Area(Part):
    """An area to be paved on one surface, in one way but for its zones."""

    name: Name
    outline: tuple[OutlineCorner, ...] = Field(min_length=2, max_length=2000)
    holes: tuple[Annotated[tuple[OutlineCorner, ...], Field(min_length=2, max_length=2000)], ...] = Field(
        (), max_length=100
    )
    use: Use = Use.FOOT
    base_rule: BaseRule = Field(
        BaseRule.OWN,
        description="Whose rule gives the thickness of what lies under the bed; where another says nothing of this use, bed "
        "or ground, the rulebook's own holds and a finding says so.",
    )
    base_design: BaseDesign | None = Field(
        None, description="What lies under the bed as designed for this ground; it holds where base_rule is designed."
    )
    permeable: PermeableBase | None = Field(
        None, description="What permeable paving has to know; it holds where base_rule is permeable."
    )
    before: GroundCover = Field(
        GroundCover.GARDEN, description="What the ground bears before the job, for the rain that ran off it."
    )
    accessible: bool = Field(default=False, description="Whether a wheelchair or a pram has to get over it in comfort.")
    position: Position = Position.REAR
    fall: FallWish = FallWish()
    laying: Laying = Laying()
    zones: tuple[Zone, ...] = Field((), max_length=20, description="Parts that are laid in their own way.")
    edges: tuple[EdgeSide, ...] = Field((), max_length=2000)
    note: Text = ""


class StepFlight(Part):
    """A flight of steps between two areas along a side of the upper one, named by the corner from which it leaves.

    The upper area ends at the face of the top riser, on that side. The treads run from there into the lower area, whose
    outline includes the ground under them.
    """

    name: Name
    upper_area: Name
    lower_area: Name
    corner: Name = Field(
        description="Corner of the upper area from which the side with the steps leaves, as its outline is written."
    )
    risers: Annotated[int, Field(ge=1, le=30)] | None = Field(
        None, description="How many; worked out from the levels where none is given."
    )
    going_mm: Length = Field(300.0, description="Length of a tread in plan. [mm]")
