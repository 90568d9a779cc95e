"""Units and bags read on a real plan: which lie, their steps, units of a plan that changed, and how the bed runs."""

from __future__ import annotations

import copy
import json
from functools import cache
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.as_laid import Verdict
from pavewright.bedding import (
    Act,
    BedPlanned,
    BedRuns,
    Corners,
    Counted,
    LETTERS,
    Seam,
    bed_so_far,
    beside,
    lip_at,
    seams,
    shows_from_m2,
    units_to_lay,
)
from pavewright.desk import make_plan_so_far
from pavewright.desk._site_laying import laying_on_site
from pavewright.job.on_site import UnitState

EXAMPLES = Path(__file__).parents[3] / "examples"
TERRACE = json.loads((EXAMPLES / "l_terrace.json").read_text("utf-8"))
AREA = TERRACE["areas"][0]["name"]


@cache
def plan_of(name):
    return make_plan_so_far((EXAMPLES / f"{name}.json").read_text("utf-8"))


@cache
def units(name="l_terrace"):
    made = plan_of(name)
    laid = made.laying.areas[0]
    return units_to_lay(laid, made.levels.area(laid.area).surface)


def read(piece, over=(0.0, 0.0, 0.0, 0.0), **more):
    unit = next(each for each in units() if each.piece == piece)
    x, y = unit.centre
    corners = [
        {"corner": LETTERS[number], "level_mm": wanted + each}
        for number, (wanted, each) in enumerate(zip(unit.wanted_mm, over, strict=True))
        if each is not None
    ]
    return {"area": AREA, "piece": piece, "x_mm": x, "y_mm": y, "corners": corners, "way": "wedge"} | more


def report(**parts):
    return make_plan_so_far(json.dumps(copy.deepcopy(TERRACE) | parts))


def codes(made):
    return [each.code for each in made.findings if each.code.startswith("bedding.")]


def test_nothing_read_is_no_report():
    assert report().bedding is None


def test_units_are_read_at_their_corners_in_order_round_them():
    for name in ("l_terrace", "mixed_patio", "gully_yard", "circle_court"):
        laid = plan_of(name).laying.areas[0]
        shapes = {piece.number: piece.shape for piece in laid.pieces}
        for unit in units(name):
            shape = shapes[unit.piece]
            assert len(unit.corners) in (3, 4)
            assert all(shape.contains(corner, slack_mm=1e-2) for corner in unit.corners)
            turn = sum(
                x1 * y2 - x2 * y1
                for (x1, y1), (x2, y2) in zip(unit.corners, (*unit.corners[1:], unit.corners[0]), strict=True)
            )
            assert turn > 0.0


def test_every_whole_slab_has_a_seam_on_each_side_that_is_not_an_edge():
    laid = plan_of("l_terrace").laying.areas[0]
    found = seams(units(), laid)
    counts = {unit.piece: 0 for unit in units()}
    for seam in found:
        counts[seam.first] += 1
        counts[seam.second] += 1
        assert seam.first < seam.second
    assert min(counts.values()) >= 2
    assert max(counts.values()) <= 8


def test_a_unit_that_lies_well_and_one_that_is_to_be_lifted():
    made = report(units_read=[read(1), read(9, (6.0, -1.0, 6.0, -1.0)), read(3, state="to_re_bed")])
    area = made.bedding.areas[0]
    assert [(each.piece, each.state) for each in area.units] == [
        (1, UnitState.LAID), (3, UnitState.TO_RE_BED), (9, UnitState.LAID)
    ]  # fmt: skip
    assert [each.advice.act for each in area.units] == [Act.LEAVE, Act.LEAVE, Act.LIFT]
    assert codes(made).count("bedding.to_re_bed") == 2


def test_the_last_reading_of_a_unit_holds():
    made = report(units_read=[read(1, state="to_re_bed"), read(1)])
    assert [each.state for each in made.bedding.areas[0].units] == [UnitState.LAID]
    assert codes(made) == []


def test_a_step_between_two_units_is_told_with_what_the_readings_know():
    made = report(units_read=[read(1), read(2, (4.0, 4.0, 4.0, 4.0))])
    lip = made.bedding.areas[0].lips[0]
    assert (lip.first, lip.second, lip.verdict) == (1, 2, Verdict.FAILS)
    assert lip.lip_mm == pytest.approx(-4.0)
    assert "bedding.lip" in codes(made)
    by_staff = report(units_read=[read(1, way="staff"), read(2, (2.5,) * 4, way="staff")])
    assert by_staff.bedding.areas[0].lips[0].verdict is Verdict.INCONCLUSIVE
    assert codes(by_staff) == []


