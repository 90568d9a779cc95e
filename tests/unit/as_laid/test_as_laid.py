"""Readings checked against a 6 × 4 m patio that falls 1 in 60 north from 1000."""

from __future__ import annotations

import pytest

from pavewright.as_laid import check, promises
from pavewright.findings import Severity
from pavewright.job import JobInvalid
from pavewright.levels import finished_levels


def patio(small):
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 1150.0}]


def read(small, off, sd=1.5):
    """Readings on a 2 m grid, each off the plan by a function of its place."""
    places = [(x, y) for y in (300.0, 2000.0, 3700.0) for x in (300.0, 2200.0, 4000.0, 5700.0)]
    small.document["as_laid"] = {
        "date": "2027-07-01",
        "reading_sd_mm": sd,
        "readings": [
            {
                "x_mm": x,
                "y_mm": y,
                "level_mm": 1000.0 - y / 60.0 + off(x, y),
                "area": "Patio",
                "label": f"{x:.0f}/{y:.0f}",
            }
            for x, y in places
        ],
    }


def report(small):
    job, measured = small.surveyed()
    return check(job, measured, finished_levels(job, measured, small.rules), small.rules)


def codes(found):
    return [finding.code for finding in found.findings]


def test_no_readings_no_report(small):
    patio(small)
    assert report(small) is None


