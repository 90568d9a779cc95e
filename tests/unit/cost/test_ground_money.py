"""What lies under formation and what is carried: filled, walled, brought in, and priced; unknown topsoil as a range."""

from __future__ import annotations

import pytest

from pavewright.cost import LineGroup, TaskKey, TaskKind
from pavewright.job import MaterialKind, parse
from pavewright.papers._scope_words import scope_words
from pavewright.pipeline import plan
from pavewright.quantities import ItemKey, ItemKind, of_material

STONE = {"key": "sub_base", "pack_amount": 850.0, "pack_unit": "kg", "pack_price_minor": 5000}


def patio(small, ground_mm=900.0, **known):
    """A patio of 4 by 3 m at 1.000, build-up 150, on level ground."""
    entered = small.rectangle(4000.0, 3000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 1000.0, "level_at": "P0", "level_mm": 1000.0}
    small.flat_ground(ground_mm)
    small.site["ground"] = {"soil": "sandy_clay", **known}
    small.document["rates"]["materials"] = [dict(STONE)]


def planned(small):
    return plan(parse(small.document), small.rules)


def line(made, key):
    return next(each for each in made.cost.lines if each.key == key)


def test_fill_under_formation_is_measured_bought_worked_and_dated(small):
    patio(small, topsoil_mm=150.0)
    made = planned(small)
    fill = made.earthworks.fill_m3
    assert fill == pytest.approx(13.44 * 0.0985)
    assert made.quantities.item(ItemKey(ItemKind.FILL)).net == pytest.approx(fill)
    # 2100 kg a cubic metre, 10 % lost
    assert made.quantities.item(of_material(MaterialKind.SUB_BASE)).gross == pytest.approx(fill * 2100.0 * 1.1)
    assert line(made, TaskKey(TaskKind.FILL, 0)).quantity == pytest.approx(fill * 1.2)
    keys = [task.key for task in made.programme.tasks]
    assert keys.index(TaskKey(TaskKind.DIG, 0)) < keys.index(TaskKey(TaskKind.FILL, 0))
    assert keys.index(TaskKey(TaskKind.FILL, 0)) < keys.index(TaskKey(TaskKind.BASE, 0))
    assert not [each for each in made.cost.lines if each.group is LineGroup.PROVISIONAL]


def test_topsoil_of_unknown_depth_is_a_provisional_sum_with_its_range(small):
    patio(small)
    small.document["rates"]["disposal"] = {"kind": "skip", "volume_m3": 1.0, "load_price_minor": 9000}
    small.site["carry_mm"] = 25000.0
    made = planned(small)
    provisional = {each.key: each for each in made.cost.lines if each.group is LineGroup.PROVISIONAL}
    work = TaskKey(TaskKind.TOPSOIL_PROVISIONAL, 0)
    assert set(provisional) == {work, ItemKey(ItemKind.PROVISIONAL_STONE), ItemKey(ItemKind.PROVISIONAL_SPOIL)}
    for each in provisional.values():
        assert each.low_minor <= each.amount_minor <= each.high_minor
        assert each.low_minor < each.high_minor
        assert each.description.startswith("Provisional")
    # a dig of 51.5 in the mean: topsoil of 200 takes 148.5 more, and as much fill; 150 and 300 at the ends
    more = 13.44 * 0.1485
    hours = more * (2.2 + 1.3 + 1.1 * 0.5) + more * 1.2
    assert provisional[work].quantity == pytest.approx(hours)
    stone = provisional[ItemKey(ItemKind.PROVISIONAL_STONE)]
    assert stone.amount_minor == pytest.approx(more * 2100.0 * 1.1 / 850.0 * 5000, abs=1.0)
    assert stone.low_minor == pytest.approx(13.44 * 0.0985 * 2100.0 * 1.1 / 850.0 * 5000, abs=1.0)
    assert stone.high_minor == pytest.approx(13.44 * 0.2485 * 2100.0 * 1.1 / 850.0 * 5000, abs=1.0)
    assert sum(each.amount_minor for each in made.cost.lines) == made.cost.prime_minor
    share = made.cost.provisional
    assert share.likely_minor == sum(each.amount_minor for each in provisional.values())
    assert share.low_minor < share.likely_minor < share.high_minor
    (reported,) = [words for words in scope_words(made) if words.startswith("Provisional")]
    assert "150 mm" in reported
    assert "300 mm" in reported


