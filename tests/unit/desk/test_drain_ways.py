"""What drains to a gully, channel or outfall, and what each option changes."""

from __future__ import annotations

import pytest

from pavewright import rulebook
from pavewright.desk._drain_ways import Asked, drain_ways


@pytest.fixture
def patio(small):
    """Return a patio of 6.0 × 4.0 m that falls to a border, with a new gully in its middle that leads nowhere yet."""
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    small.point("G", 3000.0, 2500.0)
    small.site["outfalls"] = [
        {"name": "Rose bed", "kind": "border", "confirmed": True},
        {"name": "Drain", "kind": "surface_water_sewer", "confirmed": True},
    ]
    small.site["gullies"] = [{"name": "Gully 1", "point": "G", "state": "new"}]
    return small


def asked(small, kind, name):
    return drain_ways(small.job(), rulebook.load("england"), kind, name)


def test_a_gully_shows_what_reaches_it_and_what_folding_to_it_changes(patio):
    told = asked(patio, Asked.GULLY, "Gully 1")
    assert told["drains"]["reaches_m2"] == pytest.approx(0.15 * 2.425)
    assert told["drains"]["whole_m2"] == pytest.approx(24.0)
    fold = told["choices"][0]
    assert {each["path"]: each["value"] for each in fold["changes"]}["areas.0.fall.folding"] == "crossed_valley"
    assert fold["drains"]["reaches_m2"] > 0.95 * 24.0
    assert fold["levels"]
    assert all(each["was_mm"] != each["now_mm"] for each in fold["levels"])
    assert told["choices"][-1]["answer"]
    assert told["choices"][-1]["drains"] is None


def test_an_outfall_is_offered_the_drains_that_lead_nowhere(patio):
    told = asked(patio, Asked.OUTFALL, "Drain")
    assert told["drains"] == {"reaches_m2": 0, "whole_m2": pytest.approx(24.0)}
    (lead,) = told["choices"]
    assert lead["drains"]["reaches_m2"] == pytest.approx(0.15 * 2.425)


def test_a_gully_away_from_the_paving_has_nothing_to_ask(patio):
    patio.point("Far", 3000.0, 9000.0)
    patio.site["gullies"][0]["point"] = "Far"
    assert asked(patio, Asked.GULLY, "Gully 1") == {"drains": None, "choices": []}


def test_a_channel_along_the_low_edge_counts_as_what_reaches_a_drain(patio):
    told = asked(patio, Asked.GULLY, "Gully 1")
    (along,) = [each for each in told["choices"] if any(change["value"] == "Channel 1" for change in each["changes"])]
    # the strip over the grating still runs to the gully, the rest to the channel
    assert along["drains"]["reaches_m2"] == pytest.approx(24.0, abs=0.05)


def test_options_that_leave_it_dry_are_not_offered(patio):
    told = asked(patio, Asked.GULLY, "Gully 1")
    assert not any(change["path"].endswith(".point") for each in told["choices"] for change in each["changes"])
