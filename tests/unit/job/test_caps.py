"""Caps: what no garden has is refused with the entry named, what a large one has is not."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest

from pavewright.desk import make_plan
from pavewright.desk._weight import what_weighs
from pavewright.job import JobInvalid, heaviest, load_document, parse


def starter():
    return json.loads((Path(__file__).parents[2] / "patio.json").read_text("utf-8"))


def faults_of(document):
    with pytest.raises(JobInvalid) as refused:
        parse(load_document(json.dumps(document)))
    return [(fault.path, fault.message) for fault in refused.value.faults]


def round_area(document, name, count, at_mm):
    """Add an area of so many corners on a circle."""
    points = [{"name": f"{name} {n}", "x_mm": at_mm + 8000.0 * math.cos(math.tau * n / count),
               "y_mm": 40_000.0 + 8000.0 * math.sin(math.tau * n / count)} for n in range(count)]  # fmt: skip
    document["measurements"]["points"] += points
    area = json.loads(json.dumps(document["areas"][0])) | {"name": name, "edges": []}
    del area["laying"]["along"]
    document["areas"].append(area | {"outline": [{"point": point["name"]} for point in points]})
    return document


def taped(count):
    document = starter()
    tapes = [{"start": "T0", "end": "T1", "length_mm": 6000.0}]
    tapes += [{"start": end, "end": f"T{n}", "length_mm": 5000.0} for n in range(2, count) for end in ("T0", "T1")]
    document["measurements"]["tape_plan"] = {"base_from": "T0", "base_to": "T1", "tapes": tapes[:count]}
    return document


def test_an_outline_of_two_thousand_corners_is_taken():
    assert len(parse(round_area(starter(), "Pond edge", 2000, 0.0)).areas[1].outline) == 2000


def test_more_corners_than_any_job_has_are_refused_with_the_area_that_has_max():
    document = starter()
    for n in range(3):
        round_area(document, f"Round {n}", 1400 + n, 20_000.0 * n)
    ((path, words),) = faults_of(document)
    assert path == "areas"
    assert "4,207 corners together, 1,402 of them in area Round 2" in words
    assert "at most 4,000" in words


def test_more_tapes_than_any_plan_has_are_refused():
    assert len(parse(taped(800)).measurements.tape_plan.tapes) == 800
    ((path, words),) = faults_of(taped(801))
    assert path == "measurements.tape_plan.tapes"
    assert "holds 801 tapes" in words


def paved_with_blocks(side_mm):
    document = starter()
    for name, x, y in (("B", 1, 0), ("C", 1, 1), ("D", 0, 1)):
        point = next(each for each in document["measurements"]["points"] if each["name"] == name)
        point.update(x_mm=x * side_mm, y_mm=y * side_mm)
    document["units"][0].update(length_mm=200.0, width_mm=100.0, thickness_mm=60.0, kg_each=2.8, per_pack=400)
    document["areas"][0]["laying"]["joint_mm"] = 5.0
    return document


def test_a_yard_of_three_hundred_square_metres_of_blocks_is_laid():
    made = make_plan(json.dumps(paved_with_blocks(math.sqrt(300.0) * 1000.0)))
    assert len(made.laying.areas[0].pieces) > 13_000


def test_more_units_than_are_laid_at_once_are_refused_before_any_is_laid():
    stages = []
    with pytest.raises(JobInvalid, match=r"Area Patio covers 10,000 m² and would take about 500,000 of Slab 600") as no:
        make_plan(json.dumps(paved_with_blocks(100_000.0)), stages.append)
    assert no.value.faults[0].path == "areas.0.laying.unit"
    assert "quantities and cost" not in stages


def test_what_makes_a_document_slow_is_named():
    document = round_area(starter(), "Pond edge", 1500, 0.0)
    assert heaviest(document) == "What makes it slow: the outline of area Pond edge has 1,500 corners."
    assert what_weighs("drawing", b"levels\n" + json.dumps(document).encode()) == heaviest(document)
    assert heaviest(starter()) == ""


@pytest.mark.parametrize("document", [{}, {"areas": 3}, {"areas": [3, {"outline": "x", "holes": [1]}]},
                                      {"measurements": [1]}, {"measurements": {"level_books": [None]}, "as_laid": 1}])  # fmt: skip
def test_a_document_of_any_shape_has_no_weight(document):
    assert heaviest(document) == ""


@pytest.mark.parametrize("payload", [b"{", b"[" * 100_000, b"[]", b"\xff"])
def test_what_is_no_document_has_no_weight(payload):
    assert what_weighs("plan", payload) == ""
    assert what_weighs("photo", payload) == ""
