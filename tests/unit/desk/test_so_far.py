"""A first visit, fact by fact: at each step everything that the screens ask for answers, as far as what is known."""

from __future__ import annotations

import copy
import json

import pytest
from click.testing import CliRunner

from pavewright import drawing
from pavewright.cli import main
from pavewright.desk import DRAWINGS, SCREEN_VERBS, make_plan, make_plan_so_far, starter_document
from pavewright.desk._customer import customer
from pavewright.job import JobInvalid
from pavewright.pipeline import MissingCode, Room

DRAWN = {each.key for each in drawing.DRAWINGS}


def _steps():
    document = json.loads(starter_document("A first visit"))
    yield "nothing", document
    points = document["measurements"]["points"]
    points += [
        {"name": name, "x_mm": x, "y_mm": y}
        for name, x, y in (("A", 0.0, 0.0), ("B", 6000.0, 0.0), ("C", 6000.0, 4000.0))
    ]
    yield "points", document
    points.append({"name": "D", "x_mm": 0.0, "y_mm": 4000.0})
    document["areas"] = [{"name": "Patio", "outline": [{"point": name} for name in "ABCD"]}]
    document["site"]["walls"] = [{"name": "House", "start": "A", "end": "B", "kind": "house"}]
    yield "area", document
    document["units"] = [
        {"name": "Slab", "length_mm": 600.0, "width_mm": 600.0, "thickness_mm": 40.0, "kg_each": 33.0, "per_pack": 20}
    ]
    document["areas"][0]["laying"] = {"unit": "Slab"}
    yield "unit", document
    document["site"]["walls"][0]["dpc_level_mm"] = {
        "assumed_mm": 10_150.0,
        "by": "JF",
        "why": "two courses over the drive",
    }
    yield "level", document
    document["site"]["ground"] = {"soil": "sandy_clay"}
    yield "soil", document
    document["rates"] = {"labour_minor_per_hour": 3000}
    yield "price", document
    document["crew"], document["calendar"] = {"people": 2}, {"start": "2027-03-01"}
    yield "people", document


STEPS = {name: copy.deepcopy(document) for name, document in _steps()}
READ = {Room.BEDDING, Room.AS_LAID}
"""Rooms of what was read on site: a first visit has none."""
MADE = {
    "nothing": {Room.SURVEY},
    "points": {Room.SURVEY},
    "area": {Room.SURVEY},
    "unit": {Room.SURVEY, Room.LAYING, Room.QUANTITIES},
    "level": {Room.SURVEY, Room.LAYING, Room.QUANTITIES, Room.LEVELS, Room.WATER},
    "soil": set(Room) - READ - {Room.COST, Room.PROGRAMME},
    "price": set(Room) - READ - {Room.PROGRAMME},
    "people": set(Room) - READ,
}
NEXT = {
    "nothing": MissingCode.SHAPE,
    "points": MissingCode.AREA,
    "area": MissingCode.HEIGHT,
    "unit": MissingCode.HEIGHT,
    "level": MissingCode.OUTFALL,
}


@pytest.fixture(scope="module")
def plans():
    return {name: make_plan_so_far(json.dumps(document)) for name, document in STEPS.items()}


@pytest.mark.parametrize("step", STEPS)
def test_each_fact_brings_the_rooms_that_it_allows(plans, step):
    made = plans[step]
    assert {room for room in Room if getattr(made, room.value) is not None} == MADE[step]
    assert made.faults == ()
    if step in NEXT:
        assert made.missing[0].code is NEXT[step]


def test_what_is_missing_stands_in_the_order_in_which_one_measures(plans):
    order = list(MissingCode)
    for made in plans.values():
        assert [each.code for each in made.missing] == sorted((each.code for each in made.missing), key=order.index)


@pytest.mark.parametrize("step", STEPS)
@pytest.mark.parametrize("verb", ["plan", "preview", "site", "summary", "outcome", "customer"])
def test_every_question_of_the_screens_is_answered(step, verb):
    told = json.loads(SCREEN_VERBS[verb](json.dumps(STEPS[step]).encode(), lambda _: None))
    assert told.get("faults", []) == []


@pytest.mark.parametrize("step", STEPS)
def test_every_drawing_is_there_or_not_but_never_falls_over(plans, step):
    document = json.dumps(STEPS[step]).encode()
    for name in sorted(DRAWN):
        svg = SCREEN_VERBS["drawing"](name.encode() + b"\n" + document, lambda _: None)
        possible = plans[step].has(DRAWINGS[name].needs) and bool(plans[step].survey.points)
        assert bool(svg) <= possible
    assert bool(SCREEN_VERBS["drawing"](b"survey\n" + document, lambda _: None)) == (step != "nothing")


