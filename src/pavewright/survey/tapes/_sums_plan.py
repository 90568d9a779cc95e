"""Sums in plan: points from tapes and bearings, areas."""

from __future__ import annotations

from pavewright import units
from pavewright.geometry import distance
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.survey._remarks import metres
from pavewright.survey.tapes._bearings import bearing_intersection, bearing_vector
from pavewright.survey.tapes._figures_in_plan import (
    area_by_coordinates_mm2,
    area_by_simpson_mm2,
    area_by_trapeziums_mm2,
    cross_sums_mm2,
)
from pavewright.survey.tapes._two_tapes import two_tape_intersection

_CORNERS = 3
_PARALLEL_DEG = 1e-6


def two_tapes(
    a_x_mm: float, a_y_mm: float, b_x_mm: float, b_y_mm: float, from_a_mm: float, from_b_mm: float, side: str
) -> dict[str, Value]:
    """Return the point where two tapes meet on the stated side of A–B.

    Source: definition
    """
    first, second = (a_x_mm, a_y_mm), (b_x_mm, b_y_mm)
    if min(from_a_mm, from_b_mm) <= 0.0 or first == second:
        message = "Both tapes are longer than zero and start from two different points: measure them again."
        raise SumRefusedError(message)
    meeting = two_tape_intersection(first, second, from_a_mm, from_b_mm)
    if meeting is None:
        message = (
            f"Tapes A–C {metres(from_a_mm)} and B–C {metres(from_b_mm)} do not meet over A–B "
            f"{metres(distance(first, second))}: measure all three again."
        )
        raise SumRefusedError(message)
    here, mirror = (meeting.left, meeting.right) if side == "left" else (meeting.right, meeting.left)
    return {
        "x_mm": here[0],
        "y_mm": here[1],
        "mirror_x_mm": mirror[0],
        "mirror_y_mm": mirror[1],
        "angle_deg": meeting.angle_deg,
    }


def two_bearings(
    a_x_mm: float, a_y_mm: float, b_x_mm: float, b_y_mm: float, bearing_a_deg: float, bearing_b_deg: float
) -> dict[str, Value]:
    """Return the point where two bearings meet.

    Source: mahun_cogo, chapter B
    """
    cut = abs((bearing_a_deg - bearing_b_deg + 90.0) % 180.0 - 90.0)
    if cut < _PARALLEL_DEG or (a_x_mm, a_y_mm) == (b_x_mm, b_y_mm):
        message = "The two bearings run alike and never meet: take one of them from another point."
        raise SumRefusedError(message)
    from_a, from_b = bearing_intersection((a_x_mm, a_y_mm), (b_x_mm, b_y_mm), bearing_a_deg, bearing_b_deg)
    if min(from_a, from_b) <= 0.0:
        message = "The two bearings meet behind one of the points: look whether one was read the wrong way round."
        raise SumRefusedError(message)
    share = bearing_vector(bearing_a_deg)
    return {
        "from_a_mm": from_a,
        "from_b_mm": from_b,
        "x_mm": a_x_mm + from_a * share[0],
        "y_mm": a_y_mm + from_a * share[1],
    }


def area_by_coordinates(eastings_mm: tuple[float, ...], northings_mm: tuple[float, ...]) -> dict[str, Value]:
    """Return the area inside corners, with the crosswise sums.

    Source: mahun_traverse, chapter G
    """
    if len(eastings_mm) != len(northings_mm) or len(eastings_mm) < _CORNERS:
        message = "Give three corners or more, with an easting and a northing each."
        raise SumRefusedError(message)
    area = area_by_coordinates_mm2(eastings_mm, northings_mm)
    north_by_east, east_by_north = cross_sums_mm2(eastings_mm, northings_mm)
    return {
        "area_m2": units.mm2_to_m2(abs(area)),
        "northing_by_easting_m2": units.mm2_to_m2(north_by_east),
        "easting_by_northing_m2": units.mm2_to_m2(east_by_north),
        "way_round": "anticlockwise" if area > 0.0 else "clockwise" if area < 0.0 else "no area",
    }


