"""A point cloud against the plan: what is in it is found, and no more is said than it shows."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
import shapely
from click.testing import CliRunner

from pavewright.as_laid import BayState, CloudMark
from pavewright.as_laid._cloud import unchecked
from pavewright.cli._check_cloud import check_cloud_command
from pavewright.desk import CloudFile, checked_cloud, make_plan
from pavewright.files import FileRefusedError, read_xyz

JOB = Path(__file__).parents[3] / "examples" / "l_terrace.json"
NOISE_MM = 2.0


@pytest.fixture(scope="module")
def made():
    return make_plan(JOB.read_bytes())


def levelled(made):
    """Levelled points beside the paving, on all sides of it."""
    return [each for each in made.survey.points if each.name in {"BM", "G28", "G31", "G32", "G37", "G38"}]


def scanned(made, off=lambda x, y: 0.0 * x, turn_deg=0.0, tilt=0.0, count=120_000):
    """A cloud of the terrace with a change to its levels, turned and tilted as a scanner may stand."""
    dice = np.random.default_rng(1)
    finished = made.levels.area("Terrace")
    shape = made.survey.site.area("Terrace").gross.polygon
    west, south, east, north = shape.bounds
    x, y = dice.uniform(west, east, count), dice.uniform(south, north, count)
    on = shapely.contains_xy(shape, x, y)
    x, y = x[on], y[on]
    z = finished.surface.levels_at(x, y) + off(x, y)
    for mark in levelled(made):
        near = 60
        x = np.append(x, mark.x_mm + dice.uniform(-30.0, 30.0, near))
        y = np.append(y, mark.y_mm + dice.uniform(-30.0, 30.0, near))
        z = np.append(z, np.full(near, mark.level_mm))
    z = z + dice.normal(0.0, NOISE_MM, len(z)) + tilt * x
    z[dice.random(len(z)) < 0.02] += 60.0
    angle = np.radians(turn_deg)
    places = np.column_stack([np.cos(angle) * x - np.sin(angle) * y, np.sin(angle) * x + np.cos(angle) * y, z])
    marks = {}
    for mark in levelled(made):
        px, py = mark.x_mm, mark.y_mm
        marks[mark.name] = (
            float(np.cos(angle) * px - np.sin(angle) * py),
            float(np.sin(angle) * px + np.cos(angle) * py),
            float(mark.level_mm + tilt * px),
        )
    return places, marks


def as_text(places, unit_mm=1.0):
    text = io.StringIO()
    np.savetxt(text, places / unit_mm, fmt="%.5f", delimiter=",")
    return io.BytesIO(text.getvalue().encode())


def checked(made, places, marks):
    return checked_cloud(
        made, CloudFile(as_text(places), "csv", "mm", "east,north,level", ground_only=False), marks, 100.0
    )


def test_paving_as_planned_comes_out_as_planned_however_the_scanner_stood(made):
    found = checked(made, *scanned(made, turn_deg=20.0, tilt=0.004))
    bay = next(each for each in found.bays if each.bay.area == "Terrace")
    planned = bay.bay.planned
    assert bay.bay.fit.plane.slope_x == pytest.approx(planned.slope_x, abs=1e-4)
    assert bay.bay.fit.plane.slope_y == pytest.approx(planned.slope_y, abs=1e-4)
    assert bay.bay.states == (BayState.AS_DESIGNED,)
    assert max(abs(mark.off_level_mm) for mark in found.marks) < 1e-6
    assert {each.edge.verdict.value for each in found.bays} <= {"pass", "unsure"}, "noise is no fault of laying"
    assert 0.2 < found.noise_mm < NOISE_MM


def test_a_dip_is_found_where_it_is(made):
    x0, y0 = made.survey.site.area("Terrace").gross.polygon.representative_point().coords[0]

    def dished(x, y):
        return -12.0 * np.clip(1.0 - ((x - x0) ** 2 + (y - y0) ** 2) / 600.0**2, 0.0, None)

    places, _ = scanned(made, dished)
    found = checked(made, places, dict.fromkeys(mark.name for mark in levelled(made)))
    bay = max(found.bays, key=lambda each: each.edge.gap_mm)
    assert bay.edge.gap_mm == pytest.approx(12.0, abs=3.0)
    assert np.hypot(bay.edge.at[0] - x0, bay.edge.at[1] - y0) < 300.0
    assert bay.edge.verdict == "fail"


def test_a_plane_is_no_surer_than_the_marks_that_carry_it(made):
    places, marks = scanned(made)
    sure = checked(made, places, marks)
    name = next(iter(marks))
    x, y, z = marks[name]
    unsure = checked(made, places, {**marks, name: (x, y, z + 20.0)})
    assert unsure.level_sd_mm > 1.5 * sure.level_sd_mm
    before, after = (found.bays[0].bay.farthest_sd_mm for found in (sure, unsure))
    assert after > 1.3 * before


def test_a_mark_that_no_other_checks_is_named(made):
    points = {each.name: (each.x_mm, each.y_mm) for each in made.survey.points}
    row = [CloudMark(name, points[name], 0.0, 0.0) for name in ("BM", "G1", "G2", "G4", "G6")]
    assert unchecked(tuple(row)) == ("BM",)
    square = [CloudMark(str(n), at, 0.0, 0.0) for n, at in enumerate([(0.0, 0.0), (5e3, 0.0), (2e3, 0.0), (1e3, 4e3)])]
    assert unchecked(tuple(square)) == ("3",)


def test_three_points_carry_no_cloud(made):
    places, marks = scanned(made, count=5000)
    few = dict(list(marks.items())[:3])
    with pytest.raises(FileRefusedError, match="4 levelled points"):
        checked(made, places, few)
    with pytest.raises(FileRefusedError, match="no levelled point Moon"):
        checked(made, places, {**few, "Moon": None})


def test_an_area_that_was_not_scanned_is_named(made):
    places, marks = scanned(made, count=20_000)
    found = checked(made, places[:0:-1], marks)
    assert set(found.unseen) == {each.name for each in made.survey.site.areas} - {each.bay.area for each in found.bays}


def test_the_command_tells_what_it_found_and_fails_on_a_dip(made, tmp_path):
    places, _ = scanned(made, lambda x, y: 20.0 + 0.0 * x)
    file = tmp_path / "scan.csv"
    file.write_bytes(as_text(places, 1000.0).getvalue())
    names = [word for mark in levelled(made) for word in ("--mark", mark.name)]
    told = CliRunner().invoke(check_cloud_command, [str(JOB), str(file), *names, "--cell", "100", "--quiet"])
    assert told.exit_code == 1, told.output
    assert "indicative" in told.output
    assert "built off design" in told.output
    assert "no other point would show that BM is wrong" in told.output
    few = CliRunner().invoke(check_cloud_command, [str(JOB), str(file), "--mark", levelled(made)[0].name, "--quiet"])
    assert few.exit_code == 2


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "no line of three numbers"),
        (b"a,b,c\nd,e,f\n", "no line of three numbers"),
        (b"x,y,z\n1,2,3\n4,five,6\n", "no point of three numbers"),
        (b"1,2,3\n4,5\n", "no point of three numbers"),
        (b"1,2,3\nnan,2,3\n", "100 km"),
        (b"1,2,3\n9e12,2,3\n", "100 km"),
    ],
)
def test_lines_that_are_no_cloud_are_refused_with_a_sentence(content, told):
    with pytest.raises(FileRefusedError, match=told):
        read_xyz(io.BytesIO(content), 50.0, "m", "east,north,level")


def test_lines_are_read_in_either_order_and_any_unit():
    lines = b"# scan\nnorth east level\n1 2 3 255 0 0\n1.01 2.01 3.01 255 0 0\n\n"
    found = read_xyz(io.BytesIO(lines), 50.0, "m", "north,east,level")
    assert found.counts[1] == 2
    assert found.spots[0, 2] == pytest.approx(3005.0, abs=0.1)
    assert found.spots[0, 0] == pytest.approx(2005.0, abs=30.0)
    with pytest.raises(FileRefusedError, match="order"):
        read_xyz(io.BytesIO(lines), 50.0, "m", "up,down")
