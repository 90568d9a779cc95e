"""Mixed packs made whole: planned again while part lies, offered in several mixes, ordered and drawn."""

from __future__ import annotations

import io
import json
from pathlib import Path

import ezdxf
import pytest

from pavewright.desk import make_plan
from pavewright.drawing import to_dxf
from pavewright.job import JobInvalid, MaterialKind
from pavewright.laying import lay, mixes
from pavewright.quantities import ItemKind, of_material

FLAGS = (("Large", 890, 590), ("Square", 590, 590), ("Oblong", 590, 290), ("Small", 290, 290))
EXAMPLE = Path(__file__).parents[3] / "examples" / "mixed_patio.json"


def example(**pack):
    document = json.loads(EXAMPLE.read_text("utf-8"))
    document["areas"][0]["laying"]["pack"] |= pack
    return json.dumps(document).encode()


def outlines(laid):
    return {(piece.unit, tuple((round(x), round(y)) for x, y in piece.shape.outer)) for piece in laid.pieces}


@pytest.fixture
def flags(small):
    small.document["units"] += [
        {
            "name": name,
            "length_mm": float(length),
            "width_mm": float(width),
            "thickness_mm": 40.0,
            "kg_each": length * width * 9e-5,
            "per_pack": 1,
            "part_packs": True,
            "pack_price_minor": 500,
        }
        for name, length, width in FLAGS
    ]
    return small


def in_mixed_sizes(flags, wide, deep, **pack):
    pack = {"module_mm": 300.0, "counts": [12, 12, 16, 16], "covers_m2": 15.12} | pack
    flags.document["areas"], flags.document["measurements"]["points"] = [], []
    flags.rectangle(
        wide, deep, unit="Large", pattern="mixed", course_units=["Square", "Oblong", "Small"], joint_mm=10.0, pack=pack
    )
    job, measured = flags.surveyed()
    return job, measured


def test_what_lies_stays_and_the_rest_is_laid_from_the_yard(flags):
    before = lay(*in_mixed_sizes(flags, 8390.0, 7190.0), flags.rules).areas[0]
    down = [piece for piece in before.pieces if piece.number <= 60 or piece.number == 64]
    counts = [
        4 * n - sum(piece.unit == name for piece in down)
        for n, (name, _, _) in zip((12, 12, 16, 16), FLAGS, strict=True)
    ]
    # a large one broke; two oblongs and two small ones of another job take its place
    yard = [counts[0] - 1, counts[1], counts[2] + 2, counts[3] + 2]
    stage = {"pieces": "1-60, 64", "yard": yard}
    after = lay(*in_mixed_sizes(flags, 8390.0, 7190.0, laid=[stage]), flags.rules).areas[0]
    was = {piece.number: piece.shape.outer for piece in before.pieces}
    kept = {piece.shape.outer: piece.unit for piece in after.pieces}
    assert all(kept[piece.shape.outer] == piece.unit for piece in down)
    assert [piece.shape.outer for piece in after.pieces[:60]] == [was[number] for number in range(1, 61)]
    assert after.mixed.lying == 61
    used = [sum(piece.unit == name for piece in after.pieces) for name, _, _ in FLAGS]
    assert used[0] <= 47
    assert outlines(after) != outlines(before)
    # and once more, told off the second plan
    again = [stage, {"pieces": "1-90"}]
    third = lay(*in_mixed_sizes(flags, 8390.0, 7190.0, laid=again), flags.rules).areas[0]
    assert [p.shape.outer for p in third.pieces[:90]] == [p.shape.outer for p in after.pieces[:90]]


@pytest.mark.parametrize(
    ("stage", "words"),
    [
        ({"pieces": "1-999"}, "read off again"),
        ({"pieces": "0"}, "read off again"),
        ({"pieces": "1-20", "yard": [1, 1, 1, 1]}, "fetch more"),
        ({"pieces": "1-20", "yard": [1, 1]}, "each of the 4 sizes"),
    ],
)
def test_what_cannot_be_laid_is_refused(flags, stage, words):
    with pytest.raises(JobInvalid) as reported:
        lay(*in_mixed_sizes(flags, 4190.0, 3590.0, laid=[stage]), flags.rules)
    assert any(words in fault.message for fault in reported.value.faults)


