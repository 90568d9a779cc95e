"""A new job begins with the firm's place, money and way of writing."""

from __future__ import annotations

import json

import pytest

from pavewright import rulebook
from pavewright.desk import like_document, starter_document, usual_writing
from pavewright.job import parse, writing_of

US = json.dumps(
    {
        "format": "pavewright.firm",
        "version": 1,
        "currency": "USD",
        "locality": "usa",
        "region": "US",
        "measure": "imperial",
    }
)


def test_a_new_job_takes_place_money_and_writing_of_the_book():
    document = json.loads(starter_document("Patio", US))
    who = document["identity"]
    assert (who["currency"], who["locality"], who["region"], who["measure"]) == ("USD", "usa", "US", "imperial")
    assert who["edition"] == rulebook.load(rulebook.newest("usa")).dated.isoformat()
    assert writing_of(parse(document)).imperial


@pytest.mark.parametrize("book", [None, "", "{}", "not json", '{"format": "pavewright.firm", "version": 1}'])
def test_a_book_that_says_nothing_leaves_a_new_job_as_it_was(book):
    assert json.loads(starter_document("Patio", book))["identity"]["currency"] == "GBP"


def test_a_job_like_another_is_written_as_that():
    other = json.loads(starter_document("Patio", US))
    new = json.loads(like_document(other, "Next"))["identity"]
    assert (new["currency"], new["region"], new["measure"]) == ("USD", "US", "imperial")


def test_how_the_firm_writes_is_read_from_its_book():
    assert usual_writing(US) == {"region": "US", "measure": "imperial"}
    assert usual_writing("") == usual_writing("{") == {}
