from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.crew_calendar.made import asked, day, job, person, season

from pavewright.crew_calendar import (
    EMPTY_CALENDAR,
    BreakKind,
    CalendarJob,
    DayNeed,
    DeliveryNeed,
    HireNeed,
    NoSuchStretchError,
    Pin,
    Placed,
    Sending,
    Stretch,
    WaitLink,
    arrange,
    break_words,
    breaks_of,
    cost_of,
    move,
    read,
    sent_words,
    shift_words,
    to_text,
)
from pavewright.job import JobInvalid, PlantKind, Skill

TWO = (person("a", cost=1000), person("b"))
LAID = job("laid", (1, 1), (1, 1), links=(WaitLink((0, 0), (1, 0), 3, "cure_bed.area1", hold=False),))


def test_what_has_to_wait_goes_along_and_nothing_breaks():
    question = asked(TWO, [LAID])
    moved = move(question, arrange(question).placed, "laid", 0, day(3))
    assert [(each.stretch, each.before, each.after) for each in moved.shifts] == [
        (0, day(0), day(3)),
        (1, day(3), day(7)),
    ]
    assert moved.broken == ()
    assert shift_words(moved.shifts).count("→") == 2


def test_a_wait_cut_short_is_told_with_the_day_that_would_hold():
    question = asked(TWO, [LAID])
    moved = move(question, arrange(question).placed, "laid", 1, day(1))
    (broken,) = moved.broken
    assert (broken.kind, broken.due, broken.key) == (BreakKind.WAIT_CUT_SHORT, day(3), "cure_bed.area1")
    assert "has to wait until" in break_words(broken, str, str)


def test_two_places_a_machine_elsewhere_and_a_promise_are_told():
    saw = Stretch((DayNeed(2, (), (PlantKind.SAW,)),))
    jobs = [CalendarJob("x", (saw,)), CalendarJob("y", (saw,), promised=day(1))]
    question = asked(TWO, jobs, plant={PlantKind.SAW: 1})
    placed = arrange(question).placed
    kinds = {
        each.kind
        for each in move(question, placed, "y", 0, placed[1].days[0] if placed[0].job == "y" else day(0)).broken
    }
    assert {BreakKind.TWO_PLACES, BreakKind.MACHINE_TAKEN} <= kinds
    late = move(question, placed, "y", 0, day(4)).broken
    assert [each.kind for each in late] == [BreakKind.PROMISE_MISSED]
    assert late[0].soft


@pytest.mark.parametrize(
    ("change", "to", "kind"),
    [
        ({"deliveries": (DeliveryNeed((0, 0), "units.1", day(2)),)}, day(1), BreakKind.DELIVERY_TOO_LATE),
        ({"deliveries": (DeliveryNeed((0, 0), "lay.area1", day(2), pinned=True),)}, day(1), BreakKind.TOO_EARLY),
        ({"earliest": day(2)}, day(1), BreakKind.TOO_EARLY),
        ({"stretches": (Stretch((DayNeed(1, shut_months=(4,)),)),)}, day(36), BreakKind.COLD_OR_HOT_MONTH),
    ],
)
def test_what_the_days_of_a_job_break(change, to, kind):
    question = asked(TWO, [replace(job("x", (1, 1)), **change)])
    found = move(question, arrange(question).placed, "x", 0, to)
    assert [each.kind for each in found.broken] == [kind]


def test_somebody_away_a_skill_missing_and_a_pin_that_moved():
    layer = person("a", Skill.LAYER, away=((1, 1),))
    need = Stretch((DayNeed(1, (Skill.LAYER,)),))
    question = asked([layer, person("b", Skill.DRIVER)], [CalendarJob("x", (need,))], pins=(Pin("x", 0, day(0)),))
    placed = arrange(question).placed
    moved = move(question, placed, "x", 0, day(1))
    assert {each.kind for each in moved.broken} == {BreakKind.AWAY, BreakKind.PIN_MOVED}
    wrong = (Placed("x", 0, (day(0),), (("b",),)),)
    assert [each.kind for each in breaks_of(question, wrong)] == [BreakKind.SKILL_MISSING]
    assert [each.kind for each in breaks_of(question, (Placed("x", 0, (day(0),), ((),)),))] == [
        BreakKind.SKILL_MISSING,
        BreakKind.TOO_FEW_HANDS,
    ]


def test_a_part_whose_work_has_changed_is_told_and_an_unknown_one_is_refused():
    question = asked(TWO, [job("x", (2, 1))])
    old = (Placed("x", 0, (day(0),), (("a",),)),)
    assert [each.kind for each in breaks_of(question, old)] == [BreakKind.LENGTH_CHANGED]
    for name, stretch, to in (("x", 1, day(0)), ("z", 0, day(0)), ("x", 0, day(400))):
        with pytest.raises(NoSuchStretchError):
            move(question, old, name, stretch, to)


def test_cost_counts_what_is_known_and_names_what_is_not():
    hires = (HireNeed(0, PlantKind.SAW, ((0, 0), (1, 0)), 2500), HireNeed(1, PlantKind.MIXER, ((0, 0),), None))
    question = asked(TWO, [replace(LAID, hires=hires)])
    cost = cost_of(question, arrange(question).placed)
    assert [(each.days, each.minor) for each in cost.hires] == [(4, 10_000), (1, None)]
    (known,) = cost.sums
    assert (known.hire_minor, cost.hires_unpriced) == (10_000, 1)
    # four working days, two people, two of them with work: one person's hour has a price
    assert cost.idle_days == 6
    assert known.idle_minor + cost.idle_unpriced * 8 * 1000 == 6 * 8 * 1000
    assert cost.weather_unknown == ("laid",)


