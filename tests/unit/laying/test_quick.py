"""Counts while a corner is dragged are those of the whole laying."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pavewright import rulebook
from pavewright.desk._preview import preview
from pavewright.job import load_document, parse
from pavewright.laying import lay, quick_counts
from pavewright.levels import finished_levels
from pavewright.survey import survey

NARROWEST_MM = (25.0, 20.0)
"""The narrowest flag and the narrowest block that are laid, by the rulebook."""
EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.json"))


def both(job):
    rules = rulebook.load(job.identity.locality)
    measured = survey(job, rules)
    levels = finished_levels(job, measured, rules)
    laid = lay(job, measured, rules, levels)
    for area in measured.site.areas:
        yield quick_counts(job, area, measured, rules, levels), laid.area(area.name)


def same(quick, laid):
    """The same counts; a piece that is as narrow as the narrowest that is laid, to a thousandth of it, may be either."""
    necks = [piece.neck_mm for piece in laid.pieces if piece.neck_mm is not None]
    on_the_limit = sum(any(0.999 * limit <= neck <= limit for limit in NARROWEST_MM) for neck in necks)
    narrow = laid.unlayable - on_the_limit <= quick.too_narrow <= laid.unlayable
    return (quick.whole, quick.cut) == (laid.whole, laid.cut) and narrow


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_examples_count_as_they_are_laid(path):
    job = parse(load_document(path.read_bytes()))
    shown = {each["area"]: each for each in preview(job, rulebook.load(job.identity.locality))["areas"]}
    for quick, laid in both(job):
        reported = shown[laid.area]
        if laid.mixed is not None or laid.zones or laid.pattern == "rings":
            assert quick is None and reported["cut"] is None
            continue
        assert same(quick, laid)
        assert (reported["whole"], reported["cut"], reported["too_narrow"]) == (laid.whole, laid.cut, laid.unlayable)


@pytest.mark.slow
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
    assert same(quick, laid)


def test_a_piece_on_the_limit_may_count_as_either(small):
    corners = [(0, 0), (5900, 0), (5900, 2950), (2950, 2950), (2950, 5900), (0, 5900)]
    small.area(corners, pattern="running", turn_deg=45.0, joint_mm=10.0, border={"kind": "stretcher"})
    ((quick, laid),) = both(small.job())
    assert same(quick, laid)
    assert not same(replace(quick, too_narrow=laid.unlayable - 2), laid)


def test_split_corners_and_fills_count_as_they_are_laid(small):
    small.area([(0, 0), (3000, 0), (3000, 1000), (1845, 1000), (1845, 2000), (0, 2000)], split_corners=True)
    ((quick, laid),) = both(small.job())
    assert laid.unlayable and same(quick, laid)
    small.document["areas"][0]["laying"]["fill_narrow"] = True
    ((quick, laid),) = both(small.job())
    assert laid.fills and quick.too_narrow == 0 and same(quick, laid)


def test_pieces_that_cannot_be_laid_are_counted_while_a_corner_is_dragged(small):
    small.rectangle(1835.0, 2000.0, joint_mm=5.0)
    ((quick, laid),) = both(small.job())
    assert quick.too_narrow == laid.unlayable > 0


def test_none_where_only_the_laying_tells(small):
    small.rectangle(3000.0, 2000.0)
    small.document["areas"][0]["laying"].update(pattern="rings", origin="P0")
    ((quick, _),) = both(small.job())
    assert quick is None
