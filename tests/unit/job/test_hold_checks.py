"""What is read at hold points and what the dig found: names of the job, nothing half said, both phones kept."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from pavewright.job import JobInvalid, parse
from pavewright.job.operations import apply, inverse
from pavewright.job.on_site import FoundKind, HoldCheckKind

DRIVE = json.loads((Path(__file__).parents[3] / "examples" / "front_drive.json").read_text("utf-8"))
AREA = DRIVE["areas"][0]["name"]
READING = {"label": "Peg 3", "x_mm": 1000.0, "y_mm": 2000.0, "level_mm": 99_000.0}
CHECK = {
    "name": "Formation, first look",
    "kind": "formation",
    "area": AREA,
    "date": "2027-05-04",
    "readings": [READING],
}
SPOT = {
    "name": "Clay at the gate", "kind": "soft_spot", "area": AREA, "found_on": "2027-05-04", "depth_mm": 300.0,
    "area_m2": 4.0,
}  # fmt: skip


def with_parts(**parts):
    return copy.deepcopy(DRIVE) | parts


def faults(document):
    with pytest.raises(JobInvalid) as caught:
        parse(document)
    return [fault.path for fault in caught.value.faults]


def test_what_was_read_and_found_is_in_the_job():
    job = parse(with_parts(hold_checks=[CHECK], dig_found=[SPOT]))
    assert job.hold_checks[0].kind is HoldCheckKind.FORMATION
    assert job.hold_checks[0].readings[0].level_mm == 99_000.0
    assert job.dig_found[0].kind is FoundKind.SOFT_SPOT


@pytest.mark.parametrize(
    ("check", "path"),
    [
        (CHECK | {"area": "Nowhere"}, "hold_checks.0.area"),
        (CHECK | {"kind": "layer"}, "hold_checks.0.layer"),
        (CHECK | {"kind": "drain", "drain": "Nowhere"}, "hold_checks.0.drain"),
    ],
)
def test_a_check_names_what_it_looks_at(check, path):
    assert faults(with_parts(hold_checks=[check])) == [path]


@pytest.mark.parametrize(
    ("found", "path"),
    [
        (SPOT | {"area": "Nowhere"}, "dig_found.0.area"),
        ({name: value for name, value in SPOT.items() if name != "area_m2"}, "dig_found.0.area_m2"),
        (SPOT | {"outline": [{"x_mm": 0.0, "y_mm": 0.0}] * 2}, "dig_found.0.outline"),
        (SPOT | {"kind": "drain"}, "dig_found.0.length_mm"),
        (SPOT | {"depth_mm": 0.0}, "dig_found.0.depth_mm"),
    ],
)
def test_a_find_has_a_size(found, path):
    assert faults(with_parts(dig_found=[found])) == [path]


def test_two_finds_of_one_name_are_told_apart():
    assert faults(with_parts(dig_found=[SPOT, SPOT | {"depth_mm": 200.0}])) == ["dig_found.1"]


def test_readings_of_two_phones_in_one_check_are_both_kept():
    base = with_parts(hold_checks=[CHECK])
    at = ["hold_checks", {"name": CHECK["name"]}, "readings"]
    one = {"op": "add", "at": at, "item": READING | {"label": "Peg 4", "level_mm": 98_990.0}}
    other = {"op": "add", "at": at, "item": READING | {"label": "Peg 5", "level_mm": 98_980.0}}
    merged = apply(apply(base, [one]).document, [other])
    assert not merged.clashes
    assert {each["label"] for each in merged.document["hold_checks"][0]["readings"]} == {"Peg 3", "Peg 4", "Peg 5"}
    back = apply(merged.document, inverse([other])).document
    assert [each["label"] for each in back["hold_checks"][0]["readings"]] == ["Peg 3", "Peg 4"]
