"""Options in order: priced by planning the whole job with each, what is not the customer's never first."""

from __future__ import annotations

import pytest

from pavewright.findings import FieldChange, Owner, Severity, Option, OptionFacts, OptionKind, worth_looking_at
from pavewright.job import JobInvalid, changed
from pavewright.pipeline import plan
from pavewright.pipeline._days_later import days_later, days_words


def drive(small, footway_mm, beyond="not_known", use="car"):
    """Enter a drive from a garage to a footway 9 m off."""
    area = small.rectangle(5000.0, 9000.0, "Drive")
    area |= {"use": use, "fall": {"away_from": "Garage"}}
    door = {"name": "Big door", "along_mm": 1200.0, "width_mm": 2400.0, "threshold_level_mm": 10000.0}
    small.site["walls"] = [{"name": "Garage", "start": "D0", "end": "D1", "dpc_level_mm": 10150.0, "openings": [door]}]
    edge = {"name": "Edge", "start": "D3", "end": "D2", "start_level_mm": footway_mm, "end_level_mm": footway_mm}
    small.site["tie_ins"] = [edge | {"beyond": beyond}]
    small.site["outfalls"] = [{"name": "Soakaway", "kind": "soakaway", "confirmed": True}]
    small.flat_ground((footway_mm + 10000.0) / 2.0)
    return area


def clash(small, code="levels.tie_in_clash"):
    made = plan(small.job(), small.rules)
    return made, next(each for each in made.findings if each.code == code)


def test_a_footway_above_the_garage_is_never_moved_and_the_turned_fall_comes_first(small):
    drive(small, 10400.0, "highway")
    made, reported = clash(small)
    assert reported.options[0].changes
    assert FieldChange("areas.0.fall.folding", "to_house") in reported.options[0].changes
    assert not any("tie_ins" in change.path for way in reported.options for change in way.changes)
    highway = [way for way in reported.options if way.facts.owner is Owner.HIGHWAY]
    assert [way.facts.kind for way in highway] == [OptionKind.REFUSED]
    # the price beside it is that of the whole job planned with it
    after = plan(changed(small.job(), reported.options[0].changes), small.rules)
    assert reported.options[0].facts.extra_minor == after.cost.total_minor - made.cost.total_minor
    # and so are the days: working days from the one finish to the other
    days = days_later(made.job.calendar, made.programme, after.programme)
    assert days is not None
    assert days != 0
    assert reported.options[0].facts.extra_days == days
    assert f"takes {days_words(days)}" in reported.options[0].words
    assert not any(each.code == "levels.tie_in_clash" for each in after.findings)


def test_a_footway_a_little_too_high_is_met_by_two_planes_to_a_channel_across(small):
    drive(small, 9950.0, "highway")
    _, reported = clash(small)
    assert FieldChange("areas.0.fall.folding", "valley") in reported.options[0].changes
    after = plan(changed(small.job(), reported.options[0].changes), small.rules)
    assert [each.code for each in after.findings if each.severity is Severity.STOP] == []


@pytest.mark.parametrize("beyond", ["neighbour", "not_known"])
def test_what_is_not_the_customers_comes_after_his_own_and_is_asked_for(small, beyond):
    drive(small, 10400.0, beyond)
    _, reported = clash(small)
    assert reported.options[0].facts.owner is Owner.OWN
    relaid = [way for way in reported.options if any("tie_ins" in change.path for change in way.changes)]
    assert all("sk the" in way.words for way in relaid)


def test_priced_options_stand_cheapest_first_before_those_of_no_known_price(small):
    drive(small, 10400.0, "own_paving")
    _, reported = clash(small)
    offered = [way.facts for way in reported.options if way.facts.kind not in {OptionKind.RULE, OptionKind.REFUSED}]
    # what brings another stop, such as a drive that then stands over a drop, comes after what does not
    known = [(facts.brings_stop, facts.extra_minor) for facts in offered if facts.extra_minor is not None]
    assert len(known) >= 2
    assert known == sorted(known)
    assert all(facts.extra_minor is None for facts in offered[len(known) :])


def test_an_invented_amount_for_relaying_is_in_the_price_and_said(small):
    drive(small, 10400.0, "own_paving")
    _, reported = clash(small)
    relaid = next(way for way in reported.options if any("tie_ins" in change.path for change in way.changes))
    assert relaid.facts.invented
    assert "an invented amount" in relaid.words
    small.document["rates"]["changes"] = [{"key": "tie_in", "once_minor": 100, "each_minor": 1}]
    _, reported = clash(small)
    own = next(way for way in reported.options if any("tie_ins" in change.path for change in way.changes))
    assert not own.facts.invented
    assert own.facts.extra_minor < relaid.facts.extra_minor


def test_a_drive_is_not_judged_by_the_limit_for_feet(small):
    # 1 in 24 is no fall for walking in comfort and a gentle one for a car
    drive(small, 10000.0 - 9000.0 / 24.0, "own_ground")
    small.document["areas"][0]["fall"] |= {"level_at": "D0", "level_mm": 10000.0}
    small.site["walls"][0]["openings"] = []
    made = plan(small.job(), small.rules)
    assert not any("comfortable" in words for each in made.findings for words in each.option_words)


def test_the_fall_that_meets_both_ends_of_a_drive_is_offered_within_the_limit_for_cars(small):
    drive(small, 10000.0 - 9000.0 / 24.0, "own_ground")
    small.site["walls"][0]["openings"][0]["max_step_mm"] = 20.0
    made = plan(small.job(), small.rules)
    ways = [way for each in made.findings if each.severity is Severity.STOP for way in each.options]
    (steeper,) = {
        way.words: way for way in ways if any(change.path.endswith("one_in") for change in way.changes)
    }.values()
    assert steeper.facts.kind is OptionKind.DESIGN


def test_an_option_that_does_not_end_its_stop_is_not_offered(small):
    drive(small, 9950.0, "highway")
    _, reported = clash(small)
    # one plane towards the garage would leave its threshold 200 mm up
    assert not any(FieldChange("areas.0.fall.folding", "to_house") in way.changes for way in reported.options)


def test_options_are_put_in_order_by_owner_rule_and_price():
    ways = [
        Option("refused", facts=OptionFacts(OptionKind.REFUSED)),
        Option("theirs", facts=OptionFacts(owner=Owner.NEIGHBOUR, extra_minor=-500)),
        Option("unknown price"),
        Option("rule", facts=OptionFacts(OptionKind.RULE, extra_minor=0)),
        Option("dear", facts=OptionFacts(extra_minor=900)),
        Option("cheap", facts=OptionFacts(extra_minor=10)),
    ]
    order = ["cheap", "dear", "unknown price", "rule", "theirs", "refused"]
    assert [way.words for way in worth_looking_at(ways)] == order


def test_changes_of_an_option_make_a_job_and_faults_are_told(small):
    drive(small, 9950.0)
    job = small.job()
    new = {"name": "Bed", "kind": "border", "confirmed": False}
    grown = changed(job, [FieldChange(f"site.outfalls.1.{field}", value) for field, value in new.items()])
    assert [each.name for each in grown.site.outfalls] == ["Soakaway", "Bed"]
    assert changed(job, ()) == job
    with pytest.raises(JobInvalid):
        changed(job, (FieldChange("areas.0.fall.one_in", 2.0),))
