"""Lids: every corner of a lid that may not move, and folds that run across one."""

from __future__ import annotations

import math

import pytest

from pavewright.findings import Severity
from pavewright.levels import finished_levels


def lid(small, x, y, level_mm, **more):
    """Enter a lid of 600 by 450 on a terrace that falls 1 in 60 from a house and 1 in 80 across."""
    area = small.rectangle(6000.0, 3600.0)
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 10150.0}]
    area["fall"] = {"away_from": "House", "one_in": 60.0, "cross_one_in": 80.0}
    small.point("M", x, y)
    cover = {"name": "Lid", "point": "M", "length_mm": 600.0, "width_mm": 450.0, "level_mm": level_mm, "fixed": True}
    small.site["covers"] = [cover | more]
    return area


def found(small, code):
    job, surveyed = small.surveyed()
    return [each for each in finished_levels(job, surveyed, small.rules).findings if each.code == code]


def test_a_level_lid_in_a_fall_two_ways_misses_at_its_corners(small):
    # 600 / 60 + 450 / 80 = 15.6 over its corners: 7.8 either way at best, with the middle met exactly
    lid(small, 3000.0, 1800.0, 9900.0)
    (reported,) = found(small, "levels.cover_clash")
    assert reported.severity is Severity.STOP
    assert "a corner of cover Lid" in reported.message
    assert max(reported.value - reported.limit, reported.limit - reported.value) == pytest.approx(7.81 - 5.0, abs=0.05)
    assert any("tilted with it" in words for words in reported.option_words)


def test_a_lid_whose_corners_were_read_in_the_fall_is_met(small):
    lid(small, 3000.0, 1800.0, 9900.0, bearing_deg=0.0)
    # it falls 1 in 60 along its length, away from the house, and 1 in 80 across it
    job, surveyed = small.surveyed()
    plane = finished_levels(job, surveyed, small.rules).areas[0].plane
    at = surveyed.site.covers[0].outline
    centre = plane.level_at((3000.0, 1800.0))
    levels = [9900.0 + plane.level_at(corner) - centre for corner in at]
    small.site["covers"][0]["corner_levels_mm"] = levels
    assert found(small, "levels.cover_clash") == []


def test_a_level_lid_on_a_gentle_fall_is_met(small):
    area = lid(small, 3000.0, 1800.0, 9900.0)
    area["fall"] = {"away_from": "House", "one_in": 80.0}
    assert found(small, "levels.cover_clash") == []


def test_a_fold_across_a_lid_that_may_be_reset_stops_and_is_to_be_moved(small):
    area = lid(small, 3000.0, 1800.0, 9900.0, fixed=False)
    area["fall"] = {"away_from": "House", "one_in": 30.0, "steepest_one_in": 20.0, "folding": "ridge"}
    (reported,) = found(small, "levels.lid_on_fold")
    assert reported.severity is Severity.STOP
    assert reported.value > 5.0
    assert any("Move the fold" in words for words in reported.option_words)
    job, surveyed = small.surveyed()
    (study,) = finished_levels(job, surveyed, small.rules).studies
    assert not study.options[study.chosen].accepted


def test_a_lid_beside_the_fold_fits(small):
    area = lid(small, 3000.0, 800.0, 9900.0, fixed=False)
    area["fall"] = {"away_from": "House", "one_in": 30.0, "steepest_one_in": 20.0, "folding": "ridge"}
    assert found(small, "levels.lid_on_fold") == []


def test_the_step_at_a_door_has_one_figure_for_each_place(small):
    lid(small, 3000.0, 1800.0, 9900.0, fixed=False)
    door = {"name": "Door", "along_mm": 1000.0, "width_mm": 1600.0, "threshold_level_mm": 10200.0}
    small.site["walls"][0]["openings"] = [door]
    job, surveyed = small.surveyed()
    finished = finished_levels(job, surveyed, small.rules).areas[0]
    (step,) = finished.doors
    # 1.6 m at 1 in 80 across: 20 mm from jamb to jamb
    assert abs(step.left_mm - step.right_mm) == pytest.approx(20.0)
    assert step.middle_mm == pytest.approx((step.left_mm + step.right_mm) / 2.0)
    spot = next(each for each in finished.spots if each.label == "Door")
    assert step.middle_mm == pytest.approx(10200.0 - spot.level_mm)
    # the end of the wall, at 2600, is on the left hand of somebody on the paving who looks at the door
    assert step.left_mm == pytest.approx(10200.0 - finished.surface.level_at((2600.0, 0.0)))
    assert (step.min_mm, step.max_mm) == (min(step.left_mm, step.right_mm), max(step.left_mm, step.right_mm))
    assert "left jamb" in step.text


def test_a_lid_that_nothing_holds_on_one_side_gives_no_level_without_end(small):
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"folding": "to_gully", "gully": "Gully", "away_from": "House"}
    small.point("G", 4300.0, 2400.0)
    small.point("M", 1500.0, 2600.0)
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 10000.0}]
    small.site["gullies"] = [{"name": "Gully", "point": "G", "state": "existing", "grating_level_mm": 9790.0}]
    cover = {"name": "Lid", "point": "M", "length_mm": 600.0, "width_mm": 450.0, "level_mm": 9838.0, "fixed": True}
    small.site["covers"] = [cover]
    (reported,) = found(small, "levels.fold_clash")
    assert all(link.level_mm is None or math.isfinite(link.level_mm) for link in reported.chain)
    assert not any("inf" in link.words.split() for link in reported.chain)
    assert any("Lid" in link.words for link in reported.chain)
