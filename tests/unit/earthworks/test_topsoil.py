"""Topsoil: all of it is dug wherever formation lies, the room under formation is filled, a depth unknown is asked for."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from pavewright.buildup import LayerKey, build_up
from pavewright.cost import TaskKind
from pavewright.earthworks import Compactor, dig
from pavewright.earthworks._figures import figures
from pavewright.earthworks._fill import compactor, even_layers
from pavewright.job import parse
from pavewright.laying import lay
from pavewright.levels import finished_levels
from pavewright.pipeline import plan


def dug(small):
    job, measured = small.surveyed()
    levels = finished_levels(job, measured, small.rules)
    ups = build_up(job, measured, levels, small.rules)
    return dig(job, measured, ups, small.rules), measured, ups


def found(works, code):
    return [finding for finding in works.findings if finding.code == code]


def patio(small, ground_mm, **known):
    """A patio of 4 by 3 m at 1.000, build-up 150, on level ground."""
    entered = small.rectangle(4000.0, 3000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 1000.0, "level_at": "P0", "level_mm": 1000.0}
    small.flat_ground(ground_mm)
    small.site["ground"] = {"soil": "sandy_clay", **known}


def falling_lawn(small, topsoil_mm):
    """A terrace of 6 by 4 m with formation at 850 over a lawn that falls from 1.000 at the house to 0.700."""
    entered = small.rectangle(6000.0, 4000.0, "Terrace")
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 80.0, "level_at": "T0", "level_mm": 1000.0}
    names = [
        small.point(f"G{number}", x, y, z)
        for number, (x, y, z) in enumerate(
            [(-500, -500, 1010), (6500, -500, 980), (6500, 4500, 690), (-500, 4500, 720), (3000, 2000, 870)]
        )
    ]
    small.document["measurements"]["ground_points"] = names
    small.site["ground"] = {"soil": "sandy_clay"} | ({} if topsoil_mm is None else {"topsoil_mm": topsoil_mm})


def by_grid(works, measured, ups, topsoil_mm, step=20.0):
    """Return dig and fill by a fine grid of columns, independent of the triangles. [m³]."""
    up = ups.area(works.areas[0].area)
    x1, y1, x2, y2 = up.dig_shape.bounds_mm
    xs, ys = np.meshgrid(np.arange(x1 + step / 2, x2, step), np.arange(y1 + step / 2, y2, step))
    inside = shapely.contains_xy(up.dig_shape.polygon, xs, ys)
    cut = fill = 0.0
    for x, y in zip(xs[inside], ys[inside], strict=True):
        ground, formation = measured.ground.level_at((x, y)), up.formation.level_at((x, y))
        bottom = min(ground - topsoil_mm, formation)
        cut += ground - bottom
        fill += formation - bottom
    cell = step * step / 1e9
    return cut * cell, fill * cell


def test_topsoil_deeper_than_the_dig_goes_and_stone_takes_its_room(small):
    # ground at 0.900 and formation at 0.850: a dig of 50 mm, topsoil of 150 below it
    patio(small, 900.0, topsoil_mm=150.0)
    works, _, _ = dug(small)
    (area,) = works.areas
    assert works.cut_m3 == pytest.approx(area.dig_m2 * 0.150)
    # formation falls 1 in 1000 from the edge at y = 0, 1.5 mm in the mean
    assert works.fill_m3 == pytest.approx(area.dig_m2 * (0.100 - 0.0015))
    assert [each.soil for each in works.soils if each.cut_m3 > 1e-9] == ["topsoil"]
    assert works.away_m3 == pytest.approx(works.cut_m3)
    (reported,) = found(works, "earthworks.fill")
    assert reported.value == pytest.approx(100.0, abs=5.0)


def test_a_lawn_that_falls_away_equals_a_fine_grid(small):
    falling_lawn(small, 200.0)
    works, measured, ups = dug(small)
    cut, fill = by_grid(works, measured, ups, 200.0)
    assert works.cut_m3 == pytest.approx(cut, rel=0.005)
    assert works.fill_m3 == pytest.approx(fill, rel=0.005)
    assert fill > 3.0
    assert works.areas[0].soils[0].cut_m3 == pytest.approx(works.areas[0].dig_m2 * 0.2)
    assert found(works, "earthworks.fill")


def test_topsoil_above_formation_changes_nothing(small):
    patio(small, 1000.0, topsoil_mm=100.0)
    deep = dug(small)[0]
    small.site["ground"]["topsoil_mm"] = 0.0
    plain = dug(small)[0]
    assert deep.cut_m3 == pytest.approx(plain.cut_m3)
    assert deep.fill_m3 == plain.fill_m3 == 0.0


def test_unknown_topsoil_is_asked_for_with_a_range_and_never_taken_for_none(small):
    falling_lawn(small, None)
    works, measured, ups = dug(small)
    (reported,) = found(works, "earthworks.topsoil_unknown")
    assert "How deep" in reported.message
    (allowance,) = works.provisional
    plain_cut, plain_fill = by_grid(works, measured, ups, 0.0)
    for depth, dug_more, filled_more in (
        (150.0, allowance.dig_m3.low, allowance.fill_m3.low),
        (200.0, allowance.dig_m3.likely, allowance.fill_m3.likely),
        (300.0, allowance.dig_m3.high, allowance.fill_m3.high),
    ):
        cut, fill = by_grid(works, measured, ups, depth)
        assert dug_more == pytest.approx(cut - plain_cut, rel=0.01)
        assert filled_more == pytest.approx(fill - plain_fill, rel=0.01)
    assert works.cut_m3 == pytest.approx(plain_cut, rel=0.005)


def test_a_dig_below_all_topsoil_that_may_be_expected_asks_nothing(small):
    patio(small, 1200.0)
    works, _, _ = dug(small)
    assert works.provisional == ()
    assert not found(works, "earthworks.topsoil_unknown")


def test_loads_grow_with_unknown_topsoil(small):
    falling_lawn(small, None)
    small.document["rates"]["disposal"] = {"kind": "skip", "volume_m3": 2.0, "load_price_minor": 1}
    works, _, _ = dug(small)
    more = works.provisional_loads
    assert 0.0 < more.low <= more.likely <= more.high


def test_topsoil_under_zones_sums_to_the_area(small):
    patio(small, 900.0, topsoil_mm=150.0)
    small.point("M", 2000.0, 1500.0)
    small.document["areas"][0]["zones"] = [
        {"name": "Round", "circle_at": "M", "radius_mm": 900.0, "laying": {"unit": "Slab"}}
    ]
    job, measured = small.surveyed()
    ups = build_up(job, measured, finished_levels(job, measured, small.rules), small.rules)
    (area,) = dig(job, measured, ups, small.rules, lay(job, measured, small.rules)).areas
    inlay, rest = area.zones
    assert inlay.cut_m3 == pytest.approx(inlay.dig_m2 * 0.150)
    assert inlay.cut_m3 + rest.cut_m3 == pytest.approx(area.volumes.cut_m3)


def plate_of(kg_per_m2):
    """A plate whose sole is 500 by 400."""
    return {
        "key": "plate",
        "day_price_minor": 1,
        "kg_each": kg_per_m2 * 0.2,
        "sole_length_mm": 500.0,
        "sole_width_mm": 400.0,
    }


@pytest.mark.parametrize(
    ("kg_per_m2", "plate", "layer_mm", "passes"),
    [
        (None, Compactor.UNKNOWN, 100.0, None),
        (1500.0, Compactor.PLATE_LIGHT, 100.0, 5),
        (2000.0, Compactor.PLATE_HEAVY, 200.0, 7),
        (900.0, Compactor.BELOW_TABLE, 100.0, None),
    ],
)
def test_layers_and_passes_go_by_the_plate(small, kg_per_m2, plate, layer_mm, passes):
    patio(small, 600.0, topsoil_mm=150.0)
    if kg_per_m2 is not None:
        small.document["rates"]["plant"] = [plate_of(kg_per_m2)]
    works, _, _ = dug(small)
    layers = works.areas[0].fill_layers
    assert (layers.plate, layers.layer_mm, layers.passes) == (plate, layer_mm, passes)
    assert layers.layers == -(-layers.depth_mm // layer_mm)
    (reported,) = found(works, "earthworks.fill")
    assert bool(reported.option_words) is (plate in {Compactor.UNKNOWN, Compactor.BELOW_TABLE})


def test_clay_that_fills_is_outside_the_table_for_a_light_plate(small):
    patio(small, 600.0, topsoil_mm=0.0, reuse_as_fill=True)
    small.document["rates"]["plant"] = [plate_of(1500.0)]
    assert dug(small)[0].areas[0].fill_layers.passes is None


def test_topsoil_goes_beside_the_dig_for_room_to_work_and_is_put_back(small):
    patio(small, 1000.0, topsoil_mm=100.0)
    works, _, ups = dug(small)
    up, (area,) = ups.area("Patio"), works.areas
    # the concrete base runs 100 past the edge, room to work 150
    assert up.strip_shape.area_m2 == pytest.approx(4.3 * 3.3)
    assert area.margin_m3 == pytest.approx((4.3 * 3.3 - 4.2 * 3.2) * 0.1)
    assert works.away_m3 == pytest.approx(works.cut_m3)


def test_the_haunch_of_a_kerb_is_dug_for(small):
    patio(small, 1000.0, topsoil_mm=100.0)
    before = dug(small)[0].areas[0].dig_m2
    small.document["areas"][0]["edges"] = [{"corner": "P0", "restraint": "kerb"}]
    works, _, ups = dug(small)
    # 275 instead of 100 along the side of 4 m
    assert works.areas[0].dig_m2 == pytest.approx(before + 4.0 * 0.175, abs=0.01)
    assert ups.area("Patio").base_shape.area_m2 == pytest.approx(before)


@pytest.mark.parametrize(
    ("thick_mm", "kg_per_m2", "layers"),
    [
        (150.0, 1500.0, (2, 75.0, 5)),
        (250.0, 1500.0, (3, 250.0 / 3.0, 5)),
        (250.0, 2000.0, (2, 125.0, 5)),
        (150.0, 2000.0, (1, 150.0, 5)),
        (100.0, 2000.0, (1, 100.0, 3)),
        (200.0, 2000.0, (1, 200.0, 7)),
        (250.0, 900.0, (3, 250.0 / 3.0, None)),
        (250.0, None, (3, 250.0 / 3.0, None)),
    ],
)
def test_a_course_of_stone_goes_in_even_layers_with_the_passes_of_the_plate_or_none(small, thick_mm, kg_per_m2, layers):
    plates = [] if kg_per_m2 is None else [plate_of(kg_per_m2)]
    small.document["rates"]["plant"] = plates
    small.rectangle(2000.0, 2000.0)
    known = figures(small.rules).fill
    plate, _ = compactor(small.job().rates, known)
    made = even_layers(thick_mm, plate, known)
    assert (made.layers, made.layer_mm, made.passes) == (layers[0], pytest.approx(layers[1]), layers[2])


@pytest.mark.parametrize(("kg_per_m2", "passes"), [(1500.0, 5), (900.0, None), (None, None)])
def test_the_sub_base_says_its_layers_and_passes_in_the_work_and_a_light_plate_is_reported(small, kg_per_m2, passes):
    patio(small, 1000.0)
    small.document["areas"][0]["laying"]["bedding"] = "sand_on_sub_base"
    small.document["rates"]["plant"] = [] if kg_per_m2 is None else [plate_of(kg_per_m2)]
    made = plan(parse(small.document), small.rules)
    (course,) = made.earthworks.compacted("Patio")
    assert (course.layer, course.layers.passes) == (LayerKey.SUB_BASE, passes)
    (work,) = [each for each in made.cost.labour if each.key.kind is TaskKind.SUB_BASE]
    assert work.description.endswith(f"in {course.layers.layers} layers")
    assert (f"{passes} passes" in work.working.note) == (passes is not None)
    assert bool(found(made.earthworks, "earthworks.plate_light")) is (kg_per_m2 == 900.0)


def test_the_sub_base_goes_in_by_layers_where_nobody_levelled_the_ground_too(small):
    small.rectangle(4000.0, 3000.0)["laying"]["bedding"] = "sand_on_sub_base"
    assert dug(small)[0].areas == ()
    assert [each.layers.layers for each in dug(small)[0].compacted("Patio")] == [2]
