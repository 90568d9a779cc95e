"""The tape plan: placing, sides, least squares and suspects."""

from __future__ import annotations

import itertools
import math
from typing import Any

import numpy as np
import pytest

from pavewright.findings import Severity
from pavewright.job import JobInvalid
from pavewright.survey import ShapeKind
from pavewright.survey.networks._chi_square import chi_square_quantile, gamma_part, ratio_band
from pavewright.survey.networks._slips import slip_mm
from pavewright.survey.tapes._tape_plan import tape_deviation_mm

LEFT = [("C", "A", "B", "left"), ("D", "A", "B", "left")]
TRUE = {"A": (0.0, 0.0), "B": (6000.0, 0.0), "C": (6200.0, 4100.0), "D": (-150.0, 3900.0), "M": (2900.0, 2000.0)}


def between(start: str, end: str) -> float:
    return math.dist(TRUE[start], TRUE[end])


def braced(slip: dict[tuple[str, str], float] | None = None, names: str = "ABCD") -> list[tuple[str, str, float]]:
    """Return a tape between every two points, true to a tenth of a millimetre but for the slips."""
    slips = slip or {}
    return [
        (start, end, round(between(start, end), 1) + slips.get((start, end), 0.0))
        for start, end in itertools.combinations(names, 2)
    ]


def reported(result: Any, code: str) -> list[Any]:
    return [finding for finding in result.findings if finding.code == code]


def test_three_four_five_is_placed_exactly(small: Any) -> None:
    tapes = [("A", "B", 4000.0), ("A", "D", 3000.0), ("B", "D", 5000.0), ("A", "C", 5000.0), ("B", "C", 3000.0)]
    result = small.taped(tapes, LEFT)
    assert result.point("C").xy == pytest.approx((4000.0, 3000.0), abs=1e-6)
    assert result.point("D").xy == pytest.approx((0.0, 3000.0), abs=1e-6)
    assert result.tapes.spare == 0
    assert result.tapes.ratio is None
    assert [tape.standardised for tape in result.tapes.residuals] == [None] * 5
    (finding,) = reported(result, "survey.no_spare_tape")
    assert finding.message.startswith("Nothing checks this plan")


def test_the_base_line_runs_where_it_is_told(small: Any) -> None:
    tapes = [("A", "B", 4000.0), ("A", "D", 3000.0), ("B", "D", 5000.0), ("A", "C", 5000.0), ("B", "C", 3000.0)]
    result = small.taped(tapes, LEFT, x_mm=100.0, y_mm=200.0, bearing_deg=0.0)
    assert result.point("B").xy == pytest.approx((100.0, 4200.0), abs=1e-6)
    assert result.point("D").xy == pytest.approx((-2900.0, 200.0), abs=1e-6)


def test_a_point_may_hang_on_points_placed_later_in_the_list(small: Any) -> None:
    tapes = [
        ("D", "M", between("D", "M")),
        ("C", "M", between("C", "M")),
        *(tape for tape in braced() if set(tape[:2]) != {"A", "B"}),
        ("B", "A", between("A", "B")),
    ]
    result = small.taped(tapes, [*LEFT, ("M", "D", "C", "right")])
    assert result.point("M").xy == pytest.approx(TRUE["M"], abs=0.5)
    assert [point.name for point in result.points] == ["A", "B", "D", "M", "C"]


def test_a_missing_side_names_both_places(small: Any) -> None:
    with pytest.raises(JobInvalid) as refused:
        small.taped([("A", "B", 4000.0), ("A", "D", 3000.0), ("B", "D", 5000.0)], [])
    fault = refused.value.faults[0]
    assert fault.path == "measurements.tape_plan.sides"
    assert "left of A–B at x 0.000, y 3.000" in fault.message
    assert "right of it at x 0.000, y -3.000" in fault.message


def test_a_third_tape_tells_the_side(small: Any) -> None:
    result = small.taped(braced(), LEFT[:1])
    assert result.point("D").xy == pytest.approx(TRUE["D"], abs=0.5)


