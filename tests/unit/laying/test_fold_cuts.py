"""Units across a fold: cut along it, laid whole where that shows no lip, or a stop with an option that ends it."""

from __future__ import annotations

import copy

import pytest

from pavewright.findings import Severity
from pavewright.geometry import Facet, FoldedSurface, Plane
from pavewright.job import parse
from pavewright.laying import lay
from pavewright.levels import finished_levels
from pavewright.survey import survey
from dataclasses import replace

WIDE, DEEP = 3630.0, 2430.0


def laid_with_fold(small, at_mm, fall):
    """Lay a rectangle that falls both ways from a line along its length, so far from its near side."""
    job = parse(small.document)
    measured = survey(job, small.rules)
    levels = finished_levels(job, measured, small.rules)
    near, far = (
        Plane(1000.0, (0.0, at_mm), 0.0, fall),
        Plane(1000.0, (0.0, at_mm), 0.0, -fall),
    )
    surface = FoldedSurface(
        (
            Facet(((0.0, 0.0), (WIDE, 0.0), (WIDE, at_mm), (0.0, at_mm)), near),
            Facet(((0.0, at_mm), (WIDE, at_mm), (WIDE, DEEP), (0.0, DEEP)), far),
        )
    )
    levels = replace(levels, areas=(replace(levels.areas[0], surface=surface),))
    return lay(job, measured, small.rules, levels)


def codes(plan_):
    return {each.code for each in plan_.findings if "fold" in each.code}


@pytest.fixture
def folded(small):
    small.rectangle(WIDE, DEEP, joint_mm=10.0)
    return small


def test_a_fold_through_the_middle_of_a_course_is_cut(folded):
    found = laid_with_fold(folded, 900.0, 0.0125)
    assert codes(found) == {"laying.units_cross_fold"}
    cuts = found.areas[0].fold_cuts
    assert len(cuts.pieces) == 6 and cuts.saw_m == pytest.approx(3.6, abs=0.05)


def test_a_narrow_part_of_little_lip_is_not_cut_off(folded):
    # courses run 0–600 and 610–1210: a fold at 592 leaves 8 mm; 8 mm × 1 in 40 is 0.2 mm
    found = laid_with_fold(folded, 592.0, 0.0125)
    assert codes(found) == {"laying.uncut_at_fold"}
    cuts = found.areas[0].fold_cuts
    assert cuts.pieces == () and cuts.saw_m == 0.0 and len(cuts.uncut) == 6
    assert cuts.uncut_lip_mm == pytest.approx(8.0 * 0.025, abs=0.02)


def test_a_narrow_part_with_a_lip_stops_and_its_option_ends_it(folded):
    # 20 mm × 16 % is 3.2 mm, over the 2 mm between units
    found = laid_with_fold(folded, 580.0, 0.08)
    reported = next(each for each in found.findings if each.code == "laying.too_narrow_at_fold")
    assert reported.severity is Severity.STOP
    assert reported.value == pytest.approx(3.2, abs=0.05)
    assert len(found.areas[0].fold_cuts.too_narrow) == 6
    way = next(each for each in reported.options if each.changes)
    changed = copy.deepcopy(folded.document)
    for change in way.changes:
        changed["areas"][0]["laying"][change.path.rsplit(".", 1)[1]] = change.value
    folded.document = changed
    assert "laying.too_narrow_at_fold" not in codes(laid_with_fold(folded, 580.0, 0.08))
