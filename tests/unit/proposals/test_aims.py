"""What a plan is compared by: unknown is a class of its own, a stop never wins, and fronts lose nothing."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.pipeline import CarbonRange
from pavewright.proposals import (
    ALL_AIMS,
    Aim,
    Amount,
    Clearance,
    ClearanceKind,
    Figures,
    Proposal,
    StopFound,
    at_least_as_good,
    beats,
    figures_json,
    figures_read,
    front_of,
    recommended,
)


def figures(**given):
    usual = {
        "rooms": ("laying",),
        "price_minor": 100_000,
        "price_gaps": (),
        "cut": 20,
        "slivers": 0,
        "unlayable": 0,
        "days": 5,
        "carbon": CarbonRange(900.0, 1000.0, 1200.0),
        "carbon_gaps": (Amount("units.1", 40.0),),
        "clearance": Clearance(ClearanceKind.KNOWN, 150.0),
        "stops": (),
        "checks": (),
    }
    return Figures(**(usual | given))


AMOUNTS = st.lists(
    st.builds(Amount, st.sampled_from(["a", "b"]), st.one_of(st.none(), st.sampled_from([1.0, 2.0]))), max_size=2
).map(tuple)
CLEARANCES = st.one_of(
    st.sampled_from([Clearance(ClearanceKind.NOT_READ), Clearance(ClearanceKind.NO_WALL)]),
    st.builds(Clearance, st.just(ClearanceKind.KNOWN), st.sampled_from([150.0, 160.0])),
)
CARBONS = st.one_of(st.none(), st.sampled_from([700.0, 1000.0]).map(lambda kg: CarbonRange(kg, kg + 10, kg + 300)))
PLANS = st.builds(
    figures,
    price_minor=st.one_of(st.none(), st.sampled_from([90_000, 100_000])),
    price_gaps=AMOUNTS,
    cut=st.integers(18, 20),
    days=st.one_of(st.none(), st.integers(4, 5)),
    carbon=CARBONS,
    carbon_gaps=AMOUNTS,
    clearance=CLEARANCES,
    stops=st.lists(st.sampled_from(["s", "t"]).map(lambda code: StopFound(code, "")), max_size=1).map(tuple),
)
AIMS = st.sets(st.sampled_from(ALL_AIMS), min_size=1).map(lambda aims: tuple(a for a in ALL_AIMS if a in aims))


@settings(deadline=None)
@given(st.lists(PLANS, max_size=12), AIMS)
def test_a_front_has_no_beaten_member_and_every_other_plan_is_beaten_or_level(plans, aims):
    front = front_of(plans, aims)
    for place in front:
        assert not any(beats(other, plans[place], aims) for other in plans)
    for place, plan in enumerate(plans):
        if place not in front:
            better = [plans[each] for each in front]
            assert any(
                each.stops_by_code <= plan.stops_by_code and all(at_least_as_good(aim, each, plan) for aim in aims)
                for each in better
            )


@settings(deadline=None)
@given(PLANS, PLANS, PLANS, st.sampled_from(ALL_AIMS))
def test_at_least_as_good_goes_on_from_plan_to_plan(one, other, third, aim):
    assert at_least_as_good(aim, one, one)
    if at_least_as_good(aim, one, other) and at_least_as_good(aim, other, third):
        assert at_least_as_good(aim, one, third)


@settings(deadline=None)
@given(st.lists(PLANS, min_size=1, max_size=12), AIMS)
def test_what_is_recommended_is_never_worse_than_the_job_as_drawn(plans, aims):
    drawn = Proposal((), plans[0])
    made = [drawn, *(Proposal(("something",), each) for each in plans[1:])]
    front = tuple(made[place] for place in front_of([each.figures for each in made], aims))
    best = recommended(drawn, front, aims)
    now = drawn.figures if best.place is None else front[best.place].figures
    assert all(at_least_as_good(aim, now, drawn.figures) for aim in aims)
    assert now.stops_by_code <= drawn.figures.stops_by_code


@settings(deadline=None)
@given(PLANS)
def test_figures_come_back_from_json_as_they_were(plan):
    assert figures_read(figures_json(plan)) == plan


def test_an_unknown_clearance_beats_no_known_one_and_is_beaten_by_none():
    unread = figures(clearance=Clearance(ClearanceKind.NOT_READ), price_minor=1)
    known = figures(price_minor=100_000)
    assert not beats(unread, known, ALL_AIMS)
    assert not beats(figures(price_minor=1), figures(clearance=Clearance(ClearanceKind.NOT_READ)), ALL_AIMS)


def test_an_unknown_carbon_beats_no_known_one():
    assert not beats(figures(carbon=None, price_minor=1), figures(), ALL_AIMS)
    assert not beats(figures(price_minor=1), figures(carbon=None), ALL_AIMS)


def test_a_plan_with_a_stop_beats_none_without():
    stopped = figures(stops=(StopFound("levels.clash", ""),), price_minor=1, cut=0, days=1)
    assert not beats(stopped, figures(), ALL_AIMS)
    assert beats(figures(), figures(stops=stopped.stops), ALL_AIMS)


def test_a_price_that_leaves_more_out_is_no_cheaper_one():
    gaps = (Amount("no_price:", 3.0),)
    cheap = figures(price_minor=90_000, price_gaps=gaps)
    assert not at_least_as_good(Aim.PRICE, cheap, figures())
    assert at_least_as_good(Aim.PRICE, cheap, figures(price_gaps=(Amount("no_price:", 4.0),)))
    assert not at_least_as_good(Aim.PRICE, cheap, figures(price_gaps=(Amount("no_price:", 2.0),)))


def test_carbon_of_other_units_is_not_compared():
    other = figures(carbon=CarbonRange(100.0, 200.0, 300.0), carbon_gaps=(Amount("units.2", 10.0),))
    assert not at_least_as_good(Aim.CARBON, other, figures())
    assert not at_least_as_good(Aim.CARBON, figures(), other)
    fewer = figures(carbon=CarbonRange(800.0, 900.0, 1000.0), carbon_gaps=(Amount("units.1", 20.0),))
    assert at_least_as_good(Aim.CARBON, fewer, figures())
    assert not at_least_as_good(Aim.CARBON, figures(carbon_gaps=(Amount("units.1", 60.0),)), figures())
