"""What the as-laid check hands on of the surface: bays, profiles, gaps, lips, joints and movement since."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.as_laid._regimes import Limit
    from pavewright.as_laid._verdicts import Verdict
    from pavewright.as_laid.movement import Datum, Moved
    from pavewright.as_laid.planes import BentPlane, RobustPlane
    from pavewright.geometry import XY, Plane


class BayState(StrEnum):
    """What a bay is, against what it should be; more than one may hold."""

    AS_DESIGNED = "as_designed"
    FLAT_BY_DESIGN = "flat_by_design"
    OFF_DESIGN = "off_design"
    MOVED_SINCE = "moved_since"
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class BayAsLaid:
    """A bay as laid: a part of an area that was laid as one plane, between folds and movement joints.

    Attributes:
        area: Name of its area.
        number: Its number in the area, from 1.
        outline: Its outline. [mm]
        planned: Plane that was planned.
        readings: Labels of the readings on it.
        fit: Plane through the readings, without those that the others contradict; None with too few of them.
        out: Labels of the readings that the others contradict.
        fall: Fall found along the planned direction; None without a plane. [rise over run]
        fall_sd: Standard deviation of that; None likewise. [rise over run]
        planned_fall: Fall planned. [rise over run]
        turned_deg: By how much its steepest fall turns clockwise from the planned one; None where either is level or
            not known. [deg]
        farthest_at: Corner at which the plane found lies farthest off the planned one; None without a plane. [mm]
        farthest_mm: How far it lies off there, high positive; None likewise. [mm]
        farthest_sd_mm: Standard deviation of that; None likewise. [mm]
        twist: Twist of the bay; None where the readings show none.
        is_plane_off: Whether the plane found departs from the planned one, not single readings alone.
        states: What it is; one at least.
        read_at: Places of the readings on it, in the order of their labels. [mm]
    """

    area: str
    number: int
    outline: tuple[XY, ...]
    planned: Plane
    readings: tuple[str, ...]
    fit: RobustPlane | None
    out: tuple[str, ...]
    fall: float | None
    fall_sd: float | None
    planned_fall: float
    turned_deg: float | None
    farthest_at: XY | None
    farthest_mm: float | None
    farthest_sd_mm: float | None
    twist: BentPlane | None
    is_plane_off: bool
    states: tuple[BayState, ...]
    read_at: tuple[XY, ...] = ()

    @property
    def key(self) -> tuple[str, int]:
        """Area and number of the bay."""
        return self.area, self.number


@dataclass(frozen=True)
class ProfileAsLaid:
    """A row of readings along which a straight edge was rolled.

    Attributes:
        area: Name of the area.
        bay: Number of its bay.
        labels: Its readings in turn.
        places: Where they are. [mm]
        off_mm: How far each lies above the plan. [mm]
        edge_mm: Length of the edge. [mm]
        gap_mm: Largest gap found under it at a reading. [mm]
        gap_sd_mm: Standard deviation of that gap. [mm]
        contacts: Labels of the readings on which it lay then; None where there is no gap.
        lowest: Label of the reading with the gap; None likewise.
        widest_mm: Widest way between two readings. [mm]
        sees_between: Whether readings stand so close that what lies between is known.
        limit: What the gap is held to.
        verdict: Fails where the readings show it; passes only where what lies between is known; None where the regime
            has no such edge.
    """

    area: str
    bay: int
    labels: tuple[str, ...]
    places: tuple[XY, ...]
    off_mm: tuple[float, ...]
    edge_mm: float
    gap_mm: float
    gap_sd_mm: float
    contacts: tuple[str, str] | None
    lowest: str | None
    widest_mm: float
    sees_between: bool
    limit: Limit
    verdict: Verdict | None


@dataclass(frozen=True, slots=True)
class GapAsLaid:
    """A gap under a straight edge, read on the paving.

    Attributes:
        name: Which reading it is.
        area: Name of the area.
        at: Where; None where nobody noted it. [mm]
        edge_mm: Length of the edge. [mm]
        gap_mm: The gap. [mm]
        sd_mm: Standard deviation of it. [mm]
        limit: What it is held to.
        verdict: Pass, fail or inconclusive; None where the regime says nothing of such an edge.
    """

    name: str
    area: str
    at: XY | None
    edge_mm: float
    gap_mm: float
    sd_mm: float
    limit: Limit
    verdict: Verdict | None


@dataclass(frozen=True, slots=True)
class LipAsLaid:
    """A lip read on the paving.

    Attributes:
        name: Which reading it is.
        area: Name of the area.
        at: Where; None where nobody noted it. [mm]
        lip_mm: Its height. [mm]
        sd_mm: Standard deviation of it. [mm]
        by_staff: Whether it was read with a staff, which seldom decides on a lip.
        limit: What it is held to.
        verdict: Pass, fail or inconclusive; None where the regime says nothing of lips.
    """

    name: str
    area: str
    at: XY | None
    lip_mm: float
    sd_mm: float
    by_staff: bool
    limit: Limit
    verdict: Verdict | None


@dataclass(frozen=True, slots=True)
class JointAsLaid:
    """A joint read on the paving.

    Attributes:
        name: Which reading it is.
        area: Name of the area.
        at: Where; None where nobody noted it. [mm]
        width_mm: Its width; None where it was not read. [mm]
        planned_mm: Width planned; None where that is not known. [mm]
        recess_mm: How far its filling lies below the surface; None where nobody read it. [mm]
        sd_mm: Standard deviation of the width. [mm]
        min_mm: Smallest width; None where the regime has none. [mm]
        max_mm: Largest width; None where the regime has none. [mm]
        recess_max_mm: Deepest filling; None where the regime has none. [mm]
        verdict: Pass, fail or inconclusive; None where the regime says nothing of what was read.
    """

    name: str
    area: str
    at: XY | None
    width_mm: float | None
    planned_mm: float | None
    recess_mm: float | None
    sd_mm: float
    min_mm: float | None
    max_mm: float | None
    recess_max_mm: float | None
    verdict: Verdict | None


class MovedVerdict(StrEnum):
    """What a later visit says of a place or a bay."""

    MOVED = "moved"
    NOT_SEEN = "not_seen"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class PlaceMoved:
    """A place read again.

    Attributes:
        label: Label of the reading.
        area: Name of its area.
        at: Where it is. [mm]
        moved_mm: How far it rose, sunk negative. [mm]
        sd_mm: Standard deviation of that. [mm]
        t: Movement over its standard deviation. [-]
        verdict: Whether it moved.
    """

    label: str
    area: str
    at: XY
    moved_mm: float
    sd_mm: float
    t: float
    verdict: MovedVerdict


@dataclass(frozen=True, slots=True)
class BayMoved:
    """Movement of a bay as a whole.

    Attributes:
        area: Name of its area.
        number: Its number in the area.
        places: How many of its places were read again.
        mean_mm: Mean movement of them. [mm]
        sd_mm: Standard deviation of that mean. [mm]
        verdict: Whether it moved.
    """

    area: str
    number: int
    places: int
    mean_mm: float
    sd_mm: float
    verdict: MovedVerdict


@dataclass(frozen=True)
class VisitMoved:
    """A later visit against the day as laid.

    Attributes:
        date: Day of the visit.
        days: Days since the paving was read as laid. [d]
        datum: What the visits are compared by.
        together: All places, each and together.
        places: Each place read again.
        bays: Each bay with places read again.
        verdict: Whether anything moved.
    """

    date: dt.date
    days: int
    datum: Datum
    together: Moved
    places: tuple[PlaceMoved, ...]
    bays: tuple[BayMoved, ...]
    verdict: MovedVerdict
