"""Level lines of the ground on the plan of the dig."""

from __future__ import annotations

import pytest
import shapely

from pavewright.drawing._plan_works import _ground_lines
from pavewright.job import parse
from pavewright.pipeline import plan


def sloping(small):
    small.rectangle(4000.0, 3000.0)
    names = [small.point(f"G{n}", x, y, 1000.0 - x / 50.0) for n, (x, y) in enumerate(
        ((-1000, -1000), (6000, -1000), (6000, 5000), (-1000, 5000)))]  # fmt: skip
    small.document["measurements"]["ground_points"] = names
    return plan(parse(small.document), small.rules)


def test_lines_lie_where_the_ground_has_their_level_and_only_about_the_dig(small):
    made = sloping(small)
    lines = _ground_lines(made)
    assert lines
    dug = made.build_ups.areas[0].dig_shape.polygon.buffer(300.0)
    for places, level in lines:
        assert all(x == pytest.approx((1000.0 - level) * 50.0, abs=0.1) for x, _ in places)
        assert dug.contains(shapely.LineString(places))


def test_ground_that_is_not_known_has_no_lines(small):
    small.rectangle(4000.0, 3000.0)
    assert _ground_lines(plan(parse(small.document), small.rules)) == []
