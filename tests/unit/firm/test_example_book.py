"""The book of the invented firm prices a job that says no price of its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from pavewright import firm
from pavewright.cost import TaskKind
from pavewright.desk import make_plan, make_plan_so_far
from pavewright.job import load_document, parse
from pavewright.quantities import GapReason

FOLDER = Path(__file__).parents[3] / "examples" / "firm"


@pytest.fixture(scope="module")
def book() -> bytes:
    return (FOLDER / "book.json").read_bytes()


@pytest.fixture(scope="module")
def job() -> bytes:
    return (FOLDER / "left_to_the_book.json").read_bytes()


def test_every_price_comes_from_the_book_and_none_is_left_out(book, job):
    made = make_plan(job, None, book)
    assert parse(load_document(job)).rates.materials == ()
    assert [gap.words for gap in made.cost.gaps if gap.reason is GapReason.NO_PRICE] == []
    assert all(line.stale is None for line in made.cost.lines)
    lay = next(line for line in made.cost.lines if line.key.kind is TaskKind.LAY)
    assert lay.rate_minor == 2650  # two layers at 31 and 29, a labourer at 23, in equal parts
    assert lay.working.figures[0].source == "own_book"
    assert made.job.rates.overhead_percent == pytest.approx(12.0)


def test_without_the_book_the_same_job_has_no_price_and_not_a_price_of_zero(job):
    made = make_plan_so_far(job)
    assert made.cost is None
    assert "prices" in {each.code for each in made.missing}


def test_overhead_unfolds_to_what_the_firm_pays_in_a_year(book):
    rate = firm.overhead_rate(firm.read(book))
    assert rate is not None
    assert rate.percent == pytest.approx(12.0)
    assert (
        rate.working.expression
        == "(£9\u202f800.00 + £2\u202f650.00 + £5\u202f400.00 + £3\u202f100.00 + £5\u202f450.00) / £220\u202f000.00"
    )
    assert "Insurance £2\u202f650.00" in rate.working.note


def test_the_book_says_that_it_is_invented(book):
    assert firm.read(book).invented
