"""Slabs to be sawn: every slab and piece once, to scale, cuts numbered in their order."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest

from pavewright.drawing import cuts_in_words, saw_drawings, to_svg
from pavewright.drawing._scene import Path, Region, Words


@pytest.fixture(scope="module")
def laid(made_plan):
    return made_plan("demo").laying.areas[0]


def test_every_sawn_slab_and_piece_is_drawn_once_to_scale(laid):
    scenes = saw_drawings(laid)
    assert scenes
    slabs = [each for scene in scenes for each in scene.elements if isinstance(each, Region) and each.hatch == "grey"]
    pieces = [each for scene in scenes for each in scene.elements if isinstance(each, Region) and each.hatch == "white"]
    assert len(slabs) == len(laid.sawn)
    assert len(pieces) == laid.cut
    for slab in slabs:
        xs, ys = zip(*slab.rings[0], strict=True)
        assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((laid.sawn[0].length_mm, laid.sawn[0].width_mm))
    words = [each.text for scene in scenes for each in scene.elements if isinstance(each, Words)]
    for piece in laid.pieces:
        if piece.kind.value == "cut":
            assert sum(word.split(" ")[0] == str(piece.number) and "×" not in word for word in words) >= 1
    lines = [each for scene in scenes for each in scene.elements if isinstance(each, Path)]
    assert len(lines) == sum(len(unit.cuts) + len(unit.pairs) for unit in laid.sawn)


def test_a_sheet_holds_no_more_than_it_has_room_for(laid):
    few = saw_drawings(laid, (80.0, 80.0))
    assert len(few) > 1
    assert len({scene.name for scene in few}) == len(few)
    for scene in few:
        assert scene.paper_mm[1] <= 80.0


def test_it_becomes_a_picture(laid):
    for scene in saw_drawings(laid):
        ET.fromstring(to_svg(scene))


def test_cuts_are_told_in_their_order(laid):
    for unit in laid.sawn:
        reported = cuts_in_words(unit)
        assert [int(number) for number in re.findall(r"(?:^|; )(\d+) ", reported)] == [cut.number for cut in unit.cuts]
