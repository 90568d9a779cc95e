"""The words of sheets of finished paving: its surface, standing water, snags and later visits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job.on_site import SnagKind, SnagState
from pavewright.writing import Catalogue, Sentence

if TYPE_CHECKING:
    from collections.abc import Mapping

SNAG_KINDS: Mapping[SnagKind, str] = {
    SnagKind.LEVEL: "level",
    SnagKind.STANDING_WATER: "standing water",
    SnagKind.LIP: "step between units",
    SnagKind.GAP: "gap under an edge",
    SnagKind.JOINT: "joint",
    SnagKind.ROCKING: "rocks",
    SnagKind.CHIPPED: "chipped",
    SnagKind.STAINED: "stained",
    SnagKind.DRAIN: "drain",
    SnagKind.EDGE: "edge",
    SnagKind.OTHER: "other",
}
"""What is wrong."""
SNAG_STATES: Mapping[SnagState, str] = {
    SnagState.OPEN: "OPEN",
    SnagState.DONE: "done",
    SnagState.LEFT: "agreed to stay",
}
"""How far a snag is."""


@dataclass(frozen=True, slots=True)
class LaidWords(Catalogue):
    """The words of sheets of finished paving."""

    standing: str = "Standing water"
    unread: Sentence = Sentence("Listed and not read, so nothing is known there: {names}.")
    not_by_levels: str = "Beside the levels"
    of_area: Sentence = Sentence("{area}: {why}.")
    area_is: Sentence = Sentence("{area}: {state}")
    read_next: str = "Where to read next"
    decides: str = "decides"
    what_rests: str = "What the chances rest on"
    hose: str = "Hose test"
    hose_about: Sentence = Sentence(
        "{test} on {area}, {day}, {seen}looked at {minutes} min after the water was off: {how}."
    )
    seen_by: Sentence = Sentence("seen by {who}, ")
    whole_seen: str = "the whole area was wetted and looked at"
    part_seen: str = "not the whole area was wetted and looked at"
    at_pond: Sentence = Sentence("pond {number}")
    beside: str = "beside the readings"
    drains: str = "Paving above gratings"
    drains_held: Sentence = Sentence("Held to {low} to {high} mm above the grating, never below it.")
    surface: str = "Surface as laid"
    held_to: Sentence = Sentence("Flatness, steps and joints are held to: {regime}.")
    fall_planned: str = "steepest planned"
    fall_found: str = "steepest found"
    farthest: str = "farthest off mm"
    twist: str = "twist mm"
    edge: Sentence = Sentence("{edge} m edge")
    by_readings: str = "Straight edge rolled along the readings"
    contacts: Sentence = Sentence("on {first} and {last}, at {lowest}")
    between: str = "between readings not known"
    gaps: str = "Gaps under a straight edge"
    lips: str = "Steps between units"
    joints: str = "Joints"
    trusted: str = "± mm, two standard deviations"
    no_verdict: str = "no limit"
    movement: Sentence = Sentence("{day}, {days} days after laying: {verdict}")
    movement_about: str = "Up is positive. ± is two standard deviations; less than that is no movement."
    snags: str = "Snag list"
    snags_none: str = "No snags are listed."
    snags_open: Sentence = Sentence("{count} open of {all}.")
    nobody: str = "NOBODY YET"
    no_day: str = "no day agreed"
    place_unknown: str = "place not noted"
    east_north: Sentence = Sentence("{x} m, {y} m")
    at: Sentence = Sentence("{area} at {x} m, {y} m")
    again: str = "Later visit: the same places again"
    again_about: Sentence = Sentence(
        "After 3 months (about {first}) and 12 months (about {second}) read these places again, after the fixed marks. "
        "Without marks that do not move nothing is known of what moved."
    )
    again_marks: str = "Fixed marks first: a sill, a cover frame, a nail in a wall"
    no_marks: str = "No fixed mark was read when the paving was laid: read two now, for the next visit."
    as_laid: str = "as laid"


WORDS = LaidWords()
"""The words of sheets of finished paving."""
