"""What misses a limit by less than a millimetre shows by how much: two figures that read alike say nothing."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from pavewright.levels.clashes import _words as words
from pavewright.units import fall_text


@pytest.mark.parametrize(("level_mm", "limit_mm"), [(101_201.35, 101_201.25), (99.96, 100.04)])
def test_two_figures_that_differ_are_shown_apart(level_mm, limit_mm):
    bound = SimpleNamespace(part="", thing="cover Lid")
    said = words.off_level("Patio", bound, level_mm, limit_mm, abs(level_mm - limit_mm), too_high=True)
    shown = said.rstrip(".").split(": ")[1].replace(" m", "").split(" against ")
    assert shown[0] != shown[1]


def test_figures_that_differ_anyway_stay_in_millimetres():
    bound = SimpleNamespace(part="", thing="cover Lid")
    assert words.off_level("Patio", bound, 1003.0, 1000.0, 3.0, too_high=True).endswith("1.003 m against 1.000 m.")


def test_a_steep_fall_has_a_tenth():
    assert [fall_text(1.0 / n) for n in (9.4, 12.0, 19.96, 20.4, 60.0)] == [
        "1 in 9.4",
        "1 in 12",
        "1 in 20",
        "1 in 20",
        "1 in 60",
    ]
