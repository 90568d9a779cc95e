"""Files of other programs as entries of the job document, and what has to be said of them first."""

from __future__ import annotations

import json

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.desk import file_told
from pavewright.files import FileRefusedError, ReadLine, ReadPoint, file_here, write_dxf_points

POINTS = tuple(ReadPoint(name, x, y, 9900.0, "") for name, x, y in (("K1", 0.0, 0.0), ("K2", 4000.0, 0.0)))
DRAWING = write_dxf_points(POINTS, (ReadLine("KERB", ("K1", "K2"), closed=False),))


@pytest.fixture(scope="module")
def cloud(ply):
    dice = np.random.default_rng(5)
    rows = [(x, y, 9.9 - x / 60.0) for x, y in dice.uniform(0.0, 3.0, (2000, 2))]
    return ply(rows)


def test_a_drawing_tells_its_layers_before_anything_is_taken():
    reported = file_told(DRAWING, {"kind": "dxf"})
    assert reported["layers"] == {"KERB": 1, "SURVEY_POINTS": 2}
    assert reported["unit"] == "mm"
    assert reported["points"] == []
    found = file_told(DRAWING, {"kind": "dxf", "layers": ["KERB", "SURVEY_POINTS"]})
    assert found["points"][0] == {"name": "K1", "x_mm": 0.0, "y_mm": 0.0, "level_mm": 9900.0}
    assert found["lines"] == [{"layer": "KERB", "points": ["K1", "K2"], "closed": False}]


def test_a_cloud_laid_onto_marks_tells_how_far_each_is_off(cloud):
    marks = [
        {"cloud": {"x_mm": x, "y_mm": y, "level_mm": 9900.0 - x / 60.0}, "site": {"x_mm": 100.0 - y, "y_mm": x, "level_mm": 10_000.0 - x / 60.0 + off}}
        for x, y, off in ((0.0, 0.0, 0.0), (3000.0, 0.0, 3.0), (0.0, 3000.0, 0.0), (3000.0, 3000.0, 0.0))
    ]  # fmt: skip
    found = file_told(cloud, {"kind": "ply", "unit": "m", "marks": marks})
    assert [round(abs(each["level_mm"]), 2) for each in found["residuals"]] == [0.75] * 4
    assert max(each["plan_mm"] for each in found["residuals"]) < 1e-6
    assert all(-2950.0 < point["x_mm"] < 150.0 for point in found["points"])


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({}, "Say what kind of file"),
        ({"kind": "ply", "unit": "m", "every_mm": 0}, "every 50 to 10000"),
        ({"kind": "ply", "unit": "m", "every_mm": float("nan")}, "every 50 to 10000"),
        ({"kind": "ply", "unit": "m", "cell_mm": "wide"}, "cell_mm is to be a number"),
        ({"kind": "ply", "unit": "m", "marks": 3}, "marks as a list"),
        ({"kind": "ply", "unit": "m", "marks": [3, 4, 5]}, "a place in the cloud and a point"),
        ({"kind": "ply", "unit": "m", "marks": [{"cloud": {"x_mm": 1}, "site": {}}]}, "needs east, north and level"),
    ],
)
def test_what_is_said_of_a_file_is_held_against_what_can_be(cloud, asked, words):
    with pytest.raises(FileRefusedError, match=words):
        file_told(cloud, asked)


values = st.recursive(st.none() | st.booleans() | st.floats() | st.text(max_size=6), lambda more: st.lists(more, max_size=3) | st.dictionaries(st.text(max_size=5), more, max_size=3), max_leaves=6)  # fmt: skip
names = st.sampled_from(["order", "unit", "layers", "cell_mm", "every_mm", "ground_only", "marks"])


@settings(max_examples=80, deadline=None)
@given(st.sampled_from(["csv", "dxf", "geojson", "landxml", "las", "ply"]), st.dictionaries(names, values, max_size=4), st.sampled_from([b"A,1,2,3\n", DRAWING[:4000], b"{}", b"<a/>", b"LASF", b"ply\n"]))  # fmt: skip
def test_whatever_is_said_of_whatever_file_is_answered_or_refused(kind, asked, content):
    try:
        json.dumps(file_here(content, {**asked, "kind": kind}))
    except FileRefusedError as refused:
        assert str(refused)  # noqa: PT017 - either way is right
