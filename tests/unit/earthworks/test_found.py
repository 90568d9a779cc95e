"""What the dig found that nobody knew: soft spots, concrete and drains in m³, hours, stone and money."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from pavewright.cost import TaskKind
from pavewright.desk import make_plan_so_far
from pavewright.job import MaterialKind
from pavewright.quantities import ItemKind

ROOT = Path(__file__).parents[3]
DRIVE = json.loads((ROOT / "examples" / "front_drive.json").read_text("utf-8"))
AREA = DRIVE["areas"][0]["name"]
FIND = {"name": "Find", "area": AREA, "found_on": "2027-05-04"}
SPOT = FIND | {"kind": "soft_spot", "depth_mm": 300.0, "area_m2": 4.0}
SLAB = FIND | {"kind": "concrete", "depth_mm": 150.0, "area_m2": 20.0}
PIPE = FIND | {"kind": "drain", "depth_mm": 200.0, "length_mm": 5000.0}


def planned(*found, document=DRIVE):
    return make_plan_so_far(json.dumps(copy.deepcopy(document) | {"dig_found": list(found)}))


@pytest.fixture(scope="module")
def plain():
    return planned()


def hours(plan, kind):
    return sum(task.person_hours for task in plan.labour if task.key.kind is kind)


def stone_kg(plan, material=MaterialKind.SUB_BASE):
    return sum(item.net for item in plan.quantities.items if item.key.material is material)


def test_a_soft_spot_is_dug_filled_with_stone_and_carted_away(plain):
    plan = planned(SPOT)
    (found,) = plan.earthworks.found
    assert (found.dig_m3, found.fill_m3, found.broken_m3) == pytest.approx((1.2, 1.2, 0.0))
    assert plan.earthworks.cut_m3 - plain.earthworks.cut_m3 == pytest.approx(1.2)
    assert plan.earthworks.away_m3 - plain.earthworks.away_m3 == pytest.approx(1.2)
    assert stone_kg(plan) > stone_kg(plain)
    assert hours(plan, TaskKind.DIG) > hours(plain, TaskKind.DIG)
    assert hours(plan, TaskKind.FILL) > hours(plain, TaskKind.FILL)
    assert plan.cost.total_minor > plain.cost.total_minor
    dug = next(item for item in plan.quantities.items if item.key.kind is ItemKind.DIG)
    assert sum(line.amount for line in dug.dimensions) == pytest.approx(dug.net)


def test_an_outline_counts_as_far_as_it_lies_in_the_dig(plain):
    x1, y1, x2, y2 = plain.build_ups.areas[0].dig_shape.bounds_mm
    middle = plain.build_ups.areas[0].dig_shape.centre_mm
    square = [(-1000.0, -1000.0), (1000.0, -1000.0), (1000.0, 1000.0), (-1000.0, 1000.0)]

    def outline(x, y):
        return {"outline": [{"x_mm": x + dx, "y_mm": y + dy} for dx, dy in square]}

    bare = {name: value for name, value in SPOT.items() if name != "area_m2"}
    inside = planned(bare | outline(*middle))
    assert inside.earthworks.found[0].plan_m2 == pytest.approx(4.0)
    assert not [each for each in inside.earthworks.findings if each.code == "earthworks.found_outside"]
    outside = planned(bare | outline(x2 + 5000.0, y2 + 5000.0))
    assert outside.earthworks.found[0].plan_m2 == 0.0
    assert outside.earthworks.cut_m3 == pytest.approx(plain.earthworks.cut_m3)
    assert [each.code for each in outside.earthworks.findings if each.code == "earthworks.found_outside"]
    assert x1 < middle[0] < x2
    assert y1 < middle[1] < y2


def test_buried_concrete_is_broken_out_before_it_is_lifted_and_weighs_more(plain):
    plan = planned(SLAB)
    assert plan.earthworks.cut_m3 == pytest.approx(plain.earthworks.cut_m3)
    assert plan.earthworks.away_m3 == pytest.approx(plain.earthworks.away_m3)
    assert plan.earthworks.tonnes.likely > plain.earthworks.tonnes.likely
    assert hours(plan, TaskKind.BREAK_OUT) == pytest.approx(3.0 * 3.2 / plan.job.crew.pace)
    assert hours(plan, TaskKind.DIG) == pytest.approx(hours(plain, TaskKind.DIG))
    assert plan.cost.total_minor > plain.cost.total_minor


def test_a_drain_is_dug_free_by_hand_and_nobody_knows_whose_it_is(plain):
    plan = planned(PIPE)
    (found,) = plan.earthworks.found
    assert found.dig_m3 == pytest.approx(5.0 * 0.45 * 0.2)
    assert hours(plan, TaskKind.DIG_FREE) > 0.0
    assert hours(plan, TaskKind.DIG) == pytest.approx(hours(plain, TaskKind.DIG))
    (said,) = [each for each in plan.earthworks.findings if each.code == "earthworks.found_drain"]
    assert "not known" in said.message
    anew = planned(PIPE | {"new_pipe": True})
    assert hours(anew, TaskKind.FOUND_PIPE) > 0.0
    assert stone_kg(anew, MaterialKind.PIPE) - stone_kg(plan, MaterialKind.PIPE) == pytest.approx(5.0)


def test_under_permeable_paving_a_soft_spot_is_filled_with_open_stone():
    document = copy.deepcopy(DRIVE)
    document["areas"][0] |= {"base_rule": "permeable", "permeable": {"infiltration_m_per_s": 1e-5, "sealed_m2": 0.0,
                                                                      "lets_through": True}}  # fmt: skip
    before = planned(document=document)
    if not before.build_ups.areas[0].is_permeable:
        pytest.fail("the drive is not built permeable: choose another one for this test")
    after = planned(SPOT, document=document)
    assert stone_kg(after, MaterialKind.OPEN_STONE) > stone_kg(before, MaterialKind.OPEN_STONE)
    assert stone_kg(after) == pytest.approx(stone_kg(before))


def test_a_deeper_dig_is_counted_in_the_build_up_and_not_again(plain):
    plan = planned(FIND | {"kind": "deeper", "depth_mm": 100.0})
    assert plan.earthworks.found == ()
    assert plan.build_ups.areas[0].total_mm - plain.build_ups.areas[0].total_mm == pytest.approx(100.0)
    assert plan.earthworks.cut_m3 > plain.earthworks.cut_m3


def test_a_deeper_dig_under_concrete_gets_stone_of_its_own():
    document = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
    area = document["areas"][0]["name"]
    before = planned(document=document).build_ups.areas[0]
    plan = planned(FIND | {"kind": "deeper", "depth_mm": 100.0, "area": area}, document=document)
    after = plan.build_ups.areas[0]
    assert after.total_mm - before.total_mm == pytest.approx(100.0)
    assert [layer.key.value for layer in before.layers if layer.key.value == "sub_base"] == []
    stone = next(layer for layer in after.layers if layer.key.value == "sub_base")
    assert stone.thickness_mm == 100.0
    assert "Find" in stone.why
