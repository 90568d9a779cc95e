"""A field that takes one of a few words says so with an enum, so that code compares members and not words."""

import re

from pavewright.job import BookingSlip, schema


def patterns(part, path=""):
    if isinstance(part, dict):
        if isinstance(part.get("pattern"), str):
            yield path, part["pattern"]
        for name, value in part.items():
            yield from patterns(value, f"{path}.{name}")
    elif isinstance(part, list):
        for number, value in enumerate(part):
            yield from patterns(value, f"{path}.{number}")


def test_no_field_takes_its_words_from_a_regular_expression():
    listed = [path for path, pattern in patterns(schema()) if re.search(r"[a-z]{2,}\|", pattern)]
    assert listed == []


def test_every_slip_of_a_level_book_has_one_sentence():
    sentences = [slip.words for slip in BookingSlip]
    assert len(set(sentences)) == len(sentences)
