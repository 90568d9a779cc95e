"""What must hold of any job: it goes round as text unchanged, and no room falls over it."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.desk import make_plan
from pavewright.job import JobInvalid, load_document, parse, to_text

NAMES = st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=30).filter(
    lambda name: name.strip()
)
TERRACE = (Path(__file__).parents[2] / "examples" / "l_terrace.json").read_text("utf-8")


@st.composite
def documents(draw):
    """Small sound documents: one rectangle with odd names, sizes and choices."""
    corner_names = draw(st.lists(NAMES.map(str.strip), min_size=4, max_size=4, unique=True))
    wide, deep = draw(st.integers(900, 9000)), draw(st.integers(900, 9000))
    places = [(0, 0), (wide, 0), (wide, deep), (0, deep)]
    return {
        "format": "pavewright.job",
        "version": 1,
        "identity": {
            "job": draw(NAMES),
            "title": draw(st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\x00"), max_size=50)),
            "date": draw(st.dates()).isoformat(),
            "locality": draw(st.sampled_from(["england", "elsewhere"])),
        },
        "measurements": {
            "points": [
                {"name": name, "x_mm": float(x), "y_mm": float(y)}
                for name, (x, y) in zip(corner_names, places, strict=True)
            ]
        },
        "areas": [
            {
                "name": draw(NAMES),
                "outline": [{"point": name} for name in corner_names],
                "use": draw(st.sampled_from(["foot", "car", "light_van"])),
                "fall": {"bearing_deg": float(draw(st.integers(0, 359))), "level_at": corner_names[0], "level_mm": 0.0},
                "laying": {
                    "unit": "u",
                    "pattern": draw(st.sampled_from(["stack", "running"])),
                    "joint_mm": float(draw(st.integers(0, 15))),
                    "bearing_deg": float(draw(st.integers(0, 359))),
                    "bedding": draw(st.sampled_from(["mortar_on_concrete", "mortar_on_sub_base", "sand_on_sub_base"])),
                },
            }
        ],
        "units": [
            {
                "name": "u",
                "length_mm": float(draw(st.integers(200, 900))),
                "width_mm": float(draw(st.integers(200, 600))),
                "thickness_mm": 40.0,
                "kg_each": draw(st.floats(0.5, 90.0)),
                "per_pack": draw(st.integers(1, 60)),
                "pack_price_minor": draw(st.integers(0, 100000)),
            }
        ],
        "rates": {"labour_minor_per_hour": draw(st.integers(0, 9000)), "margin_percent": draw(st.floats(0.0, 90.0))},
        "crew": {"people": draw(st.integers(1, 6)), "hours_per_day": draw(st.floats(1.0, 12.0))},
        "calendar": {"start": draw(st.dates(min_value=dt.date(2000, 1, 1), max_value=dt.date(2100, 1, 1))).isoformat()},
    }


@settings(max_examples=40, deadline=None)
@given(documents())
def test_a_job_goes_round_as_text_unchanged(document):
    job = parse(load_document(json.dumps(document)))
    assert parse(load_document(to_text(job))) == job


@settings(max_examples=40, deadline=None)
@given(documents())
def test_every_small_job_is_planned_and_its_sums_agree(document):
    made = make_plan(json.dumps(document))
    laid, area = made.laying.areas[0], made.survey.site.areas[0]
    assert abs(laid.paved_m2 + laid.joint_m2 - area.shape.area_m2) < 1e-6
    assert laid.units_least <= laid.units_with_offcuts <= laid.units_each_cut_new
    assert made.cost.prime_minor == sum(line.amount_minor for line in made.cost.lines)
    assert (
        abs(sum(each.area_m2 for each in made.water.catchments) - area.gross.area_m2) < 1e-3
        or not made.water.catchments
    )


@settings(max_examples=60, deadline=None)
@given(st.integers(0, len(TERRACE) - 1), st.sampled_from(["", "0", "-", '"', "}", "[", "9e9", "null", "\u202e", "A"]))
def test_a_spoilt_file_is_refused_with_sentences_or_planned_but_never_falls_over(place, sign):
    spoilt = TERRACE[:place] + sign + TERRACE[place + 1 :]
    try:
        make_plan(spoilt)
    except JobInvalid as invalid:
        assert all(fault.message for fault in invalid.faults)
