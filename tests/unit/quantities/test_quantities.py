"""Taking-off worked out by hand: a 4 × 3 m patio of 600 slabs on mortar and concrete, base 100 past every edge."""

from __future__ import annotations

import math

import pytest

from pavewright.buildup import build_up
from pavewright.cost import TaskKind
from pavewright.earthworks import dig
from pavewright.job import EdgeRestraint, MaterialKind, parse
from pavewright.laying import lay
from pavewright.levels import finished_levels
from pavewright.pipeline import plan
from pavewright.quantities import ItemKey, ItemKind, of_material, of_unit, take_off
from pavewright.rules import Status
from pavewright.water import drain


def taken(small):
    job, measured = small.surveyed()
    rules = small.rules
    levels = finished_levels(job, measured, rules)
    laying = lay(job, measured, rules)
    ups = build_up(job, measured, levels, rules)
    works = dig(job, measured, ups, rules)
    return take_off(job, measured, levels, laying, ups, works, drain(job, measured, levels, rules), rules)


def price(small, key, amount, unit, **more):
    material = {"key": key, "pack_amount": float(amount), "pack_unit": unit, "pack_price_minor": 100, **more}
    small.document["rates"].setdefault("materials", []).append(material)


def test_the_range_of_cement_reaches_to_the_printed_tables_and_its_sum_names_them(small):
    """A bed of 1:6 takes 273.6 kg of cement for a cubic metre by the rule, 250 to 285 by two printed tables."""
    small.rectangle(4000.0, 3000.0)
    cement = taken(small).item(of_material(MaterialKind.CEMENT))
    bed = 0.42 * (1.0 + small.rules.value("quantities.mortar_percent") / 100.0)
    assert cement.low <= cement.gross - bed * (273.6 - 250.0) + 1e-6
    assert cement.high >= cement.gross + bed * (285.0 - 273.6) - 1e-6
    keys = {figure.key for working in cement.workings for figure in working.figures}
    assert {"quantities.mortar_cement.6.low_kg", "quantities.mortar_cement.6.high_kg"} <= keys


def test_bed_and_base_are_measured_and_turned_into_cement_sand_and_ballast(small):
    small.rectangle(4000.0, 3000.0)
    found = taken(small)
    assert found.item(ItemKey(ItemKind.MORTAR_BED)).net == pytest.approx(12.0 * 0.035)
    assert found.item(ItemKey(ItemKind.CONCRETE_BASE)).net == pytest.approx(4.2 * 3.2 * 0.075)
    bed = 0.42 * 1.33 / 7 * 1440
    base = 1.008 * 1.2 / 6 * 1440
    assert found.item(of_material(MaterialKind.BALLAST)).net == pytest.approx(1.008 * 1.2 * 1740)
    assert found.item(of_material(MaterialKind.SHARP_SAND)).net == pytest.approx(0.42 * 1.33 * 6 / 7 * 1600)
    assert found.item(of_material(MaterialKind.CEMENT)).net > bed + base


def test_cement_is_gathered_from_every_use_before_it_is_rounded_up(small):
    small.rectangle(4000.0, 3000.0)
    item = taken(small).item(of_material(MaterialKind.CEMENT))
    assert len(item.workings) == 3
    assert item.gross == pytest.approx(sum(working.result for working in item.workings))
    assert item.ordered == math.ceil(item.gross / 25.0)
    assert item.order_unit == "bag of 25 kg"
    assert item.ordered_amount >= item.gross >= item.net


def test_sand_by_the_bulk_bag_and_stone_by_the_load(small):
    small.rectangle(4000.0, 3000.0, bedding="sand_on_sub_base")
    price(small, "sub_base", 850, "kg")
    price(small, "sharp_sand", 0.5, "m3")
    found = taken(small)
    # sandy clay is soft: 150 of stone, run 150 past every edge
    stone = found.item(of_material(MaterialKind.SUB_BASE))
    assert stone.net == pytest.approx(4.3 * 3.3 * 0.15 * 2100)
    assert stone.ordered == math.ceil(stone.net * 1.1 / 850)
    assert (stone.low, stone.high) == pytest.approx((stone.gross * 2000 / 2100, stone.gross * 2200 / 2100))
    sand = found.item(of_material(MaterialKind.SHARP_SAND))
    assert sand.net == pytest.approx(12.0 * 0.04 * 1600)
    assert sand.ordered == math.ceil(sand.gross / 800)
    assert found.item(of_material(MaterialKind.GEOTEXTILE)).net == pytest.approx(4.3 * 3.3)
    assert found.item(of_material(MaterialKind.JOINT_SAND)).net > 0.0


def test_units_come_in_whole_packs_with_spares_unless_single_ones_are_sold(small):
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    item = taken(small).item(of_unit(0))
    assert (item.net, item.gross, item.ordered, item.ordered_amount) == (20.0, 21.0, 2.0, 40.0)
    assert item.kg == pytest.approx(40 * 33.0)
    small.unit["part_packs"] = True
    item = taken(small).item(of_unit(0))
    assert (item.ordered, item.order_unit) == (21.0, "each")


