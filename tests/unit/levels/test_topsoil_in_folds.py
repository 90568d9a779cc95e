"""Folds are compared with all topsoil off where its depth is known, and say so where it is not."""

from __future__ import annotations

import pytest

from pavewright.levels import finished_levels


def earthwork(small, **known):
    small.site["ground"] = {"soil": "sandy_clay", **known}
    job, measured = small.surveyed()
    levels = finished_levels(job, measured, small.rules, {"Patio": 150.0})
    return next(each for each in levels.areas[0].workings if each.expression.startswith("earthwork"))


def test_the_price_of_a_fold_holds_the_topsoil_and_the_room_that_it_leaves(small):
    entered = small.rectangle(4000.0, 3000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0, "folding": "ridge"}
    small.flat_ground(900.0)
    without, off, unknown = earthwork(small, topsoil_mm=0.0), earthwork(small, topsoil_mm=150.0), earthwork(small)
    assert off.result > without.result
    assert unknown.result == pytest.approx(without.result)
    assert "not known" in unknown.note
    assert "150 mm of topsoil" in off.note


@pytest.mark.parametrize(("cut_minor", "fill_minor"), [(100, 0), (0, 100)])
def test_what_is_dug_more_is_filled_again(small, cut_minor, fill_minor):
    entered = small.rectangle(4000.0, 3000.0)
    entered["fall"] = {
        "bearing_deg": 0.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1300.0, "folding": "ridge",
    }  # fmt: skip
    small.flat_ground(900.0)
    small.document["rates"] |= {"cut_price_minor": cut_minor, "fill_price_minor": fill_minor}
    # formation lies above the ground everywhere: all topsoil is dug and its room filled, 12 m² of 150 mm
    more = earthwork(small, topsoil_mm=150.0).result - earthwork(small, topsoil_mm=0.0).result
    assert more == pytest.approx(12.0 * 0.150)
