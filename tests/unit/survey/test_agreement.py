"""What does not agree with what it has to agree with: planted slips on a small job that is sound without them."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from pavewright import rulebook
from pavewright.findings import Severity
from pavewright.job import JobInvalid, load_document, parse
from pavewright.survey import survey
from pavewright.survey._figures import survey_figures
from pavewright.survey.agreement import disagreements, strangers
from tests.unit.survey.gardens import garden

if TYPE_CHECKING:
    from collections.abc import Callable

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"
Document = dict[str, Any]


def sound() -> Document:
    """Return a patio behind a house with a door, a cover and a grid of spots, read with a staff from 11.400."""
    spots = {f"G{x}{y}": (1500.0 * x, 1500.0 * y) for x in range(5) for y in range(4)}
    read = {
        name: round(1400.0 + x / 120.0 + y / 60.0 + 7.0 * ((3 * x + y) % 2000.0 > 1000.0))
        for name, (x, y) in spots.items()
    }
    rows = [{"point": "BM", "backsight_mm": 1400.0}, {"point": "IC", "intermediate_mm": 1455.0}]
    rows += [{"point": name, "intermediate_mm": float(reading)} for name, reading in read.items()]
    rows += [{"point": "BM", "foresight_mm": 1400.0}]
    corners = {"A": (0.0, 0.0), "B": (6000.0, 0.0), "C": (6000.0, 4000.0), "D": (0.0, 4000.0), "BM": (-500.0, 0.0)}
    places = corners | {"IC": (2000.0, 3300.0)} | spots
    return {
        "format": "pavewright.job",
        "version": 1,
        "identity": {"job": "T", "title": "T", "date": "2026-05-04", "locality": "england", "invented": True},
        "measurements": {
            "points": [{"name": name, "x_mm": x, "y_mm": y} for name, (x, y) in places.items()],
            "benchmarks": [{"point": "BM", "level_mm": 10_000.0}],
            "level_books": [{"name": "Visit", "rows": rows}],
            "ground_points": list(spots),
        },
        "site": {
            "ground": {"soil": "sandy_clay"},
            "walls": [
                {
                    "name": "House",
                    "start": "A",
                    "end": "B",
                    "dpc_level_mm": 10_150.0,
                    "openings": [
                        {"name": "Door", "along_mm": 1500.0, "width_mm": 900.0, "threshold_level_mm": 10_165.0}
                    ],
                    "air_bricks": [{"name": "Vent", "along_mm": 4000.0, "underside_level_mm": 10_075.0}],
                }
            ],
            "covers": [
                {
                    "name": "IC1",
                    "point": "IC",
                    "length_mm": 600.0,
                    "width_mm": 450.0,
                    "level_mm": 9_945.0,
                    "fixed": True,
                }
            ],
        },
        "areas": [
            {
                "name": "Patio",
                "outline": [{"point": name} for name in "ABCD"],
                "laying": {"unit": "Slab"},
                "edges": [{"corner": "A", "restraint": "wall"}, {"corner": "B", "restraint": "edging"}],
            }
        ],
        "units": [
            {
                "name": "Slab",
                "length_mm": 600.0,
                "width_mm": 600.0,
                "thickness_mm": 40.0,
                "kg_each": 33.0,
                "per_pack": 20,
                "pack_price_minor": 30_000,
            }
        ],
        "rates": {
            "labour_minor_per_hour": 3000,
            "materials": [{"key": "cement", "pack_amount": 25.0, "pack_unit": "kg", "pack_price_minor": 640}],
        },
        "crew": {"people": 2},
        "calendar": {"start": "2026-06-01"},
    }


def found(document: Document) -> dict[str, Any]:
    job = parse(document)
    rules = rulebook.load("england")
    return {finding.code: finding for finding in disagreements(job, survey(job, rules), survey_figures(rules))}


def wall(document: Document) -> Document:
    return document["site"]["walls"][0]  # type: ignore[no-any-return]


def row(document: Document, point: str) -> Document:
    return next(each for each in document["measurements"]["level_books"][0]["rows"] if each["point"] == point)


def scaled_places(document: Document, by: float) -> None:
    for point in document["measurements"]["points"]:
        point["x_mm"] *= by
        point["y_mm"] *= by
    document["site"]["walls"][0]["openings"].clear()
    document["site"]["walls"][0]["air_bricks"].clear()


def test_a_sound_job_is_not_asked_about() -> None:
    assert found(sound()) == {}


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.json")), ids=lambda path: path.stem)
def test_no_example_is_asked_about(path: Path) -> None:
    assert found(load_document(path.read_bytes())) == {}


SLIPS: tuple[tuple[str, Callable[[Document], object], str, Severity, tuple[str, ...]], ...] = (
    (
        "damp-proof course a metre high",
        lambda job: wall(job).update(dpc_level_mm=11_150.0),
        "survey.sill_against_dpc",
        Severity.STOP,
        ("11.150", "10.165", "985 mm", "Door", "Read both again", "courses of brick"),
    ),
    (
        "damp-proof course a metre high and no door",
        lambda job: wall(job).update(dpc_level_mm=11_150.0, openings=[], air_bricks=[]),
        "survey.dpc_against_ground",
        Severity.STOP,
        ("11.150", "House", "on the ground below it"),
    ),
    (
        "sill a metre high",
        lambda job: wall(job)["openings"][0].update(threshold_level_mm=11_165.0),
        "survey.sill_against_dpc",
        Severity.CHECK,
        ("10.150", "11.165"),
    ),
    (
        "air brick half a metre low",
        lambda job: wall(job)["air_bricks"][0].update(underside_level_mm=9_575.0),
        "survey.air_brick_against_dpc",
        Severity.STOP,
        ("9.575", "10.150"),
    ),
    (
        "cover off its own reading",
        lambda job: job["site"]["covers"][0].update(level_mm=10_045.0),
        "survey.level_against_reading",
        Severity.STOP,
        ("10.045", "9.945", "level book Visit", "100 mm", "IC"),
    ),
    (
        "cover a little off its own reading",
        lambda job: job["site"]["covers"][0].update(level_mm=9_925.0),
        "survey.level_against_reading",
        Severity.CHECK,
        ("9.925", "9.945"),
    ),
    (
        "reading in centimetres",
        lambda job: row(job, "G22").update(intermediate_mm=146.0),
        "survey.staff_unit",
        Severity.STOP,
        ("Visit", "row 13", "G22", "146", "centimetres", "1460"),
    ),
    (
        "spot misread by a metre",
        lambda job: row(job, "G22").update(intermediate_mm=2476.0),
        "survey.spot_against_neighbours",
        Severity.STOP,
        ("G22", "8.924", "level book Visit", "Read the staff on G22 again"),
    ),
    (
        "spot misread by half a decimetre",
        lambda job: row(job, "G22").update(intermediate_mm=row(job, "G22")["intermediate_mm"] + 50.0),
        "survey.spot_against_neighbours",
        Severity.CHECK,
        ("G22", "too low", "Read the staff on G22 again"),
    ),
    (
        "level in another magnitude",
        lambda job: job["measurements"]["points"].append({"name": "X", "x_mm": 9e3, "y_mm": 9e3, "level_mm": 40_000.0}),
        "survey.level_far_off",
        Severity.STOP,
        ("X", "40.000", "Read it again"),
    ),
    (
        "places in centimetres",
        lambda job: scaled_places(job, 0.1),
        "survey.area_strange",
        Severity.STOP,
        ("Patio", "0.24 m²", "24.0 m²", "centimetres"),
    ),
    (
        "price of a pack in pounds",
        lambda job: job["units"][0].update(pack_price_minor=300),
        "survey.price_strange",
        Severity.STOP,
        ("Slab", "300 pence", "write pence, 30000"),
    ),
    (
        "labour in pounds",
        lambda job: job["rates"].update(labour_minor_per_hour=30),
        "survey.price_strange",
        Severity.STOP,
        ("labour", "write pence, 3000"),
    ),
    (
        "cement in pounds",
        lambda job: job["rates"]["materials"][0].update(pack_price_minor=6),
        "survey.price_strange",
        Severity.STOP,
        ("cement", "write pence, 600"),
    ),
    (
        "start years ago",
        lambda job: job["calendar"].update(start="2019-06-01"),
        "survey.start_date",
        Severity.STOP,
        ("2019-06-01", "2026-05-04", "check the year"),
    ),
    (
        "start before the document",
        lambda job: job["calendar"].update(start="2026-04-01"),
        "survey.start_date",
        Severity.CHECK,
        ("2026-04-01",),
    ),
    (
        "slab in centimetres",
        lambda job: job["units"][0].update(length_mm=60.0, width_mm=60.0, kg_each=0.3),
        "survey.unit_strange",
        Severity.STOP,
        ("Slab", "60 mm", "centimetres", "600"),
    ),
    (
        "outline turned round, sides as they were",
        lambda job: job["areas"][0]["outline"].reverse(),
        "survey.side_strange",
        Severity.CHECK,
        ("Patio", "held by an edging, and a house wall stands along it", "other way round"),
    ),
)


@pytest.mark.parametrize("slip", SLIPS, ids=[slip[0] for slip in SLIPS])
def test_a_slip_is_asked_about_with_what_to_measure_again(
    slip: tuple[str, Callable[[Document], object], str, Severity, tuple[str, ...]],
) -> None:
    _, plant, code, severity, words = slip
    document = copy.deepcopy(sound())
    plant(document)
    reported = found(json.loads(json.dumps(document)))
    assert code in reported, sorted(reported)
    assert reported[code].severity is severity
    for each in words:
        assert each in reported[code].message


def test_a_damp_proof_course_a_little_above_its_sill_is_asked_about() -> None:
    document = sound()
    wall(document)["dpc_level_mm"] = 10_250.0
    wall(document)["air_bricks"][0]["underside_level_mm"] = 10_175.0
    reported = found(document)["survey.sill_against_dpc"]
    assert reported.severity is Severity.CHECK
    assert "85 mm below" in reported.message


def test_all_tapes_in_centimetres_are_said_beside_what_follows_from_them() -> None:
    document = sound()
    for point in document["measurements"]["points"]:
        point["x_mm"] *= 0.1
        point["y_mm"] *= 0.1
    with pytest.raises(JobInvalid, match=r"Patio: 0.24 m² in all. Were all lengths read in centimetres"):
        found(document)


def test_walls_of_one_house_that_do_not_course() -> None:
    document = sound()
    document["site"]["walls"].append({"name": "Wing", "start": "B", "end": "C", "dpc_level_mm": 10_185.0})
    assert found(document)["survey.dpc_between_walls"].value == 35.0
    document["site"]["walls"][-1]["dpc_level_mm"] = 10_225.0
    assert "survey.dpc_between_walls" not in found(document)


KINDS = {"even": (8.0, 4.0, 0.0), "uneven": (25.0, 8.0, 0.0), "rough": (60.0, 20.0, 0.0), "bank": (15.0, 6.0, 500.0)}


@pytest.mark.parametrize("kind", KINDS)
def test_real_gardens_are_left_alone_and_slips_are_found(kind: str) -> None:
    uneven, tufts, bank = KINDS[kind]
    false = found_slips = 0
    for seed in range(20):
        ground = garden(seed, count=16, uneven_mm=uneven, tufts_mm=tufts, bank_mm=bank)
        false += bool(strangers(tuple(ground.spots), 0.02, 25.0))
        slips = strangers(tuple(ground.with_slip(seed % 16, -1215.0)), 0.02, 25.0)
        found_slips += any(each.number == seed % 16 for each in slips)
    assert false <= 1
    assert found_slips >= 19


def banked(slip_mm: float = 0.0) -> Document:
    """Return the sound job with a bank of 600 mm across it, with a break line at its top and one at its foot."""
    document = sound()
    for each in document["measurements"]["level_books"][0]["rows"]:
        if each["point"] in {f"G{x}{y}" for x in range(5) for y in (2, 3)}:
            each["intermediate_mm"] += 600.0
    row(document, "G20")["intermediate_mm"] += slip_mm
    lines = [[f"G{x}{y}" for x in range(5)] for y in (1, 2)]
    document["measurements"]["break_lines"] = [{"points": line} for line in lines]
    return document


def test_a_bank_with_its_break_lines_is_ground_and_not_a_slip() -> None:
    assert "survey.spot_against_neighbours" not in found(banked())
    assert "G20" in found(banked(100.0))["survey.spot_against_neighbours"].place
