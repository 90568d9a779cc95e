"""Mixed sizes in the area of a job: cells to the outline, pieces, counts and faults."""

from __future__ import annotations

from itertools import combinations

import pytest
from shapely.geometry import Polygon
from shapely.ops import unary_union

from pavewright.cli._told import plan_lines
from pavewright.job import JobInvalid, Wanted
from pavewright.laying import best_starts, lay
from pavewright.pipeline import MissingCode, plan_as_far

FLAGS = (("Large", 890, 590), ("Square", 590, 590), ("Oblong", 590, 290), ("Small", 290, 290))
MIXED = {
    "unit": "Large",
    "pattern": "mixed",
    "course_units": ["Square", "Oblong", "Small"],
    "pack": {"module_mm": 300.0, "counts": [12, 12, 16, 16], "covers_m2": 15.12},
    "joint_mm": 10.0,
}


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


def laid(small):
    job, measured = small.surveyed()
    return lay(job, measured, small.rules).areas[0]


def polygons(area):
    return [Polygon(piece.shape.outer, piece.shape.holes) for piece in area.pieces]


@pytest.mark.parametrize("start", ["near_left", "near_right", "far_left", "far_right"])
@pytest.mark.parametrize("turn", [0.0, 90.0])
def test_a_rectangle_on_the_module_takes_one_pack_uncut(flags, start, turn):
    wide, deep = (4190.0, 3590.0) if turn == 0.0 else (3590.0, 4190.0)
    flags.rectangle(wide, deep, **MIXED, start_corner=start, turn_deg=turn)
    area = laid(flags)
    assert area.cut == 0
    assert any("takes 1 mixed pack," in words and "leaves 0 Large" in words for words in area.limits)
    assert {count.unit: count.whole for count in area.by_unit} == {"Large": 12, "Square": 12, "Oblong": 16, "Small": 16}
    joined = unary_union([each.buffer(5.001, join_style="mitre") for each in polygons(area)])
    assert Polygon([(0, 0), (wide, 0), (wide, deep), (0, deep)]).difference(joined).area < 1.0
    assert all(a.distance(b) >= 9.999 for a, b in combinations(polygons(area), 2))


def test_an_odd_outline_is_covered_and_cut(flags):
    outline = [(0, 0), (5300, 0), (5100, 3700), (2000, 4500), (-300, 3900)]
    flags.area(outline, "Patio", **MIXED)
    area = laid(flags)
    shapes = polygons(area)
    joined = unary_union([each.buffer(8.0, join_style="mitre") for each in shapes])
    bare = Polygon(outline).difference(joined)
    assert bare.area < 0.02 * 300.0**2 * 20
    assert sum(each.area for each in shapes) == pytest.approx(unary_union(shapes).area, abs=1.0)
    assert area.cut > 0


def test_the_same_job_gives_the_same_layout_and_another_mix_another(flags):
    flags.rectangle(4190.0, 3590.0, **MIXED)
    first = laid(flags)
    assert laid(flags) == first
    flags.document["areas"][0]["laying"]["mix"] = 7
    assert laid(flags).pieces != first.pieces


def test_a_large_area_tells_its_bays(flags):
    flags.rectangle(14390.0, 8390.0, **MIXED)
    assert any("2 bays" in words for words in laid(flags).limits)


def test_starts_of_mixed_sizes_are_their_mixes(flags):
    flags.rectangle(4190.0, 3590.0, **MIXED)
    job, measured = flags.surveyed()
    (found,) = best_starts(job, measured, flags.rules)
    assert found.starts_tried == 20
    assert {name for choice in found.choices for name, _ in choice.fields} <= {"mix"}
    assert min(choice.cut for choice in found.choices) == found.now.cut == 0
    assert "20 mixes of Patio were filled" in found.words


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"pack": None}, "needs its pack"),
        ({"pack": {"module_mm": 300.0, "counts": [12, 12]}}, "2 counts for 4 units"),
        ({"course_units": []}, "two units or more"),
        ({"course_units": ["Square", "Square", "Small"]}, "names a unit twice"),
        ({"pattern": "stack", "course_units": []}, "keep one of the two"),
    ],
)
def test_packs_that_are_half_said_are_faults(flags, changes, words):
    with pytest.raises(JobInvalid, match=words):
        flags.rectangle(4190.0, 3590.0, **(MIXED | changes))
        flags.job()


@pytest.mark.slow
@pytest.mark.parametrize(
    ("pack", "words"),
    [
        ({"covers_m2": 16.0}, "15.12 m²"),
        ({"module_mm": 280.0}, "whole number of modules"),
        ({"counts": [12, 12, 16, 1000]}, "there is one with|no one rule"),
    ],
)
def test_packs_that_cannot_be_laid_are_told_with_the_area(flags, pack, words):
    flags.rectangle(4190.0, 3590.0, **(MIXED | {"pack": MIXED["pack"] | {"covers_m2": 0.0} | pack}))
    with pytest.raises(JobInvalid, match=words) as reported:
        laid(flags)
    (fault,) = reported.value.faults
    assert fault.path == "areas.0.laying.pack"
    assert fault.wanted is (Wanted.LAYOUT if "counts" in pack else None)


@pytest.mark.slow
def test_a_pack_without_a_layout_is_named_and_the_rest_is_planned(flags):
    flags.flat_ground(1000.0)
    flags.rectangle(
        4190.0, 3590.0, **(MIXED | {"pack": MIXED["pack"] | {"covers_m2": 0.0, "counts": [12, 12, 16, 1000]}})
    )
    made = plan_as_far(flags.job(), flags.rules)
    assert made.faults == ()
    assert made.laying is None
    assert made.cost is None
    assert made.levels is not None
    assert made.water is not None
    assert made.setting_out is not None
    (named,) = [each for each in made.missing if each.code is MissingCode.LAYOUT]
    assert (named.place, named.stage, named.path) == ("Patio", "paving", "areas.0.laying.pack")
    lines = list(plan_lines(made))
    assert any(line.startswith("Not laid") and "Patio" in line for line in lines)
