import tomllib
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.catalogue import SUMS, CaseFault, Standing, case_records, proofs, verify_cases

FILES = sorted(Path(__file__).parent.glob("*.toml"))
MIN_PRINTED = 323
NOTHING_PRINTED = frozenset(
    {
        "ballast-concrete",
        "bay-twist",
        "bed-by-bags",
        "car-sag",
        "chain-of-lines",
        "corners-of-slab",
        "dish-on-a-fall",
        "drain-fall-read",
        "edge-concrete",
        "ellipse-by-string",
        "equivalent-age",
        "floor-numbers",
        "gap-of-a-curve",
        "gullies-wanted",
        "gutter-outlet",
        "hours-at-end",
        "layer-off-level",
        "level-below-dpc",
        "level-between-readings",
        "level-channel",
        "level-field-test",
        "line-despite-mistakes",
        "lip-across-a-fall",
        "lip-limit",
        "loose-for-compacted",
        "modular-overhang",
        "movement-of-a-place",
        "movement-of-marks",
        "pack-coverage",
        "place-from-photo",
        "plane-despite-mistakes",
        "reading-at-hold",
        "ring-in-dig",
        "saw-dust-time",
        "slope-by-percent",
        "slope-by-turning",
        "soakaway-size",
        "spending-curve",
        "square-offset-error",
        "staff-to-show",
        "standing-water-chance",
        "string-sag",
        "tap-sinks",
        "tape-chain",
        "tape-corrections",
        "three-four-five-error",
        "two-peg-test-on-levels",
        "two-tapes-error",
        "two-way-fall",
        "whole-millimetres",
        "where-to-tap",
    }
)
"""Sums with which nothing printed agrees yet; a sum leaves the list when an example is found.

What is printed only where no stranger can look it up, or from memory, does not count."""


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_published_answer_comes_out(path):
    rows = verify_cases(tomllib.loads(path.read_text("utf-8")), rulebook.sources())
    assert rows
    assert [row for row in rows if not row.holds] == []


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_source_of_a_case_is_a_key_of_the_register(path):
    records = case_records(tomllib.loads(path.read_text("utf-8")), rulebook.sources())
    assert [record.case for record in records if not record.source.key] == []


def test_printed_examples_do_not_get_fewer():
    records = [
        record for path in FILES for record in case_records(tomllib.loads(path.read_text("utf-8")), rulebook.sources())
    ]
    printed = [record for record in records if record.standing in {Standing.PRINTED, Standing.CORRECTED}]
    assert all(record.source.findable for record in printed)
    assert len(printed) >= MIN_PRINTED
    bare = {proof.sum_name for proof in proofs(records, SUMS) if not proof.printed}
    assert bare <= NOTHING_PRINTED


def case(**changes):
    reported = {
        "name": "n",
        "source": "common practice",
        "status": "C",
        "sum": "two-tape-intersection",
        "inputs": {},
        "printed": {},
    }
    return {"case": [reported | changes]}


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
    for reported in tomllib.loads(path.read_text("utf-8"))["case"]:
        for name in reported.get("tolerance", {}):
            left = {key: value for key, value in reported["tolerance"].items() if key != name}
            if all(row.holds for row in verify_cases({"case": [reported | {"tolerance": left}]})):
                idle.append((reported["name"], name))
    assert idle == []


def test_a_full_pipe_takes_the_gravity_of_its_table():
    reported = next(
        each
        for each in tomllib.loads((FILES[0].parent / "water_pipes.toml").read_text("utf-8"))["case"]
        if each["name"].startswith("full bore 900")
    )
    assert all(row.holds for row in verify_cases({"case": [reported]}))
    plain = reported["inputs"] | {"gravity_m_per_s2": 9.81}
    assert not all(row.holds for row in verify_cases({"case": [reported | {"inputs": plain}]}))


