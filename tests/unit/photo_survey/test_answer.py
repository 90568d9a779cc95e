"""What a photo says, where it says nothing, and why."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.unit.photo_survey.made_up import FLOOR, LIMITS, SIZE, Camera, how_far, photo

from pavewright.photo_survey import NO_ANSWER, Mark, Weak, plane_from_photo
from pavewright.photo_survey import _words as words

EXACT = replace(FLOOR, flat_sd_mm=0.0, lens_sd=(0.0, 0.0), mark_sd_px=0.0)


def answer(picture, trust=FLOOR):
    return plane_from_photo(picture, trust, LIMITS)


def moved(picture, number, by_px=(0.0, 0.0), by_mm=(0.0, 0.0)):
    marks = list(picture.marks)
    mark = marks[number]
    marks[number] = replace(
        mark,
        seen_px=(mark.seen_px[0] + by_px[0], mark.seen_px[1] + by_px[1]),
        known_mm=(mark.known_mm[0] + by_mm[0], mark.known_mm[1] + by_mm[1]),
    )
    return replace(picture, marks=tuple(marks))


@pytest.mark.parametrize("marks", [4, 5, 8])
def test_without_errors_the_place_is_exact_and_the_camera_stands_where_it_stood(marks):
    rng = np.random.default_rng(marks)
    camera = Camera(rng, focal=1.2)
    picture, true = photo(rng, marks, EXACT, known_sd_mm=1e-6, camera=camera)
    found = answer(picture, EXACT)
    assert found.places[0].at_mm == pytest.approx(true[0], abs=1e-3)
    assert found.camera_off_mm == pytest.approx(camera.stood[2], rel=1e-4)
    foot = np.hypot(*(true[0] - camera.stood[:2]))
    assert found.places[0].shift == pytest.approx(foot / camera.stood[2], rel=1e-3)


def test_a_camera_held_level_has_its_horizon_in_the_middle_of_the_picture_and_measures_all_the_same():
    rng = np.random.default_rng(3)
    camera = Camera(rng, pitch_deg=0.0, height_mm=1700.0)
    pixels = np.array(
        [(200.0, 800.0), (1400.0, 820.0), (1500.0, 1150.0), (100.0, 1180.0), (800.0, 950.0), (700.0, 900.0)]
    )
    known = camera.on_plane(pixels)
    marks = tuple(Mark(f"M{n}", tuple(pixels[n].tolist()), tuple(known[n, :2].tolist()), 5.0) for n in range(5))
    picture, _ = photo(rng, 5)
    found = answer(replace(picture, marks=marks, wanted=(("T", tuple(pixels[5].tolist())),)))
    assert found.places[0].at_mm == pytest.approx(known[5, :2], abs=1e-3)


def test_a_thing_off_the_plane_shifts_away_from_the_camera_by_as_much_as_is_told():
    rng = np.random.default_rng(11)
    camera = Camera(rng, focal=1.2)
    picture, true = photo(rng, 5, EXACT, known_sd_mm=1e-6, camera=camera)
    proud = camera.seen(np.array([[*true[0], 10.0]]))[0]
    low, high = (
        answer(picture, EXACT).places[0],
        answer(replace(picture, wanted=(("T", tuple(proud.tolist())),)), EXACT).places[0],
    )
    assert np.hypot(*(np.array(high.at_mm) - low.at_mm)) == pytest.approx(10.0 * low.shift, rel=0.02)


def test_a_bent_picture_is_found_bent_where_there_are_marks_enough():
    rng = np.random.default_rng(5)
    trust = replace(FLOOR, flat_sd_mm=0.0, mark_sd_px=0.3, lens_sd=(0.05, 0.0))
    camera = Camera(rng, pitch_deg=50.0)
    spots = np.array([(x, y) for x in (60.0, 560.0, 1060.0, 1540.0) for y in (60.0, 420.0, 800.0, 1140.0)])
    on_plane = camera.on_plane(spots)
    bent = camera.seen(on_plane, (0.04, 0.0))
    marks = tuple(Mark(f"M{n}", tuple(bent[n].tolist()), tuple(on_plane[n, :2].tolist()), 1.0) for n in range(16))
    picture, _ = photo(rng, 4)
    found = answer(replace(picture, marks=marks), trust)
    assert found.lens_found
    assert found.lens[0] == pytest.approx(0.04, abs=0.003)
    assert not answer(replace(picture, marks=marks[:3] + marks[15:]), trust).lens_found


def only(picture, count):
    return replace(picture, marks=picture.marks[:count])


def test_three_marks_are_too_few_and_four_have_no_check():
    picture, _ = photo(np.random.default_rng(1), 5)
    few = answer(only(picture, 3))
    assert few.weak == (Weak.FEW_MARKS,)
    assert few.places[0].at_mm is None
    assert few.places[0].weak == (Weak.FEW_MARKS,)
    assert Weak.NO_CHECK in answer(only(picture, 4)).weak
    assert Weak.NO_CHECK not in answer(picture).weak


def test_three_marks_in_line_give_no_place():
    rng = np.random.default_rng(2)
    camera = Camera(rng)
    pixels = np.array([(200.0, 500.0), (700.0, 500.0), (1400.0, 501.0), (800.0, 1100.0)])
    known = camera.on_plane(pixels)[:, :2]
    marks = tuple(Mark(f"M{n}", tuple(pixels[n].tolist()), tuple(known[n].tolist()), 5.0) for n in range(4))
    picture, _ = photo(rng, 4)
    assert answer(replace(picture, marks=marks)).weak == (Weak.IN_LINE,)


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("marks", [4, 5, 6])
def test_two_marks_with_each_others_names_never_give_a_quiet_place(seed, marks):
    rng = np.random.default_rng(seed)
    picture, _ = photo(rng, marks)
    first, second = rng.choice(marks, 2, replace=False)
    swapped = list(picture.marks)
    swapped[first] = replace(swapped[first], known_mm=picture.marks[second].known_mm)
    swapped[second] = replace(swapped[second], known_mm=picture.marks[first].known_mm)
    found = answer(replace(picture, marks=tuple(swapped)))
    assert set(found.weak) & {Weak.CROSSWISE, Weak.MIRRORED, Weak.MARKS_DISAGREE}


def test_marks_run_the_wrong_way_round():
    picture, _ = photo(np.random.default_rng(4), 4)
    marks = tuple(replace(mark, known_mm=(-mark.known_mm[0], mark.known_mm[1])) for mark in picture.marks)
    assert answer(replace(picture, marks=marks)).weak == (Weak.MIRRORED,)
    wall = replace(picture, marks=marks, seen_from_front=None)
    assert answer(wall).places[0].at_mm is not None


def test_the_mark_that_the_others_contradict_is_named_and_widens_every_ellipse():
    picture, true = photo(np.random.default_rng(6), 7)
    wrong = moved(picture, 2, by_mm=(0.0, 400.0))
    found = answer(wrong)
    assert Weak.MARKS_DISAGREE in found.weak
    assert found.suspect == "M2"
    assert max(found.marks, key=lambda mark: mark.share).name == "M2"
    assert found.places[0].ellipse.major_mm > 3.0 * answer(picture).places[0].ellipse.major_mm
    assert how_far(found.places[0], true[0]) < 12.0


def test_of_five_marks_nobody_can_tell_which_one_is_wrong():
    picture, _ = photo(np.random.default_rng(8), 5)
    found = answer(moved(picture, 1, by_mm=(500.0, 0.0)))
    assert Weak.MARKS_DISAGREE in found.weak
    assert found.suspect == ""


def test_beyond_the_marks_is_told_and_far_beyond_says_nothing():
    picture, _ = photo(np.random.default_rng(9), 5)
    near, far = (800.0, 1190.0), (800.0, 5000.0)
    found = answer(replace(picture, wanted=(("near", near), ("far", far)))).places
    assert found[0].weak == (Weak.BEYOND_MARKS,) or found[0].weak == ()
    assert Weak.FAR_BEYOND in found[1].weak
    assert found[1].at_mm is None


def test_past_the_horizon_there_is_no_ground():
    rng = np.random.default_rng(10)
    picture, _ = photo(rng, 4, camera=Camera(rng, pitch_deg=20.0))
    sky = replace(picture, wanted=(("sky", (800.0, -3000.0)),))
    place = answer(sky).places[0]
    assert place.at_mm is None
    assert Weak.PAST_HORIZON in place.weak


def test_a_low_camera_is_told_and_a_grazing_sight_says_nothing():
    rng = np.random.default_rng(12)
    camera = Camera(rng, pitch_deg=8.0, height_mm=300.0)
    pixels = np.array(
        [(200.0, 640.0), (1400.0, 640.0), (1500.0, 1100.0), (100.0, 1100.0), (800.0, 800.0), (800.0, 500.0)]
    )
    known = camera.on_plane(pixels)
    marks = tuple(Mark(f"M{n}", tuple(pixels[n].tolist()), tuple(known[n, :2].tolist()), 2.0) for n in range(5))
    picture, _ = photo(rng, 5)
    found = answer(replace(picture, marks=marks, wanted=(("far", tuple(pixels[5].tolist())),)))
    assert Weak.LOW_CAMERA in found.weak
    assert found.places[0].at_mm is None
    assert set(found.places[0].weak) & {Weak.GRAZING, Weak.UNSURE}


def test_marks_in_one_corner_are_told():
    rng = np.random.default_rng(13)
    camera = Camera(rng)
    pixels = np.array([(100.0, 800.0), (300.0, 800.0), (300.0, 1000.0), (100.0, 1000.0)])
    known = camera.on_plane(pixels)[:, :2]
    marks = tuple(Mark(f"M{n}", tuple(pixels[n].tolist()), tuple(known[n].tolist()), 2.0) for n in range(4))
    picture, _ = photo(rng, 4)
    found = answer(replace(picture, marks=marks, wanted=(("T", (1400.0, 400.0)),)))
    assert Weak.ONE_CORNER in found.weak
    assert found.places[0].at_mm is None


def test_without_the_size_of_the_picture_that_is_told():
    picture, true = photo(np.random.default_rng(14), 6, replace(FLOOR, lens_sd=(0.0, 0.0)))
    found = answer(replace(picture, size_px=None))
    assert Weak.PICTURE_SIZE in found.weak
    assert found.camera_off_mm is None
    assert found.places[0].at_mm == pytest.approx(true[0], abs=120.0)


def test_where_marks_are_the_same_there_is_nothing():
    picture, _ = photo(np.random.default_rng(15), 4)
    same = tuple(replace(mark, seen_px=(10.0, 10.0)) for mark in picture.marks)
    assert answer(replace(picture, marks=same)).weak == (Weak.IN_LINE,)
    assert SIZE.tolist() == list(picture.size_px)


def test_every_weakness_has_its_sentence():
    assert set(words.WEAK_WORDS) == set(Weak)
    assert set(Weak) > NO_ANSWER