def test_edges_are_measured_along_arcs_and_bring_their_concrete(small):
    entered = small.area([(0, 0), (4000, 0), (4000, 3000, 400), (0, 3000)])
    entered["edges"] = [{"corner": "P2", "restraint": "edging"}, {"corner": "P0", "restraint": "kerb"}]
    price(small, "edging", 1, "each", length_mm=1000.0)
    found = taken(small)
    radius = (2000.0**2 + 400.0**2) / 800.0
    arc = radius * 2 * math.asin(2000.0 / radius) / 1000.0
    assert found.item(of_material(MaterialKind.EDGING)).net == pytest.approx(arc)
    assert found.item(of_material(MaterialKind.EDGING)).ordered == math.ceil(arc * 1.03)
    assert found.item(of_material(MaterialKind.KERB)).net == pytest.approx(4.0)
    # bed and haunch of each: 200 × 100 and 100 × 100, 380 × 150 and (150 + 100) / 2 × 170
    of_edging, of_kerb = 0.2 * 0.1 + 0.1 * 0.1, 0.38 * 0.15 + 0.125 * 0.17
    assert found.item(ItemKey(ItemKind.EDGE_CONCRETE)).net == pytest.approx(arc * of_edging + 4.0 * of_kerb)


def test_bed_and_haunch_stand_apart_in_the_dimension_book_and_name_their_sources(small):
    small.rectangle(4000.0, 3000.0)["edges"] = [{"corner": "P0", "restraint": "kerb"}]
    item = taken(small).item(ItemKey(ItemKind.EDGE_CONCRETE))
    bed, haunch = item.dimensions
    assert (bed.length_m, bed.width_m, bed.depth_m) == pytest.approx((4.0, 0.38, 0.15))
    assert (haunch.length_m, haunch.width_m, haunch.depth_m) == pytest.approx((4.0, 0.125, 0.17))
    assert [sum(figure.status is Status.READ for figure in working.figures) for working in item.workings] == [4, 0]
    assert item.net == pytest.approx(4.0 * (0.057 + 0.02125))


@pytest.mark.parametrize(("thick_mm", "high_m"), [(60.0, 0.05), (80.0, 0.03), (150.0, None)])
def test_a_haunch_before_an_edging_is_no_higher_than_there_is_room_under_unit_and_bed(small, thick_mm, high_m):
    area = small.rectangle(4000.0, 3000.0)
    area["laying"]["bedding"] = "sand_on_sub_base"
    area["edges"] = [{"corner": "P0", "restraint": "edging"}]
    small.unit["thickness_mm"] = thick_mm
    lines = taken(small).item(ItemKey(ItemKind.EDGE_CONCRETE)).dimensions
    assert lines[1].depth_m == 0.1
    assert (lines[2].depth_m if len(lines) > 2 else None) == (None if high_m is None else pytest.approx(high_m))


def test_the_dig_and_what_leaves_are_items_or_are_told_as_unknown(small):
    small.rectangle(4000.0, 3000.0)
    found = taken(small)
    assert "quantities.dig_not_measured" in [finding.code for finding in found.findings]
    assert {ItemKind.DIG, ItemKind.SPOIL}.isdisjoint(item.key.kind for item in found.items)
    small.flat_ground(1000.0)
    small.document["rates"]["disposal"] = {"kind": "grab", "volume_m3": 8.0, "load_price_minor": 1}
    found = taken(small)
    assert found.item(ItemKey(ItemKind.DIG)).net > 1.9
    spoil = found.item(ItemKey(ItemKind.SPOIL))
    assert spoil.low < spoil.net < spoil.high
    assert (spoil.ordered, spoil.order_unit) == (1.0, "grab of 8 m³")


def test_dense_units_take_a_bond_coat(small):
    small.unit["low_absorption"] = True
    small.rectangle(4000.0, 3000.0)
    assert taken(small).item(of_material(MaterialKind.BOND_COAT)).net > 20.0


def test_every_item_has_the_sum_behind_it(small):
    small.rectangle(4000.0, 3000.0)
    small.flat_ground(1000.0)
    for item in taken(small).items:
        assert item.workings, item.key
        assert item.ordered_amount >= item.gross - 1e-9
        assert item.gross >= item.net - 1e-9


def test_a_bed_deeper_than_formation_has_its_trench_dug_taken_away_and_paid_for(small):
    area = small.rectangle(4000.0, 3000.0)
    small.flat_ground(1000.0)
    level = plan(parse(small.document), small.rules)
    area["edges"] = [{"corner": "P0", "restraint": "kerb"}]
    made = plan(parse(small.document), small.rules)
    (up,) = made.build_ups.areas
    # a kerb of 255 stands 100 over the paving, on a bed of 150
    assert up.edge(EdgeRestraint.KERB).foot_mm == 305.0
    dug_m3 = 4.0 * 0.38 * (305.0 - up.total_mm) / 1000.0
    assert made.quantities.item(ItemKey(ItemKind.EDGE_TRENCH)).net == pytest.approx(dug_m3)
    assert made.earthworks.away_m3 - made.earthworks.cut_m3 == pytest.approx(dug_m3)
    assert level.earthworks.away_m3 == pytest.approx(level.earthworks.cut_m3)
    (task,) = [each for each in made.cost.labour if each.key.kind is TaskKind.EDGE_TRENCH]
    assert task.person_hours == pytest.approx(dug_m3 * small.rules.value("cost.dig_by_hand_h_per_m3"))
    assert [each for each in level.cost.labour if each.key.kind is TaskKind.EDGE_TRENCH] == []
