"""What a search asks for and what it finds."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any, Protocol

from pavewright.proposals._variations import with_starts, with_variations

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from pavewright.proposals._aim import Aim
    from pavewright.proposals._figures import Figures
    from pavewright.proposals._to_try import Limit
    from pavewright.proposals._variations import Variation


class Refused(StrEnum):
    """Why a plan is not among those that are compared."""

    NO_PLAN = "no_plan"
    LESS_KNOWN = "less_known"
    NEW_STOP = "new_stop"


@dataclass(frozen=True, slots=True)
class PieceAsked:
    """A plan that is wanted.

    Attributes:
        key: Its name: the same question has the same one.
        payload: The question, as JSON.
    """

    key: str
    payload: bytes


class AskPlans(Protocol):
    """Whoever makes plans: here, on all cores, or on other machines."""

    def __call__(self, pieces: Sequence[PieceAsked], /) -> Iterable[tuple[str, bytes]]:
        """Give the answers by their keys, in any order; fewer where it was stopped."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """A plan that was made.

    Attributes:
        variations: What is done otherwise; nothing for the job as drawn.
        figures: What it comes to.
        starts: Places of areas with the fields of the starts that were found for them. [deg and mm, as the names say]
    """

    variations: tuple[Variation, ...]
    figures: Figures
    starts: tuple[tuple[int, tuple[tuple[str, float | str], ...]], ...] = ()

    def document(self, drawn: dict[str, Any]) -> dict[str, Any]:
        """Return the job document with this proposal.

        Args:
            drawn: The document as drawn, with or without what the book gives it.
        """
        made = with_variations(drawn, self.variations)
        assert made is not None  # noqa: S101 - it was planned
        return with_starts(made, [[number, dict(fields)] for number, fields in self.starts])


class Win(StrEnum):
    """Why a proposal is recommended."""

    AS_DRAWN = "as_drawn"
    ALONE = "alone"
    GAINS_MOST = "gains_most"


@dataclass(frozen=True, slots=True)
class Gain:
    """What a proposal gains in one aim.

    Attributes:
        aim: In what.
        was: What the job as drawn comes to. [minor units, pieces, days, kg or mm]
        now: What it comes to. [minor units, pieces, days, kg or mm]
    """

    aim: Aim
    was: float
    now: float


@dataclass(frozen=True, slots=True)
class Recommended:
    """The proposal that is recommended.

    Attributes:
        place: Its place in the front; None where that is the job as drawn, which another one may beat in no aim.
        win: Why it wins.
        gains: What it gains, in the order of the aims.
        same: In what else it is at least as good.
        rivals: How many others are no worse than the job as drawn in anything that matters either.
        stops_ended: How many stops of the job as drawn it ends.
        new_checks: How many kinds of things it brings that have to be looked at.
    """

    place: int | None
    win: Win
    gains: tuple[Gain, ...] = ()
    same: tuple[Aim, ...] = ()
    rivals: int = 0
    stops_ended: int = 0
    new_checks: int = 0


@dataclass(frozen=True, slots=True)
class Proposals:
    """What a search found.

    Attributes:
        aims: What matters to who asked.
        drawn: The job as drawn.
        front: The plans that no other one beats in what matters, the job as drawn where it is one of them.
        best: The one that is recommended, and why.
        planned: How many whole plans were made.
        refused: How many of them are not compared, by the reason.
        singles: How many single variations there are.
        limits: What is not tried.
        whole: Whether the search came to its end; no where it was stopped.
    """

    aims: tuple[Aim, ...]
    drawn: Proposal
    front: tuple[Proposal, ...]
    best: Recommended
    planned: int
    refused: tuple[tuple[Refused, int], ...]
    singles: int
    limits: tuple[Limit, ...]
    whole: bool


class NotPlannedError(Exception):
    """The job as drawn could not be planned, or the search was stopped before it was."""
