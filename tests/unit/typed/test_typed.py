"""Lengths and falls as people type them: what is clear is taken, what is not is asked, what is written reads back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pavewright.typed import USUAL_MM, FallUnit, LengthKind, fall_typed, length_typed
from pavewright.units import metres_text, mm_to_feet_and_inches

KINDS = st.sampled_from(list(LengthKind))


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("6000", 6000.0),
        ("6.0 m", 6000.0),
        ("6m", 6000.0),
        ("600cm", 6000.0),
        ("19' 8 1/2\"", 6007.1),
        ("19ft 8in", 5994.4),
        ('6 1/4"', 158.75),
        ("1/2 in", 12.7),
        ("6,000", 6000.0),
        ("6 m 20 cm", 6200.0),
    ],
)
def test_what_says_its_unit_or_is_usual_is_taken(text, value):
    assert length_typed(text).value == pytest.approx(value)
    assert length_typed(text).choices == ()


@pytest.mark.parametrize("text", ["6.0", "6", "29", "29.9", "100001", "1.235"])
def test_a_length_of_site_that_may_be_another_unit_is_asked(text):
    found = length_typed(text)
    assert found.value is None
    assert found.choices


def test_a_small_length_is_not_asked_where_small_ones_are_usual():
    assert length_typed("10", LengthKind.JOINT).value == 10.0
    assert length_typed("2.5", LengthKind.JOINT).value == 2.5
    assert length_typed("40", LengthKind.THICKNESS).value == 40.0
    assert length_typed("60", LengthKind.JOINT).value is None


def test_a_level_in_metres_among_levels_in_millimetres_is_asked():
    assert [value for _, value in length_typed("10.150", LengthKind.LEVEL).choices] == pytest.approx([10.15, 10_150.0])
    assert length_typed("10150", LengthKind.LEVEL, 10_000.0).value == 10_150.0
    assert length_typed("1015", LengthKind.LEVEL, 10_000.0).value is None
    assert length_typed("1015", LengthKind.LEVEL).value == 1015.0


@pytest.mark.parametrize("text", ["", "four", "1/0 in", "6 ft 1/0 in", "1.2.3", "6e3", "m", "9" * 90, "--6"])
def test_what_is_no_length_is_none(text):
    assert length_typed(text).value is None
    assert length_typed(text).choices == ()


@given(st.integers(-9_000_000, 9_000_000), KINDS)
def test_a_length_with_its_unit_reads_back_whatever_is_asked(value, kind):
    for text in (f"{value} mm", f"{value / 10} cm", f"{metres_text(value)} m"):
        assert length_typed(text, kind).value == pytest.approx(value, abs=1e-6)


@given(st.integers(0, 200_000))
def test_feet_and_inches_as_the_program_writes_them_read_back(sixteenths):
    value = sixteenths * 25.4 / 16
    assert length_typed(mm_to_feet_and_inches(value, 16)).value == pytest.approx(value, abs=1e-6)


@given(st.text(alphabet="0123456789.,'\" /-mcftin\N{MINUS SIGN}", max_size=14), KINDS)
def test_an_answer_is_clear_or_asked_or_neither_and_a_choice_is_then_clear(text, kind):
    found = length_typed(text, kind)
    assert found.value is None or not found.choices
    for words, value in found.choices:
        assert length_typed(words, kind).value == pytest.approx(value)


@given(st.floats(0.001, 100_000.0), KINDS)
def test_a_bare_number_is_never_taken_outside_of_what_is_usual(value, kind):
    found = length_typed(f"{value:.3f}", kind).value
    low, high, _ = USUAL_MM[kind]
    assert found is None or found == 0.0 or low <= found <= high


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("1:60", FallUnit.ONE_IN, 60.0),
        ("1 in 60", FallUnit.ONE_IN, 60.0),
        ("1/80", FallUnit.ONE_IN, 80.0),
        ("2 %", FallUnit.ONE_IN, 50.0),
        ("1:50", FallUnit.PERCENT, 2.0),
        ("12 mm/m", FallUnit.PERCENT, 1.2),
        ("2", FallUnit.PERCENT, 2.0),
        ("80", FallUnit.ONE_IN, 80.0),
    ],
)
def test_falls_are_read_in_any_unit(text, unit, value):
    assert fall_typed(text, unit).value == pytest.approx(value)


def test_a_fall_that_looks_like_another_unit_is_asked():
    assert [text for text, _ in fall_typed("60", FallUnit.PERCENT).choices] == ["60 %", "1 in 60"]
    assert [text for text, _ in fall_typed("2", FallUnit.ONE_IN).choices] == ["1 in 2", "2 %"]
    assert fall_typed("0 %", FallUnit.ONE_IN).value is None
