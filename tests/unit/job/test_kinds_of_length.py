"""Every length of the job document says in the schema what kind it is: a screen asks by that."""

from __future__ import annotations

from pavewright.desk import job_schema
from pavewright.typed import LengthKind

RAIN = {("Rain", "five_year_hour_mm"), ("RainDepth", "depth_mm"), ("DayWeather", "rain_depth_mm")}
"""Depths of rain are no lengths of a site."""


def kinds(node):
    """Give the kinds of a field, of the items of its list too."""
    if "length" in node:
        yield node["length"]
    for part in (*node.get("anyOf", ()), *([node["items"]] if "items" in node else [])):
        yield from kinds(part)


def test_every_length_of_the_document_says_what_kind_it_is():
    lengths = {
        (name, field): set(kinds(node))
        for name, part in job_schema()["$defs"].items()
        for field, node in part.get("properties", {}).items()
        if field.endswith("_mm")
    }
    assert {place for place, found in lengths.items() if not found} == RAIN
    assert {kind for found in lengths.values() for kind in found} <= {kind.value for kind in LengthKind}


def test_a_joint_a_level_and_a_tape_are_told_apart():
    parts = job_schema()["$defs"]
    assert parts["Laying"]["properties"]["joint_mm"]["length"] == "joint"
    assert parts["Tape"]["properties"]["length_mm"]["length"] == "site"
    assert list(kinds(parts["Wall"]["properties"]["dpc_level_mm"])) == ["level"]
