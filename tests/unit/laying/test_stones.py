"""Cut pieces from several sizes of one stone, where that costs less."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.job import JobInvalid, PavingUnit, parse
from pavewright.laying import lay
from pavewright.laying.yard._stones import Stones
from pavewright.laying.cutting import Part
from pavewright.pipeline import plan
from pavewright.quantities import of_unit


def narrow_too(small, **more):
    """Three slabs of 600 in a row and a strip of 400, three courses; there are slabs of 450 by 600 as well."""
    small.rectangle(3 * 610.0 + 400.0, 3 * 610.0 - 10.0)
    small.unit.update(per_pack=20, pack_price_minor=30_000, part_packs=True, also_cut_from=["Narrow"])
    narrow = {"name": "Narrow", "length_mm": 450.0, "pack_price_minor": 18_000, "kg_each": 25.0, "also_cut_from": []}
    small.document["units"].append({**small.unit, **narrow, **more})


def laid_of(small):
    job, measured = small.surveyed()
    return lay(job, measured, small.rules).areas[0]


def test_cut_pieces_come_from_the_size_that_costs_less(small):
    narrow_too(small)
    laid = laid_of(small)
    slab, narrow = laid.by_unit
    assert (slab.unit, slab.whole, slab.cut, slab.units_with_offcuts) == ("Slab", 9, 3, 9)
    assert (narrow.unit, narrow.whole, narrow.cut, narrow.units_with_offcuts) == ("Narrow", 0, 0, 3)
    assert [(one.unit, one.length_mm) for one in laid.sawn] == [("Narrow", 450.0)] * 3
    assert laid.units_with_offcuts == 12
    assert laid.units_bound == 9
    reported = {working.expression: working for working in laid.workings}
    # 12 slabs at 15.00 against 9 at 15.00 and 3 at 9.00
    saved = reported["Slab is cut from 3 of Narrow: against its own size alone it costs"]
    assert saved.result == pytest.approx(100.0 * 3 * 600 / (12 * 1500))
    assert reported["price of the units sawn over the smallest that any cutting can have"].result == pytest.approx(0.0)
    assert "units of Narrow with offcuts = 3 sawn for Slab" in reported
    assert (
        reported["units of Slab with offcuts = 9 whole + 0 sawn"].note
        == "0 pieces are cut from 0 units, 3 out of Narrow"
    )
    assert all("at least" not in words for words in reported)


def test_a_pack_bought_for_three_pieces_saves_nothing(small):
    narrow_too(small, part_packs=False)
    laid = laid_of(small)
    assert [(count.unit, count.units_with_offcuts) for count in laid.by_unit] == [("Slab", 12)]
    assert any("cut from its own size alone" in working.expression for working in laid.workings)


def test_both_sizes_are_ordered_and_priced(small):
    narrow_too(small)
    made = plan(parse(small.document), small.rules)
    slab, narrow = made.quantities.item(of_unit(0)), made.quantities.item(of_unit(1))
    assert (slab.net, narrow.net) == (9.0, 3.0)
    assert narrow.ordered == 4.0
    assert narrow.workings[0].expression == "units of Narrow with offcuts = 3 sawn for Slab"
    line = next(line for line in made.cost.lines if line.key == of_unit(1))
    assert line.amount_minor == 4 * 900


def test_what_is_left_of_a_narrow_slab_is_told_as_such(small):
    narrow_too(small, length_mm=590.0)
    left = laid_of(small).left_overs
    assert {each.unit for each in left} == {"Narrow"}


@pytest.mark.parametrize(
    ("more", "names", "words"),
    [
        ({}, ["Wide"], "not among the units"),
        ({}, ["Slab"], "cut from itself"),
        ({"thickness_mm": 38.0}, ["Narrow"], "would not lie flush"),
        ({"length_mm": 600.0}, ["Narrow"], "only another size"),
        ({}, ["Narrow", "Narrow"], "only another size"),
    ],
)
def test_what_cannot_stand_in_is_refused_in_words(small, more, names, words):
    narrow_too(small, **more)
    small.unit["also_cut_from"] = names
    with pytest.raises(JobInvalid, match=words):
        parse(small.document)


@pytest.mark.parametrize("price", [None, 0])
def test_a_size_whose_price_is_not_known_does_not_stand_in(small, price):
    narrow_too(small, pack_price_minor=price)
    assert [(count.unit, count.units_with_offcuts) for count in laid_of(small).by_unit] == [("Slab", 12)]


def unit(name, length_mm, width_mm, price):
    return PavingUnit(
        name=name,
        length_mm=length_mm,
        width_mm=width_mm,
        thickness_mm=40.0,
        kg_each=30.0,
        per_pack=10,
        pack_price_minor=price,
        part_packs=True,
    )


@settings(max_examples=40, deadline=None)
@given(
    sides=st.lists(st.tuples(st.integers(80, 590), st.integers(80, 590)), min_size=1, max_size=12),
    price=st.integers(3_000, 20_000),
)
def test_the_price_of_a_mixture_lies_between_its_bound_and_one_size(sides, price):
    both = Stones((unit("Slab", 600.0, 600.0, 15_000), unit("Half", 600.0, 300.0, price)))
    parts = [Part(number, float(a), float(b)) for number, (a, b) in enumerate(sides, start=1)]
    plan, alone = both.sawn(parts, 3.0), both.alone.sawn(parts, 3.0)
    assert plan.cost == sum(both.cost_of(one.unit) for one in plan.sawn)
    assert plan.min_cost <= plan.cost
    assert plan.min_cost <= alone.cost * both.cost_of("Slab")
    for one in plan.sawn:
        assert (one.length_mm, one.width_mm) == ((600.0, 600.0) if one.unit == "Slab" else (600.0, 300.0))


@pytest.mark.parametrize("word", ["riven", "veined"])
def test_a_face_with_a_direction_is_not_turned_to_save_a_slab(small, word):
    # strips of 200 by 600 along the right end and of 600 by 390 along the far side: turned, they share slabs
    small.rectangle(2 * 610.0 + 200.0, 2 * 610.0 + 390.0)
    free = laid_of(small)
    small.unit[word] = True
    kept = laid_of(small)
    assert kept.units_with_offcuts > free.units_with_offcuts
    assert any("keep their direction" in words for words in kept.limits)
    assert not any(part.turned for one in kept.sawn for part in one.parts)
