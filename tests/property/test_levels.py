"""What must hold of finished levels whatever the site looks like."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright import rulebook
from pavewright.job import parse
from pavewright.levels import finished_levels
from pavewright.survey import survey

RULES = rulebook.load("england")


def document(
    *,
    wide_mm: float,
    deep_mm: float,
    skew_mm: float,
    one_in: float,
    cross_one_in: float,
    dpc_mm: float,
    threshold_mm: float,
    cover_mm: float,
    cover_fixed: bool,
    turn_deg: float = 0.0,
    move: tuple[float, float, float] = (0.0, 0.0, 0.0),
) -> dict[str, Any]:
    turn = math.radians(turn_deg)
    corners = {
        "A": (0.0, 0.0),
        "B": (wide_mm, 0.0),
        "C": (wide_mm + skew_mm, deep_mm),
        "D": (0.0, deep_mm),
        "M": (0.5 * wide_mm, 0.5 * deep_mm),
    }
    placed = {
        name: (
            x * math.cos(turn) - y * math.sin(turn) + move[0],
            x * math.sin(turn) + y * math.cos(turn) + move[1],
        )
        for name, (x, y) in corners.items()
    }
    up = move[2]
    return {
        "format": "pavewright.job",
        "version": 1,
        "identity": {"job": "P1", "title": "Test", "date": "2027-05-04", "locality": "england", "invented": True},
        "measurements": {"points": [{"name": n, "x_mm": x, "y_mm": y} for n, (x, y) in placed.items()]},
        "site": {
            "walls": [
                {
                    "name": "House",
                    "start": "A",
                    "end": "B",
                    "dpc_level_mm": dpc_mm + up,
                    "openings": [
                        {
                            "name": "Door",
                            "along_mm": 500.0,
                            "width_mm": 800.0,
                            "threshold_level_mm": threshold_mm + up,
                            "min_step_mm": 40.0,
                        }
                    ],
                }
            ],
            "covers": [
                {
                    "name": "IC",
                    "point": "M",
                    "length_mm": 300.0,
                    "bearing_deg": math.fmod(360.0 - turn_deg, 360.0),
                    "width_mm": 300.0,
                    "level_mm": cover_mm + up,
                    "fixed": cover_fixed,
                }
            ],
        },
        "areas": [
            {
                "name": "Terrace",
                "outline": [{"point": point} for point in "ABCD"],
                "fall": {"away_from": "House", "one_in": one_in, "cross_one_in": cross_one_in},
                "laying": {"unit": "Slab"},
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
                "pack_price_minor": 30000,
            }
        ],
        "rates": {"labour_minor_per_hour": 3000},
        "crew": {"people": 2},
        "calendar": {"start": "2027-06-01"},
    }


def levelled(entered: dict[str, Any]):
    job = parse(entered)
    return finished_levels(job, survey(job, RULES), RULES)


SITES = st.fixed_dictionaries(
    {
        "wide_mm": st.integers(2000, 12000).map(float),
        "deep_mm": st.integers(1500, 9000).map(float),
        "skew_mm": st.integers(-800, 800).map(float),
        "one_in": st.integers(30, 200).map(float),
        "cross_one_in": st.integers(30, 400).map(float),
        "dpc_mm": st.integers(9000, 11000).map(float),
        "threshold_mm": st.integers(9000, 11200).map(float),
        "cover_mm": st.integers(8500, 11000).map(float),
        "cover_fixed": st.booleans(),
    }
)


@settings(max_examples=60, deadline=None)
@given(SITES)
def test_paving_is_never_nearer_to_the_dpc_than_the_rule_without_a_stop(site):
    levels = levelled(document(**site))
    least = min(clearance.min_mm for clearance in levels.area("Terrace").clearances)
    reported = any(finding.code == "levels.too_near_dpc" for finding in levels.findings)
    assert (least < 150.0 - 1e-3) == reported


@settings(max_examples=40, deadline=None)
@given(SITES)
def test_a_cover_or_door_that_is_not_met_is_always_told(site):
    levels = levelled(document(**site))
    area = levels.area("Terrace")
    if site["cover_fixed"]:
        reported = any(finding.code == "levels.cover_clash" for finding in levels.findings)
        (lid,) = survey(parse(document(**site)), RULES).site.covers
        # a lid that may not move lies level: it is missed most at one of its corners
        worst = max(abs(area.plane.level_at(place) - site["cover_mm"]) for place in (lid.at, *lid.outline))
        assert (worst > 5.0 + 1e-3) == reported
    assert area.doors[0].min_mm >= 40.0 - 1e-3 or any(f.code == "levels.door_step_too_small" for f in levels.findings)


@settings(max_examples=30, deadline=None)
@given(SITES, st.floats(0.0, 359.0), st.integers(-50000, 50000), st.integers(-50000, 50000), st.integers(-90000, 90000))
def test_turning_moving_or_another_datum_changes_no_clearance_and_no_fall(site, turn, east, north, up):
    here = levelled(document(**site))
    there = levelled(document(**site, turn_deg=turn, move=(float(east), float(north), float(up))))
    one, other = here.area("Terrace"), there.area("Terrace")
    assert one.plane.fall == pytest.approx(other.plane.fall, abs=1e-9)
    assert [c.level_mm + up for c in one.corners] == pytest.approx([c.level_mm for c in other.corners], abs=1e-2)
    assert sorted(f.code for f in here.findings) == sorted(f.code for f in there.findings)


@settings(max_examples=40, deadline=None)
@given(SITES)
def test_every_stop_tells_a_chain_that_ends_at_the_limit_and_a_way_out(site):
    for finding in levelled(document(**site)).findings:
        if finding.severity.value == "stop":
            assert len(finding.chain) >= 2
            assert finding.option_words
            assert finding.value is not None and finding.limit is not None
