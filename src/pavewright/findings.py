"""Findings: what the program noticed on a job, in plain words with place, value and limit.

A finding is never an error of the program. It says where something breaks a rule or needs a look, how far it is off in
millimetres, which figure decided it, and the options: what could be done, whose it is to do, and at what price.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.rules import Figure


class Severity(StrEnum):
    """How much a finding matters: stop before going on, check on site, or note."""

    STOP = "stop"
    CHECK = "check"
    NOTE = "note"


_ORDER = {Severity.STOP: 0, Severity.CHECK: 1, Severity.NOTE: 2}


class MoneyCode(StrEnum):
    """A code of a room whose findings are about the price alone: they stop a price from being sent, and no work."""


@dataclass(frozen=True, slots=True)
class FieldChange:
    """A field of the job document with the value that an option gives it.

    Attributes:
        path: Where the field stands, parts joined by dots ("areas.0.fall.one_in").
            One past the end of a list adds to it.
        value: What it becomes; None where it is left open. [unit of the field]
    """

    path: str
    value: str | float | bool | None


class OptionKind(StrEnum):
    """What an option asks for."""

    DESIGN = "design"
    MOVE = "move"
    WISH = "wish"
    RULE = "rule"
    REFUSED = "refused"
    ANSWER = "answer"


class Owner(StrEnum):
    """Whose the thing is that an option alters: only what is the customer's own is altered without asking."""

    OWN = "own"
    NEIGHBOUR = "neighbour"
    HIGHWAY = "highway"
    NOT_KNOWN = "not_known"


@dataclass(frozen=True, slots=True)
class OptionFacts:
    """What an option is, for putting options in order.

    Attributes:
        kind: What it asks for: another design, a thing moved, a wish or a rule given up, nothing that is
            offered, or an answer to what is asked, with which nothing is built otherwise.
        owner: Whose the thing is that it alters.
        aside_minor: Price of work that the plan itself does not measure, such as moving a frame. [minor units]
        invented: Whether that price is an invented one.
        extra_minor: How much more the whole job costs with it, that work included, less than zero where it saves; None
            where it was not calculated. [minor units]
        brings_stop: Whether the job then stops for another reason.
        extra_days: How many working days later it is done with it, less than zero for earlier; None where that was not
            calculated. [days]
    """

    kind: OptionKind = OptionKind.DESIGN
    owner: Owner = Owner.OWN
    aside_minor: int = 0
    invented: bool = False
    extra_minor: int | None = None
    brings_stop: bool = False
    extra_days: int | None = None


@dataclass(frozen=True, slots=True)
class Option:
    """An option: what could be done, and what that changes in the job; nothing where a person has to decide."""

    words: str
    changes: tuple[FieldChange, ...] = ()
    facts: OptionFacts = OptionFacts()


@dataclass(frozen=True, slots=True)
class ChainLink:
    """One link of the levels that lead to a clash.

    Attributes:
        words: What it says, one sentence.
        level_mm: The level to which it leads; None where it leads to none. [mm]
    """

    words: str
    level_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing noticed.

    Attributes:
        code: Stable short name, ``room.thing``, for tests and machines.
        severity: Stop, check or note.
        place: Where, in the job's own names ("wall House rear, 2.40 m from A").
        message: A sentence for a person, millimetres and plain words.
        value: What was found, if it is a number. [in ``unit``]
        limit: What it was checked against, if it is a number. [in ``unit``]
        unit: Unit of value and limit.
        figure: The rulebook figure that decided, with its source and status.
        chain: The levels that lead to a clash, link by link.
        options: What could be done, in the order in which to look at it.
        at_mm: Place on the plan for the drawing, x and y. [mm]
        tries_options: Whether its options are tried by planning the job with them, although it does not stop the job.
    """

    code: str
    severity: Severity
    place: str
    message: str
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    figure: Figure | None = None
    chain: tuple[ChainLink, ...] = ()
    options: tuple[Option, ...] = ()
    at_mm: tuple[float, float] | None = None
    tries_options: bool = False

    @property
    def of_money(self) -> bool:
        """Whether it is about the price alone: a crew may go, a price may not."""
        return isinstance(self.code, MoneyCode)

    @property
    def chain_words(self) -> tuple[str, ...]:
        """What each link of the chain says, in order."""
        return tuple(link.words for link in self.chain)

    @property
    def option_words(self) -> tuple[str, ...]:
        """What each option says, in order."""
        return tuple(option.words for option in self.options)

    def with_options(self, options: Iterable[Option]) -> Finding:
        """Return the finding with these options in their order; a sentence said twice is kept once."""
        kept: dict[str, Option] = {}
        for option in options:
            kept.setdefault(option.words, option)
        return replace(self, options=tuple(kept.values()))


def worded(sentences: Iterable[str]) -> tuple[Option, ...]:
    """Return options that a person decides: sentences without a change of the job document."""
    return tuple(map(Option, sentences))


def worth_looking_at(options: Iterable[Option]) -> tuple[Option, ...]:
    """Return options in the order in which to look at them.

    What is the customer's own comes first, then what is not; in each, what keeps every rule before what gives one up,
    known prices before unknown ones, what ends all stops before what brings another, and the cheapest first. What is
    not offered stands last.
    """
    return tuple(sorted(options, key=_rank))


def _rank(option: Option) -> tuple[bool, bool, bool, bool, bool, int]:
    facts = option.facts
    return (
        facts.kind is OptionKind.REFUSED,
        facts.owner is not Owner.OWN,
        facts.kind is OptionKind.RULE,
        facts.extra_minor is None,
        facts.brings_stop,
        facts.extra_minor or 0,
    )


def ask_first(owner: Owner) -> str:
    """Return whom to ask before a thing is altered, as the beginning of a sentence; nothing for what is one's own."""
    return _ASK[owner]


_ASK = {
    Owner.OWN: "",
    Owner.NEIGHBOUR: "Ask the neighbour first, and have the answer in writing: ",
    Owner.HIGHWAY: "Ask the highway authority first: ",
    Owner.NOT_KNOWN: "Find out whose it is and ask the owner first: ",
}


def one_in_within(fall: float, *, flatter: bool) -> float:
    """Return n of 1 in n for a fall, rounded to a hundredth so that the fall is at most, or at least, so steep.

    Args:
        fall: Rise over run, more than zero. [rise over run]
        flatter: Whether rounding may make it flatter only; else steeper only.

    >>> one_in_within(1.0 / 73.456, flatter=True), one_in_within(1.0 / 73.456, flatter=False)
    (73.46, 73.45)
    """
    hundredths = 100.0 / fall
    return (math.ceil(hundredths - _EXACT) if flatter else math.floor(hundredths + _EXACT)) / 100.0


_EXACT = 1e-6
"""A number this near to a whole one is whole."""


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings with those that say stop first, otherwise in the order in which they came."""
    return tuple(sorted(findings, key=lambda finding: _ORDER[finding.severity]))


def says_stop(findings: Iterable[Finding]) -> bool:
    """Return whether any finding says stop."""
    return any(finding.severity is Severity.STOP for finding in findings)
