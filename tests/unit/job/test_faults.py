"""Every way to go wrong gets its sentence, its place, and exit code 2."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import get_args

import pydantic
import pytest
from pydantic_core.core_schema import ErrorType
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.desk import make_plan
from pavewright.job import JobInvalid, load_document, parse
from pavewright.job._migrate import migrated
from pavewright.job._read import _SENTENCES

ROOT = Path(__file__).parents[3]
TERRACE = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
DRIVE = json.loads((ROOT / "examples" / "front_drive.json").read_text("utf-8"))


def corners(document, places):
    """Replace the measurements by plain coordinates of a one-area job."""
    document["measurements"] = {"points": [{"name": n, "x_mm": x, "y_mm": y} for n, (x, y) in places.items()]}
    document["site"] = {}
    document["areas"][0] |= {
        "outline": [{"point": n} for n in places if not n.startswith("H")],
        "fall": {"bearing_deg": 0.0, "level_at": "A", "level_mm": 1000.0},
        "edges": [],
    }
    document["areas"][0]["laying"] |= {"along": None, "origin": None}
    document["areas"][0]["laying"] = {k: v for k, v in document["areas"][0]["laying"].items() if v is not None}
    document.pop("as_laid", None)


def metres(d):
    corners(d, {"A": (0, 0), "B": (6, 0), "C": (6, 4), "D": (0, 4)})


def tapes_in_metres(d):
    for tape in d["measurements"]["tape_plan"]["tapes"]:
        tape["length_mm"] /= 1000.0


def crossing(d):
    corners(d, {"A": (0, 0), "B": (6000, 0), "C": (0, 4000), "D": (6000, 4000)})


def hole_outside(d):
    corners(
        d,
        {
            "A": (0, 0),
            "B": (6000, 0),
            "C": (6000, 4000),
            "D": (0, 4000),
            "H1": (7000, 0),
            "H2": (8000, 0),
            "H3": (7000, 900),
        },
    )
    d["areas"][0]["holes"] = [[{"point": "H1"}, {"point": "H2"}, {"point": "H3"}]]


def triangle_rule(d):
    d["measurements"]["tape_plan"]["tapes"] = [
        {"start": "A", "end": "B", "length_mm": 6080.0},
        {"start": "A", "end": "C", "length_mm": 2000.0},
        {"start": "B", "end": "C", "length_mm": 3000.0},
        {"start": "A", "end": "D", "length_mm": 4900.0},
        {"start": "B", "end": "D", "length_mm": 7800.0},
        {"start": "A", "end": "Lid", "length_mm": 5700.0},
        {"start": "B", "end": "Lid", "length_mm": 3500.0},
    ]


def book_does_not_add_up(d):
    rows = d["measurements"]["level_books"][0]["rows"]
    rows[1]["booked_level_mm"] = 9000.0


def book_without_foresight(d):
    d["measurements"]["level_books"][0]["rows"][-1] = {"point": "BM", "intermediate_mm": 1000.0}


def no_benchmark(d):
    d["measurements"]["benchmarks"] = []


def twice(d):
    d["measurements"]["points"].append(copy.deepcopy(d["measurements"]["points"][0]))


def two_areas(d):
    d["areas"].append(copy.deepcopy(d["areas"][0]))


def negative_pack(d):
    d["units"][0]["per_pack"] = -20


def no_unit(d):
    d["areas"][0]["laying"]["unit"] = "Slate"


def no_wall(d):
    d["areas"][0]["fall"]["away_from"] = "Barn"


def two_ways(d):
    d["areas"][0]["fall"]["bearing_deg"] = 10.0


def half_a_level(d):
    d["areas"][0]["fall"]["level_at"] = "A"


def nowhere(d):
    d["areas"][0]["laying"]["origin"] = "Z"


def no_outfall(d):
    d["site"]["channels"][0]["outfall"] = "Ditch"


def cement_by_the_metre(d):
    d["rates"]["materials"][0]["pack_unit"] = "m"


def no_corner(d):
    d["areas"][0]["edges"].append({"corner": "IC1", "restraint": "kerb"})


def strange_step(d):
    d["steps"] = [{"name": "S", "upper_area": "Terrace", "lower_area": "Lawn", "corner": "Q"}]


def reading_nowhere(d):
    d["as_laid"]["readings"][0]["area"] = "Lawn"


def no_base(d):
    del d["measurements"]["tape_plan"]["base_to"]


CASES = [
    (TERRACE, no_base, "Other end of the tape base is missing"),
    (TERRACE, metres, "looks like metres. Write millimetres, 6000"),
    (TERRACE, tapes_in_metres, "looks like metres"),
    (TERRACE, crossing, "check the order of the corners"),
    (TERRACE, hole_outside, "lies outside the outline"),
    (DRIVE, triangle_rule, "do not meet over"),
    (TERRACE, book_without_foresight, "foresight"),
    (TERRACE, no_benchmark, "benchmark"),
    (TERRACE, twice, "BM"),
    (TERRACE, two_areas, "two of area Terrace"),
    (TERRACE, negative_pack, "Number in a pack of Flag 600 is -20"),
    (TERRACE, no_unit, "Slate, which is not among the units"),
    (TERRACE, no_wall, "Barn, which is no wall"),
    (TERRACE, two_ways, "keep one of the two"),
    (TERRACE, half_a_level, "level_mm for the level"),
    (TERRACE, nowhere, "names point Z, which is not measured"),
    (TERRACE, no_outfall, "say where it goes"),
    (TERRACE, cement_by_the_metre, "cement is ordered by kg, not by m"),
    (TERRACE, no_corner, "none of its corners"),
    (TERRACE, strange_step, "Lawn, which is no area"),
    (TERRACE, reading_nowhere, "name the area that was read on"),
]


@pytest.mark.parametrize(("base", "spoil", "words"), CASES, ids=lambda each: getattr(each, "__name__", ""))
def test_bad_input_gets_its_sentence_its_place_and_exit_2(base, spoil, words, tmp_path):
    document = copy.deepcopy(base)
    spoil(document)
    with pytest.raises(JobInvalid) as caught:
        make_plan(json.dumps(document))
    assert any(words in fault.message for fault in caught.value.faults), caught.value.faults
    assert all(fault.path for fault in caught.value.faults)
    path = tmp_path / "job.json"
    path.write_text(json.dumps(document), "utf-8")
    answer = CliRunner().invoke(main, ["plan", str(path)])
    assert answer.exit_code == 2
    assert words in answer.stderr


def test_a_level_worked_out_wrong_on_site_is_told_and_nothing_is_lost():
    document = copy.deepcopy(TERRACE)
    book_does_not_add_up(document)
    try:
        messages = [finding.message for finding in make_plan(json.dumps(document)).findings]
    except JobInvalid as invalid:
        messages = [fault.message for fault in invalid.faults]
    assert any("9.000" in message for message in messages)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b'{"format": "pavewright.job", "version": 1, "x": NaN}', "NaN"),
        (b" " * 50_000_000, "at most 5000000"),
        (b"[" * 5000 + b"]" * 5000, "brackets deep"),
        (b'{"format": "pavewright.job"', "bracket, comma or quotation mark"),
        (b"\xff\xfe\x00", "UTF-8"),
    ],
)
def test_what_is_no_document_gets_a_sentence_and_exit_2(content, words, tmp_path):
    path = tmp_path / "job.json"
    path.write_bytes(content)
    answer = CliRunner().invoke(main, ["plan", str(path)])
    assert answer.exit_code == 2
    assert words in answer.stderr


def test_a_file_that_is_not_there_gets_a_sentence_and_exit_2(tmp_path):
    answer = CliRunner().invoke(main, ["plan", str(tmp_path / "none.json")])
    assert answer.exit_code == 2
    assert "cannot be read" in answer.stderr


def test_faults_across_the_document_come_all_at_once():
    document = copy.deepcopy(TERRACE)
    for spoil in (no_unit, two_ways, no_outfall, reading_nowhere):
        spoil(document)
    with pytest.raises(JobInvalid) as caught:
        parse(document)
    assert len(caught.value.faults) == 4


def test_the_stored_sample_of_every_version_is_still_read():
    for path in sorted((Path(__file__).parent / "samples").glob("version_*.json")):
        assert parse(load_document(path.read_bytes())).areas


def test_the_sizes_of_a_first_version_are_read_by_their_old_names():
    old = load_document((Path(__file__).parent / "samples" / "version_1.json").read_bytes())
    old["units"][0] |= {"joint_least_mm": 6.0, "joint_most_mm": 12.0}
    old["rates"]["changes"] = [{"key": "least_fall", "once_minor": 5, "each_minor": 1}]
    unit = parse(old).units[0]
    assert (unit.joint_min_mm, unit.joint_max_mm) == (6.0, 12.0)
    assert parse(old).rates.changes[0].key == "min_fall"
    assert "joint_least_mm" in old["units"][0], "the old document is left alone"


def test_migrations_lead_on_step_by_step_and_leave_the_old_document_alone():
    old = {"version": 0, "size": 6}
    steps = {0: lambda d: {**d, "size_m": d["size"]}, 1: lambda d: {**d, "size_mm": d["size_m"] * 1000}}
    assert migrated(old, 2, steps) == {"version": 2, "size": 6, "size_m": 6, "size_mm": 6000}
    assert old == {"version": 0, "size": 6}
    present = {"version": 2}
    assert migrated(present, 2, steps) is present


def test_a_made_up_version_zero_is_read_once_it_has_a_migration():
    old = {**copy.deepcopy(TERRACE), "version": 0, "places": TERRACE["areas"]}
    del old["areas"]

    def rename(document):
        return {**{key: value for key, value in document.items() if key != "places"}, "areas": document["places"]}

    assert parse(migrated(old, 1, {0: rename})) == parse(TERRACE | {"version": 1})


@pytest.mark.parametrize(
    ("version", "words"),
    [
        (4, "has version 4 and this program reads up to 3: bring the program up to date"),
        (0, "has version 0, which no program ever wrote"),
        (True, "takes a whole number"),
        ("2", "takes a whole number"),
        (None, "takes a whole number"),
        (2.0, "takes a whole number"),
    ],
)
def test_a_version_that_cannot_be_read_gets_a_sentence(version, words):
    with pytest.raises(JobInvalid) as caught:
        migrated({"version": version}, 3, {1: dict, 2: dict})
    (fault,) = caught.value.faults
    assert fault.path == "version"
    assert words in fault.message


KINDS_THAT_CANNOT_ARISE = {
    # the document is JSON text, read strictly into models, enums, numbers, words, dates, lists and literals
    "arguments", "bytes", "callable", "complex", "dataclass", "decimal", "default", "frozen", "generator", "get_attribute",
    "invalid_key", "is_instance", "is_subclass", "iter", "iteration", "json", "keyword", "mapping", "missing_argument",
    "missing_sentinel", "missing_keyword", "missing_positional", "mixed", "model_attributes", "multiple", "multiple_argument",
    "named", "needs", "no_such", "none", "not", "positional", "recursion", "set", "string_not_ascii", "time", "timezone",
    "tuple_item", "typed", "unexpected", "union", "url", "uuid", "value", "assertion", "datetime", "dict", "date_future",
    "date_past", "float_parsing", "int_parsing", "bool_parsing", "string_sub_type", "string_unicode",
    "list_type", "multiple_of", "model_dataclass", "frozen_set", "iterable", "ordered", "counter", "deque", "ellipsis", "fraction",
}  # fmt: skip


def test_every_kind_of_field_fault_that_can_arise_has_a_sentence_of_our_own():
    for kind in get_args(ErrorType):
        impossible = any(kind == each or kind.startswith(f"{each}_") for each in KINDS_THAT_CANNOT_ARISE)
        assert kind in _SENTENCES or impossible, f"{kind} has no sentence"


@pytest.mark.parametrize("number", ["1e999", "-1e999", "1" * 400, "1" * 5000, "0." + "1" * 3000])
def test_numbers_beyond_all_measure_get_a_sentence(number):
    text = json.dumps(TERRACE).replace('"per_pack": 20', f'"per_pack": {number}')
    with pytest.raises(JobInvalid) as caught:
        make_plan(text)
    assert all(fault.message and "Input" not in fault.message for fault in caught.value.faults)


def test_no_sentence_speaks_the_library_s_english():
    document = copy.deepcopy(TERRACE)
    document["units"][0] = {
        "name": 5,
        "kind": "brick",
        "length_mm": "600",
        "width_mm": 1e9,
        "per_pack": 1.5,
        "extra": 1,
    }
    document["calendar"]["start"] = "soon"
    document["areas"] = {}
    with pytest.raises(JobInvalid) as caught:
        parse(document)
    reported = " ".join(fault.message for fault in caught.value.faults)
    assert "Input should" not in reported and "valid" not in reported
    assert len(caught.value.faults) >= 8
    assert pydantic.VERSION
