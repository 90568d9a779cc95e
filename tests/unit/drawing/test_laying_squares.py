"""The laying plan square by square: every piece once, in figures that are read at arm's length."""

from __future__ import annotations

import pytest

from pavewright.drawing import Scene, laying_plan, laying_squares
from pavewright.drawing._faults import sheet_faults
from pavewright.drawing._grid import grid_of, square_name
from pavewright.drawing._scene import Symbol, Words

ARM_MM, OF_ARM = 700.0, 200.0
"""Length of an arm; letters are read from so many times their height. Common practice of signs."""
FIGURE = 0.727
"""Height of figures of the shipped face as a part of its type: the face's own cap height, 1490 of 2048 units."""


@pytest.mark.parametrize("name", ["l_terrace", "curved_path", "circle_court"])
def test_every_piece_has_its_number_on_one_square_large_enough(made_plan, name):
    made = made_plan(name)
    squares = laying_squares(made)
    listed = sorted(each for square in squares for each in square.pieces)
    assert listed == sorted((laid.area, piece.number) for laid in made.laying.areas for piece in laid.pieces)
    for square in squares:
        scene: Scene = square.scene
        assert sheet_faults(scene) == ()
        wide, high = scene.paper_mm
        assert wide <= 186.0 and high <= 237.0
        numbers = [each for each in scene.elements if isinstance(each, Words) and each.layer == "numbers"]
        assert len(numbers) == len(square.pieces) - len(square.unnumbered)
        assert all(each.height_mm * FIGURE >= ARM_MM / OF_ARM - 0.02 for each in numbers)
        assert bool(square.unnumbered) == ("no room for a number" in scene.about)
    assert len(squares) == len({square.name for square in squares})


def test_the_margins_of_the_laying_plan_name_the_same_squares(made_plan):
    made = made_plan("l_terrace")
    grid, scene = grid_of(made), laying_plan(made)
    named = {each.text for each in scene.elements if isinstance(each, Words) and each.layer == "grid"}
    assert named == {"A", "B", "C", "1", "2", "3"}
    assert {square.name for square in laying_squares(made)} <= {column + row for column in "ABC" for row in "123"}
    # every bubble has its letter in its middle
    rings = {each.at for each in scene.elements if isinstance(each, Symbol) and each.layer == "grid"}
    assert rings == {each.at for each in scene.elements if isinstance(each, Words) and each.layer == "grid"}
    x1, y1, x2, y2 = grid.box(1, 2)
    assert grid.square_at(((x1 + x2) / 2.0, (y1 + y2) / 2.0)) == square_name(1, 2) == "B3"