def test_the_best_of_twenty_mixes_come_first(flags):
    job, measured = in_mixed_sizes(flags, 5000.0, 4000.0)
    every = mixes(job, measured, "Patio", flags.rules, best=20)
    assert mixes(job, measured, "Patio", flags.rules) == every[:3]
    worth = [(offer.cut, offer.left, offer.look.longest_joint_mm) for offer in every]
    assert worth == sorted(worth)
    assert len({offer.mix for offer in every}) == len(every) > 3
    for offer in every[:2]:
        flags.document["areas"][0]["laying"]["mix"] = offer.mix
        changed, again = flags.surveyed()
        laid = lay(changed, again, flags.rules).areas[0]
        assert (laid.mixed.packs, laid.cut) == (offer.packs, offer.cut)
        assert laid.mixed.units_per_m2 == offer.look.units_per_m2
        assert 0.0 < laid.mixed.equal_neighbour_part < 1.0


def test_a_large_area_has_movement_joints(flags):
    area = lay(*in_mixed_sizes(flags, 14390.0, 8990.0), flags.rules).areas[0]
    assert area.mixed.bays == 2
    assert area.mixed.bay_joint_m == pytest.approx(9.0, abs=0.02)
    ((first, last),) = area.mixed.bay_joints
    assert abs(first[0] - last[0]) < 0.01
    for piece in area.pieces:
        xs = [x for x, _ in piece.shape.outer]
        assert max(xs) < first[0] or min(xs) > first[0]


def test_a_mixed_pack_is_ordered_and_priced_as_one():
    made = make_plan(example())
    (item,) = [each for each in made.quantities.items if each.holds]
    assert not [each for each in made.quantities.items if each.key.kind is ItemKind.UNITS]
    assert item.ordered == int(item.ordered)
    assert all(each.ordered >= each.with_spares >= each.needed > 0 for each in item.holds)
    assert all(each.left == each.ordered - each.needed for each in item.holds)
    assert any(each.ordered - each.per_pack < each.with_spares for each in item.holds)
    (line,) = [each for each in made.cost.lines if each.key == item.key]
    assert line.amount_minor == item.ordered * 45200
    # in quarter packs no more is ordered, and enough
    (part,) = [each for each in make_plan(example(parts=4)).quantities.items if each.holds]
    assert item.ordered >= part.ordered >= part.gross
    assert part.ordered * 4 == int(part.ordered * 4)
    # bought size by size there is no pack
    single = make_plan(example(pack_price_minor=None)).quantities.items
    assert sum(each.key.kind is ItemKind.UNITS for each in single) == 4
    assert not [each for each in single if each.holds]


def test_a_pack_splits_into_equal_parts_only():
    with pytest.raises(JobInvalid) as reported:
        make_plan(example(parts=5))
    assert "do not split" in reported.value.faults[0].message


def test_movement_joints_between_bays_are_ordered_and_drawn(flags):
    flags.document["rates"]["materials"] = [
        {"key": "movement_joint", "pack_amount": 2.0, "pack_unit": "m", "pack_price_minor": 1500}
    ]
    in_mixed_sizes(flags, 14390.0, 8990.0)
    made = make_plan(json.dumps(flags.document).encode())
    (item,) = [each for each in made.quantities.items if each.key == of_material(MaterialKind.MOVEMENT_JOINT)]
    assert item.net == pytest.approx(9.0, abs=0.02)
    assert (item.ordered, item.unit) == (5.0, "m")
    (line,) = [each for each in made.cost.lines if each.key == of_material(MaterialKind.MOVEMENT_JOINT)]
    assert line.amount_minor == 5 * 1500
    read = ezdxf.read(io.StringIO(to_dxf(made).decode()))
    (drawn,) = read.modelspace().query('LWPOLYLINE[layer=="MOVEMENT_JOINTS"]')
    (ends,) = made.laying.areas[0].mixed.bay_joints
    assert [tuple(point[:2]) for point in drawn.get_points()] == [pytest.approx(each) for each in ends]
