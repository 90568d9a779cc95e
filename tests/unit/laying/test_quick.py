"""Counts while a corner is dragged are those of the whole laying."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pavewright import rulebook
from pavewright.job import load_document, parse
from pavewright.laying import lay, quick_counts
from pavewright.survey import survey

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.json"))


def both(job):
    rules = rulebook.load(job.identity.locality.value)
    measured = survey(job, rules)
    laid = lay(job, measured, rules)
    for area in measured.site.areas:
        yield quick_counts(job, area, measured, rules), laid.area(area.name)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_examples_count_as_they_are_laid(path):
    for quick, laid in both(parse(load_document(path.read_bytes()))):
        if laid.mixed is not None or laid.zones or laid.pattern == "rings":
            assert quick is None
            continue
        assert (quick.whole, quick.cut) == (laid.whole, laid.cut)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    wide=st.integers(1500, 9000),
    deep=st.integers(1500, 7000),
    bite=st.booleans(),
    turn=st.sampled_from([0.0, 45.0, 13.0]),
    pattern=st.sampled_from(["stack", "running", "basketweave", "herringbone"]),
    border=st.booleans(),
)
def test_rectangles_and_corners_count_as_they_are_laid(small, wide, deep, bite, turn, pattern, border):
    fresh = type(small)()
    if pattern in {"basketweave", "herringbone"}:
        fresh.unit.update(length_mm=600.0, width_mm=300.0)
    corners = [(0, 0), (wide, 0), (wide, deep), (0, deep)]
    if bite:
        corners[2:3] = [(wide, deep // 2), (wide // 2, deep // 2), (wide // 2, deep)]
    laying = {"pattern": pattern, "turn_deg": turn, "joint_mm": 10.0 if pattern != "basketweave" else 0.0}
    if border and min(wide, deep) > 3500:
        laying["border"] = {"kind": "stretcher"}
    fresh.area(corners, **laying)
    ((quick, laid),) = both(fresh.job())
    assert (quick.whole, quick.cut) == (laid.whole, laid.cut)


def test_none_where_only_the_laying_tells(small):
    small.rectangle(3000.0, 2000.0, split_corners=True)
    ((quick, _),) = both(small.job())
    assert quick is None
