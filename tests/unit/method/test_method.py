"""What the work does to people: lifts, dust, vibration, noise, the footway; what nobody knows is never zero."""

from __future__ import annotations

import copy
import json
import math

import pytest

from pavewright import rulebook
from pavewright.desk import demo_document, make_plan
from pavewright.job import PlantKind
from pavewright.method import LiftWay, ToolVerdict, lift_way, method_figures
from pavewright.method._lifting import rate_kg, two_kg
from pavewright.pipeline import method_of

RULES = rulebook.load("england")


@pytest.fixture(scope="module")
def terrace(made_plan):
    made = made_plan("l_terrace")
    return made, method_of(made, RULES)


@pytest.fixture(scope="module")
def drive(made_plan):
    made = made_plan("front_drive")
    return made, method_of(made, RULES)


@pytest.fixture(scope="module")
def shaken():
    """The demo, whose saw and a plate are known to shake and to be loud."""
    document = json.loads(demo_document())
    plant = document["rates"]["plant"]
    saw = next(each for each in plant if each["key"] == "saw")
    saw |= {"vibration_m_per_s2": 5.0, "noise_db": 104.0, "kg_each": 10.5}
    made = make_plan(json.dumps(document))
    return made, method_of(made, RULES)


def test_a_weight_decides_who_lifts_and_no_weight_is_not_known():
    known = method_figures(RULES)
    assert [lift_way(kg, known) for kg in (25.0, 25.1, 33.3, 33.4, None)] == [
        LiftWay.ONE, LiftWay.TWO, LiftWay.TWO, LiftWay.AID, LiftWay.NOT_KNOWN,
    ]  # fmt: skip
    assert two_kg(known).result == pytest.approx(100.0 / 3.0)


def test_a_lift_that_is_repeated_often_weighs_less():
    known = method_figures(RULES)
    assert [round(rate_kg(per_h, known).result, 9) for per_h in (30.0, 31.0, 120.0, 121.0, 481.0)] == [
        25.0,
        17.5,
        17.5,
        12.5,
        5.0,
    ]
    assert all(rate_kg(per_h, known).figures for per_h in (1.0, 100.0))


def test_what_is_lifted_is_what_is_ordered(terrace):
    made, found = terrace
    items = {item.key: item for item in made.quantities.items}
    lifted = {each.key: each for each in found.lifts.things}
    for number, unit in enumerate(made.job.units):
        each = next(
            (one for key, one in lifted.items() if getattr(key, "number", None) == number and one.each == "unit"), None
        )
        if each is not None:
            assert (each.kg, each.count) == (unit.kg_each, items[each.key].ordered_amount)
    bags = [each for each in found.lifts.things if each.each == "bag of 25 kg"]
    assert bags
    assert all((each.kg, each.way) == (25.0, LiftWay.ONE) for each in bags)
    bulk = [each for each in found.lifts.things if each.each == "pack of 850 kg"]
    assert bulk
    assert all(each.way is LiftWay.AID for each in bulk)
    pieces = [each for each in found.lifts.things if each.description.startswith("Channel with grating")]
    assert [(each.kg, each.way) for each in pieces] == [(None, LiftWay.NOT_KNOWN)]


def test_heaviest_first_and_unknown_last(terrace):
    _, found = terrace
    weights = [each.kg for each in found.lifts.things]
    known = [each for each in weights if each is not None]
    assert known == sorted(known, reverse=True)
    assert weights[len(known) :] == [None] * (len(weights) - len(known))


def test_dust_is_metres_over_speed_with_its_range(terrace):
    made, found = terrace
    speed = found.figures.saw_m_per_min
    assert found.dust.saw_m == pytest.approx(made.laying.saw_m)
    assert found.dust.minutes.likely == pytest.approx(made.laying.saw_m / speed.value)
    assert found.dust.minutes.low == pytest.approx(made.laying.saw_m / speed.high)
    assert found.dust.minutes.high == pytest.approx(made.laying.saw_m / speed.low)
    assert found.dust.busiest_min.high <= found.dust.minutes.high + 1e-9
    assert found.dust.busiest_min.likely * max(found.dust.days, 1) >= found.dust.minutes.likely - 1e-9
    assert speed in found.dust.working.figures


def test_a_tool_of_unknown_vibration_is_not_known_and_never_zero(terrace):
    _, found = terrace
    saw = next(each for each in found.tools if each.kind is PlantKind.SAW)
    assert saw.minutes is not None
    assert (saw.points, saw.to_action_min, saw.vibration) == (None, None, ToolVerdict.NOT_KNOWN)
    assert (saw.noise_day_db, saw.noise) == (None, ToolVerdict.NOT_KNOWN)
    assert found.points_together is None


def test_points_and_minutes_of_a_known_saw(shaken):
    _, found = shaken
    saw = next(each for each in found.tools if each.kind is PlantKind.SAW)
    hours = saw.minutes.high / 60.0
    assert saw.points.high == pytest.approx(2.0 * 5.0**2 * hours)
    assert (saw.to_action_min, saw.to_limit_min) == (pytest.approx(120.0), pytest.approx(480.0))
    assert saw.vibration is ToolVerdict.BELOW_ACTION
    assert saw.noise_day_db == pytest.approx(104.0 + 10.0 * math.log10(hours / 8.0))
    assert saw.noise is ToolVerdict.OVER_LIMIT
    assert [each.unit for each in saw.workings] == ["points", "dB(A)"]
    machine = next(each for each in found.lifts.things if each.kg == 10.5)
    assert machine.way is LiftWay.ONE


def test_a_plate_that_nobody_listed_is_used_all_the_same_where_stone_is_compacted():
    document = json.loads(demo_document())
    document = copy.deepcopy(document)
    for area in document["areas"]:
        area["laying"]["bedding"] = "sand_on_sub_base"
    document["rates"]["plant"] = [each for each in document["rates"]["plant"] if each["key"] != "plate"]
    found = method_of(make_plan(json.dumps(document)), RULES)
    plate = next(each for each in found.tools if each.kind is PlantKind.PLATE)
    assert plate.key is None
    assert plate.bound
    assert plate.minutes.high > 0.0
    assert plate.vibration is ToolVerdict.NOT_KNOWN


def test_lifts_of_the_busiest_day_add_up(terrace):
    made, found = terrace
    rate = found.rate
    assert rate.pieces <= sum(len(laid.pieces) for laid in made.laying.areas)
    assert rate.lifts.likely == pytest.approx(rate.pieces * found.figures.lifts_each.value)
    assert rate.heaviest_kg == max(piece.kg for laid in made.laying.areas for piece in laid.pieces)
    assert made.programme.start <= rate.on <= made.programme.finish


def test_a_road_beside_the_work_is_found_and_none_entered_is_said(drive):
    made, found = drive
    highways = [each.name for each in made.survey.site.boundaries if each.neighbour == "highway"]
    highways += [each.name for each in made.survey.site.tie_ins if each.beyond == "highway"]
    assert {each.name for each in found.public} == set(highways)
    assert found.public
    assert all(each.near == (each.away_mm < found.figures.public_near_mm.value) for each in found.public)


def test_one_guideline_weight_in_the_whole_program(terrace):
    _, found = terrace
    assert found.lifts.one_kg.key == "laying.one_person_kg"
    assert found.lifts.one_kg.status.value == "M"
