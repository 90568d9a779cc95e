"""What must hold of any job: it goes round as text unchanged, and no room falls over it."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.desk import make_plan, make_plan_so_far
from pavewright.job import JobInvalid, load_document, parse, schema, to_text
from pavewright.pipeline import WHOLE, MissingCode, Room
from tests.property.strategies import documents, measured_documents

TERRACE = (Path(__file__).parents[2] / "examples" / "l_terrace.json").read_text("utf-8")


VALIDATOR = jsonschema.Draft202012Validator(schema())


@settings(max_examples=60, deadline=None)
@given(st.one_of(documents(), measured_documents()))
def test_a_job_goes_round_as_text_unchanged_and_meets_its_schema(document):
    job = parse(load_document(json.dumps(document)))
    text = to_text(job)
    assert parse(load_document(text)) == job
    assert to_text(parse(load_document(text))) == text
    VALIDATOR.validate(json.loads(text))


def planned(document):
    """The plan of a job: whole, or all but its price where nothing in the document has one."""
    made = make_plan_so_far(json.dumps(document))
    priced = document["rates"]["labour_minor_per_hour"] or any(unit["pack_price_minor"] for unit in document["units"])
    stopped = {(each.code, each.rooms) for each in made.missing if each.rooms}
    assert not made.faults
    assert stopped == (set() if priced else {(MissingCode.PRICES, (Room.COST,))})
    assert (made.cost is not None) == bool(priced)
    assert made.has(room for room in WHOLE if room is not Room.COST)
    return made


@settings(max_examples=25, deadline=None)
@given(measured_documents())
def test_a_job_as_a_visit_gives_it_is_planned(document):
    made = planned(document)
    assert made.survey.tapes.spare == 1
    assert abs(made.survey.level_books[0].misclosure_mm) <= 3.0
    corners = [corner["point"] for corner in document["areas"][0]["outline"]]
    wide, deep = made.survey.point(corners[2]).xy
    assert made.survey.site.areas[0].gross.area_m2 == pytest.approx(wide * deep / 1e6, rel=0.02)
    least = min(clearance.min_mm for clearance in made.levels.areas[0].clearances)
    assert least >= 150.0 - 1e-6 or made.findings


@settings(max_examples=40, deadline=None)
@given(documents())
def test_every_small_job_is_planned_and_its_sums_agree(document):
    made = planned(document)
    laid, area = made.laying.areas[0], made.survey.site.areas[0]
    assert abs(laid.paved_m2 + laid.joint_m2 - area.shape.area_m2) < 1e-6
    assert laid.min_units <= laid.units_with_offcuts <= laid.units_each_cut_new
    if made.cost is not None:
        assert made.cost.prime_minor == sum(line.amount_minor for line in made.cost.lines)
    assert (
        abs(sum(each.area_m2 for each in made.water.catchments) - area.gross.area_m2) < 1e-3
        or not made.water.catchments
    )


@settings(max_examples=60, deadline=None)
@given(st.integers(0, len(TERRACE) - 1), st.sampled_from(["", "0", "-", '"', "}", "[", "9e9", "null", "\u202e", "A"]))
def test_a_spoilt_file_is_refused_with_sentences_or_planned_but_never_falls_over(place, sign):
    spoilt = TERRACE[:place] + sign + TERRACE[place + 1 :]
    try:
        make_plan(spoilt)
    except JobInvalid as invalid:
        assert all(fault.message for fault in invalid.faults)


def test_a_strip_that_ends_in_a_point_does_not_stop_the_plan():
    document = json.loads(TERRACE)
    places = {"A": (0.0, 0.0), "B": (5105.0, 0.0), "C": (5105.0, 900.0), "D": (0.0, 900.0)}
    document["measurements"] = {"points": [{"name": n, "x_mm": x, "y_mm": y} for n, (x, y) in places.items()]}
    document["site"] = {"ground": {"soil": "sandy_clay"}}
    del document["as_laid"], document["handed_over"]
    document["areas"][0] |= {
        "outline": [{"point": name} for name in places],
        "fall": {"bearing_deg": 80.0, "level_at": "A", "level_mm": 0.0},
        "edges": [],
    }
    made = make_plan(json.dumps(document))
    (area,), caught = made.survey.site.areas, made.water.catchments
    assert sum(each.area_m2 for each in caught) == pytest.approx(area.gross.area_m2)
    for each in caught:
        assert sum(shape.area_m2 for shape in each.shapes) == pytest.approx(each.area_m2)


JUNK: st.SearchStrategy[object] = st.sampled_from(
    [
        0,
        0.0,
        -1,
        1,
        1e-9,
        1e6,
        -1e7,
        1e300,
        "",
        "A",
        "ZZ",
        None,
        True,
        [],
        {},
        [[]],
        [None],
        "2027-13-40",
        360.0,
        [1, 2],
    ]
)


def places_in(part):
    """Every entry of a document with what holds it."""
    for step, value in part.items() if isinstance(part, dict) else enumerate(part):
        yield part, step
        if isinstance(value, dict | list):
            yield from places_in(value)


@settings(max_examples=150, deadline=None)
@given(st.data(), st.lists(st.integers(0, 10**6), min_size=1, max_size=3))
def test_whatever_stands_in_a_field_a_fault_gets_its_own_sentence(data, where):
    document = json.loads(TERRACE)
    for number in where:
        held = list(places_in(document))
        owner, step = held[number % len(held)]
        if data.draw(st.booleans(), label="taken out"):
            del owner[step]
        else:
            owner[step] = copy.deepcopy(data.draw(JUNK, label="put in"))
    try:
        parse(load_document(json.dumps(document)))
    except JobInvalid as invalid:
        for fault in invalid.faults:
            assert fault.path, fault.message
            assert "cannot be read: write it again" not in fault.message, fault
            assert "Input should" not in fault.message
