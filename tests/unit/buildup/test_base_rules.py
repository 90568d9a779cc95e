"""What lies under a bed by rules of different sources, each apart."""

from __future__ import annotations

import pytest

from pavewright import rulebook
from pavewright.buildup import BaseCase, BasePart, LayerKey, build_up, regimes, rules_for_base
from pavewright.findings import Severity
from pavewright.job import BaseRule, Bedding, UnitKind, Use
from pavewright.levels import finished_levels
from pavewright.rules import Status

RULES = rulebook.load("england")
SAND = Bedding.SAND_ON_SUB_BASE


def drive(cbr, kind=UnitKind.BLOCK, use=Use.CAR, bedding=SAND):
    return rules_for_base(BaseCase(use, bedding, kind, cbr), RULES)


@pytest.mark.parametrize(
    ("cbr", "sub_base", "capping"),
    [(1.9, 250, 500), (2, 250, 350), (2.9, 250, 350), (3, 250, 250), (3.6, 250, 250), (4, 250, 200), (15, 250, 200)],
)
def test_a_ratio_between_two_steps_of_the_road_table_is_rounded_down(cbr, sub_base, capping):
    assert drive(cbr)[BaseRule.SHARED_SURFACE] == ((BasePart.SUB_BASE, sub_base), (BasePart.CAPPING, capping))


def test_over_fifteen_no_capping_is_left():
    assert drive(15.1)[BaseRule.SHARED_SURFACE] == ((BasePart.SUB_BASE, 250.0),)


def test_the_table_of_1984_gives_stone_alone_or_stone_on_capping():
    assert drive(2.0)[BaseRule.ROAD_1984] == ((BasePart.SUB_BASE, 400.0),)
    assert drive(2.0)[BaseRule.ROAD_1984_CAPPED] == ((BasePart.SUB_BASE, 150.0), (BasePart.CAPPING, 350.0))
    assert drive(5.0)[BaseRule.ROAD_1984_CAPPED] == ((BasePart.SUB_BASE, 225.0),)


@pytest.mark.parametrize("cbr", [2.5, 4.0, 6.0])
def test_where_a_source_prints_nothing_nothing_is_made_up(cbr):
    assert BaseRule.MILLION_AXLES not in drive(cbr)
    case = BaseCase(Use.CAR, SAND, UnitKind.BLOCK, cbr)
    silent = next(each for each in regimes(BaseRule.OWN, case, RULES) if each.rule is BaseRule.MILLION_AXLES)
    assert silent.layers is None


def test_a_rule_for_blocks_says_nothing_of_slabs_and_a_road_nothing_of_a_patio():
    assert set(drive(3.0, UnitKind.FLAG)) & {BaseRule.BLOCKS, BaseRule.BLOCKS_FROST} == set()
    foot = drive(3.0, UnitKind.FLAG, Use.FOOT)
    assert set(foot) == {BaseRule.OWN, BaseRule.SLABS}
    assert set(drive(3.0, UnitKind.BLOCK, Use.FOOT)) == {
        BaseRule.OWN,
        BaseRule.BLOCKS,
        BaseRule.BLOCKS_FROST,
        BaseRule.PERMEABLE,
    }
    assert set(drive(3.0, bedding=Bedding.MORTAR_ON_CONCRETE)) == {BaseRule.OWN, BaseRule.CONCRETE_DRIVE}


def planned(small, **area):
    small.rectangle(4000, 3000, bedding="sand_on_sub_base")
    small.flat_ground(1000.0)
    small.unit.update(kind="block", length_mm=200.0, width_mm=100.0, thickness_mm=80.0, kg_each=3.7)
    small.document["areas"][0] |= {"use": "car", **area}
    job, surveyed = small.surveyed()
    levels = finished_levels(job, surveyed, small.rules)
    return build_up(job, surveyed, levels, small.rules)


def test_capping_lies_under_the_sub_base_and_over_the_fabric(small):
    up = planned(small, base_rule="shared_surface").areas[0]
    assert [layer.key for layer in up.layers] == [
        LayerKey.UNIT,
        LayerKey.BED,
        LayerKey.SUB_BASE,
        LayerKey.CAPPING,
        LayerKey.GEOTEXTILE,
    ]
    assert up.total_mm == 80.0 + 40.0 + 250.0 + 200.0
    assert up.top_of(LayerKey.CAPPING) == 80.0 + 40.0 + 250.0
    sub_base, capping = up.layers[2], up.layers[3]
    assert capping.extends_mm == sub_base.extends_mm == 250.0


