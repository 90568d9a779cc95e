"""What must hold of operations: they make the later document of the earlier one, go back, and lose nothing."""

from __future__ import annotations

import copy
import json

from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.job.operations import apply, between, checked_operations, inverse
from tests.property.strategies import documents, measured_documents

FEW = st.sampled_from(["A", "B", "C", "Wall 1", "Wall 2"])
NUMBERS = st.one_of(st.integers(0, 4), st.sampled_from([0.5, 4000.0, True, False, None]))
THINGS = {
    "points": st.fixed_dictionaries({"name": FEW}, optional={"x_mm": NUMBERS}),
    "offsets": st.fixed_dictionaries({"name": FEW}, optional={"line_from": FEW}),
    "walls": st.fixed_dictionaries(
        {"name": FEW},
        optional={
            "start": FEW,
            "dpc_level_mm": NUMBERS,
            "openings": st.lists(st.fixed_dictionaries({"name": FEW, "along_mm": NUMBERS}), max_size=3),
        },
    ),
    "tapes": st.fixed_dictionaries({"start": FEW, "end": FEW}, optional={"length_mm": NUMBERS, "sd_mm": NUMBERS}),
    "rows": st.fixed_dictionaries({"point": FEW}, optional={"foresight_mm": NUMBERS, "intermediate_mm": NUMBERS}),
    "ground_points": FEW,
    "along": FEW,
    "holes": st.lists(st.fixed_dictionaries({"point": FEW}), max_size=3),
    "walk_round": st.fixed_dictionaries({"question": FEW, "answer": FEW}),
    "outline": st.fixed_dictionaries({"point": FEW}, optional={"rise_mm": NUMBERS}),
}
PARTS = st.fixed_dictionaries({}, optional={name: st.lists(each, max_size=6) for name, each in THINGS.items()})
ODD = st.fixed_dictionaries(
    {}, optional={"site": st.one_of(st.none(), PARTS), "identity": st.dictionaries(FEW, NUMBERS), "title": FEW}
)
"""Documents with names and readings that come twice, in any order: no job, but every list that merges is in them."""


def strict(value):
    """A value as JSON, with its fields in order and whole numbers written alike."""
    return json.dumps(json.loads(json.dumps(value), parse_float=float), sort_keys=True).replace(".0", "")


@settings(max_examples=200, deadline=None)
@given(ODD, ODD)
def test_operations_make_the_later_document_of_the_earlier_one_and_go_back(before, after):
    kept = copy.deepcopy((before, after))
    operations = json.loads(json.dumps(between(before, after)))
    if operations:
        checked_operations(operations)
    there = apply(before, operations)
    assert strict(there.document) == strict(after)
    assert there.clashes == ()
    back = json.loads(json.dumps(inverse(operations)))
    if back:
        checked_operations(back)
    again = apply(after, back)
    assert strict(again.document) == strict(before)
    assert again.clashes == ()
    assert (before, after) == kept


@settings(max_examples=40, deadline=None)
@given(st.one_of(documents(), measured_documents()), st.one_of(documents(), measured_documents()))
def test_operations_lead_from_any_job_to_any_other(before, after):
    operations = between(before, after)
    assert strict(apply(before, operations).document) == strict(after)
    assert strict(apply(after, inverse(operations)).document) == strict(before)


ONE_SIDE = ("points", "offsets", "tapes", "rows", "holes")


def with_parts_of(before, other, names):
    """A document in which some lists are those of another one."""
    kept = {name: each for name, each in before.items() if name not in names}
    return kept | {name: each for name, each in other.items() if name in names}


@settings(max_examples=200, deadline=None)
@given(PARTS, PARTS)
def test_what_two_people_do_in_different_parts_merges_in_either_order(before, other):
    names = set(THINGS)
    mine, theirs = with_parts_of(before, other, ONE_SIDE), with_parts_of(before, other, names - set(ONE_SIDE))
    one = apply(mine, between(before, theirs))
    two = apply(theirs, between(before, mine))
    assert one.clashes == two.clashes == ()
    assert strict(one.document) == strict(two.document) == strict(other)


def marks(value):
    """Numbers that stand in a value once and nowhere else."""
    if isinstance(value, dict):
        return {found for each in value.values() for found in marks(each)}
    if isinstance(value, list | tuple):
        return {found for each in value for found in marks(each)}
    return {value} if isinstance(value, int) and value >= 1000 else set()


def marked(document, first):
    """The document with a number of its own in every item of every list."""
    numbers = iter(range(first, first + 1000))

    def mark(value):
        if isinstance(value, list):
            return [{**mark(each), "mark": next(numbers)} if isinstance(each, dict) else mark(each) for each in value]
        return {name: mark(each) for name, each in value.items()} if isinstance(value, dict) else value

    return mark(document)


@settings(max_examples=100, deadline=None)
@given(PARTS, PARTS, PARTS)
def test_nothing_that_anybody_added_is_lost(before, mine, theirs):
    before, mine, theirs = marked(before, 1000), marked(mine, 3000), marked(theirs, 5000)
    done = apply(mine, between(before, theirs))
    there = marks(done.document) | {
        found for clash in done.clashes for found in marks([clash.operation, clash.ours, clash.theirs])
    }
    assert marks(mine) | marks(theirs) <= there
