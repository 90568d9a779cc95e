"""Operations of two people on one job: what merges, what clashes, and what things are called afterwards."""

from __future__ import annotations

import json
import time
import typing

import pytest
from pydantic import BaseModel

from pavewright import job as jobs
from pavewright.job.operations import (
    MISSING,
    REFERENCES,
    ClashKind,
    OperationRefusedError,
    apply,
    between,
    checked_operations,
)

WALL = {"name": "House", "start": "A", "end": "B", "dpc_level_mm": 10150.0, "openings": []}
TAPE = {"start": "A", "end": "B", "length_mm": 4000.0}


def job():
    return {
        "identity": {"job": "1", "client": ""},
        "measurements": {"points": [{"name": "A", "x_mm": 0.0, "y_mm": 0.0}], "tape_plan": None},
        "site": {"walls": [WALL]},
        "areas": [{"name": "Patio", "fall": {"away_from": "House"}, "outline": [{"point": "A"}]}],
    }


def changed(act):
    document = json.loads(json.dumps(job()))
    act(document)
    return document


def merged(mine, theirs):
    """What is left when the second change arrives after the first."""
    return apply(changed(mine), between(job(), changed(theirs)))


def test_a_reading_and_a_client_are_both_there():
    def client(document):
        document["identity"]["client"] = "A. Sample"

    def reading(document):
        document["measurements"]["tape_plan"] = {"base_from": "A", "base_to": "B", "tapes": [TAPE]}

    for first, second in ((client, reading), (reading, client)):
        done = merged(first, second)
        assert done.clashes == ()
        assert done.document["identity"]["client"] == "A. Sample"
        assert done.document["measurements"]["tape_plan"]["tapes"] == [TAPE]


def test_first_tapes_of_two_people_are_both_kept():
    def plan(length):
        tapes = {"base_from": "A", "base_to": "B", "tapes": [TAPE | {"length_mm": length}]}
        return lambda document: document["measurements"].update(tape_plan=tapes)

    done = merged(plan(4000.0), plan(4010.0))
    assert [each["length_mm"] for each in done.document["measurements"]["tape_plan"]["tapes"]] == [4000.0, 4010.0]
    assert done.clashes == ()


def test_the_same_field_set_to_two_values_keeps_both_in_a_clash():
    def dpc(level):
        return lambda document: document["site"]["walls"][0].update(dpc_level_mm=level)

    done = merged(dpc(10100.0), dpc(10120.0))
    assert done.document["site"]["walls"][0]["dpc_level_mm"] == 10100.0
    (clash,) = done.clashes
    assert (clash.kind, clash.ours, clash.theirs) == (ClashKind.VALUE, 10100.0, 10120.0)
    assert merged(dpc(10100.0), dpc(10100.0)).clashes == ()


def test_what_belongs_to_something_that_is_gone_is_kept_in_a_clash():
    done = merged(
        lambda document: document["site"]["walls"].clear(),
        lambda document: document["site"]["walls"][0]["openings"].append({"name": "Door", "along_mm": 100.0}),
    )
    (clash,) = done.clashes
    assert clash.kind is ClashKind.GONE
    assert clash.theirs == {"name": "Door", "along_mm": 100.0}
    assert clash.ours is MISSING


def test_what_was_changed_since_is_not_removed():
    done = merged(
        lambda document: document["site"]["walls"][0].update(dpc_level_mm=10100.0),
        lambda document: document["site"]["walls"].clear(),
    )
    (clash,) = done.clashes
    assert clash.kind is ClashKind.CHANGED
    assert clash.ours["dpc_level_mm"] == 10100.0
    assert len(done.document["site"]["walls"]) == 1


def test_two_walls_of_one_new_name_are_both_there_and_references_follow():
    def wall(point):
        def act(document):
            document["site"]["walls"].append({"name": "Wall 2", "start": point, "end": "B"})
            document["areas"][0]["fall"]["away_from"] = "Wall 2" if point == "C" else "House"

        return act

    done = merged(wall("A"), wall("C"))
    assert [each["name"] for each in done.document["site"]["walls"]] == ["House", "Wall 2", "Wall 2 2"]
    assert done.document["areas"][0]["fall"]["away_from"] == "Wall 2 2"
    assert done.clashes == ()


