"""Point clouds: medians of cells against numpy, chunks and classes, and clouds laid onto levelled points."""

from __future__ import annotations

import io

import laspy
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.files import FileRefusedError, aligned, from_bytes, level_near, read_las, read_ply, thinned


def las(places, classes=None, *, laz=False):
    header = laspy.LasHeader(point_format=3, version="1.2")
    header.scales, header.offsets = np.array([0.001] * 3), np.array([500.0, 300.0, 10.0])
    cloud = laspy.LasData(header)
    cloud.x, cloud.y, cloud.z = places.T
    if classes is not None:
        cloud.classification = classes
    stream = io.BytesIO()
    cloud.write(stream, do_compress=laz)
    return stream.getvalue()


def garden(count, seed=1):
    dice = np.random.default_rng(seed)
    places = dice.uniform(0.0, 2.99, (count, 3))
    places[:, 2] = 10.0 - 0.02 * places[:, 0] + 0.01 * places[:, 1] + dice.normal(0.0, 0.002, count)
    return places + (500.0, 300.0, 0.0)


def by_numpy(places_mm, cell_mm):
    keys = np.floor((places_mm[:, :2] + 1e-6) / cell_mm).astype(int)
    return {tuple(key): float(np.median(places_mm[(keys == key).all(axis=1), 2])) for key in np.unique(keys, axis=0)}


@pytest.mark.parametrize("laz", [False, True])
def test_medians_of_cells_are_those_of_numpy(laz):
    places = np.round(garden(3000), 3)
    found = read_las(from_bytes(las(places, laz=laz)), 100.0, ground_only=False)
    # cells begin at whole cells of the file's own grid
    expected = by_numpy((places - (500.0, 300.0, 0.0)) * 1000.0, 100.0)
    assert len(found.spots) == len(expected)
    for x, y, level in found.spots:
        key = round((x - 500_000.0) / 100.0 - 0.5), round((y - 300_000.0) / 100.0 - 0.5)
        assert level == pytest.approx(expected[key], abs=0.51)
    assert found.counts == (3000, 3000)


