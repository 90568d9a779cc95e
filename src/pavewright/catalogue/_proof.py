"""What the cases prove: how many were printed and read, and which sums nothing printed proves."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright.catalogue._faults import CaseFault
from pavewright.catalogue._sources import source_named, sources_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from pavewright.rules import Source
    from pavewright.sums import Sum


class CaseStatus(StrEnum):
    """How a case is known."""

    PRINTED = "S"
    """Inputs and answers were both read in the source."""
    WORKED = "D"
    """Worked out by us, with nothing printed to compare it with."""
    PRACTICE = "C"
    """A fact that the trade knows."""
    MEMORY = "M"
    """From memory."""


class Expectation(StrEnum):
    """How a case is meant to come out."""

    AGREES = "agrees"
    REFUSED = "refused"
    DIFFERS = "differs"


class Standing(StrEnum):
    """What a case is worth as proof."""

    PRINTED = "printed and met"
    CORRECTED = "printed and wrong, with our answer and the reason"
    UNFINDABLE = "printed, but its source cannot be looked up"
    REFUSED = "printed, and refused with the reason"
    WORKED = "worked out by us"
    PRACTICE = "common practice"
    MEMORY = "from memory"


@dataclass(frozen=True, slots=True)
class CaseRecord:
    """One case as proof.

    Attributes:
        case: Name of the case.
        sum_name: Name of the sum that it runs.
        source: Where it was printed.
        standing: What it is worth as proof.
    """

    case: str
    sum_name: str
    source: Source
    standing: Standing


@dataclass(frozen=True, slots=True)
class SumProof:
    """The cases of one sum.

    Attributes:
        sum_name: Name of the sum.
        counts: How many cases of each standing it has.
    """

    sum_name: str
    counts: Mapping[Standing, int]

    @property
    def printed(self) -> bool:
        """Whether an example that was printed and read, in a source that can be looked up, agrees with it."""
        return self.counts.get(Standing.PRINTED, 0) > 0


def case_records(document: Mapping[str, Any], register: Mapping[str, Source]) -> tuple[CaseRecord, ...]:
    """Return the cases of a file as proof.

    Raises:
        CaseFault: a case is not sound.
    """
    known = sources_of(document, register)
    return tuple(_record(case, known) for case in document.get("case", ()))


def proofs(records: Iterable[CaseRecord], sums: Iterable[Sum]) -> tuple[SumProof, ...]:
    """Return for each sum how many cases of each standing it has."""
    counts: dict[str, Counter[Standing]] = {entry.name: Counter() for entry in sums}
    for record in records:
        counts.setdefault(record.sum_name, Counter())[record.standing] += 1
    return tuple(SumProof(name, counted) for name, counted in counts.items())


def read_status(case: Mapping[str, Any]) -> CaseStatus:
    """Return the status of a case.

    Raises:
        CaseFault: the status is none, or a case that says what of it was not read calls itself read.
    """
    try:
        status = CaseStatus(case["status"])
    except ValueError:
        message = f"case {case.get('name', '?')}: status is S, D, C or M, not {case['status']!r}"
        raise CaseFault(message) from None
    if status is CaseStatus.PRINTED and case.get("not_read"):
        message = f"case {case['name']}: what was not read is no S: {case['not_read']}"
        raise CaseFault(message)
    return status


def read_expectation(case: Mapping[str, Any]) -> Expectation:
    """Return how a case is meant to come out.

    Raises:
        CaseFault: it is none of the three, or the reason for a refusal or a difference is missing.
    """
    try:
        expect = Expectation(case.get("expect", "agrees"))
    except ValueError:
        expect = None
    if expect is None or (expect is not Expectation.AGREES and not case.get("why")):
        message = f"case {case['name']}: expect agrees, refused or differs, the last two with a reason"
        raise CaseFault(message)
    return expect


def _record(case: Mapping[str, Any], known: Mapping[str, Source]) -> CaseRecord:
    source = source_named(case["source"], known)
    return CaseRecord(case["name"], case["sum"], source, _standing(case, source))


def _standing(case: Mapping[str, Any], source: Source) -> Standing:
    status, expect = read_status(case), read_expectation(case)
    if status is not CaseStatus.PRINTED:
        return _UNPRINTED[status]
    if not source.findable:
        return Standing.UNFINDABLE
    return _PRINTED[expect]


_UNPRINTED = {
    CaseStatus.WORKED: Standing.WORKED,
    CaseStatus.PRACTICE: Standing.PRACTICE,
    CaseStatus.MEMORY: Standing.MEMORY,
}
_PRINTED = {
    Expectation.AGREES: Standing.PRINTED,
    Expectation.DIFFERS: Standing.CORRECTED,
    Expectation.REFUSED: Standing.REFUSED,
}
