"""Properties of the survey: what a shift or a turn must not change."""

from __future__ import annotations

import itertools
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright import rulebook
from pavewright.geometry import Corner
from pavewright.job import LevelBook, Measurements, TapePlan
from pavewright.survey.levelling._level_book import reduce_level_books
from pavewright.survey.levelling._levelling import (
    Sighting,
    arithmetic_checks,
    levels_by_collimation,
    reduce_rows,
    share_mm,
)
from pavewright.survey.edges._outlines import ring_with_rises_outward
from pavewright.survey._figures import survey_figures
from pavewright.survey._remarks import Remarks
from pavewright.survey.tapes._tape_plan import place_taped_points
from pavewright.survey.tapes._two_tapes import two_tape_intersection

FIGURES = survey_figures(rulebook.load("england"))
TRUE = {"A": (0.0, 0.0), "B": (6000.0, 0.0), "C": (6200.0, 4100.0), "D": (-150.0, 3900.0)}
reading = st.integers(100, 4000).map(float)
slips = st.lists(st.floats(-3.0, 3.0), min_size=6, max_size=6)


def taped(errors: list[float], x_mm: float, y_mm: float, bearing_deg: float) -> Any:
    """Return a braced four-sided figure with errors in its six tapes, laid down somewhere."""
    tapes = [
        {"start": s, "end": e, "length_mm": math.dist(TRUE[s], TRUE[e]) + error}
        for (s, e), error in zip(itertools.combinations("ABCD", 2), errors, strict=True)
    ]
    sides = [{"point": p, "line_from": "A", "line_to": "B", "side": "left"} for p in "CD"]
    plan = TapePlan.model_validate(
        {
            "base_from": "A",
            "base_to": "B",
            "x_mm": x_mm,
            "y_mm": y_mm,
            "bearing_deg": bearing_deg,
            "tapes": tapes,
            "sides": sides,
        },
        strict=False,
    )
    remarks = Remarks()
    found = place_taped_points(plan, {}, FIGURES, remarks)
    assert found is not None
    return found


@settings(max_examples=30, deadline=None)
@given(slips, st.floats(-50_000.0, 50_000.0), st.floats(-50_000.0, 50_000.0), st.floats(0.0, 359.9))
def test_moving_and_turning_the_base_line_changes_no_residual(
    errors: list[float], x: float, y: float, turn: float
) -> None:
    here, there = taped(errors, 0.0, 0.0, 90.0), taped(errors, x, y, turn)
    for one, other in zip(here.tapes.residuals, there.tapes.residuals, strict=True):
        assert one.residual_mm == pytest.approx(other.residual_mm, abs=1e-5)
        assert one.redundancy == pytest.approx(other.redundancy, abs=1e-6)
    assert here.tapes.ratio == pytest.approx(there.tapes.ratio, abs=1e-5)
    for start, end in itertools.combinations("ABCD", 2):
        assert math.dist(here.places[start], here.places[end]) == pytest.approx(
            math.dist(there.places[start], there.places[end]), abs=1e-5
        )


@settings(max_examples=50, deadline=None)
@given(
    st.lists(st.tuples(reading, reading), min_size=1, max_size=8), st.integers(-200_000, 200_000), st.integers(-9, 9)
)
def test_shifting_the_datum_changes_no_misclosure(setups: list[Any], shift: int, out: int) -> None:
    total = sum(back - fore for back, fore in setups)

    def closing(datum: float) -> Any:
        rows = [{"point": "M", "backsight_mm": setups[0][0]}]
        rows += [
            {"point": f"P{k}", "foresight_mm": fore, "backsight_mm": setups[k + 1][0]}
            for k, (_, fore) in enumerate(setups[:-1])
        ]
        rows.append({"point": "N", "foresight_mm": setups[-1][1]})
        book = LevelBook.model_validate({"name": "Run", "rows": rows}, strict=False)
        measured = Measurements.model_validate(
            {
                "benchmarks": [{"point": "M", "level_mm": datum}, {"point": "N", "level_mm": datum + total - out}],
                "level_books": [book],
            },
            strict=False,
        )
        remarks = Remarks()
        (reduced,) = reduce_level_books(measured, FIGURES, remarks).books
        return reduced

    here, there = closing(0.0), closing(float(shift))
    assert here.misclosure_mm == there.misclosure_mm == out
    assert here.shared_out == there.shared_out
    assert all(check.holds for check in there.checks)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.lists(reading, min_size=2, max_size=5), min_size=1, max_size=5), st.floats(-1e5, 1e5))
def test_both_ways_of_reducing_agree_and_a_wrong_level_never_passes(setups: list[list[float]], first: float) -> None:
    sightings = [Sighting("0", setups[0][0])]
    for number, readings in enumerate(setups):
        sightings += [Sighting("i", None, value) for value in readings[1:-1]]
        onward = setups[number + 1][0] if number + 1 < len(setups) else None
        sightings.append(Sighting("c", onward, None, readings[-1]))
    rows = reduce_rows(sightings, first)
    levels = [row.level_mm for row in rows]
    assert list(levels_by_collimation(rows)) == pytest.approx(levels, abs=1e-6)
    assert all(check.holds for check in arithmetic_checks(rows, levels))
    for number in range(1, len(levels)):
        wrong = [*levels[:number], levels[number] + 1.0, *levels[number + 1 :]]
        assert not all(check.holds for check in arithmetic_checks(rows, wrong))


@given(st.floats(-50.0, 50.0), st.integers(1, 12))
def test_shares_rise_evenly_to_the_whole_misclosure(misclosure: float, setups: int) -> None:
    shares = [share_mm(misclosure, setup, setups) for setup in range(1, setups + 1)]
    assert shares[-1] == pytest.approx(-misclosure)
    assert shares[0] * setups == pytest.approx(-misclosure)


@given(st.floats(100.0, 20_000.0), st.floats(100.0, 20_000.0), st.floats(100.0, 20_000.0), st.floats(0.0, 6.28))
def test_two_tapes_end_where_they_are_long(line: float, first: float, second: float, turn: float) -> None:
    end = (line * math.cos(turn), line * math.sin(turn))
    meeting = two_tape_intersection((0.0, 0.0), end, first, second)
    length = math.hypot(*end)
    if meeting is None:
        assert first + second < length or abs(first - second) > length
        return
    for place in (meeting.left, meeting.right):
        assert math.hypot(*place) == pytest.approx(first, abs=1e-6)
        assert math.dist(place, end) == pytest.approx(second, abs=1e-3)
    assert end[0] * meeting.left[1] - end[1] * meeting.left[0] >= -1e-3


@given(st.lists(st.floats(-300.0, 300.0), min_size=4, max_size=4), st.integers(0, 3), st.booleans())
def test_an_outline_is_the_same_wherever_and_whichever_way_it_is_walked(
    rises: list[float],
    start: int,
    back: bool,
) -> None:
    places = [(0.0, 0.0), (5000.0, 0.0), (5000.0, 4000.0), (0.0, 4000.0)]
    corners = [Corner("ABCD"[k], *places[k], rises[k]) for k in range(4)]
    whole = ring_with_rises_outward(corners)
    walked = [*corners[start:], *corners[:start]]
    if back:
        walked = [Corner(c.name, c.x_mm, c.y_mm, walked[k - 1].rise_mm) for k, c in reversed(list(enumerate(walked)))]
    other = ring_with_rises_outward(walked)
    assert sorted((c.name, c.rise_mm) for c in whole.corners) == sorted((c.name, c.rise_mm) for c in other.corners)
    assert {side.name for side in whole.sides} == {side.name for side in other.sides}
