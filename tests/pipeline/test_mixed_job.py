"""A terrace in a pack of mixed sizes, from the document to the last sheet."""

from __future__ import annotations

import json
from pathlib import Path

from pavewright.desk import make_pack, make_plan

ROOT = Path(__file__).parents[2]
SIZES = (
    ("Mixed 890", 890.0, 590.0),
    ("Mixed 590", 590.0, 590.0),
    ("Mixed half", 590.0, 290.0),
    ("Mixed 290", 290.0, 290.0),
)


def terrace_in_mixed_sizes(mix):
    document = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
    flag, laying = document["units"][0], document["areas"][0]["laying"]
    document["units"] += [
        {
            **flag,
            "name": name,
            "length_mm": length,
            "width_mm": width,
            "per_pack": 1,
            "part_packs": True,
            "kg_each": 9.2e-5 * length * width,
        }
        for name, length, width in SIZES
    ]
    laying.pop("stagger")
    laying |= {
        "unit": "Mixed 890",
        "pattern": "mixed",
        "mix": mix,
        "course_units": [name for name, _, _ in SIZES[1:]],
        "pack": {"module_mm": 300.0, "counts": [12, 12, 16, 16], "covers_m2": 15.12},
    }
    return json.dumps(document).encode()


def test_a_terrace_in_mixed_sizes_makes_a_whole_pack():
    made = make_plan(terrace_in_mixed_sizes(1))
    papers = make_pack(made)
    assert {count.unit for count in made.laying.areas[0].by_unit} == {name for name, _, _ in SIZES}
    plan = next(paper for paper in papers if paper.name == "plans/laying-plan.svg")
    assert f">{len(made.laying.areas[0].pieces)}<".encode() in plan.content
    again = make_pack(make_plan(terrace_in_mixed_sizes(1)))
    assert [paper.content for paper in papers] == [paper.content for paper in again]
