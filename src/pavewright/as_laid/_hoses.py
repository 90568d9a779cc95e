"""Hose tests by themselves: which still count, and what each says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid._types_judged import HoseAsLaid
from pavewright.as_laid._verdicts import Verdict

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.job.on_site import HoseTest
    from pavewright.rules import Figure, Rulebook


def hoses_as_laid(job: Job, rules: Rulebook) -> tuple[HoseAsLaid, ...]:
    """Return the hose tests that still count, each with its verdict: a later one of the whole area replaces others."""
    limit, wait = rules.figure("as_laid.pond_shallowest_mm"), rules.figure("as_laid.hose_after_min")
    return tuple(_hose(each, limit, wait) for each in job.hose_tests if not _is_past(each, job.hose_tests, wait))


def _is_past(test: HoseTest, tests: tuple[HoseTest, ...], wait: Figure) -> bool:
    return any(
        each.area == test.area and each.date > test.date and _is_whole(each) and each.after_min >= wait.value
        for each in tests
    )


def _is_whole(test: HoseTest) -> bool:
    return test.all_wet and test.all_seen


def _hose(test: HoseTest, limit: Figure, wait: Figure) -> HoseAsLaid:
    wet = [each for each in test.marks if each.depth_mm > 0.0]
    deepest = max((each.depth_mm for each in wet), default=0.0)
    return HoseAsLaid(
        name=test.name,
        area=test.area,
        marks=tuple(each.name for each in wet),
        deepest_mm=deepest,
        after_min=test.after_min,
        is_whole=_is_whole(test),
        limit=limit,
        wait=wait,
        verdict=_verdict(test, deepest, limit, wait),
    )


def _verdict(test: HoseTest, deepest_mm: float, limit: Figure, wait: Figure) -> Verdict:
    """Return what a test says: water looked at too early may still run off, and what nobody saw is not dry."""
    if deepest_mm > limit.value:
        return Verdict.FAILS if test.after_min >= wait.value else Verdict.INCONCLUSIVE
    return Verdict.PASSES if deepest_mm == 0.0 and _is_whole(test) else Verdict.INCONCLUSIVE
