"""A gully or channel to which no paving falls is reported by itself, with what can be done and what comes of it."""

from __future__ import annotations

import pytest

from pavewright.findings import OptionKind, Severity
from pavewright.levels import finished_levels
from pavewright.pipeline import plan
from pavewright.water import drain


def drained(small):
    job, measured = small.surveyed()
    return drain(job, measured, finished_levels(job, measured, small.rules), small.rules)


def reported(findings, code):
    return [finding for finding in findings if finding.code == code]


@pytest.fixture
def patio(small):
    """Return a patio of 6.0 × 4.0 m that falls away from P0–P1, with a new gully in its middle."""
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    small.point("G", 3000.0, 2500.0)
    small.site["outfalls"] = [
        {"name": "Rose bed", "kind": "border", "confirmed": True},
        {"name": "Drain", "kind": "surface_water_sewer", "confirmed": True},
    ]
    small.site["gullies"] = [{"name": "Gully 1", "point": "G", "state": "new", "outfall": "Drain"}]
    return small


def test_a_gully_that_takes_only_the_strip_over_its_grating_is_reported(patio):
    water = drained(patio)
    (found,) = reported(water.findings, "water.drains_nothing")
    # 0.150 m wide, from the house to its grating: 0.15 × (2.5 − 0.075) = 0.36 of 24 m²
    assert found.value == pytest.approx(0.15 * 2.425)
    assert found.limit == pytest.approx(24.0)
    assert found.severity is Severity.CHECK
    assert "0.4 of the 24.0 m² of Patio reach it" in found.message
    (share,) = water.shares
    assert (share.name, share.areas) == ("Gully 1", ("Patio",))
    assert share.reaches_m2 == found.value


def test_its_options_are_tried_and_those_that_leave_it_dry_are_not_offered(patio):
    made = plan(patio.job(), patio.rules)
    (found,) = reported(made.findings, "water.drains_nothing")
    folds = [option for option in found.options if any(each.path.endswith(".folding") for each in option.changes)]
    assert [option.changes[0].value for option in folds] == ["crossed_valley", "to_gully"]
    assert all("The whole job then costs" in option.words for option in folds)
    assert all(option.facts.extra_minor is not None for option in folds)
    meant = found.options[-1]
    assert meant.facts.kind is OptionKind.ANSWER
    # a gully moved to the low end of a free edge takes its strip only, so that it is not offered
    assert not any(each.path.endswith(".point") for option in found.options for each in option.changes)


def test_a_fold_that_the_outline_does_not_allow_is_not_offered(patio):
    patio.point("B1", 3000.0, 0.0)
    patio.point("B2", 3000.0, 1500.0)
    patio.point("B3", 4000.0, 1500.0)
    patio.point("B4", 4000.0, 0.0)
    # a bay in the wall hides sides of the patio from a gully beside it
    names = ("P0", "B1", "B2", "B3", "B4", "P1", "P2", "P3")
    patio.document["areas"][0]["outline"] = [{"point": name} for name in names]
    patio.point("By the bay", 1000.0, 500.0)
    patio.site["gullies"][0]["point"] = "By the bay"
    (found,) = reported(drained(patio).findings, "water.drains_nothing")
    assert not any(change.value == "to_gully" for option in found.options for change in option.changes)


def test_folded_to_it_the_gully_takes_the_paving(patio):
    patio.document["areas"][0]["fall"] |= {"folding": "to_gully", "gully": "Gully 1"}
    water = drained(patio)
    assert reported(water.findings, "water.drains_nothing") == []
    (share,) = water.shares
    assert share.reaches_m2 > 0.95 * share.whole_m2


def test_a_gully_that_is_not_meant_to_take_the_paving_is_left_alone(patio):
    patio.site["gullies"][0]["takes_paving"] = False
    assert reported(drained(patio).findings, "water.drains_nothing") == []


def test_a_channel_inside_the_paving_that_takes_nothing_is_reported(patio):
    patio.site["gullies"] = []
    # it lies along the fall, so that only the strip that runs over its end gets into it
    patio.point("C1", 3000.0, 1500.0)
    patio.point("C2", 3000.0, 3500.0)
    patio.site["channels"] = [{"name": "Slot", "start": "C1", "end": "C2", "outfall": "Drain"}]
    (found,) = reported(drained(patio).findings, "water.drains_nothing")
    assert found.place == "channel Slot"
    assert any(change.value == "valley" for option in found.options for change in option.changes)


def test_a_channel_at_the_high_side_is_offered_the_fall_turned_to_it(patio):
    patio.site["gullies"] = []
    patio.site["channels"] = [{"name": "Slot", "start": "P0", "end": "P1", "outfall": "Drain"}]
    (found,) = reported(drained(patio).findings, "water.drains_nothing")
    turn = {change.path: change.value for change in found.options[0].changes}
    assert turn == {"areas.0.fall.bearing_deg": 180.0}
    patio.document["areas"][0]["fall"]["bearing_deg"] = 180.0
    assert reported(drained(patio).findings, "water.drains_nothing") == []


def test_a_gully_away_from_the_paving_is_no_concern(patio):
    patio.point("Far", 3000.0, 9000.0)
    patio.site["gullies"][0]["point"] = "Far"
    water = drained(patio)
    assert water.shares == ()
    assert reported(water.findings, "water.drains_nothing") == []


def test_a_drain_that_did_not_run_stops_the_job_only_where_paving_drains_to_it(patio):
    patio.site["gullies"][0]["runs"] = False
    patio.document["areas"][0]["fall"] |= {"folding": "to_gully", "gully": "Gully 1"}
    (found,) = reported(drained(patio).findings, "water.drain_blocked")
    assert found.severity is Severity.STOP
    patio.site["gullies"][0]["runs"] = True
    assert reported(drained(patio).findings, "water.drain_blocked") == []
    patio.site["gullies"][0] |= {"runs": False, "point": "P3"}
    patio.document["areas"][0]["fall"] |= {"folding": "one_plane", "gully": None, "bearing_deg": 90.0}
    assert reported(drained(patio).findings, "water.drain_blocked") == []


def test_an_outfall_to_which_nothing_leads_is_noted_with_the_drains_that_could(patio):
    patio.site["gullies"][0]["outfall"] = None
    (found,) = reported(drained(patio).findings, "water.outfall_unused")
    assert found.place == "outfall Drain"
    (lead,) = found.options
    assert [(each.path, each.value) for each in lead.changes] == [("site.gullies.0.outfall", "Drain")]