def test_a_side_that_does_not_part_the_best_cut_is_helped_out_by_another_tape(small: Any) -> None:
    # E is cut best from D and F, and both places of that cut lie left of A–B: tape A–E tells which is meant
    shape = {"A": (0, 0), "B": (7200, 0), "C": (7200, 3000), "D": (4200, 3000), "E": (4200, 5400), "F": (0, 5400)}
    pairs = ["AB", "AF", "BF", "BC", "AC", "AD", "BD", "CD", "DE", "EF"]
    sides = [(point, "A", "B", "left") for point in "CDEF"]
    tapes = [(p[0], p[1], float(round(math.dist(shape[p[0]], shape[p[1]])))) for p in pairs]
    result = small.taped([*tapes, ("A", "E", 6841.0)], sides)
    assert result.point("E").xy == pytest.approx(shape["E"], abs=2.0)
    with pytest.raises(JobInvalid, match="both lie on the left of A–B: say on which side of D–F it lies"):
        small.taped(tapes, sides)


def test_a_side_that_a_third_tape_contradicts_is_told(small: Any) -> None:
    with pytest.raises(JobInvalid, match=r"D is said to lie right of A–B, but tape .* fits the other side only"):
        small.taped(braced(), [LEFT[0], ("D", "A", "B", "right")])


def test_a_side_from_a_line_that_does_not_part_the_places_is_told(small: Any) -> None:
    tapes = [("A", "B", 4000.0), ("A", "D", 3000.0), ("B", "D", 5000.0), ("A", "C", 5000.0), ("B", "C", 3000.0)]
    with pytest.raises(JobInvalid, match="both lie on the left of B–C: say on which side of A–B it lies"):
        small.taped(tapes, [LEFT[0], ("D", "B", "C", "left")])


def test_tapes_that_do_not_meet_are_told_with_what_to_measure_again(small: Any) -> None:
    with pytest.raises(JobInvalid) as refused:
        small.taped([("A", "B", 6000.0), ("A", "C", 3200.0), ("B", "C", 2100.0)], [])
    assert refused.value.faults[0].message == (
        "Tapes A–C 3.200 and B–C 2.100 do not meet over A–B 6.000: measure A–C, B–C and A–B again."
    )
    with pytest.raises(JobInvalid, match="do not meet"):
        small.taped([("A", "B", 2000.0), ("A", "C", 5200.0), ("B", "C", 2100.0)], [])


def test_a_point_with_one_tape_and_a_base_without_one_are_told(small: Any) -> None:
    with pytest.raises(JobInvalid, match=r"M has one tape to a placed point \(A\) and needs two"):
        small.taped([*braced(), ("A", "M", 3000.0)], LEFT)
    with pytest.raises(JobInvalid, match="base line A–B has no tape"):
        small.taped([("A", "C", 3200.0), ("B", "C", 2100.0)], [])


def test_a_flat_cut_is_told(small: Any) -> None:
    result = small.taped(
        [("A", "B", 6000.0), ("A", "C", 3010.0), ("B", "C", 3010.0), ("A", "D", 5000.0), ("B", "D", 5000.0)], LEFT
    )
    (finding,) = reported(result, "survey.tape_angle")
    assert finding.place == "point C"
    assert finding.value == pytest.approx(2 * math.degrees(math.asin(3000 / 3010)))
    assert finding.limit == 150.0
    assert finding.severity is Severity.CHECK


