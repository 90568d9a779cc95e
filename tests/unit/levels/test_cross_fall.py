"""Paving that meets an edge which falls along its length is offered the cross fall of that edge."""

from __future__ import annotations

import pytest


def _edge(terrace, left_mm, right_mm):
    """Let the far side of the terrace, 3 m from the house and 6 m long, meet an edge; looking downhill D is left."""
    terrace.site["tie_ins"] = [
        {"name": "Path", "start": "D", "end": "C", "start_level_mm": left_mm, "end_level_mm": right_mm}
    ]


def _clash(terrace):
    return [each for each in terrace.levels().findings if each.code == "levels.tie_in_clash"]


def _cross(finding):
    return [each for each in finding.options if any("cross_one_in" in change.path for change in each.changes)]


@pytest.mark.parametrize(("left_mm", "right_mm", "to"), [(9790.0, 9715.0, "right"), (9715.0, 9790.0, "left")])
def test_the_cross_fall_of_the_edge_is_offered_and_ends_the_clash(terrace, left_mm, right_mm, to):
    _edge(terrace, left_mm, right_mm)
    (finding,) = _clash(terrace)
    (option,) = _cross(finding)
    changes = {change.path.rsplit(".", 1)[1]: change.value for change in option.changes}
    # 75 mm over 6 m
    assert changes["cross_one_in"] == pytest.approx(80.0)
    assert changes["cross_to"] == to
    assert "1 in 80" in option.words
    terrace.area["fall"].update(changes)
    assert _clash(terrace) == []
    assert not [each for each in terrace.levels().findings if each.severity.value == "stop"]


def test_an_edge_that_is_level_along_its_length_wants_none(terrace):
    _edge(terrace, 9700.0, 9700.0)
    for finding in _clash(terrace):
        assert _cross(finding) == []


def test_a_cross_fall_too_steep_for_the_use_is_not_offered(terrace):
    _edge(terrace, 9790.0, 9000.0)
    (finding,) = _clash(terrace)
    assert _cross(finding) == []
