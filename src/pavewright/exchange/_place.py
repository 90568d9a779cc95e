"""Where on the earth the grid of a site lies."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.exchange._exchange_words import WORDS

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.pipeline import Plan

_HALF_AXIS_M = 6_378_137.0
_FLATTENING = 1.0 / 298.257_223_563
_MAX_LATITUDE_DEG, _MAX_LONGITUDE_DEG = 85.0, 180.0
"""Nearer to a pole than this nobody lays a patio, and a degree of longitude has hardly a length. [deg]"""


class ExchangeRefusedError(Exception):
    """A file for another program cannot be made; the message says in a sentence what to do."""


@dataclass(frozen=True, slots=True)
class Whereabouts:
    """Where on the earth a place of the site grid lies.

    Attributes:
        latitude_deg: Of that place, north positive. [deg]
        longitude_deg: Of that place, east positive. [deg]
        at_mm: The place on the site grid. [mm]
        north_bearing_deg: Direction of north, degrees clockwise from the y axis of the grid. [deg]
    """

    latitude_deg: float
    longitude_deg: float
    at_mm: XY
    north_bearing_deg: float

    def lon_lat(self, point: XY) -> tuple[float, float]:
        """Return longitude and latitude of a plan point. [deg].

        Args:
            point: On the site grid. [mm]

        Valid for: sites of some hundred metres, where the earth is taken as flat: a millimetre off in 100 m at most.
        Source: definition, ellipsoid WGS 84 with its radii along and across the meridian

        >>> there = Whereabouts(51.5, -1.25, (0.0, 0.0), 0.0)
        >>> east, north = there.lon_lat((0.0, 111_000.0))
        >>> round(east, 9), round(north, 5)
        (-1.25, 51.501)
        """
        east_m, north_m = self._east_north_m(point)
        squared = _FLATTENING * (2.0 - _FLATTENING)
        lat = math.radians(self.latitude_deg)
        across_m = _HALF_AXIS_M / math.sqrt(1.0 - squared * math.sin(lat) ** 2)
        along_m = across_m * (1.0 - squared) / (1.0 - squared * math.sin(lat) ** 2)
        return (
            self.longitude_deg + math.degrees(east_m / (across_m * math.cos(lat))),
            self.latitude_deg + math.degrees(north_m / along_m),
        )

    def _east_north_m(self, point: XY) -> tuple[float, float]:
        x, y = units.mm_to_m(point[0] - self.at_mm[0]), units.mm_to_m(point[1] - self.at_mm[1])
        turn = math.radians(self.north_bearing_deg)
        return x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)


def placed_at(plan: Plan, latitude_deg: float, longitude_deg: float, point: str = "") -> Whereabouts:
    """Return where on the earth a site lies, by one known place and the bearing of north of the job.

    Args:
        plan: The plan.
        latitude_deg: North positive. [deg]
        longitude_deg: East positive. [deg]
        point: Name of the point that lies there; the origin of the grid where none is given.

    Raises:
        ExchangeRefusedError: no such point, no such place, or the job does not say where north is.
    """
    if not abs(latitude_deg) <= _MAX_LATITUDE_DEG or not abs(longitude_deg) <= _MAX_LONGITUDE_DEG:
        raise ExchangeRefusedError(WORDS.not_on_earth)
    north = plan.survey.site.north_bearing_deg
    if north is None:
        raise ExchangeRefusedError(WORDS.no_north)
    found = {each.name: each.xy for each in plan.survey.points}
    if point and point not in found:
        raise ExchangeRefusedError(WORDS.no_point(name=point))
    return Whereabouts(latitude_deg, longitude_deg, found[point] if point else (0.0, 0.0), north)