def test_the_network_equals_a_general_least_squares_program(small: Any) -> None:
    from scipy import optimize  # noqa: PLC0415 - slow to load

    rng = np.random.default_rng(7)
    tapes = [
        (start, end, length + float(rng.normal(0.0, 2.0)), 2.0 + 0.1 * k)
        for k, (start, end, length) in enumerate(braced(names="ABCDM"))
    ]
    result = small.taped(tapes, [*LEFT, ("M", "A", "B", "left")], bearing_deg=60.0)
    names = ["B", "C", "D", "M"]
    along = (math.sin(math.radians(60.0)), math.cos(math.radians(60.0)))

    def misfits(unknowns: Any) -> Any:
        places = {"A": (0.0, 0.0), "B": (along[0] * unknowns[0], along[1] * unknowns[0])}
        places |= {name: tuple(unknowns[1 + 2 * k : 3 + 2 * k]) for k, name in enumerate(names[1:])}
        return [(math.dist(places[s], places[e]) - length) / sd for s, e, length, sd in tapes]

    start = [6000.0, *(part for name in names[1:] for part in result.point(name).xy)]
    twin = optimize.least_squares(misfits, start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert [tape.residual_mm / tape.sd_mm for tape in result.tapes.residuals] == pytest.approx(list(twin.fun), abs=1e-6)
    for k, name in enumerate(names[1:]):
        assert result.point(name).xy == pytest.approx(tuple(twin.x[1 + 2 * k : 3 + 2 * k]), abs=1e-5)
    jac = np.asarray(twin.jac)
    spread = np.linalg.inv(jac.T @ jac)
    assert result.tapes.spare == 3
    assert result.tapes.ratio == pytest.approx(math.sqrt(2 * twin.cost / 3), abs=1e-9)
    redundancy = 1.0 - np.einsum("ij,jk,ik->i", jac, spread, jac)
    assert [tape.redundancy for tape in result.tapes.residuals] == pytest.approx(list(redundancy), abs=1e-5)
    assert sum(tape.redundancy for tape in result.tapes.residuals) == pytest.approx(3.0)
    grown = max(1.0, result.tapes.ratio if result.tapes.ratio > result.tapes.ratio_high else 1.0)
    largest = math.sqrt(float(np.linalg.eigvalsh(spread[1:3, 1:3])[-1]))
    assert result.point("C").sd_mm == pytest.approx(grown * largest, rel=1e-4)
    assert result.point("A").sd_mm is None
    assert result.point("B").sd_mm is not None


def test_with_one_spare_tape_a_slip_shows_but_cannot_be_placed(small: Any) -> None:
    result = small.taped(braced({("A", "C"): 60.0}), LEFT)
    (finding,) = reported(result, "survey.tape_error_unplaced")
    assert result.tapes.spare == 1
    assert finding.severity is Severity.STOP
    assert "one spare tape can show the error but not place it" in finding.message
    assert {round(abs(tape.standardised), 3) for tape in result.tapes.residuals} == {
        round(abs(result.tapes.residuals[0].standardised), 3)
    }


def test_with_more_spare_tapes_the_slip_is_named_with_its_size(small: Any) -> None:
    result = small.taped(braced({("B", "D"): 60.0}, "ABCDM"), [*LEFT, ("M", "A", "B", "left")])
    assert result.tapes.spare == 3
    (finding,) = reported(result, "survey.tape_suspect")
    assert finding.place == "tape B–D"
    assert finding.value == pytest.approx(60.0, abs=1.0)
    assert "too long" in finding.message
    assert f"{between('B', 'D') / 1000:.3f}"[:4] in finding.message


def test_two_separate_figures_with_a_spare_tape_each_do_not_name_one_tape(small: Any) -> None:
    places = {"A": (0, 0), "B": (6000, 0), "C": (6000, 4000), "D": (0, 4000), "E": (6000, -4000), "F": (0, -4000)}
    pairs = ["AB", "AC", "AD", "BC", "BD", "CD", "AE", "AF", "BE", "BF", "EF"]
    tapes = [(p[0], p[1], math.dist(places[p[0]], places[p[1]]) + (50.0 if p == "AC" else 0.0)) for p in pairs]
    result = small.taped(tapes, [*LEFT, ("E", "A", "B", "right"), ("F", "A", "B", "right")])
    assert result.tapes.spare == 2
    assert not reported(result, "survey.tape_suspect")
    (finding,) = reported(result, "survey.tape_error_unplaced")
    assert "A–C" in finding.message
    assert "E–F" not in finding.message


def test_a_tape_that_nothing_checks_is_named(small: Any) -> None:
    tapes = [*braced(), ("A", "M", between("A", "M")), ("B", "M", between("B", "M"))]
    result = small.taped(tapes, [*LEFT, ("M", "A", "B", "left")])
    assert [finding.place for finding in reported(result, "survey.tape_unchecked")] == ["tape A–M", "tape B–M"]


def test_true_tapes_fit_better_than_chance(small: Any) -> None:
    result = small.taped(braced(names="ABCDM"), [*LEFT, ("M", "A", "B", "left")])
    assert result.tapes.ratio < result.tapes.ratio_low
    assert reported(result, "survey.tapes_agree_well")[0].severity is Severity.NOTE


def test_a_point_free_to_move_sideways_is_told(small: Any) -> None:
    tapes = [("A", "B", 6000.0), ("A", "C", 3000.0), ("B", "C", 3000.0), ("A", "D", 5000.0), ("B", "D", 5000.0)]
    with pytest.raises(JobInvalid, match="The tapes to C run nearly along one line"):
        small.taped(tapes, LEFT)


def test_given_points_hold_a_tape_plan_fast(small: Any) -> None:
    plan: dict[str, Any] = {
        "base_from": "A",
        "base_to": "B",
        "tapes": [{"start": s, "end": e, "length_mm": between(s, e)} for s, e in ("AB", "AD", "BD", "CD")],
        "sides": [],
    }
    given = {"name": "C", "x_mm": TRUE["C"][0], "y_mm": TRUE["C"][1]}
    result = small.survey({"points": [given], "tape_plan": plan})
    assert result.point("C").found_by == "given"
    assert result.point("C").xy == TRUE["C"]
    assert result.point("D").xy == pytest.approx(TRUE["D"], abs=1e-4)


def test_deviation_and_slip_by_hand() -> None:
    assert tape_deviation_mm(0.0, 2.0, 0.2) == 2.0
    assert tape_deviation_mm(15_000.0, 2.0, 0.2) == pytest.approx(math.sqrt(13.0))
    assert slip_mm(6.0, 0.5) == -12.0


@pytest.mark.parametrize("freedom", [1, 2, 3, 7, 14, 60, 400])
@pytest.mark.parametrize("part", [0.005, 0.025, 0.5, 0.975, 0.999])
def test_chi_square_equals_its_twin(freedom: int, part: float) -> None:
    from scipy import stats  # noqa: PLC0415 - slow to load

    assert chi_square_quantile(part, freedom) == pytest.approx(float(stats.chi2.ppf(part, freedom)), rel=1e-9)


def test_bands_as_printed() -> None:
    printed = {1: (0.031, 2.241), 3: (0.268, 1.765), 4: (0.348, 1.669), 8: (0.522, 1.480), 14: (0.634, 1.366)}
    for freedom, band in printed.items():
        assert ratio_band(freedom, 0.95) == pytest.approx(band, abs=0.0005)
    assert gamma_part(2.5, 0.0) == 0.0


def test_a_square_corner_and_one_tape_place_a_point_and_count_as_readings(small: Any) -> None:
    plan: dict[str, Any] = {
        "base_from": "A", "base_to": "B",
        "tapes": [{"start": "A", "end": "B", "length_mm": 6000.0}, {"start": "A", "end": "D", "length_mm": 4000.0},
                  {"start": "A", "end": "C", "length_mm": 7200.0}, {"start": "B", "end": "C", "length_mm": 4100.0}],
        "sides": [{"point": p, "line_from": "A", "line_to": "B", "side": "left"} for p in "CD"],
        "square_corners": [{"at": "A", "first": "B", "second": "D"}],
    }  # fmt: skip
    result = small.survey({"tape_plan": plan})
    assert result.point("D").xy == pytest.approx((0.0, 4000.0), abs=1e-4)
    assert result.tapes.spare == 0
    plan["tapes"].append({"start": "B", "end": "D", "length_mm": math.hypot(6000.0, 4000.0) + 6.0})
    result = small.survey({"tape_plan": plan})
    assert result.tapes.spare == 1
    (corner,) = result.tapes.shapes
    assert corner.kind is ShapeKind.SQUARE
    assert corner.points == ("A", "B", "D")
    # the diagonal is long, so D leans over the corner, B-A-D opens: by hand from the cosine, about 10.8 mm at 4 m
    assert 0.0 < -corner.off_mm < 10.9


def test_a_point_on_a_wall_is_held_on_its_line(small: Any) -> None:
    plan: dict[str, Any] = {
        "base_from": "A", "base_to": "B",
        "tapes": [{"start": s, "end": e, "length_mm": between(s, e)} for s, e in ("AB", "AC", "BC", "AD", "BD", "CD")]
        + [{"start": "A", "end": "W", "length_mm": 2000.0}, {"start": "B", "end": "W", "length_mm": 4003.0}],
        "sides": [{"point": p, "line_from": "A", "line_to": "B", "side": "left"} for p in "CD"],
        "points_on_lines": [{"point": "W", "line_from": "A", "line_to": "B", "sd_mm": 3.0}],
    }  # fmt: skip
    result = small.survey({"tape_plan": plan})
    (shape,) = result.tapes.shapes
    assert abs(shape.off_mm) < 1.0
    assert result.point("W").xy[0] == pytest.approx(1998.5, abs=1.0)


def test_two_slips_are_taken_out_one_after_the_other(small: Any) -> None:
    names, spots = "ABCDMN", {**TRUE, "N": (5200.0, 2500.0)}
    slips = {("B", "D"): 80.0, ("A", "N"): -60.0}
    tapes = [(s, e, round(math.dist(spots[s], spots[e]), 1) + slips.get((s, e), 0.0))
             for s, e in itertools.combinations(names, 2)]  # fmt: skip
    result = small.taped(tapes, [*LEFT, ("M", "A", "B", "left"), ("N", "A", "B", "left")])
    suspects = {(each.start, each.end): each.slip_mm for each in result.tapes.suspects}
    assert set(suspects) == set(slips)
    assert suspects["B", "D"] == pytest.approx(80.0, abs=3.0)
    assert suspects["A", "N"] == pytest.approx(-60.0, abs=3.0)
    assert len(reported(result, "survey.tape_suspect")) == 2


def test_the_next_tape_is_advised_in_words(small: Any) -> None:
    tapes = [*braced(), ("A", "M", between("A", "M")), ("B", "M", between("B", "M"))]
    result = small.taped(tapes, [*LEFT, ("M", "A", "B", "left")])
    more = result.tapes.next_tape
    assert more.gain == "check"
    assert "M" in {more.start, more.end}
    (finding,) = reported(result, "survey.next_tape")
    assert f"One tape from {more.start} to {more.end}" in finding.message


def test_an_error_that_has_no_place_comes_with_the_tape_that_settles_it(small: Any) -> None:
    tapes = [*braced({("A", "C"): 60.0}), ("A", "M", between("A", "M")), ("B", "M", between("B", "M"))]
    result = small.taped(tapes, [*LEFT, ("M", "A", "B", "left")])
    (finding,) = reported(result, "survey.tape_error_unplaced")
    assert result.tapes.next_tape.gain == "place"
    assert "goes furthest to settle it" in finding.message


def test_an_ellipse_lies_along_the_weak_direction(small: Any) -> None:
    # D is taped from two points on one side of it: firm across the tapes, weak along the line between
    tapes = [("A", "B", 1000.0), ("A", "D", 6000.0), ("B", "D", 6010.0)]
    result = small.taped(tapes, [("D", "A", "B", "left")])
    ellipse = result.point("D").ellipse
    assert ellipse.major_mm > 3.0 * ellipse.minor_mm
    assert result.point("D").sd_mm == ellipse.major_mm
    assert min(ellipse.bearing_deg, 180.0 - ellipse.bearing_deg) > 70.0


def test_a_point_on_a_wall_with_one_tape_stands_between_its_ends(small: Any) -> None:
    plan: dict[str, Any] = {
        "base_from": "A", "base_to": "B",
        "tapes": [{"start": s, "end": e, "length_mm": between(s, e)} for s, e in ("AB", "AC", "BC", "AD", "BD", "CD")]
        + [{"start": "A", "end": "W", "length_mm": 1200.0}],
        "sides": [{"point": p, "line_from": "A", "line_to": "B", "side": "left"} for p in "CD"],
        "points_on_lines": [{"point": "W", "line_from": "A", "line_to": "B"}],
    }  # fmt: skip
    assert small.survey({"tape_plan": plan}).point("W").xy == pytest.approx((1200.0, 0.0), abs=0.01)
    # from B two places between D and C are as far: which one is asked
    plan["tapes"][-1] = {"start": "B", "end": "W", "length_mm": 4097.0}
    plan["points_on_lines"][0] = {"point": "W", "line_from": "D", "line_to": "C"}
    with pytest.raises(JobInvalid, match="W may stand at"):
        small.survey({"tape_plan": plan})
