"""Cuts by saw set-up: every cut once, none before the one that made its stone, the fence set less often."""

from __future__ import annotations

import pytest

from pavewright.laying import SetUpKind, saw_set_ups, settings_unit_by_unit


@pytest.fixture(scope="module", params=["l_terrace", "curved_path"])
def laid(made_plan, request):
    return made_plan(request.param).laying.areas[0]


def test_every_straight_cut_is_made_once(laid):
    led = [(cut.unit, cut.cut) for up in saw_set_ups(laid) if up.kind is SetUpKind.FENCE for cut in up.cuts]
    assert sorted(led) == sorted((unit.number, cut.number) for unit in laid.sawn for cut in unit.cuts)


def test_stone_against_the_fence_is_as_wide_as_the_piece_that_it_becomes(laid):
    sizes = {part.piece: part for unit in laid.sawn for part in unit.parts}
    alone = [
        (up.fence_mm, sizes[cut.pieces[0]], cut)
        for up in saw_set_ups(laid)
        if up.kind is SetUpKind.FENCE
        for cut in up.cuts
        if len(cut.pieces) == 1
    ]
    assert alone
    for fence, part, cut in alone:
        size = part.across_mm if cut.lengthwise else part.along_mm
        assert fence >= round(size) - 1  # a later cut may take more off it, none puts any on


def test_every_cut_finds_its_stone_in_the_order_of_the_set_ups(laid):
    cuts = {(unit.number, cut.number): cut for unit in laid.sawn for cut in unit.cuts}
    stones = {unit.number: [(0.0, 0.0, unit.length_mm, unit.width_mm)] for unit in laid.sawn}
    for up in saw_set_ups(laid):
        for each in up.cuts if up.kind is SetUpKind.FENCE else ():
            cut = cuts[each.unit, each.cut]
            axis = 1 if cut.lengthwise else 0
            whole = next(
                stone
                for stone in stones[each.unit]
                if stone[1 - axis] == pytest.approx(cut.start_mm)
                and stone[3 - axis] == pytest.approx(cut.end_mm)
                and stone[axis] - laid.kerf_mm - 1e-6 <= cut.at_mm <= stone[axis + 2] + 1e-6
            )
            stones[each.unit].remove(whole)
            for low, high in ((whole[axis], cut.at_mm), (cut.at_mm + laid.kerf_mm, whole[axis + 2])):
                part = list(whole)
                part[axis], part[axis + 2] = low, high
                stones[each.unit].append(tuple(part))


def test_the_fence_is_set_no_more_often_than_unit_by_unit(laid):
    fences = [up for up in saw_set_ups(laid) if up.kind is SetUpKind.FENCE]
    assert len(fences) <= settings_unit_by_unit(laid)
    assert [up.number for up in saw_set_ups(laid)] == list(range(1, len(saw_set_ups(laid)) + 1))


def test_pieces_that_straight_cuts_do_not_make_are_cut_by_marks(laid):
    marked = {
        piece for up in saw_set_ups(laid) if up.kind is SetUpKind.MARKED for cut in up.cuts for piece in cut.pieces
    }
    sawn = {part.piece for unit in laid.sawn for part in unit.parts}
    assert {piece.number for piece in laid.pieces if piece.number in sawn and (piece.notched or piece.curved)} <= marked
