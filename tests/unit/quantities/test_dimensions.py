"""The dimension book: what a second person works out again from its lines is what is measured."""

from __future__ import annotations

import io
import math

import openpyxl
import pytest

from pavewright.buildup import build_up
from pavewright.earthworks import dig
from pavewright.job import MaterialKind
from pavewright.laying import lay
from pavewright.levels import finished_levels
from pavewright.quantities import ItemKey, ItemKind, of_material, take_off
from pavewright.water import drain


def taken(small):
    job, measured = small.surveyed()
    rules = small.rules
    levels = finished_levels(job, measured, rules)
    laying, ups = lay(job, measured, rules), build_up(job, measured, levels, rules)
    works = dig(job, measured, ups, rules)
    return take_off(job, measured, levels, laying, ups, works, drain(job, measured, levels, rules), rules)


EXAMPLES = ("l_terrace", "curved_path", "front_drive", "gully_yard", "mixed_patio", "circle_court")


def by_hand(line):
    """Square a line out as somebody with a pencil does."""
    sides = (line.length_m, line.width_m, line.depth_m, line.area_m2, line.volume_m3)
    return math.prod((line.times, *(side for side in sides if side is not None), line.each))


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_lines_of_every_item_add_up_to_its_net_amount(made_plan, name):
    plan = made_plan(name)
    assert plan.quantities.items
    for item in plan.quantities.items:
        assert item.dimensions, item.key.text
        assert sum(by_hand(line) for line in item.dimensions) == pytest.approx(item.net, rel=1e-9, abs=1e-9)
        for line in item.dimensions:
            assert by_hand(line) == pytest.approx(line.amount, rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_line_says_where_it_stands(made_plan, name):
    plan = made_plan(name)
    names = {area.name for area in plan.job.areas}
    for item in plan.quantities.items:
        for line in item.dimensions:
            assert line.words
            assert line.drawing_key
            if line.side:
                area = plan.survey.site.areas[line.scope.number]
                assert line.side in {side.name for side in area.sides}
    assert any(each in line.words for each in names for item in plan.quantities.items for line in item.dimensions)


def test_a_rectangle_is_length_times_width_and_a_hole_is_taken_off(small):
    area = small.rectangle(4000.0, 3000.0)
    hole = [(1000.0, 1000.0), (1500.0, 1000.0), (1500.0, 1400.0), (1000.0, 1400.0)]
    area["holes"] = [[{"point": small.point(f"H{number}", *xy)} for number, xy in enumerate(hole)]]
    bed = taken(small).item(ItemKey(ItemKind.MORTAR_BED)).dimensions
    assert (bed[0].length_m, bed[0].width_m) in ((4.0, 3.0), (3.0, 4.0))
    assert (bed[1].times, bed[1].area_m2) == (-1.0, pytest.approx(0.2))
    assert sum(map(by_hand, bed)) == pytest.approx((12.0 - 0.2) * 0.035)


def test_the_concrete_of_edges_is_measured_side_by_side(made_plan):
    plan = made_plan("l_terrace")
    sides = [line.side for line in plan.quantities.item(ItemKey(ItemKind.EDGE_CONCRETE)).dimensions if line.side]
    assert sides == ["C–D", "D–E"]
    cement = plan.quantities.item(of_material(MaterialKind.CEMENT))
    assert any(line.amount < 0.0 for line in cement.dimensions), "covers and faces are taken off the joints"


def test_the_workbook_works_every_line_out_by_a_formula(made_plan, made_pack):
    plan = made_plan("l_terrace")
    _, papers = made_pack("l_terrace")
    sheet = openpyxl.load_workbook(io.BytesIO(papers["quantities.xlsx"]))["Dimension book"]
    formulas = [row[11] for row in sheet.iter_rows(min_row=5, values_only=True) if row[11] is not None]
    lines = sum(len(item.dimensions) for item in plan.quantities.items)
    assert sum(formula.startswith("=D") for formula in formulas) == lines
    assert sum(formula.startswith("=SUM") for formula in formulas) == len(plan.quantities.items)
