"""The finished work as a file for another program, as it is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.exchange._exchange_words import WORDS
from pavewright.exchange._features import to_geojson
from pavewright.exchange._place import ExchangeRefusedError, placed_at
from pavewright.exchange.model import to_ifc

if TYPE_CHECKING:
    from pavewright.pipeline import PlanSoFar


class ExchangeKind(StrEnum):
    """Which file: a building model, or map features."""

    IFC = "ifc"
    GEOJSON = "geojson"


EXCHANGE_FILES = {
    ExchangeKind.IFC: ("finished-work.ifc", "application/x-step"),
    ExchangeKind.GEOJSON: ("finished-work.geojson", "application/geo+json"),
}
"""The name of each file, and what kind of file it is."""


@dataclass(frozen=True, slots=True)
class Earth:
    """Where a point of a job lies on the earth.

    Attributes:
        latitude_deg: North positive. [deg]
        longitude_deg: East positive. [deg]
        point: Name of the point; the origin of the grid where none is given.
    """

    latitude_deg: float
    longitude_deg: float
    point: str = ""


def finished_work(made: PlanSoFar, kind: ExchangeKind, earth: Earth | None = None, *, local: bool = False) -> bytes:
    """Return the finished work of a plan as a file for another program.

    Args:
        made: The plan.
        kind: Which file.
        earth: Where a point of the job lies; None where nobody says.
        local: Whether map features may be in metres of the site grid, where nobody says.

    Raises:
        ExchangeRefusedError: not enough is known, or the place is not.
    """
    plan = made.whole
    if plan is None:
        raise ExchangeRefusedError(WORDS.not_whole(missing=" ".join(each.words for each in made.missing[:_FIRST])))
    where = None if earth is None else placed_at(plan, earth.latitude_deg, earth.longitude_deg, earth.point)
    if kind is ExchangeKind.IFC:
        return to_ifc(plan, where)
    if where is None and not local:
        raise ExchangeRefusedError(WORDS.no_place)
    return to_geojson(plan, where)


_FIRST = 3
"""So many of the things that are missing are named."""
