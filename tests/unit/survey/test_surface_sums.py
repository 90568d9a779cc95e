"""A plane through readings against numpy, curved edges as few arcs."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.sums import SumRefusedError
from pavewright.survey.edges._edge_by_arcs import edge_by_arcs
from pavewright.survey.ground._sums_surface import curved_edge, plane_through

readings = st.lists(st.tuples(*[st.floats(-5000.0, 5000.0)] * 3), min_size=5, max_size=20)


@settings(max_examples=60, deadline=None)
@given(readings)
def test_the_plane_is_that_of_numpy(points):
    x, y, z = np.array(points).T
    columns = np.column_stack([np.ones(len(x)), x, y])
    if np.linalg.svd(columns / (1.0, 5000.0, 5000.0), compute_uv=False)[-1] < 1e-3:
        return
    found = plane_through(tuple(x), tuple(y), tuple(z))
    (a, b, c), *_ = np.linalg.lstsq(columns, z, rcond=None)
    assert found["slope_east"] == pytest.approx(b, abs=1e-6)
    assert found["slope_north"] == pytest.approx(c, abs=1e-6)
    assert found["level_at_origin_mm"] == pytest.approx(a, abs=1e-2)
    assert found["fall"] == pytest.approx(math.hypot(b, c), abs=1e-6)
    assert sum(found["residuals_mm"]) == pytest.approx(0.0, abs=1e-2)


def test_a_fall_to_the_south_is_told_as_such():
    found = plane_through((0.0, 3000.0, 0.0), (0.0, 0.0, 3000.0), (1000.0, 1000.0, 1050.0))
    assert found["fall"] == pytest.approx(1.0 / 60.0)
    assert found["falls_to_deg"] == pytest.approx(180.0)
    with pytest.raises(SumRefusedError, match="on one line"):
        plane_through((0.0, 1.0, 2.0), (0.0, 1.0, 2.0), (0.0, 0.0, 0.0))
    with pytest.raises(SumRefusedError, match="three readings"):
        plane_through((0.0, 1.0), (0.0, 1.0), (0.0, 0.0))


def of_arcs(*rises):
    """Points every 100 mm or so along arcs over chords of 2 m, one after another."""
    points = [(0.0, 0.0)]
    for rise in rises:
        x0 = points[-1][0]
        radius = (1000.0**2 + rise**2) / (2.0 * abs(rise))
        for k in range(1, 21):
            along = k * 100.0 - 1000.0
            up = math.sqrt(radius**2 - along**2) - (radius - abs(rise))
            points.append((x0 + 1000.0 + along, math.copysign(up, -rise)))
    return points


def test_arcs_come_back_from_their_own_points():
    found = edge_by_arcs(of_arcs(300.0, -250.0), 1.0)
    assert [(arc.first, arc.last) for arc in found] == [(0, 20), (20, 40)]
    assert [arc.rise_mm for arc in found] == pytest.approx([300.0, -250.0], abs=1.0)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(-400.0, 400.0), min_size=3, max_size=30), st.floats(1.0, 60.0))
def test_every_point_stays_within_the_tolerance_and_arcs_follow_each_other(offsets, tolerance):
    along = [300.0 * k for k in range(len(offsets))]
    points = list(zip(along, offsets, strict=True))
    arcs = edge_by_arcs(points, tolerance)
    assert arcs[0].first == 0
    assert arcs[-1].last == len(points) - 1
    assert all(one.last == other.first for one, other in zip(arcs, arcs[1:], strict=False))
    for arc in arcs:
        (x1, y1), (x2, y2) = points[arc.first], points[arc.last]
        half = math.dist((x1, y1), (x2, y2)) / 2.0
        if abs(arc.rise_mm) < 1e-6:
            continue
        radius = (half**2 + arc.rise_mm**2) / (2.0 * arc.rise_mm)
        right = (y2 - y1) / (2.0 * half), -(x2 - x1) / (2.0 * half)
        centre = tuple(
            (a + b) / 2.0 + (arc.rise_mm - radius) * r
            for a, b, r in zip(points[arc.first], points[arc.last], right, strict=True)
        )
        for point in points[arc.first : arc.last + 1]:
            assert abs(math.dist(point, centre) - abs(radius)) <= tolerance + 1e-3
    loose = edge_by_arcs(points, 2.0 * tolerance)
    assert len(loose) <= len(points) - 1


def test_a_curved_edge_as_a_sum():
    xs, ys = zip(*of_arcs(300.0, -250.0), strict=True)
    found = curved_edge(xs, ys, 5.0)
    assert found["arcs"] == 2.0
    assert found["ends"] == (21.0, 41.0)
    with pytest.raises(SumRefusedError, match="keep one at each place"):
        curved_edge((0.0, 0.0, 1.0), (0.0, 1.0, 2.0), 5.0)
