"""What was measured: points, tapes and offsets, with all that was read on the visit."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import (
    Accuracy,
    Along,
    Assumed,
    Depth,
    Length,
    Millimetres,
    Name,
    Offset,
    Part,
    Place,
    Text,
)
from pavewright.job._levels_read import Benchmark, HeightOver, LevelBook, MisclosureRule, StaffOn


class GivenPoint(Part):
    """A named point whose place in plan is known: from a drawing, a plan survey or a chosen grid."""

    name: Name
    x_mm: Place = Field(description="East on the site grid. [mm]")
    y_mm: Place = Field(description="North on the site grid. [mm]")
    level_mm: Millimetres | None = Field(None, description="Level above the job's datum, where it is known. [mm]")
    place_sd_mm: Annotated[Depth, Field(le=10_000.0)] | None = Field(
        None,
        description="How far its place is trusted, where it was put on the sketch by eye or taken from a photo: standard "
        "deviation either way; none where the place is known. [mm]",
    )
    by_photo: Name | None = Field(
        None, description="The photo from which its place was taken; none where it was found in another way."
    )
    assumed: Assumed | None = Field(None, description="Who takes that level to be so, and why; none where it was read.")
    note: Text = ""


class SketchedPoint(Part):
    """A point of the sketch that a finger drew, in millimetres by a guessed scale: a place only until it is measured.

    The sketch may stand turned, shifted and at another scale; left and right are as seen from above.
    """

    name: Name
    x_mm: Millimetres = Field(description="To the right on the sketch, by its guessed scale. [mm]")
    y_mm: Millimetres = Field(description="Up on the sketch, by its guessed scale. [mm]")


class OffsetPoint(Part):
    """A named point measured along a line and square off it, to the left looking from start to end."""

    name: Name
    line_from: Name
    line_to: Name
    along_mm: Along = Field(description="From the start along the line, negative behind it. [mm]")
    offset_mm: Offset = Field(description="Square off the line, positive to the left. [mm]")
    note: Text = ""


class Tape(Part):
    """One taped distance between two points, held level."""

    start: Name
    end: Name
    length_mm: Length = Field(description="As read off the tape. [mm]")
    sd_mm: Accuracy | None = Field(
        None, description="Standard deviation of this tape; the rulebook's where none is given. [mm]"
    )


class CurveOffset(Part):
    """One place of a curved edge: how far along its chord, and how far square off it to the left."""

    along_mm: Millimetres = Field(description="From the start along the chord. [mm]")
    offset_mm: Millimetres = Field(description="Square off the chord, positive to the left. [mm]")


class MeasuredCurve(Part):
    """A curved edge between two points, measured by offsets from the straight line between them, its chord."""

    name: Name
    line_from: Name
    line_to: Name
    offsets: tuple[CurveOffset, ...] = Field(min_length=1, max_length=500)
    one_arc: bool = Field(
        default=False,
        description="Whether the edge is one arc of a circle from end to end: its rise is then fitted to all offsets, and "
        "an outline can follow it. A free edge is drawn through points that are measured off the same chord.",
    )
    note: Text = ""


class Hand(StrEnum):
    """Left or right of somebody who stands at the start of a line and looks to its end."""

    LEFT = "left"
    RIGHT = "right"

    @property
    def other(self) -> Hand:
        """The other hand."""
        return Hand.RIGHT if self is Hand.LEFT else Hand.LEFT


class TapeSide(Part):
    """On which side of a line a taped point lies, looking from start to end: tapes alone leave two places."""

    point: Name
    line_from: Name
    line_to: Name
    side: Hand = Field(description="Left or right of who stands at the start of the line and looks to its end.")


class SquareCorner(Part):
    """A corner that was found or set square: seen from it, two points lie at a right angle."""

    at: Name
    first: Name
    second: Name
    sd_mm: Accuracy | None = Field(
        None,
        description="Accuracy: standard deviation at the end of the shorter leg; the rulebook's where none is "
        "given. [mm]",
    )


class PointOnLine(Part):
    """A point that stands on the straight line through two others, as on the face of a wall."""

    point: Name
    line_from: Name
    line_to: Name
    sd_mm: Accuracy | None = Field(
        None, description="Accuracy: standard deviation off the line; the rulebook's where none is given. [mm]"
    )


class TapePlan(Part):
    """Points fixed by tapes. The base line runs from its start point in the stated direction.

    The start stands at x_mm, y_mm; the end lies at the taped distance in the direction bearing_deg.
    """

    base_from: Name
    base_to: Name
    x_mm: Place = Field(0.0, description="East of the start of the base line. [mm]")
    y_mm: Place = Field(0.0, description="North of the start of the base line. [mm]")
    bearing_deg: Annotated[float, Field(ge=0.0, lt=360.0)] = Field(
        90.0, description="Direction of the base line, degrees clockwise from the y axis. [deg]"
    )
    tapes: tuple[Tape, ...] = Field(max_length=2000)
    sides: tuple[TapeSide, ...] = Field((), max_length=2000)
    square_corners: tuple[SquareCorner, ...] = Field((), max_length=500)
    points_on_lines: tuple[PointOnLine, ...] = Field((), max_length=500)


class BreakLine(Part):
    """A line along which the ground breaks: the foot or the top of a bank, a kerb, the foot of a wall."""

    points: tuple[Name, ...] = Field(min_length=2, max_length=2000)
    note: Text = ""


class GroundGap(Part):
    """A place where there is no ground to be measured, such as a house or a pond: the points round it."""

    points: tuple[Name, ...] = Field(min_length=3, max_length=2000)
    note: Text = ""


class Measurements(Part):
    """Everything that was measured on the visit, as it was read."""

    datum: Text = Field("job datum", description="What level zero or the benchmark means, in words.")
    points: tuple[GivenPoint, ...] = Field((), max_length=20000)
    offsets: tuple[OffsetPoint, ...] = Field((), max_length=20000)
    tape_plan: TapePlan | None = None
    sketch: tuple[SketchedPoint, ...] = Field(
        (),
        max_length=120,
        description="The sketch that a finger drew: it gives points a place until they are measured, and says on which side "
        "of a line a taped point lies where nothing else does.",
    )
    curves: tuple[MeasuredCurve, ...] = Field((), max_length=500)
    benchmarks: tuple[Benchmark, ...] = Field((), max_length=200)
    level_books: tuple[LevelBook, ...] = Field((), max_length=200)
    heights_over: tuple[HeightOver, ...] = Field((), max_length=2000)
    misclosure_rule: MisclosureRule = Field(
        MisclosureRule.SETUPS,
        description="Greatest misclosure of a level book: by the root of its set-ups, of its distance, or of its distance as "
        "in third-order levelling.",
    )
    levels_together: bool = Field(
        default=False,
        description="Whether all level books and heights are adjusted together by least squares, every reading weighed, "
        "instead of each run by itself.",
    )
    ground_points: tuple[Name, ...] = Field(
        (), max_length=20000, description="Names of the points that are spot levels of the existing ground."
    )
    break_lines: tuple[BreakLine, ...] = Field((), max_length=500)
    ground_gaps: tuple[GroundGap, ...] = Field((), max_length=100)

    @property
    def ground_spots(self) -> tuple[Name, ...]:
        """The points that are spot levels of the ground: those listed, and those where the staff stood on the ground."""
        read = (row.point for book in self.level_books for row in book.rows if row.on is StaffOn.GROUND)
        return tuple(dict.fromkeys((*self.ground_points, *read)))
