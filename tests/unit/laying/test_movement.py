"""Movement joints of paving on mortar: drawn where a joint runs straight, told where none does, ordered in any case."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pavewright.findings import Severity
from pavewright.laying import FoldCuts, lay
from pavewright.pipeline import plan


def laid(small):
    job, measured = small.surveyed()
    found = lay(job, measured, small.rules)
    return found, found.areas[0].movement


def reported(found):
    return next((each for each in found.findings if each.code == "laying.movement_joints"), None)


def test_stack_bond_takes_them_both_ways(small):
    small.rectangle(13 * 610.0 - 10.0, 11 * 610.0 - 10.0)
    found, joints = laid(small)
    # 7.92 m and 6.70 m: one joint each way, in the joint nearest to the middle
    assert joints.unplaced_m == 0.0
    assert joints.placed_m == pytest.approx(7.92 + 6.70)
    for (x1, y1), (x2, y2) in joints.placed:
        place = x1 if abs(x1 - x2) < 1e-6 else y1
        assert (place + 5.0) % 610.0 == pytest.approx(0.0, abs=0.6) or (place + 5.0) % 610.0 > 609.4
        assert not any(
            piece.shape.bounds_mm[0 if place == x1 else 1] + 1
            < place
            < piece.shape.bounds_mm[2 if place == x1 else 3] - 1
            for piece in found.areas[0].pieces
        )
    assert reported(found).severity is Severity.NOTE


def test_bays_keep_the_limit(small):
    small.rectangle(3000.0, 20_000.0)
    _, joints = laid(small)
    places = [0.0, *sorted(y for (_, y), _ in joints.placed), 20_000.0]
    assert max(b - a for a, b in zip(places, places[1:], strict=False)) <= 6000.0


def test_running_bond_has_no_joint_across_and_says_so(small):
    small.rectangle(13 * 610.0 - 10.0, 11 * 610.0 - 10.0, pattern="running")
    found, joints = laid(small)
    assert joints.placed_m == pytest.approx(7.92)
    assert joints.unplaced_m == pytest.approx(6.70)
    finding = reported(found)
    assert finding.severity is Severity.CHECK
    assert "not drawn" in finding.message


def test_no_joint_is_wanted_on_sand_or_in_a_small_area(small):
    small.rectangle(9000.0, 3000.0, bedding="sand_on_sub_base")
    assert reported(laid(small)[0]) is None
    small.document["areas"].clear()
    small.rectangle(4000.0, 3000.0, "Other")
    assert reported(laid(small)[0]) is None


@pytest.mark.parametrize("pattern", ["stack", "running", "herringbone"])
def test_every_metre_that_the_finding_names_is_ordered(small, pattern):
    small.unit.update(width_mm=290.0, kg_each=16.0)
    area = small.rectangle(7000.0, 2400.0, pattern=pattern)
    area["edges"] = [{"corner": "P0", "restraint": "wall"}]
    made = plan(small.job(), small.rules)
    joints = made.laying.areas[0].movement
    assert joints.edge_m == pytest.approx(7.0)
    assert joints.placed_m + joints.unplaced_m == pytest.approx(2.4)
    (item,) = [item for item in made.quantities.items if "Movement joint" in item.description]
    assert item.net == pytest.approx(joints.total_m)
    assert f"All {joints.total_m:.1f} m" in reported(made).message


def test_saw_cuts_along_folds_are_in_the_one_total(small):
    small.rectangle(4000.0, 3000.0)
    found, _ = laid(small)
    folded = replace(found.areas[0], fold_cuts=FoldCuts((1,), 2.5, 100.0))
    assert replace(found, areas=(folded,)).saw_m == pytest.approx(found.saw_m + 2.5)
