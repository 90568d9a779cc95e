"""Level books: reduction, checks, misclosure, and what is told when they do not work out."""

from __future__ import annotations

from typing import Any

import pytest

from pavewright.findings import Severity
from pavewright.job import JobInvalid
from pavewright.survey import LevelledBy, LevelSource


def demonstration(small: Any, last_mm: float) -> dict[str, Any]:
    """Return the run of three set-ups from T1 to T2 whose last reading decides whether it closes."""
    return small.book(
        "Rear",
        ("T1", 1751.0),
        ("A", None, 540.0),
        ("P1", 300.0, None, 2100.0),
        ("B", None, 1100.0),
        ("C", None, 1260.0),
        ("P2", 1500.0, None, 2300.0),
        ("T2", None, None, last_mm),
    )


def codes(result: Any) -> list[str]:
    return [finding.code for finding in result.findings]


def test_a_run_inside_the_limit_is_shared_out_by_set_ups(small: Any) -> None:
    result = small.levelled([demonstration(small, 1100.0)], {"T1": 100_000.0, "T2": 98_050.0})
    (book,) = result.level_books
    assert [row.level_mm for row in book.rows] == [100000, 101211, 99651, 98851, 98691, 97651, 98051]
    assert book.misclosure_mm == 1.0
    assert book.limit_mm == pytest.approx(8.660254, abs=1e-6)
    assert book.setups == 3
    assert book.shared_out
    assert [row.setup for row in book.rows] == [1, 1, 1, 2, 2, 2, 3]
    assert [row.correction_mm for row in book.rows] == pytest.approx([0, -1 / 3, -1 / 3, -2 / 3, -2 / 3, -2 / 3, -1])
    assert result.point("A").level_mm == pytest.approx(101_211 - 1 / 3)
    assert result.point("C").level_mm == pytest.approx(98_691 - 2 / 3)
    assert result.point("A").levelled_by == LevelSource(LevelledBy.BOOK, "Rear")
    assert book.rows[-1].adjusted_mm == pytest.approx(98_050.0)


def test_sums_and_checks_stand_at_the_foot(small: Any) -> None:
    (book,) = small.levelled([demonstration(small, 1100.0)], {"T1": 100_000.0, "T2": 98_050.0}).level_books
    assert (book.sum_backsights_mm, book.sum_foresights_mm) == (3551.0, 5500.0)
    assert book.sum_rises_mm - book.sum_falls_mm == -1949.0
    assert len(book.checks) == 4
    assert all(check.holds for check in book.checks)
    assert [row.collimation_mm for row in book.rows] == [101751, 101751, 99951, 99951, 99951, 99151, 99151]
    assert book.working[1].figures[0].status.value == "M"


def test_the_limit_is_the_rulebooks_and_over_it_nothing_is_shared_out(small: Any) -> None:
    result = small.levelled([demonstration(small, 1110.0)], {"T1": 100_000.0, "T2": 98_050.0})
    (book,) = result.level_books
    assert book.misclosure_mm == -9.0
    assert not book.shared_out
    assert all(row.correction_mm == 0.0 for row in book.rows)
    (finding,) = [found for found in result.findings if found.code == "survey.misclosure"]
    assert finding.severity is Severity.STOP
    assert finding.message.endswith("observe again.")
    assert "9 mm below the known level of T2" in finding.message
    assert finding.figure.key == "survey.misclosure_per_setup_mm"


def test_a_run_that_closes_on_nothing_is_told(small: Any) -> None:
    result = small.levelled([demonstration(small, 1110.0)], {"T1": 100_000.0})
    (book,) = result.level_books
    assert book.misclosure_mm is None
    assert book.limit_mm is None
    (finding,) = [found for found in result.findings if found.code == "survey.book_not_closed"]
    assert finding.severity is Severity.CHECK


def test_one_set_up_is_not_corrected_for_its_misclosure(small: Any) -> None:
    rows = small.book("One", ("T1", 1000.0), ("A", None, 1200.0), ("T1", None, None, 1002.0))
    result = small.levelled([rows], {"T1": 10_000.0})
    assert result.level_books[0].misclosure_mm == -2.0
    assert not result.level_books[0].shared_out
    assert result.point("A").level_mm == 9_800.0


def test_books_may_stand_in_any_order(small: Any) -> None:
    second = small.book("Second", ("P1", 1000.0), ("B", None, 1500.0), ("P1", None, None, 1000.0))
    first = small.book("First", ("T1", 1400.0), ("P1", 1100.0, None, 1200.0), ("T1", None, None, 1300.0))
    result = small.levelled([second, first], {"T1": 50_000.0})
    assert [book.name for book in result.level_books] == ["Second", "First"]
    assert result.point("B").level_mm == 50_200 - 500
    assert result.point("B").levelled_by == LevelSource(LevelledBy.BOOK, "Second")
    assert not [finding for finding in result.findings if finding.severity is not Severity.CHECK]


