"""JSON that a job may hold: finite, whole signs, no field twice; and quick, however it is made."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pavewright.job import JobInvalid, NotJobJsonError, load_document, strict_json

texts = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), max_size=8)
values = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**20), 10**20)
    | st.floats(allow_nan=False, allow_infinity=False)
    | texts,
    lambda more: st.lists(more, max_size=4) | st.dictionaries(texts, more, max_size=4),
    max_leaves=20,
)


@given(values)
def test_what_can_be_written_comes_back(value):
    assert strict_json(json.dumps(value)) == value
    assert strict_json(json.dumps(value, ensure_ascii=False, indent=1)) == value


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('{"a": 1e999}', "not a reading"),
        ('{"a": NaN}', "not a reading"),
        ('{"a": -Infinity}', "not a reading"),
        ('{"a": ' + "9" * 400 + "}", "400 figures"),
        (r'{"a": "\ud83d"}', "half of a sign"),
        (r'{"\udc00": 1}', "half of a sign"),
        (r'["\u0000"]', "half of a sign"),
        ('{"a": 1, "b": 2, "a": 3}', "field a stands twice"),
        ("[" * 41 + "]" * 41, "brackets deep"),
        ('{"a"', "bracket, comma"),
    ],
)
def test_what_cannot_be_stored_and_read_again_is_refused(text, words):
    with pytest.raises(NotJobJsonError, match=words):
        strict_json(text)


def test_a_whole_sign_written_as_two_halves_is_taken():
    assert strict_json(r'"\ud83d\ude00"') == "\U0001f600"


def test_sixty_thousand_fields_with_one_twice_are_looked_through_once():
    text = "{" + ",".join(f'"k{n}": 1' for n in range(60_000)) + ', "k0": 2}'
    with pytest.raises(NotJobJsonError, match="k0 stands twice"):
        strict_json(text)


def test_a_mark_of_the_byte_order_is_passed_over():
    assert load_document("\ufeff{}".encode()) == {}
    with pytest.raises(JobInvalid, match="UTF-8"):
        load_document("{}".encode("utf-16"))
