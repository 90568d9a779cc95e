"""Points from lines of text: in the order that is told, or refused with the line."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pavewright.files import ORDERS, FileRefusedError, ReadPoint, first_lines, read_csv_points, write_csv_points

NORTH = "name,north,east,level"
EAST = "name,east,north,level"


def test_the_order_decides_what_is_east():
    line = b"1,581.431,934.193,117.113,BASE RB\n"
    (one,) = read_csv_points(line, NORTH, "m")
    assert (one.name, one.x_mm, one.y_mm, one.level_mm) == ("1", pytest.approx(934193.0), pytest.approx(581431.0),
                                                            pytest.approx(117113.0))  # fmt: skip
    assert one.note == "BASE RB"
    (other,) = read_csv_points(line, EAST, "m")
    assert (other.x_mm, other.y_mm) == (one.y_mm, one.x_mm)


def test_no_order_is_guessed():
    with pytest.raises(FileRefusedError, match="in which order"):
        read_csv_points(b"1,2,3,4\n", "", "m")
    with pytest.raises(FileRefusedError, match="m, mm, ft, in"):
        read_csv_points(b"1,2,3,4\n", EAST, "yd")


@pytest.mark.parametrize("part", [",", ";", "\t"])
def test_headings_remarks_marks_and_empty_levels(part):
    rows = [
        "\ufeff# from the site",
        "Pt,E,N,Z".replace(",", part),
        f"A{part}1.5{part}2{part}",
        f"B{part}0{part}0{part}3.25",
    ]
    first, second = read_csv_points("\r\n".join(rows).encode(), EAST, "m")
    assert (first.name, first.x_mm, first.level_mm) == ("A", 1500.0, None)
    assert second.level_mm == 3250.0


def test_points_without_names_are_numbered():
    found = read_csv_points(b"1,2,3\n4,5,6\n", "east,north,level", "mm")
    assert [each.name for each in found] == ["1", "2"]
    assert found[1].level_mm == 6.0


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"A,1,2,3\nB,1,x,3\n", "Line 2 is not a point .* 'x' stands for north"),
        (b"A,1,2,3\nA,4,5,6\n", "Line 2 names A, and line 1 does so too"),
        (b"A,1,2,nan\n", "'nan' stands for level"),
        (b"A,1,2,1e300\n", "100 km off"),
        (b"A,1,2,3\nB,1\n", "Line 2"),
        (b"# nothing\n", "holds no point"),
        (b"A,1,2,3\0", "not text"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(content, words):
    with pytest.raises(FileRefusedError, match=words):
        read_csv_points(content, EAST, "m")


def test_too_many_points_are_refused():
    content = "\n".join(f"P{n},1,2,3" for n in range(20_001)).encode()
    with pytest.raises(FileRefusedError, match="more than 20000 points"):
        read_csv_points(content, EAST, "m")


NUMBERS = st.floats(-1e7, 1e7, allow_nan=False)
NAMES = st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=8) | st.sampled_from(
    ["#1", "=1+1", "'=1", "''=1", "'a", "-A", "+A", "@A", '"', "#,", 'a"b']
)


@given(
    st.lists(st.tuples(NAMES, NUMBERS, NUMBERS, st.none() | NUMBERS), min_size=1, max_size=6, unique_by=lambda t: t[0])
)
def test_what_is_written_is_read_back_unchanged(rows):
    points = tuple(ReadPoint(name, x, y, level, "") for name, x, y, level in rows)
    assert read_csv_points(write_csv_points(points), EAST, "mm") == points


@given(st.binary(max_size=300), st.sampled_from(sorted(ORDERS)), st.sampled_from(["m", "mm"]))
def test_whatever_is_sent_is_read_or_refused(content, order, unit):
    try:
        read_csv_points(content, order, unit)
    except FileRefusedError as refused:
        assert str(refused).endswith(".")


def test_the_first_lines_are_shown():
    assert first_lines(b"a\nb\nc\nd\ne\nf\n") == "a\nb\nc\nd\ne"


def test_a_name_that_a_spreadsheet_would_work_out_is_written_as_words():
    written = write_csv_points((ReadPoint("=2+3", 1.0, 2.0, None, "@note"),))
    assert written == b"'=2+3,1.0,2.0,,'@note\n"


def test_a_remark_that_could_be_a_point_is_asked_about():
    with pytest.raises(FileRefusedError, match="Line 2 begins with # .* could be the point #2"):
        read_csv_points(b"# from the site, twice\n#2,1,2,3\n", EAST, "m")
    (one,) = read_csv_points(b'"#2",1,2,3\n', EAST, "m")
    assert one.name == "#2"
