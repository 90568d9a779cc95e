"""Labels keep apart, keep off lines, get leaders, and are counted where there is no room."""

from __future__ import annotations

from pavewright.drawing._labels import Labels
from pavewright.drawing._scene import HAIR, MEDIUM, Region, Words
from pavewright.drawing._scene import Path as Line
from pavewright.drawing._section_parts import spread
from pavewright.drawing._sheet import Sheet


def labels(sheet):
    return [each for each in sheet.elements if isinstance(each, Words)]


def test_labels_of_one_place_stand_apart():
    sheet = Sheet([(0.0, 0.0), (8000.0, 6000.0)])
    for number in range(8):
        assert sheet.label((4000.0 + number, 3000.0), f"label {number}")
    boxes = sheet.boxes()
    assert len(labels(sheet)) == 8
    for k, (x1, y1, x2, y2) in enumerate(boxes):
        for a1, b1, a2, b2 in boxes[k + 1 :]:
            assert not (x1 < a2 and a1 < x2 and y1 < b2 and b1 < y2)


def test_what_finds_no_room_is_left_out_and_told():
    sheet = Sheet([(0.0, 0.0), (1000.0, 1000.0)])
    written = sum(sheet.label((500.0, 500.0), "a rather long label", 4.0) for _ in range(400))
    assert written < 400
    assert sheet.left_out == 400 - written
    scene = sheet.scene("s", "S", "About.", 0.0)
    assert f"No room here for {sheet.left_out} labels" in scene.about


def test_a_label_keeps_off_a_line_where_it_can():
    sheet = Sheet([(0.0, 0.0), (8000.0, 6000.0)])
    sheet.add(Line(((4000.0 + sheet.mm(3.0), 0.0), (4000.0 + sheet.mm(3.0), 6000.0)), MEDIUM))
    sheet.lines_done()
    sheet.label((4000.0, 3000.0), "beside")
    assert labels(sheet)[0].anchor == "end"


def test_a_label_stands_beside_its_own_sign():
    sheet = Sheet([(0.0, 0.0), (8000.0, 6000.0)])
    sheet.keep_clear_of(((3500.0, 2500.0), (4500.0, 3500.0)))
    sheet.label((4000.0, 3000.0), "cover")
    x, y = labels(sheet)[0].at
    assert not (3500.0 < x < 4500.0 and 2500.0 < y < 3500.0)
    assert x < 4500.0 + sheet.mm(2.0)


def test_a_line_that_runs_off_the_sheet_ends_at_its_edge():
    sheet = Sheet([(0.0, 0.0), (1000.0, 1000.0)])
    sheet.add(Line(((-1e6, 500.0), (1e6, 500.0)), MEDIUM))
    x1, _, x2, _ = sheet.field
    assert [round(x) for x, _ in sheet.elements[0].points] == [round(x1), round(x2)]


def test_a_long_name_is_cut_short():
    sheet = Sheet([(0.0, 0.0), (8000.0, 6000.0)])
    sheet.label((4000.0, 3000.0), "w" * 60)
    assert labels(sheet)[0].text.endswith("…")
    assert len(labels(sheet)[0].text) == 44


def test_words_in_a_column_keep_their_order_and_their_gap():
    places = spread([100.0, 99.0, 98.0, 50.0, 49.0], 4.0)
    assert places == sorted(places, reverse=True)
    assert all(upper - lower >= 4.0 - 1e-9 for upper, lower in zip(places, places[1:], strict=False))
    assert spread([10.0, 2.0], 4.0) == [10.0, 2.0]


def test_words_rather_stand_beside_a_hatch_than_on_it():
    labels = Labels(1.0)
    labels.lines([Region((((0.0, -50.0), (100.0, -50.0), (100.0, 50.0), (0.0, 50.0)),), "water1", HAIR)])
    spot = labels.place((0.5, 0.0), (20.0, 3.0), (-200.0, -200.0, 200.0, 200.0))
    assert spot.bounds_mm[2] < 0.5


def test_a_figure_that_may_not_stand_on_a_line_is_left_out():
    sheet = Sheet(((0.0, 0.0), (5000.0, 5000.0)))
    sheet.add(Line(((0.0, 2500.0), (5000.0, 2500.0)), MEDIUM))
    sheet.lines_done()
    assert not sheet.write_if_free([(2500.0, 2500.0)], "9.840", 2.85, on_dark=False)
    assert sheet.write_if_free([(2500.0, 2500.0)], "9.840", 2.85)
