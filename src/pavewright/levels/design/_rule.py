"""The rules that levels have to keep: each with what it is about and the thing on the site that makes it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class RuleKind(StrEnum):
    """What a rule of levels is about; one that may give way has its price under the same word."""

    DPC = "dpc"
    AIR_BRICK = "air_brick"
    DOOR = "door"
    DOOR_REACH = "door_reach"
    COVER = "cover"
    GULLY = "gully"
    TIE_IN = "tie_in"
    JOIN = "join"
    ASKED = "asked"
    MIN_FALL = "min_fall"
    STEEPEST = "steepest"
    VALLEY_FALL = "valley_fall"
    FACETS_MEET = "facets_meet"
    DRAINS = "drains"
    ONE_RISER = "one_riser"


FRAMES = frozenset({RuleKind.COVER, RuleKind.GULLY})
"""Things that are set to a level rather than moved past a limit."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule.

    Attributes:
        kind: What it is about.
        path: Where the thing that makes it stands in the job document; empty for a rule of falls and of planes.
    """

    kind: RuleKind
    path: str = ""


MIN_FALL, STEEPEST = Rule(RuleKind.MIN_FALL), Rule(RuleKind.STEEPEST)
VALLEY_FALL = Rule(RuleKind.VALLEY_FALL)
FACETS_MEET, DRAINS, ONE_RISER = Rule(RuleKind.FACETS_MEET), Rule(RuleKind.DRAINS), Rule(RuleKind.ONE_RISER)
"""The rules that do not come from a thing on the site."""
