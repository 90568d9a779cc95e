"""Ellipses of 95 per cent hold the truth in 93 to 97 of a hundred made-up photos, however many marks there are."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.unit.photo_survey.made_up import FIGURES, FLOOR, LIMITS, how_far, photo

from pavewright.job.on_site import PhotoPlaneKind
from pavewright.photo_survey import plane_from_photo

WITHIN_95 = 5.991465
"""Chi-square for two directions."""
CLEAN = replace(FLOOR, flat_sd_mm=0.0, lens_sd=(0.0, 0.0))
WALL = FIGURES.trust(PhotoPlaneKind.WALL)


def share_within(marks, trust, trials, seed):
    rng, held, count = np.random.default_rng(seed), 0, 0
    for _ in range(trials):
        picture, true = photo(rng, marks, trust)
        for place, at in zip(plane_from_photo(picture, trust, LIMITS).places, true, strict=True):
            if place.at_mm is not None:
                held += how_far(place, at) <= WITHIN_95
                count += 1
    assert count > 0.97 * trials
    return held / count


@pytest.mark.slow
@pytest.mark.parametrize(
    ("marks", "trust", "trials"),
    [(4, FLOOR, 2000), (4, CLEAN, 2000), (5, FLOOR, 1200), (6, FLOOR, 1200), (8, WALL, 1000)],
)
def test_ellipses_hold_the_truth_as_often_as_they_say(marks, trust, trials):
    assert 0.93 <= share_within(marks, trust, trials, 20_261_129 + marks) <= 0.97


@pytest.mark.slow
def test_ellipses_that_leave_out_the_ground_and_the_lens_would_hold_it_far_less():
    rng, held = np.random.default_rng(7), 0
    for _ in range(400):
        picture, true = photo(rng, 5, FLOOR)
        held += (
            how_far(plane_from_photo(picture, CLEAN, replace(LIMITS, disagree_percent=1e-9)).places[0], true[0])
            <= WITHIN_95
        )
    assert held / 400 < 0.85