def record(**changes):
    reported = {
        "name": "n",
        "source": "book",
        "status": "S",
        "sum": "fall",
        "inputs": {"run_mm": "600", "one_in": "60"},
    }
    reported |= {"printed": {"drop_mm": "10"}} | changes
    book = {"title": "A book", "body": "A press", "find": "ISBN 0", "findable": True}
    return {"sources": {"book": book}, "case": [reported]}


def standing(document):
    (one,) = case_records(document, {})
    return one.standing


def test_a_case_counts_as_printed_only_where_it_was_read_and_can_be_looked_up():
    assert standing(record()) is Standing.PRINTED
    assert standing(record(status="D")) is Standing.WORKED
    unfindable = record()
    unfindable["sources"]["book"] = {"title": "A page"}
    assert standing(unfindable) is Standing.UNFINDABLE
    assert standing(record(expect="differs", why="a slip")) is Standing.CORRECTED


def test_what_was_not_read_is_not_printed():
    with pytest.raises(CaseFault, match="was not read"):
        case_records(record(not_read="the answer"), {})


def test_a_file_of_a_user_carries_its_own_sources():
    (row,) = verify_cases(record())
    assert row.holds
    assert row.source == "A book [S]"


def test_words_instead_of_a_key_work_and_are_marked():
    document = record(source="a book that I once had")
    (row,) = verify_cases(document)
    assert row.holds
    assert "not in the register of sources" in row.source
    assert standing(document) is Standing.UNFINDABLE


@pytest.mark.parametrize(
    ("entry", "fault"),
    [
        ({"title": "A book", "isbn": "0"}, "no entry isbn"),
        ({"body": "A press"}, "no title"),
        ({"title": "A book", "findable": True}, "called findable"),
        ({"title": "A book", "findable": "yes"}, "true or false"),
    ],
)
def test_an_unsound_source_is_refused(entry, fault):
    with pytest.raises(CaseFault, match=fault):
        verify_cases(record() | {"sources": {"book": entry}})


def test_a_source_is_not_described_in_two_ways():
    key, known = next(iter(rulebook.sources().items()))
    with pytest.raises(CaseFault, match="otherwise in the register"):
        verify_cases(record(source=key) | {"sources": {key: {"title": known.title + "!"}}}, rulebook.sources())


def test_an_entry_that_no_case_has_is_refused():
    with pytest.raises(CaseFault, match="no entry sorce"):
        verify_cases(record(sorce="book"))


def test_a_status_that_is_none_is_refused():
    with pytest.raises(CaseFault, match="status is S, D, C or M"):
        verify_cases(record(status="X"))


@pytest.mark.parametrize(
    ("sum_name", "inputs", "units", "printed"),
    [
        (
            "rain-from-curve",
            {"a": "25.4", "c": "1", "b_min": "0", "duration_min": "1"},
            {"mm_per_h": "in/h"},
            {"mm_per_h": "1.000"},
        ),
        ("excavator-output", {"bucket_m3": "1000"}, {"bucket_m3": "ft3"}, {"m3_per_h": "6796.04"}),
        (
            "slab-weight",
            {"length_mm": "1", "width_mm": "1", "thickness_mm": "1", "density_kg_per_m3": "150"},
            {"length_mm": "ft", "width_mm": "ft", "thickness_mm": "ft", "density_kg_per_m3": "lb/ft3", "kg": "lb"},
            {"kg": "150.000"},
        ),
        (
            "gullies-wanted",
            {"flow_l_s": "3", "each_l_s": "28.316846592"},
            {"flow_l_s": "ft3/s", "spare_l_s": "ft3/s"},
            {"gullies": "3", "spare_l_s": "0.000"},
        ),
    ],
)
def test_units_of_other_countries_are_turned_into_ours(sum_name, inputs, units, printed):
    rows = verify_cases(record(sum=sum_name, inputs=inputs, units=units, printed=printed))
    assert [row for row in rows if not row.holds] == []