def test_no_price_is_shown_before_there_is_one_and_none_is_sent_without_margin_and_tax(plans):
    assert customer(plans["soil"])["to_pay_minor"] is None
    assert customer(plans["soil"])["not_ready"]
    (stop,) = [each for each in plans["price"].findings if each.code == "cost.percent_not_known"]
    assert stop.severity == "stop"
    assert "overhead, margin and VAT" in stop.message
    assert customer(plans["people"])["tax_minor"] is None
    assert customer(plans["people"])["not_ready"]


def test_units_are_counted_before_anything_is_known_of_what_lies_under_them(plans):
    (item,) = plans["unit"].quantities.items
    assert item.net == 70.0
    (gap,) = plans["unit"].quantities.gaps
    assert "not measured" in gap.words


def test_a_clearance_at_an_unread_damp_proof_course_is_not_known(plans):
    assert plans["unit"].survey.dpc_not_read == ("House",)
    assert [each.code for each in plans["unit"].missing if each.place == "House"] == [MissingCode.DPC]
    (fact,) = plans["level"].survey.assumed
    assert (fact.what, fact.place, fact.value, fact.by) == ("dpc", "House", 10_150.0, "JF")


@pytest.mark.parametrize("step", ["nothing", "unit", "soil"])
def test_the_command_line_says_what_is_known_and_what_comes_next(tmp_path, step):
    path = tmp_path / "job.json"
    path.write_text(json.dumps(STEPS[step]), "utf-8")
    answer = CliRunner().invoke(main, ["plan", str(path), "--quiet"])
    assert answer.exit_code == {"nothing": 0}.get(step, 1), answer.output
    assert "Next  " in answer.output
    packed = CliRunner().invoke(main, ["pack", str(path), "-o", str(tmp_path / "pack"), "--quiet"])
    assert packed.exit_code == answer.exit_code
    assert "Not made yet:" in packed.output
    assert (tmp_path / "pack" / "job-so-far.pdf").exists()
    assert (tmp_path / "pack" / "quantities.xlsx").exists() == (step != "nothing")
    assert not (tmp_path / "pack" / "customer-pack.pdf").exists()


def test_readings_that_contradict_each_other_take_away_what_hangs_on_them_and_nothing_else():
    document = copy.deepcopy(STEPS["people"])
    document["site"]["walls"][0]["dpc_level_mm"] = "Z"
    made = make_plan_so_far(json.dumps(document))
    assert made.levels is made.setting_out is made.cost is None
    assert made.laying is not None
    assert made.missing[0].code is MissingCode.READINGS
    assert len(made.faults) == 1
    told = json.loads(SCREEN_VERBS["plan"](json.dumps(document).encode(), lambda _: None))
    assert told["plan"]["laying"] is not None
    assert len(told["faults"]) == 1
    site = json.loads(SCREEN_VERBS["site"](json.dumps(document).encode(), lambda _: None))["view"]
    assert site["setting_out"] is None, "no peg of another job"


def test_a_level_book_that_is_only_begun_takes_away_heights_and_nothing_else():
    document = copy.deepcopy(STEPS["people"])
    document["measurements"]["level_books"] = [{"name": "Begun", "rows": [{"point": "A", "backsight_mm": 1200.0}]}]
    made = make_plan_so_far(json.dumps(document))
    assert made.laying is not None
    assert made.levels is made.setting_out is None
    assert made.missing[0].code is MissingCode.READINGS
    assert "one row only" in made.faults[0].message
    with pytest.raises(JobInvalid, match="one row only"):
        make_plan(json.dumps(document))


def test_points_that_are_taped_stay_while_the_next_one_waits_for_its_second_tape():
    document = copy.deepcopy(STEPS["nothing"])
    tapes = [{"start": "A", "end": "B", "length_mm": 6000.0}, {"start": "A", "end": "C", "length_mm": 7211.0}]
    document["measurements"]["tape_plan"] = {"base_from": "A", "base_to": "B", "tapes": tapes}
    made = make_plan_so_far(json.dumps(document))
    assert [point.name for point in made.survey.points] == ["A", "B"]
    assert (made.missing[0].code, made.missing[0].place) == (MissingCode.TAPE, "C")
    assert "needs two" in made.missing[0].words
    assert made.faults == (), "nothing contradicts anything: it is only not measured yet"