def area_by_offsets(offsets_mm: tuple[float, ...], interval_mm: float) -> dict[str, Value]:
    """Return the area between a line and offsets at equal intervals, two ways.

    Source: definition
    """
    if len(offsets_mm) < _CORNERS or interval_mm <= 0.0 or min(offsets_mm) < 0.0:
        message = "Give three offsets or more, all on one side of the line, at an interval longer than zero."
        raise SumRefusedError(message)
    return {
        "trapezium_area_m2": units.mm2_to_m2(area_by_trapeziums_mm2(offsets_mm, interval_mm)),
        "simpson_area_m2": units.mm2_to_m2(area_by_simpson_mm2(offsets_mm, interval_mm)),
        "last_strip": "parabola" if len(offsets_mm) % 2 else "trapezium",
    }


_ENDS = (
    Quantity("a_x_mm", "mm", "A, east"),
    Quantity("a_y_mm", "mm", "A, north"),
    Quantity("b_x_mm", "mm", "B, east"),
    Quantity("b_y_mm", "mm", "B, north"),
)

PLAN_SUMS: tuple[Sum, ...] = (
    Sum(
        "two-tape-intersection",
        "Find a point from two tapes and the side on which it lies",
        (
            *_ENDS,
            Quantity("from_a_mm", "mm", "tape from A to the point"),
            Quantity("from_b_mm", "mm", "tape from B to the point"),
            Quantity("side", "", "side of the line, looking from A to B", "word", choices=("left", "right")),
        ),
        (
            Quantity("x_mm", "mm", "the point, east"),
            Quantity("y_mm", "mm", "the point, north"),
            Quantity("mirror_x_mm", "mm", "the place on the other side, east"),
            Quantity("mirror_y_mm", "mm", "the place on the other side, north"),
            Quantity("angle_deg", "deg", "angle between the tapes at the point; best near 90"),
        ),
        "a = (r1² − r2² + L²) / 2L along the line, h = √(r1² − a²) off it",
        "definition",
        two_tapes,
    ),
    Sum(
        "two-bearing-intersection",
        "Find a point from a bearing at each of two points",
        (
            *_ENDS,
            Quantity("bearing_a_deg", "deg", "bearing from A, clockwise from north"),
            Quantity("bearing_b_deg", "deg", "bearing from B, clockwise from north"),
        ),
        (
            Quantity("from_a_mm", "mm", "distance from A"),
            Quantity("from_b_mm", "mm", "distance from B"),
            Quantity("x_mm", "mm", "the point, east"),
            Quantity("y_mm", "mm", "the point, north"),
        ),
        "distance from A = (ΔE·cos β − ΔN·sin β) / sin(α − β)",
        "mahun_cogo, chapter B",
        two_bearings,
    ),
    Sum(
        "area-by-coordinates",
        "Find the area inside corners of known place",
        (
            Quantity("eastings_mm", "mm", "east of every corner in order", "numbers"),
            Quantity("northings_mm", "mm", "north of every corner in order", "numbers"),
        ),
        (
            Quantity("area_m2", "m2", "area"),
            Quantity("northing_by_easting_m2", "m2", "northings times the next eastings, added up"),
            Quantity("easting_by_northing_m2", "m2", "eastings times the next northings, added up"),
            Quantity("way_round", "", "clockwise or anticlockwise", "word"),
        ),
        "A = ½·|Σ(N·next E) − Σ(E·next N)|",
        "mahun_traverse, chapter G",
        area_by_coordinates,
    ),
    Sum(
        "area-by-offsets",
        "Find the area between a line and a curved edge from offsets at equal intervals",
        (
            Quantity("offsets_mm", "mm", "offsets in order", "numbers"),
            Quantity("interval_mm", "mm", "distance from one to the next"),
        ),
        (
            Quantity("trapezium_area_m2", "m2", "area, strips taken as trapeziums"),
            Quantity("simpson_area_m2", "m2", "area, edge taken as parabolas"),
            Quantity(
                "last_strip",
                "",
                "what the last strip was taken as in the second: odd numbers of strips end in a trapezium",
                "word",
            ),
        ),
        "d·((o1 + on)/2 + others); d/3·(ends + 4·even + 2·odd), last strip of an even number of offsets as a trapezium",
        "definition",
        area_by_offsets,
    ),
)
