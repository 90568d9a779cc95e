"""Standing water by simulation: kriging, free surfaces, ponds that are there, and none where none are."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.interpolate import RBFInterpolator

from pavewright.as_laid.standing import Likeness, Roughness, WaterState, WhyUnknown, standing, standing_figures
from pavewright.as_laid.standing._free import free_surfaces
from pavewright.as_laid.standing._kriging import even, kriging, sloping
from pavewright.as_laid.standing._next import worth_of
from pavewright.as_laid.standing._simulating import Cells, simulated
from pavewright.as_laid.standing._standing import thinned
from pavewright.levels import finished_levels


def places(seed, count=25, across=6000.0):
    return np.random.default_rng(seed).uniform(0.0, across, (count, 2))


def test_weights_reproduce_any_slope_exactly():
    read = places(1)
    trend = sloping(read, (3000.0, 3000.0), 3000.0)
    wanted = places(2, 40)
    weights, _ = kriging(read, Roughness(2.0, 900.0), trend, 1.0).weights(
        wanted, sloping(wanted, (3000.0, 3000.0), 3000.0)
    )
    plane = lambda at: 7.0 + 0.003 * at[:, 0] - 0.011 * at[:, 1]  # noqa: E731
    assert weights @ plane(read) == pytest.approx(plane(wanted), abs=1e-9)


def test_without_error_it_passes_through_the_readings():
    read = places(3)
    found = np.random.default_rng(4).normal(0.0, 3.0, len(read))
    weights, variance = kriging(read, Roughness(3.0, 800.0), even(read)).weights(read, even(read))
    assert weights @ found == pytest.approx(found, abs=1e-6)
    assert variance == pytest.approx(0.0, abs=1e-6)


def test_the_mean_is_that_of_an_independent_interpolator():
    """A gaussian likeness is not ours; a linear radial function with a level trend is an exponential of long reach."""
    read = places(5, 30)
    found = np.random.default_rng(6).normal(0.0, 3.0, len(read))
    wanted = places(7, 20)
    reach = 4.0e7
    rough = Roughness(1000.0, reach, Likeness.EXPONENTIAL)
    weights, _ = kriging(read, rough, even(read)).weights(wanted, even(wanted))
    other = RBFInterpolator(read, found, kernel="linear", degree=0)(wanted)
    assert weights @ found == pytest.approx(other, abs=2e-3)


def test_free_surfaces_are_as_rough_and_as_alike_as_asked():
    rough = Roughness(2.0, 600.0)
    drawn = free_surfaces(rough, (60, 50), 100.0, 400, np.random.default_rng(1))
    assert drawn.shape == (400, 60, 50)
    assert drawn.std() == pytest.approx(2.0, rel=0.03)
    for apart in (1, 5, 10):
        alike = float((drawn[:, :, apart:] * drawn[:, :, :-apart]).mean())
        wanted = float(rough.at(np.array([100.0 * apart]))[0])
        assert alike == pytest.approx(wanted, abs=0.16)


def common(rules):
    return standing_figures(rules).common


def test_simulated_surfaces_spread_as_kriging_says_where_no_dip_is_taken_in(small):
    cells = Cells(0.0, 0.0, 100.0, (40, 60))
    read = places(8, 20, 4000.0)
    off = np.random.default_rng(9).normal(0.0, 2.0, len(read))
    one = replace(small.rules.figure("as_laid.unevenness_mm"), value=2.0, low=2.0, high=2.0)
    far = replace(small.rules.figure("as_laid.unevenness_reach_mm"), value=800.0, low=800.0, high=800.0)
    none = replace(small.rules.figure("as_laid.dips_per_m2"), value=1e-9)
    taken = replace(common(small.rules), unevenness=one, reach=far, dips=none)
    inside = np.ones((40, 60), dtype=bool)
    made = simulated(cells, inside, np.column_stack([read, off]), 1.0, taken, 600, 1)
    at = cells.centres()
    own = at[cells.of(read)]
    about, scale = (2000.0, 2000.0), 2000.0
    weights, variance = kriging(own, Roughness(2.0, 800.0), sloping(own, about, scale), 1.0).weights(
        at, sloping(at, about, scale)
    )
    gone = (made.mean_mm.ravel() - weights @ off) / np.sqrt(variance / 600.0)
    assert float(np.abs(gone).mean()) < 1.3  # of a normal spread the mean size is 0.8
    assert float((made.sd_mm.ravel() / np.sqrt(variance)).mean()) == pytest.approx(1.0, abs=0.08)


def test_one_low_reading_is_taken_for_a_dip_more_than_for_rough_paving_all_over(small):
    cells = Cells(0.0, 0.0, 100.0, (40, 60))
    read = np.array([(x, y, 0.0) for y in range(200, 4000, 900) for x in range(200, 6000, 900)], dtype=float)
    low = 17
    read[low, 2] = -12.0
    inside = np.ones((40, 60), dtype=bool)
    made = simulated(cells, inside, read, 1.0, common(small.rules), 200, 1)
    row, column = divmod(int(cells.of(read[low : low + 1, :2])[0]), 60)
    assert made.mean_mm[row, column] < -9.0
    assert made.learnt.told.sd_mm.middle < 2.0


def patio(small, one_in, off, sd=1.0, apart=1000.0):
    """A patio of 6 × 4 m that falls north, read on a grid, off the plan by a function of the place."""
    small.document["areas"], small.document["measurements"] = [], {"points": []}
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": one_in, "level_at": "P0", "level_mm": 1000.0}
    grid = [(x, y) for y in np.arange(200.0, 4000.0, apart) for x in np.arange(200.0, 6000.0, apart)]
    small.document["as_laid"] = {
        "date": "2027-07-01",
        "reading_sd_mm": sd,
        "readings": [
            {"x_mm": x, "y_mm": y, "level_mm": 1000.0 - y / one_in + off(x, y), "area": "Patio"} for x, y in grid
        ],
    }
    job, measured = small.surveyed()
    return standing(job, measured, finished_levels(job, measured, small.rules), small.rules)


def dip(depth_mm, radius_mm, at=(3000.0, 2000.0)):
    """A parabolic dish."""

    def off(x, y):
        away = ((x - at[0]) ** 2 + (y - at[1]) ** 2) ** 0.5
        return -depth_mm * max(1.0 - (away / radius_mm) ** 2, 0.0)

    return off


def test_even_paving_on_a_good_fall_clears(small):
    (area,) = patio(small, 60.0, lambda x, y: 0.0, apart=500.0)
    assert area.state is WaterState.CLEARS
    assert area.chance < 0.025
    assert area.ponds == ()
    assert area.counted_mm == 3.0


def test_what_lies_between_wide_readings_is_not_called_clear(small):
    (area,) = patio(small, 60.0, lambda x, y: 0.0, apart=1300.0)
    assert area.state is WaterState.UNDECIDED
    assert area.chance < 0.2
    assert area.farthest_mm > 500.0


def test_a_deep_dish_that_was_read_stands_where_it_is(small):
    (area,) = patio(small, 100.0, dip(25.0, 1000.0), apart=500.0)
    assert area.state is WaterState.STANDS
    pond = area.ponds[0]
    assert pond.number == 1
    assert pond.state is WaterState.STANDS
    assert np.hypot(pond.at[0] - 3000.0, pond.at[1] - 2200.0) < 400.0  # its lowest place lies 200 mm down the fall
    # the closed form: 25 (1 − 0.01·1000/50)² = 16 mm
    assert pond.depth_mm.low < 16.0 < pond.depth_mm.high
    assert pond.planned_mm == 0.0


def test_a_shallow_dish_on_a_flat_fall_is_undecided_and_says_where_to_read(small):
    (area,) = patio(small, 150.0, dip(8.0, 900.0), sd=1.0, apart=1300.0)
    assert area.state is WaterState.UNDECIDED
    assert area.undecided_m2 > 0.0
    assert area.next_places
    assert [each.label for each in area.next_places] == [f"N{n}" for n in range(1, len(area.next_places) + 1)]
    worth = [each.decides for each in area.next_places]
    assert worth == sorted(worth, reverse=True)
    for each in area.next_places:
        assert 0.0 < each.at[0] < 6000.0
        assert each.planned_mm == pytest.approx(1000.0 - each.at[1] / 150.0, abs=0.01)


def test_few_readings_say_nothing(small):
    (area,) = patio(small, 60.0, lambda x, y: 0.0, apart=3900.0)
    assert area.state is WaterState.UNKNOWN
    assert area.why is WhyUnknown.FEW_READINGS
    assert np.isnan(area.chance)


def test_the_same_readings_bring_the_same_answer(small):
    first = patio(small, 100.0, dip(10.0, 800.0))[0]
    again = patio(small, 100.0, dip(10.0, 800.0))[0]
    assert first.chance == again.chance
    assert first.ponds == again.ponds
    assert np.array_equal(first.chances, again.chances, equal_nan=True)


def test_a_coarser_reading_counts_deeper_water_only(small):
    assert patio(small, 60.0, lambda x, y: 0.0, sd=2.0)[0].counted_mm == 6.0


def test_a_reading_where_runs_differ_settles_more_than_one_where_they_agree():
    chance = np.random.default_rng(2)
    deep = chance.normal(0.0, 4.0, 300)
    off = np.column_stack([deep, np.zeros(300), chance.normal(0.0, 4.0, 300)])
    worth, now = worth_of(off, (deep < -3.0)[:, None], 1.0)
    assert worth[0] > 0.5 * now
    assert abs(worth[1]) < 0.05 * now
    assert abs(worth[2]) < 0.05 * now


def test_very_many_readings_are_joined_by_their_middle_ones():
    chance = np.random.default_rng(3)
    read = np.column_stack([chance.uniform(0.0, 6000.0, (9000, 2)), chance.normal(0.0, 1.0, 9000)])
    read[:90, 2] += 100.0  # one in a hundred is wild
    joined = thinned(read, 36.0)
    assert 250 <= len(joined) <= 450
    assert float(np.abs(joined[:, 2]).max()) < 3.0
