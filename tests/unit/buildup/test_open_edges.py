"""Edges beyond which something is open: typed, in no price, and said on the customer's page; guards by the edition."""

from __future__ import annotations

import pytest

from pavewright import rulebook
from pavewright.buildup import OpenKind, Remedy, build_up
from pavewright.job import parse
from pavewright.levels import finished_levels
from pavewright.papers import customer_words
from pavewright.pipeline import plan
from pavewright.quantities import GapReason, ScopeKind


def terrace(small, ground_mm):
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 1000.0, "level_at": "P0", "level_mm": 1000.0}
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 1150.0}]
    small.flat_ground(ground_mm)
    return entered


def test_a_bank_and_a_carry_that_nobody_paced_stand_on_the_customers_page(small):
    terrace(small, 1300.0)
    made = plan(parse(small.document), small.rules)
    banks = [each for each in made.build_ups.open_edges if each.kind is OpenKind.BANK_ABOVE]
    assert [each.stands_mm for each in banks] == pytest.approx([304.0, 304.0, 304.0], abs=1.0)
    kinds = [(gap.scope[0].kind, gap.reason) for gap in made.cost.gaps]
    assert kinds.count((ScopeKind.LOW_WALL, GapReason.NOT_MEASURED)) == 3
    assert kinds.count((ScopeKind.CARRYING, GapReason.NOT_KNOWN)) == 1
    said = customer_words(made, small.rules).not_included
    assert sum("304 mm over the paving" in words for words in said) == 3
    assert any(words.startswith("Carrying") for words in said)


def test_ground_that_nobody_read_is_open_on_the_customers_page(small):
    terrace(small, 1000.0)
    small.document["measurements"].pop("ground_points")
    small.site["carry_mm"] = 0.0
    made = plan(parse(small.document), small.rules)
    assert {each.kind for each in made.build_ups.open_edges} == {OpenKind.GROUND_UNKNOWN}
    said = customer_words(made, small.rules).not_included
    assert any("P2–P3" in words and "not known" in words for words in said)
    assert not any("Carrying" in words for words in said)


@pytest.mark.parametrize(("ground_mm", "guarded"), [(390.0, False), (200.0, True)])
def test_in_the_united_states_a_guard_begins_at_thirty_inches(small, ground_mm, guarded):
    terrace(small, ground_mm)
    rules = rulebook.load("usa")
    job, measured = small.surveyed()
    ups = build_up(job, measured, finished_levels(job, measured, rules), rules)
    reported = [each for each in ups.findings if each.code == "buildup.guard_needed"]
    assert bool(reported) is guarded
    assert all("914" in each.message and "a ball of 101.6 mm" in each.message for each in reported)


def test_a_bank_that_falls_away_within_thirty_six_inches_wants_a_guard_though_the_edge_stands_low(small):
    terrace(small, 1000.0)
    names = [
        small.point(f"B{k}", x, y, z)
        for k, (x, y, z) in enumerate(
            ((-9000, -9000, 950), (9000, -9000, 950), (9000, 4400, 950), (-9000, 4400, 950), (9000, 4800, 150),
             (-9000, 4800, 150), (9000, 9000, 150), (-9000, 9000, 150))
        )
    ]  # fmt: skip
    small.document["measurements"]["ground_points"] = names
    rules = rulebook.load("usa")
    job, measured = small.surveyed()
    levels = finished_levels(job, measured, rules)
    ups = build_up(job, measured, levels, rules)
    guards = [edge for edge in ups.retained if edge.remedy is Remedy.GUARD]
    assert [edge.side for edge in guards] == ["P2–P3"]
    assert guards[0].guarded_mm == pytest.approx(6000.0)
    assert guards[0].wall is None
    # 300 mm past the edge, where the other editions look, the ground is level with it
    assert not [edge for edge in build_up(job, measured, levels, small.rules).retained if edge.guarded_mm]


def test_edges_round_an_opening_are_not_known_and_that_is_said(small):
    entered = small.rectangle(6000.0, 4000.0)
    for name, x, y in (("H1", 2000, 1000), ("H2", 3000, 1000), ("H3", 3000, 2000), ("H4", 2000, 2000)):
        small.point(name, x, y)
    entered["holes"] = [[{"point": name} for name in ("H1", "H2", "H3", "H4")]]
    made = plan(parse(small.document), small.rules)
    (found,) = [each for each in made.build_ups.findings if each.code == "buildup.opening_edges_unknown"]
    assert found.severity.value == "check"
    assert "is not known and was not looked at" in found.message
    del entered["holes"]
    again = plan(parse(small.document), small.rules)
    assert not [each for each in again.build_ups.findings if each.code == "buildup.opening_edges_unknown"]
