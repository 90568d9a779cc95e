"""Saw plans of the example jobs: never more units than a plain construction needed, and the gap told."""

from __future__ import annotations

from pathlib import Path

import pytest


EXAMPLES = Path(__file__).parents[3] / "examples"
PLAIN = {"curved_path": (56, 56), "front_drive": (159,), "l_terrace": (14,)}
"""Units sawn by placing pieces once, largest first, under the best of several rules."""


@pytest.mark.parametrize("name", PLAIN)
def test_no_example_takes_more_units_than_a_plain_construction(made_plan, name):
    areas = made_plan(name).laying.areas
    for area, plain in zip(areas, PLAIN[name], strict=True):
        assert len(area.sawn) <= plain
        assert area.min_units <= area.units_bound <= area.units_with_offcuts == area.whole + len(area.sawn)
        (reported,) = [working for working in area.workings if "impossible" in working.expression]
        assert reported.result == area.units_with_offcuts - area.units_bound
        assert f"{area.units_with_offcuts} units" in reported.expression
        assert sorted(part.piece for unit in area.sawn for part in unit.parts) == [
            piece.number for piece in area.pieces if piece.kind.value == "cut"
        ]
