"""Pieces in columns: the same pieces as the plan has, in a fraction of the room."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from pavewright.desk import PLAN_PARTS, SCREEN_VERBS
from pavewright.desk._pieces import STEPS_PER_MM, columns_of
from pavewright.papers import PlanPart, plan_json

EXAMPLES = Path(__file__).parents[3] / "examples"


def taken_apart(columns):
    """Return the pieces that columns hold, as a screen makes them."""
    turns = [
        (course, place + step, number + step)
        for course, place, number, count in columns["runs"]
        for step in range(count)
    ]
    x = y = 0
    found = []
    for turn, kind, form, dx, dy in zip(
        turns, columns["kind"], columns["form"], columns["dx"], columns["dy"], strict=True
    ):
        x, y = x + dx, y + dy
        rings = [
            [((x + at) / STEPS_PER_MM, (y + up) / STEPS_PER_MM) for at, up in zip(ring[::2], ring[1::2], strict=True)]
            for ring in columns["forms"][form]
        ]
        found.append((turn, columns["kinds"][kind], rings))
    return found


@pytest.mark.parametrize("name", ["demo", "circle_court", "curved_path", "mixed_patio"])
def test_columns_hold_every_piece_of_a_plan(made_plan, name):
    for area in made_plan(name).laying.areas:
        apart = taken_apart(columns_of(area))
        assert len(apart) == len(area.pieces)
        for (turn, kind, rings), piece in zip(apart, area.pieces, strict=True):
            assert turn == (piece.course, piece.place, piece.number)
            assert kind["kind"] == piece.kind.value
            for same in ("unit", "border", "notched", "curved", "sliver", "zone", "neck_mm"):
                assert kind[same] == getattr(piece, same)
            for near, most in (
                ("along_mm", 0.01),
                ("area_m2", 1e-6),
                ("kg", 1e-4),
                ("turn_deg", 1e-6),
                ("saw_m", 1e-5),
            ):
                assert kind[near] == pytest.approx(getattr(piece, near), abs=most)
            for ring, true in zip(rings, (piece.shape.outer, *piece.shape.holes), strict=True):
                assert ring == [pytest.approx(at, abs=1.5 / STEPS_PER_MM) for at in true]


def setts(made_plan):
    """Return the laying plan of an area of many units, laid in many copies of the demo's first course."""
    area = made_plan("demo").laying.areas[0]
    whole = [piece for piece in area.pieces if piece.kind.value == "whole"][:10]
    pieces = tuple(
        replace(
            piece,
            number=1 + row * len(whole) + step,
            course=row + 1,
            place=step + 1,
            shape=replace(piece.shape, outer=tuple((x, y + row * 1000.0) for x, y in piece.shape.outer)),
        )
        for row in range(2500)
        for step, piece in enumerate(whole)
    )
    return replace(area, pieces=pieces)


def test_what_is_alike_is_written_once(made_plan):
    area = setts(made_plan)
    columns = columns_of(area)
    assert len(columns["kinds"]) <= 10
    assert len(columns["forms"]) <= 10
    assert len(columns["runs"]) == 2500
    assert len(json.dumps(columns, separators=(",", ":"))) < 16 * len(area.pieces)


def test_a_plan_in_parts_has_the_rooms_of_the_whole_one_and_its_pieces_in_columns(made_plan):
    document = (EXAMPLES / "l_terrace.json").read_bytes()
    whole = json.loads(plan_json(made_plan("l_terrace")))
    told = json.loads(SCREEN_VERBS["plan_parts"](b"levels,laying,findings\n" + document, lambda _: None))
    assert list(told["plan"]) == ["levels", "laying", "findings"]
    assert told["plan"]["levels"] == whole["levels"]
    for area, true, columns in zip(
        told["plan"]["laying"]["areas"], whole["laying"]["areas"], told["pieces"], strict=True
    ):
        assert area == true | {"pieces": []}
        assert len(columns["kind"]) == len(true["pieces"])
    assert json.loads(SCREEN_VERBS["plan_parts"](b"cost\n" + document, lambda _: None))["pieces"] == []
    assert tuple(PlanPart) == PLAN_PARTS
