"""No unit is laid, and none is counted, where a channel runs through an area."""

from __future__ import annotations

import pytest
from shapely.geometry import box

from pavewright.laying import best_starts, lay, quick_counts
from pavewright.levels import finished_levels
from pavewright.pipeline import plan
from pavewright.quantities._measured_areas import laid_lines

_WIDE = 100.0


def _channel(small, start, end):
    """Put a channel between two places into the job."""
    small.document["measurements"]["points"] += [
        {"name": f"K{number}", "x_mm": x, "y_mm": y} for number, (x, y) in enumerate((start, end))
    ]
    small.document["site"]["channels"] = [
        {"name": "Slot", "start": "K0", "end": "K1", "width_mm": _WIDE, "state": "new"}
    ]


def _laid(small):
    job, measured = small.surveyed()
    return lay(job, measured, small.rules).areas[0], measured.site.areas[0]


def _inside(pieces, taken):
    return sum(piece.shape.polygon.intersection(taken).area for piece in pieces)


@pytest.mark.parametrize("extra", [{}, {"border": {"kind": "soldier"}}, {"wall_joint_mm": 10.0}])
@pytest.mark.parametrize(
    ("start", "end", "taken"),
    [
        ((0.0, 1000.0), (4000.0, 1000.0), box(0, 950, 4000, 1050)),
        ((1000.0, 1000.0), (3000.0, 1000.0), box(1000, 950, 3000, 1050)),
        ((2000.0, 0.0), (2000.0, 1500.0), box(1950, 0, 2050, 1500)),
    ],
    ids=["from edge to edge", "inside", "from one edge"],
)
def test_no_unit_lies_under_a_channel(small, extra, start, end, taken):
    small.rectangle(4000.0, 3000.0, **extra)
    whole, _ = _laid(small)
    _channel(small, start, end)
    cut, area = _laid(small)
    assert _inside(whole.pieces, taken) > 0.5 * taken.area
    assert _inside(cut.pieces, taken) == pytest.approx(0.0, abs=1.0)
    assert cut.paved_m2 + cut.joint_m2 == pytest.approx(12.0 - taken.area / 1e6)
    assert area.laid_m2 == pytest.approx(12.0 - taken.area / 1e6)
    assert cut.cut > whole.cut
    assert cut.saw_m > whole.saw_m
    assert cut.joint_length_m > 0.0


def test_the_pattern_runs_on_past_a_channel(small):
    small.rectangle(4000.0, 3000.0)
    whole, _ = _laid(small)
    _channel(small, (0.0, 1000.0), (4000.0, 1000.0))
    cut, _ = _laid(small)
    far = {tuple(round(x) for x in piece.shape.bounds_mm) for piece in cut.pieces if piece.shape.bounds_mm[1] > 1300.0}
    assert far
    assert far <= {tuple(round(x) for x in piece.shape.bounds_mm) for piece in whole.pieces}


def test_a_channel_along_the_edge_takes_nothing_of_the_area_measured_up_to_it(small):
    small.rectangle(4000.0, 3000.0)
    whole, _ = _laid(small)
    _channel(small, (0.0, 0.0), (4000.0, 0.0))
    cut, area = _laid(small)
    assert area.channels == ()
    assert cut.pieces == whole.pieces


def test_a_channel_as_wide_as_a_whole_course_saves_units(small):
    # 600 slabs with joints of 10: the second course lies from 610 to 1210
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    whole, _ = _laid(small)
    _channel(small, (0.0, 910.0), (3040.0, 910.0))
    small.document["site"]["channels"][0]["width_mm"] = 600.0
    cut, area = _laid(small)
    assert (whole.units_with_offcuts, cut.units_with_offcuts, cut.cut) == (20, 15, 0)
    lines = laid_lines(0, area, cut)
    (less,) = [line for line in lines if "Slot" in line.words]
    assert (less.times, less.area_m2) == (-1.0, pytest.approx(3.04 * 0.6))
    assert sum(line.times * (line.area_m2 or (line.length_m or 0) * (line.width_m or 0)) for line in lines) == (
        pytest.approx(cut.paved_m2 + cut.joint_m2)
    )


def test_mixed_ways_of_counting_agree(small):
    small.rectangle(4000.0, 3000.0)
    _channel(small, (0.0, 1000.0), (4000.0, 1000.0))
    job, measured = small.surveyed()
    levels = finished_levels(job, measured, small.rules)
    laid = lay(job, measured, small.rules, levels).areas[0]
    counts = quick_counts(job, measured.site.areas[0], measured, small.rules, levels)
    assert (counts.whole, counts.cut) == (laid.whole, laid.cut)
    (starts,) = best_starts(job, measured, small.rules, levels=levels)
    assert starts.now.units_with_offcuts == laid.units_with_offcuts


def test_the_whole_plan_buys_less(small):
    small.rectangle(5 * 610 - 10, 4 * 610 - 10)
    before = plan(small.job(), small.rules)
    _channel(small, (0.0, 910.0), (3040.0, 910.0))
    small.document["site"]["channels"][0]["width_mm"] = 600.0
    after = plan(small.job(), small.rules)
    assert before.laying.areas[0].units_with_offcuts - after.laying.areas[0].units_with_offcuts == 5
