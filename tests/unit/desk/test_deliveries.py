"""What a phone sends changes a job once and whole, or not at all with a sentence."""

from __future__ import annotations

import copy
import json

import pytest

from pavewright import rulebook
from pavewright.desk import DeliveryRefusedError, deliver_into, demo_document
from pavewright.job import parse
from pavewright.survey import survey

DEMO = demo_document().decode()


def sent(kind, *entries, into=DEMO, **more):
    return json.loads(deliver_into(into, {"kind": kind, "entries": list(entries), **more}))


def read(point, reading_mm, sight="next", setup=1, book="Phone 1"):
    return {"book": book, "point": point, "reading_mm": reading_mm, "sight": sight, "setup": setup}


def rows(document, book="Phone 1"):
    return next(each for each in document["measurements"]["level_books"] if each["name"] == book)["rows"]


def test_a_tape_is_added_and_nothing_else_changes():
    after = sent("tapes", {"start": "A", "end": "C", "length_mm": 9574.0})
    before = json.loads(DEMO)
    assert after["measurements"]["tape_plan"]["tapes"].pop() == {"start": "A", "end": "C", "length_mm": 9574.0}
    assert after == before


def test_the_first_tapes_of_a_job_make_its_base_line_and_say_on_which_side_a_point_lies(small):
    small.rectangle(4000.0, 3000.0)
    first = deliver_into(
        json.dumps(small.document), {"kind": "tapes", "entries": [{"start": "P0", "end": "P1", "length_mm": 4000}]}
    )
    side = {"point": "Post", "line_from": "P0", "line_to": "P1", "side": "left"}
    after = sent("tapes", {"start": "P0", "end": "Post", "length_mm": 5000.0, "side": side},
                 {"start": "P1", "end": "Post", "length_mm": 3000.0, "side": side}, into=first)  # fmt: skip
    plan = after["measurements"]["tape_plan"]
    assert (plan["base_from"], plan["base_to"], len(plan["tapes"])) == ("P0", "P1", 3)
    assert plan["sides"] == [side]


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        ({"start": "A", "end": "A", "length_mm": 10.0}, "named twice"),
        ({"start": "A", "end": "B", "length_mm": 0.0}, "more than zero"),
        ({"start": "A", "end": "B", "length_mm": float("nan")}, "not a number"),
        ({"start": "A", "end": "B", "length_mm": "12"}, "not a number"),
        ({"start": "A", "end": "B", "length_mm": True}, "not a number"),
        ({"start": "A", "end": "B", "length_mm": 9e9}, "farther than any site"),
        ({"start": "", "end": "B", "length_mm": 9.0}, "missing"),
        ({"start": "A\n", "end": "B", "length_mm": 9.0}, "has to be text"),
        ({"start": "\ud800", "end": "B", "length_mm": 9.0}, "characters"),
        ({"start": "A", "end": "B", "length_mm": 2e6}, "unit"),
    ],
)
def test_a_tape_that_makes_no_sense_is_refused_with_a_sentence(entry, words):
    with pytest.raises(DeliveryRefusedError, match=words):
        sent("tapes", entry)


def test_nothing_is_half_applied():
    good, bad = {"start": "A", "end": "B", "length_mm": 8413.0}, {"start": "A", "end": "B", "length_mm": -1.0}
    with pytest.raises(DeliveryRefusedError):
        sent("tapes", good, bad)
    assert DEMO == demo_document().decode()


