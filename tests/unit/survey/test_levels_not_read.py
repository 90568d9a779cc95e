"""Levels by the name of a point in the book, and levels that nobody read."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pytest

from pavewright.findings import Severity
from pavewright.job import JobInvalid, parse
from pavewright.pipeline import plan
from pavewright.survey import survey

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"


def wall(**more: Any) -> dict[str, Any]:
    return {"name": "House", "start": "A", "end": "B", **more}


def cover(**more: Any) -> dict[str, Any]:
    return {"name": "IC", "point": "C", "length_mm": 600.0, "width_mm": 450.0, "fixed": True, **more}


def codes(found: Any) -> dict[str, Severity]:
    return {finding.code: finding.severity for finding in found.findings if finding.code != "survey.no_ground"}


def test_levels_come_straight_from_the_book_by_the_name_of_a_point(small: Any) -> None:
    rows = [
        ("A", 1000.0),
        ("DPC mark", None, 850.0),
        ("Sill", None, 840.0),
        ("C", None, 1090.0),
        ("A", None, None, 1000.0),
    ]
    book = small.book("L", *rows)
    door = {"name": "Door", "along_mm": 1000.0, "width_mm": 900.0, "threshold_level_mm": "Sill"}
    measured = {
        "points": list(small.square),
        "benchmarks": [{"point": "A", "level_mm": 10_000.0}],
        "level_books": [book],
    }
    found = small.survey(measured, walls=[wall(dpc_level_mm="DPC mark", openings=[door])], covers=[cover(level_mm="C")])
    (house,) = found.site.walls
    assert house.dpc_level_mm == 10_150.0
    assert house.is_house
    assert house.openings[0].threshold_level_mm == 10_160.0
    assert found.site.covers[0].level_mm == 9_910.0
    with pytest.raises(JobInvalid, match=r"point Mark, and nothing gives Mark a level: read the staff there"):
        small.survey(measured, walls=[wall(dpc_level_mm="Mark")])


def test_a_level_that_nobody_read_is_not_known_and_never_passes(small: Any) -> None:
    door = {"name": "Door", "along_mm": 1000.0, "width_mm": 900.0}
    brick = {"name": "Vent", "along_mm": 3000.0}
    edge = {"name": "Path", "start": "C", "end": "D", "end_level_mm": 9_900.0}
    found = small.survey(
        {"points": list(small.square)},
        walls=[wall(openings=[door], air_bricks=[brick])],
        covers=[cover()],
        tie_ins=[edge],
    )
    assert codes(found) == dict.fromkeys(
        (
            "survey.dpc_not_read",
            "survey.threshold_not_read",
            "survey.air_brick_not_read",
            "survey.cover_not_read",
            "survey.edge_not_read",
        ),
        Severity.STOP,
    )
    assert codes(small.survey({"points": list(small.square)}, walls=[wall()])) == {}
    far = [*small.square, {"name": "P", "x_mm": 0.0, "y_mm": -9000.0}, {"name": "Q", "x_mm": 9000.0, "y_mm": -9000.0}]
    away = small.survey({"points": far}, walls=[wall(kind="house", start="P", end="Q")])
    assert codes(away) == {"survey.dpc_not_read": Severity.CHECK}
    assert codes(small.survey({"points": list(small.square)}, walls=[wall(kind="garden", openings=[door])])) == {
        "survey.threshold_not_read": Severity.STOP
    }


def test_a_whole_plan_says_what_was_not_read(small: Any) -> None:
    document = json.loads((EXAMPLES / "l_terrace.json").read_text("utf-8"))
    spoilt = copy.deepcopy(document)
    first = spoilt["site"]["walls"][0]
    first["kind"], first["dpc_level_mm"] = "house", None
    for reading in spoilt.get("as_laid", {}).get("readings", [])[:1]:
        reading["level_mm"] = None
    made = plan(parse(spoilt), small.rules)
    assert any(finding.code == "survey.dpc_not_read" and finding.severity is Severity.STOP for finding in made.findings)
    assert all(clearance.wall != first["name"] for area in made.levels.areas for clearance in area.clearances)


def test_a_gully_says_whether_it_is_there(small: Any) -> None:
    def gully(**more: Any) -> Any:
        job = small.job({"points": list(small.square)}, gullies=[{"name": "G", "point": "A", **more}])
        return survey(job, small.rules).site.gullies[0].gully

    assert not gully().is_existing
    assert gully(grating_level_mm=9_900.0).is_existing
    assert gully(state="existing").is_existing
    assert not gully(state="new", grating_level_mm=9_900.0).is_existing
