"""Mixed sizes round a circle that was laid first, as the trade tells it: joints had run from 10 to 60 mm to close.

95 m² was told; the rectangle, the circle of 2.8 m and its places are chosen. The plan shows the closure before anything
is laid: one joint everywhere, every cut at the circle and at the edge listed, and all of it adding up.
"""

from __future__ import annotations

import math

import pytest
import shapely
from shapely.geometry import Polygon

from pavewright.findings import Severity
from pavewright.geometry import shared
from pavewright.pipeline import plan

SIZES = (("Big", 890.0, 590.0), ("Square", 590.0, 590.0), ("Half", 590.0, 290.0), ("Small", 290.0, 290.0))
WIDE, DEEP, ACROSS = 11090.0, 8690.0, 2800.0


def planned(small, x, y):
    entered = small.rectangle(WIDE, DEEP, joint_mm=10.0)
    small.document["units"] = [
        {
            "name": name,
            "length_mm": long,
            "width_mm": wide,
            "thickness_mm": 40.0,
            "kg_each": 9.2e-5 * long * wide,
            "per_pack": 1,
            "pack_price_minor": 1000,
            "joint_min_mm": 8.0,
            "joint_max_mm": 15.0,
        }
        for name, long, wide in SIZES
    ]
    entered["laying"] |= {
        "unit": "Big",
        "pattern": "mixed",
        "course_units": [name for name, _, _ in SIZES[1:]],
        "pack": {"module_mm": 300.0, "counts": [12, 12, 16, 16], "covers_m2": 15.12},
    }
    small.point("Circle", x, y)
    small.site["obstacles"] = [{"name": "Circle", "point": "Circle", "diameter_mm": ACROSS}]
    return plan(small.job(), small.rules)


def test_the_closure_round_a_circle_is_shown_before_laying(small):
    made = planned(small, 5545.0, 4345.0)
    (area,) = made.laying.areas
    assert not [
        finding for finding in made.findings if finding.code.startswith("laying.") and finding.severity is Severity.STOP
    ]
    # one joint everywhere, within what the units take
    assert area.joint_mm == 10.0
    assert "laying.joint_out_of_range" not in {finding.code for finding in made.findings}
    # all of it adds up: pieces, joints and the circle make the rectangle
    circle_m2 = math.pi * ACROSS**2 / 4e6
    assert area.paved_m2 + area.joint_m2 + circle_m2 == pytest.approx(WIDE * DEEP / 1e6, rel=1e-4)
    # every piece that meets the circle is cut to it, and told as curved
    ring = shapely.Point(5545.0, 4345.0).buffer(ACROSS / 2.0 + 2.0)
    at_circle = [piece for piece in area.pieces if piece.shape.polygon.intersects(ring)]
    assert len(at_circle) > 10
    assert all(piece.kind.value == "cut" for piece in at_circle)
    assert sum(piece.curved for piece in at_circle) >= len(at_circle) - 2
    # nothing overlaps
    polygons = [Polygon(piece.shape.outer, piece.shape.holes) for piece in area.pieces]
    for first, second in shapely.STRtree(polygons).query(polygons, predicate="overlaps").T:
        assert shared(polygons[first], polygons[second]).area < 1.0


def test_where_the_circle_stands_on_the_module_decides_the_smallest_piece(small):
    def smallest(x, y):
        small.document["areas"], small.document["measurements"]["points"] = [], []
        area = planned(small, x, y).laying.areas[0]
        return sum(piece.sliver for piece in area.pieces if piece.curved), area.cut

    here, there = smallest(5545.0, 4345.0), smallest(5695.0, 4495.0)
    # the plan tells the two apart before anybody lays the circle
    assert here != there
