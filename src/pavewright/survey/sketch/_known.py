"""What is known of the points of a job with a sketch, and how far they are placed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.survey.networks import Distance

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.geometry import XY
    from pavewright.job import TapeSide
    from pavewright.survey._types_shape import UnplacedPoint
    from pavewright.survey._types_tapes import ErrorEllipse
    from pavewright.survey.networks import Observation
    from pavewright.survey.sketch._hints import SoftlySettled
    from pavewright.survey.sketch._laid import Laid


@dataclass(frozen=True, slots=True)
class Base:
    """The base line: where it starts, and which way it runs."""

    start: str
    end: str
    at: XY
    way: XY


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of the points of a job with a sketch.

    Attributes:
        sketch: Points as drawn. [mm]
        held: Places that stand fast. [mm]
        by_eye: Places by a tap on the plan, and their deviations. [mm]
        base: The base line; None before anything is taped.
        observations: Tapes, square corners and points on lines.
        sides: Sides that somebody stated.
    """

    sketch: Mapping[str, XY]
    held: Mapping[str, XY]
    by_eye: Mapping[str, tuple[XY, float]]
    base: Base | None
    observations: tuple[Observation, ...]
    sides: tuple[TapeSide, ...]

    @property
    def tapes(self) -> tuple[Distance, ...]:
        """The distances among what was measured."""
        return tuple(each for each in self.observations if isinstance(each, Distance))


@dataclass(frozen=True, slots=True)
class Fixing:
    """How far the place of a point is fixed: what is missing, the way it is free, its ellipse (None for a held one)."""

    missing: int
    free_bearing_deg: float | None
    ellipse: ErrorEllipse | None


@dataclass(frozen=True, slots=True)
class Placed:
    """Points as far as they are placed.

    Attributes:
        places: Their places. [mm]
        freedom: For those that may not move either way, the directions in which they may.
        soft: The settled network of everything; None where nothing joins it.
        laid: How the sketch lies on the site.
        pairs: Neighbours on the sketch.
        sketch: The sketch, stated sides put right.
        fixing: How far each place is fixed.
        unplaced: Points that have no place.
        tied: Points that stand fast or to which something is measured.
    """

    places: dict[str, XY]
    freedom: Mapping[str, tuple[XY, ...]]
    soft: SoftlySettled | None
    laid: Laid
    pairs: list[tuple[str, str]]
    sketch: Mapping[str, XY]
    fixing: Mapping[str, Fixing]
    unplaced: tuple[UnplacedPoint, ...]
    tied: frozenset[str]
