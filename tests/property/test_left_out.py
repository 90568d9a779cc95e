"""Any fact may be unknown: no room falls over, none changes that does not hang on it, and nothing becomes fine by it."""

from __future__ import annotations

import copy
import random
from pathlib import Path

import pytest
from tests.property.facts import facts_of

from pavewright import rulebook
from pavewright.desk import demo_document
from pavewright.findings import Severity
from pavewright.job import load_document, parse, up_to_date
from pavewright.pipeline import Room, leans_on, plan_as_far, plan_rooms

ROOT = Path(__file__).parents[2]
JOBS = {
    "demo": demo_document(),
    "patio": (ROOT / "tests" / "patio.json").read_bytes(),
    **{path.stem: path.read_bytes() for path in sorted((ROOT / "tests" / "pipeline" / "jobs").glob("*.json"))},
    **{path.stem: path.read_bytes() for path in sorted((ROOT / "examples").glob("*.json")) if path.stem != "l_terrace"},
}
SINGLE = [("demo", False), ("demo", True), ("patio", False), ("side_path", False), ("mixed_patio", True)]
"""Jobs of which every fact is left out by itself, as they are or spoilt."""
SUBSETS = 2
_ROOM_OF = {
    "survey": Room.SURVEY, "levels": Room.LEVELS, "laying": Room.LAYING, "buildup": Room.BUILD_UPS,
    "earthworks": Room.EARTHWORKS, "water": Room.WATER, "quantities": Room.QUANTITIES, "cost": Room.COST,
    "programme": Room.PROGRAMME, "setting_out": Room.SETTING_OUT, "as_laid": Room.AS_LAID, "bedding": Room.BEDDING, "build_up": Room.BUILD_UPS,
}  # fmt: skip


def spoilt(document):
    """Return the same job with stops in it: whatever is promised at walls and doors does not come out."""
    bad = copy.deepcopy(document)
    for wall in bad["site"].get("walls", ()):
        if isinstance(wall.get("dpc_level_mm"), float):
            wall["dpc_level_mm"] -= 260.0
        for door in wall.get("openings", ()):
            if isinstance(door.get("threshold_level_mm"), float):
                door["threshold_level_mm"] -= 240.0
    for cover in bad["site"].get("covers", ()):
        if isinstance(cover.get("level_mm"), float):
            cover["level_mm"] += 90.0
    return bad


def made(document):
    job = parse(document)
    return plan_rooms(job, rulebook.load(rulebook.edition_of(job.identity.locality, job.identity.edition)), tuple(Room))


@pytest.fixture(scope="module")
def whole():
    """Gives a job as it is and spoilt, with its plan, planned once."""
    kept = {}

    def of(name, bad):
        if (name, bad) not in kept:
            document = up_to_date(load_document(JOBS[name]))
            document = spoilt(document) if bad else document
            kept[name, bad] = document, made(document)
        return kept[name, bad]

    return of


def without(document, facts):
    less = copy.deepcopy(document)
    for fact in facts:
        try:
            fact.leave_out(less)
        except (KeyError, IndexError, TypeError):
            continue  # what it stands in is left out already
    return less


def stops(plan):
    return {(each.code, each.place): each for each in plan.findings if each.severity is Severity.STOP}


def known(room):
    """Return a room without the remarks on what is not known, which follow from what is left out."""
    if room is None:
        return None
    return room if isinstance(room, tuple) else {name: part for name, part in vars(room).items() if name != "findings"}


def check(name, before, facts, document):
    less = without(document, facts)
    after = made(less)
    changes = frozenset().union(*(fact.changes for fact in facts))
    unchanged = [room for room in Room if room not in changes and room is not Room.SURVEY]
    for room in unchanged:
        assert known(getattr(after, room.value)) == known(getattr(before, room.value)), f"{name}: {room} changed"
    new = set(after.missing) - set(before.missing)
    remarks = {(each.code, each.place) for each in after.findings} - {
        (each.code, each.place) for each in before.findings
    }
    for code, place in stops(before).keys() - stops(after).keys():
        room = getattr(after, _ROOM_OF[code.partition(".")[0]].value)
        assert room is None or new or remarks, f"{name}: {code} at {place} went away and nothing says why"
    for room in Room:
        if room not in (Room.BEDDING, Room.AS_LAID) and getattr(after, room.value) is None:
            assert after.why_not((room,)), f"{name}: nothing says why there is no {room}"
    walls = [wall.name for wall in after.survey.site.walls if wall.dpc_level_mm is None]
    met = {each.wall for area in (after.levels.areas if after.levels else ()) for each in area.clearances}
    assert not met.intersection(walls), "a clearance where no damp-proof course is known"
    return after


@pytest.mark.parametrize(("name", "bad"), SINGLE)
def test_each_fact_may_be_left_out_by_itself(whole, name, bad):
    document, before = whole(name, bad)
    for fact in facts_of(document):
        check(f"{name} without {fact.name}", before, [fact], document)


@pytest.mark.parametrize("name", JOBS)
def test_any_of_them_may_be_left_out_together(whole, name):
    document, before = whole(name, bad=True)
    facts, chance = facts_of(document), random.Random(f"left out of {name}")
    for _ in range(SUBSETS):
        some = chance.sample(facts, chance.randint(2, len(facts)))
        check(f"{name} without {', '.join(fact.name for fact in some)}", before, some, document)
    nothing = check(f"{name} without all", before, facts, document)
    assert nothing.cost is None
    assert nothing.build_ups is None


def test_a_job_with_options_and_a_newer_edition_goes_as_far_too(whole):
    document, _ = whole("demo", bad=True)
    facts = [fact for fact in facts_of(document) if fact.name in {"soil", "rates.labour_minor_per_hour", "crew.people"}]
    for fact in facts:
        job = parse(without(document, [fact]))
        rules = rulebook.load(rulebook.newest(job.identity.locality))
        found = plan_as_far(job, rules, newer=rules)
        assert found.levels is not None
        assert found.missing


def test_rooms_lean_on_nothing_that_is_made_later():
    order = list(Room)
    for room in Room:
        assert room not in leans_on(room)
    assert order[0] is Room.SURVEY