@settings(max_examples=20, deadline=None)
@given(st.integers(1, 400), st.sampled_from([10.0, 25.0, 50.0, 300.0]), st.integers(0, 99))
def test_a_ply_cloud_gives_the_medians_of_numpy(ply, count, cell_mm, seed):
    places = (garden(count, seed) - (500.0, 300.0, 0.0)).astype(np.float32)
    found = read_ply(from_bytes(ply(places, text=seed % 2 == 0, big_endian=seed % 3 == 0)), cell_mm, "m")
    steps = np.rint((places.astype(float) - places.min(axis=0)) * 10_000.0)
    keys = (steps[:, :2] // round(cell_mm * 10)).astype(int)
    assert len(found.spots) == len(np.unique(keys, axis=0))
    low, high = places[:, 2].min() * 1000.0, places[:, 2].max() * 1000.0
    assert (found.spots[:, 2] >= low - 0.1).all()
    assert (found.spots[:, 2] <= high + 0.1).all()


def test_only_points_of_the_ground_are_taken_where_that_is_asked():
    places = np.concatenate([garden(500), garden(200) + (0.0, 0.0, 1.5)])
    classes = np.r_[np.full(500, 2), np.full(200, 5)].astype(np.uint8)
    found = read_las(from_bytes(las(places, classes)), 50.0, ground_only=True)
    assert found.counts == (700, 500)
    assert found.spots[:, 2].max() < 10_100.0
    with pytest.raises(FileRefusedError, match="class ground"):
        read_las(from_bytes(las(garden(50), np.ones(50, np.uint8))), 50.0, ground_only=True)


@pytest.mark.parametrize(
    ("read", "words"),
    [
        (lambda _: read_las(from_bytes(b"LASF" + b"\0" * 50), 50.0, ground_only=False), "cannot be read"),
        (
            lambda _: read_las(from_bytes(las(garden(100))[:900]), 50.0, ground_only=False),
            "holds 100 points and the file ends after 19",
        ),
        (lambda _: read_las(from_bytes(las(garden(100))), 1.0, ground_only=False), "5 to 500"),
        (
            lambda _: read_las(from_bytes(las(garden(100) * (100.0, 100.0, 1.0))), 5.0, ground_only=False),
            "cells of 5 mm",
        ),
        (lambda ply: read_ply(from_bytes(b"ply\n"), 50.0, "m"), "cannot be read"),
        (lambda ply: read_ply(from_bytes(ply(garden(10))), 50.0, ""), "say m or mm"),
        (lambda ply: read_ply(from_bytes(ply(garden(10))[:-5]), 50.0, "m"), "cannot be read"),
        (lambda ply: read_ply(from_bytes(ply(garden(10), text=True)[:-60]), 50.0, "m"), "cannot be read"),
        (
            lambda ply: read_ply(from_bytes(ply(garden(3)).replace(b"vertex 3", b"vertex 99999999999")), 50.0, "m"),
            "cannot",
        ),
        (lambda ply: read_ply(from_bytes(ply(garden(3)).replace(b"vertex 3", b"face 3")), 50.0, "m"), "cannot be read"),
        (lambda ply: read_ply(from_bytes(ply(garden(10) * np.nan)), 50.0, "m"), "cannot be read"),
        (lambda ply: read_ply(from_bytes(ply(garden(10) * 1e6)), 50.0, "m"), "look at its unit"),
    ],
)
def test_clouds_are_refused_in_words(read, words, ply):
    with pytest.raises(FileRefusedError, match=words):
        read(ply)


def test_a_cloud_is_laid_onto_levelled_points_and_tells_its_residuals():
    dice = np.random.default_rng(7)
    true = dice.uniform(0.0, 8000.0, (300, 3))
    true[:, 2] = 9_900.0 - true[:, 0] / 60.0
    angle = np.radians(37.0)
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    cloud = np.column_stack([true[:, :2] @ turn.T - (1200.0, 300.0), true[:, 2] + 40.0 + 0.003 * true[:, 1]])
    pairs = tuple((tuple(cloud[k]), tuple(true[k])) for k in (0, 50, 100, 200))
    laid, how = aligned(cloud, pairs)
    assert np.abs(laid - true).max() < 0.01
    assert how.bearing_deg == pytest.approx(323.0)
    assert max(max(each) for each in how.residuals_mm) < 1e-6
    assert how.tilt[1] == pytest.approx(-0.003)
    off = ((*pairs[0][0][:2], pairs[0][0][2] + 20.0), pairs[0][1])
    _, worse = aligned(cloud, (off, *pairs[1:]))
    assert max(abs(each[1]) for each in worse.residuals_mm) > 3.0
    assert level_near(laid, (true[3, 0], true[3, 1]), 1.0) == pytest.approx(true[3, 2], abs=0.01)
    assert level_near(laid, (-9_000.0, 0.0), 1.0) is None
    with pytest.raises(FileRefusedError, match="name more"):
        aligned(cloud, pairs[:2])
    with pytest.raises(FileRefusedError, match="nearly on one line"):
        aligned(cloud, tuple(((k * 1000.0, 0.0, 0.0), (k * 1000.0, 0.0, 0.0)) for k in range(4)))


def test_a_cloud_is_thinned_to_one_spot_in_a_square():
    found = read_las(from_bytes(las(garden(5000))), 50.0, ground_only=False)
    few = thinned(found.spots, 500.0)
    keys = np.floor(few[:, :2] / 500.0).astype(int)
    assert len(np.unique(keys, axis=0)) == len(few) == 36
    level = 10_000.0 - 0.02 * (few[:, 0] - 500_000.0) + 0.01 * (few[:, 1] - 300_000.0)
    assert np.abs(few[:, 2] - level).max() < 8.0
