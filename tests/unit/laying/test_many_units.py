"""Many units at once: sorted by their middles, turned together, and other ways tried only where options are asked for."""

from __future__ import annotations

import dataclasses

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from pavewright.geometry import shape_from_polygon, shapes_from_polygons
from pavewright.job import Pattern
from pavewright.laying import lay
from pavewright.laying.patterns import Bond, Layout, Size
from pavewright.laying.pieces import sorted_units
from pavewright.laying.setting import _workshop

POINT = st.tuples(st.floats(-4000.0, 4000.0), st.floats(-4000.0, 4000.0))


@given(st.lists(POINT, min_size=4, max_size=12), st.sampled_from([Pattern.RUNNING, Pattern.HERRINGBONE]))
@settings(max_examples=60, deadline=None)
def test_units_are_sorted_as_if_each_were_looked_at_by_itself(points, pattern):
    hull = shapely.MultiPoint(points).convex_hull
    region = hull.difference(shapely.Point(points[0]).buffer(700.0))
    parts = [part for part in shapely.get_parts(region) if isinstance(part, Polygon) and part.area > 1.0]
    for part in parts:
        placing = Layout(pattern, Bond((Size(200.0, 100.0),), 2.5, 0.5), (13.0, 7.0)).over(part.bounds)
        outlines = placing.outlines()
        touching, inside = sorted_units(part, placing)
        assert touching.tolist() == np.flatnonzero(shapely.intersects(part, outlines)).tolist()
        assert inside.tolist() == shapely.contains_properly(part, outlines).tolist()
        assert np.allclose(placing.boxes(), shapely.bounds(outlines), rtol=0.0, atol=1e-9)


def test_many_polygons_become_the_shapes_that_each_would_be_by_itself():
    away = 5e8
    square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
    hole = [(20.0, 20.0), (40.0, 20.0), (40.0, 40.0), (20.0, 40.0)]
    moved = [(x + away, y - away) for x, y in square]
    polygons = [
        Polygon(square),
        Polygon(square[::-1]),
        Polygon(square, [hole]),
        Polygon(square[::-1], [hole[::-1], [(60.0, 60.0), (70.0, 60.0), (70.0, 70.0)]]),
        Polygon(moved[::-1]),
        Polygon(moved),
    ]
    assert shapes_from_polygons(polygons) == [shape_from_polygon(each) for each in polygons]
    assert shapes_from_polygons([]) == []


def test_without_options_a_laying_plan_is_the_same_but_for_them(small):
    small.unit.update(name="Block", length_mm=200.0, width_mm=100.0, kind="block", kg_each=1.9)
    small.rectangle(2870.0, 2015.0, unit="Block", pattern="herringbone", joint_mm=3.0)
    job, measured = small.surveyed()
    full, bare = (lay(job, measured, small.rules, options=wanted) for wanted in (True, False))
    assert bare.areas == full.areas
    plain = [dataclasses.replace(each, options=()) for each in full.findings]
    assert [dataclasses.replace(each, options=()) for each in bare.findings] == plain
    assert sum(len(each.options) for each in bare.findings) < sum(len(each.options) for each in full.findings)


def test_starts_of_a_field_are_searched_anew_only_where_what_decides_them_has_changed(small, monkeypatch):
    small.unit.update(name="Block", length_mm=200.0, width_mm=100.0, kind="block", kg_each=1.9)
    entered = small.rectangle(2870.0, 2015.0, unit="Block", pattern="herringbone", joint_mm=3.0)
    asked, whole = [], _workshop._ranked
    monkeypatch.setattr(_workshop, "_ranked", lambda *given: asked.append(1) or whole(*given))
    _workshop._starts_of.cache_clear()

    def planned():
        before = len(asked)
        job, measured = small.surveyed()
        found = lay(job, measured, small.rules).findings
        return found, len(asked) - before

    first, searched = planned()
    assert searched == 1
    small.unit["pack_price_minor"] = 40000
    assert planned() == (first, 0)
    entered["laying"]["joint_mm"] = 4.0
    other, searched = planned()
    assert searched == 1 and other != first
    _workshop._starts_of.cache_clear()
    assert planned() == (other, 1)