@pytest.mark.parametrize("name", ["benchmark", "given", "its height over B"])
def test_a_level_book_may_have_any_name(small: Any, name: str) -> None:
    first = small.book(name, ("T1", 1000.0), ("A", None, 1200.0), ("T1", None, None, 1000.0))
    second = small.book("Second", ("T1", 1500.0), ("A", None, 1707.0), ("T1", None, None, 1500.0))
    result = small.levelled([first, second], {"T1": 10_000.0})
    (twice,) = [finding for finding in result.findings if finding.code == "survey.levelled_twice"]
    assert f"by level book {name} and" in twice.message


def test_a_point_levelled_twice_keeps_the_first_and_tells_the_difference(small: Any) -> None:
    first = small.book("First", ("T1", 1000.0), ("A", None, 1200.0), ("T1", None, None, 1000.0))
    second = small.book("Second", ("T1", 1500.0), ("A", None, 1707.0), ("T1", None, None, 1500.0))
    result = small.levelled([first, second], {"T1": 10_000.0})
    assert result.point("A").level_mm == 9_800.0
    (finding,) = [found for found in result.findings if found.code == "survey.levelled_twice"]
    assert finding.value == -7.0
    assert finding.severity is Severity.CHECK


def test_a_benchmark_passed_on_the_way_keeps_its_level(small: Any) -> None:
    rows = small.book("Run", ("T1", 1000.0), ("T2", None, 1503.0), ("T1", None, None, 1000.0))
    result = small.levelled([rows], {"T1": 10_000.0, "T2": 9_500.0})
    (finding,) = [found for found in result.findings if found.code == "survey.levelled_twice"]
    assert finding.value == -3.0
    assert finding.severity is Severity.NOTE


@pytest.mark.parametrize(
    ("rows", "row", "words"),
    [
        ([("T1", None, 1000.0), ("A", None, None, 1000.0)], 0, "start with a backsight"),
        ([("T1", 1000.0), ("A", None, 1000.0)], 1, "end with a foresight"),
        ([("T1", 1000.0), ("A", 900.0, None, 1000.0)], 1, "hangs on the last row"),
        ([("T1", 1000.0), ("A",), ("B", None, None, 1000.0)], 1, "no reading"),
        ([("T1", 1000.0), ("A", 900.0), ("B", None, None, 1000.0)], 1, "without a foresight"),
        ([("T1", 1000.0), ("A", None, None, 900.0), ("B", None, None, 1000.0)], 1, "read back to the change point"),
        ([("T1", 1000.0), ("A", None, 950.0, 900.0), ("B", None, None, 1000.0)], 1, "beside another reading"),
        ([("T1", 1000.0)], 0, "one row only"),
    ],
)
def test_a_badly_kept_book_is_told_row_by_row(small: Any, rows: list[Any], row: int, words: str) -> None:
    with pytest.raises(JobInvalid) as refused:
        small.levelled([small.book("Run", *rows)], {"T1": 10_000.0})
    faults = [fault for fault in refused.value.faults if words in fault.message]
    assert [fault.path for fault in faults] == [f"measurements.level_books.0.rows.{row}"]


def test_a_book_that_starts_from_nowhere_is_told(small: Any) -> None:
    with pytest.raises(JobInvalid, match="starts on Z, whose level nothing gives"):
        small.levelled([small.book("Run", ("Z", 1000.0), ("A", None, None, 1000.0))], {"T1": 10_000.0})


def test_a_booked_level_that_its_readings_do_not_give_is_told_once(small: Any) -> None:
    rows = small.book(
        "Run",
        ("T1", 1855.0, None, None, 100_000.0),
        ("A", None, 2410.0, None, 99_445.0),
        ("B", None, 1280.0, None, 100_575.4),
        ("P1", 2165.0, None, 995.0, 100_860.0),
        ("C", None, 1720.0, None, 100_415.0),
        ("D", None, 1820.0, None, 100_315.0),
        ("T1", None, None, 3025.0, 100_000.0),
    )
    with pytest.raises(JobInvalid) as refused:
        small.levelled([rows], {"T1": 100_000.0})
    (fault,) = refused.value.faults
    assert fault.path == "measurements.level_books.0.rows.4.booked_level_mm"
    assert "100.415" in fault.message
    assert "101.305" in fault.message
    assert "890 mm" in fault.message


def test_two_levels_for_one_mark_are_refused(small: Any) -> None:
    points = [{**small.square[0], "level_mm": 10_002.0}, *small.square[1:]]
    with pytest.raises(JobInvalid, match=r"given two levels, 10\.000 and 10\.002"):
        small.survey({"points": points, "benchmarks": [{"point": "A", "level_mm": 10_000.0}]})


def test_all_faults_are_told_at_once(small: Any) -> None:
    books = [small.book("One", ("T1", 1000.0)), small.book("Two", ("Z", 1.0), ("A", None, None, 1.0))]
    with pytest.raises(JobInvalid) as refused:
        small.levelled(books, {"T1": 10_000.0}, ground_points=["Nowhere"])
    assert len(refused.value.faults) == 3
