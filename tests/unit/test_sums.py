"""What a sum refuses whatever it works out: inputs of another kind, numbers beyond measure, answers that are none."""

from __future__ import annotations

import pytest

from pavewright import rulebook
from pavewright.catalogue import SUMS, find
from pavewright.desk import SCREEN_VERBS, ScreenRefusalError
from pavewright.sums import Quantity, Sum, SumRefusedError

ROWS = Sum(
    "rows", "Rows", (Quantity("some_mm", "mm", "lengths", "numbers"), Quantity("names", "", "names", "words", ("-",))),
    (Quantity("total_mm", "mm", "all of them"),), "sum", "definition", lambda some_mm, names: {"total_mm": 1.0 / (sum(some_mm) - 6.0)},
)  # fmt: skip


@pytest.mark.parametrize(("kind", "value"), [("number", "5"), ("number", True), ("number", (5.0,)), ("word", 5.0)])
def test_an_input_of_another_kind_is_refused(kind, value):
    one = Sum(
        "one", "One", (Quantity("it", "", "it", kind),), (Quantity("same", "", "it", kind),), "it", "definition",
        lambda it: {"same": it},
    )  # fmt: skip
    with pytest.raises(SumRefusedError, match="it takes one"):
        one.run({"it": value})


def test_a_default_beside_a_figure_of_the_rulebook_is_that_figure():
    rules = rulebook.load("common")
    apart = [
        (entry.name, each.name)
        for entry in SUMS
        for each in entry.inputs
        if each.figure and each.default is not None and each.default != rules.value(each.figure)
    ]
    assert apart == []


@pytest.mark.parametrize("entry", [None, "1", True, (), [1.0], {"a": 1}])
def test_a_row_of_numbers_holds_numbers_only(entry):
    with pytest.raises(SumRefusedError, match="some_mm takes a row of numbers; entry 2 is"):
        ROWS.run({"some_mm": (1.0, entry)})


@pytest.mark.parametrize("entry", [None, 1.0, True, (), {"a": 1}])
def test_a_row_of_words_holds_words_only(entry):
    with pytest.raises(SumRefusedError, match="names takes a row of words; entry 1 is"):
        ROWS.run({"some_mm": (1.0,), "names": (entry,)})


@pytest.mark.parametrize("value", [1e16, -1e300, 10**40])
def test_a_number_beyond_measure_is_refused_before_it_is_used(value):
    with pytest.raises(SumRefusedError, match="larger than any measure"):
        ROWS.run({"some_mm": (value,)})


def test_a_division_by_zero_is_no_fault_of_the_program():
    assert ROWS.run({"some_mm": (1.0, 6.0)}) == {"total_mm": 1.0}
    with pytest.raises(SumRefusedError, match="beyond every measure"):
        ROWS.run({"some_mm": (1.0, 2.0, 3.0)})


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("dished-channel", {"width_mm": 1e12, "dish_mm": 1000.0, "water_mm": 10.0, "one_in": 1e12, "n": 1.0}),
        ("car-crest", {"room_mm": 1.0, "wheelbase_mm": 1e300, "change_percent": 2.0}),
        (
            "standing-water-chance",
            {
                "one_in": 60.0,
                "run_mm": 3000.0,
                "width_mm": 10.0,
                "slab_mm": 0.01,
                "corner_sd_mm": 1.0,
                "depth_mm": 3.0,
                "runs": 1000.0,
                "seed": 1.0,
            },
        ),
        ("kerb-channel", {"spread_mm": 2.0, "cross_percent": 1e300, "one_in": 1e9, "n": 1.0}),
    ],
)
def test_sums_of_the_register_refuse_what_nobody_measures(name, given):
    with pytest.raises(SumRefusedError):
        find(name).run(given)


def test_a_page_gets_a_sentence_for_a_row_of_nothing():
    with pytest.raises(ScreenRefusalError, match="takes"):
        SCREEN_VERBS["sum"](b'{"name": "level-book", "given": {"backsights_mm": [null, [1]]}}', lambda _: None)
