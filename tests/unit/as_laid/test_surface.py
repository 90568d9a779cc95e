"""Bays, edges, lips, joints and later visits of a 6 × 4 m patio that falls 1 in 60 north from 1000."""

from __future__ import annotations

import numpy as np
import pytest

from pavewright.as_laid import BayState, MovedVerdict, NotHeld, bays_of, check, regime, regimes
from pavewright.as_laid.movement import DatumState
from pavewright.job import JobInvalid
from pavewright.job.on_site import JointFill
from pavewright.levels import finished_levels


def patio(small, one_in=60.0):
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": one_in, "level_at": "P0", "level_mm": 1000.0}
    return 1.0 / one_in


def read(small, off, fall=1.0 / 60.0, sd=1.0, **more):
    places = [(x, y) for y in (300.0, 2000.0, 3700.0) for x in (300.0, 2200.0, 4000.0, 5700.0)]
    small.document["as_laid"] = {
        "date": "2027-07-01",
        "reading_sd_mm": sd,
        "readings": [
            {
                "x_mm": x,
                "y_mm": y,
                "level_mm": 1000.0 - y * fall + off(x, y),
                "area": "Patio",
                "label": f"{x:.0f}/{y:.0f}",
            }
            for x, y in places
        ],
        **more,
    }


def report(small):
    job, measured = small.surveyed()
    return check(job, measured, finished_levels(job, measured, small.rules), small.rules)


def codes(found):
    return [finding.code.value for finding in found.findings]


