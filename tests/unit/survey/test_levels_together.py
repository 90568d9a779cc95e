"""Heights over another point, runs of levels adjusted together, and the rules by which a run may misclose."""

from __future__ import annotations

import random

import pytest

from pavewright.job import JobInvalid

# GNU Gama's copy of Krumm, Geodetic Network Adjustment Examples 3.5: Ghilani, example 12.6, p. 218
RUNS = [("A", "B", 10509, 6), ("B", "C", 5360, 4), ("C", "D", -8523, 5), ("D", "A", -7348, 3), ("B", "D", -3167, 4),
        ("A", "C", 15881, 12)]  # fmt: skip


def over(point, other, higher_mm, **more):
    return {"point": point, "over": other, "higher_mm": float(higher_mm), **more}


def level(found, name):
    return next(point for point in found.points if point.name == name).level_mm


def codes(found):
    return [finding.code for finding in found.findings]


def book(name, *rows):
    """A book from rows: point, backsight, intermediate, foresight."""
    keys = ("backsight_mm", "intermediate_mm", "foresight_mm")
    return {
        "name": name,
        "rows": [
            {"point": point, **{k: float(v) for k, v in zip(keys, read, strict=True) if v}} for point, *read in rows
        ],
    }


def test_a_height_by_string_gives_a_level_and_one_below_gives_it_too(small):
    found = small.levelled([], {"A": 10000.0}, heights_over=[over("B", "A", -25), over("B", "C", 10)])
    assert level(found, "B") == pytest.approx(9975.0)
    assert level(found, "C") == pytest.approx(9965.0)


def test_a_height_that_hangs_on_nothing_and_one_over_itself_are_refused(small):
    with pytest.raises(JobInvalid, match="whose level nothing gives"):
        small.levelled([], {"A": 10000.0}, heights_over=[over("B", "C", -25)])
    with pytest.raises(JobInvalid, match="no higher than itself"):
        small.levelled([], {"A": 10000.0}, heights_over=[over("B", "B", -25)])


def test_two_heights_of_one_point_are_told_and_the_way_out_adjusts_them(small):
    heights = [over("B", "A", -25), over("B", "A", -65)]
    found = small.levelled([], {"A": 10000.0}, heights_over=heights)
    (finding,) = [each for each in found.findings if each.code == "survey.levelled_twice"]
    assert finding.value == pytest.approx(-40.0)
    ((change,),) = (option.changes for option in finding.options)
    assert (change.path, change.value) == ("measurements.levels_together", True)
    settled = small.levelled([], {"A": 10000.0}, heights_over=heights, levels_together=True)
    assert level(settled, "B") == pytest.approx(9955.0)
    assert "survey.levelled_twice" not in codes(settled)
    assert "survey.level_error_unplaced" in codes(settled)


def test_the_printed_network_is_met_from_heights_of_a_job(small):
    heights = [over(end, start, higher, sd_mm=float(sd)) for start, end, higher, sd in RUNS]
    found = small.levelled([], {"A": 437_596.0}, heights_over=heights, levels_together=True)
    assert [level(found, name) for name in "BCD"] == pytest.approx([448_108.71, 453_468.47, 444_943.61], abs=0.005)
    assert [each.residual_mm for each in found.levels_together.readings] == pytest.approx(
        [3.712, -0.244, -1.862, 0.395, 1.894, -8.532], abs=0.0006
    )
    assert found.levels_together.spare == 3
    assert found.levels_together.ratio == pytest.approx(0.65118, abs=0.000006)


def two_loops(dice, slip=0.0):
    """Two books of four set-ups over the same corners, read with a deviation of 1 mm."""
    true = {"A": 10_000.0, "B": 9_950.0, "C": 9_900.0, "D": 9_960.0}

    def read(point, height):
        return round(height - true[point] + dice.gauss(0.0, 1.0), 1)

    books = []
    for name, order in (("First", "ABCDA"), ("Second", "ADCBA")):
        rows, foresight = [], None
        for number, (here, then) in enumerate(zip(order, order[1:], strict=False)):
            height = 11_300.0 + 40.0 * number
            middle = read(order[(number + 2) % 4], height)
            rows.append((here, read(here, height), None, foresight))
            rows.append((order[(number + 2) % 4], None, middle, None))
            foresight = read(then, height)
        rows.append((order[-1], None, None, foresight))
        books.append((name, rows))
    if slip:
        point, *reads = books[0][1][4]
        books[0][1][4] = (point, reads[0], reads[1], reads[2] + slip)
    return [book(name, *rows) for name, rows in books]


def test_runs_adjusted_together_come_near_the_truth_and_say_how_sure_they_are(small):
    found = small.levelled(two_loops(random.Random(3)), {"A": 10_000.0}, levels_together=True)
    fit = found.levels_together
    assert [level(found, name) for name in "ABCD"] == pytest.approx([10_000.0, 9_950.0, 9_900.0, 9_960.0], abs=2.5)
    # 24 readings, 8 heights of collimation and 3 points unknown
    assert len(fit.readings) == 24
    assert fit.spare == 13
    assert sum(each.redundancy for each in fit.readings) == pytest.approx(13.0)
    assert {name for name, _ in fit.sds_mm} == {"B", "C", "D"}
    assert not any(each.suspect for each in fit.readings)
    assert found.level_books[0].rows[-1].adjusted_mm == pytest.approx(10_000.0)


