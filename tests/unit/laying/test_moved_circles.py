"""Round parts at a better place on the courses round them, and mixes as starts."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.desk import find_starts, make_plan
from pavewright.job import load_document, parse
from pavewright.laying.starts._moved_circles import moved_circles
from pavewright.survey import survey

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def court():
    return json.loads((EXAMPLES / "circle_court.json").read_text("utf-8"))


def test_the_circle_moved_where_it_is_told_cuts_so_many(court):
    (found,) = find_starts(json.dumps(court))
    (moved,) = found.circles
    assert f"leaves {moved.cut} cuts round it" in found.words
    before = make_plan(json.dumps(court)).laying.areas[0]
    zone = next(each for each in court["areas"][0]["zones"] if each["name"] == moved.zone)
    changed = json.loads(json.dumps(court))
    for point in changed["measurements"]["points"]:
        if point["name"] == zone["circle_at"]:
            point["x_mm"] += moved.east_mm
            point["y_mm"] += moved.north_mm
    after = make_plan(json.dumps(changed)).laying.areas[0]

    def round_it(laid):
        return sum(piece.kind.value == "cut" for piece in laid.pieces if not piece.zone)

    assert round_it(after) == moved.cut < round_it(before)


def test_mixes_are_the_starts_of_mixed_sizes():
    document = json.loads((EXAMPLES / "mixed_patio.json").read_text("utf-8"))
    (found,) = find_starts(json.dumps(document))
    assert found.starts_tried == 20
    best = found.choices[0]
    assert best.cut <= found.now.cut
    for name, value in best.fields:
        assert name == "mix"
        document["areas"][0]["laying"][name] = value
    assert make_plan(json.dumps(document)).laying.areas[0].cut == best.cut


def test_a_place_with_fewer_cuts_and_a_piece_that_cannot_be_laid_is_not_taken(court):
    job = parse(load_document(json.dumps(court)))
    measured = survey(job, rulebook.load(job.identity.locality))
    tried = []

    def cuts_round(area):
        tried.append(area)
        # here all can be laid; elsewhere there are fewer cuts, and fewest where a piece is too narrow
        return (0, 20) if len(tried) == 1 else (1, 5) if len(tried) % 2 else (0, 10)

    moved, many = moved_circles(job, 0, measured, cuts_round, 3)
    assert many == 9
    assert [(each.too_narrow, each.cut) for each in moved] == [(0, 10)]
