"""Open stone under permeable paving: what it stores on a fall, and what keeps water from going into the ground."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from shapely.geometry import Polygon, box

from pavewright.desk import make_plan_so_far
from pavewright.findings import Severity
from pavewright.quantities import ItemKind
from pavewright.water import Code, PitVerdict
from pavewright.water.ground._open_stone import Rains, stone_need, strips_up, thinnest
from pavewright.water.ground._sums_stone_storage import permeable_storage, storage_under_slope

DRIVE = Path(__file__).resolve().parents[3] / "examples" / "front_drive.json"
STORMS = ((10.0, 12.79), (15.0, 15.66), (30.0, 19.8), (60.0, 24.8), (120.0, 29.8), (240.0, 35.4), (360.0, 38.7))


def rains(ratio=0.0, rate=1e-5):
    return Rains(ratio, rate, 30.0, STORMS, 24.0)


def test_on_the_level_it_is_the_sum_of_the_catalogue():
    strips = strips_up(box(0.0, 0.0, 6000.0, 3000.0), 0.0)
    for ratio in (0.0, 1.0, 2.0):
        found = stone_need(300.0, 0.0, strips, rains(ratio))
        minutes, depths = zip(*STORMS, strict=True)
        told = permeable_storage(ratio, 30.0, 1e-5, minutes, depths, 24.0)
        assert found.wanted_mm == pytest.approx(told["depth_mm"])
        assert found.governing_min == told["governing_min"]
        assert found.counted_mm == pytest.approx(300.0)


@pytest.mark.parametrize("thickness", [100.0, 150.0, 300.0])
def test_on_a_fall_a_rectangle_counts_as_the_wedge_of_the_catalogue(thickness):
    strips = strips_up(box(0.0, 0.0, 6000.0, 3000.0), 0.0)
    found = stone_need(thickness, 1.0 / 40.0, strips, rains())
    wedge = storage_under_slope(thickness, 6000.0, 40.0, 30.0)
    # strips are counted at their upper ends: less than the wedge, by no more than one strip
    assert wedge["counted_mm"] - 2.0 <= found.counted_mm <= wedge["counted_mm"]


def test_what_narrows_towards_its_low_end_holds_less_than_what_widens():
    narrow = Polygon([(0.0, 0.0), (6000.0, -3000.0), (6000.0, 3000.0)])
    low, high = (stone_need(150.0, 0.05, strips_up(narrow, deg), rains()) for deg in (0.0, 180.0))
    assert low.counted_mm < high.counted_mm
    assert low.wet_percent < high.wet_percent


def test_the_thinnest_holds_and_one_step_less_does_not():
    strips = strips_up(box(0.0, 0.0, 6000.0, 3000.0), 0.0)
    found = thinnest(2000.0, 0.02, strips, rains(2.0, 1e-6))
    assert found.holds
    assert not stone_need(found.thickness_mm - 10.0, 0.02, strips, rains(2.0, 1e-6)).holds
    assert thinnest(50.0, 0.02, strips, rains(2.0, 1e-6)) is None


def test_two_storms_prove_nothing():
    strips = strips_up(box(0.0, 0.0, 6000.0, 3000.0), 0.0)
    few = Rains(0.0, 1e-5, 30.0, STORMS[:1], 24.0)
    assert stone_need(300.0, 0.0, strips, few).verdict is PitVerdict.FOR_THESE_STORMS


def drive(ground=None, **permeable):
    entered = json.loads(DRIVE.read_text("utf-8"))
    entered["site"]["ground"] |= {"soil": "gravel", **(ground or {})}
    known = {"infiltration_m_per_s": 2e-5, "sealed_m2": 0.0, "lets_through": True}
    entered["areas"][0] |= {"base_rule": "permeable", "permeable": known | permeable}
    return entered


def noticed(entered):
    found = make_plan_so_far(json.dumps(entered)).findings
    return {each.code: each.severity for each in found if each.code.startswith("water.permeable")}


def test_where_all_is_known_the_house_is_still_for_an_engineer():
    assert noticed(drive()) == {
        Code.PERMEABLE_HOUSE: Severity.CHECK,
        Code.PERMEABLE_RUN_OFF: Severity.NOTE,
    }


@pytest.mark.parametrize(
    ("entered", "code"),
    [
        (drive(infiltration_m_per_s=None), Code.PERMEABLE_NOT_TESTED),
        (drive(infiltration_m_per_s=5e-7), Code.PERMEABLE_TIGHT),
        (drive({"soil": "heavy_clay"}), Code.PERMEABLE_CLAY),
        (drive({"soil": "silty_clay"}), Code.PERMEABLE_CLAY),
        (drive({"water_table": "high"}), Code.PERMEABLE_WATER_TABLE),
        (drive(sealed_m2=None), Code.PERMEABLE_SEALED_UNKNOWN),
        (drive(sealed_m2=200.0), Code.PERMEABLE_SEALED),
        (drive(sealed_m2=80.0, infiltration_m_per_s=1e-6), Code.PERMEABLE_TOO_SHALLOW),
        (drive(lets_through=False), Code.PERMEABLE_UNITS),
    ],
    ids=lambda each: each.value if isinstance(each, Code) else "",
)
def test_what_keeps_water_from_the_ground_stops_it(entered, code):
    assert noticed(entered)[code] is Severity.STOP


def test_without_the_rain_of_the_place_nothing_is_said_to_hold():
    entered = drive()
    entered["site"]["rain"] = None
    assert noticed(entered)[Code.PERMEABLE_RAIN] is Severity.STOP


def test_what_nobody_looked_at_is_asked():
    found = noticed(drive({"water_table": "unknown"}, lets_through=None))
    assert found[Code.PERMEABLE_WATER_TABLE_UNKNOWN] is Severity.CHECK
    assert found[Code.PERMEABLE_UNITS_UNKNOWN] is Severity.CHECK


def test_its_surface_is_still_counted_as_running_off():
    sealed = json.loads(DRIVE.read_text("utf-8"))
    sealed["site"]["ground"]["soil"] = "gravel"
    there, here = (make_plan_so_far(json.dumps(each)).water for each in (sealed, drive()))
    assert here.total_l_s == there.total_l_s
    assert [each.outfall for each in here.catchments] == [each.outfall for each in there.catchments]


@pytest.mark.parametrize(("lets_through", "said"), [(True, False), (None, True), (False, True)])
def test_the_rule_on_front_gardens_is_about_sealed_ground(lets_through, said):
    entered = drive(lets_through=lets_through)
    entered["site"]["outfalls"][0] = {"name": "Soakaway", "kind": "surface_water_sewer", "confirmed": True}
    found = {each.code for each in make_plan_so_far(json.dumps(entered)).findings}
    assert (Code.FRONT_GARDEN in found) is said


def test_open_stone_grit_and_fabric_are_bought_and_no_sand():
    plan = make_plan_so_far(json.dumps(drive(stone_mm=400.0)))
    up = plan.build_ups.areas[0]
    assert up.total_mm == 80.0 + 50.0 + 400.0
    bought = {each.key.material.value: each for each in plan.quantities.items if each.key.kind is ItemKind.MATERIAL}
    assert {"open_stone", "grit", "geotextile"} <= set(bought)
    assert not {"sub_base", "joint_sand"} & set(bought)
    assert bought["open_stone"].net == pytest.approx(up.base_shape.area_m2 * 0.4 * 1600.0)
    laid = plan.laying.areas[0]
    grit_m3 = plan.survey.site.areas[0].shape.area_m2 * 0.05 + laid.joint_m2 * 0.08
    assert bought["grit"].net == pytest.approx(grit_m3 * 1600.0, rel=0.01)
