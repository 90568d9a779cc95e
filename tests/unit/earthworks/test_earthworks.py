"""Digs worked out by hand, and against an independent integration."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from pavewright import rulebook
from pavewright.buildup import build_up
from pavewright.earthworks import Dug, dig, loose, soil_figures
from pavewright.earthworks import _loads, _sums_volumes
from pavewright.job import Soil
from pavewright.levels import finished_levels


def dug(small):
    job, measured = small.surveyed()
    levels = finished_levels(job, measured, small.rules)
    ups = build_up(job, measured, levels, small.rules)
    return dig(job, measured, ups, small.rules), measured, ups


def codes(works):
    return [finding.code for finding in works.findings]


def level_patio(small, wide=4000.0, deep=3000.0):
    entered = small.rectangle(wide, deep)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 1000.0, "level_at": "P0", "level_mm": 1000.0}
    return entered


def test_flat_ground_at_finished_level_is_dug_by_the_build_up(small):
    level_patio(small)
    small.flat_ground(1000.0)
    works, _, _ = dug(small)
    # 4.2 × 3.2 m dug 150 deep, and 1 in 1000 away from the edge at y = 0: 1.5 mm more in the mean
    assert works.area("Patio").dig_m2 == pytest.approx(13.44)
    assert works.cut_m3 == pytest.approx(13.44 * 0.1515)
    assert works.fill_m3 == 0.0
    assert works.area("Patio").mean_depth_mm == pytest.approx(151.5)


def test_sandy_clay_swells_by_a_range_and_fills_skips(small):
    level_patio(small)
    small.flat_ground(1000.0)
    small.document["rates"]["disposal"] = {
        "kind": "skip",
        "volume_m3": 4.6,
        "payload_tonnes": 3.0,
        "load_price_minor": 1,
    }
    works, _, _ = dug(small)
    assert works.loose_m3.low == pytest.approx(works.cut_m3 * 1.3)
    assert works.loose_m3.high == pytest.approx(works.cut_m3 * 1.6)
    assert works.tonnes.likely == pytest.approx(works.cut_m3 * 1.9)
    # 2.04 m³ in the ground, 2.95 loose: one skip by volume, but 3.87 t in skips of 3 t are two
    assert (works.loads.low, works.loads.likely, works.loads.high) == (2.0, 2.0, 2.0)
    assert works.barrows.likely == math.ceil(works.loose_m3.likely / 0.055)


def test_ground_below_formation_is_told_as_fill_of_stone(small):
    level_patio(small)
    small.flat_ground(800.0)
    small.site["ground"]["topsoil_mm"] = 0.0
    works, _, _ = dug(small)
    assert works.cut_m3 == 0.0
    assert works.fill_m3 == pytest.approx(13.44 * 0.0485)
    assert "earthworks.fill" in codes(works)


def test_without_spot_levels_nothing_is_invented(small):
    level_patio(small)
    works, _, _ = dug(small)
    assert works.areas == ()
    assert works.workings == ()
    assert "earthworks.no_ground" in codes(works)


def test_sloping_ground_over_an_l_with_a_hole_equals_a_fine_grid(small):
    entered = small.area([(0, 0), (6000, 0), (6000, 2500), (3000, 2500), (3000, 5000), (0, 5000)])
    entered["fall"] = {"bearing_deg": 30.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    for name, x, y in (("H0", 1000, 1000), ("H1", 1800, 1000), ("H2", 1800, 1700), ("H3", 1000, 1700)):
        small.point(name, x, y)
    entered["holes"] = [[{"point": name} for name in ("H0", "H1", "H2", "H3")]]
    names = []
    for k, (x, y, z) in enumerate(
        [(-1000, -1000, 900), (7000, -1000, 1050), (7000, 6000, 700), (-1000, 6000, 1000), (2500, 2500, 760)]
    ):
        names.append(small.point(f"G{k}", x, y, z))
    small.document["measurements"]["ground_points"] = names
    works, measured, ups = dug(small)
    up = ups.area("Patio")
    x1, y1, x2, y2 = up.dig_shape.bounds_mm
    step = 20.0
    xs, ys = np.meshgrid(np.arange(x1 + step / 2, x2, step), np.arange(y1 + step / 2, y2, step))
    inside = shapely.contains_xy(up.dig_shape.polygon, xs, ys)
    heights = np.array(
        [measured.ground.level_at((x, y)) - up.formation.level_at((x, y)) for x, y in zip(xs[inside], ys[inside])]
    )
    cell = step * step / 1e9
    assert works.cut_m3 == pytest.approx(heights[heights > 0].sum() * cell, rel=0.01)
    assert works.fill_m3 == pytest.approx(-heights[heights < 0].sum() * cell, rel=0.02)
    assert works.area("Patio").beyond_m2 == 0.0


def test_ground_is_run_on_past_the_spot_levels_and_told(small):
    level_patio(small)
    names = [
        small.point(f"G{k}", x, y, 1000.0) for k, (x, y) in enumerate(((0, 0), (2000, 0), (2000, 3000), (0, 3000)))
    ]
    small.document["measurements"]["ground_points"] = names
    works, _, _ = dug(small)
    assert works.area("Patio").beyond_m2 == pytest.approx(13.44 - 6.0)
    assert works.cut_m3 == pytest.approx(13.44 * 0.1515)
    assert "earthworks.ground_run_on" in codes(works)


def test_no_service_entered_is_told_as_a_caution(small):
    level_patio(small)
    small.flat_ground(1000.0)
    assert codes(dug(small)[0])[0] == "earthworks.services_unknown"


def test_a_service_that_the_dig_meets_says_stop_and_a_deep_one_check(small):
    level_patio(small)
    small.flat_ground(1000.0)
    small.point("S0", -500.0, 1500.0)
    small.point("S1", 5000.0, 1500.0)
    small.site["services"] = [{"name": "Cable", "kind": "electricity", "points": ["S0", "S1"], "depth_mm": 200.0}]
    found = dug(small)[0].findings[0]
    assert (found.code, found.severity.value) == ("earthworks.service_in_dig", "stop")
    small.site["services"][0]["depth_mm"] = 600.0
    assert dug(small)[0].findings[0].severity.value == "check"


def test_a_service_is_followed_to_where_the_dig_is_deepest(small):
    level_patio(small)
    # the ground rises along the cable: the dig is shallow where it comes in and deep where it leaves
    small.document["measurements"]["ground_points"] = [
        small.point(f"G{k}", x, y, 800.0 + 0.2 * x)
        for k, (x, y) in enumerate(((-1000, -1000), (6000, -1000), (6000, 4000), (-1000, 4000)))
    ]
    small.point("S0", -500.0, 1500.0)
    small.point("S1", 5000.0, 1500.0)
    small.site["services"] = [{"name": "Gas", "kind": "gas", "points": ["S0", "S1"], "depth_mm": 600.0}]
    works, measured, ups = dug(small)
    found = next(finding for finding in works.findings if finding.code == "earthworks.service_in_dig")
    formation = ups.areas[0].formation
    middle = measured.ground.level_at((2000.0, 1500.0)) - formation.level_at((2000.0, 1500.0))
    assert middle + 100.0 < 600.0, "at its middle the service looks clear of the dig"
    assert found.severity.value == "stop"
    assert found.value > 600.0
    assert found.at_mm[0] > 4000.0
    # without levels of the ground nothing is said of how deep the dig goes there
    small.document["measurements"]["ground_points"] = []
    works, _, _ = dug(small)
    bare = next((finding for finding in works.findings if finding.code == "earthworks.service_in_dig"), None)
    assert bare is None or (bare.value is None and "not known" in bare.message)


def test_roots_and_footings_are_told(small):
    level_patio(small)
    small.flat_ground(1200.0)
    small.point("T", 5000.0, 1500.0)
    small.site["trees"] = [{"name": "Birch", "point": "T", "stem_diameter_mm": 200.0}]
    small.site["walls"] = [{"name": "Garden wall", "start": "P0", "end": "P1"}]
    works, _, _ = dug(small)
    assert {"earthworks.roots", "earthworks.near_wall"} <= set(codes(works))
    wall = next(finding for finding in works.findings if finding.code == "earthworks.near_wall")
    assert wall.value == pytest.approx(350.0)


def test_a_sum_of_loads_and_the_plan_run_the_same_function(monkeypatch):
    reached = []
    monkeypatch.setattr(_loads, "loose_m3", lambda m3, percent: reached.append((m3, percent)) or m3)
    monkeypatch.setattr(_sums_volumes, "loose_m3", _loads.loose_m3)
    soils = soil_figures(rulebook.load("england"))
    loose({Soil.CHALK: 2.0}, soils)
    assert [m3 for m3, _ in reached] == [2.0, 2.0, 2.0]
    assert _sums_volumes.bulking_and_loads(7.0, 30.0, 6.0, 1.8, 9.0)["loose_m3"] == 7.0
    assert reached[-1] == (7.0, 30.0)


def test_topsoil_is_no_class_of_soil():
    assert [each.soil for each in Dug if each is not Dug.TOPSOIL] == list(Soil)
    assert Dug.TOPSOIL.soil is None