def test_a_level_book_can_be_reduced_after_every_delivery():
    steps = (
        [read("BM", 1500.0, "first"), read("G1", 1530.0)],
        [read("G2", 1541.0)],
        [read("G2", 1300.0, "moved", 2), read("G3", 1320.0, setup=2)],
        [read("BM", 1259.0, setup=2)],
    )
    text = DEMO
    for entries in steps:
        text = deliver_into(text, {"kind": "staff", "entries": entries})
        job = parse(json.loads(text))
        reduced = survey(job, rulebook.load("england")).level_books[-1]
        assert reduced.name == "Phone 1"
    assert rows(json.loads(text)) == [
        {"point": "BM", "backsight_mm": 1500.0},
        {"point": "G1", "intermediate_mm": 1530.0},
        {"point": "G2", "foresight_mm": 1541.0, "backsight_mm": 1300.0},
        {"point": "G3", "intermediate_mm": 1320.0},
        {"point": "BM", "foresight_mm": 1259.0},
    ]
    # 1500 − 1541 + 1300 − 1259 = 0: the book closes
    assert reduced.misclosure_mm == 0.0


def test_a_reading_after_a_lost_change_point_is_refused_and_not_reduced_from_the_old_set_up():
    text = json.dumps(sent("staff", read("BM", 1500.0, "first"), read("G1", 1530.0)))
    with pytest.raises(DeliveryRefusedError, match="change point is missing"):
        sent("staff", read("G3", 1320.0, setup=2), into=text)
    with pytest.raises(DeliveryRefusedError, match="read back to G1"):
        sent("staff", read("G2", 1300.0, "moved", 2), read("G3", 1320.0, setup=2), into=text)


def test_a_book_starts_on_the_datum():
    with pytest.raises(DeliveryRefusedError, match="begins Phone 1 is missing"):
        sent("staff", read("G1", 1530.0))
    with pytest.raises(DeliveryRefusedError, match="whose level nothing gives"):
        sent("staff", read("Apple", 1500.0, "first"), read("G1", 1530.0))
    with pytest.raises(DeliveryRefusedError, match="one row only"):
        sent("staff", read("BM", 1500.0, "first"))
    text = json.dumps(sent("staff", read("BM", 1500.0, "first"), read("G1", 1530.0)))
    with pytest.raises(DeliveryRefusedError, match="already"):
        sent("staff", read("BM", 1500.0, "first"), into=text)


def test_a_reading_longer_than_any_staff_is_refused():
    with pytest.raises(DeliveryRefusedError, match="longer than any staff"):
        sent("staff", read("BM", 1500.0, "first"), read("G1", 15300.0))


def test_lower_and_higher_than_the_datum_become_levels():
    entry = {"book": "By datum 1", "datum": "BM", "point": "Gully", "way": "lower", "by_mm": 150.0}
    text = json.dumps(sent("level_by_datum", entry))
    after = sent("level_by_datum", {**entry, "point": "IC1", "way": "higher", "by_mm": 25.0}, into=text)
    reduced = survey(parse(after), rulebook.load("england")).level_books[-1]
    assert {row.point: row.level_mm for row in reduced.rows} == {"BM": 10000.0, "Gully": 9850.0, "IC1": 10025.0}
    with pytest.raises(DeliveryRefusedError, match="without a sign"):
        sent("level_by_datum", {**entry, "by_mm": -150.0})
    with pytest.raises(DeliveryRefusedError, match="lower or higher"):
        sent("level_by_datum", {**entry, "way": "up"})


def test_a_level_as_laid_is_added_or_begins_the_check():
    entry = {"x_mm": 500.0, "y_mm": 600.0, "level_mm": 9980.0, "area": "Terrace", "label": "L30"}
    assert sent("as_laid", entry)["as_laid"]["readings"][-1] == entry
    bare = json.loads(DEMO)
    del bare["as_laid"]
    after = sent("as_laid", entry, into=json.dumps(bare), date="2027-06-05")
    assert after["as_laid"] == {"date": "2027-06-05", "readings": [entry]}
    with pytest.raises(DeliveryRefusedError, match="date"):
        sent("as_laid", entry, into=json.dumps(bare), date="soon")
    with pytest.raises(DeliveryRefusedError, match="no area Lawn"):
        sent("as_laid", {**entry, "area": "Lawn"})


