"""The search: the same answer whoever answers first, the job as drawn always in it, stopped with the best so far."""

from __future__ import annotations

import hashlib
import json

import pytest

from pavewright.desk import demo_document
from pavewright.desk._read import read_job
from pavewright.job import to_text
from pavewright.proposals import (
    ALL_AIMS,
    Aim,
    NotPlannedError,
    Refused,
    SlotKind,
    Win,
    beats,
    find_proposals,
    to_try,
    win_words,
)


@pytest.fixture(scope="module")
def demo():
    job, rules = read_job(demo_document())
    return json.loads(to_text(job)), to_try(job, rules)


def told(payload, stops=False):
    """Figures that hang on the question alone, as those of a plan do; nothing is planned."""
    drawn = hashlib.sha256(payload).digest()
    figures = {
        "rooms": [], "price_minor": 100_000 + 100 * drawn[0], "price_gaps": [], "cut": drawn[1], "slivers": 0,
        "unlayable": 0, "days": drawn[2] % 10, "carbon": None, "carbon_gaps": [],
        "clearance": {"kind": "known", "mm": 150.0},
        "stops": [{"code": "x", "message": "x"}] if stops and drawn[3] < 128 else [], "checks": [],
    }  # fmt: skip
    return json.dumps({"figures": figures, "starts": []}).encode()


def in_order(pieces):
    return [(each.key, told(each.payload)) for each in pieces]


def backwards(pieces):
    return in_order(list(reversed(pieces)))


def test_the_same_plans_are_found_whoever_answers_first(demo):
    one, other = (find_proposals(*demo, ask, plans=90) for ask in (in_order, backwards))
    assert one == other
    assert one.planned == 90


def test_more_plans_find_no_worse_ones(demo):
    few, many = (find_proposals(*demo, in_order, plans=count, aims=(Aim.PRICE,)) for count in (30, 120))
    assert few.planned == 30
    assert min(each.figures.price_minor for each in many.front) <= min(each.figures.price_minor for each in few.front)


def test_the_job_as_drawn_is_beaten_or_on_the_front(demo):
    found = find_proposals(*demo, in_order, plans=90)
    drawn = found.drawn
    assert drawn.variations == ()
    assert drawn in found.front or any(beats(each.figures, drawn.figures, ALL_AIMS) for each in found.front)


def test_a_search_that_is_stopped_keeps_the_best_so_far(demo):
    planned = []

    def ask(pieces):
        for each in in_order(pieces):
            planned.append(each)
            if len(planned) > 30:
                return
            yield each

    found = find_proposals(*demo, ask, plans=90, stopped=lambda: len(planned) > 30)
    assert not found.whole
    assert found.planned == 30
    assert found.front


def test_a_search_that_is_stopped_before_the_job_as_drawn_is_planned_says_so(demo):
    with pytest.raises(NotPlannedError):
        find_proposals(*demo, lambda _: (), stopped=lambda: True)


def test_plans_with_new_stops_are_counted_and_not_compared(demo):
    found = find_proposals(*demo, lambda pieces: [(p.key, told(p.payload, stops=True)) for p in pieces], plans=90)
    drawn = len(found.drawn.figures.stops)
    assert all(len(each.figures.stops) <= drawn for each in found.front)
    if not drawn:
        assert dict(found.refused)[Refused.NEW_STOP] > 0


def test_a_joint_is_varied_together_with_the_start(demo):
    _, what = demo
    places = {slot.kind: place for place, (slot, _) in enumerate(what.slots)}
    assert what.companions[places[SlotKind.JOINT]] == places[SlotKind.START]
    assert what.companions[places[SlotKind.FALL]] is None


def test_the_sentence_says_why_the_best_one_wins(demo):
    found = find_proposals(*demo, in_order, plans=90, aims=(Aim.PRICE, Aim.CUTS))
    words = win_words(found.best, found.planned, "GBP")
    assert "90 whole plans" in words or "gains most" in words
    assert ("costs" in words) is any(each.aim is Aim.PRICE for each in found.best.gains)
    alone = find_proposals(*demo, in_order, plans=1)
    assert alone.best.win is Win.AS_DRAWN
    assert "The job as drawn stays the best" in win_words(alone.best, 1, "GBP")