def test_unknown_topsoil_costs_about_what_the_same_topsoil_known_costs(small):
    patio(small)
    small.document["rates"]["materials"][0]["pack_amount"] = 1.0
    small.document["rates"]["materials"][0]["pack_price_minor"] = 6
    unknown = planned(small).cost
    small.site["ground"]["topsoil_mm"] = 200.0
    known = planned(small).cost
    # but for room to work beside the dig, and whole packs
    assert unknown.prime_minor == pytest.approx(known.prime_minor, rel=0.02)
    assert unknown.low_minor <= known.total_minor <= unknown.high_minor


def test_a_low_wall_is_bought_and_built_before_what_it_holds(small):
    patio(small, ground_mm=600.0, topsoil_mm=0.0)
    small.document["areas"][0]["edges"] = [
        {"corner": corner, "restraint": "retaining"} for corner in ("P0", "P1", "P2", "P3")
    ]
    made = planned(small)
    face = sum(edge.wall.face_m2 for edge in made.build_ups.retained)
    assert made.quantities.item(of_material(MaterialKind.WALLING)).net == pytest.approx(face)
    footing = sum(edge.wall.footing_m3 for edge in made.build_ups.retained)
    assert made.quantities.item(ItemKey(ItemKind.WALL_FOOTING)).net == pytest.approx(footing)
    trench = sum(edge.wall.trench_m3 for edge in made.build_ups.retained)
    assert made.earthworks.away_m3 == pytest.approx(made.earthworks.cut_m3 + trench)
    assert line(made, TaskKey(TaskKind.WALL, 0)).quantity == pytest.approx(face * 3.0)
    keys = [task.key for task in made.programme.tasks]
    assert keys.index(TaskKey(TaskKind.WALL, 0)) < keys.index(TaskKey(TaskKind.FILL, 0))


def test_a_wall_that_an_engineer_designs_is_seen_and_said_to_have_no_price(small):
    patio(small, ground_mm=300.0, topsoil_mm=0.0)
    made = planned(small)
    wall = made.quantities.item(ItemKey(ItemKind.ENGINEERED_WALL))
    assert wall.net == pytest.approx(14.0 * 0.6985, rel=0.01)
    assert any("engineer" in gap.words for gap in made.cost.gaps)


def test_what_is_bought_is_carried_in_over_the_way_to_the_work(small):
    patio(small, ground_mm=1000.0, topsoil_mm=0.0)
    small.site["carry_mm"] = 45000.0
    made = planned(small)
    kg = sum(
        item.kg for item in made.quantities.items if item.kg and item.key.kind in {ItemKind.MATERIAL, ItemKind.UNITS}
    )
    loose_m3 = kg / 1550.0
    load, wheel = (line(made, TaskKey(TaskKind.CARRY_IN, None, number)) for number in (0, 1))
    assert load.quantity == pytest.approx(loose_m3 * 1.0)
    assert wheel.quantity == pytest.approx(loose_m3 * 1.1 * 0.9)
    assert "barrows" in wheel.working.note


def test_a_dumper_carries_where_it_fits_and_not_where_it_does_not(small):
    patio(small, ground_mm=1000.0, topsoil_mm=0.0)
    small.site["carry_mm"] = 50000.0
    small.document["rates"]["plant"] = [{"key": "dumper", "day_price_minor": 5000}]
    hours = {}
    for width in (None, 800.0, 1200.0):
        small.site["access_width_mm"] = width
        made = planned(small)
        codes = {finding.code for finding in made.cost.findings}
        hours[width] = line(made, TaskKey(TaskKind.CARRY_IN, None, 1)).quantity
        assert ("cost.dumper_way_unknown" in codes) is (width is None)
        assert ("cost.dumper_does_not_fit" in codes) is (width == 800.0)
    assert hours[None] == hours[800.0] == pytest.approx(hours[1200.0] * 1.1 / 0.35)


def test_a_way_in_that_nobody_paced_is_asked_for(small):
    patio(small, ground_mm=1000.0, topsoil_mm=0.0)
    assert "cost.carry_unknown" in {finding.code for finding in planned(small).cost.findings}
    small.site["carry_mm"] = 0.0
    assert "cost.carry_unknown" not in {finding.code for finding in planned(small).cost.findings}