def test_a_bay_laid_as_planned_is_as_designed(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    (bay,) = report(small).areas[0].bays
    assert bay.states == (BayState.AS_DESIGNED,)
    assert bay.fall == pytest.approx(1.0 / 60.0)
    assert bay.turned_deg == pytest.approx(0.0, abs=1e-6)
    assert bay.farthest_mm == pytest.approx(0.0, abs=1e-6)


def test_a_bay_laid_flat_was_built_off_its_design(small):
    patio(small)
    read(small, lambda x, y: (y - 2000.0) / 70.0)
    found = report(small)
    (bay,) = found.areas[0].bays
    assert bay.states == (BayState.OFF_DESIGN,)
    assert bay.is_plane_off
    assert abs(bay.farthest_mm) == pytest.approx(2000.0 / 70.0, abs=0.1)
    assert "as_laid.bay_off_design" in codes(found)


def test_a_bay_that_was_designed_flat_says_so_and_no_layer_is_blamed(small):
    fall = patio(small, 150.0)
    read(small, lambda x, y: 0.0, fall)
    found = report(small)
    (bay,) = found.areas[0].bays
    assert bay.states == (BayState.FLAT_BY_DESIGN, BayState.AS_DESIGNED)
    assert "as_laid.flat_by_design" in codes(found)
    assert "as_laid.bay_off_design" not in codes(found)


def test_one_unit_that_stands_up_is_named_and_the_plane_is_not(small):
    patio(small)
    read(small, lambda x, y: 15.0 if (x, y) == (4000.0, 2000.0) else 0.0)
    (bay,) = report(small).areas[0].bays
    assert bay.out == ("4000/2000",)
    assert not bay.is_plane_off
    assert bay.states == (BayState.OFF_DESIGN,)


def test_three_readings_on_a_line_leave_a_bay_unknown(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    small.document["as_laid"]["readings"] = small.document["as_laid"]["readings"][:3]
    (bay,) = report(small).areas[0].bays
    assert bay.states == (BayState.UNKNOWN,)
    assert bay.fit is None


def test_a_turned_bay_shows_by_how_much(small):
    patio(small)
    read(small, lambda x, y: -(x - 3000.0) / 60.0)
    (bay,) = report(small).areas[0].bays
    assert bay.turned_deg == pytest.approx(45.0, abs=0.1)
    assert BayState.OFF_DESIGN in bay.states


def test_a_movement_joint_parts_an_area_into_bays(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    job, measured = small.surveyed()
    finished = finished_levels(job, measured, small.rules).area("Patio")
    bays = bays_of(finished, [((3000.0, 0.0), (3000.0, 4000.0))])
    assert [bay.number for bay in bays] == [1, 2]
    assert [bay.polygon.area for bay in bays] == pytest.approx([12e6, 12e6])


def test_a_bay_holds_the_places_of_its_readings_whatever_they_are_called(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    for reading in small.document["as_laid"]["readings"]:
        reading["label"] = "R"
    area = report(small).areas[0]
    assert [each.at for each in area.readings] == [at for bay in area.bays for at in bay.read_at]
    assert len(set(area.bays[0].read_at)) == 12


def test_readings_alone_may_fail_flatness_and_never_pass_it(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    for reading in small.document["as_laid"]["readings"]:
        reading["x_mm"] /= 2.0
    small.document["as_laid"]["readings"][5]["level_mm"] -= 14.0
    found = report(small)
    worst = max(found.areas[0].profiles, key=lambda each: each.gap_mm)
    assert worst.verdict == "fail"
    assert worst.lowest == "2200/2000"
    assert worst.gap_mm == pytest.approx(14.0)
    assert not worst.sees_between
    assert {each.verdict for each in found.areas[0].profiles} == {"fail", "unsure"}
    assert "as_laid.profile" in codes(found)


def lip(name, lip_mm, **more):
    return {"name": name, "area": "Patio", "lip_mm": lip_mm, **more}


def test_a_staff_does_not_decide_on_two_millimetres_and_a_gauge_does(small):
    patio(small)
    lips = [lip("A", 3.0, means="staff"), lip("B", 3.0), lip("C", 1.0), lip("D", 8.0, means="staff"), lip("E", None)]
    read(small, lambda x, y: 0.0, lips=lips)
    found = report(small)
    assert [each.verdict.value for each in found.lips] == ["unsure", "fail", "pass", "fail"]
    assert found.lips[0].sd_mm == pytest.approx(2.0**0.5)
    assert codes(found).count("as_laid.lip") == 2
    assert "as_laid.by_staff" in codes(found)
    assert found.verdict == "fail"


def test_gaps_are_judged_by_the_edge_that_the_regime_names(small):
    patio(small)
    gaps = [
        {"name": name, "area": "Patio", "edge_mm": edge, "gap_mm": gap}
        for name, edge, gap in (("A", 3000.0, 2.0), ("B", 3000.0, 4.0), ("C", 2000.0, 9.0), ("D", 3000.0, None))
    ]
    read(small, lambda x, y: 0.0, gaps=gaps)
    found = report(small)
    assert [each.verdict for each in found.gaps] == ["pass", "fail", None]
    assert found.gaps[2].limit.why is NotHeld.NO_RULE


def test_gaps_alone_make_a_report(small):
    patio(small)
    small.document["as_laid"] = {
        "date": "2027-07-01",
        "gaps": [{"name": "A", "area": "Patio", "edge_mm": 3000.0, "gap_mm": 6.0}],
    }
    found = report(small)
    assert found.areas == ()
    assert found.verdict == "fail"


def test_joints_are_held_to_the_regime_of_the_job(small):
    patio(small)
    joints = [
        {"name": name, "area": "Patio", "width_mm": width}
        for name, width in (("A", 3.5), ("B", 9.0), ("C", 5.2), ("D", None))
    ]
    read(small, lambda x, y: 0.0, joints=joints)
    assert [each.verdict for each in report(small).joints] == [None, None, None]
    small.document["held_to"] = "usa_pavers"
    assert [each.verdict for each in report(small).joints] == ["pass", "fail", "unsure"]


def test_an_unknown_regime_is_a_fault_that_names_those_there_are(small):
    patio(small)
    read(small, lambda x, y: 0.0)
    small.document["held_to"] = "moon"
    with pytest.raises(JobInvalid) as refused:
        report(small)
    assert "germany_floor" in refused.value.faults[0].message


def held_to(small, key):
    patio(small)
    small.document["held_to"] = key
    job, _ = small.surveyed()
    return regime(job, small.rules)


@pytest.mark.parametrize(
    ("key", "asked", "limit", "why"),
    [
        ("flags", (None, None, None, None), (2.0, 2.0), None),
        ("access_uk", (2.0, JointFill.FLUSH, None, None), (4.0, 4.0), None),
        ("access_uk", (8.0, JointFill.FLUSH, None, None), (5.0, 5.0), None),
        ("access_uk", (8.0, JointFill.OPEN, None, None), (2.0, 2.0), None),
        ("access_uk", (8.0, None, None, None), (2.0, 5.0), NotHeld.FILL_NOT_NOTED),
        ("germany_stone", (None, None, (400.0, 400.0), None), (1.5, 1.5), None),
        ("germany_stone", (None, None, (600.0, 600.0), None), (2.0, 2.0), None),
        ("germany_stone", (None, None, None, None), (1.5, 2.0), NotHeld.UNIT_NOT_KNOWN),
        ("germany_tiler", (None, None, (600.0, 600.0), None), (2.2, 2.2), None),
        ("france_floor", (5.0, None, None, 0.5), (1.5, 1.5), None),
        ("france_floor", (5.0, None, None, None), (1.0, None), NotHeld.WARP_NOT_MEASURED),
        ("usa_tile", (10.0, None, None, 0.0), (1.5875, 1.5875), None),
        ("usa_tile", (3.0, None, None, 0.0), (0.79375, 0.79375), None),
        ("floor_sr1", (3.0, None, None, None), (None, None), NotHeld.NO_RULE),
    ],
)
def test_the_highest_lip_by_regime(small, key, asked, limit, why):
    found = held_to(small, key).lip_limit(*asked)
    assert (found.min_mm, found.max_mm) == (pytest.approx(limit[0]), pytest.approx(limit[1]))
    assert found.why is why


def test_a_german_gap_goes_by_its_contacts(small):
    rule = held_to(small, "germany_floor")
    assert rule.gap_limit(4000.0, 2000.0, None).max_mm == pytest.approx(6.0)
    open_yet = rule.gap_limit(4000.0, None, None)
    assert (open_yet.min_mm, open_yet.max_mm, open_yet.why) == (2.0, 10.0, NotHeld.CONTACTS_NOT_MEASURED)
    assert {"flags", "blocks", "floor_sr1"} <= {key for key, _ in regimes(small.rules)}


def again(move, marks, seed=4, sd=1.0):
    """A later visit on which places moved by a function of theirs, read with scatter."""
    dice = np.random.default_rng(seed)
    places = [(x, y) for y in (300.0, 2000.0, 3700.0) for x in (300.0, 2200.0, 4000.0, 5700.0)]
    return {
        "date": "2028-07-01",
        "reading_sd_mm": sd,
        "marks": [{"name": name, "level_mm": level} for name, level in marks.items()],
        "read_again": [
            {"label": f"{x:.0f}/{y:.0f}", "level_mm": 1000.0 - y / 60.0 + move(x, y) + dice.normal(0.0, sd)}
            for x, y in places
        ],
    }


MARKS = [{"name": "Sill", "level_mm": 1200.0}, {"name": "Cover", "level_mm": 990.0}]


def test_a_bay_that_sank_says_moved_since_and_was_as_designed(small):
    patio(small)
    later = again(lambda x, y: -9.0 * (x > 3000.0), {"Sill": 1200.4, "Cover": 989.8})
    read(small, lambda x, y: 0.0, marks=MARKS, later_visits=[later])
    found = report(small)
    (visit,) = found.visits
    assert visit.datum.state is DatumState.HELD
    assert visit.days == 366
    assert visit.verdict is MovedVerdict.MOVED
    moved = {each.label for each in visit.places if each.verdict is MovedVerdict.MOVED}
    assert moved == {f"{x}/{y}" for x in (4000, 5700) for y in (300, 2000, 3700)}
    assert found.areas[0].bays[0].states == (BayState.AS_DESIGNED, BayState.MOVED_SINCE)
    assert {"as_laid.bay_moved", "as_laid.place_moved"} <= set(codes(found))


def test_a_bay_that_did_not_move_says_from_what_it_would_have_been_seen(small):
    patio(small)
    later = again(lambda x, y: 0.0, {"Sill": 1200.4, "Cover": 989.8})
    read(small, lambda x, y: 0.0, marks=MARKS, later_visits=[later])
    (visit,) = report(small).visits
    assert visit.verdict is MovedVerdict.NOT_SEEN
    assert 4.0 < visit.together.seen_from_mm < 7.0


def test_a_later_reading_meets_the_one_that_bears_its_label_not_one_that_was_numbered_alike(small):
    patio(small)
    later = again(lambda x, y: 0.0, {"Sill": 1200.0, "Cover": 990.0})
    later["read_again"] = [{"label": "R2", "level_mm": 1000.0 - 300.0 / 60.0}]
    read(small, lambda x, y: 0.0, marks=MARKS, later_visits=[later])
    first, second, *_ = small.document["as_laid"]["readings"]
    first["label"], second["label"] = "R2", ""
    (visit,) = report(small).visits
    assert [each.at for each in visit.places] == [(first["x_mm"], first["y_mm"])]


def test_without_a_mark_an_area_that_sank_as_a_whole_is_not_said_to_lie_still(small):
    patio(small)
    read(small, lambda x, y: 0.0, later_visits=[again(lambda x, y: -30.0, {})])
    found = report(small)
    assert found.visits[0].verdict is MovedVerdict.UNKNOWN
    assert "as_laid.no_datum" in codes(found)


def test_marks_that_contradict_each_other_leave_everything_open(small):
    patio(small)
    later = again(lambda x, y: -9.0, {"Sill": 1200.0, "Cover": 975.0})
    read(small, lambda x, y: 0.0, marks=MARKS, later_visits=[later])
    found = report(small)
    assert {each.verdict for each in found.visits[0].places} == {MovedVerdict.UNKNOWN}
    assert "as_laid.datum_unsure" in codes(found)


@pytest.mark.parametrize(
    ("change", "path"),
    [
        ({"later_visits": [{"date": "2027-07-01"}]}, "as_laid.later_visits.0.date"),
        (
            {"later_visits": [{"date": "2028-07-01", "read_again": [{"label": "X", "level_mm": 1.0}]}]},
            "as_laid.later_visits.0.read_again.0.label",
        ),
        ({"lips": [{"name": "A", "area": "Lawn"}]}, "as_laid.lips.0.area"),
        ({"lips": [{"name": "A", "area": "Patio"}] * 2}, "as_laid.lips.1"),
        ({"marks": [{"name": "A"}] * 2}, "as_laid.marks.1"),
    ],
)
def test_what_cannot_be_is_a_fault_with_its_place(small, change, path):
    patio(small)
    read(small, lambda x, y: 0.0, **change)
    with pytest.raises(JobInvalid) as refused:
        small.surveyed()
    assert path in [fault.path for fault in refused.value.faults]