def test_a_new_point_that_has_another_ones_name_brings_its_tapes_along():
    def point(x_mm):
        def act(document):
            document["measurements"]["points"].append({"name": "C", "x_mm": x_mm, "y_mm": 0.0})
            tape = {"start": "A", "end": "C", "length_mm": x_mm}
            document["measurements"]["tape_plan"] = {"base_from": "A", "base_to": "C", "tapes": [tape]}

        return act

    done = merged(point(3000.0), point(5000.0))
    tapes = done.document["measurements"]["tape_plan"]["tapes"]
    assert [(each["end"], each["length_mm"]) for each in tapes] == [("C", 3000.0), ("C 2", 5000.0)]


def test_two_answers_to_one_question_are_left_to_a_person():
    def answer(words):
        said = [{"question": "Manholes?", "answer": words}]
        return lambda document: document["site"].update(walk_round=said)

    done = merged(answer("none"), answer("could_not_see"))
    (clash,) = done.clashes
    assert (clash.kind, clash.ours["answer"], clash.theirs["answer"]) == (ClashKind.TAKEN, "none", "could_not_see")


@pytest.mark.parametrize(
    "given",
    [
        {},
        [],
        [{"op": "drop", "at": ["site"]}],
        [{"op": "set", "at": [], "to": 1}],
        [{"op": "set", "at": ["site"]}],
        [{"op": "set", "at": [{"name": "A"}], "to": 1}],
        [{"op": "set", "at": ["__proto__", "x"], "to": 1}],
        [{"op": "set", "at": ["site", {"nth": 1}], "to": 1}],
        [{"op": "set", "at": ["site", {"name": "A", "nth": -1}], "to": 1}],
        [{"op": "set", "at": ["rows", {"is": {}}, "a", "b"], "to": 1}],
        [{"op": "add", "at": ["site"]}],
        [{"op": "add", "at": ["walls", {"name": "A"}], "item": 1}],
        [{"op": "add", "at": ["walls"], "item": 1, "after": "A"}],
        [{"op": "move", "at": ["walls"], "item": "A", "after": None}],
        [{"op": "set", "at": ["x"], "to": 1, "more": 1}],
        [{"op": "set", "at": ["x"], "to": 1}] * 5001,
    ],
)
def test_what_is_no_operation_is_refused(given):
    with pytest.raises(OperationRefusedError):
        checked_operations(given)


def test_every_field_that_takes_a_name_is_listed_or_names_nothing_else():
    own = {"name", "job", "by"}
    fields = {
        field: str(about.annotation)
        for kind in map(jobs.__getattr__, jobs.__all__)
        if isinstance(kind, type) and issubclass(kind, BaseModel)
        for field, about in kind.model_fields.items()
        if "max_length=60" in str(typing.get_type_hints(kind, include_extras=True)[field])
    }
    assert set(fields) - own - set(REFERENCES) == set()
    assert len(fields) > 20


def test_a_thousand_operations_on_five_thousand_readings_take_little_more_than_ten_times_a_hundred():
    readings = [{"x_mm": float(n), "y_mm": 0.0, "level_mm": 1.0, "area": "Patio"} for n in range(5000)]
    document = {"as_laid": {"date": "2027-05-01", "readings": readings}}

    def took(count):
        made = [
            {"op": "set", "at": ["as_laid", "readings", {"is": readings[n * 5]}, "level_mm"], "was": 1.0, "to": 2.0}
            for n in range(count)
        ]
        began = time.perf_counter()
        assert apply(document, made).clashes == ()
        return time.perf_counter() - began

    few, many = took(100), took(1000)
    assert many < 10.0 * few + 0.5


def test_a_thousand_points_of_names_that_others_took_are_soon_called_otherwise():
    def points(x_mm):
        return {"measurements": {"points": [{"name": f"P{n}", "x_mm": x_mm, "y_mm": float(n)} for n in range(1000)]}}

    empty = {"measurements": {"points": []}}
    began = time.perf_counter()
    done = apply(points(1.0), between(empty, points(2.0)))
    assert time.perf_counter() - began < 5.0
    names = [each["name"] for each in done.document["measurements"]["points"]]
    assert len(set(names)) == len(names) == 2000
    assert done.clashes == ()