def test_costs_in_two_currencies_are_never_put_together():
    jobs = [
        job("here", (1, 1), hires=(HireNeed(0, PlantKind.SAW, ((0, 0),), 2500),), currency="GBP"),
        job("there", (1, 1), hires=(HireNeed(0, PlantKind.SAW, ((0, 0),), 700),), currency="EUR"),
    ]
    question = asked([person("a", cost=1000), person("b", cost=1000)], jobs, currency="GBP")
    late = move(question, arrange(question).placed, "here", 0, day(1)).after
    assert [(each.currency, each.hire_minor, each.known_minor) for each in late.sums] == [
        ("EUR", 700, 700),
        ("GBP", 2500, 2500 + 2 * 8 * 1000),
    ]


def test_the_way_is_counted_where_it_is_entered_and_named_where_it_is_not():
    jobs = [job("near", (1, 2), travel_min=20, place="Ashford"), job("far", (1, 1), place="Thorn"), job("new", (1, 1))]
    question = asked(TWO, jobs)
    placed = tuple(
        Placed(name, 0, (day(number),), (crew,))
        for number, (name, crew) in enumerate([("near", ("a", "b")), ("far", ("a",)), ("new", ("a",))])
    )
    cost = cost_of(question, placed)
    # two people, there and back
    assert (cost.travel_min, cost.travel_unknown) == (80, ("far", "new"))
    assert (cost.place_changes, cost.place_unknown) == (1, ("new",))


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 5), st.data())
def test_moving_and_moving_back_leaves_what_there_was(seed, data):
    question = season(3, seed=seed)
    placed = arrange(question, lambda _step: False).placed
    one = data.draw(st.sampled_from(placed))
    there = move(question, placed, one.job, one.stretch, data.draw(st.dates(day(0), day(60))))
    again = move(question, placed, one.job, one.stretch, there.shifts[0].after if there.shifts else one.days[0])
    assert again.placed == there.placed
    assert {(each.job, each.stretch) for each in there.placed} == {(each.job, each.stretch) for each in placed}
    kept = {each.kind for each in breaks_of(question, there.placed)} - {
        each.kind for each in breaks_of(question, placed)
    }
    assert kept <= {each.kind for each in there.broken}


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 1000), st.integers(1, 4), st.integers(3, 6))
def test_no_arrangement_breaks_anything_and_no_gap_is_negative(seed, jobs, people):
    question = season(jobs, people=people, seed=seed)
    found = arrange(question, lambda _step: False)
    assert [each for each in breaks_of(question, found.placed) if not each.soft] == []
    assert found.gap_percent >= 0.0
    assert found.bound_job_days <= found.job_days
    assert len({each.job for each in found.placed}) + len(found.not_placed) == jobs


def test_the_document_is_read_and_written_alike_and_refuses_what_is_said_twice():
    text = to_text(EMPTY_CALENDAR)
    assert to_text(read(text)) == text
    booking = {"job": "x", "stretch": 0, "days": [{"on": "2027-03-02"}, {"on": "2027-03-01"}]}
    bad = {"format": "pavewright.calendar", "version": 1, "bookings": [booking, booking]}
    with pytest.raises(JobInvalid) as refused:
        read(bad)
    assert [fault.path for fault in refused.value.faults] == ["bookings.1", "bookings.0.days", "bookings.1.days"]
    with pytest.raises(JobInvalid):
        read({"format": "other"})
    with pytest.raises(JobInvalid):
        read({"format": "pavewright.calendar", "version": 1, "people": [{"id": "Ada"}]})


def test_somebody_else_is_sent_and_what_that_breaks_is_told():
    skilled = Stretch((DayNeed(1, (Skill.LAYER,)),) * 2)
    people = (person("a", Skill.LAYER), person("b", Skill.DRIVER), person("c", Skill.LAYER, away=((1, 1),)))
    question = asked(people, [CalendarJob("x", (skilled,))])
    placed = arrange(question).placed
    assert placed[0].crew == (("a",), ("a",))
    told = {}
    for comes in ("b", "c"):
        moved = move(question, placed, "x", 0, day(0), Sending((comes,), ("a",)))
        assert moved.shifts == ()
        assert moved.sent_days == 2
        assert moved.placed[0].crew == ((comes,), (comes,))
        told[comes] = [(each.kind, each.on) for each in moved.broken]
    assert told["b"] == [(BreakKind.SKILL_MISSING, day(0)), (BreakKind.SKILL_MISSING, day(1))]
    assert told["c"] == [(BreakKind.AWAY, day(1))]
    with pytest.raises(NoSuchStretchError):
        move(question, placed, "x", 0, day(0), Sending(("nobody",), ("a",)))


def test_a_whole_crew_goes_instead_and_who_is_pinned_is_missed():
    question = asked([person(name) for name in "abcd"], [job("x", (1, 2))], pins=(Pin("x", 0, day(0), ("a", "b")),))
    placed = arrange(question).placed
    moved = move(question, placed, "x", 0, day(0), Sending(("c", "d")))
    assert moved.placed[0].crew == (("c", "d"),)
    assert [(each.kind, each.person) for each in moved.broken] == [
        (BreakKind.PINNED_PERSON_GONE, "a"),
        (BreakKind.PINNED_PERSON_GONE, "b"),
    ]
    assert sent_words(["Cy", "Di"], None, moved.sent_days) == "Cy, Di on 1 day."
    assert sent_words(["Cy"], ["Ada"], 2) == "Cy instead of Ada on 2 days."
    assert sent_words(["Cy"], ["Ada"], 0) == ""