def test_a_later_answer_takes_the_place_of_the_first():
    question = "Is there a footing under the fence?"
    after = sent("walk_round", {"question": question, "answer": "value", "value": "yes, 300 deep"})
    reported = [each for each in after["site"]["walk_round"] if each["question"] == question]
    assert reported == [{"question": question, "answer": "value", "value": "yes, 300 deep"}]
    with pytest.raises(DeliveryRefusedError, match="Write what was seen"):
        sent("walk_round", {"question": question, "answer": "value"})


@pytest.mark.parametrize(
    ("kind", "entries"),
    [
        ("tapes", [{"start": "A", "end": "C", "length_mm": 9574.0}]),
        ("staff", [read("BM", 1500.0, "first"), read("G1", 1530.0)]),
        ("level_by_datum", [{"book": "By datum 1", "datum": "BM", "point": "Gully", "way": "lower", "by_mm": 150.0}]),
        ("as_laid", [{"x_mm": 500.0, "y_mm": 600.0, "level_mm": 9980.0, "area": "Terrace", "label": "L30"}]),
        ("walk_round", [{"question": "Which tree?", "answer": "none"}]),
    ],
)
def test_what_is_taken_back_leaves_the_job_as_it_was(kind, entries):
    text = json.dumps(sent(kind, *entries))
    back = {"of": kind, "entry": entries[-1]}
    assert sent("take_back", back, into=text) == json.loads(DEMO)
    with pytest.raises(DeliveryRefusedError, match="any more"):
        sent("take_back", back)


def test_the_last_reading_after_a_change_point_is_taken_back_with_its_backsight():
    first = json.dumps(sent("staff", read("BM", 1500.0, "first"), read("G1", 1530.0), read("G2", 1541.0)))
    after = json.dumps(sent("staff", read("G2", 1300.0, "moved", 2), read("G3", 1320.0, setup=2), into=first))
    assert sent("take_back", {"of": "staff", "entry": read("G3", 1320.0, setup=2)}, into=after) == json.loads(first)
    assert rows(sent("take_back", {"of": "staff", "entry": read("G2", 1541.0)}, into=first))[-1] == {
        "point": "G1",
        "foresight_mm": 1530.0,
    }


@pytest.mark.parametrize(
    "delivery",
    [
        {},
        {"kind": "gossip", "entries": [{}]},
        {"kind": ["tapes"], "entries": [{}]},
        {"kind": "tapes"},
        {"kind": "tapes", "entries": []},
        {"kind": "tapes", "entries": [{}] * 201},
        {"kind": "tapes", "entries": ["A"]},
        {"kind": "take_back", "entries": [{"of": "take_back", "entry": {}}]},
        {"kind": "take_back", "entries": [{"of": "staff", "entry": 3}]},
    ],
)
def test_what_is_no_delivery_is_refused(delivery):
    with pytest.raises(DeliveryRefusedError):
        deliver_into(DEMO, delivery)


def test_a_job_that_is_at_fault_already_still_takes_readings():
    broken = json.loads(DEMO)
    broken["areas"][0]["laying"]["unit"] = "no such slab"
    after = sent("tapes", {"start": "A", "end": "C", "length_mm": 9574.0}, into=json.dumps(broken))
    assert len(after["measurements"]["tape_plan"]["tapes"]) == len(broken["measurements"]["tape_plan"]["tapes"]) + 1


@pytest.mark.parametrize(
    "part",
    [
        {"measurements": []},
        {"measurements": {"tape_plan": []}},
        {"measurements": {"level_books": [3]}},
        {"site": {"walk_round": [4]}},
    ],
)
def test_a_document_that_is_no_job_refuses_readings(part):
    document = json.dumps(copy.deepcopy(part))
    for kind, entry in (
        ("tapes", {"start": "A", "end": "C", "length_mm": 9.0}),
        ("staff", read("BM", 1500.0, "first")),
        ("walk_round", {"question": "?", "answer": "none"}),
    ):
        try:
            deliver_into(document, {"kind": kind, "entries": [entry]})
        except DeliveryRefusedError as refusal:
            assert str(refusal).endswith((".", "screen."))
