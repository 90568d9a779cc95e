"""The order book in plain values: states with their reasons, what is due, money by weeks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.desk._order_book_words import DUE, GAPS, NOT_TAKEN, REASONS, STATES, WORDS
from pavewright.desk._plain import plain
from pavewright.order_book import DueKind, JobState, MoneyGap, NotTaken, Why, state_of
from pavewright.writing import day_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.order_book import DueItem, JobFacts
    from pavewright.store import FirmMoney

_SHORT = 80
"""Letters of a question in a list."""


def order_words() -> dict[str, dict[str, str]]:
    """Return the words of states and of reasons why a job is not done, in their order."""
    return {
        "states": {state.value: words for state, words in STATES.items()},
        "not_taken": {why.value: words for why, words in NOT_TAKEN.items()},
    }


def state_told(facts: JobFacts) -> dict[str, Any]:
    """Return how far a job is and why, in words.

    Args:
        facts: Facts of the job.
    """
    state, reason = state_of(facts)
    if reason.why is Why.BY_HAND:
        words = WORDS.by_hand(follows=STATES[reason.follows].lower())
    elif reason.on is None:
        words = WORDS.plain(why=REASONS[reason.why])
    else:
        words = WORDS.on(why=REASONS[reason.why], day=day_text(reason.on))
    return {
        "state": state.value,
        "words": STATES[state],
        "reason": words,
        "by_hand": reason.why is Why.BY_HAND,
        "not_taken": "" if reason.not_taken is None else NOT_TAKEN[reason.not_taken],
        "snags": reason.snags_open,
    }


def due_told(items: Iterable[DueItem], *, money: bool) -> list[dict[str, Any]]:
    """Return what is due, each with its words.

    Args:
        items: What is due.
        money: Whether who asks may see money.
    """
    return [
        {
            "job": item.job_id,
            "title": item.title,
            "place": item.place,
            "kind": item.fact.kind.value,
            "key": item.fact.key,
            "on": item.fact.on.isoformat(),
            "when": item.when.value,
            "days": item.days,
            "words": _words(item),
            "by": _by(item),
            "amount_minor": item.fact.amount_minor if money else None,
            "currency": item.currency,
        }
        for item in items
    ]


def _words(item: DueItem) -> str:
    fact, words = item.fact, DUE[item.fact.kind]
    if fact.kind is DueKind.SILENT:
        seen = fact.seen_on
        return WORDS.sent_unseen(what=words) if seen is None else WORDS.sent_seen(what=words, day=day_text(seen))
    if fact.what:
        words = WORDS.about(what=words, about=fact.what[:_SHORT])
    return WORDS.counted(what=words, count=fact.count) if fact.count > 1 else words


def _by(item: DueItem) -> str:
    days = item.days
    near = {-1: WORDS.yesterday, 0: WORDS.today, 1: WORDS.tomorrow}
    if days in near:
        return near[days]
    if item.fact.kind is DueKind.ACCEPTED:
        return WORDS.ago(days=-days)
    return WORDS.late(days=-days) if days < 0 else WORDS.soon(days=days)


def money_told(found: FirmMoney) -> dict[str, Any]:
    """Return the money of all jobs by weeks, and the jobs of which not all is known with why."""
    return {
        "weeks": plain(found.weeks),
        "unknown": [
            {"job": job, "title": title, "why": [GAPS[MoneyGap(gap)] for gap in gaps]}
            for job, title, gaps in found.unknown
        ],
    }


def hand_set(document: dict[str, Any], asked: dict[str, str], day: str) -> None:
    """Write into a job document the state that a person sets; without a state what was set is taken out.

    Args:
        document: The job document.
        asked: The state, who sets it, why the job is not done, and a note.
        day: The day on which it is set, as ISO text.

    Raises:
        ValueError: there is no such state, or no such reason.
    """
    standing = document.setdefault("standing", {})
    if not asked.get("state"):
        standing["by_hand"] = None
        return
    hand = {
        "state": JobState(asked["state"]).value,
        "on": day,
        "by": asked.get("by", ""),
        "note": asked.get("note", ""),
    }
    if asked.get("why"):
        hand["why"] = NotTaken(asked["why"]).value
    standing["by_hand"] = hand
