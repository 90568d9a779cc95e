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


@pytest.mark.parametrize("printed", [{"heights_mm": []}, {"heights_mm": [], "other": []}])
def test_a_case_whose_only_printed_answers_are_empty_rows_proves_nothing(printed):
    with pytest.raises(CaseFault, match="no printed answer"):
        verify_cases(case(printed=printed))


def test_a_trap_whose_own_answer_is_empty_proves_nothing():
    with pytest.raises(CaseFault, match="no ours answer"):
        verify_cases(case(expect="differs", why="to see it fail", printed={"x_mm": "1"}, ours={"x_mm": []}))


def cut(printed, loose="5"):
    document = {
        "name": "n",
        "source": "common practice",
        "status": "C",
        "sum": "mortar-mix",
        "inputs": {"volume_m3": "1", "sand_parts": loose},
        "printed": {"cement_kg": printed},
        "tolerance": {"cement_kg": {"cut": True, "reason": "digits cut off"}},
    }
    (row,) = verify_cases({"case": [document]})
    return row.holds


def test_a_figure_whose_digits_are_cut_off_is_never_more_than_ours():
    # 319.2 kg by the rule
    assert cut("319")
    assert not cut("320")
    assert not cut("318")


def test_a_trap_with_a_misspelt_input_is_not_taken_for_a_refusal():
    with pytest.raises(CaseFault, match="unknown inputs"):
        verify_cases(case(expect="refused", why="a slip of the pen", inputs={"baze_mm": 1}))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_tolerance_is_wider_than_the_printed_digits_without_need(path):
    idle = []
    for told in tomllib.loads(path.read_text("utf-8"))["case"]:
        for name in told.get("tolerance", {}):
            left = {key: value for key, value in told["tolerance"].items() if key != name}
            if all(row.holds for row in verify_cases({"case": [told | {"tolerance": left}]})):
                idle.append((told["name"], name))
    assert idle == []


def test_a_full_pipe_takes_the_gravity_of_its_table():
    told = next(
        each
        for each in tomllib.loads((FILES[0].parent / "water_pipes.toml").read_text("utf-8"))["case"]
        if each["name"].startswith("full bore 900")
    )
    assert all(row.holds for row in verify_cases({"case": [told]}))
    plain = {key: value for key, value in told["inputs"].items() if key != "gravity_m_per_s2"}
    assert not all(row.holds for row in verify_cases({"case": [told | {"inputs": plain}]}))
