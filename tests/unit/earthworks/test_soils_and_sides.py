"""What is dug of each soil, by zone, beside free edges; what fills, what stays, what leaves."""

from __future__ import annotations

import pytest

from pavewright.buildup import build_up
from pavewright.cost import TaskKey, TaskKind
from pavewright.earthworks import dig
from pavewright.job import parse
from pavewright.laying import lay
from pavewright.levels import finished_levels
from pavewright.pipeline import plan


def dug(small, *, zones=False):
    job, measured = small.surveyed()
    levels = finished_levels(job, measured, small.rules)
    laying = lay(job, measured, small.rules) if zones else None
    return dig(job, measured, build_up(job, measured, levels, small.rules), small.rules, laying)


def patio(small, ground_mm=1000.0, **known):
    """A patio of 4 by 3 m at 1.000, build-up 150, on level ground; the base runs past its edges."""
    small.rectangle(4000.0, 3000.0)
    small.document["areas"][0]["fall"] = {"bearing_deg": 0.0, "one_in": 1000.0, "level_at": "P0", "level_mm": 1000.0}
    small.flat_ground(ground_mm)
    small.site["ground"] = {"soil": "sandy_clay", "topsoil_mm": 100.0, **known}


def test_layers_of_soil_sum_to_the_dig_each_as_thick_as_it_is(small):
    patio(small, strata=[{"soil": "sand", "thickness_mm": 30.0}, {"soil": "heavy_clay"}])
    works = dug(small)
    (area,) = works.areas
    soils = {each.soil: each.cut_m3 for each in area.soils}
    assert list(soils) == ["topsoil", "sand", "heavy_clay"]
    assert sum(soils.values()) == pytest.approx(area.volumes.cut_m3)
    assert soils["topsoil"] == pytest.approx(area.dig_m2 * 0.100, rel=1e-6)
    assert soils["sand"] == pytest.approx(area.dig_m2 * 0.030, rel=1e-6)
    assert soils["heavy_clay"] == pytest.approx(area.volumes.cut_m3 - area.dig_m2 * 0.130)


def test_each_soil_bulks_by_its_own_class(small):
    patio(small, strata=[{"soil": "sand", "thickness_mm": 30.0}, {"soil": "heavy_clay"}])
    works = dug(small)
    soils = {each.soil: each.cut_m3 for each in works.soils}
    # sand 5 to 15 %, taken for the topsoil over it too; clay 30 to 60 %
    sand, clay = soils["topsoil"] + soils["sand"], soils["heavy_clay"]
    assert works.loose_m3.low == pytest.approx(sand * 1.05 + clay * 1.30)
    assert works.loose_m3.high == pytest.approx(sand * 1.15 + clay * 1.60)
    assert works.loose_m3.low <= works.loose_m3.likely <= works.loose_m3.high


def test_one_soil_leaves_as_before(small):
    patio(small)
    works = dug(small)
    assert works.away_m3 == pytest.approx(works.cut_m3)
    assert works.loose_m3.low == pytest.approx(works.cut_m3 * 1.3)
    assert [each.soil for each in works.soils] == ["topsoil", "sandy_clay"]


def test_what_stays_is_taken_off_what_leaves_and_never_more_than_was_dug(small):
    patio(small, stays_m3=0.5)
    works = dug(small)
    assert works.away_m3 == pytest.approx(works.cut_m3 - 0.5)
    small.site["ground"]["stays_m3"] = 500.0
    assert dug(small).away_m3 == 0.0


def test_subsoil_fills_with_its_loss_and_stone_only_for_the_rest(small):
    # the ground falls away: cut at one end, fill at the other
    small.rectangle(8000.0, 3000.0)
    small.document["areas"][0]["fall"] = {"bearing_deg": 0.0, "one_in": 1000.0, "level_at": "P0", "level_mm": 1000.0}
    names = [small.point(f"G{n}", x, y, level) for n, (x, y, level) in enumerate(
        ((-1000, -1000, 1400.0), (9000, -1000, 650.0), (9000, 4000, 650.0), (-1000, 4000, 1400.0)))]  # fmt: skip
    small.document["measurements"]["ground_points"] = names
    small.site["ground"] = {"soil": "sandy_clay", "topsoil_mm": 100.0}
    plain = dug(small)
    assert plain.fill_m3 > 0.3
    assert plain.reused_m3 == 0.0
    small.site["ground"]["reuse_as_fill"] = True
    again = dug(small)
    assert again.reused_m3 == pytest.approx(again.fill_m3)
    # clay loses 20 % from the ground to compacted fill
    assert plain.away_m3 - again.away_m3 == pytest.approx(again.fill_m3 / 0.8)
    made = plan(parse(small.document), small.rules)
    assert not any(
        "fill below formation" in working.expression for item in made.quantities.items for working in item.workings
    )


def test_room_and_sloped_sides_beside_free_edges(small):
    patio(small, side_room_mm=300.0, side_slope=1.0)
    works = dug(small)
    (area,) = works.areas
    deep = area.mean_depth_mm
    # 4.2 by 3.2 m is dug: 14.8 m of free edge
    assert area.sides_m3 == pytest.approx(14.8 * (0.3 * deep + deep * deep / 2000.0) / 1000.0, rel=0.005)
    assert works.away_m3 == pytest.approx(works.cut_m3)
    assert "end areas" in area.workings[-1].note
    made = plan(parse(small.document), small.rules)
    assert any(task.key == TaskKey(TaskKind.SIDES, 0) for task in made.cost.labour)


def test_there_is_no_room_behind_a_wall(small):
    patio(small, side_room_mm=300.0)
    open_m3 = dug(small).areas[0].sides_m3
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 1150.0}]
    assert dug(small).areas[0].sides_m3 < open_m3 - 0.1


def test_zones_sum_to_the_area(small):
    patio(small)
    small.point("M", 2000.0, 1500.0)
    small.document["areas"][0]["zones"] = [
        {"name": "Round", "circle_at": "M", "radius_mm": 900.0, "laying": {"unit": "Slab"}}
    ]
    works = dug(small, zones=True)
    (area,) = works.areas
    inlay, rest = area.zones
    assert (inlay.zone, rest.zone) == ("Round", "")
    assert inlay.dig_m2 == pytest.approx(3.14159 * 0.81, rel=0.01)
    assert inlay.cut_m3 + rest.cut_m3 == pytest.approx(area.volumes.cut_m3)
    assert inlay.cut_m3 == pytest.approx(inlay.dig_m2 * area.mean_depth_mm / 1000.0, rel=0.02)