def test_a_base_that_is_thinner_than_the_rulebooks_own_is_noticed(small):
    found = planned(small, base_rule="blocks")
    (thin,) = (each for each in found.findings if each.code == "buildup.base_thinner")
    assert thin.severity is Severity.CHECK
    assert (thin.value, thin.limit) == (150.0, 250.0)


def test_a_rule_that_says_nothing_leaves_the_rulebooks_own_and_is_noticed(small):
    found = planned(small, base_rule="million_axles")
    assert "buildup.base_rule_silent" in [each.code for each in found.findings]
    assert found.areas[0].total_mm == 80.0 + 40.0 + 250.0


def test_the_rulebooks_own_is_noticed_by_nothing(small):
    codes = [each.code for each in planned(small).findings]
    assert not [code for code in codes if code.startswith("buildup.base_")]


DESIGN = {"by": "An engineer", "sub_base_mm": 200.0, "capping_mm": 600.0}


def test_ground_that_no_table_covers_is_built_as_it_was_designed(small):
    small.site["ground"] = {"soil": "heavy_clay", "cbr_percent": 1.5}
    found = planned(small, base_rule="designed", base_design=DESIGN)
    assert [layer.thickness_mm for layer in found.areas[0].layers] == [80.0, 40.0, 200.0, 600.0, 0.0]
    (weak,) = (each for each in found.findings if each.code == "buildup.ground_too_weak")
    assert weak.severity is Severity.CHECK
    assert "buildup.base_thinner" not in [each.code for each in found.findings]


def test_a_design_that_is_not_there_designs_nothing(small):
    small.site["ground"] = {"soil": "heavy_clay", "cbr_percent": 1.5}
    found = planned(small, base_rule="designed")
    codes = {each.code: each.severity for each in found.findings}
    assert codes["buildup.ground_too_weak"] is Severity.STOP
    assert codes["buildup.base_rule_silent"] is Severity.CHECK


def test_a_design_that_is_not_chosen_ends_no_stop(small):
    small.site["ground"] = {"soil": "heavy_clay", "cbr_percent": 1.5}
    found = planned(small, base_design=DESIGN)
    assert {each.code: each.severity for each in found.findings}["buildup.ground_too_weak"] is Severity.STOP


@pytest.mark.parametrize("half", [{}, {"by": "An engineer"}, {"sub_base_mm": 200.0}])
def test_half_a_design_designs_nothing_and_stops_no_plan(small, half):
    small.site["ground"] = {"soil": "heavy_clay", "cbr_percent": 1.5}
    found = planned(small, base_rule="designed", base_design=half)
    codes = {each.code: each.severity for each in found.findings}
    assert codes["buildup.ground_too_weak"] is Severity.STOP
    assert codes["buildup.base_rule_silent"] is Severity.CHECK
    assert found.areas[0].total_mm == 80.0 + 40.0 + 250.0


@pytest.mark.parametrize(
    ("cbr", "stone"),
    [(1.0, 600.0), (2.0, 475.0), (3.0, 425.0), (3.9, 425.0), (4.0, 400.0), (5.0, 300.0), (15.0, 300.0)],
)
def test_open_stone_is_thicker_on_weak_ground_and_its_figures_are_from_memory(cbr, stone):
    assert drive(cbr)[BaseRule.PERMEABLE] == ((BasePart.SUB_BASE, stone),)
    case = BaseCase(Use.CAR, SAND, UnitKind.BLOCK, cbr)
    (layer,) = next(each for each in regimes(BaseRule.PERMEABLE, case, RULES) if each.decides).layers
    assert layer.decided_by[0].status is Status.MEMORY
    assert not layer.is_for_storage


def test_of_ground_weaker_than_the_additions_go_nothing_is_said_of_open_stone():
    assert BaseRule.PERMEABLE not in drive(0.9)


def test_stone_that_the_rain_asks_for_counts_where_it_is_thicker_than_what_bears():
    for entered, planned in ((250.0, 300.0), (300.0, 300.0), (410.0, 410.0)):
        case = BaseCase(Use.CAR, SAND, UnitKind.BLOCK, 5.0, stone_mm=entered)
        assert rules_for_base(case, RULES)[BaseRule.PERMEABLE] == ((BasePart.SUB_BASE, planned),)
        (layer,) = next(each for each in regimes(BaseRule.PERMEABLE, case, RULES) if each.decides).layers
        assert layer.is_for_storage is (planned > 300.0)
