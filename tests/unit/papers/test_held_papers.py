"""The papers on hold points as they were read and on what the dig found say what the plan says."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from pavewright.desk import make_pack_so_far, make_plan_so_far
from pavewright.papers import PaperKey
from pavewright.setting_out import HeightOf

TERRACE = json.loads((Path(__file__).parents[3] / "examples" / "l_terrace.json").read_text("utf-8"))
AREA = TERRACE["areas"][0]["name"]


def looks(plan):
    formation, base = (each for each in plan.hold_points.holds if each.key.text in {"formation.1", "layer.1.base"})
    for hold, off in ((formation, -18.0), (base, 9.0)):
        yield {
            "name": f"Look at {hold.key.text}", "kind": hold.key.kind.value, "area": hold.area, "date": "2027-05-04",
            "read_by": "A. Paver", "instrument": "rotating laser", "sd_mm": 2.0,
            "readings": [
                {"label": each.label, "x_mm": each.at[0], "y_mm": each.at[1],
                 "level_mm": each.planned_mm + off + number % 5}
                for number, each in enumerate(hold.places)
            ],
        } | ({} if hold.key.layer is None else {"layer": hold.key.layer.value})  # fmt: skip
    yield {
        "name": "Drain", "kind": "drain", "drain": "Kitchen gully", "date": "2027-05-05", "read_by": "A. Paver",
        "run_mm": 4000.0, "readings": [
            {"label": "head", "x_mm": 0.0, "y_mm": 0.0, "level_mm": 9450.0},
            {"label": "foot", "x_mm": 4000.0, "y_mm": 0.0, "level_mm": 9400.0},
        ], "test": {"kind": "air", "drop_mm": 12.0, "minutes": 5.0, "start_gauge_mm": 100.0},
    }  # fmt: skip


FINDS = [
    {"name": "Wet clay", "kind": "soft_spot", "area": AREA, "found_on": "2027-05-04", "depth_mm": 250.0,
     "area_m2": 5.0, "found_by": "A. Paver"},
    {"name": "Old slab", "kind": "concrete", "area": AREA, "found_on": "2027-05-04", "depth_mm": 110.0, "area_m2": 4.0},
]  # fmt: skip


def document():
    checks = list(looks(make_plan_so_far(json.dumps(TERRACE))))
    return json.loads(json.dumps(TERRACE)) | {"hold_checks": checks, "dig_found": FINDS}


def said(of):
    made, left_out = make_pack_so_far(make_plan_so_far(json.dumps(of)), only=frozenset({PaperKey.SITE_PAPERS}))
    assert left_out == ()
    (paper,) = made
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(paper.content)).pages], paper


@pytest.fixture(scope="module")
def pages():
    return said(document())


def test_what_was_read_stands_with_its_verdict_its_doubt_and_what_it_takes(pages):
    text = " ".join(pages[0])
    assert "Hold points as they were read" in text
    assert "Formation, Terrace: pass" in text or "Formation, Terrace: inconclusive" in text
    assert "rotating laser" in text
    assert "one reading is good to 2 mm" in text
    assert "bags of cement" in text
    assert "of own cost, before overhead, margin and tax" in text
    assert "stands in the contract" in text
    assert "Fall found 1:80" in text or "Fall found 1 in 80" in text
    assert "Test: it holds" in text


def test_what_the_dig_found_stands_with_its_size_and_its_volume(pages):
    text = " ".join(pages[0])
    assert "Wet clay: 1.25 m³ below formation dug and filled" in text
    assert "Old slab: 0.44 m³ broken out" in text


def test_the_form_for_a_dig_that_differs_is_there_before_anything_was_read():
    text = " ".join(said(TERRACE)[0])
    assert "The dig differs" in text
    assert "Hold points as they were read" not in text
    assert "What the dig found" not in text


def test_a_place_without_a_figure_is_counted_and_shown_as_not_read():
    of = document()
    (base,) = (each for each in of["hold_checks"] if each.get("layer") == "base")
    many = len(base["readings"])
    del base["readings"][0]["level_mm"]
    base["readings"].pop()
    text = " ".join(said(of)[0])
    assert f"Top of base, Terrace {many - 2} of {many}" in text
    assert "Top of base, Terrace: pass" not in text
    assert text.count("not read") >= 2


def test_hold_points_read_down_from_the_string_as_it_was_read():
    plan = make_plan_so_far(json.dumps(TERRACE))
    (hold,) = (each for each in plan.hold_points.holds if each.key.text == "formation.1")
    place = next(each for each in hold.places if each.down_mm is not None and each.label in corners(plan))
    at = {"peg": place.label, "x_mm": place.at[0], "y_mm": place.at[1]}
    hung = [at | {"level_mm": round(place.planned_mm + place.down_mm - 31.0)}]
    made = make_plan_so_far(json.dumps(TERRACE | {"strings_set": hung}))
    down = [
        height.down_from_string_mm
        for each in made.setting_out.work.crossings
        if each.peg == place.label
        for height in each.heights
        if height.layer is HeightOf.FORMATION
    ]
    text = " ".join(said(TERRACE | {"strings_set": hung})[0])
    first = text[text.index("1 Formation") : text.index("2 Drains")]
    assert "from the string as it was read and hangs" in text
    assert f"{place.label.removeprefix('Peg ')} {round(down[0])} " in first


def corners(plan):
    return {each.peg for each in plan.setting_out.work.crossings}