def test_a_slip_of_the_staff_is_named_where_others_check_it(small):
    found = small.levelled(two_loops(random.Random(3), slip=100.0), {"A": 10_000.0}, levels_together=True)
    (finding,) = [each for each in found.findings if each.code == "survey.level_reading_suspect"]
    assert finding.value == pytest.approx(100.0, abs=8.0)
    assert "First, set-up 2" in finding.message
    assert "too much" in finding.message


def test_one_loop_shows_an_error_without_placing_it(small):
    rows = [("A", 1200, None, None), ("B", 1300, None, 1250), ("C", 1400, None, 1350), ("A", None, None, 1260)]
    found = small.levelled([book("Loop", *rows)], {"A": 10_000.0}, levels_together=True)
    assert "survey.level_error_unplaced" in codes(found)
    assert all(each.suspect for each in found.levels_together.readings)


def test_levels_that_nothing_checks_are_told(small):
    found = small.levelled([], {"A": 10_000.0}, heights_over=[over("B", "A", -25)], levels_together=True)
    assert "survey.no_spare_level" in codes(found)


@pytest.mark.parametrize(("rule", "limit"), [("distance", 5.0), ("third_order", 6.0), ("setups", 5.0 * 3**0.5)])
def test_the_greatest_misclosure_goes_by_the_rule_that_is_chosen(small, rule, limit):
    # 10 and 12 mm times the root of a quarter of a kilometre; 5 mm times the root of three set-ups
    rows = [("A", 1200, None, None), ("B", 1300, None, 1250), ("C", 1400, None, 1350), ("A", None, None, 1304)]
    run = {**book("Loop", *rows), "length_m": 250.0}
    found = small.levelled([run], {"A": 10_000.0}, misclosure_rule=rule)
    (reduced,) = found.level_books
    assert reduced.limit_mm == pytest.approx(limit)
    assert reduced.working[1].figures[0].source
    assert reduced.misclosure_mm == pytest.approx(-4.0)


def test_a_rule_by_distance_asks_for_the_distance(small):
    rows = [("A", 1200, None, None), ("B", None, None, 1250)]
    with pytest.raises(JobInvalid, match="say how far the run was walked"):
        small.levelled([book("Loop", *rows)], {"A": 10_000.0}, misclosure_rule="distance")


def banked(small, **more):
    points = [("F1", 0, 1000, 0), ("F2", 4000, 1000, 0), ("T1", 0, 1300, 800), ("T2", 4000, 1300, 800), ("G1", 0, 0, 0),
              ("G2", 4000, 0, 0), ("G3", 0, 2500, 800), ("G4", 4000, 2500, 800), ("G5", 2000, 700, 0)]  # fmt: skip
    given = [{"name": n, "x_mm": float(x), "y_mm": float(y), "level_mm": float(z)} for n, x, y, z in points]
    return small.survey({"points": [*small.square, *given], "ground_points": ["G1", "G2", "G3", "G4", "G5"], **more})


def test_the_ground_breaks_along_its_lines(small):
    found = banked(small, break_lines=[{"points": ["F1", "F2"]}, {"points": ["T1", "T2"]}])
    assert found.ground.level_at((2000.0, 990.0)) == pytest.approx(0.0)
    assert found.ground.level_at((2000.0, 1310.0)) == pytest.approx(800.0)
    assert banked(small).ground.level_at((2000.0, 990.0)) > 30.0


def test_break_lines_that_cross_are_refused_by_the_names_of_their_points(small):
    with pytest.raises(JobInvalid, match=r"F1 to T2 and F2 to T1 cross|F2 to T1 and F1 to T2 cross"):
        banked(small, break_lines=[{"points": ["F1", "T2"]}, {"points": ["F2", "T1"]}])
    with pytest.raises(JobInvalid, match="A break line names point Nowhere"):
        banked(small, break_lines=[{"points": ["F1", "Nowhere"]}])


def test_there_is_no_ground_in_a_gap(small):
    found = banked(small, ground_gaps=[{"points": ["F1", "F2", "T2", "T1"]}])
    assert found.ground.level_at((2000.0, 1150.0)) is None
    assert found.ground.level_at((2000.0, 500.0)) is not None


def test_a_run_that_closes_badly_and_is_adjusted_says_how_far_its_levels_were_changed(small):
    rows = [("A", 1000, None, None), ("B", None, 1100, None), ("C", 1200, None, 1150), ("A", None, None, 1090)]
    by_itself = small.levelled([book("Visit", *rows)], {"A": 10_000.0})
    (reported,) = [each for each in by_itself.findings if each.code == "survey.misclosure"]
    assert "Misclosure not distributed" in reported.message
    together = small.levelled([book("Visit", *rows)], {"A": 10_000.0}, levels_together=True)
    (reported,) = [each for each in together.findings if each.code == "survey.misclosure"]
    assert "Misclosure not distributed" not in reported.message
    changed = max(abs(row.correction_mm) for row in together.level_books[0].rows)
    assert changed > 10.0
    assert (
        f"changed levels of this book by up to {changed:.0f}" in reported.message
        or f"{changed:.1f}" in reported.message
    )
