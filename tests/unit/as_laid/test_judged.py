"""The verdict over everything that was read: it never passes where water stands, a grating or a step is wrong."""

from __future__ import annotations

import pytest

from pavewright.as_laid import Ground, Verdict, check, reason_in_words, with_standing
from pavewright.as_laid.standing import WaterState, standing
from pavewright.levels import finished_levels


def laid(small, off=lambda x, y: 0.0, step=1000, **parts):
    """A patio of 6 × 4 m that falls 1 in 60 north, read on a grid, with what else was read."""
    if not small.document.get("areas"):
        entered = small.rectangle(6000.0, 4000.0)
        entered["fall"] = {"bearing_deg": 0.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    readings = [
        {"x_mm": x, "y_mm": y, "level_mm": 1000.0 - y / 60.0 + off(x, y), "area": "Patio", "label": f"{x}/{y}"}
        for y in range(250, 4000, step)
        for x in range(250, 6000, step)
    ]
    drain = parts.pop("drain_marks", [])
    by_hand = {name: parts.pop(name) for name in ("gaps", "lips", "joints") if name in parts}
    small.document["as_laid"] = {"date": "2027-07-01", "reading_sd_mm": 0.5, "readings": readings} | by_hand
    if drain:
        small.site["outfalls"] = [{"name": "Bed", "kind": "border", "confirmed": True}]
        small.site["channels"] = [{"name": "G", "start": "P3", "end": "P2", "width_mm": 100.0, "outfall": "Bed"}]
        small.document["drain_marks"] = drain
    small.document |= parts
    return small.surveyed()


def told(small, *args, **parts):
    job, measured = laid(small, *args, **parts)
    return check(job, measured, finished_levels(job, measured, small.rules), small.rules)


def whys(found):
    return {(each.ground, each.verdict) for each in found.reasons}


def hose(name="H1", date="2027-07-02", after=30.0, **more):
    return {"name": name, "area": "Patio", "date": date, "after_min": after, "marks": []} | more


def wet(depth):
    return [{"name": "W1", "x_mm": 3000.0, "y_mm": 2000.0, "depth_mm": depth}]


def test_paving_as_planned_passes_without_a_reason(small):
    found = told(small)
    assert found.verdict is Verdict.PASSES
    assert found.reasons == found.areas[0].reasons == ()
    assert not found.is_water_judged


def test_water_that_stood_after_a_hose_fails_the_area_and_is_noticed(small):
    found = told(small, hose_tests=[hose(marks=wet(9.0))])
    assert found.verdict is found.areas[0].verdict is Verdict.FAILS
    assert whys(found) == {(Ground.HOSE, Verdict.FAILS)}
    (noticed,) = [each for each in found.findings if each.code == "as_laid.hose_failed"]
    assert noticed.value == 9.0
    assert reason_in_words(found.reasons[0]) == "hose test: H1"


def test_water_looked_at_too_early_or_very_shallow_is_not_decided(small):
    for test in (hose(after=10.0, marks=wet(9.0)), hose(marks=wet(2.0))):
        found = told(small, hose_tests=[test])
        assert found.verdict is Verdict.INCONCLUSIVE
        assert whys(found) == {(Ground.HOSE, Verdict.INCONCLUSIVE)}


def test_a_later_dry_test_of_the_whole_area_takes_the_place_of_a_failed_one(small):
    failed = hose(marks=wet(9.0))
    part = hose("H2", "2027-07-09")
    assert told(small, hose_tests=[failed, part]).verdict is Verdict.FAILS
    whole = hose("H3", "2027-07-10", all_wet=True, all_seen=True)
    assert told(small, hose_tests=[failed, part, whole]).verdict is Verdict.PASSES
    early = whole | {"after_min": 5.0}
    assert told(small, hose_tests=[failed, early]).verdict is Verdict.FAILS


def test_a_dry_test_of_a_part_stands_against_nothing(small):
    assert told(small, hose_tests=[hose()]).verdict is Verdict.PASSES


@pytest.mark.parametrize(("above", "verdict"), [(-4.0, "fail"), (12.0, "fail"), (0.2, "unsure"), (3.0, "pass")])
def test_a_grating_too_high_or_too_low_is_in_the_verdict(small, above, verdict):
    mark = {"name": "D1", "drain": "G", "date": "2027-07-01", "above_mm": above}
    found = told(small, drain_marks=[mark])
    assert found.verdict == found.areas[0].verdict == verdict
    assert ("as_laid.grating" in [each.code for each in found.findings]) is (verdict == "fail")


def test_a_step_and_a_gap_that_fail_fail_their_area(small):
    lip = {"name": "S1", "area": "Patio", "lip_mm": 9.0}
    assert whys(told(small, lips=[lip])) == {(Ground.LIP, Verdict.FAILS)}
    gap = {"name": "E1", "area": "Patio", "edge_mm": 3000.0, "gap_mm": 25.0}
    found = told(small, gaps=[gap])
    assert (Ground.GAP, Verdict.FAILS) in whys(found)
    assert found.areas[0].verdict is Verdict.FAILS


def test_a_bay_that_is_not_known_leaves_its_area_open(small):
    laid(small)
    small.document["as_laid"]["readings"] = small.document["as_laid"]["readings"][:2]
    job, measured = small.surveyed()
    found = check(job, measured, finished_levels(job, measured, small.rules), small.rules)
    assert found.verdict is found.areas[0].verdict is Verdict.INCONCLUSIVE
    assert (Ground.BAY_UNKNOWN, Verdict.INCONCLUSIVE) in whys(found)


def test_an_area_that_nobody_read_leaves_the_whole_open(small):
    small.rectangle(6000.0, 4000.0)
    small.document["as_laid"] = {
        "date": "2027-07-01",
        "lips": [{"name": "S1", "area": "Patio", "lip_mm": 0.2}],
    }
    job, measured = small.surveyed()
    found = check(job, measured, finished_levels(job, measured, small.rules), small.rules)
    assert found.verdict is Verdict.INCONCLUSIVE
    assert (Ground.UNREAD, Verdict.INCONCLUSIVE) in whys(found)


def test_a_hose_test_alone_is_told_too(small):
    small.rectangle(6000.0, 4000.0)
    small.document["hose_tests"] = [hose(marks=wet(9.0))]
    job, measured = small.surveyed()
    found = check(job, measured, finished_levels(job, measured, small.rules), small.rules)
    assert found.verdict is Verdict.FAILS


def dish(x, y):
    return -25.0 * max(1.0 - ((x - 3250.0) ** 2 + (y - 2250.0) ** 2) / 1e6, 0.0)


def judged(small, off, **parts):
    job, measured = laid(small, off, 500, **parts)
    levels = finished_levels(job, measured, small.rules)
    areas = standing(job, measured, levels, small.rules)
    return areas[0], with_standing(check(job, measured, levels, small.rules), areas)


def test_water_that_is_likely_to_stand_fails_the_area(small):
    area, found = judged(small, dish)
    assert area.state is WaterState.STANDS
    assert found.is_water_judged
    assert found.verdict is found.areas[0].verdict is Verdict.FAILS
    assert (Ground.STANDING, Verdict.FAILS) in whys(found)
    assert "as_laid.stands" in [each.code for each in found.findings]
    assert with_standing(found, (area,)) is found


def test_a_dry_test_of_the_whole_beside_likely_water_leaves_it_open(small):
    _, found = judged(small, dish, hose_tests=[hose(all_wet=True, all_seen=True)])
    assert (Ground.STANDING, Verdict.INCONCLUSIVE) in whys(found)
    assert (Ground.STANDING, Verdict.FAILS) not in whys(found)
    assert found.verdict is not Verdict.PASSES


def test_too_few_readings_for_water_leave_the_area_open(small):
    job, measured = laid(small, step=4000)
    levels = finished_levels(job, measured, small.rules)
    found = with_standing(check(job, measured, levels, small.rules), standing(job, measured, levels, small.rules))
    assert found.verdict is Verdict.INCONCLUSIVE
    assert (Ground.STANDING_UNKNOWN, Verdict.INCONCLUSIVE) in whys(found)
