"""The closed form of a storm on a plane, against its own mass."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.flow._sums_flow import plane_depth_m, storm_on_plane
from pavewright.sums import SumRefusedError


@given(st.floats(1.0, 50.0), st.floats(20.0, 150.0), st.floats(10.0, 200.0), st.floats(0.2, 12.0))
@settings(max_examples=40, deadline=None)
def test_all_the_rain_comes_off_the_plane_in_the_end(run_m, one_in, rain_mm_per_h, rain_min):
    rate, rain, rain_s = math.sqrt(1.0 / one_in) / 0.02, rain_mm_per_h / 3.6e6, 60.0 * rain_min
    times = np.concatenate([np.linspace(0.0, rain_s, 2001), rain_s + np.geomspace(1e-3, 1e6, 6001)])
    flow = [rate * plane_depth_m(rate, run_m, rain, rain_s, t) ** (5.0 / 3.0) for t in times]
    assert np.trapezoid(flow, times) == pytest.approx(rain * run_m * rain_s, rel=2e-3)
    assert max(flow) <= rain * run_m * (1.0 + 1e-12)


def test_a_storm_that_makes_no_sum_is_refused():
    with pytest.raises(SumRefusedError, match="more than zero"):
        storm_on_plane(4200.0, 60.0, 75.0, 0.02, 10.0, -1.0)
