import tomllib
from pathlib import Path

import pytest

from pavewright.catalogue import CaseFault, verify_cases

FILES = sorted(Path(__file__).parent.glob("*.toml"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_published_answer_comes_out(path):
    rows = verify_cases(tomllib.loads(path.read_text("utf-8")))
    assert rows
    assert [row for row in rows if not row.holds] == []


def case(**changes):
    told = {
        "name": "n",
        "source": "common practice",
        "status": "C",
        "sum": "two-tape-intersection",
        "inputs": {},
        "printed": {},
    }
    return {"case": [told | changes]}


def test_a_case_that_should_be_refused_and_is_not_fails():
    sound = tomllib.loads(FILES[0].read_text("utf-8"))["case"][0]
    (row,) = verify_cases({"case": [sound | {"expect": "refused", "why": "to see it fail"}]})
    assert not row.holds


def test_a_trap_needs_its_reason():
    with pytest.raises(CaseFault, match="reason"):
        verify_cases(case(expect="differs"))


@pytest.mark.parametrize("document", [{}, {"case": []}])
def test_a_file_without_cases_proves_nothing(document):
    with pytest.raises(CaseFault, match="no case"):
        verify_cases(document)


def test_a_case_without_a_printed_answer_proves_nothing():
    with pytest.raises(CaseFault, match="no printed answer"):
        verify_cases(case())


def test_a_trap_with_a_misspelt_input_is_not_taken_for_a_refusal():
    with pytest.raises(CaseFault, match="unknown inputs"):
        verify_cases(case(expect="refused", why="a slip of the pen", inputs={"baze_mm": 1}))