def test_a_unit_beside_low_ones_is_judged_by_them_and_not_lifted_for_it():
    low = (-4.0,) * 4
    made = report(units_read=[read(1, low), read(2, low)])
    assert [each.advice.act for each in made.bedding.areas[0].units] == [Act.LEAVE, Act.LEAVE]
    alone = report(units_read=[read(1), read(2, low)])
    assert [each.advice.act for each in alone.bedding.areas[0].units] == [Act.LEAVE, Act.LIFT]


def test_a_reading_finds_its_unit_by_its_place_when_pieces_are_numbered_anew():
    entry = read(12)
    made = report(units_read=[entry | {"piece": 77}])
    area = made.bedding.areas[0]
    assert [each.piece for each in area.units] == [12]
    assert area.unmatched == 0
    lost = report(units_read=[entry | {"x_mm": -9_000.0, "y_mm": -9_000.0}])
    assert lost.bedding.areas[0].unmatched == 1
    assert codes(lost) == ["bedding.unmatched"]


def test_a_unit_of_which_no_corner_was_read_lies_and_nothing_is_said_of_its_level():
    made = report(units_read=[read(5, (None,) * 4)])
    unit = made.bedding.areas[0].units[0]
    assert unit.advice is None
    assert made.bedding.areas[0].lips == ()


def test_bags_against_area_laid():
    thick = report(bags_used=[{"area": AREA, "opened": 12.0, "left_part": 0.0, "up_to_piece": 50}])
    area = thick.bedding.areas[0]
    assert area.bed.counted is Counted.BAG
    assert area.bed_so_far.runs is BedRuns.THICK
    assert area.bed_so_far.low_mm > area.bed.thickness_mm
    assert codes(thick) == ["bedding.bed_thick"]
    early = report(bags_used=[{"area": AREA, "opened": 1.0, "up_to_piece": 3}])
    assert early.bedding.areas[0].bed_so_far.runs is BedRuns.TOO_EARLY
    assert codes(early) == []


BED = BedPlanned(0.42, 35.0, 45.0, 10.0, 5.0)


def test_bags_used_as_planned_are_the_bed_planned_whatever_is_laid():
    for laid_m2 in (5.0, 20.0, 45.0):
        found = bed_so_far(laid_m2 * 0.42, 0.0, laid_m2, BED)
        assert found.mean_mm == pytest.approx(35.0)
        assert found.low_mm < 35.0 < found.high_mm
    assert found.runs is BedRuns.AS_PLANNED
    assert found.more_low == found.more_high == 0.0


def test_an_open_bag_that_nobody_looked_into_widens_the_range_by_a_bag():
    looked, not_looked = bed_so_far(10.0, 0.5, 20.0, BED), bed_so_far(10.0, None, 20.0, BED)
    assert not_looked.low_mm < looked.low_mm < looked.high_mm < not_looked.high_mm


def test_loose_sand_of_which_nobody_said_how_it_packs_says_nothing():
    assert bed_so_far(10.0, 0.0, 20.0, BedPlanned(None, 40.0, 45.0, 10.0, 5.0)).runs is BedRuns.UNKNOWN


def test_a_bed_ten_millimetres_too_thick_shows_from_the_area_that_is_told():
    from_m2 = shows_from_m2(BED, looked=False)
    ratio = 45.0 / 35.0
    assert bed_so_far(from_m2 * 0.42 * ratio, None, from_m2, BED).runs is BedRuns.THICK
    less = 0.8 * from_m2
    assert bed_so_far(less * 0.42 * ratio, None, less, BED).runs is BedRuns.TOO_EARLY


def test_a_step_is_straight_between_corners_and_counts_both_readings():
    seam = Seam(1, 0, (0.0, 1.0), 2, 2, (1.0, 0.0))
    lip = lip_at(seam, Corners((0.0, 3.0, 0.0, 0.0), 0.3), Corners((0.0, 0.0, 0.0, 0.0), 0.4), 2.0)
    assert lip.lip_mm == pytest.approx(3.0)
    assert lip.sd_mm == pytest.approx(0.5)
    assert lip_at(seam, Corners((None, 3.0, 0.0, 0.0), 0.3), Corners((0.0,) * 4, 0.4), 2.0) is None
    assert beside(2, 2, 4, [(seam, Corners((1.0, 2.0, 0.0, 0.0), 0.3))]) == [2.0]
    assert beside(2, 3, 4, [(seam, Corners((1.0, 2.0, 0.0, 0.0), 0.3))]) == [1.0]


def test_a_phone_takes_along_what_it_needs_and_no_figure_of_its_own():
    made = plan_of("front_drive")
    told = laying_on_site(made, rulebook.load(made.edition))
    assert not told.areas[0].one_by_one
    assert told.areas[0].units == ()
    assert told.areas[0].stages[-1][0] == told.areas[0].pieces
    assert told.areas[0].stages[-1][1] == pytest.approx(told.areas[0].all_m2, abs=1e-3)
