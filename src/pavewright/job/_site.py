"""What stands on the site: walls, openings, drains, covers, trees, boundaries, services and the ground."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import (
    AlongWall,
    Assumed,
    Depth,
    Length,
    LevelOrPoint,
    LongWay,
    Millimetres,
    Name,
    NonNegativeLength,
    Part,
    Size,
    Text,
    Tolerance,
)
from pavewright.job._drains import Channel, Gully, Outfall, Rain
from pavewright.job._ground import Ground

_OR_POINT = "or the name of a point whose level it is, as read in a level book; none while it is not read."


class Opening(Part):
    """A door or low window in a wall, placed along the wall from its start."""

    name: Name
    along_mm: AlongWall = Field(description="From the start of the wall to the nearer jamb. [mm]")
    width_mm: Length = Field(description="Between the jambs. [mm]")
    threshold_level_mm: LevelOrPoint | None = Field(
        None, description=f"Level of the bottom of the door or window; {_OR_POINT} [mm]"
    )
    min_step_mm: NonNegativeLength = Field(
        0.0, description="Smallest step down from threshold to paving that is accepted. [mm]"
    )
    max_step_mm: Depth | None = Field(None, description="Greatest step down that is accepted. [mm]")


class AirBrick(Part):
    """A vent in a wall, placed along the wall from its start."""

    name: Name
    along_mm: AlongWall = Field(description="From the start of the wall to its middle. [mm]")
    underside_level_mm: LevelOrPoint | None = Field(None, description=f"Level of its lower edge; {_OR_POINT} [mm]")


class WallKind(StrEnum):
    """Whether a wall belongs to a house, and so has a damp-proof course to keep clear of, or stands in the garden."""

    HOUSE = "house"
    GARDEN = "garden"


class Wall(Part):
    """A wall that paving may meet. A house wall has a damp-proof course."""

    name: Name
    start: Name
    end: Name
    kind: WallKind | None = Field(
        None,
        description="House or garden wall. Where it is left out nobody has said, and it is taken for a house wall, which "
        "has to be kept clear of.",
    )
    dpc_level_mm: LevelOrPoint | None = Field(
        None,
        description="Level of the damp-proof course, or the name of a point whose level it is, as read in a level book; "
        "none on a house wall means that it was not read, and clearance below it is not checked. [mm]",
    )
    openings: tuple[Opening, ...] = ()
    air_bricks: tuple[AirBrick, ...] = ()

    @property
    def is_house(self) -> bool:
        """Whether it is a wall of a house, or may be one."""
        return self.kind is not WallKind.GARDEN


class Cover(Part):
    """An inspection-chamber cover in or near the paving."""

    name: Name
    point: Name = Field(description="Centre of the cover.")
    length_mm: Size = Field(description="Side along its bearing, over the frame. [mm]")
    width_mm: Size = Field(description="Side square to its bearing, over the frame. [mm]")
    bearing_deg: Annotated[float, Field(ge=0.0, lt=360.0)] = Field(
        0.0, description="Direction of its length, degrees clockwise from the y axis. [deg]"
    )
    level_mm: LevelOrPoint | None = Field(None, description=f"Level of its top now; {_OR_POINT} [mm]")
    fixed: bool = Field(description="Whether the frame cannot be raised or lowered.")
    tolerance_mm: Tolerance = Field(5.0, description="How far paving and cover may differ. [mm]")
    corner_levels_mm: Annotated[tuple[Millimetres, ...], Field(min_length=4, max_length=4)] | None = Field(
        None,
        description="Levels of its four corners, where they were read: looking along its bearing far left, near left, "
        "near right, far right. A fixed lid without them is taken to lie level. [mm]",
    )


class Obstacle(Part):
    """A post, pillar or bed that the paving is cut round: a circle of a diameter, or a rectangle."""

    name: Name
    point: Name
    diameter_mm: Size | None = Field(None, description="Of a round one. [mm]")
    length_mm: Size | None = Field(None, description="Of a rectangle, along its bearing. [mm]")
    width_mm: Size | None = Field(None, description="Of a rectangle, square to its bearing. [mm]")
    bearing_deg: Annotated[float, Field(ge=0.0, lt=360.0)] = Field(
        0.0, description="Direction of its length, degrees clockwise from the y axis. [deg]"
    )


class Tree(Part):
    """A tree whose roots the dig may meet."""

    name: Name
    point: Name
    stem_diameter_mm: Size = Field(description="Of the stem at breast height. [mm]")
    protected: bool | None = Field(None, description="Preservation order or conservation area; none means not known.")


class Neighbour(StrEnum):
    """Whose the land beyond a boundary is."""

    NEIGHBOUR = "neighbour"
    HIGHWAY = "highway"
    OWN = "own"


class Boundary(Part):
    """A line between this property and the next, or the road."""

    name: Name
    start: Name
    end: Name
    neighbour: Neighbour = Field(Neighbour.NEIGHBOUR, description="Whose the land beyond the line is.")
    top_level_mm: Millimetres | None = Field(None, description="Level of its top, where it was read. [mm]")
    assumed: Assumed | None = Field(
        None, description="Who takes that level to be so, and why; left out where it was read."
    )
    note: Text = ""


class Beyond(StrEnum):
    """What lies past an edge: it decides whether water may run over it."""

    OWN_PAVING = "own_paving"
    OWN_GROUND = "own_ground"
    NEIGHBOUR = "neighbour"
    HIGHWAY = "highway"
    NOT_KNOWN = "not_known"


class TieIn(Part):
    """An edge of existing paving that the new surface has to meet."""

    name: Name
    start: Name
    end: Name
    start_level_mm: LevelOrPoint | None = Field(
        None, description=f"Level of the existing paving at the start; {_OR_POINT} [mm]"
    )
    end_level_mm: LevelOrPoint | None = Field(
        None, description=f"Level of the existing paving at the end; {_OR_POINT} [mm]"
    )
    tolerance_mm: Tolerance = Field(3.0, description="How far new and existing paving may differ. [mm]")
    beyond: Beyond = Field(
        Beyond.NOT_KNOWN,
        description="What lies past it. Water over it is judged by that; where it is not known, by a boundary at the "
        "same edge. A footway and a road are the highway.",
    )


class ServiceKind(StrEnum):
    """What runs in a service."""

    ELECTRICITY = "electricity"
    GAS = "gas"
    WATER = "water"
    DRAIN = "drain"
    TELECOM = "telecom"
    OIL = "oil"
    UNKNOWN = "unknown"


class Service(Part):
    """A buried or overhead service that is known of. Unlisted does not mean absent."""

    name: Name
    kind: ServiceKind = Field(description="What runs in it; unknown where nobody can say.")
    points: tuple[Name, ...] = Field(min_length=1, max_length=200)
    depth_mm: NonNegativeLength | None = Field(None, description="Depth below the ground, where it is known. [mm]")
    known_from: Text = ""


class AnswerKind(StrEnum):
    """How a question of the walk round was answered."""

    VALUE = "value"
    NONE = "none"
    COULD_NOT_SEE = "could_not_see"


class WalkTopic(StrEnum):
    """What a question of the walk round the house is about, in the order in which a man walks."""

    SHAPE = "shape"
    WALLS = "walls"
    TAPES = "tapes"
    CURVES = "curves"
    DATUM = "datum"
    STAFF = "staff"
    DPC = "dpc"
    DOORS = "doors"
    AIR_BRICKS = "air_bricks"
    COVERS = "covers"
    GULLIES = "gullies"
    SERVICES = "services"
    GROUND = "ground"
    TREES = "trees"
    ACCESS = "access"
    PHOTOS = "photos"
    QUESTIONS = "questions"
    PAVING = "paving"
    PRICE = "price"


class WalkRoundAnswer(Part):
    """An answer to a question of the walk round the house: a value, none, or could not see."""

    topic: WalkTopic | None = Field(
        None, description="What the question is about; none where it is a question of one's own."
    )
    question: Text
    answer: AnswerKind = Field(description="A value, nothing there, or it could not be seen.")
    value: Text = ""


class Site(Part):
    """Everything that stands on the site or bounds it."""

    north_bearing_deg: Annotated[float, Field(ge=0.0, lt=360.0)] | None = Field(
        None,
        description="Direction of north, degrees clockwise from the y axis of the site grid; left out while nobody took it: "
        "drawings then say so. [deg]",
    )
    access_width_mm: Length | None = Field(None, description="Narrowest place on the way in. [mm]")
    carry_mm: LongWay | None = Field(
        None, description="Barrow run between the work and the skip, the lorry and where materials are set down. [mm]"
    )
    walls: tuple[Wall, ...] = Field((), max_length=200)
    outfalls: tuple[Outfall, ...] = Field((), max_length=50)
    gullies: tuple[Gully, ...] = Field((), max_length=100)
    channels: tuple[Channel, ...] = Field((), max_length=100)
    covers: tuple[Cover, ...] = Field((), max_length=100)
    obstacles: tuple[Obstacle, ...] = Field((), max_length=200)
    trees: tuple[Tree, ...] = Field((), max_length=200)
    boundaries: tuple[Boundary, ...] = Field((), max_length=200)
    tie_ins: tuple[TieIn, ...] = Field((), max_length=100)
    services: tuple[Service, ...] = Field((), max_length=200)
    ground: Ground = Ground()
    walk_round: tuple[WalkRoundAnswer, ...] = Field((), max_length=200)
    rain: Rain | None = Field(None, description="Rain of the place, for the storage of soakaways.")