def test_paving_as_planned_passes_and_shows_its_fall(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    found = report(small)
    area = found.areas[0]
    assert found.verdict == area.verdict == "pass"
    assert area.fall == pytest.approx(1.0 / 60.0)
    assert area.bearing_deg == pytest.approx(0.0, abs=1e-6)
    assert area.walls[0].min_mm == pytest.approx(150.0)
    assert found.findings == ()


def test_one_reading_far_off_fails_and_is_named(small):
    patio(small)
    read(small, lambda x, y: 12.0 if (x, y) == (4000.0, 2000.0) else 0.0)
    found = report(small)
    assert found.verdict == "fail"
    (finding,) = [each for each in found.findings if each.code == "as_laid.out_of_tolerance"]
    assert "4000/2000 lies 12 mm high" in finding.message


def test_a_reading_near_the_limit_is_unsure(small):
    patio(small)
    read(small, lambda x, y: -7.0 if (x, y) == (4000.0, 2000.0) else 0.0)
    found = report(small)
    assert found.verdict == "unsure"
    assert codes(found) == ["as_laid.out_of_plane"]


def test_all_high_points_at_the_datum_and_breaks_the_clearance(small):
    patio(small)
    read(small, lambda x, y: 10.0)
    found = report(small)
    assert "as_laid.shifted" in codes(found)
    assert found.areas[0].walls[0].min_mm == pytest.approx(140.0)
    assert "as_laid.too_near_dpc" in codes(found)


@pytest.mark.parametrize(
    ("high_mm", "verdict", "code", "severity"),
    [
        (0.0, "pass", None, None),
        (1.0, "pass", "as_laid.dpc_by_tolerance", Severity.CHECK),
        (6.0, "pass", "as_laid.dpc_by_tolerance", Severity.CHECK),
        (8.9, "unsure", "as_laid.dpc_inconclusive", Severity.CHECK),
        (9.1, "fail", "as_laid.too_near_dpc", Severity.STOP),
    ],
)
def test_a_wall_is_held_to_what_is_promised_there(small, high_mm, verdict, code, severity):
    """Planned and promised 150, tolerance of laying 6, readings trusted to 3."""
    patio(small)
    read(small, lambda x, y: high_mm)
    job, measured = small.surveyed()
    levels = finished_levels(job, measured, small.rules)
    (promise,) = promises(job, levels, small.rules).walls
    found = check(job, measured, levels, small.rules)
    (wall,) = found.areas[0].walls
    assert (wall.wanted_mm, wall.tolerance_mm) == (promise.promised_mm, promise.tolerance_mm) == (150.0, 6.0)
    assert wall.verdict == verdict
    # the paper and the check agree: what is promised passes
    assert (wall.verdict == "pass") == promise.kept_by(wall.min_mm)
    reported = [each for each in found.findings if "dpc" in each.code]
    assert [(each.code, each.severity) for each in reported] == ([] if code is None else [(code, severity)])
    if code is not None:
        assert f"{high_mm:.1f}".removesuffix(".0") + " mm less than the 150 mm that it should be" in reported[0].message
        assert "from memory" in reported[0].message


def test_a_wall_with_room_in_the_plan_gets_no_tolerance(small):
    patio(small)
    small.site["walls"][0]["dpc_level_mm"] = 1195.0
    read(small, lambda x, y: 46.0)
    (wall,) = report(small).areas[0].walls
    assert (wall.tolerance_mm, wall.verdict) == (0.0, "unsure")
    read(small, lambda x, y: 50.0)
    assert report(small).areas[0].walls[0].verdict == "fail"


def test_a_wall_planned_below_the_limit_is_not_promised_and_never_passes_by_its_plan(small):
    patio(small)
    small.site["walls"][0]["dpc_level_mm"] = 1120.0
    read(small, lambda x, y: 0.0)
    job, measured = small.surveyed()
    levels = finished_levels(job, measured, small.rules)
    (promise,) = promises(job, levels, small.rules).walls
    assert promise.is_open
    assert check(job, measured, levels, small.rules).areas[0].walls[0].verdict == "fail"


def test_a_tilt_is_seen_in_the_fall(small):
    patio(small)
    read(small, lambda x, y: y / 150.0)
    area = report(small).areas[0]
    assert area.fall == pytest.approx(1.0 / 60.0 - 1.0 / 150.0)
    assert "as_laid.too_flat" in codes(report(small))


def test_a_reverse_fall_says_stop(small):
    patio(small)
    read(small, lambda x, y: y / 50.0)
    assert report(small).findings[0].severity.value == "stop"
    assert "as_laid.reverse_fall" in codes(report(small))


def test_few_readings_and_readings_beside_the_area_are_told(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    small.document["as_laid"]["readings"] = small.document["as_laid"]["readings"][:2]
    small.document["as_laid"]["readings"][0]["x_mm"] = -500.0
    found = report(small)
    assert {"as_laid.outside", "as_laid.too_few_readings"} <= set(codes(found))
    assert found.areas[0].fitted is None


def test_a_reading_on_an_area_that_is_not_there_is_a_fault(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    small.document["as_laid"]["readings"][0]["area"] = "Lawn"
    with pytest.raises(JobInvalid, match="Lawn"):
        report(small)


def test_a_level_limit_from_memory_says_so(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    assert "from memory" in report(small).areas[0].level_limit.citation


def checked(small):
    job, measured = small.surveyed()
    return check(job, measured, finished_levels(job, measured, small.rules), small.rules)


def test_an_area_with_a_place_that_nobody_read_is_not_known(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    assert checked(small).verdict == "pass"
    small.document["as_laid"]["readings"][5]["level_mm"] = None
    found = checked(small)
    assert found.verdict == found.areas[0].verdict == "unsure"
    assert "as_laid.not_read" in {each.code for each in found.findings}


def test_a_wall_near_which_nobody_read_leaves_its_area_not_known(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    taken = small.document["as_laid"]
    taken["readings"] = [each for each in taken["readings"] if each["y_mm"] > 1000.0]
    found = checked(small)
    assert found.verdict == "unsure"
    (said,) = (each for each in found.findings if each.code == "as_laid.dpc_unread")
    assert "wall House" in said.message
    assert "not known" in said.message


@pytest.mark.parametrize(("part", "entry"), [("gaps", {"edge_mm": 2000.0}), ("lips", {}), ("joints", {})])
def test_what_is_listed_by_hand_and_not_read_leaves_the_whole_not_known(small, part, entry):
    patio(small)
    read(small, lambda x, y: 0.0)
    small.document["as_laid"][part] = [{"name": "X1", "area": "Patio", **entry}]
    assert checked(small).verdict == "unsure"
